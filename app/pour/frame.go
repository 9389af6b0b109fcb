package pour

import (
	"math"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// frame turns plan coordinates so that lanes run along u and lie side by side
// along v. Both are meters from an origin near the slab.
type frame struct {
	origin geometry.Point
	cos    float64
	sin    float64
}

func newFrame(origin geometry.Point, turn float64) frame {
	sin, cos := math.Sincos(turn)
	return frame{origin, cos, sin}
}

func (f frame) in(p geometry.Point) uv {
	d := p.Sub(f.origin)
	x, y := d.X.Meters(), d.Y.Meters()
	return uv{f.cos*x + f.sin*y, f.cos*y - f.sin*x}
}

func (f frame) out(q uv) geometry.Point {
	return f.origin.Add(geometry.Point{X: length(f.cos*q.u - f.sin*q.v), Y: length(f.sin*q.u + f.cos*q.v)})
}

// slab gives the outline and the holes.
func (f frame) slab(p plan.Plan) shape {
	var out shape
	for _, l := range p.Loops() {
		ring := make([]uv, len(l))
		for i, e := range l {
			ring[i] = f.in(e.At)
		}
		out = append(out, ring)
	}
	return out
}

func (f frame) shape(s shape) Shape {
	out := make(Shape, len(s))
	for i, r := range s {
		out[i] = make(geometry.Ring, len(r))
		for k, q := range r {
			out[i][k] = f.out(q)
		}
	}
	return out
}

// rectangle is a part of the frame's plane.
type rectangle struct{ u0, u1, v0, v1 float64 }

// distance gives how far q lies from r; 0 within.
func (r rectangle) distance(q uv) float64 {
	return math.Hypot(max(r.u0-q.u, 0, q.u-r.u1), max(r.v0-q.v, 0, q.v-r.v1))
}

func length(meters float64) geometry.Length { return geometry.Length(math.Round(meters * 1e9)) }
