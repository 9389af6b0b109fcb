package drawing

import (
	"fmt"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
)

// Drawing is a list of what is drawn, in the order in which it is drawn, and of
// the labels and dimensions that find their places when it is placed. Its
// geometry is that of the plan, exact to the nanometer; a detail, as a section,
// has a plan of its own. The zero Drawing is empty. It may be used again from
// picture to picture: it then allocates nothing once it has held as much before.
type Drawing struct {
	Units geometry.Units // of what is written
	Quiet bool           // what is added next is fainter than the rest

	items  []item
	points []geometry.Point
	ends   []int32 // of rings in points
	labels []label
	lines  []string
	spots  []Spot
	dims   []dimension
	chains []Chain
	stops  []geometry.Length
	texts  []string
	keys   []int

	said      map[geometry.Length]string
	saidUnits geometry.Units
	joined    map[[2]string]string
}

type kind uint8

const (
	stroke kind = iota
	ring
	fill
	circle
	disc
	mark
	hatch
	patterned
	broken
)

// item is one thing that is drawn.
type item struct {
	kind    kind
	symbol  Symbol
	pattern Pattern
	Pencil
	lo, hi geometry.Point // the box of its points
	first  int32          // in points
	last   int32
	ring0  int32 // in ends
	ring1  int32
	turn   geometry.Point  // of a mark: its direction
	radius geometry.Length // of a circle
	bow    float64         // of chords of an arc, as of Ink
	least  float32         // and its bounds on paper, mm
	most   float32
}

// Pencil is how something is added to a drawing.
type Pencil struct {
	Layer Layer
	Style Style
	Quiet bool            // as Drawing.Quiet says
	Ends  bool            // of a stroke: its ends are marked by short strokes across
	Shade float32         // of DepthFill, from 0 to 1; of a line, how much fainter it is, and full
	Width geometry.Length // of a stroke in truth, where that is wider than its pen
	Aside float32         // of a stroke: so far to the left of its path, mm on paper
	Deep  float32         // of hatching: how far across it goes, mm on paper
}

// Reset empties the drawing and keeps its memory.
func (d *Drawing) Reset() {
	d.Quiet = false
	d.items, d.points, d.ends = d.items[:0], d.points[:0], d.ends[:0]
	d.labels, d.lines, d.spots = d.labels[:0], d.lines[:0], d.spots[:0]
	d.dims, d.chains, d.stops, d.texts, d.keys = d.dims[:0], d.chains[:0], d.stops[:0], d.texts[:0], d.keys[:0]
}

// Empty tells whether nothing is drawn.
func (d *Drawing) Empty() bool { return len(d.items)+len(d.labels)+len(d.dims) == 0 }

// Point adds a point to the path that is begun.
func (d *Drawing) Point(p geometry.Point) { d.points = append(d.points, p) }

// Break ends a ring of the path that is begun.
func (d *Drawing) Break() { d.ends = append(d.ends, int32(len(d.points))) }

// begun gives where the path that is begun starts in points and in ends.
func (d *Drawing) begun() (first, ring0 int32) {
	if n := len(d.items); n > 0 {
		return d.items[n-1].last, d.items[n-1].ring1
	}
	return 0, 0
}

func (d *Drawing) add(it item) {
	it.first, it.ring0 = d.begun()
	it.last, it.ring1 = int32(len(d.points)), int32(len(d.ends))
	ps := d.points[it.first:]
	if len(ps) == 0 {
		return
	}
	lo, hi := ps[0], ps[0]
	for _, p := range ps[1:] {
		lo.X, lo.Y, hi.X, hi.Y = min(lo.X, p.X), min(lo.Y, p.Y), max(hi.X, p.X), max(hi.Y, p.Y)
	}
	it.lo, it.hi, it.Quiet = lo, hi, it.Quiet || d.Quiet
	d.items = append(d.items, it)
}

// StrokePath draws the path that is begun.
func (d *Drawing) StrokePath(k Pencil, closed bool) {
	it := item{kind: stroke, Pencil: k}
	if closed {
		it.kind = ring
	}
	d.add(it)
}

// FillPath fills the path that is begun, whose rings end with Break, by the
// even-odd rule.
func (d *Drawing) FillPath(k Pencil) { d.add(item{kind: fill, Pencil: k}) }

// Stroke draws a chain of lines.
func (d *Drawing) Stroke(k Pencil, pts ...geometry.Point) {
	d.points = append(d.points, pts...)
	d.StrokePath(k, false)
}

// Arc draws a circular arc; a straight line where it is none.
func (d *Drawing) Arc(k Pencil, a arc.Arc) {
	d.points = append(d.points, a.Chords(a.Parts(smooth))...)
	n := len(d.items)
	if d.StrokePath(k, false); len(d.items) > n {
		d.items[n].bow = a.Bulge()
	}
}

// smooth is how near to an arc its chords are drawn.
const smooth = geometry.Sixteenth / 8

// Ring draws a closed chain of lines.
func (d *Drawing) Ring(k Pencil, pts ...geometry.Point) {
	d.points = append(d.points, pts...)
	d.StrokePath(k, true)
}

// Fill fills a ring.
func (d *Drawing) Fill(k Pencil, pts ...geometry.Point) {
	d.points = append(d.points, pts...)
	d.Break()
	d.FillPath(k)
}

// Hatch draws short slanted strokes along the left of a chain of lines, from the
// pencil's Aside on as far as its Deep.
func (d *Drawing) Hatch(k Pencil, pts ...geometry.Point) {
	d.points = append(d.points, pts...)
	d.add(item{kind: hatch, Pencil: k})
}

// Pattern fills a ring with a pattern, without a rim.
func (d *Drawing) Pattern(k Pencil, s Pattern, pts ...geometry.Point) {
	d.points = append(d.points, pts...)
	d.add(item{kind: patterned, pattern: s, Pencil: k})
}

// BreakLine marks between two places where what is cut goes on.
func (d *Drawing) BreakLine(k Pencil, a, b geometry.Point) {
	d.points = append(d.points, a, b)
	d.add(item{kind: broken, Pencil: k})
}

// Circle draws a circle as large as it is, but on paper with a radius of at least
// and at most so many millimeters; no bound where most is 0.
func (d *Drawing) Circle(k Pencil, at geometry.Point, radius geometry.Length, least, most float32, full bool) {
	d.Point(at)
	it := item{kind: circle, Pencil: k, radius: radius, least: least, most: most}
	if full {
		it.kind = disc
	}
	d.add(it)
	last := &d.items[len(d.items)-1]
	v := geometry.Point{X: radius, Y: radius}
	last.lo, last.hi = at.Sub(v), at.Add(v)
}

// Mark draws a symbol at a place. Turn is the direction that it has, as a vector
// of any length; zero for to the right.
func (d *Drawing) Mark(k Pencil, s Symbol, at, turn geometry.Point) {
	d.Point(at)
	d.add(item{kind: mark, symbol: s, Pencil: k, turn: turn})
}

// label is a label with its lines and spots in the drawing's own memory.
type label struct {
	Label
	lines []string
	spots []Spot
}

// dimension is a dimension with its chains in the drawing's own memory.
type dimension struct {
	Dimension
	chains []Chain
}

// Label adds a label of some lines that may stand at some spots, best first. All is
// copied.
func (d *Drawing) Label(l Label, lines []string, spots ...Spot) {
	n, m := len(d.lines), len(d.spots)
	d.lines, d.spots = append(d.lines, lines...), append(d.spots, spots...)
	d.labels = append(d.labels, label{l, d.lines[n:len(d.lines):len(d.lines)], d.spots[m:len(d.spots):len(d.spots)]})
}

// Dimension adds a dimension with its chains, the inner first. All is copied.
func (d *Drawing) Dimension(m Dimension, chains ...Chain) {
	first := len(d.chains)
	for _, c := range chains {
		s, t, k := len(d.stops), len(d.texts), len(d.keys)
		d.stops, d.texts, d.keys = append(d.stops, c.Stops...), append(d.texts, c.Texts...), append(d.keys, c.Keys...)
		d.chains = append(d.chains, Chain{c.Of, d.stops[s:len(d.stops):len(d.stops)], d.texts[t:len(d.texts):len(d.texts)], d.keys[k:len(d.keys):len(d.keys)]})
	}
	d.dims = append(d.dims, dimension{m, d.chains[first:len(d.chains):len(d.chains)]})
}

// Say puts each text that is added so far through say, as into another language.
func (d *Drawing) Say(say func(string) string) {
	each := func(texts []string) {
		for i, t := range texts {
			texts[i] = say(t)
		}
	}
	for i := range d.labels {
		l := &d.labels[i]
		each(l.lines)
		l.Of, l.Short = say(l.Of), say(l.Short)
	}
	for i := range d.dims {
		m := &d.dims[i]
		m.Of = say(m.Of)
		for k := range m.chains {
			m.chains[k].Of = say(m.chains[k].Of)
			each(m.chains[k].Texts)
		}
	}
}

// Text prints a length in the drawing's units. What was printed is kept.
func (d *Drawing) Text(l geometry.Length) string {
	if d.said == nil || d.saidUnits != d.Units || len(d.said) > mostSaid {
		d.said, d.joined, d.saidUnits = map[geometry.Length]string{}, map[[2]string]string{}, d.Units
	}
	t, ok := d.said[l]
	if !ok {
		t = l.Text(d.Units)
		d.said[l] = t
	}
	return t
}

// Join gives two texts in one. What was joined is kept.
func (d *Drawing) Join(a, b string) string {
	k := [2]string{a, b}
	t, ok := d.joined[k]
	if !ok {
		if t = a + b; d.joined == nil || len(d.joined) > mostSaid {
			d.joined = map[[2]string]string{}
		}
		d.joined[k] = t
	}
	return t
}

// mostSaid bounds what is kept; past it, it starts anew.
const mostSaid = 4096

// Bounds gives the box of all that is drawn and labeled, false for nothing.
func (d *Drawing) Bounds() (lo, hi geometry.Point, ok bool) {
	take := func(a, b geometry.Point) {
		if !ok {
			lo, hi, ok = a, b, true
			return
		}
		lo = geometry.Point{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}
		hi = geometry.Point{X: max(hi.X, b.X), Y: max(hi.Y, b.Y)}
	}
	for i := range d.items {
		take(d.items[i].lo, d.items[i].hi)
	}
	for i := range d.labels {
		take(d.labels[i].At, d.labels[i].At)
	}
	return lo, hi, ok
}

// On gives the texts of what stands on a layer, sorted: names of labels and texts
// of dimensions. A test looks for them on the sheet.
func (d *Drawing) On(l Layer) []string {
	var out []string
	for i := range d.labels {
		if d.labels[i].Layer == l && !d.labels[i].Optional {
			out = append(out, d.labels[i].lines...)
		}
	}
	if l == Dimensions {
		for _, c := range d.chains {
			out = append(out, c.Texts...)
		}
	}
	slices.Sort(out)
	return out
}

// String says how much is drawn.
func (d *Drawing) String() string {
	return fmt.Sprintf("%d items, %d labels, %d dimensions", len(d.items), len(d.labels), len(d.dims))
}
