package sawcuts

import (
	"math"
	"slices"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// face is a panel as it is left between cuts, edges and holes, in a frame.
type face struct {
	x, y float64 // a place in it
	w, h float64 // of the rectangle round it
	fill float64 // how much of that it covers
}

// mostCells bounds the grid that faces are found in.
const mostCells = 60_000

// faces gives the panels between cuts along a frame, with those from the corners of
// holes, which end at other cuts. Slanted sides are taken as steps. It is false for a
// slab of too many corners.
func (t *sawing) faces(f slab.Frame, spans func(y0, y1 float64) [][2]float64, cuts []Cut) ([]face, bool) {
	var xs, ys []float64
	note := func(p geometry.Point) {
		v := f.Turn(p)
		xs, ys = append(xs, v.X), append(ys, v.Y)
	}
	for _, r := range t.Rings {
		for _, p := range r {
			note(p)
		}
	}
	for _, c := range cuts {
		note(c.A)
		note(c.B)
	}
	xs, ys = apart(xs), apart(ys)
	nx, ny := len(xs)-1, len(ys)-1
	if nx < 1 || ny < 1 || nx*ny > mostCells {
		return nil, false
	}
	g := grid{xs, ys, make([]bool, nx*ny), make([]bool, nx*ny), make([]bool, nx*ny)}
	for j := range ny {
		for _, s := range spans(ys[j], ys[j+1]) {
			for i := range nx {
				if mid := (xs[i] + xs[i+1]) / 2; mid > s[0] && mid < s[1] {
					g.in[j*nx+i] = true
				}
			}
		}
	}
	for _, c := range cuts {
		g.cut(f.Turn(c.A), f.Turn(c.B))
	}
	return g.parts(), true
}

// same is how near heights are one, in nanometers: corners of a turned slab are rounded.
const same = 1e5

// apart gives values in order, each once.
func apart(vs []float64) []float64 {
	slices.Sort(vs)
	return slices.CompactFunc(vs, func(a, b float64) bool { return math.Abs(b-a) < same })
}

// grid is the cells between all heights of corners and cuts: which lie on the slab,
// and which have a cut at their left and at their lower side.
type grid struct {
	xs, ys          []float64
	in, left, under []bool
}

// cut notes a cut along the frame; others are none of the panels' borders.
func (g *grid) cut(a, b slab.Vec) {
	nx, ny := len(g.xs)-1, len(g.ys)-1
	switch {
	case math.Abs(a.Y-b.Y) < same:
		j := slices.IndexFunc(g.ys, func(y float64) bool { return math.Abs(y-a.Y) < same })
		for i := 0; i < nx && j >= 0 && j < ny; i++ {
			if mid := (g.xs[i] + g.xs[i+1]) / 2; mid > min(a.X, b.X) && mid < max(a.X, b.X) {
				g.under[j*nx+i] = true
			}
		}
	case math.Abs(a.X-b.X) < same:
		i := slices.IndexFunc(g.xs, func(x float64) bool { return math.Abs(x-a.X) < same })
		for j := 0; j < ny && i >= 0 && i < nx; j++ {
			if mid := (g.ys[j] + g.ys[j+1]) / 2; mid > min(a.Y, b.Y) && mid < max(a.Y, b.Y) {
				g.left[j*nx+i] = true
			}
		}
	}
}

// parts gives the cells that hang together, with no cut between them.
func (g *grid) parts() (out []face) {
	nx, ny := len(g.xs)-1, len(g.ys)-1
	seen := make([]bool, nx*ny)
	var queue []int
	for k := range seen {
		if seen[k] || !g.in[k] {
			continue
		}
		seen[k] = true
		queue = append(queue[:0], k)
		lo, hi := slab.Vec{X: math.Inf(1), Y: math.Inf(1)}, slab.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
		area, most, at := 0.0, 0.0, face{}
		visit := func(k int, blocked bool) {
			if !blocked && g.in[k] && !seen[k] {
				seen[k] = true
				queue = append(queue, k)
			}
		}
		for len(queue) > 0 {
			k := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			i, j := k%nx, k/nx
			w, h := g.xs[i+1]-g.xs[i], g.ys[j+1]-g.ys[j]
			lo.X, lo.Y, hi.X, hi.Y = min(lo.X, g.xs[i]), min(lo.Y, g.ys[j]), max(hi.X, g.xs[i+1]), max(hi.Y, g.ys[j+1])
			if area += w * h; w*h > most {
				most, at.x, at.y = w*h, g.xs[i]+w/2, g.ys[j]+h/2
			}
			if i > 0 {
				visit(k-1, g.left[k])
			}
			if i < nx-1 {
				visit(k+1, g.left[k+1])
			}
			if j > 0 {
				visit(k-nx, g.under[k])
			}
			if j < ny-1 {
				visit(k+nx, g.under[k+nx])
			}
		}
		at.w, at.h = hi.X-lo.X, hi.Y-lo.Y
		at.fill = area / (at.w * at.h)
		out = append(out, at)
	}
	return out
}
