package layout

import (
	"math"

	"haunchbook.example/geometry"
)

// MeshStyle is a stock style of plain welded wire reinforcement.
type MeshStyle struct {
	Name     string
	Spacing  geometry.Length // of the wires, both ways
	Area     float64         // in² of steel per foot of width, each way
	PerSheet float64         // lb per 100 ft²
}

// meshStyles is checked in the tests against the table in testdata/reference:
// ASTM A1064/A1064M.
var meshStyles = [...]MeshStyle{
	{"6x6-W1.4xW1.4", 6 * geometry.Inch, 0.028, 21},
	{"6x6-W2.0xW2.0", 6 * geometry.Inch, 0.040, 29},
	{"6x6-W2.9xW2.9", 6 * geometry.Inch, 0.058, 42},
	{"6x6-W4.0xW4.0", 6 * geometry.Inch, 0.080, 58},
	{"4x4-W1.4xW1.4", 4 * geometry.Inch, 0.042, 31},
	{"4x4-W2.0xW2.0", 4 * geometry.Inch, 0.060, 43},
	{"4x4-W2.9xW2.9", 4 * geometry.Inch, 0.087, 62},
	{"4x4-W4.0xW4.0", 4 * geometry.Inch, 0.120, 85},
	{"6x6-W5.5xW5.5", 6 * geometry.Inch, 0.110, 80},
}

// MeshStyles lists the styles known.
func MeshStyles() []MeshStyle { return append([]MeshStyle(nil), meshStyles[:]...) }

// MeshNamed gives the style of that name.
func MeshNamed(name string) (MeshStyle, bool) {
	for _, m := range meshStyles {
		if m.Name == name {
			return m, true
		}
	}
	return MeshStyle{}, false
}

// MeshLap is one square of the mesh plus 2 in: common practice.
func (m MeshStyle) MeshLap() geometry.Length { return m.Spacing + 2*geometry.Inch }

// field places mesh or a bar grid, and counts chairs.
func (t *site) field(l *Layout) {
	f := t.spec.Field
	switch f.Kind {
	case Mesh:
		style, _ := MeshNamed(f.Style)
		c := layEither([2]frame(t.frames()), Ply{Width: f.Width, Length: f.Length, Lap: style.MeshLap(), Margin: f.Cover, Roll: f.Roll}, nil)
		l.Mesh, l.MeshCount, l.MeshOptimal = c.Sheets, c.Count, c.Optimal
		if c.TooMany {
			t.find(ruleTooMany, true, t.home(), "The mesh takes more than %d sheets here; choose larger ones or rolls.", maxSheets)
		}
	case Grid:
		l.Bars = t.grid(l.Bars)
	default:
		return
	}
	l.Chairs = t.chairs()
}

// fieldDepth gives the depth of the field steel's center.
func (t *site) fieldDepth() geometry.Length {
	if t.spec.Field.Depth > 0 {
		return t.spec.Field.Depth
	}
	return t.plan.Field / 2
}

var ruleTooMany = Rule{"Size of the job", "limit of this program"}

// maxGrid bounds how many lines of bars are laid in one direction, and
// maxGridBars how many bars in all.
const (
	maxGrid     = 5000
	maxGridBars = 200_000
)

// grid lays bars both ways, clipped to the outline with cover, lapped where they
// are longer than stock, and gives them after those before. Bars of the second
// direction lie on those of the first.
func (t *site) grid(before []Bar) []Bar {
	g := t.spec.Field
	db := diameter(g.Size)
	lap := t.spec.LapLength(g.Size, false)
	var runs []gridRun
	var cuts []interval // of all runs
	for way, f := range t.frames() {
		lo, hi := f.lo.y+float64(g.Cover+db/2), f.hi.y-float64(g.Cover+db/2)
		n := math.Ceil((hi - lo) / float64(g.Spacing))
		if n > maxGrid {
			t.find(ruleTooMany, true, t.home(), "A grid of bars %s apart takes more than %d bars each way here; space them wider.", t.text(g.Spacing), maxGrid)
			return before
		}
		if !(n >= 1) {
			continue
		}
		for k := 0.0; k <= n; k++ {
			y := lo + (hi-lo)*k/n
			spans := f.spans(y-float64(db/2), y+float64(db/2))
			// Where the slab is whole across the bar's own width.
			for _, s := range t.whole(f, spans, y, db) {
				from, to := round(s[0])+g.Cover, round(s[1])-g.Cover
				if to-from < lap/2 {
					continue
				}
				pieces, _ := splice(0, to-from, lap, t.stock(), t.cutStep(), nil)
				runs = append(runs, gridRun{way, y, from, len(pieces)})
				cuts = append(cuts, pieces...)
			}
			if len(cuts) > maxGridBars {
				t.find(ruleTooMany, true, t.home(), "A grid of bars %s apart takes more than %d bars here; space them wider.", t.text(g.Spacing), maxGridBars)
				return before
			}
		}
	}
	if len(cuts) > 0 {
		t.laps = append(t.laps, LaidLap{Of: FieldLaps, Size: g.Size, Length: lap})
	}
	bars := append(make([]Bar, 0, len(before)+len(cuts)), before...)
	path := make([]geometry.Point, 0, 2*len(cuts))
	for _, r := range runs {
		f, depth := t.frames()[r.way], t.fieldDepth()+db/2-db*geometry.Length(r.way)
		for _, p := range cuts[:r.bars] {
			path = append(path, f.point(float64(r.from+p.from), r.y), f.point(float64(r.from+p.to), r.y))
			bars = append(bars, Bar{Size: g.Size, Row: "field grid", Depth: depth, Cut: p.to - p.from, Path: path[len(path)-2 : len(path) : len(path)]})
		}
		cuts = cuts[r.bars:]
	}
	return bars
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
func (t *site) whole(f frame, spans [][2]float64, y float64, db geometry.Length) [][2]float64 {
	r := float64(db) / 2
	return intersect(intersect(spans, f.spans(y-r, y-r+2)), f.spans(y+r-2, y+r))
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
func (t *site) chairs() int {
	step := float64(t.spec.Field.Chairs)
	if step <= 0 {
		return 0
	}
	f := t.frames()[0]
	nx, ny := math.Ceil((f.hi.x-f.lo.x)/step), math.Ceil((f.hi.y-f.lo.y)/step)
	if nx*ny > maxChairs || ny > maxPlaced {
		t.find(ruleTooMany, true, t.home(), "Chairs %s apart are more than a million here; space them wider.", t.text(t.spec.Field.Chairs))
		return 0
	}
	dx, dy := (f.hi.x-f.lo.x)/nx, (f.hi.y-f.lo.y)/ny
	count := 0
	for j := 0.5; j < ny; j++ {
		y := f.lo.y + j*dy
		for _, s := range f.spans(y-1, y+1) {
			first := math.Ceil((s[0]-f.lo.x)/dx - 0.5)
			last := math.Floor((s[1]-f.lo.x)/dx - 0.5)
			count += int(math.Max(0, last-first+1))
		}
	}
	return count
}
