package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// A drain in the middle of 24 by 20 ft, 2 in at 10 ft in every direction: the top
// is max(|x|, |y|)/60 over it. Its four valleys run on the diagonals: 10 ft out,
// where they meet the long sides, it is 2 in high. The corners, 12 ft off along X,
// are 2.4 in high.
func TestSurfaceRoundADrain(t *testing.T) {
	p := plain()
	c := pt(12*ft, 10*ft)
	ways := []geometry.Point{pt(10*ft, 0), pt(-10*ft, 0), pt(0, 10*ft), pt(0, -10*ft)}
	for _, d := range ways {
		p.Top.Falls = append(p.Top.Falls, plan.Fall{From: c.Add(d), To: c, Drop: 2 * in})
	}
	s := mustSolid(t, p).Surface()
	if len(s.Heights) != 5 {
		t.Fatalf("heights %+v", s.Heights)
	}
	for i, h := range s.Heights {
		kind, want := AtCorner, 2*in+2*in/5
		if i == 4 {
			kind, want = AtDrain, 0
		}
		if h.Kind != kind || (h.Height-want).Abs() > 1 {
			t.Errorf("height %d: %+v, want %v", i, h, want.Inches())
		}
	}
	if len(s.Creases) != 4 {
		t.Fatalf("creases %+v", s.Creases)
	}
	for _, v := range s.Creases {
		if v.HeightA > v.HeightB {
			v.A, v.B, v.HeightA, v.HeightB = v.B, v.A, v.HeightB, v.HeightA
		}
		d := v.B.Sub(c)
		if v.Meet != plan.Valley || geometry.Distance(v.A, c) > 2 || (d.X.Abs()-10*ft).Abs() > 2 || (d.Y.Abs()-10*ft).Abs() > 2 || (v.HeightB-2*in).Abs() > 2 {
			t.Errorf("valley %+v", v)
		}
	}
	if len(s.Arrows) != 4 {
		t.Fatalf("arrows %+v", s.Arrows)
	}
	for i, a := range s.Arrows {
		to, from := a.To.Sub(c), a.From.Sub(c)
		// Each lies on its own side of the drain and points at it.
		if a.Fall != i || from.X.Feet()*ways[i].X.Feet()+from.Y.Feet()*ways[i].Y.Feet() <= 0 || geometry.Distance(a.To, c) >= geometry.Distance(a.From, c) ||
			math.Abs(float64(to.X)*float64(from.Y)-float64(to.Y)*float64(from.X)) > 1e12 || math.Abs(a.Grade-1.0/60) > 1e-12 {
			t.Errorf("arrow %+v", a)
		}
	}
}

func TestNoSurfaceOfALevelTop(t *testing.T) {
	p := plain()
	p.Outline[0].Doors = []plan.Door{{From: 5 * ft, Width: 9 * ft, Lip: plan.Lip{Inset: 6 * in, Drop: in}}}
	if s := mustSolid(t, p).Surface(); len(s.Heights)+len(s.Creases)+len(s.Arrows) > 0 {
		t.Errorf("a level top has %+v", s)
	}
}

// A ridge in the middle of 24 ft, 2 in down to both ends; a door with a lip of 1 in
// in the low end, from 5 to 14 ft.
func TestSurfaceOfARidge(t *testing.T) {
	p := plain()
	p.Top.Meet = plan.Ridge
	p.Top.Falls = []plan.Fall{{From: pt(12*ft, 0), To: pt(0, 0), Drop: 2 * in}, {From: pt(12*ft, 0), To: pt(24*ft, 0), Drop: 2 * in}}
	p.Outline[1].Doors = []plan.Door{{From: 5 * ft, Width: 9 * ft, Lip: plan.Lip{Inset: 6 * in, Drop: in}}}
	s := mustSolid(t, p)
	out := s.Surface()
	if len(out.Creases) != 1 || geometry.Distance(out.Creases[0].A, out.Creases[0].B) != 20*ft || out.Creases[0].HeightA != 2*in || out.Creases[0].Meet != plan.Ridge {
		t.Errorf("ridge %+v", out.Creases)
	}
	for _, h := range out.Heights {
		want := geometry.Length(0)
		if h.Kind == AtJamb {
			want = -in
		}
		if h.Height != want {
			t.Errorf("%+v, want %v", h, want.Inches())
		}
	}
	if len(out.Heights) != 6 || len(out.Arrows) != 2 {
		t.Errorf("%d heights, %d arrows", len(out.Heights), len(out.Arrows))
	}
	if lo, hi := s.TopRange(pt(0, 10*ft), pt(24*ft, 10*ft)); lo != 0 || (hi-2*in).Abs() > 1 {
		t.Errorf("across the ridge from %v to %v", lo, hi)
	}
}

// On any slab with any falls: heights agree with TopAt, creases lie on the slab
// where two falls are equal, arrows on the slab where their own fall is the top,
// down it, and apart from each other.
func TestSurfaceOfAnySlab(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sound(t)
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "falls"), 3))
		lo, hi := p.Outline.Corners().Bounds()
		somewhere := func() geometry.Point {
			return pt(lo.X+geometry.Length(r.Int64N(int64(hi.X-lo.X))), lo.Y+geometry.Length(r.Int64N(int64(hi.Y-lo.Y))))
		}
		drain := somewhere()
		for range 1 + r.IntN(5) {
			f := plan.Fall{From: somewhere(), To: somewhere(), Drop: geometry.Length(1+r.IntN(6)) * in}
			if r.IntN(2) == 0 {
				f.To = drain
			}
			p.Top.Falls = append(p.Top.Falls, f)
		}
		p.Top.Meet = plan.Meet(r.IntN(2))
		if len(p.Validate(0)) > 0 {
			t.Skip("not a plan")
		}
		s := mustOf(t, p)
		out, slab := s.Surface(), p.Region()
		for _, h := range out.Heights {
			if h.Kind != AtJamb && h.Height != s.TopAt(h.At) {
				t.Fatalf("%+v, want %v", h, s.TopAt(h.At))
			}
		}
		for _, c := range out.Creases {
			for _, q := range []geometry.Point{c.A, geometry.Along(c.A, c.B, geometry.Distance(c.A, c.B)/2), c.B} {
				if slab.Distance(q) > 2 {
					t.Fatalf("crease %+v lies off the slab at %v", c, q)
				}
			}
		}
		for i, a := range out.Arrows {
			f := s.top.planes[a.Fall]
			for _, q := range []geometry.Point{a.From, a.To} {
				if !slab.Contains(q) {
					t.Fatalf("arrow %+v lies off the slab at %v", a, q)
				}
				if d := s.top.at(s.region.In(q)) - f.At(s.region.In(q)); math.Abs(d) > 1e-8 {
					t.Fatalf("another fall is the top %v over arrow %+v", d, a)
				}
			}
			down := s.region.In(a.To).Sub(s.region.In(a.From))
			if long := down.Length(); a.Drop <= 0 || math.Abs(down.Dot(f.G)+long*f.G.Length()) > 1e-6*long*f.G.Length()+1e-8 {
				t.Fatalf("arrow %+v does not point down %+v", a, f)
			}
			for _, b := range out.Arrows[:i] {
				if q, ok := geometry.Meet(a.From, a.To, b.From, b.To); ok {
					t.Fatalf("arrows meet at %v: %+v, %+v", q, a, b)
				}
			}
		}
		a, b := somewhere(), somewhere()
		low, high := s.TopRange(a, b)
		for k := range geometry.Length(50) {
			if h := s.TopAt(geometry.Along(a, b, geometry.Distance(a, b)*k/50)); a != b && (h < low-2 || h > high+2) {
				t.Fatalf("%v is not from %v to %v", h, low, high)
			}
		}
	})
}
