package drawing

import (
	"math"
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
		r.reset(14, 1.5, Rect{-1000, -1000, 1000, 1000})
		r.take(boxes.Draw(rt, "of the sheet before"), takenLine)
		r.reset(14, 1.5, Rect{-1000, -1000, 1000, 1000})
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

// Short of where a box comes clear of what it ran into, it runs into that.
func TestUntilIsNeverTooFar(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		place, half := rapid.Float64Range(-20, 20), rapid.Float64Range(0.1, 30)
		turn := rapid.OneOf(rapid.Just(0.0), rapid.Just(math.Pi/2), rapid.Float64Range(0, 2*math.Pi))
		way := func(name string) Vec { s, c := math.Sincos(turn.Draw(rt, name)); return Vec{X: c, Y: s} }
		box := func(name string) Box {
			return Box{Vec{X: place.Draw(rt, name), Y: place.Draw(rt, name)}, way(name), half.Draw(rt, name), half.Draw(rt, name)}
		}
		var r room
		r.reset(14, 1.5, Rect{-1000, -1000, 1000, 1000})
		taken, b, u := box("taken"), box("moved"), way("way")
		r.take(taken, takenText)
		if r.free(b, takenAny) {
			return
		}
		far := r.until(b, b.Bounds(), u)
		if math.IsInf(far, 0) || far > 200 {
			rt.Fatalf("%v comes clear of %v after %g", b, taken, far)
		}
		for k := range 100 {
			moved := b
			moved.Mid = b.Mid.Toward(u, far*float64(k)/100)
			if r.free(moved, takenAny) {
				rt.Fatalf("%v moved %g of %g along %v is free beside %v", b, far*float64(k)/100, far, u, taken)
			}
		}
		b.Mid = b.Mid.Toward(u, far+1e-3)
		if len(r.boxes) == 1 && !r.free(b, takenAny) && u.X*u.Y == 0 && taken.Upright() && b.Upright() {
			rt.Fatalf("%v is not free beside %v after %g", b, taken, far)
		}
	})
}
