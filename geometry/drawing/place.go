package drawing

import (
	"math"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// Options say where a drawing goes on a sheet, and how.
type Options struct {
	View     View
	Area     Rect               // labels and dimensions keep within it
	Clip     Rect               // what is seen of the drawing; zero for all that lies in Area
	Fonts    Fonts              // measures text
	Pens     *Pens              // nil for Paper
	Manner   *Manner            // nil for OnPaper
	Unit     float64            // units of the sheet per millimeter on paper; 0 for 1
	Taken    []Box              // of the sheet already
	Over     []*Placed          // what is placed on the sheet already
	FirstRow int                // number of the first row's mark; 0 for 1
	Number   func(n int) string // the mark of row n; nil for the number itself
}

// Placed is a drawing in its place on a sheet. It may be set again and again, and
// allocates nothing once it has held as much before.
type Placed struct {
	Rows     []Row           // what found no room, for a table; none on a screen
	Thinned  [layerCount]int // how many labels and measures a thinned picture leaves out
	Measures []Measured      // the dimensions' measures, in their places

	d       *Drawing
	o       Options
	m       Manner
	pens    *Pens
	unit    float64
	room    room
	first   int // boxes in the room before anything was placed
	words   []Word
	labels  []placedLabel
	strokes []placedStroke
	arrows  []arrow
	order   []int32
	counts  [256]int32
	one     [1]string
	pts     []Vec
	side    []Vec
	rings   [][]Vec
	reach   []stopReach
	gaps    [][2]float64
	clip    plane.Clipper
}

type placedLabel struct {
	label       int32 // in the drawing, -1 for the mark of a row
	first, last int32 // in words
	box         Box
	frame       Framing
	dark        bool
	layer       Layer
	style       Style
}

type placedStroke struct {
	Ink
	a, b Vec
}

type arrow struct {
	Ink
	tip, u Vec
}

// Place sets a drawing on a sheet.
func Place(d *Drawing, o Options) *Placed {
	p := &Placed{}
	p.Set(d, o)
	return p
}

// Set sets a drawing on a sheet: first the lines that text keeps off, then the
// labels and dimensions by weight, each where it finds room. The drawing must not
// be changed until what is placed has been rendered.
func (p *Placed) Set(d *Drawing, o Options) {
	p.Lay(d, o)
	p.Settle()
}

// Lay sets a drawing on a sheet without its labels and dimensions, which Settle
// then gives their places. Between the two, what lies under plates can be rendered
// by DrawUnder.
func (p *Placed) Lay(d *Drawing, o Options) {
	p.d, p.o, p.m, p.pens, p.unit = d, o, OnPaper, &Paper, 1
	if o.Manner != nil {
		p.m = *o.Manner
	}
	if o.Pens != nil {
		p.pens = o.Pens
	}
	if o.Unit > 0 {
		p.unit = o.Unit
	}
	if p.o.Clip == (Rect{}) {
		p.o.Clip = o.Area
	}
	p.o.FirstRow = max(1, o.FirstRow)
	p.Rows, p.Thinned, p.Measures = p.Rows[:0], [layerCount]int{}, p.Measures[:0]
	p.words, p.labels, p.strokes, p.arrows = p.words[:0], p.labels[:0], p.strokes[:0], p.arrows[:0]
	cell := 12.0 // mm
	if p.m.Thin {
		cell = 7 // for its labels stand closer
	}
	p.room.reset(cell*p.unit, pointsApart*p.unit, p.o.Area.Join(p.o.Clip))
}

// Settle places the labels and dimensions of a drawing that was laid.
func (p *Placed) Settle() {
	d, o := p.d, &p.o
	for _, b := range o.Taken {
		p.room.take(b, takenText)
	}
	for _, q := range o.Over {
		for i := range q.room.boxes[q.first:] {
			b := &q.room.boxes[q.first+i]
			p.room.add(b.Box, b.is)
		}
	}
	p.keepOff()
	p.first = len(p.room.boxes)
	p.arrange()
	for _, k := range p.order {
		if n := int(k) - len(d.labels); n >= 0 {
			p.dimension(&d.dims[n])
		} else {
			p.label(int(k))
		}
	}
}

// arrange orders labels and dimensions by weight, the heaviest first; those of one
// weight stay in their order, dimensions before labels.
func (p *Placed) arrange() {
	clear(p.counts[:])
	n := len(p.d.labels)
	weight := func(k int) int {
		if k >= n {
			return 127 - int(p.d.dims[k-n].Weight)
		}
		return 127 - int(p.d.labels[k].Weight)
	}
	all := n + len(p.d.dims)
	for k := range all {
		p.counts[weight(k)]++
	}
	at := int32(0)
	for w, c := range p.counts {
		p.counts[w], at = at, at+c
	}
	p.order = append(p.order[:0], make([]int32, all)...)
	put := func(k int) {
		w := weight(k)
		p.order[p.counts[w]] = int32(k)
		p.counts[w]++
	}
	for k := n; k < all; k++ {
		put(k)
	}
	for k := range n {
		put(k)
	}
}

// keepOff takes the room of the lines that text keeps off, and of symbols.
func (p *Placed) keepOff() {
	all := p.room.all
	near := p.m.ClearLine * p.unit
	for i := range p.d.items {
		it := &p.d.items[i]
		pen := &p.pens[it.Style]
		if it.kind == mark {
			if b, ok := p.symbolBox(it); ok && all.Overlaps(b.Bounds()) {
				p.room.take(b.Grown(near), takenLine)
			}
			continue
		}
		if !pen.Hard || !p.seen(it) {
			continue
		}
		half := pen.Width*p.unit/2 + near
		switch it.kind {
		case stroke, ring:
			pts := p.path(it)
			for k := 1; k < len(pts); k++ {
				p.takeLine(pts[k-1], pts[k], half, takenLine)
			}
			if n := len(pts); it.kind == ring && n > 2 {
				p.takeLine(pts[n-1], pts[0], half, takenLine)
			}
		case broken:
			pts := p.path(it)
			line := p.breakPath(pts[0], pts[1])
			for k := 1; k < len(line); k++ {
				p.takeLine(line[k-1], line[k], half, takenLine)
			}
		case circle, disc:
			r := p.radius(it)
			p.room.take(Box{p.o.View.On(p.d.points[it.first]), Vec{X: 1, Y: 0}, r + half, r + half}, takenLine)
		}
	}
}

// takeLine takes the room of a line.
func (p *Placed) takeLine(a, b Vec, half float64, is taken) {
	from, to, ok := p.room.all.Box().Grown(p.unit).Cuts(a, b)
	if !ok {
		return
	}
	v := b.Sub(a)
	p.room.take(BoxOf(a.Add(v.Times(from)), a.Add(v.Times(to)), half), is)
}

// seen tells whether any of an item may be on the sheet.
func (p *Placed) seen(it *item) bool {
	const margin = 12 // mm: more than lines and symbols stand off their path
	lo, hi := p.o.View.On(it.lo), p.o.View.On(it.hi)
	c, m := &p.o.Clip, margin*p.unit
	return lo.X <= c.X1+m && hi.X >= c.X0-m && lo.Y <= c.Y1+m && hi.Y >= c.Y0-m
}

// shown tells whether a place is on the sheet.
func (p *Placed) shown(q geometry.Point) bool { return p.o.Clip.Inset(-1e-6).Has(p.o.View.On(q)) }

// free tells whether a box lies within the area and clear of everything.
func (p *Placed) free(b Box) bool { return p.o.Area.Holds(b) && p.room.free(b, takenAny) }

// blocked gives how far at the least a box must go in a direction to be free; 0 where it is.
func (p *Placed) blocked(b Box, u Vec) float64 {
	r, a := b.Bounds(), &p.o.Area
	if r.X0 < a.X0 || r.Y0 < a.Y0 || r.X1 > a.X1 || r.Y1 > a.Y1 {
		if u.X >= 0 && r.X1 > a.X1 || u.X <= 0 && r.X0 < a.X0 || u.Y >= 0 && r.Y1 > a.Y1 || u.Y <= 0 && r.Y0 < a.Y0 {
			return math.Inf(1)
		}
		return math.SmallestNonzeroFloat64
	}
	if p.room.freeIn(b, r, takenAny) {
		return 0
	}
	return max(p.room.until(b, r, u), math.SmallestNonzeroFloat64)
}

// line draws a line that text keeps off.
func (p *Placed) line(k Ink, a, b Vec) {
	p.strokes = append(p.strokes, placedStroke{k, a, b})
	p.takeLine(a, b, p.pens[k.Style].Width*p.unit/2+p.m.ClearLine*p.unit, takenLine|takenFine)
}

// state is how much is placed, to take back what comes after.
type state struct {
	held, words, labels, strokes, arrows, measures, rows int
}

func (p *Placed) hold() state {
	return state{p.room.held(), len(p.words), len(p.labels), len(p.strokes), len(p.arrows), len(p.Measures), len(p.Rows)}
}

func (p *Placed) giveBack(s state) {
	p.room.giveBack(s.held)
	p.words, p.labels, p.strokes, p.arrows = p.words[:s.words], p.labels[:s.labels], p.strokes[:s.strokes], p.arrows[:s.arrows]
	p.Measures, p.Rows = p.Measures[:s.measures], p.Rows[:s.rows]
}

func (p *Placed) numbered(n int) string {
	if p.o.Number != nil {
		return p.o.Number(n)
	}
	return strconv.Itoa(n)
}

// On gives where a point of the plan lies on the sheet.
func (p *Placed) On(q geometry.Point) Vec { return p.o.View.On(q) }

// Words gives the texts in their places.
func (p *Placed) Words() []Word { return p.words }

// Free tells whether nothing that is drawn lies in r, lines that give way to text
// among it: a table may stand there.
func (p *Placed) Free(r Rect) bool { return p.room.free(r.Box(), takenAny) && !p.crosses(r) }

// crosses tells whether a line or the rim of an area that gives way to text runs
// through r.
func (p *Placed) crosses(r Rect) bool {
	b := r.Box()
	for i := range p.d.items {
		it := &p.d.items[i]
		if p.pens[it.Style].Width <= 0 || it.kind == mark || it.kind == fill {
			continue
		}
		pts := p.path(it)
		for k := 1; k < len(pts); k++ {
			if _, _, ok := b.Cuts(pts[k-1], pts[k]); ok {
				return true
			}
		}
		if n := len(pts); it.kind == ring && n > 2 {
			if _, _, ok := b.Cuts(pts[n-1], pts[0]); ok {
				return true
			}
		}
	}
	return false
}

// Bounds gives the rectangle that holds all that is placed and drawn; false for
// nothing.
func (p *Placed) Bounds() (Rect, bool) {
	out, ok := Rect{}, false
	take := func(r Rect) {
		if !ok {
			out, ok = r, true
			return
		}
		out = out.Join(r)
	}
	for i := range p.d.items {
		it := &p.d.items[i]
		lo, hi := p.o.View.On(it.lo), p.o.View.On(it.hi)
		take(Rect{lo.X, lo.Y, hi.X, hi.Y})
	}
	for _, b := range p.room.boxes {
		take(b.bounds)
	}
	return out, ok
}
