package planview_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/drawingtest"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

var setOut = drawing.LayersOf(drawing.Outline, drawing.Openings, drawing.Joint, drawing.Corners, drawing.Dimensions, drawing.Names, drawing.Pads, drawing.Embeds, drawing.Lines, drawing.Falls, drawing.Sections, drawing.Survey, drawing.Notes)

func drawn(p plan.Plan, u geometry.Units) *drawing.Drawing {
	in := planview.Input{Slabs: []planview.Slab{{Plan: p, Layout: &layout.Layout{Marks: mark.Of(p)[0]}, Letters: map[string]string{"Edge": "A"}}}}
	return planview.Plan(u, in, planview.Options{Draw: setOut, Names: setOut, Worked: -1, Sound: true})
}

// onSheet places a drawing of a plan on a sheet with room for the plan at a scale
// and a hand's breadth round it.
func onSheet(d *drawing.Drawing, p plan.Plan, ratio float64) (*drawing.Placed, drawing.Rect) {
	lo, hi := p.Outline.Rim().Bounds()
	scale := drawing.Ratio(ratio)
	area := drawing.Rect{X1: float64(hi.X-lo.X)*scale + 90, Y1: float64(hi.Y-lo.Y)*scale + 90}
	return drawing.Place(d, drawing.Options{View: drawing.ViewIn(scale, lo, hi, area), Area: area, Fonts: drawing.Remember(&drawingtest.Fonts{})}), area
}

// must lists what stands on a plan's drawing, from the plan itself.
func must(p plan.Plan, u geometry.Units) (texts []string) {
	n := 0
	for k, l := range p.Loops() {
		for i := range l {
			if k == 0 {
				texts = append(texts, fmt.Sprint(i+1)) // the corner's number
			}
			if k == 0 || len(l) != 4 {
				texts = append(texts, l.Length(i).Text(u))
			}
			at := geometry.Length(0)
			for _, d := range l[i].Doors {
				n++
				name := d.Name
				if name == "" {
					name = fmt.Sprintf("D%d", n)
				}
				kind := "overhead door"
				if d.Kind == plan.Walk {
					kind = "walk door"
				}
				texts = append(texts, name+" "+kind, "rough opening "+d.Width.Text(u), d.Width.Text(u))
				if d.From > at {
					texts = append(texts, (d.From - at).Text(u))
				}
				at = d.From + d.Width
			}
			if at > 0 && at < l.Length(i) {
				texts = append(texts, (l.Length(i) - at).Text(u))
			}
		}
	}
	for i := range p.Pads {
		texts = append(texts, fmt.Sprintf("P%d pad", i+1))
	}
	for i, l := range p.Lines {
		name, size, deep := fmt.Sprintf("L%d", i+1), l.Kind.String()+" "+l.Diameter.Text(u), "top "+l.Cover.Text(u)
		if l.Name != "" {
			name += " " + l.Name
		}
		if l.Height > 0 {
			size += " × " + l.Height.Text(u)
		}
		if l.EndCover > 0 {
			deep += " to " + l.EndCover.Text(u)
		}
		texts = append(texts, name, size, deep+" down")
	}
	for i, e := range p.Embeds {
		size := e.Width.Text(u)
		if e.Length > 0 {
			size += " × " + e.Length.Text(u)
		}
		if e.Deep > 0 {
			size += ", " + e.Deep.Text(u) + " deep"
		}
		texts = append(texts, fmt.Sprintf("E%d", i+1), e.Kind.String()+" "+size)
	}
	for i := range p.Holes {
		texts = append(texts, fmt.Sprintf("H%d opening", i+1))
	}
	return texts
}

// Whatever must stand on a drawing stands on it or in its rows, at every scale, and
// nothing stands on anything else.
func TestNothingIsLostAtAnyScale(t *testing.T) {
	for _, c := range corpus() {
		for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
			d := drawn(c.plan, u)
			for _, ratio := range []float64{24, 48, 96, 240, 600} {
				p, area := onSheet(d, c.plan, ratio)
				name := fmt.Sprintf("%s 1:%g", c.name, ratio)
				if lost := drawingtest.Lost(p, must(c.plan, u)); len(lost) > 0 {
					t.Errorf("%s: %q is neither on the drawing nor in a row", name, lost)
				}
				for _, s := range drawingtest.Look(p).Overlaps(area, &drawing.Paper) {
					t.Errorf("%s: %s", name, s)
				}
				checkRows(t, name, p)
			}
		}
	}
}

// checkRows looks for each row's mark on the drawing, and for what a reader needs
// where there is none.
func checkRows(t *testing.T, name string, p *drawing.Placed) {
	t.Helper()
	seen := map[string]bool{}
	for _, r := range p.Rows {
		if len(r.Texts) == 0 || r.Mark == "" && r.Of == "" {
			t.Errorf("%s: the row %+v says nothing", name, r)
		}
		if r.Mark == "" {
			continue
		}
		if seen[r.Mark] {
			t.Errorf("%s: two rows have the mark %q", name, r.Mark)
		}
		seen[r.Mark] = true
		if !slices.ContainsFunc(p.Words(), func(w drawing.Word) bool { return w.Text == r.Mark && w.Layer == r.Layer }) {
			t.Errorf("%s: the mark %q of %s is not on the drawing", name, r.Mark, r.Of)
		}
	}
}

// At a usual scale of a usual plan nothing needs a row.
func TestUsualPlansNeedNoRows(t *testing.T) {
	for _, c := range corpus()[:3] {
		if p, _ := onSheet(drawn(c.plan, geometry.FeetInches), c.plan, 48); len(p.Rows) > 0 {
			t.Errorf("%s: %+v", c.name, p.Rows)
		}
	}
}

// The same plan gives the same drawing, also by a maker that made others before.
func TestDrawingsAreDeterministic(t *testing.T) {
	var m planview.Maker
	var d drawing.Drawing
	var placed drawing.Placed
	for _, c := range corpus() {
		in := planview.Input{Slabs: []planview.Slab{{Plan: c.plan, Layout: &layout.Layout{Marks: mark.Of(c.plan)[0]}, Letters: map[string]string{"Edge": "A"}}}}
		m.Make(&d, in, planview.Options{Draw: setOut, Names: setOut, Worked: -1, Sound: true})
		fresh, area := onSheet(drawn(c.plan, geometry.FeetInches), c.plan, 48)
		lo, hi := c.plan.Outline.Rim().Bounds()
		placed.Set(&d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(48), lo, hi, area), Area: area, Fonts: &drawingtest.Fonts{}})
		if a, b := fmt.Sprint(drawingtest.Look(fresh)), fmt.Sprint(drawingtest.Look(&placed)); a != b {
			t.Errorf("%s: two drawings differ", c.name)
		}
	}
}

// The key plan has the outline of every slab, its own one dark.
func TestKeyPlan(t *testing.T) {
	c := corpus()
	slabs := []planview.Slab{{Plan: c[0].plan}, {Number: 1, Plan: c[9].plan}}
	d := planview.Key(slabs, 1)
	lo, hi, _ := d.Bounds()
	area := drawing.Rect{X1: 60, Y1: 26}
	seen := drawingtest.Look(drawing.Place(d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(600), lo, hi, area), Area: area, Fonts: &drawingtest.Fonts{}}))
	if want := len(c[0].plan.Outline) + len(c[9].plan.Outline); len(seen.Lines) != want || len(seen.Fills) != 1 || len(seen.Fills[0].Rings[0]) != len(c[9].plan.Outline) {
		t.Errorf("%d lines and %d areas, want %d and 1", len(seen.Lines), len(seen.Fills), want)
	}
}

// Each text is measured once.
func TestTextIsMeasuredOnce(t *testing.T) {
	c := corpus()[2]
	d := drawn(c.plan, geometry.FeetInches)
	fonts := &drawingtest.Fonts{}
	lo, hi := c.plan.Outline.Rim().Bounds()
	area := drawing.Rect{X1: 400, Y1: 300}
	drawing.Place(d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(48), lo, hi, area), Area: area, Fonts: drawing.Remember(fonts)})
	if fonts.Again > 0 {
		t.Errorf("%d texts were measured again", fonts.Again)
	}
}

// A plan that is split over sheets has every measure on one of them, none of its
// texts across the cut, and a break where a measure goes on.
func TestSplitPlans(t *testing.T) {
	c := corpus()[4]
	d := drawn(c.plan, geometry.FeetInches)
	lo, hi := c.plan.Outline.Rim().Bounds()
	scale := drawing.Ratio(96)
	whole := drawing.Rect{X1: float64(hi.X-lo.X)*scale + 90, Y1: float64(hi.Y-lo.Y)*scale + 90}
	view := drawing.ViewIn(scale, lo, hi, whole)
	have := map[string]bool{}
	half := whole.X1 / 2
	for _, clip := range []drawing.Rect{{X1: half, Y1: whole.Y1}, {X0: half, X1: whole.X1, Y1: whole.Y1}} {
		p := drawing.Place(d, drawing.Options{View: view, Area: clip, Fonts: &drawingtest.Fonts{}})
		seen := drawingtest.Look(p)
		for _, s := range seen.Overlaps(clip, &drawing.Paper) {
			t.Error(s)
		}
		for _, l := range seen.Lines {
			if l.Layer != drawing.Dimensions && (!clip.Inset(-3).Has(l.A) || !clip.Inset(-3).Has(l.B)) {
				t.Errorf("a line of %s goes on to %v past the cut", l.Layer, l.B)
			}
		}
		for _, w := range p.Words() {
			have[w.Text] = true
		}
		for _, r := range p.Rows {
			for _, text := range r.Texts {
				have[text] = true
			}
		}
	}
	for _, text := range must(c.plan, geometry.FeetInches) {
		if !have[text] {
			t.Errorf("%q is on neither half", text)
		}
	}
}

// On a screen what finds no room is left out and told, and nothing stands on
// anything else.
func TestScreenIsThinned(t *testing.T) {
	screen := drawing.Manner{Plates: true, Quarter: true, OnLine: true, Thin: true, First: 6.3, Step: 5.5, Gap: 1, Clear: 0.6, ClearLine: 0.2, Tick: 0.6}
	for _, c := range corpus() {
		in := planview.Input{Slabs: []planview.Slab{{Plan: c.plan}}}
		for _, ratio := range []float64{20, 60, 200, 900} {
			scale := drawing.Ratio(ratio)
			o := planview.Options{Draw: setOut, Names: setOut, Sound: true, Screen: true, Detail: geometry.Length(0.8 / scale), Selected: planview.Selected{Edge: 0, Bolt: -1}}
			var m planview.Maker
			var d drawing.Drawing
			m.Make(&d, in, o)
			lo, hi := c.plan.Outline.Rim().Bounds()
			area := drawing.Rect{X1: 339, Y1: 238}
			var p drawing.Placed
			p.Set(&d, drawing.Options{View: drawing.ViewIn(scale, lo, hi, area), Area: area, Fonts: &drawingtest.Fonts{}, Manner: &screen})
			seen := drawingtest.Look(&p)
			hard := drawing.Paper
			for i := range hard {
				if !hard[i].Hard || drawing.Style(i) == drawing.DimLine {
					hard[i].Width = 0 // it lies under the plates
				}
			}
			for _, s := range seen.Overlaps(area, &hard) {
				if !strings.HasPrefix(s, "dimension lines") {
					t.Errorf("%s 1:%g: %s", c.name, ratio, s)
				}
			}
			if len(p.Rows) > 0 {
				t.Errorf("%s: a screen has rows", c.name)
			}
			written := 0
			for _, w := range p.Words() {
				if w.Layer == drawing.Dimensions {
					written++
					if k := m.Measures[w.Key]; k.Value.Text(geometry.FeetInches) != w.Text {
						t.Errorf("%s: %q is the key of %+v", c.name, w.Text, k)
					}
				}
			}
			whole := area.Inset(10)
			if all := len(m.Measures); whole.Has(p.On(lo)) && whole.Has(p.On(hi)) && written+p.Thinned[drawing.Dimensions] != all {
				t.Errorf("%s 1:%g: %d measures, %d written and %d left out", c.name, ratio, all, written, p.Thinned[drawing.Dimensions])
			}
		}
	}
}

// How thick a slab is stands on it, where the middle of what holds it is none of it too.
func TestThicknessStandsOnTheSlab(t *testing.T) {
	leg, wide, tall := 8*geometry.Foot, 26*geometry.Foot, 24*geometry.Foot
	ring := geometry.Ring{{}, {X: wide}, {X: wide, Y: tall}, {X: wide - leg, Y: tall}, {X: wide - leg, Y: 6 * geometry.Foot}, {X: leg, Y: 6 * geometry.Foot}, {X: leg, Y: tall}, {Y: tall}}
	p := plan.Plan{Field: geometry.Foot / 2, Sections: []plan.Section{{Name: "Edge", Depth: geometry.Foot, Bottom: geometry.Foot / 2, Taper: geometry.Foot / 2}}}
	p = p.WithOutline(plan.Like(ring, plan.Edge{Section: "Edge"}))
	s, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	in := planview.Input{Slabs: []planview.Slab{{Plan: p, Underside: planview.UndersideOf(s, p.Field), Layout: &layout.Layout{Marks: mark.Of(p)[0]}}}}
	d := planview.Plan(geometry.FeetInches, in, planview.Options{Draw: setOut, Names: setOut, Worked: -1, Sound: true})
	lo, hi := ring.Bounds()
	area := drawing.Rect{X1: 260, Y1: 200}
	v := drawing.ViewIn(drawing.Ratio(64), lo, hi, area)
	for _, w := range drawingtest.Look(drawing.Place(d, drawing.Options{View: v, Area: area, Fonts: drawing.Remember(&drawingtest.Fonts{})})).Words {
		if w.Text == `6" slab` {
			if at := v.Back(w.At.Toward(w.Along, w.Width/2)); at.X > leg && at.X < wide-leg && at.Y > 6*geometry.Foot {
				t.Errorf("it stands at %v, between the legs", at)
			}
			return
		}
	}
	t.Error("it stands nowhere")
}
