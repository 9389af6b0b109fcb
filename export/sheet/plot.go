package sheet

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// shown is what a plan shows of its slabs.
type shown struct {
	draw, names drawing.Layers
	again       bool // a figure among others: the corners are numbered on the first sheet
	pour        bool
	beside      bool // the other slabs of the job stand round them
	notes       func(plan.Note) bool
	kept        map[string]*drawing.Drawing // what was drawn of the same slabs, by the slabs round them; nil to keep none
}

// slabLayers is what every plan has: the slab with its holes and bends, the joint and
// the numbers of the corners.
var slabLayers = drawing.LayersOf(drawing.Outline, drawing.Haunch, drawing.Pads, drawing.BlockOuts, drawing.Curbs, drawing.Joint, drawing.Corners)

// layoutLayers is what the first sheets have.
var layoutLayers = slabLayers.With(drawing.Openings, drawing.Embeds, drawing.Lines, drawing.Construction, drawing.Plates, drawing.Bolts, drawing.Dowels, drawing.SawCuts, drawing.Walls, drawing.Frost,
	drawing.StakeOut, drawing.Heights, drawing.Falls, drawing.Survey, drawing.Notes, drawing.Dimensions, drawing.Names, drawing.Sections)

// figureOf gives what a figure of some layers shows.
func figureOf(layers ...drawing.Layer) shown {
	of := slabLayers.With(layers...)
	return shown{draw: of, names: of.Without(drawing.Joint, drawing.Pads, drawing.BlockOuts, drawing.Curbs), again: true}
}

// plot is a plan on a sheet.
type plot struct {
	*draft
	view  View
	of    []takeoff.Slab
	paper rect // all that it may take of the sheet
}

// plot draws slabs with all that w says, cut to clip, their labels and dimensions
// within the draft's area. What of these found no room waits in the draft for a table.
func (s *set) plot(d *draft, v View, paper, clip rect, of []takeoff.Slab, w shown) plot {
	d.sees(v)
	s.show(d, s.place(v, drawing.Options{Area: d.area, Clip: clip, Taken: d.inked().boxes}, of, w), Point{})
	return plot{d, v, of, paper}
}

// sees makes a plan's view that of the page, if it is the first there.
func (d *draft) sees(v View) {
	if d.page.View == nil {
		d.page.View = &v
	}
}

// place sets slabs on paper with all that w says.
func (s *set) place(v View, o drawing.Options, of []takeoff.Slab, w shown) *drawing.Placed {
	var beside []int
	if w.beside {
		const margin = 12 // mm: farther from their lines nothing of them stands
		lo, hi := v.point(Point{X: o.Clip.X0 - margin, Y: o.Clip.Y0 - margin}), v.point(Point{X: o.Clip.X1 + margin, Y: o.Clip.Y1 + margin})
		for _, k := range s.near(plane.BoxOf(lo, hi)) {
			if !numbered(of, s.takeoff.Slabs[k].Number) {
				beside = append(beside, int(k))
			}
		}
	}
	key := fmt.Sprint(beside)
	dr, ok := w.kept[key]
	if !ok {
		if dr = s.planOf(of, beside, w); w.kept != nil {
			w.kept[key] = dr
		}
	}
	o.View, o.Fonts, o.FirstRow = v.drawn(), s.fonts, s.aside+1
	o.Number = func(n int) string { return mark.Mark{Kind: mark.Aside, N: n}.String() }
	return drawing.Place(dr, o)
}

// planOf draws slabs with all that w says, and others round them, by their places among
// all slabs.
func (s *set) planOf(of []takeoff.Slab, beside []int, w shown) *drawing.Drawing {
	in := planview.Input{Survey: s.job.Survey}
	if w.notes != nil {
		in.Survey.Notes = slices.DeleteFunc(slices.Clone(in.Survey.Notes), func(n plan.Note) bool { return !w.notes(n) })
	}
	for _, slab := range of {
		in.Slabs = append(in.Slabs, s.drawn(slab))
	}
	for _, k := range beside {
		in.Beside = append(in.Beside, planview.Slab{Name: s.takeoff.Slabs[k].Name, Plan: s.takeoff.Slabs[k].Plan})
	}
	if w.pour {
		in.Pour = s.pourDrawn(of)
	}
	dr := planview.Plan(s.job.Units, in, planview.Options{Draw: w.draw, Names: w.names, Worked: -1, Sound: true, Again: w.again, Selected: planview.Selected{Edge: -1, Bolt: -1}})
	if s.say != nil {
		dr.Say(s.say.Say)
	}
	return dr
}

// show draws what is placed, moved by a vector.
func (s *set) show(d *draft, placed *drawing.Placed, by Point) {
	s.aside += len(placed.Rows)
	d.rows = append(d.rows, placed.Rows...)
	for _, m := range placed.Measures {
		if m.Row {
			continue // a table has its text
		}
		d.page.measures = append(d.page.measures, measureOf(m, by))
	}
	placed.Draw(ink{d, by})
}

// numbered tells whether a slab of a number in the job is among some.
func numbered(of []takeoff.Slab, n int) bool {
	return slices.ContainsFunc(of, func(t takeoff.Slab) bool { return t.Number == n })
}

// drawn gives a slab ready to be drawn, with what is written on it.
func (s *set) drawn(slab takeoff.Slab) planview.Slab {
	out, ok := s.ready[slab.Number]
	if !ok {
		out = handover.Drawn(&slab)
		out.Number, out.Name, out.Plan = slab.Number, slab.Name, slab.Plan
		out.Beyond, out.Title = s.beyond(slab), s.slabTitle(slab)
		if len(s.sections) > 1 { // else it goes without saying
			out.Letters = s.sections.Letters(slab.Number)
		}
		s.ready[slab.Number] = out
	}
	return out
}

// slabTitle says what the field is, of which slab, and how high it lies.
func (s *set) slabTitle(slab takeoff.Slab) []string {
	lines := []string{slab.Plan.Field.Text(s.job.Units) + " slab"}
	if slab.Name != "" {
		lines = append([]string{slab.Name}, lines...)
	}
	if high := s.heights.Of(slab.Number); high.Level && (high.Top != 0 || len(s.job.Survey.Benchmarks) > 0) {
		lines = append(lines, "top "+high.Top.Text(s.job.Units))
	}
	return lines
}

// unmarked lists what found no room on drawings, by the marks that stand there in its
// stead.
func (s *set) unmarked(rows []drawing.Row) block {
	if len(rows) == 0 {
		return nothing{}
	}
	tb := table{title: s.say.Word("No room on the drawing for"), head: s.words([]string{"Mark", "What", "Text"}), right: []bool{false, false, false}}
	for _, r := range rows {
		tb.rows = append(tb.rows, []string{r.Mark, r.Of, strings.Join(r.Texts, ", ")})
	}
	return tableBlock{table: tb}
}

// beyond says what lies on the far side of each joint of a slab, and what stands in it.
func (s *set) beyond(slab takeoff.Slab) map[int]string {
	out := map[int]string{}
	l := slab.Plan.Outline
	for i, e := range l {
		if !e.Joint {
			continue
		}
		a, b := l.Ends(i)
		v := geometry.Along(a, b, geometry.Inch).Sub(a)
		p, text := drawing.Between(a, b, 0.5).Add(geometry.Point{X: v.Y, Y: -v.X}), "old slab"
		for _, t := range s.takeoff.Slabs {
			if t.Number != slab.Number && plane.In(t.Plan.Outline.Rim(), p) {
				text = t.Name
			}
		}
		n := 0
		for _, w := range slab.Layout.Dowels {
			if w.Edge == i {
				n++
			}
		}
		if n > 0 {
			text += fmt.Sprintf(" – %d dowels, tape from %d to %d", n, i+1, (i+1)%len(l)+1)
		}
		if slices.ContainsFunc(slab.Layout.Isolation, func(s joints.Isolation) bool { return s.Loop == 0 && s.Edge == i }) {
			text += " – isolation strip"
		}
		out[i] = text
	}
	return out
}

// sideName names a side by its corners, that of a hole by the hole's mark too.
func sideName(slab takeoff.Slab, loop, edge int) string {
	n := len(slab.Plan.Loops()[loop])
	s := fmt.Sprintf("%d–%d", edge+1, (edge+1)%n+1)
	if loop > 0 {
		s = slab.Layout.Marks.Hole(loop-1).String() + ": " + s
	}
	return s
}

// symbol draws a symbol alone, along a direction.
func (d *draft) symbol(c Point, style drawing.Style, symbol drawing.Symbol, turn geometry.Point) {
	var dr drawing.Drawing
	dr.Mark(drawing.Pencil{Layer: Notes, Style: style}, symbol, geometry.Point{}, turn)
	const reach = 25 // mm: farther from its place no symbol goes
	o := drawing.Options{View: View{Scale: Scale{Ratio: 1}, Origin: c}.drawn(), Area: rect{X0: c.X, Y0: c.Y, X1: c.X, Y1: c.Y}.Inset(-reach)}
	drawing.Place(&dr, o).Draw(ink{d: d})
}

// datum draws a number in a full circle, as the datum corner has it.
func (d *draft) datum(c Point, s string) {
	d.circle(Notes, penRule, black, c, max(2.1, textWidth(s, sizeSmall, true)/2+0.7))
	d.put(Text{Layer: Notes, At: Point{X: c.X - textWidth(s, sizeSmall, true)/2, Y: c.Y - 0.365*sizeSmall*mmPerPoint}, Size: sizeSmall, Bold: true, Color: white, Text: s})
}

// measureOf gives a dimension, moved by a vector, as a drawing file has it.
func measureOf(m drawing.Measured, by Point) measure {
	from, to, on := m.P.Add(by), m.Q.Add(by), m.On.Add(by)
	u := drawing.Readable(drawing.Unit(to.Sub(from)))
	t := Text{Layer: Dimension, Turn: angle(u), Size: sizeBody, Color: blue, Text: m.Text}
	t.At = m.At.Add(by).Toward(u, -t.Width()/2).Toward(u.Left(), -capHeight*t.Size*mmPerPoint/2)
	return measure{from, to, on, on.Add(to.Sub(from)), t}
}

func (v View) drawn() drawing.View {
	return drawing.View{Scale: drawing.Ratio(v.Scale.drawn()), At: drawing.Vec{X: v.Origin.X, Y: v.Origin.Y}}
}
