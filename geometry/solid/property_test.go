package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// sound draws a generated plan that Validate passes.
func sound(t *rapid.T) plan.Plan {
	for {
		seed := rapid.Uint64().Draw(t, "seed")
		r := rand.New(rand.NewPCG(seed, 1))
		for range 20 {
			if p := generate(r); len(p.Validate(0)) == 0 {
				return p
			}
		}
	}
}

func mustOf(t *rapid.T, p plan.Plan) *Solid {
	s, err := Of(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func same(t *rapid.T, what string, got, want, tolerance float64) {
	if math.Abs(got-want) > tolerance*math.Max(1e-3, math.Abs(want)) {
		t.Fatalf("%s: got %.15g, want %.15g", what, got, want)
	}
}

// mapped gives the plan with every point moved by f.
func mapped(p plan.Plan, f func(geometry.Point) geometry.Point) plan.Plan {
	p = p.Clone()
	for _, l := range p.Loops() {
		for i := range l {
			l[i].At = f(l[i].At)
		}
	}
	for i := range p.Pads {
		p.Pads[i].Center = f(p.Pads[i].Center)
	}
	for i := range p.Strips {
		for k, q := range p.Strips[i].Path {
			p.Strips[i].Path[k] = f(q)
		}
	}
	return p
}

func TestMotionsChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sound(t)
		want := mustOf(t, p)
		d := pt(geometry.Length(rapid.Int64Range(-1e11, 1e11).Draw(t, "dx")), geometry.Length(rapid.Int64Range(-1e11, 1e11).Draw(t, "dy")))
		same(t, "moved", mustOf(t, mapped(p, d.Add)).Volume, want.Volume, 1e-12)

		quarter := mapped(p, func(q geometry.Point) geometry.Point { return pt(-q.Y, q.X) })
		for i := range quarter.Pads {
			quarter.Pads[i].Turn += 90
		}
		same(t, "turned", mustOf(t, quarter).Volume, want.Volume, 1e-9)

		mirror := mapped(p, func(q geometry.Point) geometry.Point { return pt(-q.X, q.Y) })
		for i := range mirror.Pads {
			mirror.Pads[i].Turn *= -1
		}
		// The runs of edges turn round, and with them their order.
		same(t, "mirrored", mustOf(t, mirror.Oriented()).Volume, want.Volume, 1e-9)
	})
}

// Twice the size is eight times the volume, whatever the unit.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sound(t)
		big := mapped(p, func(q geometry.Point) geometry.Point { return pt(2*q.X, 2*q.Y) })
		big.Field *= 2
		for i := range big.Sections {
			s := &big.Sections[i]
			s.Depth, s.Bottom, s.Taper = 2*s.Depth, 2*s.Bottom, 2*s.Taper
			for k := range s.Profile {
				s.Profile[k].Inset, s.Profile[k].Depth = 2*s.Profile[k].Inset, 2*s.Profile[k].Depth
			}
		}
		for _, l := range big.Loops() {
			for i := range l {
				for k := range l[i].Doors {
					l[i].Doors[k].From *= 2
					l[i].Doors[k].Width *= 2
				}
			}
		}
		for i := range big.Pads {
			d := &big.Pads[i]
			d.Width, d.Length, d.Depth, d.Taper = 2*d.Width, 2*d.Length, 2*d.Depth, 2*d.Taper
		}
		for i := range big.Strips {
			s := &big.Strips[i]
			s.Bottom, s.Depth, s.Taper = 2*s.Bottom, 2*s.Depth, 2*s.Taper
		}
		same(t, "volume at twice the size", mustOf(t, big).Volume, 8*mustOf(t, p).Volume, 1e-9)
	})
}

// A corner put on an axis-parallel edge, where it is exactly collinear, is no
// corner.
func TestSplitEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := haunched(14*in, 9*in, 11*in, polyomino(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2)))...).Oriented()
		if len(p.Validate(0)) > 0 {
			t.Skip("not a plan")
		}
		want := mustOf(t, p).Volume
		i := rapid.IntRange(0, len(p.Outline)-1).Draw(t, "edge")
		a, b := p.Outline.Ends(i)
		at := geometry.Along(a, b, geometry.Length(rapid.Int64Range(1, int64(geometry.Distance(a, b))-1).Draw(t, "at")))
		e := p.Outline[i]
		e.At = at
		q := p.Clone()
		q.Outline = append(q.Outline[:i+1:i+1], append(plan.Loop{e}, q.Outline[i+1:]...)...)
		same(t, "split", mustOf(t, q).Volume, want, 1e-9)
	})
}

func TestDeeperIsNeverLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sound(t)
		q := p.Clone()
		s := &q.Sections[rapid.IntRange(0, len(q.Sections)-1).Draw(t, "section")]
		s.Depth += geometry.Length(rapid.Int64Range(0, int64(20*in)).Draw(t, "deeper"))
		more := geometry.Length(rapid.Int64Range(0, int64(20*in)).Draw(t, "profile deeper"))
		for k := range s.Profile {
			s.Profile[k].Depth += more
		}
		if a, b := mustOf(t, p).Volume, mustOf(t, q).Volume; b < a*(1-1e-9) {
			t.Fatalf("%.15g m³ became %.15g m³ with a deeper section", a, b)
		}
	})
}

func TestPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := mustOf(t, sound(t))
		sum := 0.0
		for _, p := range s.Parts {
			sum += p.Volume
			if (p.Kind == Overlap || p.Kind == Outside) && p.Volume > 0 || p.Kind == Fill && p.Volume < 0 {
				t.Fatalf("%v is %g m³", p.Kind, p.Volume)
			}
		}
		same(t, "sum of parts", sum, s.Volume, 1e-12)

		// Four quarters of the plane share the slab out.
		lo, hi := s.plan.Outline.Corners().Bounds()
		mx, my := geometry.Length(rapid.Int64Range(int64(lo.X), int64(hi.X)).Draw(t, "x")), geometry.Length(rapid.Int64Range(int64(lo.Y), int64(hi.Y)).Draw(t, "y"))
		sum = 0
		for _, x := range [][2]geometry.Length{{lo.X - ft, mx}, {mx, hi.X + ft}} {
			for _, y := range [][2]geometry.Length{{lo.Y - ft, my}, {my, hi.Y + ft}} {
				sum += s.VolumeWithin(plane.Region{{pt(x[0], y[0]), pt(x[1], y[0]), pt(x[1], y[1]), pt(x[0], y[1])}})
			}
		}
		same(t, "sum of quarters", sum, s.Volume, 1e-9)
	})
}

// TestSampling throws points at the box round the slab: the mean depth found
// there times the box is the volume, within five times its own standard error.
func TestSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for n := 0; n < 40; {
		p := generate(r)
		if len(p.Validate(0)) > 0 {
			continue
		}
		n++
		s := OfSound(p)
		lo, hi := p.Outline.Corners().Bounds()
		const count = 20_000
		var sum, squares float64
		for range count {
			d, _ := s.DepthAt(pt(lo.X+geometry.Length(r.Int64N(int64(hi.X-lo.X))), lo.Y+geometry.Length(r.Int64N(int64(hi.Y-lo.Y)))))
			sum += d.Meters()
			squares += d.Meters() * d.Meters()
		}
		box := hi.Sub(lo).X.Meters() * hi.Sub(lo).Y.Meters()
		mean := sum / count
		fault := math.Sqrt((squares/count-mean*mean)/count) * box
		if math.Abs(mean*box-s.Volume) > 5*fault {
			t.Errorf("plan %d: sampled %.4f ± %.4f m³, computed %.4f m³", n, mean*box, fault, s.Volume)
		}
	}
}

// A cut's underside is the depth at its places.
func TestCutAgreesWithDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sound(t)
		s := mustOf(t, p)
		lo, hi := p.Outline.Corners().Bounds()
		draw := func(name string) geometry.Point {
			return pt(geometry.Length(rapid.Int64Range(int64(lo.X), int64(hi.X)).Draw(t, name+" x")), geometry.Length(rapid.Int64Range(int64(lo.Y), int64(hi.Y)).Draw(t, name+" y")))
		}
		a, b := draw("a"), draw("b")
		if geometry.Distance(a, b) < ft {
			return
		}
		for _, c := range s.Cut(a, b) {
			if c.To-c.From < 100 {
				continue
			}
			m := c.From + (c.To-c.From)/2
			got := c.Start + (c.End-c.Start)/2
			// A cut may run along a step or the very edge, and the place is rounded:
			// what counts lies between the depths next to it.
			lo, hi := geometry.Length(math.MaxInt64), geometry.Length(0)
			q := geometry.Along(a, b, m)
			for _, by := range []geometry.Point{{}, pt(10, 0), pt(-10, 0), pt(0, 10), pt(0, -10)} {
				if d, on := s.DepthAt(q.Add(by)); on {
					lo, hi = min(lo, d), max(hi, d)
				}
			}
			if got < lo-100 || got > hi+100 {
				t.Fatalf("at %d: cut %v, depth from %v to %v", m, got, lo, hi)
			}
		}
	})
}

// A cut along an edge of the slab shows that edge's face, not the field's.
func TestCutAlongAnEdge(t *testing.T) {
	p := haunched(12*in, 12*in, 12*in, rectangle(24*ft, 20*ft)...)
	for _, c := range OfSound(p).Cut(pt(0, 0), pt(24*ft, 0)) {
		if c.Start != 12*in || c.End != 12*in {
			t.Errorf("from %v to %v: depth %v to %v, want 12 in", c.From, c.To, c.Start, c.End)
		}
	}
	// Along the step of a vertical-sided haunch: the deeper side, as DepthAt has it.
	s := OfSound(haunched(12*in, 12*in, 0, rectangle(24*ft, 20*ft)...))
	if c := s.Cut(pt(2*ft, ft), pt(22*ft, ft)); len(c) != 1 || c[0].Start != 12*in {
		t.Errorf("along a step: %v, want one stretch 12 in deep", c)
	}
}

// FuzzOf: no plan, however broken, panics or hangs.
func FuzzOf(f *testing.F) {
	f.Add(uint64(1), int64(0), int64(0), uint8(0))
	f.Add(uint64(7), int64(1), int64(-1), uint8(3))
	f.Add(uint64(9), int64(math.MaxInt64), int64(math.MinInt64), uint8(4))
	f.Fuzz(func(t *testing.T, seed uint64, x, y int64, what uint8) {
		p := generate(rand.New(rand.NewPCG(seed, 3)))
		i := int(seed % uint64(len(p.Outline)))
		switch what % 8 {
		case 0:
			p.Outline[i].At = pt(geometry.Length(x), geometry.Length(y))
		case 1:
			p.Outline[i].At = p.Outline[(i+1)%len(p.Outline)].At.Add(pt(geometry.Length(x%3), geometry.Length(y%3)))
		case 2:
			p.Outline[i].Doors = append(p.Outline[i].Doors, plan.Door{From: geometry.Length(x), Width: geometry.Length(y), RunOut: geometry.Length(x ^ y), Lip: plan.Lip{Inset: geometry.Length(y), Drop: geometry.Length(x)}})
		case 3:
			p.Sections[0].Bottom, p.Sections[0].Taper = geometry.Length(x), geometry.Length(y)
		case 4:
			p.Field = geometry.Length(x)
		case 5:
			p.Top = plan.Top{Falls: []plan.Fall{{From: pt(geometry.Length(x), 0), To: pt(0, geometry.Length(y)), Drop: geometry.Length(x % int64(in))}}}
			p.Base = plan.Level
		case 6:
			p.Outline = p.Outline[:i]
		case 7:
			p.Pads = append(p.Pads, plan.Pad{Center: p.Outline[i].At, Width: geometry.Length(x), Length: geometry.Length(y), Depth: p.Field + geometry.Length(x%int64(ft))})
		}
		s, err := Of(p)
		if err != nil {
			return
		}
		if math.IsNaN(s.Volume) || math.IsInf(s.Volume, 0) || s.Volume < 0 {
			t.Fatalf("volume %g", s.Volume)
		}
		s.Contours(p.Field + in)
		s.Ridges()
		s.Steps()
		s.Sides()
	})
}
