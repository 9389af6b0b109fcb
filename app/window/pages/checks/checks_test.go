package checks

import (
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func opened(t *testing.T, j job.Job) (*hands.Desk, *Panel) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d)
	d.Show(hands.Shown{In: p.Scroll, Then: p.Update})
	return d, p
}

// It counts from 1, says which slab, and leads there.
func TestWhere(t *testing.T) {
	j := hands.WithApron()
	j.Slabs[1].Outline[2].Doors = []plan.Door{{Name: "D1", Width: 12 * ft}}
	d, p := opened(t, j)
	d.Press("Apron, edge 3, door D1: rough opening")
	if p.Count() == 0 || d.OfSlab != 1 {
		t.Errorf("%d checks; it leads to slab %d", p.Count(), d.OfSlab)
	}
	// Without the fault there are findings, each with its slab.
	apron, err := plan.Site{Plan: d.Job().Slabs[1]}.Remove(plan.Thing{Kind: plan.KindDoor, Index: 2})
	if err != nil {
		t.Fatal(err)
	}
	shop, err := d.Job().Slabs[0].SetBolts(0, 0, []plan.BoltMark{{Along: 12 * ft}})
	if err != nil {
		t.Fatal(err)
	}
	d.Commit("Mend", d.Job().WithSlab(1, apron.Plan).WithSlab(0, shop))
	d.ReadsNot("door D1: rough opening")
	for _, c := range p.checks() {
		if strings.HasPrefix(c.title, "Slab 1: ") && c.slab == 0 {
			d.Press(c.title)
			if d.OfSlab != 0 {
				t.Errorf("it leads to slab %d", d.OfSlab)
			}
			return
		}
	}
	t.Errorf("no finding on the first slab: %+v", p.checks())
}

// A fault of the specification leads to its form.
func TestWhichForm(t *testing.T) {
	j := hands.Shop()
	j.Spec.Base.TurnUp = -ft
	d, _ := opened(t, j)
	d.Press("Under the slab")
	if d.Last() != "field spec" {
		t.Errorf("asked %v", d.Asked)
	}
}

func TestNothingToReport(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	p.fill(nil)
	d.Reads("Nothing to report")
	many := make([]check, most+3)
	p.fill(many)
	d.Reads("… and 3 more")
}
