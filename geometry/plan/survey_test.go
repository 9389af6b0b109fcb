package plan

import (
	"testing"

	"haunchbook.example/geometry"
)

// Bolts given by the builder stay where they are on the ground when an edge is
// split, joined again, run the other way round, or has its start corner moved.
func TestBoltsStayInPlace(t *testing.T) {
	p := Plan{Outline: Loop{{At: pt(0, 0)}, {At: pt(20*ft, 0)}, {At: pt(20*ft, 10*ft)}, {At: pt(0, 10*ft)}}}
	p, err := p.SetBolts(0, 0, []BoltMark{{Along: 15 * ft, HoldDown: true}, {Along: 2 * ft}})
	if err != nil {
		t.Fatal(err)
	}
	where := func(p Plan) map[geometry.Point]bool {
		at := map[geometry.Point]bool{}
		for i, e := range p.Outline {
			a, b := p.Outline.Ends(i)
			for _, m := range e.Bolts {
				at[geometry.Along(a, b, m.Along)] = m.HoldDown
			}
		}
		return at
	}
	split, err := p.SplitEdge(0, 0, 8*ft)
	if err != nil {
		t.Fatal(err)
	}
	joined, err := split.RemoveCorner(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	moved, err := p.MoveCorner(0, 0, pt(-3*ft, 0))
	if err != nil {
		t.Fatal(err)
	}
	reversed := p.Clone()
	reversed.Outline = p.Outline.Reversed()
	for name, q := range map[string]Plan{"split": split, "joined": joined, "start moved": moved, "reversed": reversed} {
		got := where(q)
		if hold, ok := got[pt(15*ft, 0)]; !ok || !hold || len(got) != 2 {
			t.Errorf("%s: %v", name, got)
		}
		if hold, ok := got[pt(2*ft, 0)]; !ok || hold {
			t.Errorf("%s: %v", name, got)
		}
	}
	if len(split.Outline[0].Bolts) != 1 || len(split.Outline[1].Bolts) != 1 {
		t.Error("each half has its bolt")
	}
}
