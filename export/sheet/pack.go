package sheet

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
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

// pack sets topics on as few sheets as hold them, in their order: tables and details
// fill the places beside the plans. Several ways are tried, the ones that keep what
// belongs together first; the first with the fewest sheets is drawn.
func (s *set) pack(topics []topic) {
	w, h := s.paper.drawn().landscape()
	g := newGrid(packedArea(w, h))
	sized := make([][]sizedBlock, len(topics))
	for i, t := range topics {
		for _, b := range t.blocks {
			if _, none := b.(nothing); !none {
				sized[i] = append(sized[i], g.size(b))
			}
		}
	}
	var best *packing
	var ways []packing
	for _, scatter := range []bool{false, true} {
		for _, back := range []int{0, 1, mostSheets} {
			ways = append(ways, packing{back: back, scatter: scatter}, packing{back: back, scatter: scatter, tallest: true})
		}
	}
	least := g.least(sized)
	for seed := range tries {
		if least <= fewMixed {
			ways = append(ways, packing{scatter: true, mixed: uint64(seed) + 1})
		}
	}
	hits := 0 // of mixed ways with no more sheets than the best
	for _, p := range ways {
		if s.stopped() != nil {
			return
		}
		if best != nil && len(best.sheets) <= least && (best.mixed == 0 || hits > enough) {
			break
		}
		p.grid, p.topics = g, topics
		p.set(topics, sized)
		switch {
		case best == nil || len(p.sheets) < len(best.sheets):
			best, hits = &p, 0
		case p.mixed > 0 && best.mixed > 0 && len(p.sheets) == len(best.sheets):
			if hits++; p.order > best.order {
				best = &p
			}
		}
	}
	for i := 0; i < len(best.sheets) && s.stopped() == nil; i++ { // drawing may add what found no room
		b := best.sheets[i]
		slices.SortFunc(b.topics, func(x, y string) int {
			return cmp.Compare(best.step(x), best.step(y))
		})
		d := newDraft(strings.Join(b.topics, ", "), w, h)
		d.area = g.area
		for k := 0; k < len(b.put); k++ {
			p := b.put[k]
			p.draw(d, p.x, p.top, p.width)
			if len(d.rows) > 0 {
				best.add(i, b.topics[0], g.size(unmarked(d.rows)))
				d.rows = nil
			}
		}
		s.add(d, titles{sheet: d.page.Name, topics: b.topics, scale: "as written,", paper: s.paper.Name, packed: true})
	}
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
	span        int
	width, tall float64
}

// size measures a block, once for all that is tried with it.
func (g grid) size(b block) sizedBlock {
	c := g.columns[0]
	n := columnsFor(usual, c.Width())
	if w, ok := b.(wider); ok {
		n = w.span(len(g.columns), c.Width(), c.Height())
	}
	return g.sizeIn(b, min(len(g.columns), n))
}

// sizeIn measures a block in so many columns.
func (g grid) sizeIn(b block, n int) sizedBlock {
	width := g.columns[n-1].X1 - g.columns[0].X0
	return sizedBlock{b, n, width, b.height(width)}
}

// tries is how many orders of blocks are tried where they may save a sheet, the same
// ones each time.
const tries = 600

// enough is of how many orders that save a sheet the one is taken that keeps the steps of
// the work best in their order.
const enough = 30

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
	back    int    // a topic may begin so many sheets before the first of the one before it
	tallest bool   // the tallest block of each topic first
	mixed   uint64 // the topics' blocks among each other, large ones first, chance by this seed; 0 for not
	scatter bool   // a list may be parted over more than two places

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
}

// span is a free part of a column, mm.
type span struct{ low, high float64 }

// placedBlock is a block in its place.
type placedBlock struct {
	block
	x, top, width float64
}

func (p *packing) set(topics []topic, sized [][]sizedBlock) {
	if p.mixed > 0 {
		p.mix(topics, sized)
		return
	}
	from := 0
	for i, t := range topics {
		blocks := sized[i]
		if p.tallest {
			blocks = slices.Clone(blocks)
			slices.SortStableFunc(blocks, func(a, b sizedBlock) int { return cmp.Compare(b.tall, a.tall) })
		}
		first := -1
		for _, b := range blocks {
			if at := p.add(from, t.name, b); first < 0 {
				first = at
			}
		}
		from = max(from, first-p.back)
	}
}

// mix sets the blocks of all topics, large ones first more or less.
func (p *packing) mix(topics []topic, sized [][]sizedBlock) {
	type item struct {
		sizedBlock
		topic string
		rank  float64
	}
	var all []item
	chance := rand.New(rand.NewPCG(p.mixed, 0))
	for i, blocks := range sized {
		for _, b := range blocks {
			size := b.tall
			if p.mixed%2 == 0 {
				size *= b.width
			}
			all = append(all, item{b, topics[i].name, size * math.Exp(chance.NormFloat64()/3-float64(p.mixed%4)/10*float64(i))})
		}
	}
	slices.SortStableFunc(all, func(a, b item) int { return cmp.Compare(b.rank, a.rank) })
	for _, it := range all {
		p.add(0, it.topic, it.sizedBlock)
	}
}

// step gives the place of a topic among the steps of the work.
func (p *packing) step(name string) int {
	return slices.IndexFunc(p.topics, func(t topic) bool { return t.name == name })
}

// add puts a block on the first sheet from one on that has room, in parts where it
// may be parted, and gives where it begins; -1 for one that is taller than any sheet.
func (p *packing) add(from int, name string, b sizedBlock) int {
	begun := -1
	on := func(i int) {
		if s := p.sheets[i]; !slices.Contains(s.topics, name) {
			s.topics = append(s.topics, name)
		}
		p.order += (float64(p.step(name)) - float64(len(p.topics)-1)/2) * float64(i)
		if begun < 0 {
			begun = i
		}
	}
	for {
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
	s.places(b.span, func(k int, top, room float64) {
		if top > best+1e-6 && room >= b.tall-1e-6 {
			at, best = k, top
		}
	})
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
	s.places(b.span, func(k int, top, room float64) {
		if room > most+1e-6 {
			at, best, most = k, top, room
		}
	})
	if most <= leastPart {
		return b, false
	}
	first, left, ok := parts.cut(most, b.width)
	if !ok {
		return b, false
	}
	p.put(s, p.sizeIn(first, b.span), at, best)
	if n, list := left.(notes); list && p.scatter {
		n.whole = false
		left = n
	}
	return p.sizeIn(left, b.span), true
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
	s.put = append(s.put, placedBlock{b.block, p.columns[at].X0, top, b.width})
}

// places visits where n columns side by side are free: from which column, below which
// height, and how far down.
func (s *packed) places(n int, visit func(at int, top, room float64)) {
	for at := 0; at+n <= len(s.free); at++ {
		for i := at; i < at+n; i++ {
			for _, f := range s.free[i] {
				if room := s.room(at, n, f.high); room > 0 {
					visit(at, f.high, room)
				}
			}
		}
	}
}

// room gives how far down n columns are free from a height.
func (s *packed) room(at, n int, top float64) float64 {
	low := math.Inf(-1)
	for _, column := range s.free[at : at+n] {
		i := slices.IndexFunc(column, func(f span) bool { return f.low < top && top <= f.high+1e-9 })
		if i < 0 {
			return 0
		}
		low = max(low, column[i].low)
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
