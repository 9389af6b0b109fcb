package plan

import (
	"cmp"
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
	"haunchbook.example/geometry/plane"
)

// UsualCurb is how wide a curb is whose width is not given: common practice, no source.
const UsualCurb = 6 * geometry.Inch

// leastCurb is the shortest stretch of a curb that is built: own figure.
const leastCurb = geometry.Inch

// CurbWide gives how wide the edge's curb is; 0 where it has none.
func (e Edge) CurbWide() geometry.Length {
	switch {
	case e.Curb <= 0:
		return 0
	case e.CurbWidth <= 0:
		return UsualCurb
	}
	return e.CurbWidth
}

// Curbed tells whether an edge of the plan has a curb.
func (p Plan) Curbed() bool {
	return slices.ContainsFunc(p.Loops(), func(l Loop) bool {
		return slices.ContainsFunc(l, func(e Edge) bool { return e.Curb > 0 })
	})
}

// CurbRun is a stretch of an edge with a curb on it: between doors, and where the slab is not
// poured against another one.
type CurbRun struct {
	Loop, Edge    int             // as they are drawn
	From, To      geometry.Length // along the edge
	Height, Width geometry.Length // of a curb with a level top, its height over the highest place of the slab: see Curbs.High
	Arc           arc.Arc         // the face of the edge from From to To, straight or bowed
}

// Long gives how long a run is, along its face.
func (r CurbRun) Long() geometry.Length { return r.To - r.From }

// Holds tells whether a place lies in the curb, and how far in from its face.
func (r CurbRun) Holds(p geometry.Point) (inset geometry.Length, ok bool) {
	share, away := r.Arc.Nearest(p)
	return away, share > 0 && share < 1 && away <= r.Width
}

// CurbLevel is where curbs are at least so high, as their edges say.
type CurbLevel struct {
	Height geometry.Length
	Region plane.Region
}

// CurbFace is a side of the curbs within the slab, with the curb on its left: the inner face
// of a run, or a formed end at a door.
type CurbFace struct {
	Run  int
	A, B geometry.Point
	End  bool
}

// Curbs is what stands up on the edges of a slab.
type Curbs struct {
	Runs   []CurbRun
	Levels []CurbLevel // from the highest down, each within the next
	Faces  []CurbFace  // of an arc as chords
	Cuts   []CurbCut   // where curbs end before doors of other edges
	Volume float64     // m³ above the slab's top, each place once
	Over   Over        // what comes on under level tops; zero where tops follow the slab's
}

// None tells whether there are none.
func (c Curbs) None() bool { return len(c.Runs) == 0 }

// Region gives where curbs are.
func (c Curbs) Region() plane.Region {
	if n := len(c.Levels); n > 0 {
		return c.Levels[n-1].Region
	}
	return nil
}

// Within gives the volume, in m³, of what lies within a region.
func (c Curbs) Within(g plane.Region) float64 {
	whole, part := levelled(c.Levels, nil)+c.Over.volume(nil), levelled(c.Levels, g)+c.Over.volume(g)
	if whole == 0 {
		return 0
	}
	return c.Volume * part / whole
}

// On gives the run of curb at a place along an edge, its ends included.
func (c Curbs) On(loop, edge int, along geometry.Length) (CurbRun, bool) {
	for _, r := range c.Runs {
		if r.Loop == loop && r.Edge == edge && along >= r.From && along <= r.To {
			return r, true
		}
	}
	return CurbRun{}, false
}

// Under gives the curb that a place lies on, the highest of several: at an inside corner, where
// two run on until they meet, the nearer one of the higher.
func (c Curbs) Under(p geometry.Point) (run CurbRun, ok bool) {
	corner := false
	for _, r := range c.Runs {
		inset, on := r.Holds(p)
		if on && (!ok || r.Height > run.Height) {
			run, ok = r, true
		}
		corner = corner || !on && inset <= sharpestMiter*r.Width
	}
	if ok || !corner {
		return run, ok
	}
	for _, l := range c.Levels {
		if !l.Region.Contains(p) {
			continue
		}
		least := geometry.Length(math.MaxInt64)
		for _, r := range c.Runs {
			if away, _ := r.Holds(p); r.Height == l.Height && away < least {
				run, ok, least = r, true, away
			}
		}
		break
	}
	return run, ok
}

// levelled adds up the volume of levels in m³, within a region or all of it where that is nil.
func levelled(levels []CurbLevel, within plane.Region) (sum float64) {
	for i, l := range levels {
		rise := l.Height
		if i+1 < len(levels) {
			rise -= levels[i+1].Height
		}
		g := l.Region
		if within != nil {
			g = plane.Intersect(g, within)
		}
		sum += g.Area() * rise.Meters()
	}
	return sum
}

// Curbs gives the curbs on the edges of an oriented plan as it is drawn, by the meetings of its
// slab. A curb is the band along the edge from its face inward, as far as the slab reaches; it
// is open at doors, over their full width, and ends square before one of another edge that opens
// into it, as beside a sharp corner. There is none on a joint, nor where the slab is poured
// against another one of the job; one that is poured later meets the curb as it stands (common
// practice, no source). At an inside corner between two edges with curbs their bands run on until
// their inner faces meet. Where bands overlap, as at an outside corner, the higher counts, once.
func (p Plan) Curbs(met []Meeting) Curbs {
	if !p.Curbed() {
		return Curbs{}
	}
	c := newCurbing(p, p.Chorded(), met)
	out := Curbs{Runs: c.runs(), Cuts: c.cuts}
	if out.None() {
		return out
	}
	out.Levels = c.levels()
	out.Faces = c.faces(out)
	out.Volume = levelled(out.Levels, nil)
	if p.Curved() {
		out.Volume = levelled(newCurbing(p, p.Even(), met).levels(), nil)
	}
	return out
}

// curbing puts curbs on a plan whose arcs are parted.
type curbing struct {
	plan, parted Plan
	met          []Meeting
	slab         plane.Region
	on           map[[2]int][]plane.Stretch // that have a curb, by loop and edge as they are drawn
	cuts         []CurbCut
	open         plane.Region // at doors
}

func newCurbing(p, parted Plan, met []Meeting) *curbing {
	c := &curbing{plan: p, parted: parted, met: met, slab: parted.Region(), on: map[[2]int][]plane.Stretch{}}
	doors := openings(p, parted)
	c.open = doors.region()
	for k, l := range p.Loops() {
		for i := range l {
			on := c.free(k, l, i)
			cuts := c.before(doors, k, l, i, on)
			for _, x := range cuts {
				on = without(on, plane.Stretch{From: x.From, To: x.To})
			}
			c.cuts, c.on[[2]int{k, i}] = append(c.cuts, cuts...), longEnough(on)
		}
	}
	return c
}

// runs gives the stretches with a curb, as they are drawn.
func (c *curbing) runs() (out []CurbRun) {
	for k, l := range c.plan.Loops() {
		for i, e := range l {
			for _, s := range c.on[[2]int{k, i}] {
				r := CurbRun{Loop: k, Edge: i, From: s.From, To: s.To, Height: e.Curb, Width: e.CurbWide(), Arc: l.Arc(i)}
				if r.Arc.Straight() {
					r.Arc = arc.Arc{A: l.Along(i, s.From), B: l.Along(i, s.To)}
				}
				out = append(out, r)
			}
		}
	}
	return out
}

// band is a stretch of curb along an edge of the parted plan.
type band struct {
	loop, edge    int
	from, to      geometry.Length
	a, b          geometry.Point // of the stretch
	in            plane.Vec      // across, inward, of length 1
	height, width geometry.Length
	start, end    bool // it reaches the edge's corners
}

// bands gives the stretches of the parted plan, in order.
func (c *curbing) bands() (out []band) {
	for k, l := range c.parted.Loops() {
		for i, e := range l {
			if e.Curb <= 0 {
				continue
			}
			a, b := l.Ends(i)
			long := geometry.Distance(a, b)
			on := []plane.Stretch{{To: long}}
			if !l.OfArc(i) {
				on = c.on[[2]int{k, l.Drawn(i)}]
			}
			for _, s := range on {
				out = append(out, band{loop: k, edge: i, from: s.From, to: s.To, a: l.Along(i, s.From), b: l.Along(i, s.To),
					in: across(a, b), height: e.Curb, width: e.CurbWide(),
					start: s.From == 0, end: s.To >= long})
			}
		}
	}
	return out
}

// across gives the way inward from an edge, of length 1.
func across(a, b geometry.Point) plane.Vec {
	return plane.Vec{X: (b.X - a.X).Meters(), Y: (b.Y - a.Y).Meters()}.Unit().Left()
}

// inside gives a point so far in from an edge.
func inside(p geometry.Point, u plane.Vec, by geometry.Length) geometry.Point {
	return geometry.Point{X: p.X + geometry.Rounded(u.X*float64(by)), Y: p.Y + geometry.Rounded(u.Y*float64(by))}
}

// ring gives what a band covers, should the slab reach so far.
func (b *band) ring() geometry.Ring {
	return geometry.Ring{b.a, b.b, inside(b.b, b.in, b.width), inside(b.a, b.in, b.width)}
}

// kept gives what of a band lies in the slab, and hangs together with its edge: it does not
// come up again beyond a notch.
func (c *curbing) kept(b *band) plane.Region {
	g := plane.Intersect(plane.Region{b.ring()}, c.slab)
	if len(g) < 2 {
		return g
	}
	var out plane.Region
	for _, part := range g.Parts() {
		touches := slices.ContainsFunc(part, func(r geometry.Ring) bool {
			return slices.ContainsFunc(r, func(p geometry.Point) bool {
				_, off := geometry.Nearest(p, b.a, b.b)
				return off < geometry.Sixteenth
			})
		})
		if touches {
			out = append(out, part...)
		}
	}
	return out
}

// sharpestMiter is how many times their width the inner faces of two curbs run on at an inside
// corner at most: beyond, they are cut off across. Own figure.
const sharpestMiter = 4

// miter gives what two bands run on to at the inside corner between them; none at others.
func miter(b, n *band) plane.Region {
	turn := b.in.Cross(n.in)
	if turn > -1e-9 {
		return nil
	}
	wb, wn := float64(b.width), float64(n.width)
	// So far from the corner that it is a width in from either edge.
	x := plane.Vec{X: (wb*n.in.Y - wn*b.in.Y) / turn, Y: (wn*b.in.X - wb*n.in.X) / turn}
	one, other := inside(b.b, n.in, n.width), inside(b.b, b.in, b.width)
	if x.Length() > sharpestMiter*math.Max(wb, wn) {
		return plane.Region{{b.b, one, other}}
	}
	tip := geometry.Point{X: b.b.X + geometry.Rounded(x.X), Y: b.b.Y + geometry.Rounded(x.Y)}
	return plane.Region{{b.b, one, tip, other}}
}

// levels gives where curbs are, from the highest down.
func (c *curbing) levels() (out []CurbLevel) {
	bands, loops := c.bands(), c.parted.Loops()
	type piece struct {
		height geometry.Length
		region plane.Region
	}
	var pieces []piece
	starts := map[[2]int]*band{}
	for i := range bands {
		if b := &bands[i]; b.start {
			starts[[2]int{b.loop, b.edge}] = b
		}
	}
	for i := range bands {
		b := &bands[i]
		pieces = append(pieces, piece{b.height, c.kept(b)})
		if !b.end {
			continue
		}
		if n := starts[[2]int{b.loop, (b.edge + 1) % len(loops[b.loop])}]; n != nil {
			if g := plane.Intersect(miter(b, n), c.slab); len(g) > 0 {
				pieces = append(pieces, piece{max(b.height, n.height), g})
			}
		}
	}
	slices.SortStableFunc(pieces, func(a, b piece) int { return cmp.Compare(b.height, a.height) })
	var so plane.Region
	for i := 0; i < len(pieces); {
		h := pieces[i].height
		for ; i < len(pieces) && pieces[i].height == h; i++ {
			so = append(so, pieces[i].region...)
		}
		if g := plane.Union(so); len(c.open) > 0 {
			out = append(out, CurbLevel{h, plane.Subtract(g, c.open)})
		} else {
			out = append(out, CurbLevel{h, g})
		}
	}
	return out
}
