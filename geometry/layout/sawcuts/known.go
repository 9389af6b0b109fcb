package sawcuts

import (
	"reflect"
	"slices"
	"sync"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// Known keeps the saw cuts of slabs for variations of a job: a slab whose edges are
// deeper, or that stands on foam, has the cuts of the one as drawn. The zero Known is
// empty, and nil keeps nothing. Several goroutines may use it at once.
type Known struct {
	mu    sync.Mutex
	slabs []*known
}

// mostKnown is how many slabs are kept: what is varied is a job at a time.
const mostKnown = 32

// ground is all that saw cuts follow from.
type ground struct {
	name     string
	units    geometry.Units
	concrete slab.Concrete
	marks    mark.Names
	spec     Spec
	plan     plan.Plan
	outs     []plan.BlockOut
}

type known struct {
	ground
	lay func() ([]Cut, []rule.Finding)
}

// Lay places the saw cuts as the function does.
func (k *Known) Lay(s *slab.Slab, spec Spec) []Cut {
	if k == nil {
		return Lay(s, spec)
	}
	cuts, found := k.entry(s, spec).lay()
	s.Findings = append(s.Findings, found...)
	return slices.Clone(cuts)
}

// entry finds what is kept of a slab, or makes room for it.
func (k *Known) entry(s *slab.Slab, spec Spec) *known {
	g := ground{s.Name, s.Units, s.Concrete, s.Marks, spec, bare(s.Plan), s.Outs}
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, o := range k.slabs {
		if reflect.DeepEqual(o.ground, g) {
			return o
		}
	}
	if len(k.slabs) == mostKnown {
		k.slabs = slices.Delete(k.slabs, 0, 1)
	}
	o := &known{g, sync.OnceValues(func() ([]Cut, []rule.Finding) {
		before, stopped := s.Findings, s.Stopped
		s.Findings, s.Stopped = nil, nil // what is kept is laid to its end
		defer func() { s.Findings, s.Stopped = before, stopped }()
		cuts := Lay(s, spec)
		return cuts, s.Findings
	})}
	k.slabs = append(k.slabs, o)
	return o
}

// bare gives a plan without what no saw cut follows from.
func bare(p plan.Plan) plan.Plan {
	p.Sections, p.Height, p.Top, p.Base, p.Trench = nil, 0, plan.Top{Breaks: p.Top.Breaks}, 0, 0
	loop := func(l plan.Loop) plan.Loop {
		l = slices.Clone(l)
		for i := range l {
			e := &l[i]
			e.Section, e.Wall, e.Bolts, e.RunOut = "", "", nil, 0
		}
		return l
	}
	p.Outline = loop(p.Outline)
	p.Holes = slices.Clone(p.Holes)
	for i := range p.Holes {
		p.Holes[i].Loop = loop(p.Holes[i].Loop)
	}
	return p
}
