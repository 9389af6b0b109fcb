package plan_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Positions are measured from the datum corner, along the side that starts there and
// square off it, wherever the corner's number goes.
func TestDatum(t *testing.T) {
	const ft = geometry.Foot
	p := plan.Plan{Outline: plan.Like(geometry.Ring{{}, {X: 24 * ft}, {X: 24 * ft, Y: 20 * ft}, {Y: 20 * ft}}, plan.Edge{})}
	pad := geometry.Point{X: 8 * ft, Y: 6 * ft}
	reads := func(what string, p plan.Plan, name, side string, along, off geometry.Length) {
		t.Helper()
		d := p.Datum()
		if got, want := d.Of(pad), (geometry.Point{X: along, Y: off}); d.Name() != name || d.Side() != side || got != want {
			t.Errorf("%s: %s, along %s, %v; want %s, %s, %v", what, d.Name(), d.Side(), got, name, side, want)
		}
		if back := d.Place(d.Of(pad)); back != pad {
			t.Errorf("%s: the place is %v, want %v", what, back, pad)
		}
	}
	reads("at first", p, "corner 1", "1–2", 8*ft, 6*ft)
	p, err := p.WithDatum(2)
	if err != nil {
		t.Fatal(err)
	}
	reads("chosen", p, "corner 3", "3–4", 16*ft, 14*ft)
	split, err := p.SplitEdge(0, 0, 12*ft)
	if err != nil {
		t.Fatal(err)
	}
	reads("a corner before it", split, "corner 4", "4–5", 16*ft, 14*ft)
	split, err = p.SplitEdge(0, 2, 12*ft)
	if err != nil {
		t.Fatal(err)
	}
	reads("a corner after it", split, "corner 3", "3–4", 16*ft, 14*ft)
	gone, err := p.RemoveCorner(0, 2)
	if err != nil {
		t.Fatal(err)
	}
	reads("removed", gone, "corner 1", "1–2", 8*ft, 6*ft)
	turned := p
	turned.Outline = p.Outline.Reversed().Reversed()
	reads("run the other way and back", turned, "corner 3", "3–4", 16*ft, 14*ft)
	if q := p.Mirror(plan.AcrossX, 12*ft); q.Outline[q.Datum().Corner].At != (geometry.Point{Y: 20 * ft}) {
		t.Errorf("mirrored, the datum is at %v", q.Datum().At())
	}
	pad = geometry.Point{X: ft, Y: -ft}
	reads("nothing drawn", plan.Plan{}, "corner 1", "1–1", ft, -ft)
	if _, err := p.WithDatum(4); err == nil {
		t.Error("a corner that is not there is the datum")
	}
}
