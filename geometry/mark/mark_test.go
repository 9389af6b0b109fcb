package mark

import (
	"testing"

	"haunchbook.example/geometry/plan"
)

func TestString(t *testing.T) {
	for want, m := range map[string]Mark{
		"": {}, "W1": {Wall, 1, 0}, "W12.3": {Wall, 12, 3}, "DW1": {Dowel, 1, 0}, "A249": {Bolt, 249, 0}, "A250": {Bolt, 250, 0}, "B1000": {Bar, 1000, 0},
		"A": {Section, 1, 0}, "Z": {Section, 26, 0}, "AA": {Section, 27, 0}, "AZ": {Section, 52, 0}, "BA": {Section, 53, 0},
	} {
		if got := m.String(); got != want {
			t.Errorf("%+v is %q, want %q", m, got, want)
		}
	}
	if b := (Mark{Bar, 9, 0}); Compare(b, Mark{Bar, 10, 0}) >= 0 || Compare(b, b) != 0 || Compare(b.Piece(2), b) <= 0 {
		t.Error("B9 comes before B10, and a piece after the whole")
	}
}

// No kind's letters with a number can be read as another kind's.
func TestKindsAreToldApart(t *testing.T) {
	seen := map[string]Kind{}
	for k, l := range letters {
		if k == 0 || Kind(k) == Section { // letters alone
			continue
		}
		if was, ok := seen[l]; ok || l == "" {
			t.Errorf("%q is of kind %d and of %d", l, was, k)
		}
		seen[l] = Kind(k)
	}
}

// A name that is a mark of its kind is the mark, once; others get the numbers that
// are free, in their order, through all slabs.
func TestNamesThatAreMarks(t *testing.T) {
	doors := func(names ...string) plan.Plan {
		p := plan.Plan{Outline: plan.Loop{{}, {}, {}}}
		for _, n := range names {
			p.Outline[1].Doors = append(p.Outline[1].Doors, plan.Door{Name: n})
		}
		return p
	}
	n := Of(doors("D2", "", "D2", "P1"), doors("", "D1", "D07", "D0"))
	for i, want := range []string{"D2", "D3", "D4 D2", "D5 P1"} {
		if got := n[0].Door(0, 1, i).Called([]string{"D2", "", "D2", "P1"}[i]); got != want {
			t.Errorf("the first slab's door %d is %q, want %q", i, got, want)
		}
	}
	for i, want := range []string{"D6", "D1", "D7", "D8"} {
		if got := n[1].Door(0, 1, i).String(); got != want {
			t.Errorf("the second slab's door %d is %q, want %q", i, got, want)
		}
	}
	if got := n[0].Door(0, 1, 9); got != (Mark{}) || n[0].Door(5, 0, 0) != (Mark{}) || n[0].Hole(0) != (Mark{}) || n[0].Wall(0, 0) != (Mark{}) {
		t.Errorf("what is not there is marked %v", got)
	}
}
