package pour

import (
	"math"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
	"haunchbook.example/geometry/solid"
)

const ft = geometry.Foot

func at(x, y float64) geometry.Point {
	return geometry.Point{X: geometry.Length(math.Round(x * float64(ft))), Y: geometry.Length(math.Round(y * float64(ft)))}
}

// slab gives a 6 in slab with a 12 in edge all round, corners in feet.
func slab(corners ...geometry.Point) plan.Plan {
	p := plan.Plan{
		Field:    6 * geometry.Inch,
		Sections: []plan.Section{{Name: "Edge", Depth: 12 * geometry.Inch, Bottom: 12 * geometry.Inch, Taper: 8 * geometry.Inch}},
	}
	for _, c := range corners {
		p.Outline = append(p.Outline, plan.Edge{At: c, Section: "Edge"})
	}
	return p.Oriented()
}

func lay(t interface{ Fatal(...any) }, p plan.Plan, r Reach, stations, bolts []geometry.Point, s *solid.Solid) ([]Lane, []Bay, []Pad) {
	c := course{reach: r, stations: stations}
	if err := c.lay(Slab{Plan: p, Solid: s, Bolts: bolts}); err != nil {
		t.Fatal(err)
	}
	return c.lanes, c.bays, c.pads
}

func solidOf(t interface{ Fatal(...any) }, p plan.Plan) *solid.Solid {
	s, err := solid.Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A slab of 30 ft by 24 ft, a straightedge of 13 ft with 1 ft of overlap, the truck
// at the middle of the east side. By hand: along the long side two lanes of 12 ft
// do, as do three of 10 ft the other way; two it is. Bays of at most 12 ft make
// three of 10 ft in each. The row of pads lies at 12 ft; from form to form are
// 30 ft, which 12 ft steps cross in three, with pads at 10 ft and 20 ft.
func TestBaysOfARectangle(t *testing.T) {
	p := slab(at(0, 0), at(30, 0), at(30, 24), at(0, 24))
	r := Reach{Chute: 40 * ft, Straightedge: 13 * ft, Overlap: ft, Float: 18 * ft, Bay: 12 * ft}
	bolts := []geometry.Point{at(0.2, 0.2), at(10, 0.2), at(29.8, 23.8), at(15, 12)}
	lanes, bays, pads := lay(t, p, r, []geometry.Point{at(36, 18)}, bolts, solidOf(t, p))

	if len(lanes) != 2 || len(bays) != 6 || len(pads) != 2 {
		t.Fatalf("%d lanes, %d bays, %d pads; want 2, 6, 2", len(lanes), len(bays), len(pads))
	}
	for _, s := range lanes {
		if s.Width != 12*ft || len(s.Bays) != 3 {
			t.Errorf("lane %d is %s wide with %d bays", s.Number, s.Width.Text(geometry.FeetInches), len(s.Bays))
		}
	}
	if a, b := pads[0].At, pads[1].At; a != at(10, 12) || b != at(20, 12) {
		t.Errorf("pads at %v and %v", a, b)
	}
	for i, b := range bays {
		if b.Number != i+1 {
			t.Errorf("bay %d is numbered %d", i, b.Number)
		}
	}
	// The truck stands to the east: each lane is placed from the west.
	if got, want := bays[0].Shape, (plane.Region{{at(0, 0), at(10, 0), at(10, 12), at(0, 12)}}); !sameRings(got, want) {
		t.Errorf("the first bay is %v, want %v", got, want)
	}
	if bays[0].Middle != at(5, 6) {
		t.Errorf("its middle is %v", bays[0].Middle)
	}
	last := bays[len(bays)-1]
	for _, b := range bays[:len(bays)-1] {
		if b.Away < last.Away && b.Lane == last.Lane {
			t.Errorf("bay %d is nearer to the truck than the last", b.Number)
		}
	}
	sum := 0
	for _, b := range bays {
		sum += b.Bolts
	}
	if sum != len(bolts) {
		t.Errorf("%d bolts in the bays, of %d", sum, len(bolts))
	}
}

// The bay farthest from a truck at the south comes first, the one at it last.
func TestBaysEndAtTheTruck(t *testing.T) {
	p := slab(at(0, 0), at(20, 0), at(20, 36), at(0, 36))
	r := Reach{Chute: 16 * ft, Straightedge: 11 * ft, Overlap: ft, Bay: 0, Turned: true}
	lanes, bays, _ := lay(t, p, r, []geometry.Point{at(10, -4)}, nil, solidOf(t, p))
	if len(lanes) != 4 || len(bays) != 4 {
		t.Fatalf("%d lanes, %d bays; 36 ft by 10 ft are 4", len(lanes), len(bays))
	}
	for i := 1; i < len(bays); i++ {
		if bays[i].Away >= bays[i-1].Away {
			t.Errorf("bay %d is no nearer than bay %d", i+1, i)
		}
	}
	// The nearest bay's far corners are 9 ft up and 10 ft aside, 4 ft off the slab.
	if want := math.Hypot(13, 10); math.Abs(bays[3].Away.Feet()-want) > 1e-6 {
		t.Errorf("the last bay goes %.4f ft from the truck, want %.4f", bays[3].Away.Feet(), want)
	}
	if bays[3].Reached != (math.Hypot(13, 10) <= 16) || bays[0].Reached {
		t.Errorf("reached: %v and %v", bays[3].Reached, bays[0].Reached)
	}
}

// Of two trucks the nearer one, at the south, has the last lane, though the other
// stands farther out at the north; along the lanes the bays end at it too.
func TestLastBayIsAtTheNearestTruck(t *testing.T) {
	p := slab(at(0, 0), at(24, 0), at(24, 20), at(0, 20))
	r := Reach{Chute: 30 * ft, Straightedge: 11 * ft, Overlap: ft, Bay: 12 * ft, Turned: true}
	lanes, bays, _ := lay(t, p, r, []geometry.Point{at(50, 60), at(4, -6)}, nil, solidOf(t, p))
	if len(lanes) != 2 || len(bays) != 4 {
		t.Fatalf("%d lanes, %d bays; want 2 and 4", len(lanes), len(bays))
	}
	for i, middle := range []geometry.Point{at(18, 15), at(6, 15), at(18, 5), at(6, 5)} {
		if bays[i].Middle != middle {
			t.Errorf("bay %d lies at %v, want %v", i+1, bays[i].Middle, middle)
		}
	}
}

func TestPadHeightsFollowTheFall(t *testing.T) {
	p := slab(at(0, 0), at(30, 0), at(30, 24), at(0, 24))
	p.Top.Falls = []plan.Fall{{From: at(0, 24), To: at(0, 0), Drop: 3 * geometry.Inch}}
	r := Reach{Straightedge: 13 * ft, Overlap: ft}
	_, _, pads := lay(t, p, r, nil, nil, solidOf(t, p))
	if len(pads) == 0 {
		t.Fatal("no pads")
	}
	for _, pad := range pads {
		if d := pad.Height - 3*geometry.Inch/2; d.Abs() > 1000 {
			t.Errorf("the pad half-way up a fall of 3 in stands %s high", pad.Height.Exact(geometry.FeetInches))
		}
	}
}

// anyPlan draws a slab: a star round a center, at times with a hole in it, or a
// comb; turned and moved, some edges joints.
func anyPlan(t *rapid.T) plan.Plan {
	var ring []geometry.Point
	var hole plan.Loop
	turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
	sin, cos := math.Sincos(turn)
	dx, dy := rapid.Float64Range(-100, 100).Draw(t, "dx"), rapid.Float64Range(-100, 100).Draw(t, "dy")
	put := func(x, y float64) { ring = append(ring, at(dx+cos*x-sin*y, dy+sin*x+cos*y)) }
	if rapid.Bool().Draw(t, "star") {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		for i := range n {
			r := rapid.Float64Range(8, 40).Draw(t, "radius")
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			put(r*c, r*s)
		}
		if rapid.Bool().Draw(t, "hole") {
			hole = plan.Loop{{At: at(dx-1, dy-1)}, {At: at(dx-1, dy+1)}, {At: at(dx+1, dy+1)}, {At: at(dx+1, dy-1)}}
		}
	} else {
		teeth := rapid.IntRange(1, 3).Draw(t, "teeth")
		deep := rapid.Float64Range(5, 30).Draw(t, "deep")
		for i := range teeth {
			put(float64(20*i), 12)
			put(float64(20*i), 12+deep)
			put(float64(20*i)+10, 12+deep)
			put(float64(20*i)+10, 12)
		}
		put(float64(20*teeth), 12)
		put(float64(20*teeth), 0)
		put(0, 0)
	}
	p := slab(ring...)
	if hole != nil {
		p.Holes = []plan.Hole{{Loop: hole}}
	}
	for i := range p.Outline {
		p.Outline[i].Joint = rapid.IntRange(0, 4).Draw(t, "joint") == 0
	}
	return p
}

// nearestAsAllTold checks the bays nearest to some places against the distances of all.
func nearestAsAllTold(t *rapid.T, bays []Bay, at []geometry.Point) {
	boxes := make([]plane.Box, len(bays))
	for i, b := range bays {
		lo, hi := b.Shape.Bounds()
		boxes[i] = plane.BoxOf(lo, hi)
	}
	for _, p := range at {
		for _, p := range []geometry.Point{p, p.Add(at[0]), {X: p.Y, Y: -p.X}} {
			want := 0
			for i := range bays {
				if bays[i].Shape.Distance(p) < bays[want].Shape.Distance(p) {
					want = i
				}
			}
			if got := nearest(bays, boxes, p); got != want {
				t.Fatalf("bay %d is nearest to %v, want %d", got, p, want)
			}
		}
	}
}

func TestBaysCoverTheSlabOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		if len(p.Validate(geometry.FeetInches)) > 0 {
			t.Skip("not a slab")
		}
		s := solidOf(t, p)
		r := Reach{
			Chute:        geometry.Length(rapid.Int64Range(5, 60).Draw(t, "chute")) * ft,
			Straightedge: geometry.Length(rapid.Int64Range(6, 20).Draw(t, "straightedge")) * ft,
			Overlap:      geometry.Length(rapid.Int64Range(0, 24).Draw(t, "overlap")) * geometry.Inch,
			Float:        geometry.Length(rapid.Int64Range(0, 20).Draw(t, "float")) * ft,
			Bay:          geometry.Length(rapid.Int64Range(0, 20).Draw(t, "bay")) * ft,
			Turned:       rapid.Bool().Draw(t, "turned"),
			Turn:         rapid.Float64Range(-180, 180).Draw(t, "angle"),
		}
		lo, hi := p.Outline.Corners().Bounds()
		var stations, bolts []geometry.Point
		for range rapid.IntRange(0, 2).Draw(t, "stations") {
			stations = append(stations, geometry.Point{
				X: geometry.Length(rapid.Int64Range(int64(lo.X), int64(hi.X)).Draw(t, "x")), Y: lo.Y - 6*ft})
		}
		wantEdge := geometry.Length(0)
		for _, h := range p.Holes {
			wantEdge += h.Loop.Corners().Perimeter()
		}
		for i, e := range p.Outline {
			a, b := p.Outline.Ends(i)
			bolts = append(bolts, geometry.Along(a, b, geometry.Distance(a, b)/3))
			if !e.Joint {
				wantEdge += geometry.Distance(a, b)
			}
		}
		lanes, bays, pads := lay(t, p, r, stations, bolts, s)

		nearestAsAllTold(t, bays, bolts)
		sum, edge, held := 0.0, geometry.Length(0), 0
		for i, b := range bays {
			sum += b.Volume
			edge += b.Edge
			held += b.Bolts
			if math.Abs(b.Running-sum) > 1e-9 {
				t.Fatalf("bay %d: running %v, want %v", i, b.Running, sum)
			}
		}
		if math.Abs(sum-s.Volume) > 1e-6*s.Volume {
			t.Fatalf("the bays hold %v m³ of %v", sum, s.Volume)
		}
		coverOnce(t, p, bays)
		for _, b := range bays {
			checkReach(t, b, r, stations)
		}
		for _, st := range lanes {
			area := 0.0
			for _, i := range st.Bays {
				area += bays[i].Shape.Area()
			}
			if math.Abs(area-st.Shape.Area()) > 1e-6 {
				t.Fatalf("lane %d has %v m², its bays %v", st.Number, st.Shape.Area(), area)
			}
		}
		for _, b := range bays {
			if b.Shape.Distance(b.Middle) > 2 {
				t.Fatalf("the middle of bay %d, %v, lies off it: %v", b.Number, b.Middle, b.Shape)
			}
		}
		if (edge - wantEdge).Abs() > geometry.Millimeter {
			t.Fatalf("%s of edge in the bays, of %s", edge.Exact(geometry.Millimeters), wantEdge.Exact(geometry.Millimeters))
		}
		if held != len(bolts) {
			t.Fatalf("%d bolts in the bays, of %d", held, len(bolts))
		}
		for _, st := range lanes {
			if st.Width > r.LaneWidth()+1 {
				t.Fatalf("lane %d is wider than the tools reach", st.Number)
			}
		}
		for _, pad := range pads {
			if !plane.In(p.Outline.Corners(), pad.At) {
				t.Fatalf("pad %d lies off the slab", pad.Number)
			}
		}
	})
}

// checkReach compares how far a bay is with every corner's distance from every
// station.
func checkReach(t *rapid.T, b Bay, r Reach, stations []geometry.Point) {
	least, at := geometry.MaxLength*10, -1
	for i, s := range stations {
		far := geometry.Length(0)
		for _, ring := range b.Shape {
			for _, c := range ring {
				far = max(far, geometry.Distance(s, c))
			}
		}
		if far < least {
			least, at = far, i
		}
	}
	if at < 0 {
		if b.Station != -1 || b.Reached {
			t.Fatalf("bay %d is filled from nowhere", b.Number)
		}
		return
	}
	if (b.Away-least).Abs() > 10 || b.Reached != (b.Away <= r.Chute) {
		t.Fatalf("bay %d is %s away, reached %v; by its corners %s", b.Number, b.Away.Exact(geometry.FeetInches), b.Reached, least.Exact(geometry.FeetInches))
	}
}

// coverOnce checks bays against polygon overlay of another make (simplefeatures,
// package geom): together they are the slab, and no two share an area.
func coverOnce(t interface{ Fatalf(string, ...any) }, p plan.Plan, bays []Bay) {
	origin := p.Outline[0].At
	polygon := func(r geometry.Ring) geom.Geometry {
		var xy []float64
		for i := range len(r) + 1 {
			d := r[i%len(r)].Sub(origin)
			xy = append(xy, d.X.Meters(), d.Y.Meters())
		}
		return geom.NewPolygonXY(xy).AsGeometry()
	}
	must := func(g geom.Geometry, err error) geom.Geometry {
		if err != nil {
			t.Fatalf("overlay: %v", err)
		}
		return g
	}
	// less takes rings that run clockwise off those that run counter-clockwise.
	less := func(rings []geometry.Ring) geom.Geometry {
		var round, holes []geom.Geometry
		for _, r := range rings {
			if r.CounterClockwise() {
				round = append(round, polygon(r))
			} else {
				holes = append(holes, polygon(r))
			}
		}
		g := must(geom.UnionMany(round))
		if len(holes) > 0 {
			g = must(geom.Difference(g, must(geom.UnionMany(holes))))
		}
		return g
	}
	var loops []geometry.Ring
	for _, l := range p.Loops() {
		loops = append(loops, l.Corners())
	}
	slab, sum := less(loops), 0.0
	var all []geom.Geometry
	for _, b := range bays {
		g := less(b.Shape)
		sum += g.Area()
		all = append(all, g)
	}
	union := must(geom.UnionMany(all))
	const most = 1e-6 // m²: corners are whole nanometers
	if d := sum - union.Area(); math.Abs(d) > most {
		t.Fatalf("the bays overlap by %v m²", d)
	}
	if d := must(geom.Difference(union, slab)).Area(); d > most {
		t.Fatalf("%v m² of the bays lie off the slab", d)
	}
	if d := must(geom.Difference(slab, union)).Area(); d > most {
		t.Fatalf("%v m² of the slab lie in no bay", d)
	}
}

// sameRings compares shapes, whichever corner a ring starts at.
func sameRings(a, b plane.Region) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		same := false
		for k := range a[i] {
			turned := append(slices.Clone(a[i][k:]), a[i][:k]...)
			same = same || slices.Equal(turned, b[i])
		}
		if !same {
			return false
		}
	}
	return true
}

// Worked by hand: lanes 10 ft wide along X, cut to the slab.
func TestBaysKeepToTheSlab(t *testing.T) {
	r := Reach{Straightedge: 11 * ft, Overlap: ft, Turned: true}
	loop := func(ps ...geometry.Point) (l plan.Loop) {
		for _, q := range ps {
			l = append(l, plan.Edge{At: q})
		}
		return l
	}
	for _, c := range []struct {
		name  string
		plan  plan.Plan
		bay   geometry.Length
		want  []plane.Region
		areas []float64 // ft²
	}{
		{
			// The upper lane reaches 2 ft below the inside corner: an L.
			name: "an inside corner within a lane",
			plan: slab(at(0, 0), at(10, 0), at(10, 12), at(30, 12), at(30, 20), at(0, 20)),
			want: []plane.Region{
				{{at(10, 10), at(10, 12), at(30, 12), at(30, 20), at(0, 20), at(0, 10)}},
				{{at(0, 0), at(10, 0), at(10, 10), at(0, 10)}},
			},
			areas: []float64{260, 100},
		},
		{
			// The notch's bottom is the border: the legs are two bays, the one
			// farther from the low corner first.
			name: "two legs beside a notch as deep as a lane",
			plan: slab(at(0, 0), at(30, 0), at(30, 20), at(25, 20), at(25, 10), at(5, 10), at(5, 20), at(0, 20)),
			want: []plane.Region{
				{{at(25, 10), at(30, 10), at(30, 20), at(25, 20)}},
				{{at(0, 10), at(5, 10), at(5, 20), at(0, 20)}},
				{{at(30, 10), at(0, 10), at(0, 0), at(30, 0)}},
			},
			areas: []float64{50, 50, 300},
		},
		{
			// An opening in the middle of one lane, whole within a bay.
			name: "an opening",
			plan: func() plan.Plan {
				p := slab(at(0, 0), at(20, 0), at(20, 10), at(0, 10))
				p.Holes = []plan.Hole{{Loop: loop(at(9, 4), at(9, 6), at(11, 6), at(11, 4))}}
				return p
			}(),
			want:  []plane.Region{{{at(0, 0), at(20, 0), at(20, 10), at(0, 10)}, {at(9, 4), at(9, 6), at(11, 6), at(11, 4)}}},
			areas: []float64{196},
		},
		{
			// The same, with the border of two bays across it.
			name: "an opening between two bays",
			bay:  10 * ft,
			plan: func() plan.Plan {
				p := slab(at(0, 0), at(20, 0), at(20, 10), at(0, 10))
				p.Holes = []plan.Hole{{Loop: loop(at(9, 4), at(9, 6), at(11, 6), at(11, 4))}}
				return p
			}(),
			want: []plane.Region{
				{{at(10, 4), at(10, 0), at(20, 0), at(20, 10), at(10, 10), at(10, 6), at(11, 6), at(11, 4)}},
				{{at(0, 0), at(10, 0), at(10, 4), at(9, 4), at(9, 6), at(10, 6), at(10, 10), at(0, 10)}},
			},
			areas: []float64{98, 98},
		},
	} {
		r.Bay = c.bay
		_, bays, _ := lay(t, c.plan, r, nil, nil, solidOf(t, c.plan))
		if len(bays) != len(c.want) {
			t.Errorf("%s: %d bays, want %d", c.name, len(bays), len(c.want))
			continue
		}
		for i, b := range bays {
			if !sameRings(b.Shape, c.want[i]) {
				t.Errorf("%s: bay %d is %v, want %v", c.name, i+1, b.Shape, c.want[i])
			}
			if a := b.Shape.Area() / (ft.Meters() * ft.Meters()); math.Abs(a-c.areas[i]) > 1e-9 {
				t.Errorf("%s: bay %d has %v ft², want %v", c.name, i+1, a, c.areas[i])
			}
		}
		coverOnce(t, c.plan, bays)
	}
}

func TestTooWideForOneDay(t *testing.T) {
	p := slab(at(0, 0), at(1990, 0), at(1990, 1990), at(0, 1990))
	c := course{reach: Default().Reach}
	c.reach.Straightedge = 6 * ft
	if err := c.lay(Slab{Plan: p, Solid: solidOf(t, p)}); err == nil {
		t.Error("a slab of 1990 ft by 1990 ft is laid in one day")
	}
}
