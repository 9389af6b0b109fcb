package drawing

import (
	"testing"

	"pgregory.net/rapid"
)

// What is free is what runs into none of the boxes taken, looked at one by one,
// also after some were given back.
func TestFreeIsWhatRunsIntoNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var r room
		at, way := rapid.Float64Range(-300, 300), rapid.Float64Range(-1, 1)
		half := rapid.OneOf(rapid.Float64Range(0.1, 9), rapid.Float64Range(1, 400))
		boxes := rapid.Custom(func(rt *rapid.T) Box {
			along := Vec{X: 1}
			if rapid.Bool().Draw(rt, "slanted") {
				along = Unit(Vec{X: way.Draw(rt, "ux"), Y: way.Draw(rt, "uy")})
			}
			return Box{Vec{X: at.Draw(rt, "x"), Y: at.Draw(rt, "y")}, along, half.Draw(rt, "l"), rapid.Float64Range(0.1, 9).Draw(rt, "h")}
		})
		r.reset(14, Rect{-1000, -1000, 1000, 1000})
		r.take(boxes.Draw(rt, "of the sheet before"), takenLine)
		r.reset(14, Rect{-1000, -1000, 1000, 1000})
		var taken []Box
		for _, b := range rapid.SliceOfN(boxes, 1, 40).Draw(rt, "boxes") {
			want := true
			for _, c := range taken {
				want = want && !c.Hits(b)
			}
			if got := r.free(b, takenAny); got != want {
				rt.Fatalf("%v beside %v: free is %v", b, taken, got)
			}
			h := r.held()
			r.take(b, takenText)
			if rapid.Bool().Draw(rt, "kept") {
				taken = append(taken, b)
			} else {
				r.giveBack(h)
			}
		}
	})
}
