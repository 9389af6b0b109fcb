package sheet

import (
	"cmp"
	"math"
	"slices"
)

// topic is what belongs together at one step of the work.
type topic struct {
	name   string
	blocks []block
}

// wider is a block that says how many columns it wants.
type wider interface {
	block
	// span gives how many of n columns of a width it takes.
	span(n int, column, tall float64) int
}

// narrow is about how wide a column of packed blocks is, mm: most blocks take several.
const narrow = 4.0

// usual is how wide a block is that does not say, mm.
const usual = 60.0

// otherWidths are how wide text may be too where that saves a sheet, mm.
var otherWidths = []float64{50, 75, 100}

// packed sets topics on as few sheets as hold them, in their order: tables and details
// fill the places beside the plans. Several ways are tried, the ones that keep what
// belongs together first; it gives the first with the fewest sheets.
func (s *set) packed(topics []topic) *packing {
	g := newGrid(packedArea(s.paper.drawn().landscape()))
	sized := make([][]sizedBlock, len(topics))
	for i, t := range topics {
		for _, b := range t.blocks {
			if _, none := b.(nothing); !none {
				sized[i] = append(sized[i], g.size(t.name, b))
			}
		}
	}
	var best *packing
	least := g.least(sized)
	for _, scatter := range []bool{false, true} {
		for _, back := range []int{0, 1, mostSheets} {
			for _, tallest := range []bool{false, true} {
				if best != nil && s.stopped() != nil {
					return best
				}
				if best != nil && len(best.sheets) <= least {
					break
				}
				p := &packing{grid: g, topics: topics, back: back, scatter: scatter, tallest: tallest}
				p.set(sized)
				if best == nil || len(p.sheets) < len(best.sheets) {
					best = p
				}
			}
		}
	}
	if min(least, len(best.sheets)) <= fewMixed {
		best = s.mix(best, sized, least)
	}
	return best
}

// slight tells whether the last sheet has little on it.
func (p *packing) slight() bool {
	if len(p.sheets) < 2 {
		return false
	}
	return p.sheets[len(p.sheets)-1].taken < 0.25*p.area.Width()*p.area.Height()
}

// grid is the columns that blocks are packed in.
type grid struct {
	area    rect
	columns []rect
}

func newGrid(area rect) grid {
	return grid{area, columnsOf(area, max(1, int((area.Width()+columnGap)/(narrow+columnGap))))}
}

// sizedBlock is a block with the columns it takes, how wide they are together, and
// how tall it then is.
type sizedBlock struct {
	block
	topic       string
	span        int
	width, tall float64
	others      []sizedBlock // the same, narrower and wider, it among them
}

// size measures a block, once for all that is tried with it.
func (g grid) size(topic string, b block) sizedBlock {
	c := g.columns[0]
	n := columnsFor(usual, c.Width())
	if w, ok := b.(wider); ok {
		n = w.span(len(g.columns), c.Width(), c.Height())
	}
	s := g.sizeIn(topic, b, min(len(g.columns), n))
	if _, text := b.(notes); text {
		s.others = []sizedBlock{s}
		for _, mm := range otherWidths {
			if n := columnsFor(mm, c.Width()); n <= len(g.columns) {
				s.others = append(s.others, g.sizeIn(topic, b, n))
			}
		}
	}
	return s
}

// sizeIn measures a block in so many columns.
func (g grid) sizeIn(topic string, b block, n int) sizedBlock {
	width := g.columns[n-1].X1 - g.columns[0].X0
	return sizedBlock{b, topic, n, width, b.height(width), nil}
}

// fewMixed is on how many sheets topics may stand among each other: of more, each is for
// one step of the work.
const fewMixed = 3

// dense is how much of sheets blocks fill at best.
const dense = 0.95

// least gives on how many sheets blocks may go at best.
func (g grid) least(sized [][]sizedBlock) int {
	sum := 0.0
	for _, blocks := range sized {
		for _, b := range blocks {
			sum += b.width * (b.tall + blockGap)
		}
	}
	return int(math.Ceil(sum / (dense * g.area.Width() * g.area.Height())))
}

// mostSheets is more than there are.
const mostSheets = 1 << 20

// packing is one way to set topics on sheets.
type packing struct {
	back    int  // a topic may begin so many sheets before the first of the one before it
	tallest bool // the tallest block of each topic first
	scatter bool // a list may be parted over more than two places

	grid
	topics []topic
	sheets []*packed
	order  float64 // how well early topics stand on early sheets
}

// packed is a sheet with the blocks that are put on it.
type packed struct {
	free   [][]span // of each column, from the top down
	topics []string
	put    []placedBlock
	taken  float64 // mm²
}

// span is a free part of a column, mm.
type span struct{ low, high float64 }

// placedBlock is a block in its place.
type placedBlock struct {
	block
	topic               string
	x, top, width, tall float64
}

func (b placedBlock) middle() Point { return Point{X: b.x + b.width/2, Y: b.top - b.tall/2} }

// set puts the blocks of each topic after those of the one before.
func (p *packing) set(sized [][]sizedBlock) {
	from := 0
	for i := range p.topics {
		blocks := sized[i]
		if p.tallest {
			blocks = slices.Clone(blocks)
			slices.SortStableFunc(blocks, func(a, b sizedBlock) int { return cmp.Compare(b.tall, a.tall) })
		}
		first := -1
		for _, b := range blocks {
			if at := p.add(from, b); first < 0 {
				first = at
			}
		}
		from = max(from, first-p.back)
	}
}

// step gives the place of a topic among the steps of the work.
func (p *packing) step(name string) int {
	return slices.IndexFunc(p.topics, func(t topic) bool { return t.name == name })
}

// farBack is on how many of the last sheets room is looked for: in a set of hundreds, all
// would take ever longer.
const farBack = 40

// add puts a block on the first sheet from one on that has room, in parts where it
// may be parted, and gives where it begins; -1 for one that is taller than any sheet.
func (p *packing) add(from int, b sizedBlock) int {
	begun := -1
	on := func(i int) {
		if s := p.sheets[i]; !slices.Contains(s.topics, b.topic) {
			s.topics = append(s.topics, b.topic)
		}
		p.order += (float64(p.step(b.topic)) - float64(len(p.topics)-1)/2) * float64(i)
		if begun < 0 {
			begun = i
		}
	}
	for {
		from = max(from, len(p.sheets)-farBack)
		for i := from; i < len(p.sheets); i++ {
			if p.whole(p.sheets[i], b) {
				on(i)
				return begun
			}
		}
		parted := false
		for i := from; i < len(p.sheets) && !parted; i++ {
			if rest, ok := p.begin(p.sheets[i], b); ok {
				on(i)
				b, from, parted = rest, i, true
			}
		}
		if parted {
			continue
		}
		if n := len(p.sheets); n > 0 && len(p.sheets[n-1].put) == 0 {
			p.sheets = p.sheets[:n-1]
			return begun
		}
		fresh := &packed{}
		for _, c := range p.columns {
			fresh.free = append(fresh.free, []span{{c.Y0, c.Y1}})
		}
		p.sheets = append(p.sheets, fresh)
	}
}

// whole puts a block where it stands highest on a sheet; false where it does not fit.
func (p *packing) whole(s *packed, b sizedBlock) bool {
	at, best := -1, math.Inf(-1)
	fits := func(top, room float64) bool { return top > best+1e-6 && room >= b.tall-1e-6 }
	s.places(b.span, fits, func(k int, top, room float64) { at, best = k, top })
	if at >= 0 {
		p.put(s, b, at, best)
	}
	return at >= 0
}

// leastPart is less than the first part of anything takes, mm.
const leastPart = 12.0

// begin puts the first part of a block where there is the most room on a sheet and
// gives the rest.
func (p *packing) begin(s *packed, b sizedBlock) (rest sizedBlock, ok bool) {
	parts, ok := b.block.(splitter)
	if !ok {
		return b, false
	}
	at, best, most := 0, 0.0, leastPart
	more := func(_, room float64) bool { return room > most+1e-6 }
	s.places(b.span, more, func(k int, top, room float64) { at, best, most = k, top, room })
	if most <= leastPart {
		return b, false
	}
	first, left, ok := parts.cut(most, b.width)
	if !ok {
		return b, false
	}
	p.put(s, p.sizeIn(b.topic, first, b.span), at, best)
	if n, list := left.(notes); list && p.scatter {
		n.whole = false
		left = n
	}
	return p.sizeIn(b.topic, left, b.span), true
}

// put puts a block on a sheet from a column on.
func (p *packing) put(s *packed, b sizedBlock, at int, top float64) {
	for i := at; i < at+b.span; i++ {
		var left []span
		for _, f := range s.free[i] {
			for _, part := range []span{{max(f.low, top+blockGap), f.high}, {f.low, min(f.high, top-b.tall-blockGap)}} {
				if part.high-part.low > blockGap {
					left = append(left, part)
				}
			}
		}
		s.free[i] = left
	}
	s.put = append(s.put, placedBlock{b.block, b.topic, p.columns[at].X0, top, b.width, b.tall})
	s.taken += b.width * b.tall
}

// places visits where n columns side by side are free and that is worth it: from which
// column, below which height, and how far down.
func (s *packed) places(n int, worth func(top, room float64) bool, visit func(at int, top, room float64)) {
	for i, column := range s.free {
		for _, f := range column {
			if !worth(f.high, f.high-f.low) {
				continue
			}
			for at := max(0, i-n+1); at <= min(i, len(s.free)-n); at++ {
				if room := s.room(at, n, f.high); worth(f.high, room) {
					visit(at, f.high, room)
				}
			}
		}
	}
}

// room gives how far down n columns are free from a height.
func (s *packed) room(at, n int, top float64) float64 {
	low := math.Inf(-1)
next:
	for _, column := range s.free[at : at+n] {
		for _, f := range column {
			if f.low < top && top <= f.high+1e-9 {
				low = max(low, f.low)
				continue next
			}
		}
		return 0
	}
	return top - low
}

// columnsFor gives how many columns hold a width.
func columnsFor(width, column float64) int {
	return max(1, int(math.Ceil((width+columnGap)/(column+columnGap)-1e-6)))
}

func (t tableBlock) span(n int, column, _ float64) int {
	return min(n, max(columnsFor(sum(t.natural()), column), columnsFor(textWidth(t.title, sizeBody, true), column)))
}

func (l legend) span(_ int, column, _ float64) int {
	w := 0.0
	for _, e := range l {
		w = max(w, 17+textWidth(e.text, sizeSmall, false))
	}
	return columnsFor(w, column)
}

func (ruled) span(_ int, column, _ float64) int { return columnsFor(85.5, column) }
func (p pile) span(n int, column, tall float64) int {
	k := columnsFor(usual, column)
	for _, b := range p {
		if w, ok := b.(wider); ok {
			k = max(k, w.span(n, column, tall))
		}
	}
	return min(n, k)
}
