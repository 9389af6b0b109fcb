package layout_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// star gives a slab of n edges whose corners lie by turns on two circles, with a
// deeper door in every edge.
func star(n int, outer, inner float64) plan.Plan {
	p := ring()
	for i := range n {
		r := outer
		if i%2 == 1 {
			r = inner
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p.Outline = append(p.Outline, plan.Edge{
			At:      geometry.Point{X: geometry.Length(r * cos * float64(foot)), Y: geometry.Length(r * sin * float64(foot))},
			Section: "Edge", Wall: "2x6", Joint: i%9 == 4,
			Doors: []plan.Door{{From: 3 * foot, Width: 4 * foot, Section: "Deep"}, {From: 9 * foot, Width: 3 * foot, Section: "Deep", RunOut: 2 * foot}},
		})
	}
	return p
}

// wide gives a rectangle with a joint, a pad and a strip as large as it allows.
func wide(x, y float64) plan.Plan {
	p := ring(0, 0, x, 0, x, y, 0, y)
	p.Outline[1].Joint = true
	at := func(fx, fy float64) geometry.Point {
		return geometry.Point{X: geometry.Length(fx * x * float64(foot)), Y: geometry.Length(fy * y * float64(foot))}
	}
	p.Pads = []plan.Pad{{Center: at(0.5, 0.5), Width: at(0.5, 0).X, Length: at(0, 0.5).Y, Depth: foot, Turn: 0}}
	p.Strips = []plan.Strip{{Path: []geometry.Point{at(0.1, 0.1), at(0.9, 0.1), at(0.9, 0.9)}, Bottom: foot, Depth: foot}}
	return p
}

// extremes are sound plans that make much work.
func extremes() map[string]plan.Plan {
	return map[string]plan.Plan{
		"star 200":      star(200, 700, 650),
		"sharp star 60": star(60, 300, 120),
		"sharp star 20": star(20, 90, 50),
		"largest":       wide(2000, 2000),
		"longest":       wide(2000, 3),
		"large":         wide(500, 400),
		"usual":         wide(40, 30),
		"toothed 400":   toothed(400),
	}
}

// tight changes a specification to the least spacings and the shortest stock that
// pass.
func tight(s *layout.Spec) {
	s.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: foot}
	s.Bars.Leg, s.Bars.Stagger = 0, 0
	s.Bars.Stock, s.Forms.Stock, s.Bolts.Stock = []geometry.Length{5 * foot, 5*foot + 1}, []geometry.Length{2 * foot}, 2*foot
	s.Pads = bars.PadSpec{Size: 3, Spacing: inch}
	s.Strips = bars.StripSpec{Size: 3, Count: 50}
	s.Dowels.Spacing, s.Dowels.End = 2*inch, 0
	s.Bolts.Spacing, s.Bolts.Stud, s.Bolts.Shift = 6*inch, 6*inch, 2*foot
	s.Forms.Stakes, s.Forms.Kickers = 6*inch, 6*inch
	s.SawCuts.Ratio, s.SawCuts.Spacing = 10, 2*foot
	s.Field.Spacing, s.Field.Chairs, s.Field.Cover = 2*inch, 6*inch, 0
	s.Field.Width, s.Field.Length = 21*inch, 21*inch
}

// checkBounded: whatever the plan and the specification, things are counted, and
// what is too much is reported instead of laid.
func checkBounded(t failing, l laid) {
	const most = 500_000
	stakes, bolts := 0, 0
	for _, f := range l.Forms {
		stakes += len(f.Stakes) + len(f.Kickers) + len(f.Boards)
	}
	for _, w := range l.Walls {
		bolts += len(w.Bolts) + len(w.Pieces)
	}
	for _, n := range []int{len(l.Bars), len(l.Mesh), len(l.Dowels), len(l.SawCuts), len(l.Cuts.Stock), len(l.Lumber.Stock), len(l.Plates.Stock), stakes, bolts} {
		if n > most {
			t.Fatalf("%d things of a kind", n)
		}
	}
	if l.Chairs > 1_000_000 {
		t.Fatalf("%d chairs", l.Chairs)
	}
}

func tooMany(l laid) (n int) {
	for _, f := range l.Findings {
		if f.Rule.Name == "Size of the job" {
			n++
		}
	}
	return n
}

func TestExtremesEnd(t *testing.T) {
	for name, p := range extremes() {
		if faults := p.Validate(0); len(faults) > 0 {
			t.Fatal(name, faults)
		}
		sol := solidOf(t, p)
		for _, size := range []geometry.Length{1, 4 * foot} {
			for _, c := range []cover.Laid{cover.Foam(p, sol, size, 2*size, true), cover.Lay(p, cover.Ply{Width: size, Length: 2 * size, Lap: size - 1, Margin: -foot})} {
				if len(c.Sheets) > 20_000 || !c.TooMany && len(c.Sheets) == 0 {
					t.Errorf("%s: %d sheets", name, len(c.Sheets))
				}
			}
		}
		for kind := range field.Kind(3) {
			for _, change := range []func(*layout.Spec){nil, tight} {
				s := spec(change)
				s.Field.Kind, s.Bars.Corner = kind, bars.Corner(kind)
				if faults := specFaults(s); len(faults) > 0 {
					t.Fatal(faults)
				}
				l := of(p, s, sol)
				checkBounded(t, l)
				switch n := tooMany(l); {
				case name == "largest" && change != nil && n < 2:
					t.Errorf("%s: %d kinds are too many", name, n)
				case name == "usual" && n > 0:
					t.Errorf("%s: too many", name)
				}
			}
		}
	}
}

// walk visits every length of a specification.
func walk(v reflect.Value, visit func(reflect.Value)) {
	switch {
	case v.Type() == reflect.TypeFor[geometry.Length]():
		visit(v)
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			walk(v.Field(i), visit)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	}
}

// TestAnySpecEnds tries specifications at and near their limits.
func TestAnySpecEnds(t *testing.T) {
	plans := extremes()
	names := []string{"sharp star 20", "usual", "large"}
	rapid.Check(t, func(t *rapid.T) {
		p := plans[rapid.SampledFrom(names).Draw(t, "plan")]
		s := spec(nil)
		if rapid.Bool().Draw(t, "tight") {
			tight(&s)
		}
		s.Field.Kind = field.Kind(rapid.IntRange(0, 2).Draw(t, "field"))
		s.Field.Roll = rapid.Bool().Draw(t, "roll")
		s.Bars.Corner = bars.Corner(rapid.IntRange(0, 2).Draw(t, "corner"))
		s.Units = geometry.Units(rapid.IntRange(0, 1).Draw(t, "units"))
		s.Bars.Yard = []geometry.Length{9 * foot}
		n := 0
		walk(reflect.ValueOf(&s).Elem(), func(reflect.Value) { n++ })
		for range rapid.IntRange(0, 12).Draw(t, "changes") {
			k, i := rapid.IntRange(0, n-1).Draw(t, "which"), 0
			to := rapid.SampledFrom([]geometry.Length{0, 1, inch / 8, inch, 2 * inch, 6 * inch, foot, foot + 1, 2 * foot, 5 * foot, 20 * foot, 200 * foot}).Draw(t, "to")
			walk(reflect.ValueOf(&s).Elem(), func(v reflect.Value) {
				if i++; i-1 != k {
					return
				}
				had := v.Int()
				if v.SetInt(int64(to)); len(specFaults(s)) > 0 {
					v.SetInt(had)
				}
			})
		}
		checkBounded(t, of(p, s, nil))
	})
}

// Every finding names its slab before a colon, and a piece of board its slab before
// its edge.
func TestSlabNamed(t *testing.T) {
	barn, apron := ring(0, 0, 40, 0, 40, 30, 0, 30), ring(50, 0, 60, 0, 60, 10, 50, 10)
	barn.Name, apron.Name = "Barn", "Apron"
	barn.Sections[0].Depth = 20 * inch
	ls, lists, err := layout.Of(t.Context(), []layout.Slab{{Name: barn.Name, Plan: barn}, {Name: apron.Name, Plan: apron}}, spec(func(s *layout.Spec) { s.Bolts.Embed = foot }))
	if err != nil {
		t.Fatal(err)
	}
	for k, name := range []string{"Barn: ", "Apron: "} {
		if len(ls[k].Findings) == 0 {
			t.Errorf("no finding of %s", name)
		}
		for _, f := range ls[k].Findings {
			if !strings.HasPrefix(f.Text, name) {
				t.Errorf("%q does not start with %q", f.Text, name)
			}
		}
	}
	named := map[string]bool{}
	for _, s := range lists.Lumber.Stock {
		for _, p := range s.Pieces {
			named[p.Mark.String()] = true
		}
	}
	if !named["F1.1"] || !named["F5.1"] { // the barn's first side, and the apron's
		t.Errorf("the boards are %v", named)
	}
}
