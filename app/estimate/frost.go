package estimate

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/solid"
)

// FrostReach is how deep the edges with one section go on a slab, and how deep they
// are to go to reach the frost depth.
type FrostReach struct {
	Slab int // its number in the job
	takeoff.EdgeReach
}

// FrostReaches gives how deep the edges of every section go, slab by slab, where
// frost goes so deep below the ground: see takeoff.FrostLineOf for the rule.
func FrostReaches(slabs []takeoff.Slab, base takeoff.Base, frost geometry.Length) []FrostReach {
	var out []FrostReach
	for _, s := range slabs {
		for _, r := range takeoff.FrostLineOf(s.Plan, s.Solid, base, frost, s.Layout.Met()).Reaches(s.Plan) {
			out = append(out, FrostReach{s.Number, r})
		}
	}
	return out
}

// frostThreshold gives the depth of the main section from which on every edge
// reaches the frost depth.
func (b Base) frostThreshold(step geometry.Length) (Threshold, error) {
	t := Threshold{Text: fmt.Sprintf("The edge that reaches frost, %s below the ground", b.Frost.Text(b.Units))}
	if b.Spec.Base.Insulated() {
		t.Text = "The edge that is asked of insulated ones, IRC R403.3, or that reaches frost"
	}
	lines := make([]takeoff.EdgeLine, len(b.Slabs))
	met := takeoff.Meetings(b.Slabs)
	for k, p := range b.Slabs {
		if p.Blank() {
			continue
		}
		p = p.Oriented()
		s, err := solid.Of(p)
		if err != nil {
			return t, err
		}
		lines[k] = takeoff.FrostLineOf(p, s, b.Spec.Base, b.Frost, met[k])
	}
	reached := func(n geometry.Length) bool {
		slabs, _ := Option{Edge: To(n * step)}.Apply(b.Slabs, b.Spec)
		for k, p := range slabs {
			if !p.Blank() && !lines[k].Reached(p.Oriented()) {
				return false
			}
		}
		return true
	}
	lo, hi := Field(b.Slabs)/step, Deepest/step
	if !reached(hi) {
		return t, nil
	}
	for lo < hi {
		if mid := (lo + hi) / 2; reached(mid) {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	t.Depth, t.Found = hi*step, true
	return t, nil
}
