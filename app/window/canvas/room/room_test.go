package room_test

import (
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/app/window/canvas/room"
)

// What is free is what overlaps none of the boxes taken, looked at one by one.
func TestFreeIsWhatOverlapsNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var r room.Room
		boxes := rapid.Custom(func(rt *rapid.T) room.Box {
			at := rapid.Float64Range(-3000, 3000)
			size := rapid.OneOf(rapid.Float64Range(1, 90), rapid.Float64Range(1, 5000))
			return room.Around(at.Draw(rt, "x"), at.Draw(rt, "y"), size.Draw(rt, "w"), size.Draw(rt, "h"))
		})
		r.Take(boxes.Draw(rt, "of the picture before"))
		r.Reset()
		var taken []room.Box
		for _, b := range rapid.SliceOfN(boxes, 1, 40).Draw(rt, "boxes") {
			want := true
			for _, c := range taken {
				want = want && !c.Overlaps(b)
			}
			if got := r.Free(b); got != want {
				rt.Fatalf("%v beside %v: free is %v", b, taken, got)
			}
			if want {
				taken = append(taken, b)
				r.Take(b)
			}
		}
	})
}
