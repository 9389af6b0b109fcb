package document_test

import (
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/document"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const ft = geometry.Foot

func rectangle(x, y, w, h geometry.Length) plan.Plan {
	ring := geometry.Ring{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	return plan.Plan{Field: 6 * geometry.Inch}.WithOutline(plan.Like(ring, plan.Edge{}))
}

func open(slabs ...plan.Plan) *document.Document {
	j := job.New()
	j.Slabs = slabs
	return document.New(j, nil, document.Scheduler{})
}

func TestSlabsComeAndGo(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft))
	d.AddSlab()
	if d.Slab() != 1 || !d.Plan().Blank() || d.Plan().Field != 6*geometry.Inch {
		t.Fatalf("a new slab: working on %d, %+v", d.Slab(), d.Plan())
	}
	if got, want := d.Origin(), (geometry.Point{X: 28 * ft}); got != want {
		t.Errorf("it begins at %v, want beside the other at %v", got, want)
	}
	d.AddSlab()
	if n := len(d.Job().Slabs); n != 2 {
		t.Errorf("a second blank slab was made; there are %d", n)
	}
	d.CommitPlan("Rectangle", rectangle(30*ft, 0, 10*ft, 10*ft))
	d.CopySlab()
	if lo, _ := d.Plan().Outline.Corners().Bounds(); d.Slab() != 2 || lo != (geometry.Point{X: 44 * ft}) || d.Plan().Name != "Slab 2, copy" {
		t.Errorf("the copy is slab %d at %v, called %q", d.Slab(), lo, d.Plan().Name)
	}
	d.Choose(1)
	d.RemoveSlab()
	if len(d.Job().Slabs) != 2 || d.Slab() != 0 {
		t.Errorf("%d slabs, working on %d", len(d.Job().Slabs), d.Slab())
	}
	d.RemoveSlab()
	d.RemoveSlab()
	if len(d.Job().Slabs) != 1 || !d.Blank() {
		t.Errorf("%d slabs, blank %v", len(d.Job().Slabs), d.Blank())
	}
}

// Undo and redo show the slab that they change.
func TestHistoryFollowsTheSlab(t *testing.T) {
	d := open(rectangle(0, 0, 24*ft, 20*ft), rectangle(40*ft, 0, 10*ft, 10*ft), rectangle(60*ft, 0, 10*ft, 10*ft))
	d.Choose(1)
	version := d.Version()
	d.CommitPlan("Move", d.Plan().Translate(geometry.Point{Y: ft}))
	d.Choose(2)
	if d.Version() <= version+1 {
		t.Error("choosing a slab is no change of what is shown")
	}
	d.RemoveSlab() // the last
	d.Choose(0)
	for i, want := range []int{2, 1} {
		d.Undo()
		if d.Slab() != want {
			t.Errorf("undo %d works on slab %d, want %d", i+1, d.Slab(), want)
		}
	}
	d.Choose(0)
	d.Redo()
	if d.Slab() != 1 {
		t.Errorf("redo works on slab %d, want 1", d.Slab())
	}
	d.Redo()
	if d.Slab() != 1 || len(d.Job().Slabs) != 2 {
		t.Errorf("redo of the removal works on slab %d of %d", d.Slab(), len(d.Job().Slabs))
	}
}
