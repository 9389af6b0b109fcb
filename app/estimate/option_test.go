package estimate

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

// rectangle is a plain slab with one haunch round it.
func rectangle(w, h geometry.Length) Base {
	at := func(x, y geometry.Length) plan.Edge {
		return plan.Edge{At: geometry.Point{X: x, Y: y}, Section: "edge"}
	}
	return Base{
		Slabs: []plan.Plan{{
			Field:    6 * inch,
			Sections: []plan.Section{{Name: "edge", Depth: 12 * inch, Bottom: 12 * inch, Taper: 12 * inch}},
			Outline:  plan.Loop{at(0, 0), at(w, 0), at(w, h), at(0, h)},
		}},
		Spec: takeoff.Default(), Price: Default(), Prices: Starting(geometry.FeetInches),
	}
}

func TestApply(t *testing.T) {
	b := rectangle(24*foot, 20*foot)
	b.Slabs[0].Sections = append(b.Slabs[0].Sections,
		plan.Section{Name: "door", Depth: 16 * inch, Bottom: 12 * inch, Taper: 12 * inch},
		plan.Section{Name: "lip", Profile: []plan.Station{{Inset: 0, Depth: 9 * inch}, {Inset: foot, Depth: 6 * inch}}})
	o := Option{Edge: To(20 * inch), Bottom: To(16 * inch), Foam: To(2 * inch), Strength: 4000, Bar: 5, Bolts: To(4 * foot)}
	p, s := o.Apply(b.Slabs, b.Spec)
	for i, want := range []geometry.Length{20 * inch, 24 * inch, 0} {
		if p[0].Sections[i].Depth != want {
			t.Errorf("section %s is %v deep, want %v", p[0].Sections[i].Name, p[0].Sections[i].Depth, want)
		}
	}
	if p[0].Sections[0].Bottom != 16*inch || p[0].Sections[0].Taper != 12*inch || s.Base.Foam != 2*inch || s.Mix.Strength != 4000 || s.Place.Bars.Size != 5 || s.Place.Bolts.Spacing != 4*foot {
		t.Errorf("applied: %+v, %+v", p[0].Sections, s.Place.Bolts)
	}
	if b.Slabs[0].Sections[0].Depth != 12*inch {
		t.Error("the job's own plan was changed")
	}
	if p, s = (Option{}).Apply(b.Slabs, b.Spec); p[0].Sections[1].Depth != 16*inch || s.Mix != b.Spec.Mix {
		t.Error("an empty option changes something")
	}
}

// TestThresholds checks the edge depth at which the next truck is needed against
// the closed form of a rectangle: with depth D, bottom b and taper r, the volume
// beyond the field is (D − t)·(A − the mean area inside the taper), the frustum of
// four sloping sides (prismoidal formula, exact for it).
func TestThresholds(t *testing.T) {
	b := rectangle(30*foot, 24*foot)
	got, err := Thresholds(t.Context(), b)
	if err != nil {
		t.Fatal(err)
	}
	volume := func(d geometry.Length) float64 {
		area := func(in float64) float64 { return (30 - 2*in) * (24 - 2*in) }
		mean := (area(1) + 4*area(1.5) + area(2)) / 6 // within the taper, 1 ft to 2 ft from the faces
		deep := (d - 6*inch).Feet()
		return (area(0)*0.5 + deep*(area(0)-mean)) / 27
	}
	trucks := func(d geometry.Length) int {
		steps := volume(d) * 1.05 / 0.25
		n := int(steps)
		if float64(n) < steps {
			n++
		}
		return (n + 39) / 40 // ten yards are forty steps
	}
	if len(got) != 3 || !got[0].Found || !got[1].Found {
		t.Fatalf("thresholds are %+v", got)
	}
	now := trucks(12 * inch)
	if trucks(got[0].Depth) != now || trucks(got[0].Depth+geometry.Sixteenth) != now+1 || got[1].Depth != got[0].Depth+geometry.Sixteenth {
		t.Errorf("%d trucks now; at %v by the closed form %d, a sixteenth deeper %d", now, got[0].Depth.Text(geometry.FeetInches),
			trucks(got[0].Depth), trucks(got[0].Depth+geometry.Sixteenth))
	}
	if got[2].Found {
		t.Errorf("the field alone takes two trucks, and yet: %+v", got[2])
	}
	small := rectangle(20*foot, 16*foot)
	// The top stands 6 in above the ground, from which frost is measured.
	small.Frost = 30 * inch
	got, err = Thresholds(t.Context(), small)
	if err != nil || len(got) != 3 || got[0].Text != "Deepest edge within 1 truck" || got[2].Depth != 36*inch || !got[2].Found {
		t.Errorf("thresholds of a small slab are %+v, %v", got, err)
	}
	small.Slabs[0].Sections = nil
	for i := range small.Slabs[0].Outline {
		small.Slabs[0].Outline[i].Section = ""
	}
	if _, err := Thresholds(t.Context(), small); err != ErrNoEdge {
		t.Errorf("with no haunch: %v", err)
	}
}

// fall lets the top fall 3 in from the far edge to the front.
func fall(b *Base) {
	b.Slabs[0].Top = plan.Top{Falls: []plan.Fall{{From: geometry.Point{Y: 20 * foot}, To: geometry.Point{}, Drop: 3 * inch}}}
}

// The frost depth counts from the ground (IRC R403.1.4: below undisturbed
// ground), over which the slab stands by 6 in; the shallowest edge decides, and an
// edge without a haunch never reaches it.
func TestFrost(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*Base)
		now     bool
		depth   geometry.Length
		reached bool
	}{
		{"24 in asked, 12 in deep", func(*Base) {}, false, 30 * inch, true},
		{"6 in asked, 12 in deep", func(b *Base) { b.Frost = 6 * inch }, true, 12 * inch, true},
		{"6 1/16 in asked", func(b *Base) { b.Frost = 6*inch + geometry.Sixteenth }, false, 12*inch + geometry.Sixteenth, true},
		{"level with the ground", func(b *Base) { b.Spec.Base.Above = 0 }, false, 24 * inch, true},
		{"a slab 4 in higher", func(b *Base) { b.Slabs[0].Height = 4 * inch }, false, 34 * inch, true},
		{"a shallower edge", func(b *Base) {
			b.Slabs[0].Sections = append(b.Slabs[0].Sections, plan.Section{Name: "low", Depth: 10 * inch, Bottom: foot})
			b.Slabs[0].Outline[1].Section = "low"
		}, false, 32 * inch, true},
		{"an edge without a haunch", func(b *Base) { b.Slabs[0].Outline[1].Section = "" }, false, 0, false},
		{"a joint without a haunch", func(b *Base) { b.Slabs[0].Outline[1].Section, b.Slabs[0].Outline[1].Joint = "", true }, false, 30 * inch, true},
		{"deeper than is looked for", func(b *Base) { b.Frost = 6 * foot }, false, 0, false},
		// The top falls 3 in over the 20 ft to the front; the far edge stands 3 in
		// higher over the ground, unless that is cut level.
		{"a fall", func(b *Base) { fall(b) }, false, 33 * inch, true},
		{"a fall over level ground", func(b *Base) { fall(b); b.Slabs[0].Base = plan.Level }, false, 30 * inch, true},
		// The top falls 1/4 in per ft to both sides, which are level with each other:
		// the ridge stands 12 ft from them, 3 in higher.
		{"a ridge", func(b *Base) {
			b.Slabs[0].Top = plan.Top{Meet: plan.Ridge, Falls: []plan.Fall{
				{From: geometry.Point{X: 8 * foot}, To: geometry.Point{}, Drop: 2 * inch},
				{From: geometry.Point{X: 8 * foot}, To: geometry.Point{X: 24 * foot}, Drop: 4 * inch},
			}}
		}, false, 33 * inch, true},
		// Dug to the bottom of its board, a 2x12, an edge of 12 in is 11 1/4 in deep
		// (NIST PS 20), less than 6 in of frost take; a sixteenth more is no board's and
		// is dug as deep as it is called.
		{"at the board", func(b *Base) { b.Frost, b.Slabs[0].Trench = 6*inch, plan.ToBoard }, false, 12*inch + geometry.Sixteenth, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := rectangle(24*foot, 20*foot)
			b.Frost = 24 * inch
			c.change(&b)
			if out := Compare(t.Context(), b); out[0].Err != nil || out[0].Frost != c.now {
				t.Errorf("reached as drawn: %v (%v)", out[0].Frost, out[0].Err)
			}
			list, err := Thresholds(t.Context(), b)
			if err != nil {
				t.Fatal(err)
			}
			got := list[len(list)-1]
			if got.Found != c.reached || got.Found && got.Depth != c.depth {
				t.Errorf("the edge is to be %s, %v; want %s, %v", got.Depth.Text(b.Units), got.Found, c.depth.Text(b.Units), c.reached)
			}
			if got.Found {
				b.Price.Options = []Option{{Edge: To(got.Depth)}, {Edge: To(got.Depth - geometry.Sixteenth)}}
				if out := Compare(t.Context(), b); !out[1].Frost || out[2].Frost {
					t.Errorf("at that depth %v, a sixteenth less %v", out[1].Frost, out[2].Frost)
				}
			}
		})
	}
}

func TestCompare(t *testing.T) {
	b := rectangle(24*foot, 20*foot)
	b.Frost = 20 * inch
	b.Price.Options = []Option{
		{Name: "8 in", Edge: To(8 * inch)}, {Name: "26 in", Edge: To(26 * inch)}, {Name: "No. 5", Bar: 5}, {Name: "Foam", Foam: To(2 * inch)},
		{Name: "Nothing"}, {Name: "Impossible", Field: To(-inch)},
	}
	out := Compare(t.Context(), b)
	if len(out) != 7 {
		t.Fatalf("%d outcomes", len(out))
	}
	asIs := out[0]
	if n, err := takeoff.Trucks(t.Context(), b.Slabs, b.Spec, b.Units); err != nil || n != asIs.Trucks {
		t.Errorf("%d trucks by themselves (%v), %d in the takeoff", n, err, asIs.Trucks)
	}
	if asIs.Edge != 12*inch || asIs.Frost || asIs.Trucks == 0 || asIs.Steel.IsZero() || asIs.Boards == 0 {
		t.Errorf("as drawn: %+v", asIs)
	}
	if !out[1].Bid.LessThan(asIs.Bid) || !out[2].Bid.GreaterThan(asIs.Bid) || !out[2].Frost || out[1].Frost {
		t.Errorf("bids by depth: 8 in %s, 12 in %s, 26 in %s", out[1].Bid, asIs.Bid, out[2].Bid)
	}
	if !out[3].Steel.GreaterThan(asIs.Steel) || !out[4].Bid.GreaterThan(asIs.Bid) || !out[5].Difference.IsZero() {
		t.Errorf("steel %s and %s, foam %s, nothing %s", out[3].Steel, asIs.Steel, out[4].Bid, out[5].Difference)
	}
	b.Price.Options = []Option{{Field: To(3 * inch)}, {Strength: 2000}}
	if thin := Compare(t.Context(), b); thin[0].Broken != 0 || thin[1].Broken == 0 || thin[2].Broken == 0 {
		t.Errorf("limits broken: as drawn %d, 3 in thick %d, 2,000 psi %d", thin[0].Broken, thin[1].Broken, thin[2].Broken)
	} else {
		for _, o := range thin {
			if o.Broken+o.Noted != len(o.Takeoff.Findings) {
				t.Errorf("%s: %s, of %d findings", o.Name, o.Findings(), len(o.Takeoff.Findings))
			}
		}
	}
	for want, o := range map[string]Outcome{"0 limits broken, 3 to know": {Noted: 3}, "1 limit broken, 0 to know": {Broken: 1}, "2 limits broken, 1 to know": {Broken: 2, Noted: 1}} {
		if got := o.Findings(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if out[6].Err == nil {
		t.Error("a field of negative thickness came to something")
	}
	for _, o := range out[1:6] {
		if !o.Bid.Sub(asIs.Bid).Equal(o.Difference) {
			t.Errorf("%s differs by %s", o.Name, o.Difference)
		}
	}
}

func TestChangeAsText(t *testing.T) {
	for _, want := range []Change{{}, To(0), To(18 * inch), To(1066800 * geometry.Micrometer), To(1 * geometry.Nanometer)} {
		text, _ := want.MarshalText()
		var got Change
		if err := got.UnmarshalText(text); err != nil || got != want {
			t.Errorf("%q read as %+v, %v", text, got, err)
		}
	}
	for _, want := range []FieldChange{{}, {true, field.None}, {true, field.Mesh}, {true, field.Grid}, {true, field.Fiber}} {
		text, _ := want.MarshalText()
		got := FieldChange{true, field.Grid}
		if err := got.UnmarshalText(text); err != nil || got != want {
			t.Errorf("%q read as %+v, %v", text, got, err)
		}
	}
	for _, want := range []DoseChange{{}, {true, 0}, {true, 1.5}, {true, 200}} {
		text, _ := want.MarshalText()
		got := DoseChange{true, 7}
		if err := got.UnmarshalText(text); err != nil || got != want {
			t.Errorf("%q read as %+v, %v", text, got, err)
		}
	}
	for _, bad := range []string{"-1", "NaN", "201", "much", "1e9"} {
		if err := new(DoseChange).UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q was read as a dose", bad)
		}
	}
	if err := new(FieldChange).UnmarshalText([]byte("straw")); err == nil {
		t.Error("straw was read as steel")
	}
}

func BenchmarkThresholds(b *testing.B) {
	base := rectangle(30*foot, 24*foot)
	for b.Loop() {
		if _, err := Thresholds(b.Context(), base); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCompareSix(b *testing.B) { benchmarkCompare(b, rectangle(30*foot, 24*foot)) }

// A comb of 200 edges, with a wall on each.
func BenchmarkCompareSix200(b *testing.B) {
	base := rectangle(30*foot, 24*foot)
	out := plan.Loop{{At: geometry.Point{}}, {At: geometry.Point{X: 800 * foot}}}
	for i := range geometry.Length(49) {
		x := 800*foot - 16*i*foot
		out = append(out, plan.Edge{At: geometry.Point{X: x, Y: 24 * foot}}, plan.Edge{At: geometry.Point{X: x - 8*foot, Y: 24 * foot}},
			plan.Edge{At: geometry.Point{X: x - 8*foot, Y: 16 * foot}}, plan.Edge{At: geometry.Point{X: x - 16*foot, Y: 16 * foot}})
	}
	out = append(out, plan.Edge{At: geometry.Point{Y: 16 * foot}})
	out = slices.CompactFunc(out, func(a, b plan.Edge) bool { return a.At == b.At })
	for i := range out {
		out[i].Section, out[i].Wall = "edge", "2x6"
	}
	base.Slabs[0].Outline = out
	benchmarkCompare(b, base)
}

func benchmarkCompare(b *testing.B, base Base) {
	for i := range MaxOptions {
		base.Price.Options = append(base.Price.Options, Option{Edge: To(geometry.Length(8+2*i) * inch)})
	}
	for _, o := range Compare(b.Context(), base) {
		if o.Err != nil {
			b.Fatal(o.Err)
		}
	}
	b.ResetTimer()
	for b.Loop() {
		Compare(b.Context(), base)
	}
}

func TestChoose(t *testing.T) {
	b := rectangle(24*foot, 20*foot)
	b.Price.Options = []Option{{Name: "8 in", Edge: To(8 * inch)}, {Name: "Strong", Strength: 4000, Foam: To(2 * inch)}}
	p, s, price := b.Price.Choose(0, b.Slabs, b.Spec)
	if p[0].Sections[0].Depth != 8*inch || len(price.Options) != 2 || price.Options[1].Name != "Strong" || b.Price.Options[0].Name != "8 in" {
		t.Fatalf("chosen: %+v, %+v", p[0].Sections, price.Options)
	}
	if back, _, _ := price.Choose(0, p, s); back[0].Sections[0].Depth != 12*inch {
		t.Errorf("turned round, the edge is %v", back[0].Sections[0].Depth)
	}
	_, s, price = price.Choose(1, p, s)
	if s.Mix.Strength != 4000 || s.Base.Foam != 2*inch || price.Options[1].Strength != b.Spec.Mix.Strength || !price.Options[1].Foam.Set {
		t.Errorf("chosen: %+v, %+v", s.Mix, price.Options[1])
	}
}

// anyOption draws an option that changes a few things.
func anyOption(t *rapid.T) Option {
	length := func(label string, least, most int) Change {
		if rapid.Bool().Draw(t, label+" set") {
			return To(geometry.Length(rapid.IntRange(least, most).Draw(t, label)) * inch)
		}
		return Change{}
	}
	o := Option{
		Name: "any", Edge: length("edge", 0, 30), Bottom: length("bottom", 6, 18), Taper: length("taper", 0, 18), Field: length("field", 4, 10),
		Foam: length("foam", 0, 3), Bolts: length("bolts", 24, 72),
		Strength: rapid.SampledFrom([]int{0, 3000, 4000}).Draw(t, "strength"), Bar: rapid.SampledFrom([]bars.Size{0, 4, 5}).Draw(t, "bar"),
	}
	if rapid.Bool().Draw(t, "field steel set") {
		o.FieldSteel = FieldChange{true, field.Kind(rapid.IntRange(0, 2).Draw(t, "field steel"))}
	}
	if rapid.Bool().Draw(t, "fiber set") {
		o.Fiber = DoseChange{true, float64(rapid.IntRange(0, 4).Draw(t, "fiber"))}
	}
	return o
}

// An option that is chosen makes the job what it came to beside it, to the cent;
// the other options stay; and where the job as it was stands among them, choosing
// that brings all back.
func TestChooseAny(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rectangle(24*foot, 20*foot)
		second := rectangle(12*foot, 10*foot).Slabs[0]
		for i := range second.Outline {
			second.Outline[i].At.X += 40 * foot
		}
		second.Field = geometry.Length(rapid.IntRange(5, 6).Draw(t, "second field")) * inch
		second.Sections = append(second.Sections, plan.Section{Name: "deep", Depth: 16 * inch, Bottom: 10 * inch, Taper: 6 * inch})
		second.Outline[0].Section = rapid.SampledFrom([]string{"edge", "deep"}).Draw(t, "second edge")
		b.Slabs = append(b.Slabs, second, plan.Plan{})
		o, other := anyOption(t), Option{Name: "other", Strength: 5000}
		b.Price.Options = []Option{other, o, other}
		beside := Compare(t.Context(), b)[2]
		slabs, spec, price := b.Price.Choose(1, b.Slabs, b.Spec)
		after := Compare(t.Context(), Base{Slabs: slabs, Spec: spec, Price: price, Prices: b.Prices})
		if (beside.Err == nil) != (after[0].Err == nil) || !beside.Bid.Equal(after[0].Bid) || !beside.Ordered.Equal(after[0].Ordered) {
			t.Fatalf("beside the job the bid is %s (%v), as the job %s (%v)", beside.Bid, beside.Err, after[0].Bid, after[0].Err)
		}
		if n := len(price.Options); n != 3 && n != 2 || price.Options[0] != other || price.Options[n-1] != other {
			t.Fatalf("the options are %+v", price.Options)
		}
		if len(price.Options) == 3 {
			back, was, _ := price.Choose(1, slabs, spec)
			if d := cmp.Diff(b.Slabs, back); d != "" {
				t.Fatal(d)
			}
			if d := cmp.Diff(b.Spec, was, cmp.Comparer(decimal.Decimal.Equal)); d != "" {
				t.Fatal(d)
			}
		}
	})
}
