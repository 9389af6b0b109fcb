package document

import (
	"fmt"
	"reflect"
	"slices"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Plan gives the plan of the slab that is worked on, as it is shown.
func (d *Document) Plan() plan.Plan { return d.job.Slabs[d.slab] }

// BasePlan gives the plan without the preview on it.
func (d *Document) BasePlan() plan.Plan { return d.Base().Slabs[d.slab] }

// Slabs gives the plans of all slabs, without a preview.
func (d *Document) Slabs() []plan.Plan { return d.Base().Slabs }

// CommitSlabs is Commit for a change of the plans alone.
func (d *Document) CommitSlabs(label string, slabs []plan.Plan) {
	j := d.Base()
	j.Slabs = slabs
	d.Commit(label, j)
}

// Slab gives the number of the slab that is worked on.
func (d *Document) Slab() int { return d.slab }

// Choose makes slab k the one that is worked on.
func (d *Document) Choose(k int) {
	d.Cancel()
	d.slab = min(max(k, 0), len(d.job.Slabs)-1)
	d.chosen++
	d.changed()
}

// apart is the room left between a slab and one that is put beside it.
const apart = 4 * geometry.Foot

// Origin gives where the lower left corner goes of what is drawn from sizes
// alone: where the slab's outline has its own, else beside the other slabs.
func (d *Document) Origin() geometry.Point {
	if ring := d.Plan().Outline.Rim(); len(ring) > 0 {
		lo, _ := ring.Bounds()
		return lo
	}
	if lo, hi, ok := Bounds(d.job.Slabs); ok {
		return geometry.Point{X: hi.X + apart, Y: lo.Y}
	}
	return geometry.Point{}
}

// Bounds gives the box around all outlines; false where none is drawn.
func Bounds(slabs []plan.Plan) (lo, hi geometry.Point, ok bool) {
	for _, p := range slabs {
		if len(p.Outline) == 0 {
			continue
		}
		l, h := p.Outline.Rim().Bounds()
		if !ok {
			lo, hi, ok = l, h, true
		}
		lo = geometry.Point{X: min(lo.X, l.X), Y: min(lo.Y, l.Y)}
		hi = geometry.Point{X: max(hi.X, h.X), Y: max(hi.Y, h.Y)}
	}
	return lo, hi, ok
}

// AddSlab begins a slab that is built as the one that is worked on, and works on
// it. A slab that is still blank is chosen instead.
func (d *Document) AddSlab() {
	d.Cancel()
	if k := slices.IndexFunc(d.job.Slabs, plan.Plan.Blank); k >= 0 {
		d.Choose(k)
		return
	}
	now := d.Plan().Clone()
	d.append("New slab", plan.Plan{Field: now.Field, Sections: now.Sections, Base: now.Base, Trench: now.Trench})
}

// CopySlab puts a copy of the slab beside all others and works on it.
func (d *Document) CopySlab() {
	d.Cancel()
	p := d.Plan().Clone()
	if lo, hi, ok := Bounds(d.job.Slabs); ok && len(p.Outline) > 0 {
		own, _ := p.Outline.Rim().Bounds()
		p = p.Translate(geometry.Point{X: hi.X + apart - own.X, Y: lo.Y - own.Y})
	}
	p.Name = d.freeName(d.Plan().Called(d.slab))
	d.append("Copy "+d.Plan().Called(d.slab), p)
}

// freeName gives a name that no slab has: "Apron, copy", "Apron, copy 2", …
func (d *Document) freeName(name string) string {
	for i := 2; ; i++ {
		free := fmt.Sprintf("%s, copy", name)
		if i > 2 {
			free = fmt.Sprintf("%s, copy %d", name, i-1)
		}
		if !slices.ContainsFunc(d.job.Slabs, func(p plan.Plan) bool { return p.Name == free }) {
			return free
		}
	}
}

func (d *Document) append(label string, p plan.Plan) {
	j := d.job
	j.Slabs = append(slices.Clone(j.Slabs), p)
	d.slab = len(j.Slabs) - 1
	d.chosen++
	d.Commit(label, j)
}

// RemoveSlab takes the slab that is worked on out of the job. The last one is
// left blank, built as it was.
func (d *Document) RemoveSlab() {
	d.Cancel()
	j := d.job
	label := "Remove " + j.Slabs[d.slab].Called(d.slab)
	if len(j.Slabs) == 1 {
		p := j.Slabs[0]
		d.CommitPlan(label, plan.Plan{Field: p.Field, Sections: p.Sections, Base: p.Base, Trench: p.Trench})
		return
	}
	j.Slabs = slices.Delete(slices.Clone(j.Slabs), d.slab, d.slab+1)
	d.slab = max(0, d.slab-1)
	d.chosen++
	d.Commit(label, j)
}

// follow works on the slab that differs between the job and the one that an undo
// or redo leads to, so that what changes is seen.
func (d *Document) follow(to job.Job) {
	was, is := d.job.Slabs, to.Slabs
	for k := range is {
		if k < len(was) && reflect.DeepEqual(was[k], is[k]) {
			continue
		}
		if k != d.slab {
			d.slab = k
			d.chosen++
		}
		return
	}
}
