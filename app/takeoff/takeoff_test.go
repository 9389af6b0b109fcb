package takeoff_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

func rectangle(w, h geometry.Length, section string) plan.Plan {
	p := plan.Plan{Field: 6 * inch, Sections: []plan.Section{{Name: "Edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 12 * inch}}}
	for _, c := range []geometry.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}} {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: section})
	}
	return p
}

func take(t *testing.T, p plan.Plan, s takeoff.Spec, u geometry.Units) takeoff.Takeoff {
	t.Helper()
	got, err := takeoff.Of(t.Context(), []plan.Plan{p}, s, u)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func line(t *testing.T, got takeoff.Takeoff, k takeoff.Kind) float64 {
	t.Helper()
	l, ok := got.Line(k)
	if !ok {
		t.Fatalf("no line %s", k)
	}
	return l.Value
}

// A 24 ft by 20 ft slab, 6 in field, 12 in edge with taper, takes about 11 yd³
// ordered on one truck (common practice, no source).
func TestUsualSlab(t *testing.T) {
	s := takeoff.Default()
	s.Order.Truck = decimal.NewFromInt(11)
	got := take(t, rectangle(24*foot, 20*foot, "Edge"), s, geometry.FeetInches)
	if v := line(t, got, takeoff.ConcreteOrder); v < 10.5 || v > 11.75 {
		t.Errorf("ordered %.2f yd³", v)
	}
}

// Volumes that are whole multiples of the plant's step are ordered as they are:
// 27 ft by 20 ft by 6 in is 270 ft³, 10 yd³.
func TestOrder(t *testing.T) {
	for _, c := range []struct {
		waste, step, truck string
		order, trucks      float64
	}{
		{"0", "0.25", "10", 10, 1},
		{"5", "0.25", "10", 10.5, 2},
		{"5", "0.5", "11", 10.5, 1},
		{"5.1", "0.25", "10.75", 10.75, 1},
		{"10", "1", "4", 11, 3},
	} {
		s := takeoff.Default()
		s.Order = takeoff.Order{Waste: decimal.RequireFromString(c.waste), Step: decimal.RequireFromString(c.step), Truck: decimal.RequireFromString(c.truck)}
		got := take(t, rectangle(27*foot, 20*foot, ""), s, geometry.FeetInches)
		if o, n := line(t, got, takeoff.ConcreteOrder), line(t, got, takeoff.ConcreteTrucks); o != c.order || n != c.trucks {
			t.Errorf("%+v: ordered %v on %v trucks", c, o, n)
		}
	}
}

// Base course by hand: 540 ft² by 4 in is 180 ft³, 6 2/3 yd³ compacted, 8 yd³
// loose at 1.2, 11.2 ton at 1.4 ton/yd³. Fibers: 1.5 lb/yd³ in 10 yd³, 15 lb.
func TestBaseAndFibers(t *testing.T) {
	s := takeoff.Default()
	s.Order.Waste = decimal.Zero
	s.Mix.Fiber = 1.5
	got := take(t, rectangle(27*foot, 20*foot, ""), s, geometry.FeetInches)
	for key, want := range map[takeoff.Kind]float64{
		takeoff.BaseArea: 540, takeoff.GravelVolume: 8, takeoff.GravelWeight: 11.2, takeoff.Fibers: 15, takeoff.SlabArea: 540, takeoff.SlabPerimeter: 94,
	} {
		if v := line(t, got, key); math.Abs(v-want) > 1e-9 {
			t.Errorf("%s is %v, want %v", key, v, want)
		}
	}
}

// Steel by ASTM A615/A615M Table 1: 0.668 lb/ft of No. 4. The weight is that of
// the pieces; what is bought holds them.
func TestSteelWeight(t *testing.T) {
	got := take(t, rectangle(24*foot, 20*foot, "Edge"), takeoff.Default(), geometry.FeetInches)
	length, weight := line(t, got, takeoff.EdgeBarLength), line(t, got, takeoff.EdgeBarWeight)
	if math.Abs(weight-0.668*length) > 1e-9*weight {
		t.Errorf("%.3f lb for %.3f ft", weight, length)
	}
	var cut geometry.Length
	for _, b := range got.Slabs[0].Layout.Bars {
		cut += b.Cut
	}
	if math.Abs(cut.Feet()-length) > 1e-9 {
		t.Errorf("%.3f ft listed, %.3f ft placed", length, cut.Feet())
	}
	stock, ok := got.Find(takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * foot})
	bought := stock.Value * 20
	if !ok || bought < length || !got.Lists.Cuts.Optimal || got.Lists.Cuts.Bought != geometry.Length(bought)*foot {
		t.Errorf("%v ft bought for %.3f ft", bought, length)
	}
}

// The same slab in both unit systems: NIST SP 811 factors, exactly.
func TestUnits(t *testing.T) {
	s := takeoff.Default()
	s.Order.Step, s.Order.Truck = decimal.New(1, -3), decimal.NewFromInt(10)
	s.Mix.Fiber = 1
	s.Base.Foam = 2 * inch
	p := rectangle(24*foot, 20*foot, "Edge")
	p.Outline[0].Joint = true
	us, si := take(t, p, s, geometry.FeetInches), take(t, p, s, geometry.Millimeters)
	for key, factor := range map[takeoff.Kind]float64{
		takeoff.ConcreteNet: 0.764554857984, takeoff.ConcreteOrder: 0.764554857984, takeoff.SlabArea: 0.09290304, takeoff.SlabPerimeter: 0.3048,
		takeoff.GravelVolume: 0.764554857984, takeoff.GravelWeight: 0.90718474, takeoff.Fibers: 0.45359237,
		takeoff.Adhesive: 29.5735295625, takeoff.FoamArea: 0.09290304, takeoff.FoamStock: 1,
	} {
		a, b := line(t, us, key)*factor, line(t, si, key)
		near := 1e-12
		if key == takeoff.ConcreteOrder || key == takeoff.Fibers { // up to a step of 0.001 in either
			near = 2e-4
		}
		if math.Abs(a-b) > near*b {
			t.Errorf("%s: %v and %v", key, a, b)
		}
	}
}

// Every figure has a working; no two are one; counts are whole.
func TestLines(t *testing.T) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range []field.Kind{field.None, field.Mesh, field.Grid, field.Fiber} {
		for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
			s := j.Spec
			s.Place.Field.Kind, s.Base.Foam = kind, 2*inch
			got := take(t, j.Slabs[0], s, u)
			seen, kinds := map[takeoff.ID]bool{}, map[takeoff.Kind]bool{}
			for _, l := range got.Lines {
				if seen[l.ID] || l.Name == "" || l.Unit == "" || l.ID.Kind.Group() == "" || len(l.Working) == 0 {
					t.Errorf("%+v", l)
				}
				seen[l.ID], kinds[l.ID.Kind] = true, true
				if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) || l.Value < 0 || l.Unit == takeoff.Each && l.Value != math.Trunc(l.Value) {
					t.Errorf("%s is %v", l.Name, l.Value)
				}
				for _, st := range l.Working {
					if st.Text == "" || st.Work == "" && st.Result == "" {
						t.Errorf("%s: step %+v", l.Name, st)
					}
				}
			}
			for _, key := range []takeoff.Kind{takeoff.ConcreteNet, takeoff.ConcreteOrder, takeoff.EdgeBarWeight, takeoff.DowelHoles, takeoff.AnchorBolts, takeoff.Stakes, takeoff.SawCuts, takeoff.FoamStock, takeoff.RetarderStock} {
				if !kinds[key] {
					t.Errorf("no line %s", key)
				}
			}
			if (kind == field.Mesh) != kinds[takeoff.MeshStock] || (kind == field.Grid) != kinds[takeoff.FieldBarWeight] {
				t.Errorf("%v: mesh %v, grid %v", kind, kinds[takeoff.MeshStock], kinds[takeoff.FieldBarWeight])
			}
		}
	}
}

// Each fault of a specification names its field, what was found and what would
// do.
func TestSpecFaults(t *testing.T) {
	for _, c := range []struct {
		path, found string
		change      func(*takeoff.Spec)
	}{
		{"spec.place.bolts.spacing", `1"`, func(s *takeoff.Spec) { s.Place.Bolts.Spacing = inch }},
		{"spec.place.bars.size", "9", func(s *takeoff.Spec) { s.Place.Bars.Size = 9 }},
		{"spec.place.bars.rows[1]", `clear of the underside 0", of the top 0"`, func(s *takeoff.Spec) { s.Place.Bars.Rows[1].Bottom = 0 }},
		{"spec.place.bars.grade", "50", func(s *takeoff.Spec) { s.Place.Bars.Grade = 50 }},
		{"spec.place.bars.stock", "none", func(s *takeoff.Spec) { s.Place.Bars.Stock = nil }},
		{"spec.place.bars.lap", `a lap of 12'-0" for No. 4`, func(s *takeoff.Spec) {
			s.Place.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: 12 * foot}
		}},
		{"spec.place.field.style", "“6x6”", func(s *takeoff.Spec) { s.Place.Field.Kind, s.Place.Field.Style = field.Mesh, "6x6" }},
		{"spec.place.forms.board", "“2x7”", func(s *takeoff.Spec) { s.Place.Forms.Board = "2x7" }},
		{"spec.place.sawcuts.ratio", "5", func(s *takeoff.Spec) { s.Place.SawCuts.Ratio = 5 }},
		{"spec.place.sawcuts.aspect", "no number", func(s *takeoff.Spec) { s.Place.SawCuts.Aspect = math.NaN() }},
		{"spec.mix.strength", "0 psi", func(s *takeoff.Spec) { s.Mix.Strength = 0 }},
		{"spec.mix.fiber", "0", func(s *takeoff.Spec) { s.Place.Field.Kind = field.Fiber }},
		{"spec.order.step", "0 yd³", func(s *takeoff.Spec) { s.Order.Step = decimal.Zero }},
		{"spec.base.rollwidth", `0"`, func(s *takeoff.Spec) { s.Base.RollWidth = 0 }},
	} {
		s := takeoff.Default()
		c.change(&s)
		_, err := takeoff.Of(t.Context(), []plan.Plan{rectangle(24*foot, 20*foot, "Edge")}, s, geometry.FeetInches)
		faults, ok := err.(plan.Faults)
		if !ok || len(faults) != 1 || faults[0].Path != c.path || faults[0].Found != c.found || faults[0].Want == "" {
			t.Errorf("%s: %v", c.path, err)
		}
	}
}

// The usual specification is sound, breaks no rule on a usual slab, and comes
// back from a job file as it was.
func TestDefault(t *testing.T) {
	s := takeoff.Default()
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		if faults := s.Validate(u); len(faults) > 0 {
			t.Error(faults)
		}
	}
	p := rectangle(24*foot, 20*foot, "Edge")
	for i := range p.Outline {
		p.Outline[i].Wall = "2x6"
	}
	for _, f := range take(t, p, s, geometry.FeetInches).Findings {
		if f.Broken() {
			t.Errorf("%+v", f)
		}
	}
	j := job.New()
	j.Slabs[0] = p
	data := j.Encode()
	back, err := job.Read(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(s, back.Spec, cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) })); d != "" {
		t.Error(d)
	}
	for _, name := range []string{"cleardoors", "stagger", "endmax", "turnup", "stakeout", "kerf", "yard"} {
		if !strings.Contains(string(data), `"`+name+`"`) {
			t.Errorf("the file does not write %q", name)
		}
	}
}

// The same input gives the same takeoff, and the input is left alone.
func TestPure(t *testing.T) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	before := j.Encode()
	a, b := take(t, j.Slabs[0], j.Spec, j.Units), take(t, j.Slabs[0], j.Spec, j.Units)
	if d := cmp.Diff(a.Lines, b.Lines); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(a.Slabs[0].Layout, b.Slabs[0].Layout, cmp.AllowUnexported(mark.Names{})); d != "" {
		t.Error(d)
	}
	if !slices.Equal(before, j.Encode()) {
		t.Error("the job has changed")
	}
}
