package cutting

// knapsack finds, for every capacity, the most valuable pattern that is no more
// than what is wanted of each piece.
type knapsack struct {
	p      *problem
	width  int
	values []int64
	table  []int64 // table[i*width+c]: the best of pieces i and on, within c
}

func newKnapsack(p *problem) knapsack {
	width := 0
	for _, c := range p.caps {
		width = max(width, c+1)
	}
	return knapsack{p: p, width: width, table: make([]int64, (len(p.pieces)+1)*width)}
}

// fill computes the table for the pieces' values.
func (k *knapsack) fill(values []int64) {
	k.values = values
	for i := len(k.p.pieces) - 1; i >= 0; i-- {
		rest, row := k.table[(i+1)*k.width:(i+2)*k.width], k.table[i*k.width:(i+1)*k.width]
		copy(row, rest)
		length, v := k.p.pieces[i].length, values[i]
		if v <= 0 {
			continue
		}
		for n := 1; n <= k.p.pieces[i].count && n*length < k.width; n++ {
			gain, shift := int64(n)*v, n*length
			dst := row[shift:]
			for c, r := range rest[:len(dst)] {
				if r += gain; r > dst[c] {
					dst[c] = r
				}
			}
		}
	}
}

// best gives the value of the best pattern of a stock.
func (k *knapsack) best(stock int) int64 { return k.table[k.p.caps[stock]] }

// within gives the best value of pieces i and on within a capacity.
func (k *knapsack) within(i, c int) int64 { return k.table[i*k.width+c] }

// pattern gives the best pattern of a stock.
func (k *knapsack) pattern(stock int) []int { return k.patternWithin(k.p.caps[stock]) }

func (k *knapsack) patternWithin(c int) []int {
	counts := make([]int, len(k.p.pieces))
	for i, d := range k.p.pieces {
		want, v := k.within(i, c), k.values[i]
		if v <= 0 {
			continue
		}
		for n := 0; n <= d.count && n*d.length <= c; n++ {
			if k.within(i+1, c-n*d.length)+int64(n)*v == want {
				counts[i], c = n, c-n*d.length
				break
			}
		}
	}
	return counts
}
