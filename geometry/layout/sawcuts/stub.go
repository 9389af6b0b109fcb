package sawcuts

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plane"
)

// laid is cuts that are found by where they lie.
type laid struct {
	cuts  []Cut
	index plane.Index
}

// laidOut gives cuts about so far apart.
func laidOut(cuts []Cut, apart float64) *laid {
	x := &laid{}
	x.index.Reset(apart)
	for _, c := range cuts {
		x.add(c)
	}
	return x
}

func (x *laid) add(c Cut) {
	x.cuts = append(x.cuts, c)
	x.index.Add(plane.BoxOf(c.A, c.B))
}

// any tells whether a cut within so far of the segment a-b is of a kind.
func (x *laid) any(a, b geometry.Point, away geometry.Length, is func(Cut) bool) (found bool) {
	x.index.Visit(plane.BoxOf(a, b).Grown(float64(away)), func(i int32) bool {
		found = is(x.cuts[i])
		return !found
	})
	return found
}

// touch tells whether a cut goes through a corner.
func (x *laid) touch(p geometry.Point) bool {
	return x.any(p, p, inch, func(c Cut) bool {
		_, away := geometry.Nearest(p, c.A, c.B)
		return away < inch
	})
}

// stub gives the cut from the corner where s starts, on along the side before it
// or back along s, to the first cut or edge it meets: the shorter of the two. It
// gives none where a cut goes through the corner already, nor from a small hole where
// it would leave a thin strip: bars across the corner do better.
func (t *sawing) stub(s slab.Side, cuts *laid, limit float64) (Cut, bool) {
	if cuts.touch(s.A) {
		return Cut{}, false
	}
	r := t.Before(s)
	best, found, thin := Cut{Depth: t.spec.CutDepth(t.Plan.Field, t.Units), Why: AtInside}, false, false
	far := t.Across()
	for _, end := range [...]geometry.Point{r.At(r.Length+far, 0), s.At(-far, 0)} {
		reach := far
		if in := t.Within(s.A, end); len(in) > 0 && in[0].From <= 2 {
			reach = in[0].To
		}
		line := slab.NewSide(0, 0, s.A, end)
		cuts.any(s.A, line.At(reach, 0), inch, func(j Cut) bool {
			if p, ok := geometry.Meet(s.A, end, j.A, j.B); ok {
				along, _ := line.Project(p)
				reach = min(reach, along)
			}
			return false
		})
		if reach <= inch {
			continue
		}
		this := best
		this.A, this.B = s.A, line.At(reach, 0)
		slim := cuts.strip(this)
		if !found || thin && !slim || thin == slim && reach < geometry.Distance(best.A, best.B) {
			best, found, thin = this, true, slim
		}
	}
	return best, found && !(thin && t.small(s.Loop, limit))
}

// thinStrip is how narrow a strip between two cuts is that would crack across.
const thinStrip = 2 * foot

// strip tells whether a cut leaves a thin strip beside another that is more than three
// times as long as wide.
func (x *laid) strip(c Cut) bool {
	s := slab.NewSide(0, 0, c.A, c.B)
	return x.any(c.A, c.B, thinStrip, func(o Cut) bool {
		from, off := s.Project(o.A)
		to, other := s.Project(o.B)
		w, long := off.Abs(), min(s.Length, max(from, to))-max(0, min(from, to))
		return (off-other).Abs() < inch/4 && w > 2*inch && w < thinStrip && long > 3*w
	})
}
