package mark

import (
	"strconv"

	"haunchbook.example/geometry/plan"
)

// Names are the marks of what is drawn on one slab. Loops are numbered as
// plan.Loops gives them.
type Names struct {
	within       []Mark     // walls along lines of their own
	walls        [][]Mark   // by loop and edge; zero where there is none
	doors        [][][]Mark // by loop and edge, in the edge's own order
	pads         []Mark
	strips       []Mark
	holes        []Mark
	embeds       []Mark
	lines        []Mark
	construction []Mark
	drawn        [][]int // by loop and edge of a plan whose arcs are parted: the edge's number as it is drawn, from 0
}

// Of gives the marks of the slabs of a job, counted through all of them. A thing
// that the user gave a name of this scheme, as a door "D12" on the builder's sketch,
// has that mark where no other has it.
func Of(slabs ...plan.Plan) []Names {
	var g giver
	out := make([]Names, len(slabs))
	for i, p := range slabs {
		n := &out[i]
		for _, l := range p.Loops() {
			walls, doors := make([]Mark, len(l)), make([][]Mark, len(l))
			if len(l) > 0 && l[0].Chord.Of > 0 {
				of := make([]int, len(l))
				for e := range l {
					of[e] = l.Drawn(e)
				}
				n.drawn = append(n.drawn, of)
			}
			for e := range l {
				if l[e].Wall != "" && !l.Jog(e) {
					g.want(Wall, "", &walls[e])
				}
				doors[e] = make([]Mark, len(l[e].Doors))
				for k, d := range l[e].Doors {
					g.want(Door, d.Name, &doors[e][k])
				}
			}
			n.walls, n.doors = append(n.walls, walls), append(n.doors, doors)
		}
		n.within = make([]Mark, len(p.Walls))
		for k, wall := range p.Walls {
			g.want(Wall, wall.Name, &n.within[k])
		}
		n.pads, n.strips, n.holes = make([]Mark, len(p.Pads)), make([]Mark, len(p.Strips)), make([]Mark, len(p.Holes))
		for k, pad := range p.Pads {
			g.want(Pad, pad.Name, &n.pads[k])
		}
		for k, strip := range p.Strips {
			g.want(Strip, strip.Name, &n.strips[k])
		}
		for k, hole := range p.Holes {
			g.want(Hole, hole.Name, &n.holes[k])
		}
		n.embeds = make([]Mark, len(p.Embeds))
		for k, embed := range p.Embeds {
			g.want(Embed, embed.Name, &n.embeds[k])
		}
		n.lines = make([]Mark, len(p.Lines))
		for k, line := range p.Lines {
			g.want(Line, line.Name, &n.lines[k])
		}
		n.construction = make([]Mark, len(p.Construction))
		for k, joint := range p.Construction {
			g.want(Construction, joint.Name, &n.construction[k])
		}
	}
	g.give()
	return out
}

// giver gives marks to things in their order.
type giver struct {
	taken map[Mark]bool
	left  []*Mark // that have no number yet
}

// want asks for a mark, which is there at once where the name is one.
func (g *giver) want(k Kind, name string, m *Mark) {
	if g.taken == nil {
		g.taken = map[Mark]bool{}
	}
	if own, ok := parse(k, name); ok && !g.taken[own] {
		*m, g.taken[own] = own, true
		return
	}
	m.Kind = k
	g.left = append(g.left, m)
}

// give numbers what has no mark yet.
func (g *giver) give() {
	last := map[Kind]int{}
	for _, m := range g.left {
		for m.N = last[m.Kind] + 1; g.taken[*m]; m.N++ {
		}
		last[m.Kind] = m.N
	}
}

// Wall gives the mark of the wall on an edge; none where there is none.
func (n Names) Wall(loop, edge int) Mark { return at(at(n.walls, loop), edge) }

// Within gives the mark of a wall along a line of its own.
func (n Names) Within(i int) Mark { return at(n.within, i) }

// Door gives the mark of a door of an edge, by its place among the edge's.
func (n Names) Door(loop, edge, i int) Mark { return at(at(at(n.doors, loop), edge), i) }

// Pad gives the mark of a pad.
func (n Names) Pad(i int) Mark { return at(n.pads, i) }

// Strip gives the mark of a thickened strip.
func (n Names) Strip(i int) Mark { return at(n.strips, i) }

// Hole gives the mark of a hole.
func (n Names) Hole(i int) Mark { return at(n.holes, i) }

// Embed gives the mark of an embed.
func (n Names) Embed(i int) Mark { return at(n.embeds, i) }

// Line gives the mark of a drain line, of conduit or of tubing.
func (n Names) Line(i int) Mark { return at(n.lines, i) }

// Construction gives the mark of a construction joint.
func (n Names) Construction(i int) Mark { return at(n.construction, i) }

// Edge gives an edge as people read it, edges counted from 1: "edge 3",
// "edge 2 of H1".
func (n Names) Edge(loop, edge int) string {
	if of := at(n.drawn, loop); len(of) > 0 {
		edge = at(of, edge)
	}
	name := "edge " + strconv.Itoa(edge+1)
	if loop > 0 {
		name += " of " + n.Hole(loop-1).String()
	}
	return name
}

func at[T any](list []T, i int) (none T) {
	if i < 0 || i >= len(list) {
		return none
	}
	return list[i]
}
