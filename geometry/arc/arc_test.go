package arc

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
)

const ft = geometry.Foot

func at(x, y float64) geometry.Point {
	return geometry.Point{X: geometry.Rounded(x * float64(ft)), Y: geometry.Rounded(y * float64(ft))}
}

// A chord of 6 ft with a middle ordinate of 1 ft is of a circle of 5 ft: 3² = 1·(10-1). Its
// center lies 4 ft from the chord, its sweep is twice asin(3/5).
func TestChordOfSixFeet(t *testing.T) {
	for _, side := range []geometry.Length{1, -1} {
		a := Arc{A: at(0, 0), B: at(6, 0), Middle: side * ft}
		if r := a.Radius(); r != 5*ft {
			t.Errorf("radius %v", r)
		}
		if c := a.Center(); geometry.Distance(c, geometry.Point{X: 3 * ft, Y: 4 * side * ft}) > 2 {
			t.Errorf("center %v", c)
		}
		sweep := 2 * math.Asin(0.6) * float64(side)
		if math.Abs(a.Sweep()-sweep) > 1e-12 || (a.Length()-geometry.Rounded(5*math.Abs(sweep)*float64(ft))).Abs() > 1 {
			t.Errorf("sweep %g, length %v", a.Sweep(), a.Length())
		}
		if math.Abs(a.Bulge()-math.Tan(sweep/4)) > 1e-12 {
			t.Errorf("bulge %g", a.Bulge())
		}
		if m := a.At(0.5, 0); geometry.Distance(m, geometry.Point{X: 3 * ft, Y: -side * ft}) > 2 {
			t.Errorf("middle %v", m)
		}
		if in := a.At(0.5, ft); geometry.Distance(in, geometry.Point{X: 3 * ft, Y: ft - side*ft}) > 2 {
			t.Errorf("a foot to its left: %v", in)
		}
		if out := a.At(0.5, -ft/2); geometry.Distance(out, geometry.Point{X: 3 * ft, Y: -ft/2 - side*ft}) > 2 {
			t.Errorf("half a foot to its right: %v", out)
		}
		// √(25 - 1.5²) - 4
		if o := a.Ordinate(3 * ft / 2); (o - geometry.Rounded((math.Sqrt(25-2.25)-4)*float64(ft))).Abs() > 1 {
			t.Errorf("ordinate at a quarter %v", o)
		}
		// Sector less triangle, in square meters.
		want := (25*math.Asin(0.6) - 3*4) * 0.3048 * 0.3048 * float64(side)
		if math.Abs(a.Segment()-want) > 1e-12 {
			t.Errorf("segment %g, want %g", a.Segment(), want)
		}
	}
}

func TestHalfCircle(t *testing.T) {
	a := Arc{A: at(0, 0), B: at(0, 8), Middle: 4 * ft}
	if a.Radius() != 4*ft || math.Abs(a.Sweep()-math.Pi) > 1e-12 || geometry.Distance(a.Center(), at(0, 4)) > 1 {
		t.Errorf("radius %v, sweep %g, center %v", a.Radius(), a.Sweep(), a.Center())
	}
	if x, y := a.Along(0); math.Abs(x-1) > 1e-12 || math.Abs(y) > 1e-12 {
		t.Errorf("it starts square to its chord, not along %g, %g", x, y)
	}
}

func TestNearest(t *testing.T) {
	a := Arc{A: at(0, 0), B: at(6, 0), Middle: ft}
	if s, d := a.Nearest(at(3, -3)); math.Abs(s-0.5) > 1e-9 || (d-2*ft).Abs() > 2 {
		t.Errorf("share %g, %v away", s, d)
	}
	if s, d := a.Nearest(at(-3, -4)); s != 0 || (d-5*ft).Abs() > 2 {
		t.Errorf("beyond its start: share %g, %v away", s, d)
	}
}

// However an arc is given by points on it, it is the same.
func TestThrough(t *testing.T) {
	a := Arc{A: at(1, 2), B: at(7, -3), Middle: -3 * ft / 2}
	for _, share := range []float64{0.1, 0.35, 0.5, 0.9} {
		b, ok := Through(a.A, a.At(share, 0), a.B)
		if !ok || (b.Middle-a.Middle).Abs() > 20 {
			t.Errorf("through the point at %g: %v", share, b.Middle)
		}
	}
	if _, ok := Through(at(0, 0), at(1, 1), at(3, 3)); ok {
		t.Error("points on a line give no arc")
	}
}

// Three quarters of a circle of 5 ft round the origin, parted in its middle: each half is an
// eighth and a quarter of it, on the same circle.
func TestHalves(t *testing.T) {
	a, ok := Through(at(5, 0), at(-5, 0), at(0, -5))
	if !ok || math.Abs(a.Sweep()-3*math.Pi/2) > 1e-9 {
		t.Fatalf("sweep %g", a.Sweep())
	}
	first, second := a.Halves()
	if first.A != a.A || second.B != a.B || first.B != second.A || geometry.Distance(first.B, geometry.Point{}) < 5*ft-2 || geometry.Distance(first.B, geometry.Point{}) > 5*ft+2 || first.B.X >= 0 {
		t.Errorf("parted at %v", first.B)
	}
	for _, h := range []Arc{first, second} {
		if math.Abs(h.Sweep()-3*math.Pi/4) > 1e-8 || (h.Radius()-5*ft).Abs() > 20 || geometry.Distance(h.Center(), geometry.Point{}) > 20 {
			t.Errorf("a half of radius %v, sweep %g round %v", h.Radius(), h.Sweep(), h.Center())
		}
	}
	if math.Abs(first.Segment()+second.Segment()+geometry.Ring{a.A, first.B, a.B}.Area()-a.Segment()) > 1e-6 {
		t.Error("the halves do not enclose what it does")
	}
}

func TestOfRadius(t *testing.T) {
	if m, ok := OfRadius(6*ft, 5*ft); !ok || m != ft {
		t.Errorf("%v, %v", m, ok)
	}
	if _, ok := OfRadius(6*ft, 2*ft); ok {
		t.Error("a radius of less than half the chord")
	}
}

// The radius that rounds a corner comes back as it was typed, though its middle ordinate is
// rounded; another arc's is none of those that one types.
func TestRadiusAsTyped(t *testing.T) {
	for _, r := range []geometry.Length{4 * ft, geometry.Sixteenth * 37, 1250 * geometry.Millimeter, 30*ft + geometry.Inch/2} {
		for _, after := range []geometry.Point{at(0, 300), at(-211, 300), at(170, 90)} {
			a, ok := Rounded(at(-300, 0), at(0, 0), after, r)
			if !ok || a.Radius() != r {
				t.Errorf("rounded by %v on the way to %v: %v", r, after, a.Radius())
			}
		}
	}
	if a := (Arc{A: at(0, 0), B: at(6, 0), Middle: ft + 1_234_567}); a.Radius() != bounded(a.radius()) {
		t.Errorf("an arc of no such radius has %v", a.Radius())
	}
}

// A square corner rounded by R: the arc starts R from it, and its middle ordinate is
// R(1-cos 45°). At a corner of 120 degrees inside it starts at R/tan 60°.
func TestRounded(t *testing.T) {
	a, ok := Rounded(at(0, 10), at(0, 0), at(10, 0), 2*ft)
	if !ok || a.A != at(0, 2) || a.B != at(2, 0) || (a.Middle-geometry.Rounded(2*(1-math.Sqrt2/2)*float64(ft))).Abs() > 1 {
		t.Errorf("%+v, %v", a, ok)
	}
	back, ok := Rounded(at(10, 0), at(0, 0), at(0, 10), 2*ft)
	if !ok || (back.Middle+a.Middle).Abs() > 1 {
		t.Errorf("the other way it bows to the left: %+v, %v", back, ok)
	}
	blunt, ok := Rounded(at(-10, 0), at(0, 0), at(5, -5*math.Sqrt(3)), ft)
	if want := float64(ft) / math.Sqrt(3); !ok || (geometry.Distance(at(0, 0), blunt.A)-geometry.Rounded(want)).Abs() > 1 || (blunt.Radius()-ft).Abs() > 20 {
		t.Errorf("%+v, radius %v", blunt, blunt.Radius())
	}
	if _, ok := Rounded(at(0, 1), at(0, 0), at(10, 0), 2*ft); ok {
		t.Error("it finds no room on an edge of 1 ft")
	}
}

// The chords lie within what is asked, and even ones enclose the area of the arc.
func TestChords(t *testing.T) {
	for _, a := range []Arc{{at(0, 0), at(6, 0), ft}, {at(0, 0), at(0, 8), 4 * ft}, {at(3, 1), at(-40, 17), -ft}, {at(0, 0), at(0.3, 0.1), ft / 20}} {
		n := a.Parts(geometry.Sixteenth)
		ps := a.Chords(n)
		for k := 1; k < len(ps); k++ {
			mid := geometry.Point{X: (ps[k-1].X + ps[k].X) / 2, Y: (ps[k-1].Y + ps[k].Y) / 2}
			if _, off := a.Nearest(mid); off > geometry.Sixteenth+1 {
				t.Errorf("%+v: a chord lies %v off", a, off)
			}
		}
		even := a.Even(16)
		// From the chord of the arc, counter-clockwise where it bows right.
		ring := append(geometry.Ring{}, even...)
		if got, want := ring.Area(), a.Segment(); math.Abs(got-want) > 1e-8*(1+math.Abs(want)) {
			t.Errorf("%+v: even chords enclose %.12g, the arc %.12g", a, got, want)
		}
	}
}
