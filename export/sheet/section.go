package sheet

import (
	"slices"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
)

// sectionSpec is all that a section drawing shows.
type sectionSpec struct {
	title   string
	notes   []string       // under the title
	under   []plan.Station // underside from the face inward
	field   geometry.Length
	bars    []handover.Row
	plate   *handover.Plate // nil for none
	bolt    *handover.Bolt  // nil for none
	board   string          // form board outside; "" for none
	lip     plan.Lip
	layers  []handover.Layer
	dowel   *dowelShape
	barName string // written at a bar
	steel   *handover.FieldSteel
	inside  bool // a pad or strip: the field goes on both ways
}

// dowelShape is a dowel between the slabs, seen from the side.
type dowelShape struct {
	depth, embed, length, diameter, oldSlab geometry.Length
}

// deepest gives the greatest depth of the underside.
func (s sectionSpec) deepest() geometry.Length {
	d := s.field
	for _, st := range s.under {
		d = max(d, st.Depth)
	}
	return d
}

// lowest gives the greatest depth of what lies under it.
func (s sectionSpec) lowest() geometry.Length {
	d := s.deepest()
	for _, l := range s.layers {
		for _, st := range l.Lower {
			d = max(d, st.Depth)
		}
	}
	return d
}

func (s sectionSpec) reach() geometry.Length {
	if len(s.under) == 0 {
		return 0
	}
	return s.under[len(s.under)-1].Inset
}

// Room that a section wants around the concrete, in millimeters on paper.
const (
	sectionLeft   = 14.0
	sectionRight  = 9.0
	sectionTop    = 2.0
	sectionBolt   = 9.0 // above a bolt, for its distance from the face
	sectionBottom = 13.0
)

// beyond is how much of the field is drawn beyond the taper.
func (s sectionSpec) beyond() geometry.Length { return max(6*geometry.Inch, s.reach()/4) }

// wideColumn is how wide a column is, in millimeters, that is for sections alone:
// there they may stand taller.
const wideColumn = 100.0

// sectionLayout is how a section stands in a column.
type sectionLayout struct {
	scale Scale
	title string // its first line
	notes []string
	left  geometry.Length // drawn before the face
	w, h  float64         // of the drawing without its dimensions
	head  float64         // above it
	tall  float64         // all in all
}

func (s sectionSpec) layout(u geometry.Units, width float64) sectionLayout {
	var l sectionLayout
	for _, n := range s.notes {
		l.notes = append(l.notes, wrap(n, width, sizeFine, false)...)
	}
	switch {
	case s.dowel != nil:
		l.left = s.dowel.embed + 6*geometry.Inch
	case s.inside:
		l.left = s.beyond()
	}
	w, h := l.left+s.reach()+s.beyond(), s.above()+s.lowest()
	tall := 0.6 * width
	if width > wideColumn {
		tall = 0.78 * width
	}
	l.scale, _ = fit(detailScales(u), w, h, rect{0, 0, width - sectionLeft - sectionRight, tall})
	title := wrap(s.title, width-textWidth(l.scale.Name, sizeFine, false)-3, sizeBody, true)
	l.title, l.notes = title[0], append(title[1:], l.notes...)
	l.w, l.h = l.scale.paperOf(w), l.scale.paperOf(h)
	l.head = sectionTop
	if s.bolt != nil {
		l.head = sectionBolt
	}
	l.tall = sectionHead + float64(len(l.notes))*leading(sizeFine) + l.head + l.h + sectionBottom
	return l
}

const sectionHead = 5.2

var penMesh = Pen{Width: 0.35, Color: red, Dash: []float64{2.4, 1}}

// section draws s with its upper left corner at x, top and gives the y below it.
func (d *draft) section(s sectionSpec, u geometry.Units, x, top, width float64) float64 {
	l := s.layout(u, width)
	d.write(x, top-3.2, sizeBody, true, l.title)
	d.writeRight(x+width, top-3.2, sizeFine, false, l.scale.Name)
	y := top - sectionHead
	for _, n := range l.notes {
		d.write(x, y-capHeight*sizeFine*mmPerPoint, sizeFine, false, n)
		y -= leading(sizeFine)
	}
	r := rect{x, top - l.tall, x + width, y}
	// The face stands so that the whole is centered across.
	face := x + sectionLeft + (width-sectionLeft-sectionRight-l.w)/2 + l.scale.paperOf(l.left)
	v := View{l.scale, Point{face, y - l.head - l.scale.paperOf(s.above())}}
	p := func(x, y geometry.Length) Point { return v.at(geometry.Point{X: x, Y: -y}) }

	old := d.area
	d.area = r
	defer func() { d.area = old }()

	d.ground(s, p)
	d.concrete(s, p)
	d.woodwork(s, p)
	if s.dowel != nil {
		d.oldSlab(s, p)
	}
	if m := s.steel; m != nil {
		d.soft(Steel, penMesh, p(m.Cover, m.Depth), p(s.reach()+s.beyond(), m.Depth))
	}
	for _, b := range s.bars {
		c := p(b.Inset, b.Depth)
		d.circle(Steel, Pen{Width: 0.15, Color: red}, red, c, max(0.55, v.Scale.paperOf(b.Diameter)/2))
	}
	d.sectionMeasures(s, u, p)
	d.sectionNames(s, p)
	return r.y0
}

// above is how far the drawing goes above the top of the slab.
func (s sectionSpec) above() geometry.Length {
	if s.bolt != nil {
		return max(s.bolt.Projection, 3*geometry.Inch)
	}
	return 0
}

type place func(inset, depth geometry.Length) Point

// underside gives the underside with the field beyond it.
func (s sectionSpec) underside() []plan.Station {
	st := s.under
	if len(st) == 0 {
		st = []plan.Station{{Inset: 0, Depth: s.field}}
	}
	return append(append([]plan.Station{}, st...), plan.Station{Inset: s.reach() + s.beyond(), Depth: s.field})
}

func (d *draft) concrete(s sectionSpec, p place) {
	end := s.reach() + s.beyond()
	var pts []Point
	switch {
	case s.inside:
		pts = append(pts, p(-s.beyond(), 0), p(-s.beyond(), s.field))
	case s.lip.Drop > 0:
		pts = append(pts, p(s.lip.Inset, 0), p(s.lip.Inset, s.lip.Drop), p(0, s.lip.Drop))
	default:
		pts = append(pts, p(0, 0))
	}
	for _, st := range s.underside() {
		pts = append(pts, p(st.Inset, st.Depth))
	}
	top := p(end, 0)
	d.fill(Slab, pale, append(append([]Point{}, pts...), top)...)
	d.breakLine(top, p(end, s.field))
	if s.inside {
		d.line(Slab, penHeavy, top, pts[0])
		d.line(Slab, penHeavy, pts[1:]...)
		d.breakLine(pts[0], pts[1])
		return
	}
	d.line(Slab, penHeavy, append([]Point{top}, pts...)...)
}

// breakLine marks where the slab goes on.
func (d *draft) breakLine(top, bottom Point) {
	a, b := top.toward(Point{0, 1}, 1.5), bottom.toward(Point{0, -1}, 1.5)
	m := a.add(b).times(0.5)
	d.line(Slab, penRule, a, m.add(Point{0, 1.2}), m.add(Point{1.2, 0.4}), m.add(Point{-1.2, -0.4}), m.add(Point{0, -1.2}), b)
}

// ground draws the base, the foam, and the earth under the concrete.
func (d *draft) ground(s sectionSpec, p place) {
	st := s.underside()
	for _, l := range s.layers {
		d.layer(l, p)
	}
	if n := len(s.layers); n > 0 && s.layers[n-1].Lower[0].Inset == 0 {
		st = s.layers[n-1].Lower
	}
	for i := 1; i < len(st)-1; i++ {
		a, b := p(st[i-1].Inset, st[i-1].Depth), p(st[i].Inset, st[i].Depth)
		u := b.sub(a).unit()
		n := Point{u.Y, -u.X}
		for s := 0.8; s < b.sub(a).length(); s += 2.4 {
			q := a.toward(u, s)
			d.soft(Notes, penHatch, q.toward(n, 0.3), q.toward(n, 1.8).toward(u, -1.3))
		}
	}
}

// layer draws a layer of foam or gravel.
func (d *draft) layer(l handover.Layer, p place) {
	var upper, lower []Point
	for _, st := range l.Upper {
		upper = append(upper, p(st.Inset, st.Depth))
	}
	for _, st := range l.Lower {
		lower = append(lower, p(st.Inset, st.Depth))
	}
	ring := slices.Clone(upper)
	for _, q := range slices.Backward(lower) {
		ring = append(ring, q)
	}
	// down gives the place straight below one of the upper side, at a share of the
	// way to the lower.
	down := func(q Point, share float64) Point { return Point{q.X, q.Y + (heightAt(lower, q.X)-q.Y)*share} }
	if l.Kind == takeoff.FoamStock {
		d.fill(Notes, white, ring...)
		d.soft(Notes, penHatch, append(ring, ring[0])...)
	} else {
		d.soft(Notes, penHatch, lower...)
	}
	n := 0
	for x := upper[0].X + 1; x < upper[len(upper)-1].X-0.5; x += 1.7 {
		a := Point{x, heightAt(upper, x)}
		if l.Kind == takeoff.FoamStock {
			d.soft(Notes, penHatch, a, down(Point{max(upper[0].X, x-1), a.Y}, 1))
			continue
		}
		d.page.Items = append(d.page.Items, Circle{Layer: Notes, Center: down(a, []float64{0.3, 0.7, 0.5}[n%3]), Radius: 0.32, Pen: penHatch, Soft: true})
		n++
	}
}

// heightAt gives the height of a chain that runs to the right, at x.
func heightAt(chain []Point, x float64) float64 {
	for i := 1; i < len(chain); i++ {
		if a, b := chain[i-1], chain[i]; x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return chain[len(chain)-1].Y
}

// woodwork draws the form board, the plate and the bolt.
func (d *draft) woodwork(s sectionSpec, p place) {
	if b, ok := lumber.Named(s.board); ok && s.dowel == nil {
		d.wood(p(-b.Thickness, 0), p(0, b.Width))
	}
	if b := s.plate; b != nil {
		if b.Over > 0 { // it stands on the slab beyond the door's lip
			d.soft(Slab, penRule, p(0, s.lip.Drop), p(0, 0), p(s.lip.Inset, 0))
		}
		d.wood(p(0, -b.Thickness), p(b.Width, 0))
	}
	if t := s.bolt; t != nil {
		d.bolt(t, s.plate, p)
	}
}

// bolt draws an anchor bolt in its plate, with its hook or its head.
func (d *draft) bolt(t *handover.Bolt, plate *handover.Plate, p place) {
	half, low := t.Diameter/2, t.Deep()
	pen := Pen{Width: 0.25, Color: red}
	left, right := t.Inset-half, t.Inset+half
	switch {
	case t.Shape == bolts.Bent && t.Hook > t.Diameter:
		tip := left + t.Hook + t.Diameter // Hook counts from the shaft's inner side
		d.line(Bolts, pen, p(left, -t.Projection), p(left, low), p(tip, low), p(tip, low-t.Diameter), p(right, low-t.Diameter), p(right, -t.Projection))
	default:
		head := t.Diameter // of a hex bolt about 1.5 diameters across, and 5/8 high
		d.line(Bolts, pen, p(left, -t.Projection), p(left, low))
		d.line(Bolts, pen, p(right, -t.Projection), p(right, low))
		if t.Shape == bolts.Headed {
			d.ring(Bolts, pen, white, p(t.Inset-head*3/4, low), p(t.Inset+head*3/4, low), p(t.Inset+head*3/4, low-head*5/8), p(t.Inset-head*3/4, low-head*5/8))
		}
	}
	d.line(Bolts, pen, p(left, -t.Projection), p(right, -t.Projection))
	if plate != nil {
		// Washer and nut on the plate.
		side := max(t.Washer, 2*t.Diameter) / 2
		top := -plate.Thickness
		d.ring(Bolts, pen, white, p(t.Inset-side, top), p(t.Inset+side, top), p(t.Inset+side, top-geometry.Inch/8), p(t.Inset-side, top-geometry.Inch/8))
	}
}

// wood draws lumber seen from its end.
func (d *draft) wood(a, b Point) {
	pts := []Point{a, {b.X, a.Y}, b, {a.X, b.Y}}
	d.ring(Forms, penRule, white, pts...)
	d.soft(Forms, penHatch, pts[0], pts[2])
	d.soft(Forms, penHatch, pts[1], pts[3])
}

func (d *draft) oldSlab(s sectionSpec, p place) {
	w := s.dowel
	left := -(w.embed + 6*geometry.Inch)
	d.line(OldSlab, penHeavy, p(left, 0), p(0, 0), p(0, w.oldSlab), p(left, w.oldSlab))
	a, b := p(left, 0), p(0, w.oldSlab)
	for x := a.X - (a.Y - b.Y); x < b.X; x += 2.2 {
		// 45 degree hatch, clipped to the rectangle by hand.
		p0, p1 := Point{x, b.Y}, Point{x + (a.Y - b.Y), a.Y}
		if p0.X < a.X {
			p0 = Point{a.X, b.Y + a.X - x}
		}
		if p1.X > b.X {
			p1 = Point{b.X, b.Y + b.X - x}
		}
		if p1.X > p0.X {
			d.soft(OldSlab, penHatch, p0, p1)
		}
	}
	half := w.diameter / 2
	d.ring(Steel, Pen{Width: 0.15, Color: red}, red, p(-w.embed, w.depth-half), p(w.length-w.embed, w.depth-half), p(w.length-w.embed, w.depth+half), p(-w.embed, w.depth+half))
}
