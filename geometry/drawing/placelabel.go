package drawing

import (
	"math"

	"haunchbook.example/geometry"
)

// label places a label, or makes a row of it.
func (p *Placed) label(i int) {
	l := &p.d.labels[i]
	if !l.Fixed && !p.shown(l.At) {
		if l.Rim && !p.m.Thin {
			p.atRim(i, l)
		}
		return // it stands on the sheet that shows its place
	}
	if p.m.Thin && p.Thinned[l.Layer] > thicket {
		p.Thinned[l.Layer]++
		return
	}
	if p.tryLabel(i, l, l.lines) {
		return
	}
	if l.Short != "" {
		p.one[0] = l.Short
		if p.tryLabel(i, l, p.one[:]) {
			return
		}
	}
	if !p.m.Thin && len(l.lines) == 1 && l.Type&^Bold == Small && l.Frame == NoFrame {
		fine := *l
		fine.Type, fine.Slides = Fine|l.Type&Bold, false
		fine.Reach = min(l.Reach, fineReach)
		if p.tryLabel(i, &fine, l.lines) {
			return
		}
	}
	switch {
	case l.Optional:
	case p.m.Thin:
		p.Thinned[l.Layer]++
	default:
		r := Row{Of: l.Of, Texts: append([]string(nil), l.lines...), Layer: l.Layer, At: l.At}
		for k := -1; k < len(l.spots) && (k < 0 || l.Slides); k++ {
			if k >= 0 {
				r.At = l.spots[k].At
			}
			if p.mark(&r, p.o.View.On(r.At)) {
				break
			}
		}
		p.Rows = append(p.Rows, r)
	}
}

// fineReach is how far from its place a label is looked room for once it is small, mm: where
// there was none for it larger, there is none farther off either.
const fineReach = 15

// tryLabel places lines of a label where they find room.
func (p *Placed) tryLabel(i int, l *label, lines []string) bool {
	e := p.extent(l, lines)
	at := p.o.View.On(l.At)
	for k := range l.spots {
		if p.atSpot(i, l, lines, e, &l.spots[k]) {
			return true
		}
	}
	if l.Reach <= 0 {
		return false
	}
	prefer, ok := way(l.Prefer)
	if !ok {
		prefer = Vec{X: 0, Y: 1}
	}
	last := float64(l.Reach)
	if p.m.Thin && l.Near > 0 {
		last = min(last, float64(l.Near))
	}
	// First on the preferred side, as far as it needs no leader; then all round.
	t := trial{i: i, l: l, lines: lines, e: e, at: at, prefer: prefer}
	from := 0
	if half := min(last, float64(l.Near)); l.Prefer != (geometry.Point{}) {
		if p.ring(&t, half, 0, directions/2) {
			return true
		}
		if p.m.Thin { // there it was looked for
			from = directions / 2
		}
	}
	if p.ring(&t, last, from, directions) {
		return true
	}
	if !l.Slides || p.m.Thin {
		return false
	}
	other, tries := *l, 8
	for k := range l.spots {
		other.At = l.spots[k].At
		if at = p.o.View.On(other.At); !p.shown(other.At) || !p.room.free(Box{at, Vec{X: 1, Y: 0}, tipRoom * 3 * p.unit, tipRoom * 3 * p.unit}, takenText) {
			continue
		}
		t := trial{i: i, l: &other, lines: lines, e: e, at: at, prefer: prefer}
		if p.ring(&t, min(last, slideReach), 0, directions) {
			return true
		}
		if tries--; tries == 0 {
			break
		}
	}
	return false
}

// slideReach is how far from another of its spots a label is looked for, mm.
const slideReach = 25

// extents are the size of a label with its frame.
type extents struct{ w, h, above, leading float64 }

func (p *Placed) extent(l *label, lines []string) (e extents) {
	below := 0.0
	for k, s := range lines {
		w, above, low := p.o.Fonts.Size(s, lineType(l, k))
		e.w = max(e.w, w)
		if k == 0 {
			e.above = above
		}
		below = low
	}
	e.leading = p.o.Fonts.Leading(l.Type &^ Bold)
	e.h = e.above + below + float64(len(lines)-1)*e.leading
	switch l.Frame {
	case InBox:
		e.w, e.h = e.w+2*boxRoom*p.unit, e.h+2*boxRoom*p.unit
		if l.Dark { // a sign of its own
			e.w += 2 * p.unit
		}
	case InCircle:
		r := max(2.1*p.unit, e.w/2+0.7*p.unit)
		e.w, e.h = 2*r, 2*r
	case InHexagon: // with corners to both sides
		r := e.w/2 + e.h/(2*math.Sqrt(3)) + 0.5*p.unit
		e.w, e.h = 2*r, math.Sqrt(3)*r
	}
	return e
}

// rim is how far text at the least keeps off what is there already, besides that
// one's own margin, mm.
const rim = 0.2

// boxRoom is how far the frame of a label stands off its text, mm.
const boxRoom = 0.8

// lineType gives the type of a label's line: of several only the first is heavy.
func lineType(l *label, k int) Type {
	if k > 0 {
		return l.Type &^ Bold
	}
	return l.Type
}

// atSpot places a label at a spot, where that is free.
func (p *Placed) atSpot(i int, l *label, lines []string, e extents, s *Spot) bool {
	mid, along := p.o.View.On(s.At), Vec{X: 1, Y: 0}
	u, ok := way(s.Line)
	if s.Within && p.o.View.Size(geometry.Distance(geometry.Point{}, s.Line)) < e.w+8*p.unit {
		return false
	}
	aside, ahead := float64(s.Aside)*p.unit, float64(s.Ahead)*p.unit
	if !ok {
		return p.standAt(i, l, lines, e, mid.Add(Vec{X: ahead, Y: aside}), along, l.Leader)
	}
	if s.Turned {
		along = p.written(u)
	}
	if n := u.Left(); aside != 0 {
		// Its nearer side is so far off the line.
		half := Box{Along: along, L: e.w / 2, H: e.h / 2}.spread(n)
		aside += math.Copysign(half, aside)
		mid = mid.Toward(n, aside)
	}
	return p.standAt(i, l, lines, e, mid.Toward(u, ahead), along, l.Leader)
}

// written gives how text along a direction is written.
func (p *Placed) written(u Vec) Vec {
	if !p.m.Quarter {
		return Readable(u)
	}
	if math.Abs(u.X) < 0.2 {
		return Vec{X: 0, Y: 1}
	}
	return Vec{X: 1, Y: 0}
}

// standAt places a label with its middle at a place, where that is free.
func (p *Placed) standAt(i int, l *label, lines []string, e extents, mid, along Vec, leader bool) bool {
	b := Box{mid, along, e.w / 2, e.h / 2}
	return (l.Fixed || p.free(b.Grown(p.m.Apart*p.unit))) && p.stand(i, l, lines, e, b, leader)
}

// stand places a label in a box that is free for it, where its leader finds a way. Its own
// box is nowhere in the leader's way, which begins farther off than a box is kept clear.
func (p *Placed) stand(i int, l *label, lines []string, e extents, b Box, leader bool) bool {
	var line leaderLine
	if leader {
		var ok bool
		if line, ok = p.leader(l, b); !ok && !l.Fixed && !(l.Leader && l.Near == 0) {
			return false
		}
	}
	p.write(i, l, lines, e, b)
	p.lead(l, line)
	return true
}

// write sets the lines of a label into its box.
func (p *Placed) write(i int, l *label, lines []string, e extents, b Box) {
	up := b.Along.Left()
	first := len(p.words)
	inner := b
	if l.Frame == InBox {
		inner = b.Grown(-boxRoom * p.unit)
	}
	top := inner.Mid.Toward(up, inner.H-e.above)
	if l.Frame == InCircle || l.Frame == InHexagon { // one line in the middle
		_, above, below := p.o.Fonts.Size(lines[0], lineType(l, 0))
		top = b.Mid.Toward(up, (below-above)/2)
	}
	for k, s := range lines {
		t := lineType(l, k)
		w, above, below := p.o.Fonts.Size(s, t)
		at := top.Toward(up, -float64(k)*e.leading).Toward(b.Along, -w/2)
		if l.Left {
			at = top.Toward(up, -float64(k)*e.leading).Toward(b.Along, -inner.L)
		}
		p.words = append(p.words, Word{Ink: Ink{Layer: l.Layer, Style: l.Style}, Text: s, Type: t, At: at, Along: b.Along, Width: w, Above: above, Below: below, Inverse: l.Dark, Key: l.Key})
	}
	p.labels = append(p.labels, placedLabel{label: int32(i), first: int32(first), last: int32(len(p.words)), box: b, frame: l.Frame, dark: l.Dark, layer: l.Layer, style: l.Style})
	margin := p.m.Clear
	if l.Frame != NoFrame {
		margin = rim
	}
	p.room.take(b.Grown(margin*p.unit), takenText)
}

// leaderLine is the line from a label's box to its place, of no length where it needs none.
type leaderLine struct{ tip, end Vec }

// leader gives the line from a label's box to its place; false where it would run through
// text or along a line. A label close by needs none.
func (p *Placed) leader(l *label, b Box) (line leaderLine, ok bool) {
	to := p.o.View.On(l.At)
	tip := b.Grown(0.8 * p.unit).Nearest(to)
	v := to.Sub(tip)
	if v.Length() < least*p.unit {
		return line, true
	}
	end := to.Toward(v.Unit(), -tipRoom*p.unit)
	keep := takenText
	if l.Layer == Dimensions {
		keep |= takenFine // else it reads as a dimension
	}
	if !p.room.free(BoxOf(tip, end, 0.1*p.unit), keep) || p.runsAlong(tip, end) {
		return line, false
	}
	return leaderLine{tip, end}, true
}

// lead draws a leader.
func (p *Placed) lead(l *label, line leaderLine) {
	if line.tip == line.end {
		return
	}
	p.line(Ink{Layer: l.Layer, Style: LeaderLine}, line.tip, line.end)
	p.arrows = append(p.arrows, arrow{Ink{Layer: l.Layer, Style: LeaderLine}, line.end, Unit(line.end.Sub(line.tip))})
}

// runsAlong tells whether a leader would lie on other lines for much of its way:
// it may cross them, but is lost along them.
func (p *Placed) runsAlong(a, b Vec) bool {
	const samples = 16
	on := 0
	for i := range samples {
		at := a.Add(b.Sub(a).Times((float64(i) + 0.5) / samples))
		if !p.room.free(Box{at, Vec{X: 1, Y: 0}, 0.2 * p.unit, 0.2 * p.unit}, takenAny) {
			on++
		}
	}
	return on > samples/2
}

// rimWays are how an arrow at the rim may go, in the order they are tried: clear of all, and
// longer ones that cross lines as leaders do.
var rimWays = [...]struct {
	long  float64 // mm
	clear taken
}{{6, takenAny}, {6, takenText}, {10, takenText}, {16, takenText}}

// atRim places a label at the rim of what is shown, with an arrow to its place.
func (p *Placed) atRim(i int, l *label) {
	border, to := p.o.Area.Inset(4*p.unit), p.o.View.On(l.At)
	e := p.extent(l, l.lines)
	start := Vec{X: max(border.X0, min(border.X1, to.X)), Y: max(border.Y0, min(border.Y1, to.Y))}
	for _, way := range rimWays {
		for step := range 40 { // along the rim, to both sides
			slide := float64((step+1)/2) * 5 * p.unit
			if step%2 == 1 {
				slide = -slide
			}
			at := start
			if start.X == border.X0 || start.X == border.X1 {
				at.Y = max(border.Y0, min(border.Y1, at.Y+slide))
			} else {
				at.X = max(border.X0, min(border.X1, at.X+slide))
			}
			u := Unit(to.Sub(at))
			tail := at.Toward(u, -way.long*p.unit)
			if b := BoxOf(tail, at, 0.8*p.unit); !p.o.Area.Holds(b) || !p.room.free(b, way.clear) || p.runsAlong(tail, at) {
				continue
			}
			half := Box{Along: Vec{X: 1, Y: 0}, L: e.w / 2, H: e.h / 2}.spread(u)
			h := p.hold()
			p.line(Ink{Layer: l.Layer, Style: FrameLine}, tail, at)
			p.arrows = append(p.arrows, arrow{Ink{Layer: l.Layer, Style: l.Style}, at, u})
			if p.standAt(i, l, l.lines, e, tail.Toward(u, -half-p.unit), Vec{X: 1, Y: 0}, false) {
				return
			}
			p.giveBack(h)
		}
	}
	if !l.Optional { // its mark stands at the rim
		p.row(Row{Of: l.Of, Texts: append([]string(nil), l.lines...), Layer: l.Layer, At: p.o.View.Back(start)}, start)
	}
}

// row makes a row of what found no room, and sets its mark as near to its place as
// there is room.
func (p *Placed) row(r Row, at Vec) {
	p.mark(&r, at)
	p.Rows = append(p.Rows, r)
}

// mark sets the mark of the next row as near to a place as there is room, and tells
// whether there is.
func (p *Placed) mark(r *Row, at Vec) bool {
	mark := p.numbered(p.o.FirstRow + len(p.Rows))
	l := label{Label: Label{Layer: r.Layer, Style: NoteText, Type: Small | Bold, Frame: InHexagon, At: r.At}}
	p.one[0] = mark
	e := p.extent(&l, p.one[:])
	covered := p.covered(at)
	var past [directions]float64
	for d := 0.0; d <= 60; d += max(1, d/12) {
		for k := range around {
			if d < past[k] {
				continue
			}
			p.room.way = k
			u := turned(Vec{X: 0, Y: 1}, around[k])
			b := Box{at.Toward(u, d*p.unit), Vec{X: 1, Y: 0}, e.w / 2, e.h / 2}
			if d >= 3 && covered && p.far(b, at) {
				continue
			}
			if off := p.blocked(b.Grown(rim*p.unit), u); off > 0 {
				past[k] = d + off/p.unit
				continue
			}
			if p.stand(-1, &l, p.one[:], e, b, d >= 3) {
				r.Mark = mark
				return true
			}
		}
	}
	return false
}
