package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func pt(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }

func box(w, h geometry.Length) plan.Plan {
	return plan.Plan{Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(0, 0), pt(w, 0), pt(w, h), pt(0, h)}, plan.Edge{}))
}

// notched is 24 by 20 with an 8 by 6 notch in the upper right corner.
func notched() plan.Plan {
	return plan.Plan{Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{
		pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft),
	}, plan.Edge{}))
}

func TestEditsOfCorners(t *testing.T) {
	tests := []struct {
		name string
		edit func(plan.Plan) (plan.Plan, error)
		want geometry.Ring
	}{
		{"move a corner", func(p plan.Plan) (plan.Plan, error) { return p.MoveCorner(0, 2, pt(25*ft, 15*ft)) },
			geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(25*ft, 15*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"push an edge out", func(p plan.Plan) (plan.Plan, error) { return p.MoveEdge(0, 1, 2*ft) },
			geometry.Ring{pt(0, 0), pt(26*ft, 0), pt(26*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"push an edge in", func(p plan.Plan) (plan.Plan, error) { return p.MoveEdge(0, 0, -2*ft) },
			geometry.Ring{pt(0, 2*ft), pt(24*ft, 2*ft), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"lengthen at the end", func(p plan.Plan) (plan.Plan, error) { return p.Resize(0, 0, 30*ft, plan.End) },
			geometry.Ring{pt(0, 0), pt(30*ft, 0), pt(30*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"lengthen at the start", func(p plan.Plan) (plan.Plan, error) { return p.Resize(0, 0, 30*ft, plan.Start) },
			geometry.Ring{pt(-6*ft, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(-6*ft, 20*ft)}},
		{"lengthen at both ends", func(p plan.Plan) (plan.Plan, error) { return p.Resize(0, 0, 30*ft, plan.Both) },
			geometry.Ring{pt(-3*ft, 0), pt(27*ft, 0), pt(27*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(-3*ft, 20*ft)}},
		{"split an edge", func(p plan.Plan) (plan.Plan, error) { return p.SplitEdge(0, 0, 10*ft) },
			geometry.Ring{pt(0, 0), pt(10*ft, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"remove a corner", func(p plan.Plan) (plan.Plan, error) { return p.RemoveCorner(0, 3) },
			geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
		{"stretch", func(p plan.Plan) (plan.Plan, error) { return p.Stretch(plan.AcrossX, 24*ft, 1*ft), nil },
			geometry.Ring{pt(0, 0), pt(25*ft, 0), pt(25*ft, 14*ft), pt(16*ft, 14*ft), pt(16*ft, 20*ft), pt(0, 20*ft)}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := notched()
			before := p.Clone()
			got, err := test.edit(p)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, got.Outline.Corners()); diff != "" {
				t.Errorf("corners (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(before, p); diff != "" {
				t.Errorf("the edit changed its argument:\n%s", diff)
			}
		})
	}
}

func TestEditsThatHaveNoMeaning(t *testing.T) {
	tests := []struct {
		name string
		edit func(plan.Plan) (plan.Plan, error)
		want string
	}{
		{"no such corner", func(p plan.Plan) (plan.Plan, error) { return p.MoveCorner(0, 9, pt(0, 0)) }, "no corner 9"},
		{"no such loop", func(p plan.Plan) (plan.Plan, error) { return p.MoveEdge(3, 0, ft) }, "no loop 3"},
		{"length of zero", func(p plan.Plan) (plan.Plan, error) { return p.Resize(0, 0, 0, plan.End) }, "more than 0"},
		{"split at a corner", func(p plan.Plan) (plan.Plan, error) { return p.SplitEdge(0, 0, 24*ft) }, "between"},
		{"remove from a triangle", func(plan.Plan) (plan.Plan, error) {
			q, _ := box(ft, ft).RemoveCorner(0, 0)
			return q.RemoveCorner(0, 0)
		}, "at least three"},
		{"no such door", func(p plan.Plan) (plan.Plan, error) { return p.SetDoor(0, 0, 0, plan.Door{}) }, "no door 0"},
		{"section in use", func(p plan.Plan) (plan.Plan, error) {
			p, _ = p.PutSection("", plan.Section{Name: "edge"})
			return p.SetAllSections("edge").RemoveSection("edge")
		}, "in use in 6 places"},
		{"name taken", func(p plan.Plan) (plan.Plan, error) {
			p, _ = p.PutSection("", plan.Section{Name: "edge"})
			return p.PutSection("", plan.Section{Name: "edge"})
		}, "already"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.edit(notched())
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want an error with %q", err, test.want)
			}
		})
	}
}

func TestDoorsKeepTheirDistanceFromTheCornerThatStays(t *testing.T) {
	p, err := box(24*ft, 20*ft).AddDoor(0, 0, plan.Door{From: 4 * ft, Width: 9 * ft})
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		side plan.Side
		from geometry.Length
	}{{plan.End, 4 * ft}, {plan.Start, 10 * ft}} {
		q, err := p.Resize(0, 0, 30*ft, test.side)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.Outline[0].Doors[0].From; got != test.from {
			t.Errorf("side %d: door at %v, want %v", test.side, got.Text(0), test.from.Text(0))
		}
	}
	q, err := p.SplitEdge(0, 0, 2*ft)
	if err != nil {
		t.Fatal(err)
	}
	if got := q.Outline[1].Doors[0].From; got != 2*ft {
		t.Errorf("after a split the door is at %v, want 2 ft", got.Text(0))
	}
	if _, err := p.SplitEdge(0, 0, 6*ft); err == nil {
		t.Error("an edge was split through a door")
	}
	q, err = q.RemoveCorner(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(p, q); diff != "" {
		t.Errorf("split and joined again (-want +got):\n%s", diff)
	}
}

func TestMirrorAndRotateKeepTheSlabSound(t *testing.T) {
	p, _ := notched().AddDoor(0, 0, plan.Door{From: 4 * ft, Width: 9 * ft})
	p.Pads = []plan.Pad{{Center: pt(5*ft, 5*ft), Width: 2 * ft, Length: 3 * ft, Depth: ft, Turn: 30}}
	m := p.Mirror(plan.AcrossX, 12*ft)
	if faults := m.Validate(geometry.FeetInches); len(faults) > 0 {
		t.Fatal(faults)
	}
	if diff := cmp.Diff(p, m.Mirror(plan.AcrossX, 12*ft)); !sameShape(p, m.Mirror(plan.AcrossX, 12*ft)) {
		t.Errorf("mirrored twice:\n%s", diff)
	}
	q := p
	for range 4 {
		q = q.Rotate(pt(3*ft, 1*ft), 90)
	}
	if diff := cmp.Diff(p, q); diff != "" {
		t.Errorf("four quarter turns (-want +got):\n%s", diff)
	}
}

// sameShape compares plans whose outlines may start at different corners.
func sameShape(p, q plan.Plan) bool {
	n := len(p.Outline)
	for s := range n {
		r := q.Clone()
		r.Outline = append(append(plan.Loop{}, q.Outline[s:]...), q.Outline[:s]...)
		if cmp.Equal(p, r) {
			return true
		}
	}
	return false
}

func TestResizeGivesTheLengthAsked(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := notched()
		i := rapid.IntRange(0, 5).Draw(rt, "edge")
		length := geometry.Length(rapid.Int64Range(int64(ft), int64(100*ft)).Draw(rt, "length"))
		side := plan.Side(rapid.IntRange(0, 2).Draw(rt, "side"))
		q, err := p.Resize(0, i, length, side)
		if err != nil {
			rt.Fatal(err)
		}
		if got := q.Outline.Length(i); got != length {
			rt.Fatalf("edge %d is %v long, want %v", i, got, length)
		}
		for k := range q.Outline {
			if a, b := q.Outline.Ends(k); a.X != b.X && a.Y != b.Y {
				rt.Fatalf("edge %d left the square: %v %v", k, a, b)
			}
		}
	})
}

func TestShapes(t *testing.T) {
	for _, s := range plan.Shapes() {
		t.Run(s.Name, func(t *testing.T) {
			var sizes []geometry.Length
			for _, z := range s.Sizes {
				sizes = append(sizes, z.Usual)
			}
			ring, err := s.Ring(sizes)
			if err != nil {
				t.Fatal(err)
			}
			p := plan.Plan{Field: ft / 2}.WithOutline(plan.Like(ring, plan.Edge{}))
			if faults := p.Validate(geometry.FeetInches); len(faults) > 0 {
				t.Error(faults)
			}
			if !ring.CounterClockwise() {
				t.Error("runs clockwise")
			}
			sizes[0] = 0
			if _, err := s.Ring(sizes); err == nil || !strings.Contains(err.Error(), s.Sizes[0].Name) {
				t.Errorf("a size of zero: %v", err)
			}
		})
	}
	areas := map[string]float64{ // square feet, by hand from the usual sizes
		"Rectangle": 24 * 30, "L": 24*30 - 8*10, "T": 12*12 + 24*18, "U": 24*30 - 8*12,
		"Cut corner": 24*30 - 4*4/2, "Bay": 24*20 + (10+6)/2*2,
	}
	for _, s := range plan.Shapes() {
		var sizes []geometry.Length
		for _, z := range s.Sizes {
			sizes = append(sizes, z.Usual)
		}
		ring, _ := s.Ring(sizes)
		if got := ring.Area() / (ft.Meters() * ft.Meters()); got < areas[s.Name]-1e-9 || got > areas[s.Name]+1e-9 {
			t.Errorf("%s: %g ft², want %g", s.Name, got, areas[s.Name])
		}
	}
}

func TestFromLegs(t *testing.T) {
	tests := []struct {
		text string
		want geometry.Ring
		gap  geometry.Point
	}{
		{"24' right, 20' up, 24' left, 20' down", geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, pt(0, 0)},
		{"24 r; 20 up\n24 Left, back to start", geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)}, pt(0, 0)},
		{"24' right, 20' up, 23' left, 20' down", geometry.Ring{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(1*ft, 20*ft), pt(1*ft, 0)}, pt(-1*ft, 0)},
		{"10' at 0, 10' at 90° to the last side, 10' 90° left, back to start", geometry.Ring{pt(0, 0), pt(10*ft, 0), pt(10*ft, 10*ft), pt(0, 10*ft)}, pt(0, 0)},
	}
	for _, test := range tests {
		got, err := plan.FromLegs(test.text, plan.North{}, geometry.FeetInches)
		if err != nil {
			t.Errorf("%s: %v", test.text, err)
			continue
		}
		if diff := cmp.Diff(test.want, got.Ring()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.text, diff)
		}
		if got.Gap != test.gap {
			t.Errorf("%s: gap %v, want %v", test.text, got.Gap, test.gap)
		}
		if spread := got.Spread(); spread.Misclosure() != 0 {
			t.Errorf("%s: %v is left after spreading", test.text, spread.Misclosure())
		}
		if one, err := got.InLeg(2); err != nil || one.Misclosure() != 0 {
			t.Errorf("%s: %v is left after leg 2 took it (%v)", test.text, one.Misclosure(), err)
		}
	}
	for text, want := range map[string]string{
		"24' right, 20 over, 3 left": "leg 2", "24' right": "at least three", "24' right, x up, 3 left": "leg 2",
		"24' right, 20', 3 left": "no direction", "0 right, 1 up, 1 left": "more than 0", "24' E, 20' N, 24' W": "where north is",
	} {
		if _, err := plan.FromLegs(text, plan.North{}, geometry.FeetInches); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want an error with %q", text, err, want)
		}
	}
}

// The compass rule on a closed-traverse example worked by hand: a 100 by 50
// rectangle whose last leg falls 3 short has 3/297 of its length taken off each
// leg's closing error.
func TestSpreadIsProportionalToLength(t *testing.T) {
	tr, err := plan.FromLegs("100m right, 50m up, 100m left, 47m down", plan.North{}, geometry.Millimeters)
	if err != nil {
		t.Fatal(err)
	}
	s := tr.Spread()
	want := []geometry.Length{-1_010_101_010, -505_050_505, -1_010_101_010, -474_747_475} // -3 m × leg/297 m
	for i, v := range s.Legs {
		if d := (v.Y - tr.Legs[i].Y) - want[i]; d.Abs() > 2 {
			t.Errorf("leg %d took %d nm, want %d", i, v.Y-tr.Legs[i].Y, want[i])
		}
	}
}

// Joints of the old slab stay where they are on the plan when an edge is turned round,
// split, joined again, or made longer at its start.
func TestOldCutsStay(t *testing.T) {
	p := plan.Plan{Field: 4 * geometry.Inch}
	for _, q := range []geometry.Point{pt(0, 0), pt(24*ft, 0), pt(24*ft, 20*ft), pt(0, 20*ft)} {
		p.Outline = append(p.Outline, plan.Edge{At: q})
	}
	p.Outline[2].Joint, p.Outline[2].OldCuts = true, []geometry.Length{6 * ft, 16 * ft}
	places := func(p plan.Plan) (out []geometry.Point) {
		for i, e := range p.Outline {
			a, b := p.Outline.Ends(i)
			for _, old := range e.OldCuts {
				out = append(out, geometry.Along(a, b, old))
			}
		}
		slices.SortFunc(out, func(a, b geometry.Point) int { return int((b.X - a.X) / ft) })
		return out
	}
	want := []geometry.Point{pt(18*ft, 20*ft), pt(8*ft, 20*ft)}
	split, err := p.SplitEdge(0, 2, 10*ft)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := split.RemoveCorner(0, 3)
	if err != nil {
		t.Fatal(err)
	}
	moved, err := p.MoveEdge(0, 1, -2*ft)
	if err != nil {
		t.Fatal(err)
	}
	turned := p.Clone()
	turned.Outline = p.Outline.Reversed()
	for name, q := range map[string]plan.Plan{"as drawn": p, "split": split, "joined": joined, "turned": turned, "longer at its start": moved} {
		if got := places(q); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}
