package takeoff_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
	"pgregory.net/rapid"
)

// moved gives a plan somewhere else.
func moved(p plan.Plan, x, y geometry.Length) plan.Plan {
	p = p.Clone()
	for i := range p.Outline {
		p.Outline[i].At.X += x
		p.Outline[i].At.Y += y
	}
	for k := range p.Holes {
		for i := range p.Holes[k].Loop {
			p.Holes[k].Loop[i].At.X += x
			p.Holes[k].Loop[i].At.Y += y
		}
	}
	for i := range p.Pads {
		p.Pads[i].Center.X += x
		p.Pads[i].Center.Y += y
	}
	return p
}

// anySlab draws a rectangle or an L with haunches, walls, a door, a joint and a
// pad, as chance has it.
func anySlab(t *rapid.T, name string) plan.Plan {
	inches := func(label string, least, most int) geometry.Length {
		return geometry.Length(rapid.IntRange(least, most).Draw(t, name+" "+label)) * inch
	}
	w, h := inches("width", 150, 700), inches("length", 150, 700)
	at := []geometry.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	if rapid.Bool().Draw(t, name+" L") {
		x, y := inches("notch", 30, 60), inches("notch", 30, 60)
		at = []geometry.Point{{}, {X: w}, {X: w, Y: h - y}, {X: w - x, Y: h - y}, {X: w - x, Y: h}, {Y: h}}
	}
	p := plan.Plan{
		Name: name, Field: inches("field", 4, 7), Height: inches("height", -12, 12),
		Trench: plan.Trench(rapid.IntRange(0, 1).Draw(t, name+" trench")),
		Sections: []plan.Section{
			{Name: "Edge", Depth: inches("edge", 10, 24), Bottom: 12 * inch, Taper: inches("taper", 0, 12)},
			{Name: "Deep", Depth: inches("deep", 12, 24), Bottom: 14 * inch, Taper: 10 * inch},
		},
	}
	for i, c := range at {
		e := plan.Edge{At: c, Section: rapid.SampledFrom([]string{"Edge", "Deep", ""}).Draw(t, name+" section"), Wall: rapid.SampledFrom([]string{"", "2x4", "2x6"}).Draw(t, name+" wall")}
		if i == 0 && rapid.Bool().Draw(t, name+" door") {
			e.Doors = []plan.Door{{From: 4 * foot, Width: 5 * foot, Section: "Deep"}}
		}
		if i == len(at)-1 && rapid.Bool().Draw(t, name+" joint") {
			e = plan.Edge{At: c, Joint: true}
		}
		p.Outline = append(p.Outline, e)
	}
	if rapid.Bool().Draw(t, name+" pad") {
		p.Pads = []plan.Pad{{Name: "Post", Center: geometry.Point{X: 6 * foot, Y: 6 * foot}, Width: 2 * foot, Length: 2 * foot, Depth: 20 * inch}}
	}
	return p
}

func anyPlacing(t *rapid.T) takeoff.Spec {
	s := takeoff.Default()
	s.Place.Field.Kind = field.Kind(rapid.IntRange(0, 3).Draw(t, "field steel"))
	s.Mix.Fiber = 1.5
	s.Base.Foam = geometry.Length(rapid.IntRange(0, 2).Draw(t, "foam")) * inch
	if rapid.Bool().Draw(t, "isolated") {
		s.Place.Dowels.Size = 0
	}
	return s
}

// pooled tells the lines that are not the sum over the slabs, and why: concrete
// is rounded to the plant's step and to trucks once for the job, fibers follow
// it, and stock is cut for all slabs together.
func pooled(k takeoff.Kind) bool {
	return slices.Contains([]takeoff.Kind{takeoff.ConcreteOrder, takeoff.ConcreteTrucks, takeoff.Fibers, takeoff.BarStock, takeoff.YardBars, takeoff.Offcuts, takeoff.FormBoards, takeoff.SillPlates}, k)
}

// Two slabs take together what each takes alone, but for what is rounded or cut
// for the job as a whole; and that comes to no more than for each alone.
func TestSlabsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyPlacing(t)
		u := geometry.Units(rapid.IntRange(0, 1).Draw(t, "units"))
		slabs := []plan.Plan{anySlab(t, "House"), moved(anySlab(t, "Shed"), 100*foot, 30*foot)}
		both, err := takeoff.Of(t.Context(), slabs, s, u)
		if err != nil {
			t.Fatal(err)
		}
		var alone []takeoff.Takeoff
		values := map[takeoff.Kind]float64{}
		for _, p := range slabs {
			one, err := takeoff.Of(t.Context(), []plan.Plan{p}, s, u)
			if err != nil {
				t.Fatal(err)
			}
			alone = append(alone, one)
			net, _ := one.Line(takeoff.ConcreteNet)
			other := map[takeoff.Kind]bool{takeoff.ConcreteToBoard: true, takeoff.ConcreteToDepth: true}
			for _, l := range one.Lines {
				values[l.ID.Kind] += l.Value
				delete(other, l.ID.Kind)
			}
			for key := range other {
				values[key] += net.Value // dug either way, it is the same
			}
		}
		for _, l := range both.Lines {
			sum := values[l.ID.Kind]
			delete(values, l.ID.Kind)
			switch {
			case goods(l.ID.Kind):
				if l.Value > sum+1e-9 {
					t.Fatalf("%s is %v for both slabs, %v for each alone", l.Name, l.Value, sum)
				}
			case pooled(l.ID.Kind):
			case math.Abs(l.Value-sum) > 1e-9*(1+sum):
				t.Fatalf("%s is %v for both slabs, %v for each alone", l.Name, l.Value, sum)
			}
			if l.ID.Kind == takeoff.ConcreteOrder && l.Value > sum+1e-9 {
				t.Fatalf("%v ordered for both slabs, %v for each alone", l.Value, sum)
			}
		}
		net, _ := both.Line(takeoff.ConcreteNet)
		for key, v := range values {
			if !pooled(key) && v > 1e-9 && math.Abs(v-net.Value) > 1e-9*v {
				t.Fatalf("%s is not taken off for both slabs, and %v alone", key, v)
			}
		}
		for _, list := range []struct {
			name string
			of   func(layout.Lists) cutlist.List
		}{
			{"bars", func(l layout.Lists) cutlist.List { return l.Cuts }},
			{"boards", func(l layout.Lists) cutlist.List { return l.Lumber }},
			{"plates", func(l layout.Lists) cutlist.List { return l.Plates }},
		} {
			got, most := list.of(both.Lists).Bought, list.of(alone[0].Lists).Bought+list.of(alone[1].Lists).Bought
			if got > most {
				t.Fatalf("%v of %s bought for both slabs, %v for each alone", got.Feet(), list.name, most.Feet())
			}
		}
	})
}

// goods tells of what is cut from sheets and rolls, the offcuts of one slab serving the
// next.
func goods(k takeoff.Kind) bool {
	return k == takeoff.FoamStock || k == takeoff.RetarderStock || k == takeoff.MeshStock || k == takeoff.MeshWeight
}

// Two slabs of 24 by 20 ft, no turn-up and no haunch: a strip 20 ft wide and 24 ft long
// covers each, and both come from one roll of 100 ft.
func TestRollsServeAllSlabs(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "")
	s := takeoff.Default()
	s.Base.TurnUp = 0
	one := take(t, p, s, geometry.FeetInches)
	both, err := takeoff.Of(t.Context(), []plan.Plan{p, moved(p, 60*foot, 0)}, s, geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := one.Line(takeoff.RetarderStock)
	b, _ := both.Line(takeoff.RetarderStock)
	if a.Value != 1 || b.Value != 1 {
		t.Errorf("%v rolls for one slab, %v for two", a.Value, b.Value)
	}
	last := b.Working[len(b.Working)-1]
	if last.Source != "fewest for these pieces, proven" || !strings.Contains(b.Working[0].Work, "by itself it takes 1") {
		t.Errorf("said as %+v", b.Working)
	}
}

// A blank slab among others changes nothing but the name that the drawn one goes
// by.
func TestBlankSlab(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	s := takeoff.Default()
	want := take(t, p, s, geometry.FeetInches)
	for _, slabs := range [][]plan.Plan{{{}, p}, {p, {}}, {{Name: "Later"}, p, {}}} {
		got, err := takeoff.Of(t.Context(), slabs, s, geometry.FeetInches)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want.Lines, got.Lines, cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".Working" }, cmp.Ignore())); d != "" {
			t.Error(d)
		}
		number := slices.IndexFunc(slabs, func(p plan.Plan) bool { return !p.Blank() })
		if len(got.Slabs) != 1 || got.Slabs[0].Number != number || len(got.Findings) != len(want.Findings) {
			t.Errorf("slabs %+v, %d findings", got.Slabs, len(got.Findings))
		}
		if _, ok := got.Slab(number); !ok {
			t.Errorf("no slab %d", number)
		}
	}
	if _, err := takeoff.Of(t.Context(), []plan.Plan{{}, {}}, s, geometry.FeetInches); err == nil {
		t.Error("a job with nothing drawn was taken off")
	}
	if _, err := takeoff.Of(t.Context(), nil, s, geometry.FeetInches); err == nil {
		t.Error("a job with no slab was taken off")
	}
}

// Slabs that overlap are reported within the overlap, with its area; slabs that
// touch, and one within another's opening, are not.
func TestOverlap(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Name = "House"
	ring := rectangle(60*foot, 50*foot, "Edge")
	ring.Holes = []plan.Hole{{Loop: plan.Loop{{At: geometry.Point{X: 12 * foot, Y: 12 * foot}}, {At: geometry.Point{X: 12 * foot, Y: 32 * foot}}, {At: geometry.Point{X: 36 * foot, Y: 32 * foot}}, {At: geometry.Point{X: 36 * foot, Y: 12 * foot}}}}}
	for _, c := range []struct {
		name   string
		other  plan.Plan
		lo, hi geometry.Point // of the overlap
		area   string         // "" for none
	}{
		{"a corner", moved(p, 20*foot, 15*foot), geometry.Point{X: 20 * foot, Y: 15 * foot}, geometry.Point{X: 24 * foot, Y: 20 * foot}, "20 ft²"},
		{"one within the other", moved(rectangle(10*foot, 10*foot, "Edge"), 2*foot, 3*foot), geometry.Point{X: 2 * foot, Y: 3 * foot}, geometry.Point{X: 12 * foot, Y: 13 * foot}, "100 ft²"},
		{"the same", p, geometry.Point{}, geometry.Point{X: 24 * foot, Y: 20 * foot}, "480 ft²"},
		{"a cross", moved(rectangle(4*foot, 40*foot, "Edge"), 10*foot, -10*foot), geometry.Point{X: 10 * foot}, geometry.Point{X: 14 * foot, Y: 20 * foot}, "80 ft²"},
		{"side by side", moved(p, 24*foot, 0), geometry.Point{}, geometry.Point{}, ""},
		{"side by side, set off", moved(p, 24*foot, 7*foot), geometry.Point{}, geometry.Point{}, ""},
		{"corner to corner", moved(p, 24*foot, 20*foot), geometry.Point{}, geometry.Point{}, ""},
		{"apart", moved(p, 60*foot, 0), geometry.Point{}, geometry.Point{}, ""},
		{"in its opening", moved(ring, -12*foot, -12*foot), geometry.Point{}, geometry.Point{}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.other.Name = "Shed"
			got, err := takeoff.Of(t.Context(), []plan.Plan{p, c.other}, takeoff.Default(), geometry.FeetInches)
			if err != nil {
				t.Fatal(err)
			}
			var found []rule.Finding
			for _, f := range got.Findings {
				if f.Rule.Name == "Slabs apart" {
					found = append(found, f)
				}
			}
			if c.area == "" {
				if len(found) > 0 {
					t.Errorf("found %+v", found)
				}
				return
			}
			if len(found) != 1 || found[0].Severity != rule.Severe || !strings.Contains(found[0].Text, "House and Shed overlap by "+c.area) {
				t.Fatalf("found %+v", found)
			}
			if at := found[0].At; at.X < c.lo.X || at.X > c.hi.X || at.Y < c.lo.Y || at.Y > c.hi.Y {
				t.Errorf("at %+v, not between %+v and %+v", at, c.lo, c.hi)
			}
		})
	}
}

// A slab 8 in above the job's height is dug 8 in less: of the 12 in under a
// 24 ft by 20 ft field slab that stands level with the ground, 4 in of base
// included, 4 in are left. 480 ft² by 10 in less 480 ft² by 2 in.
func TestHeightOfASlab(t *testing.T) {
	s := takeoff.Default()
	s.Base.Gravel, s.Base.Above = 4*inch, 0
	p := rectangle(24*foot, 20*foot, "")
	if got, want := line(t, take(t, p, s, geometry.FeetInches), takeoff.Digging), 480*10.0/12/27; math.Abs(got-want) > 1e-9 {
		t.Errorf("%v yd³ to dig, want %v", got, want)
	}
	p.Height = 8 * inch
	got := take(t, p, s, geometry.FeetInches)
	if v, want := line(t, got, takeoff.Digging), 480*2.0/12/27; math.Abs(v-want) > 1e-9 {
		t.Errorf("%v yd³ to dig 8 in higher, want %v", v, want)
	}
	p.Height = 13 * inch // 3 in to fill
	got = take(t, p, s, geometry.FeetInches)
	if v, want := line(t, got, takeoff.Filling), 480*3.0/12/27; math.Abs(v-want) > 1e-9 || line(t, got, takeoff.Digging) != 0 {
		t.Errorf("%v yd³ to fill 13 in higher, want %v", v, want)
	}
}

// Every figure of a job with several slabs tells in its working what each of them
// takes, by its name; but for what is bought for the job as a whole.
func TestWorkingsNameTheSlab(t *testing.T) {
	s := takeoff.Default()
	s.Base.Foam, s.Place.Field.Kind, s.Place.Field.Chairs = 2*inch, field.Mesh, 3*foot
	var slabs []plan.Plan
	for i, name := range []string{"House", ""} {
		p := moved(rectangle(24*foot, 20*foot, "Edge"), geometry.Length(i)*50*foot, 0)
		p.Name = name
		for k := range p.Outline {
			p.Outline[k].Wall = "2x6"
		}
		p.Outline[3] = plan.Edge{At: p.Outline[3].At, Joint: true}
		p.Pads = []plan.Pad{{Name: "Post", Center: geometry.Point{X: geometry.Length(i)*50*foot + 10*foot, Y: 10 * foot}, Width: 2 * foot, Length: 2 * foot, Depth: 14 * inch}}
		slabs = append(slabs, p)
	}
	got, err := takeoff.Of(t.Context(), slabs, s, geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	whole := []takeoff.Kind{takeoff.ConcreteWaste, takeoff.DowelBars, takeoff.Adhesive, takeoff.GravelVolume, takeoff.GravelWeight, takeoff.BoltWashers, takeoff.BentBars, takeoff.MeshWeight}
	for _, l := range got.Lines {
		if pooled(l.ID.Kind) || slices.Contains(whole, l.ID.Kind) {
			continue
		}
		working := fmt.Sprint(l.Working)
		if !strings.Contains(working, "{House: ") || !strings.Contains(working, "{Slab 2: ") {
			t.Errorf("%s: the working names not both slabs: %s", l.Name, working)
		}
	}
	for _, f := range got.Findings {
		if !strings.Contains(f.Text, "House") && !strings.Contains(f.Text, "Slab 2") {
			t.Logf("of the job as a whole: %s", f.Text)
		}
	}
}

// Trucks alone counts as the takeoff does.
func TestTrucksOfSeveralSlabs(t *testing.T) {
	slabs := []plan.Plan{rectangle(24*foot, 20*foot, "Edge"), moved(rectangle(30*foot, 20*foot, "Edge"), 40*foot, 0)}
	got, err := takeoff.Of(t.Context(), slabs, takeoff.Default(), geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	n, err := takeoff.Trucks(t.Context(), slabs, takeoff.Default(), geometry.FeetInches)
	if err != nil || float64(n) != line(t, got, takeoff.ConcreteTrucks) {
		t.Errorf("%d trucks, %v in the takeoff (%v)", n, line(t, got, takeoff.ConcreteTrucks), err)
	}
}

// A finding and a working call a slab by the same number, that in the job, though a
// blank one comes before it.
func TestFindingsNumberSlabsAsTheJob(t *testing.T) {
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Sections[0].Depth = 20 * inch // deeper than its board: a finding of the forms
	got, err := takeoff.Of(t.Context(), []plan.Plan{{}, p}, takeoff.Default(), geometry.FeetInches)
	if err != nil {
		t.Fatal(err)
	}
	if got.Slabs[0].Name != "Slab 2" || len(got.Slabs[0].Layout.Findings) == 0 {
		t.Fatalf("%q with the findings %v", got.Slabs[0].Name, got.Slabs[0].Layout.Findings)
	}
	for _, f := range got.Slabs[0].Layout.Findings {
		if !strings.HasPrefix(f.Text, "Slab 2: ") {
			t.Errorf("%q", f.Text)
		}
	}
}
