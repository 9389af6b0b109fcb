package plan

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// CurbTop tells how the tops of a slab's curbs run where its own top falls.
type CurbTop = geometry.Choice[curbTops]

type curbTops struct{}

// Names implements geometry.Named.
func (curbTops) Names() []string { return []string{"follow", "level"} }

const (
	// CurbsFollow keeps curbs as high over the slab's top everywhere.
	CurbsFollow CurbTop = iota
	// CurbsLevel keeps their tops level, so that a sill plate lies level: a curb stands its
	// height over the slab's highest place, and so much more where the slab lies lower.
	CurbsLevel
)

// Over is how far the level of the highest place of a slab's top lies over the top elsewhere:
// so much higher curbs with level tops are there. The zero Over is of curbs that follow the top.
type Over struct {
	High   geometry.Length // of the highest place, over the lowest
	Frame  plane.Frame     // of the planes
	Planes []plane.Linear  // in meters: the planes of the top, turned over
	Most   bool            // the greatest of them counts, where the top takes the lower; else the least
	Parts  []OverPart      // of the curbs' area
}

// OverPart is the part of the curbs under which one plane is the top.
type OverPart struct {
	Plane  int
	Region plane.Region
}

// At gives how far that level lies over the top at a place.
func (o *Over) At(p geometry.Point) geometry.Length {
	if len(o.Planes) == 0 {
		return 0
	}
	return geometry.FromMeters(o.at(o.Frame.In(p)))
}

func (o *Over) at(v plane.Vec) float64 {
	h := o.Planes[0].At(v)
	for _, f := range o.Planes[1:] {
		if o.Most {
			h = math.Max(h, f.At(v))
		} else {
			h = math.Min(h, f.At(v))
		}
	}
	return h
}

// volume gives what comes on under level tops in m³, within a region or all of it for nil.
func (o *Over) volume(within plane.Region) (sum float64) {
	for _, part := range o.Parts {
		g := part.Region
		if within != nil {
			g = plane.Intersect(g, within)
		}
		for _, ring := range g {
			at := make([]plane.Vec, len(ring))
			for i, p := range ring {
				at[i] = o.Frame.In(p)
			}
			sum += plane.Integral(at, o.Planes[part.Plane])
		}
	}
	return sum
}

// Bends gives where the top bends under the line from a to b, as shares of it, in order, its
// ends left out.
func (o *Over) Bends(a, b geometry.Point) (out []float64) {
	const hair = 1e-9
	p, q := o.Frame.In(a), o.Frame.In(b)
	for i, f := range o.Planes {
		for _, g := range o.Planes[i+1:] {
			d := f.Minus(g)
			from, to := d.At(p), d.At(q)
			if (from < 0) == (to < 0) || math.Abs(from-to) < hair {
				continue
			}
			t := from / (from - to)
			at := plane.Lerp(p, q, t)
			if t > hair && t < 1-hair && math.Abs(o.at(at)-f.At(at)) < hair {
				out = append(out, t)
			}
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return b-a < hair })
}

// Level tells whether the tops of curbs are level over a slab that falls.
func (c Curbs) Level() bool { return len(c.Over.Planes) > 0 }

// High gives how high the curb of a run stands over the slab's top at a place.
func (c Curbs) High(r CurbRun, p geometry.Point) geometry.Length { return r.Height + c.Over.At(p) }

// Range gives the least and the greatest height of a run over the slab's top, along its face.
func (c Curbs) Range(r CurbRun) (least, most geometry.Length) {
	if !c.Level() {
		return r.Height, r.Height
	}
	least = geometry.MaxLength
	add := func(p geometry.Point) {
		h := c.High(r, p)
		least, most = min(least, h), max(most, h)
	}
	add(r.Arc.A)
	add(r.Arc.B)
	if r.Arc.Straight() {
		for _, t := range c.Over.Bends(r.Arc.A, r.Arc.B) {
			add(r.Arc.At(t, 0))
		}
		return least, most
	}
	for n, i := r.Arc.Parts(geometry.Sixteenth), 1; i < n; i++ {
		add(r.Arc.At(float64(i)/float64(n), 0))
	}
	return least, most
}

// CurbKind is curbs that are as high, as their edges say, and as wide.
type CurbKind struct {
	Height, Width geometry.Length
	Level         bool            // their tops, over slabs that fall
	Least, Most   geometry.Length // over the slab's top, along their faces
	Long          geometry.Length // all of them, along their faces
}

// Kind gives a run by itself.
func (c Curbs) Kind(r CurbRun) CurbKind {
	least, most := c.Range(r)
	return CurbKind{r.Height, r.Width, c.Level(), least, most, r.Long()}
}

// CurbKinds gives the curbs of several slabs by kind, in the order of their first runs.
func CurbKinds(all ...Curbs) (out []CurbKind) {
	for _, c := range all {
		for _, r := range c.Runs {
			k := c.Kind(r)
			i := slices.IndexFunc(out, func(o CurbKind) bool { return o.Height == k.Height && o.Width == k.Width && o.Level == k.Level })
			if i < 0 {
				out = append(out, k)
				continue
			}
			o := &out[i]
			o.Least, o.Most, o.Long = min(o.Least, k.Least), max(o.Most, k.Most), o.Long+k.Long
		}
	}
	return out
}

// Called says in words how high and wide curbs are, by how lengths are written.
func (k CurbKind) Called(text func(geometry.Length) string) string {
	high := text(k.Most)
	if k.Level {
		if low := text(k.Least); low != high {
			high = low + " to " + high
		}
		high = "level, " + high
	}
	return "curb " + high + " high, " + text(k.Width) + " wide"
}

// OverVolume gives what of the volume comes on under level tops, m³.
func (c Curbs) OverVolume() float64 {
	over, rest := c.Over.volume(nil), levelled(c.Levels, nil)
	if over == 0 || rest == 0 {
		return 0
	}
	return c.Volume * over / (rest + over)
}

// Raised gives curbs with level tops over a top whose rise is Over, whose parts are set here
// by where each plane counts: the slab's highest place is level with their heights.
func (c Curbs) Raised(o Over, counts func(i int) plane.Region) Curbs {
	whole, was := c.Region(), levelled(c.Levels, nil)
	for i := range o.Planes {
		g := whole
		if len(o.Planes) > 1 {
			g = plane.Intersect(whole, counts(i))
		}
		if len(g) > 0 {
			o.Parts = append(o.Parts, OverPart{i, g})
		}
	}
	c.Over = o
	if was > 0 { // as arcs take more than their chords
		c.Volume += o.volume(nil) * c.Volume / was
	}
	return c
}
