package tool

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// What stands on the edges of the outline and of the holes.

// edgeOf gives the edge that a target is on, or is; nil where it is gone.
func edgeOf(p *plan.Plan, t Target) *plan.Edge {
	if t.Loop < 0 || t.Loop > len(p.Holes) {
		return nil
	}
	l := p.Outline
	if t.Loop > 0 {
		l = p.Holes[t.Loop-1].Loop
	}
	if t.Index < 0 || t.Index >= len(l) {
		return nil
	}
	return &l[t.Index]
}

// loopOf gives the loop that a target is on; none where it is gone.
func loopOf(p plan.Plan, t Target) plan.Loop {
	if edgeOf(&p, t) == nil {
		return nil
	}
	return p.Loops()[t.Loop]
}

// lengthOf gives the length of the edge that a target is on; 0 where it is gone.
func lengthOf(p plan.Plan, t Target) geometry.Length {
	if l := loopOf(p, t); l != nil {
		return l.Length(t.Index)
	}
	return 0
}

// edgeName names an edge for the history and the status line.
func edgeName(t Target) string {
	if t.Loop > 0 {
		return fmt.Sprintf("hole %d edge %d", t.Loop, t.Index+1)
	}
	return fmt.Sprintf("edge %d", t.Index+1)
}

// eachEdge calls visit for each edge with a length.
func eachEdge(p plan.Plan, visit func(t Target, l plan.Loop, a, b geometry.Point)) {
	for k, l := range p.Loops() {
		for i := range l {
			if a, b := l.Ends(i); a != b {
				visit(Target{Loop: k, Index: i}, l, a, b)
			}
		}
	}
}
