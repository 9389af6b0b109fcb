// Package size places the dimensions of a plan on the screen, so that drawing and
// pointing agree about where each number stands.
package size

import (
	"math"

	"haunchbook.example/app/window/canvas/view"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

// PerMM is how many logical pixels a screen shows for a millimeter on paper: 96 to
// the inch, as CSS has it.
const PerMM = 96 / 25.4

// px gives logical pixels in millimeters on paper.
func px(n float64) float64 { return n / PerMM }

// Manner is how drawings are set on a screen.
var Manner = drawing.Manner{
	Plates: true, Quarter: true, OnLine: true, Thin: true,
	First: px(24), Step: px(21), Gap: px(4), Clear: px(2.5), Apart: 0.2, ClearLine: px(1), Tick: px(2.5),
}

// Pens are the pens of a screen.
var Pens = func() (p drawing.Pens) {
	for s, pen := range map[drawing.Style]drawing.Pen{
		drawing.EdgeLine: {Width: 2.4, Hard: true}, drawing.JointLine: {Width: 1.6}, drawing.JointHatch: {Width: 1},
		drawing.BendLine: {Width: 1}, drawing.ContourLine: {Width: 1, Dash: []float64{2, 3}},
		drawing.PadLine: {Width: 1.5, Dash: []float64{7, 4}}, drawing.PadAxis: {Width: 1, Dash: []float64{12, 4}}, drawing.BlockOutLine: {Width: 1.8, Hard: true}, drawing.CurbLine: {Width: 1.4},
		drawing.WallLine: {Width: 1.2}, drawing.PlateLine: {Width: 1},
		drawing.JambLine: {Width: 2, Hard: true}, drawing.SillLine: {Width: 1.6, Dash: []float64{6, 3}}, drawing.LipLine: {Width: 1},
		drawing.BarLine: {Width: 1.3}, drawing.BarEnd: {Width: 1.2}, drawing.WireLine: {Width: 1}, drawing.MeshLine: {Width: 1, Dash: []float64{3, 5}},
		drawing.FoamLine: {Width: 1}, drawing.FoamAxis: {Width: 1}, drawing.FrostLine: {Width: 1.2, Dash: []float64{8, 3}}, drawing.RetarderLine: {Width: 1, Dash: []float64{16, 3}},
		drawing.SawLine: {Width: 1.2, Dash: []float64{14, 5}}, drawing.IsolationLine: {Width: 4, Dash: []float64{3, 2}},
		drawing.FormLine: {Width: 2.4}, drawing.StakeLine: {Width: 2}, drawing.KickerLine: {Width: 1},
		drawing.StringLine: {Width: 1, Dash: []float64{18, 3}}, drawing.TapeLine: {Width: 1, Dash: []float64{2, 5}}, drawing.SquareLine: {Width: 2},
		drawing.BoltLine: {Width: 1.2}, drawing.EmbedLine: {Width: 1.4}, drawing.PipeLine: {Width: 1.6, Dash: []float64{12, 3, 5, 3}}, drawing.ConstructionLine: {Width: 2.4, Dash: []float64{16, 4, 4, 4, 4, 4}}, drawing.DowelLine: {Width: 1.6}, drawing.FallLine: {Width: 1.4, Dash: []float64{10, 5}},
		drawing.FallArrow: {Width: 1.8}, drawing.CreaseLine: {Width: 1.2, Dash: []float64{12, 4, 3, 4}},
		drawing.LaneLine: {Width: 1.6}, drawing.BayLine: {Width: 1, Dash: []float64{6, 4}}, drawing.ReachLine: {Width: 1.4, Dash: []float64{8, 8}}, drawing.PadMark: {Width: 2},
		drawing.DimLine: {Width: 1, Hard: true}, drawing.ExtLine: {Width: 1, Hard: true}, drawing.TickLine: {Width: 1.4, Hard: true},
		drawing.LeaderLine: {Width: 1, Hard: true}, drawing.FrameLine: {Width: 1}, drawing.SurveyLine: {Width: 1.4},
		drawing.CutLine: {Width: 1.8, Hard: true}, drawing.RuleLine: {Width: 1, Hard: true}, drawing.HatchLine: {Width: 1},
	} {
		pen.Width = px(pen.Width)
		for i := range pen.Dash {
			pen.Dash[i] = px(pen.Dash[i])
		}
		p[s] = pen
	}
	return p
}()

// Measure gives the size of text on the screen.
type Measure func(text string) (w, h float64)

// Size implements drawing.Fonts: on a screen all text is of one size.
func (m Measure) Size(text string, _ drawing.Type) (width, above, below float64) {
	w, h := m(text)
	return w, h * 0.78, h * 0.22
}

// Leading implements drawing.Fonts.
func (m Measure) Leading(drawing.Type) float64 {
	_, h := m("")
	return h
}

// ViewOf gives a view for drawings, whose Y goes up from the screen's lower edge.
func ViewOf(v view.View) drawing.View {
	return drawing.View{Scale: v.Scale, From: v.At, At: drawing.Vec{Y: v.H}}
}

// Dim is one number on the screen.
type Dim struct {
	planview.Measure
	Text string
	At   view.XY // its middle
	W, H float64 // its size as it stands
}

// Covers tells whether s lies on the number.
func (d Dim) Covers(s view.XY) bool {
	return math.Abs(s.X-d.At.X) <= d.W/2+3 && math.Abs(s.Y-d.At.Y) <= d.H/2+2
}

// Same tells whether two numbers measure the same thing.
func (d Dim) Same(e Dim) bool {
	a, b := d.Measure, e.Measure
	a.Value, b.Value = 0, 0
	return a == b
}

// Placed is the dimensions in their places, to be pointed at and to be drawn. It
// may be set again and again.
type Placed struct {
	Dims []Dim
	drawing.Placed

	d     drawing.Drawing
	maker planview.Maker
	slabs []planview.Slab
}

// Set places the dimensions of a plan, the longest edges first, with those of the
// doors and the bolt of the selected edge, and the clear distances to the other
// slabs. Those for which there is no room are left out and counted; zooming in
// brings them back.
func (p *Placed) Set(slabs []plan.Plan, worked int, v view.View, u geometry.Units, measure Measure, sel planview.Selected) {
	p.slabs = p.slabs[:0]
	for i := range slabs {
		p.slabs = append(p.slabs, planview.Slab{Plan: slabs[i]})
	}
	p.d.Units = u
	p.maker.Sizes(&p.d, p.slabs, worked, sel)
	const beyond = 200 // more than lines and numbers stand off
	area := drawing.Rect{X0: -beyond, Y0: -beyond, X1: v.W + beyond, Y1: v.H + beyond}
	p.Placed.Set(&p.d, drawing.Options{
		View: ViewOf(v), Area: area, Clip: drawing.Rect{X1: v.W, Y1: v.H}, Fonts: measure, Pens: &Pens, Manner: &Manner, Unit: PerMM,
	})
	p.Dims = p.Dims[:0]
	for _, w := range p.Words() {
		b := w.Box()
		r := b.Bounds()
		p.Dims = append(p.Dims, Dim{p.maker.Measures[w.Key], w.Text, view.XY{X: b.Mid.X, Y: v.H - b.Mid.Y}, r.Width(), r.Height()})
	}
}
