package stakeout

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/arc"
)

// Bow is how an arc is set out: from its center where a tape reaches from there, else by
// what it lies off its chord.
type Bow struct {
	Loop, Edge int // of the plan as it is drawn
	arc.Arc
	Radius  geometry.Length
	Chord   geometry.Length // from corner to corner
	Length  geometry.Length // along it
	Center  geometry.Point
	Reached bool            // a tape reaches it from its center
	Quarter geometry.Length // of the chord: how far along it from either corner
	Off     geometry.Length // how far the arc lies off the chord there
}

// tape is how long a tape is that swings an arc: 100 ft, common practice, no source.
const tape = 100 * geometry.Foot

// bows gives how each arc of the slab is set out.
func (t *staking) bows() (out []Bow) {
	for k, l := range t.Loops {
		for i := range l {
			if l.Within(i) || !l.OfArc(i) {
				continue
			}
			a, _ := l.Whole(i)
			b := Bow{Loop: k, Edge: l.Drawn(i), Arc: a, Radius: a.Radius(), Chord: a.Chord(), Length: a.Length(), Center: a.Center()}
			b.Quarter = (b.Chord / 4).Round(t.Step())
			b.Off, b.Reached = a.Ordinate(b.Quarter), b.Radius <= tape
			out = append(out, b)
		}
	}
	return out
}
