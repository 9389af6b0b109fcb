package plane

import (
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

// outside the program: polygon overlay of another make, simplefeatures, in
// floating point. Coordinates are nanometers.
func foreign(t interface{ Fatalf(string, ...any) }, g Region) geom.Geometry {
	var all []geom.Geometry
	for _, part := range g.Parts() {
		var rings [][]float64
		for _, r := range part {
			var xy []float64
			for i := range len(r) + 1 {
				p := r[i%len(r)]
				xy = append(xy, float64(p.X), float64(p.Y))
			}
			rings = append(rings, xy)
		}
		p := geom.NewPolygonXY(rings...).AsGeometry()
		if err := p.Validate(); err != nil {
			t.Fatalf("no polygon: %v\n%v", err, part)
		}
		all = append(all, p)
	}
	if len(all) == 0 {
		return geom.Geometry{}
	}
	u, err := geom.UnionMany(all)
	if err != nil {
		t.Fatalf("union of parts: %v\n%v", err, g)
	}
	return u
}

// Areas of what another program overlays agree to what snapping may move.
func TestOverlayAgreesWithSimplefeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g, h := anyRegion(r), anyRegion(r)
		a, b := foreign(t, g), foreign(t, h)
		slack := 1e-9*(perimeter(g)+perimeter(h)) + 1e-18*20
		for _, op := range []struct {
			name   string
			ours   func(g, h Region) Region
			theirs func(a, b geom.Geometry) (geom.Geometry, error)
		}{
			{"intersection", Intersect, geom.Intersection},
			{"difference", Subtract, geom.Difference},
			{"union", func(g, h Region) Region { return Union(g, h) }, geom.Union},
		} {
			got := op.ours(g, h)
			foreign(t, got)
			want, err := op.theirs(a, b)
			if err != nil {
				t.Fatalf("%s: %v", op.name, err)
			}
			if d := math.Abs(got.Area() - want.Area()*1e-18); d > slack {
				t.Fatalf("%s: %v m², of %v m² by simplefeatures\n%v\n%v\n%v", op.name, got.Area(), want.Area()*1e-18, g, h, got)
			}
		}
	})
}

// Offsets agree with another program's mitered buffer where no corner is so sharp
// that either cuts it off. Its corners that hardly turn are rough, a two-thousandth
// of the offset; ours are rounded, and snapped.
func TestOffsetAgreesWithSimplefeatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		lo, hi := g.Bounds()
		if size := min(hi.X-lo.X, hi.Y-lo.Y); size < 1000 || sharp(g) {
			return
		}
		by := 10 + geometry.Length(r.Int64N(int64(hi.X-lo.X)/4))
		for _, by := range [...]geometry.Length{by, -by} {
			want, err := geom.Buffer(foreign(t, g), float64(by), geom.BufferJoinStyleMitre(4), geom.BufferSimplifyFactor(0))
			if err != nil {
				t.Fatal(err)
			}
			got, area := g.Offset(by), 0.0
			for _, part := range got.Parts() {
				if by > 0 || !lost(t, g, part, want, -by) {
					area += part.Area()
				}
			}
			if d := math.Abs(area - want.Area()*1e-18); d > (by.Abs().Meters()/2000+2*0.71e-9)*(perimeter(got)+perimeter(g)) {
				t.Fatalf("by %d: %v m², of %v m² by simplefeatures\n%v\n%v\n%v", by, area, want.Area()*1e-18, g, got, want.AsText())
			}
		}
	})
}

// lost tells whether the other program lacks a whole part of what is left of g less a
// band of a width, though it is as far from the border: it loses some beside short
// sides.
func lost(t interface{ Fatalf(string, ...any) }, g, part Region, others geom.Geometry, width geometry.Length) bool {
	if geom.Intersects(foreign(t, part), others) {
		return false
	}
	far := true
	for _, p := range part[0] {
		g.sides(func(a, b geometry.Point) { far = far && toSegment(a, b, p) > float64(width)-2 })
	}
	return far
}

// sharp tells whether a region has a corner, inside or outside, of less than 30
// degrees.
func sharp(g Region) bool {
	for _, r := range g {
		for i, p := range r {
			u, v := direction(r[(i+len(r)-1)%len(r)], p), direction(p, r[(i+1)%len(r)])
			if u.Dot(v) < -0.866 {
				return true
			}
		}
	}
	return false
}

// What is kept holds just the places that it should: looked at one by one, a few
// nanometers off every border.
func TestOverlayHoldsItsPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g, h := anyRegion(r), anyRegion(r)
		both, less, either := Intersect(g, h), Subtract(g, h), Union(g, h)
		lo, hi := either.Bounds()
		for range 60 {
			p := pt(lo.X-2+geometry.Length(r.Int64N(int64(hi.X-lo.X+5))), lo.Y-2+geometry.Length(r.Int64N(int64(hi.Y-lo.Y+5))))
			near := math.Inf(1)
			for _, x := range []Region{g, h} {
				x.sides(func(a, b geometry.Point) { near = min(near, toSegment(a, b, p)) })
			}
			if near < 2 {
				continue
			}
			inG, inH := g.Contains(p), h.Contains(p)
			if both.Contains(p) != (inG && inH) || less.Contains(p) != (inG && !inH) || either.Contains(p) != (inG || inH) {
				t.Fatalf("%v lies in the first: %v, in the second: %v; in the intersection: %v, the difference: %v, the union: %v\n%v\n%v",
					p, inG, inH, both.Contains(p), less.Contains(p), either.Contains(p), g, h)
			}
		}
	})
}

// Rings do not cross, not even themselves, and touch in corners only; once
// more changes nothing but what a nanometer can.
func TestOverlayGivesCleanRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := Subtract(anyRegion(r), anyRegion(r))
		for _, c := range Crossings(g, 0) {
			if a, b := sideOf(g, c.I), sideOf(g, c.J); crosses(a[0], a[1], b[0], b[1]) || overlap(a, b) {
				t.Fatalf("sides %v and %v meet at %v\n%v", a, b, c.At, g)
			}
		}
		for _, ring := range g {
			seen := map[geometry.Point]bool{}
			for i, p := range ring {
				if seen[p] {
					t.Fatalf("a ring comes twice to %v: %v", p, ring)
				}
				seen[p] = true
				if geometry.Orientation(ring[(i+len(ring)-1)%len(ring)], p, ring[(i+1)%len(ring)]) == 0 {
					t.Fatalf("%v is no corner of %v", p, ring)
				}
			}
		}
		sum := 0.0
		for _, p := range g.Parts() {
			sum += p.Area()
		}
		if math.Abs(sum-g.Area()) > 1e-12*g.Area() {
			t.Fatalf("the parts have %v m² of %v", sum, g.Area())
		}
		again := Union(g)
		if d := Subtract(g, again).Area() + Subtract(again, g).Area(); d > 1e-9*perimeter(g) {
			t.Fatalf("once more, it is\n%v\nand was\n%v", again, g)
		}
	})
}

type ends [2]geometry.Point

// overlap tells whether two sides on one line share more than a point.
func overlap(a, b ends) bool {
	if geometry.Orientation(a[0], a[1], b[0]) != 0 || geometry.Orientation(a[0], a[1], b[1]) != 0 {
		return false
	}
	if compare(a[0], a[1]) > 0 {
		a[0], a[1] = a[1], a[0]
	}
	if compare(b[0], b[1]) > 0 {
		b[0], b[1] = b[1], b[0]
	}
	return compare(a[0], b[1]) < 0 && compare(b[0], a[1]) < 0
}

func sideOf(g Region, i int) ends {
	for _, r := range g {
		if i < len(r) {
			return ends{r[i], r[(i+1)%len(r)]}
		}
		i -= len(r)
	}
	return ends{}
}

func sameRegion(g, h Region) bool {
	if len(g) != len(h) {
		return false
	}
	for i := range g {
		if len(g[i]) != len(h[i]) {
			return false
		}
		for k := range g[i] {
			if g[i][k] != h[i][k] {
				return false
			}
		}
	}
	return true
}

// A line cuts a region in two that are the region again and share no area.
func TestLeftOfALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t)
		g := anyRegion(r)
		lo, hi := g.Bounds()
		any := func() geometry.Point {
			return pt(lo.X+geometry.Length(r.Int64N(int64(hi.X-lo.X+2))), lo.Y+geometry.Length(r.Int64N(int64(hi.Y-lo.Y+2))))
		}
		a, b := any(), any()
		if len(g) > 0 && r.IntN(3) == 0 {
			a, b = g[0][0], g[0][1] // along a side
		}
		if a == b {
			return
		}
		left, right := g.Left(a, b), g.Left(b, a)
		if d := left.Area() + right.Area() - g.Area(); math.Abs(d) > 2e-9*perimeter(g)+4e-18 {
			t.Fatalf("left %v and right %v are not %v m²: %v, cut by %v, %v", left.Area(), right.Area(), g.Area(), g, a, b)
		}
		if common := Intersect(left, right).Area(); common > 1e-9*perimeter(g) {
			t.Fatalf("left and right share %v m²", common)
		}
		foreign(t, left)
		for _, ring := range left {
			for _, p := range ring {
				if v := p.Sub(a); cross(b.Sub(a), v) < -2*math.Hypot(float64(b.Sub(a).X), float64(b.Sub(a).Y)) {
					t.Fatalf("%v lies right of the line from %v to %v", p, a, b)
				}
			}
		}
	})
}

// Worked by hand.
func TestOverlaysOfRectangles(t *testing.T) {
	a := Region{rectangle(0, 0, 10*ft, 10*ft)}
	for _, c := range []struct {
		name string
		got  Region
		want Region
	}{
		{"a common corner", Intersect(a, Region{rectangle(5*ft, 5*ft, 15*ft, 15*ft)}), Region{rectangle(5*ft, 5*ft, 10*ft, 10*ft)}},
		{"a hole", Subtract(a, Region{rectangle(4*ft, 4*ft, 6*ft, 6*ft)}), Region{rectangle(0, 0, 10*ft, 10*ft), {pt(4*ft, 4*ft), pt(4*ft, 6*ft), pt(6*ft, 6*ft), pt(6*ft, 4*ft)}}},
		{"side by side", Union(a, Region{rectangle(10*ft, 0, 15*ft, 10*ft)}), Region{rectangle(0, 0, 15*ft, 10*ft)}},
		{"corner to corner stay two", Union(a, Region{rectangle(10*ft, 10*ft, 15*ft, 15*ft)}), Region{rectangle(0, 0, 10*ft, 10*ft), rectangle(10*ft, 10*ft, 15*ft, 15*ft)}},
		{"side by side have nothing in common", Intersect(a, Region{rectangle(10*ft, 0, 15*ft, 10*ft)}), nil},
		{"itself", Subtract(a, a), nil},
		{"a hole that touches the rim is a hole", Subtract(a, Region{{pt(0, 5*ft), pt(2*ft, 4*ft), pt(2*ft, 6*ft)}}), Region{rectangle(0, 0, 10*ft, 10*ft), {pt(0, 5*ft), pt(2*ft, 6*ft), pt(2*ft, 4*ft)}}},
		{"left of a line", a.Left(pt(3*ft, 0), pt(3*ft, ft)), Region{rectangle(0, 0, 3*ft, 10*ft)}},
		{"a ring that runs twice round counts once", Union(Region{append(append(geometry.Ring{}, a[0]...), a[0]...)}), a},
		{"nothing", Union(), nil},
	} {
		if !sameRegion(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}
