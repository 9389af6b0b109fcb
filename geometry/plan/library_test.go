package plan_test

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// One library for all slabs: the apron shares "edge" with the shop, the stoop has
// one of that name that is deeper.
func TestLibraryIsShared(t *testing.T) {
	const in = geometry.Inch
	edge := plan.Section{Name: "edge", Depth: 12 * in, Bottom: 12 * in, Taper: 6 * in}
	deep := edge
	deep.Depth = 20 * in
	ring := geometry.Ring{{}, {X: 100 * in}, {X: 100 * in, Y: 100 * in}}
	slab := func(s plan.Section) plan.Plan {
		p := plan.Plan{Field: 6 * in, Sections: []plan.Section{s}}
		return p.WithOutline(plan.Like(ring, plan.Edge{Section: s.Name}))
	}
	slabs := []plan.Plan{slab(edge), slab(edge), slab(deep)}

	renamed := plan.Section{Name: "edge 14", Depth: 14 * in, Bottom: 12 * in, Taper: 6 * in}
	got, err := plan.ShareSection(slabs, 0, "edge", renamed)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"edge 14", "edge 14", "edge"} {
		if name := got[i].Outline[1].Section; name != want || got[i].Sections[0].Name != want {
			t.Errorf("slab %d has %q in the library and %q on its edges, want %q", i, got[i].Sections[0].Name, name, want)
		}
	}
	if slabs[1].Sections[0].Name != "edge" {
		t.Error("the slabs that were given changed")
	}

	got, err = plan.ShareSection(slabs, 1, "", plan.Section{Name: "stoop", Depth: 8 * in, Bottom: 8 * in})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range got {
		if _, ok := p.SectionNamed("stoop"); !ok {
			t.Errorf("slab %d has no new section", i)
		}
	}
	if got, err = plan.DropSection(got, 2, "stoop"); err != nil || len(got[0].Sections)+len(got[1].Sections)+len(got[2].Sections) != 3 {
		t.Errorf("%v, %+v", err, got)
	}

	slabs[0] = slabs[0].SetAllSections("")
	if _, err = plan.DropSection(slabs, 0, "edge"); err == nil || !strings.Contains(err.Error(), "Slab 2") {
		t.Errorf("a section that another slab uses was dropped: %v", err)
	}
	if _, err = plan.ShareSection(slabs, 3, "edge", edge); err == nil {
		t.Error("a slab that is not there was taken")
	}
}
