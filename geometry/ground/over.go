package ground

import (
	"math"

	"haunchbook.example/geometry/plane"
)

// How finely a surface is shared out among regions: pieces of nodeWide meters, fewer on a
// slab of which these would be more than nodesOver.
const (
	nodeWide  = 0.15
	nodesOver = 4000
)

// Over shares out among regions of the slab, such as its bays, how far the ground lies above
// the plan: m³ over each, by pieces whose middles lie in it. Where nothing was shot, there
// is nothing to share.
func (s Slab) Over(regions []plane.Region) []float64 {
	out := make([]float64, len(regions))
	within := make([]*plane.Sides, len(regions))
	for i, g := range regions {
		within[i] = plane.NewSides(g)
	}
	size := math.Max(nodeWide, math.Sqrt(s.Area/nodesOver))
	for _, z := range s.Zones {
		if !z.Known || len(z.Mesh.Points) == 0 {
			continue
		}
		frame := plane.NewFrame(z.Mesh.Points[0], 0)
		for _, t := range z.Mesh.Triangles {
			p, f, ok := z.Mesh.plane(t, z.Off)
			if !ok {
				continue
			}
			for _, n := range nodes(nil, p[:], size) {
				at := frame.Out(n.at)
				for i, g := range within {
					if g.Contains(at) {
						out[i] += n.m2 * (f.C + f.G.Dot(n.at))
						break
					}
				}
			}
		}
	}
	return out
}
