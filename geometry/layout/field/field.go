// Package field reinforces the field of a slab: mesh or a grid of bars, with chairs.
package field

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Laid is what reinforces the field of a slab.
type Laid struct {
	Bars        []bars.Bar // of a grid
	Laps        []bars.LaidLap
	Mesh        []cover.Sheet
	MeshCount   int  // sheets or rolls of mesh to buy
	MeshOptimal bool // proven the fewest that Mesh can be cut from
	Chairs      int  // under the steel
}

// Lay places mesh or a grid of bars, and counts chairs. steel says how bars lap and
// what they are cut from. The bars have no marks yet: see bars.Number. Mesh ends at the borders
// of parts, the connected ones through which steel runs on; nil for the whole slab.
func Lay(s *slab.Slab, spec Spec, steel bars.Spec, parts []plane.Region) Laid {
	t := fill{s, spec, steel}
	var l Laid
	switch spec.Kind {
	case Mesh:
		tooMany := false
		l.MeshOptimal = len(parts) < 2 // what is left of one part may do for another
		for _, part := range within(s, parts) {
			c := t.mesh(part)
			l.Mesh, l.MeshCount = append(l.Mesh, c.Sheets...), l.MeshCount+c.Count
			l.MeshOptimal, tooMany = l.MeshOptimal && c.Optimal, tooMany || c.TooMany
		}
		if tooMany {
			t.Find(slab.TooMany, rule.Severe, t.Home(), "The mesh takes more than %d sheets here; choose larger ones or rolls.", cover.MaxSheets)
		}
	case Grid:
		l.Bars, l.Laps = t.grid()
	default:
		return l
	}
	l.Chairs = t.chairs()
	return l
}

// mesh lays mesh on a slab or a part of one.
func (t *fill) mesh(on *slab.Slab) cover.Laid {
	style, _ := cover.MeshNamed(t.spec.Style)
	return cover.On(on, cover.Ply{Width: t.spec.Width, Length: t.spec.Length, Lap: style.MeshLap(), Margin: t.spec.Cover, Roll: t.spec.Roll})
}

// within gives parts of a slab as slabs of their own, the slab itself for none.
func within(s *slab.Slab, parts []plane.Region) []*slab.Slab {
	if len(parts) < 2 {
		return []*slab.Slab{s}
	}
	var out []*slab.Slab
	for _, g := range parts {
		p := plan.Plan{Field: s.Plan.Field}
		for i, ring := range g {
			if l := plan.Like(ring, plan.Edge{}); i == 0 {
				p.Outline = l
			} else {
				p.Holes = append(p.Holes, plan.Hole{Loop: l})
			}
		}
		out = append(out, slab.New("", p.Oriented(), nil, s.Units, s.Concrete))
	}
	return out
}

// fill reinforces the field.
type fill struct {
	*slab.Slab
	spec  Spec
	steel bars.Spec
}

// fieldDepth gives the depth of the field steel's center.
func (t *fill) fieldDepth() geometry.Length {
	if t.spec.Depth > 0 {
		return t.spec.Depth
	}
	return t.Plan.Field / 2
}

// maxGrid bounds how many lines of bars are laid in one direction, and
// maxGridBars how many bars in all.
const (
	maxGrid     = 5000
	maxGridBars = 200_000
)

// grid lays bars both ways, clipped to the outline with cover, lapped where they
// are longer than stock. Bars of the second direction lie on those of the first. The
// first bar lies half a space from the edge, whose own bars run there, so that none
// runs along a row of anchor bolts: common practice, no source.
func (t *fill) grid() ([]bars.Bar, []bars.LaidLap) {
	g := t.spec
	db := g.Size.Diameter()
	lap := t.steel.LapLength(g.Size, false, t.Concrete)
	var runs []gridRun
	var cuts []slab.Interval // of all runs
	for way, f := range t.Frames() {
		n := math.Ceil((f.Hi.Y - f.Lo.Y) / float64(g.Spacing))
		if n > maxGrid {
			t.Find(slab.TooMany, rule.Severe, t.Home(), "A grid of bars %s apart takes more than %d bars each way here; space them wider.", t.Text(g.Spacing), maxGrid)
			return nil, nil
		}
		covered := float64(g.Cover + db/2)
		if f.Hi.Y-f.Lo.Y < 2*covered {
			continue
		}
		for k := 0.0; k < n; k++ {
			y := f.Lo.Y + (f.Hi.Y-f.Lo.Y)*(k+0.5)/n
			y = min(max(y, f.Lo.Y+covered), f.Hi.Y-covered)
			spans := f.Spans(y-float64(db/2), y+float64(db/2))
			// Where the slab is whole across the bar's own width.
			for _, s := range t.whole(f, spans, y, db) {
				from, to := geometry.Rounded(s[0])+g.Cover, geometry.Rounded(s[1])-g.Cover
				if to-from < lap/2 {
					continue
				}
				pieces := t.steel.Pieces(to-from, lap, t.CutStep())
				runs = append(runs, gridRun{way, y, from, len(pieces)})
				cuts = append(cuts, pieces...)
			}
			if len(cuts) > maxGridBars {
				t.Find(slab.TooMany, rule.Severe, t.Home(), "A grid of bars %s apart takes more than %d bars here; space them wider.", t.Text(g.Spacing), maxGridBars)
				return nil, nil
			}
		}
	}
	if len(cuts) == 0 {
		return nil, nil
	}
	laps := []bars.LaidLap{{Of: bars.FieldLaps, Size: g.Size, Length: lap}}
	out := make([]bars.Bar, 0, len(cuts))
	path := make([]geometry.Point, 0, 2*len(cuts))
	for _, r := range runs {
		f, depth := t.Frames()[r.way], t.fieldDepth()+db/2-db*geometry.Length(r.way)
		for _, p := range cuts[:r.bars] {
			path = append(path, f.Point(float64(r.from+p.From), r.y), f.Point(float64(r.from+p.To), r.y))
			out = append(out, bars.Bar{Size: g.Size, Of: bars.Part{Kind: bars.FieldGrid}, Depth: depth, Cut: p.To - p.From, Path: path[len(path)-2 : len(path) : len(path)]})
		}
		cuts = cuts[r.bars:]
	}
	return out, laps
}

// gridRun is a line of lapped bars in one of the frames.
type gridRun struct {
	way  int
	y    float64
	from geometry.Length
	bars int
}

// whole narrows spans to where the slab lies on both sides of the line at y, a
// bar's radius away.
func (t *fill) whole(f slab.Frame, spans [][2]float64, y float64, db geometry.Length) [][2]float64 {
	r := float64(db) / 2
	return intersect(intersect(spans, f.Spans(y-r, y-r+2)), f.Spans(y+r-2, y+r))
}

func intersect(a, b [][2]float64) [][2]float64 {
	var out [][2]float64
	for _, s := range a {
		for _, t := range b {
			if lo, hi := math.Max(s[0], t[0]), math.Min(s[1], t[1]); hi > lo {
				out = append(out, [2]float64{lo, hi})
			}
		}
	}
	return out
}

// maxChairs bounds how many chairs are counted.
const maxChairs = 1e6

// chairs counts the points of a square grid of supports that lie on the slab.
func (t *fill) chairs() int {
	step := float64(t.spec.Chairs)
	if step <= 0 {
		return 0
	}
	f := t.Frames()[0]
	nx, ny := math.Ceil((f.Hi.X-f.Lo.X)/step), math.Ceil((f.Hi.Y-f.Lo.Y)/step)
	if nx*ny > maxChairs || ny > slab.MaxPlaced {
		t.Find(slab.TooMany, rule.Severe, t.Home(), "Chairs %s apart are more than a million here; space them wider.", t.Text(t.spec.Chairs))
		return 0
	}
	dx, dy := (f.Hi.X-f.Lo.X)/nx, (f.Hi.Y-f.Lo.Y)/ny
	count := 0
	for j := 0.5; j < ny; j++ {
		y := f.Lo.Y + j*dy
		for _, s := range f.Spans(y-1, y+1) {
			first := math.Ceil((s[0]-f.Lo.X)/dx - 0.5)
			last := math.Floor((s[1]-f.Lo.X)/dx - 0.5)
			count += int(math.Max(0, last-first+1))
		}
	}
	return count
}
