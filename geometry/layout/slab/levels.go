package slab

import "slices"

// levels keeps things by the level bands that they cross, to find those at a
// height.
type levels struct {
	low, band float64
	start     []int32 // band k holds items[start[k]:start[k+1]], ascending
	items     []int32
	extents   [][2]float64
}

// newLevels keeps things by their lowest and highest places.
func newLevels(extents [][2]float64) levels {
	g := levels{extents: extents, low: extents[0][0], start: make([]int32, len(extents)+2)}
	high := extents[0][1]
	for _, e := range extents {
		g.low, high = min(g.low, e[0]), max(high, e[1])
	}
	g.band = max(1, (high-g.low)/float64(len(extents)))
	for _, e := range extents {
		for k := g.at(e[0]); k <= g.at(e[1]); k++ {
			g.start[k+1]++
		}
	}
	for k := 1; k < len(g.start); k++ {
		g.start[k] += g.start[k-1]
	}
	g.items = make([]int32, g.start[len(g.start)-1])
	next := slices.Clone(g.start)
	for i, e := range extents {
		for k := g.at(e[0]); k <= g.at(e[1]); k++ {
			g.items[next[k]] = int32(i)
			next[k]++
		}
	}
	return g
}

// at gives the band of a height.
func (g *levels) at(y float64) int {
	return min(max(int((y-g.low)/g.band), 0), len(g.start)-2)
}

// near gives the things whose band a height lies in, and perhaps some beside.
func (g *levels) near(y float64) []int32 {
	k := g.at(y)
	return g.items[g.start[k]:g.start[k+1]]
}

// between appends to dst those that reach into y0 to y1, in ascending order.
func (g *levels) between(y0, y1 float64, dst []int32) []int32 {
	first, last, from := g.at(y0), g.at(y1), len(dst)
	for k := first; k <= last; k++ {
		for _, i := range g.items[g.start[k]:g.start[k+1]] {
			e := g.extents[i]
			if k == max(first, g.at(e[0])) && e[1] >= y0 && e[0] <= y1 {
				dst = append(dst, i)
			}
		}
	}
	if first < last {
		slices.Sort(dst[from:])
	}
	return dst
}
