package cutting

import "math"

// program is the linear program over patterns: cut at least what is wanted, use
// at most what is at hand, buy the least. It is solved by the revised simplex
// method with columns made as they are needed.
type program struct {
	p     *problem
	hand  []int // numbers of the stock at hand; a row each, after the pieces'
	rows  int
	basis []column
	inv   [][]float64 // of the basis
	x     []float64   // of the basis
	y     []float64   // duals
	bag   knapsack
}

// column is a pattern, or the surplus or slack of a row.
type column struct {
	cost   float64
	stock  int // -1 for surplus and slack
	counts []int
	row    int // of surplus and slack
}

// fine is what duals are rounded down to a part of.
const fine = 1 << 24

func newProgram(p *problem) *program {
	lp := &program{p: p}
	for s, n := range p.hands {
		if n > 0 {
			lp.hand = append(lp.hand, s)
		}
	}
	m := len(p.pieces)
	lp.rows = m + len(lp.hand)
	lp.bag = newKnapsack(p)
	big := p.sale[len(p.sale)-1]
	for i, d := range p.pieces {
		c := column{cost: float64(p.cost[big]), stock: big, counts: make([]int, m)}
		c.counts[i] = min(d.count, p.caps[big]/d.length)
		lp.basis = append(lp.basis, c)
		lp.x = append(lp.x, float64(d.count)/float64(c.counts[i]))
	}
	for k, s := range lp.hand {
		lp.basis = append(lp.basis, column{stock: -1, row: m + k})
		lp.x = append(lp.x, float64(p.hands[s]))
	}
	for r := range lp.rows {
		row := make([]float64, lp.rows)
		row[r] = 1
		if r < m {
			row[r] = 1 / float64(lp.basis[r].counts[r])
		}
		lp.inv = append(lp.inv, row)
	}
	lp.y = make([]float64, lp.rows)
	return lp
}

// solve runs until no column improves the plan, or a generous number of steps.
// Whatever the duals are then, the bound made from them is safe.
func (lp *program) solve() {
	col := make([]float64, lp.rows)
	for range 20*lp.rows + 50 {
		lp.duals()
		c, ok := lp.enter()
		if !ok {
			return
		}
		lp.expand(c, col)
		leave := -1
		for r, v := range col {
			if v > 1e-9 && (leave < 0 || lp.x[r]*col[leave] < lp.x[leave]*v-1e-12 ||
				lp.x[r]*col[leave] <= lp.x[leave]*v && v > col[leave]) {
				leave = r
			}
		}
		if leave < 0 {
			return
		}
		lp.pivot(c, col, leave)
	}
	lp.duals()
}

func (lp *program) duals() {
	for i := range lp.y {
		lp.y[i] = 0
	}
	for r, c := range lp.basis {
		if c.cost != 0 {
			for i, v := range lp.inv[r] {
				lp.y[i] += c.cost * v
			}
		}
	}
}

// enter gives the column that improves the plan most for its cost.
func (lp *program) enter() (column, bool) {
	const tol = 1e-7
	m := len(lp.p.pieces)
	best, least := column{}, -tol
	for i := range m {
		if lp.y[i] < least {
			best, least = column{stock: -1, row: i}, lp.y[i]
		}
	}
	for k := range lp.hand {
		if -lp.y[m+k] < least {
			best, least = column{stock: -1, row: m + k}, -lp.y[m+k]
		}
	}
	if best.stock < 0 && least < -tol {
		return best, true
	}
	lp.bag.fill(lp.values())
	pick := -1
	for s := range lp.p.caps {
		worth := float64(lp.bag.best(s)) / fine
		if r := float64(lp.p.cost[s]) - worth - lp.handDual(s); r < least {
			pick, least = s, r
		}
	}
	if pick < 0 {
		return column{}, false
	}
	return column{cost: float64(lp.p.cost[pick]), stock: pick, counts: lp.bag.pattern(pick)}, true
}

func (lp *program) handDual(s int) float64 {
	for k, h := range lp.hand {
		if h == s {
			return lp.y[len(lp.p.pieces)+k]
		}
	}
	return 0
}

// values gives the duals of the pieces as whole parts of fine.
func (lp *program) values() []int64 {
	v := make([]int64, len(lp.p.pieces))
	for i := range v {
		v[i] = int64(math.Max(0, math.Floor(lp.y[i]*fine)))
	}
	return v
}

// expand gives the column in terms of the basis.
func (lp *program) expand(c column, out []float64) {
	m := len(lp.p.pieces)
	for r, row := range lp.inv {
		sum := 0.0
		switch {
		case c.stock < 0 && c.row < m:
			sum = -row[c.row] // surplus
		case c.stock < 0:
			sum = row[c.row] // slack
		default:
			for i, n := range c.counts {
				if n != 0 {
					sum += row[i] * float64(n)
				}
			}
			for k, h := range lp.hand {
				if h == c.stock {
					sum += row[m+k]
				}
			}
		}
		out[r] = sum
	}
}

func (lp *program) pivot(c column, col []float64, leave int) {
	row := lp.inv[leave]
	f := 1 / col[leave]
	for i := range row {
		row[i] *= f
	}
	lp.x[leave] *= f
	for r, v := range col {
		if r == leave || v == 0 {
			continue
		}
		for i := range row {
			lp.inv[r][i] -= v * row[i]
		}
		lp.x[r] = math.Max(0, lp.x[r]-v*lp.x[leave])
	}
	lp.basis[leave] = c
}

// roundDown keeps the whole bars of the linear plan and cuts the rest by first
// fit.
func (p *problem) roundDown(lp *program) []cut {
	var used []cut
	left := p.wanted()
	for r, c := range lp.basis {
		if c.stock < 0 {
			continue
		}
		for range int(lp.x[r] + 1e-6) {
			bar := cut{stock: c.stock}
			for i, n := range c.counts {
				if n = min(n, left[i]); n > 0 {
					left[i] -= n
					bar.some = append(bar.some, some{i, n})
				}
			}
			if len(bar.some) > 0 {
				used = append(used, bar)
			}
		}
	}
	return p.firstFit(left, used)
}
