package layout_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
)

// awkward draws a sound plan that is hard on the rules: stars, combs, slivers,
// steps and corridors, turned at random, with many doors, joints and a hole.
func awkward(t *rapid.T) plan.Plan {
	for {
		p := ring()
		for _, q := range shape(t) {
			p.Outline = append(p.Outline, plan.Edge{At: q})
		}
		if !p.Outline.Corners().CounterClockwise() {
			p.Outline = p.Outline.Reversed()
		}
		if rapid.Bool().Draw(t, "hole") {
			lo, hi := p.Outline.Corners().Bounds()
			c := geometry.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
			r := geometry.Length(rapid.Int64Range(3, 40).Draw(t, "hole size")) * inch
			p.Holes = []plan.Hole{{Loop: plan.Loop{
				{At: c.Add(geometry.Point{X: -r, Y: -r})}, {At: c.Add(geometry.Point{X: -r, Y: r})},
				{At: c.Add(geometry.Point{X: r, Y: r})}, {At: c.Add(geometry.Point{X: r, Y: -r})},
			}}}
			for i := range p.Holes[0].Loop {
				p.Holes[0].Loop[i].Section = rapid.SampledFrom([]string{"", "Edge"}).Draw(t, "hole section")
			}
		}
		for i := range p.Outline {
			dress(t, p.Outline, i)
		}
		if len(p.Validate(geometry.FeetInches)) == 0 {
			return p
		}
		p.Holes = nil
		if len(p.Validate(geometry.FeetInches)) == 0 {
			return p
		}
	}
}

func dress(t *rapid.T, l plan.Loop, i int) {
	e := &l[i]
	e.Section = rapid.SampledFrom([]string{"Edge", "Edge", "Edge", "Deep", ""}).Draw(t, "section")
	e.Wall = rapid.SampledFrom([]string{"2x6", "2x4", ""}).Draw(t, "wall")
	e.Joint = rapid.IntRange(0, 5).Draw(t, "joint") == 0
	at, length := geometry.Length(0), l.Length(i)
	for range rapid.IntRange(0, 4).Draw(t, "doors") {
		d := plan.Door{
			From:    at + geometry.Length(rapid.Int64Range(0, int64(5*foot)).Draw(t, "from")),
			Width:   geometry.Length(rapid.Int64Range(1, int64(16*foot)).Draw(t, "width")),
			Section: rapid.SampledFrom([]string{"", "Deep"}).Draw(t, "under"),
			RunOut:  geometry.Length(rapid.Int64Range(0, 2).Draw(t, "runout")) * foot,
		}
		if d.From+d.Width > length {
			return
		}
		if rapid.Bool().Draw(t, "lip") {
			d.Lip = plan.Lip{Inset: 5 * inch, Drop: inch}
		}
		e.Doors = append(e.Doors, d)
		at = d.From + d.Width
	}
}

func shape(t *rapid.T) []geometry.Point {
	n := rapid.IntRange(3, 14).Draw(t, "n")
	var xy [][2]float64 // ft
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0: // star
		for i := range 2 * n {
			r := rapid.Float64Range(2, 60).Draw(t, "r")
			a := math.Pi * float64(i) / float64(n)
			xy = append(xy, [2]float64{r * math.Cos(a), r * math.Sin(a)})
		}
	case 1: // comb
		depth := rapid.Float64Range(1, 40).Draw(t, "tooth")
		gap := rapid.Float64Range(0.2, 8).Draw(t, "gap")
		xy = append(xy, [2]float64{0, -4}, [2]float64{gap * float64(2*n+1), -4})
		for i := 2 * n; i >= 0; i-- {
			y := 0.0
			if i%2 == 0 {
				y = depth
			}
			xy = append(xy, [2]float64{gap * float64(i+1), y}, [2]float64{gap * float64(i), y})
		}
	case 2: // sliver
		w := rapid.Float64Range(0.1, 3).Draw(t, "w")
		xy = [][2]float64{{0, 0}, {60, w / 3}, {61, w}, {1, w}}
	case 3: // steps
		x, y := 0.0, 0.0
		xy = append(xy, [2]float64{0, 0})
		var top [][2]float64
		for range n {
			x += rapid.Float64Range(0.05, 12).Draw(t, "dx")
			top = append(top, [2]float64{x, y})
			y += rapid.Float64Range(0.05, 12).Draw(t, "dy")
			top = append(top, [2]float64{x, y})
		}
		xy = append(xy, top...)
		xy = append(xy, [2]float64{0, y})
	default: // corridor
		w, l := rapid.Float64Range(0.3, 6).Draw(t, "w"), rapid.Float64Range(10, 80).Draw(t, "l")
		xy = [][2]float64{{0, 0}, {l, 0}, {l, l}, {l - w, l}, {l - w, w}, {0, w}}
	}
	sin, cos := math.Sincos(rapid.SampledFrom([]float64{0, 0, 0.3, math.Pi / 4, 1.1}).Draw(t, "turn"))
	out := make([]geometry.Point, len(xy))
	for i, q := range xy {
		out[i] = geometry.Point{
			X: geometry.Length((q[0]*cos - q[1]*sin) * float64(foot)),
			Y: geometry.Length((q[0]*sin + q[1]*cos) * float64(foot)),
		}
	}
	return out
}

// Nothing panics, and whatever the plan: bars lie on the slab, are no longer
// than stock, and are on the cut list once each, and the list holds nothing
// else; bolts stand on the slab; joints lie on it; sums agree.
func TestAwkwardPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := awkward(t)
		s := spec(func(s *layout.Spec) {
			s.Bars.Corner = bars.Corner(rapid.IntRange(0, 2).Draw(t, "corner"))
			s.Bars.Joint = bars.JointSteel(rapid.IntRange(0, 1).Draw(t, "joint steel"))
			s.Field.Kind = field.Kind(rapid.IntRange(0, 3).Draw(t, "field"))
			if rapid.Bool().Draw(t, "top row") {
				s.Bars.Rows = append(s.Bars.Rows, bars.Row{Face: 3 * inch, Top: 2 * inch, Size: 5})
			}
			s.Bars.Yard = []geometry.Length{7 * foot, 11 * foot}
		})
		sol, err := solid.Of(p)
		if err != nil {
			t.Fatal(err)
		}
		l := of(p, s, sol)
		checkLayout(t, p, s, l)
		if !tiny(p) && !finds(l, "Bars lie in the haunch", "keeps the haunch from here") {
			checkInConcrete(t, l, sol)
		}
	})
}

// tiny tells whether a plan has an edge shorter than 1 ft or a stretch of one
// shorter than 1 in: bars that follow such do so roughly.
func tiny(p plan.Plan) bool {
	for _, l := range p.Loops() {
		for i := range l {
			if l.Length(i) < foot {
				return true
			}
			for _, s := range l.Spans(i) {
				if s.To-s.From < inch {
					return true
				}
			}
		}
	}
	return false
}

// failing is a test, or a property.
type failing interface {
	Fatalf(format string, args ...any)
}

// checkLayout checks what holds of every layout.
func checkLayout(t failing, p plan.Plan, s layout.Spec, l laid) {
	checkMarks(t, []plan.Plan{p}, []layout.Layout{l.Layout})
	checkBars(t, p, s, l)
	checkBoards(t, l)
	for _, w := range l.Walls {
		checkPlates(t, w)
	}
	for _, j := range l.SawCuts {
		if !near(p, j.A) || !near(p, j.B) {
			t.Fatalf("cut %v leaves the slab", j)
		}
	}
	for _, s := range l.Lines {
		if onSlab(p, s.A) || onSlab(p, s.B) {
			t.Fatalf("a stake of edge %d stands in the slab: %v", s.Edge+1, s)
		}
	}
	for _, f := range l.Findings {
		if f.Text == "" || f.Rule.Name == "" || f.Rule.Source == "" {
			t.Fatalf("finding %+v", f)
		}
	}
}

// checkPlates: plates have a size, and bolts stand on them.
func checkPlates(t failing, w bolts.Wall) {
	for _, piece := range w.Pieces {
		if piece.From >= piece.To || len(piece.Outline) < 3 {
			t.Fatalf("%s: plate %+v", w.Name(), piece)
		}
	}
	for _, b := range w.Bolts {
		if !slices.ContainsFunc(w.Pieces, func(p bolts.Plate) bool { return b.Along >= p.From && b.Along <= p.To }) {
			t.Fatalf("bolt %+v off the plates of %s: %v", b, w.Name(), w.Pieces)
		}
	}
}

func checkBars(t failing, p plan.Plan, s layout.Spec, l laid) {
	placed := map[string]int{}
	for _, b := range l.Bars {
		placed[fmt.Sprint(b.Size, b.Mark, b.Cut)]++
		if b.Cut <= 0 || b.Cut > 20*foot {
			t.Fatalf("%s is cut %s", b.Mark, b.Cut.Text(0))
		}
		for i, q := range b.Path {
			if !near(p, q) {
				t.Fatalf("%s of %v leaves the slab at %v", b.Mark, b.Of, q)
			}
			if b.Depths != nil && b.Depths[i] <= 0 {
				t.Fatalf("%s is %v deep", b.Mark, b.Depths)
			}
		}
		if len(b.Bends) > 0 && (len(b.Bends) != len(b.Path)-2 || len(b.Legs) != len(b.Path)-1) {
			t.Fatalf("%s: %d bends, %d legs, %d points", b.Mark, len(b.Bends), len(b.Legs), len(b.Path))
		}
	}
	for range l.Dowels {
		placed[fmt.Sprint(s.Dowels.Size, layout.DowelMark, s.Dowels.Length)]++
	}
	for _, bar := range l.Cuts.Stock {
		held := geometry.Length(0)
		for _, c := range bar.Pieces {
			placed[fmt.Sprint(bar.Size, c.Mark, c.Length)]--
			held += c.Length
		}
		if held+bar.Rest > bar.Length {
			t.Fatalf("%+v", bar)
		}
	}
	for k, n := range placed {
		if n != 0 {
			t.Fatalf("%s is on the plan %d times more than on the list", k, n)
		}
	}
}

// checkBoards: every form board and piece of plate is on its list, once and as long
// as it is placed or by less than an eighth longer, and the lists hold nothing
// else.
func checkBoards(t failing, l laid) {
	for _, list := range []struct {
		what   string
		list   cutlist.List
		placed map[string][]geometry.Length // by what they are cut from
	}{{"board", l.Lumber, boards(l)}, {"plate", l.Plates, plates(l)}} {
		listed := map[string][]geometry.Length{}
		for _, s := range list.list.Stock {
			held := geometry.Length(0)
			for _, c := range s.Pieces {
				listed[s.Name] = append(listed[s.Name], c.Length)
				held += c.Length
			}
			if held+s.Rest != s.Length {
				t.Fatalf("%s: %+v", list.what, s)
			}
		}
		for name, want := range list.placed {
			got := listed[name]
			slices.Sort(want)
			slices.Sort(got)
			if len(got) != len(want) {
				t.Fatalf("%d pieces of %s placed, %d listed", len(want), name, len(got))
			}
			for i, w := range want {
				if max(got[i]-w, w-got[i]) > inch/32 { // a piece has the length that it is printed with
					t.Fatalf("%s of %s is listed as %s", name, w.Text(0), got[i].Text(0))
				}
			}
			delete(listed, name)
		}
		if len(listed) > 0 {
			t.Fatalf("%s: listed and not placed: %v", list.what, listed)
		}
	}
}

func boards(l laid) map[string][]geometry.Length {
	out := map[string][]geometry.Length{}
	for _, f := range l.Forms {
		out[f.Board.Name] = append(out[f.Board.Name], f.Boards...)
	}
	return out
}

func plates(l laid) map[string][]geometry.Length {
	out := map[string][]geometry.Length{}
	for _, w := range l.Walls {
		for _, p := range w.Pieces {
			out[w.Plate.Name] = append(out[w.Plate.Name], p.To-p.From)
		}
	}
	return out
}

// near tells whether a point lies on the slab or within 10 µm of it.
func near(p plan.Plan, q geometry.Point) bool {
	const r = 10 * geometry.Micrometer
	for _, d := range []geometry.Point{{}, {X: r}, {X: -r}, {Y: r}, {Y: -r}} {
		if onSlab(p, q.Add(d)) {
			return true
		}
	}
	return false
}
