package plan

import (
	"fmt"
	"math"

	"haunchbook.example/geometry"
)

// Isolation tells how the slab is kept off what stands on a pad.
type Isolation = geometry.Choice[isolations]

type isolations struct{}

// Names implements geometry.Named.
func (isolations) Names() []string { return []string{"none", "square", "diamond", "round"} }

// The isolation joints round a column, by the shape of their block-out: ACI 302.1R.
const (
	NoIsolation Isolation = iota
	SquareOut
	DiamondOut // a square turned by 45°, so that saw cuts run to its points
	RoundOut
)

// BlockOut is left open round a column when the slab is poured, lined with joint filler, and
// filled once the column stands.
type BlockOut struct {
	Pad    int // of the plan, from 0
	Shape  Isolation
	Center geometry.Point
	Size   geometry.Length // side of a square or a diamond; diameter
	Turn   float64         // degrees, counter-clockwise
}

// BlockOuts gives the block-outs round the columns on pads, in the order of these.
func (p Plan) BlockOuts() (out []BlockOut) {
	for i, pad := range p.Pads {
		if pad.Isolation == NoIsolation {
			continue
		}
		b := BlockOut{Pad: i, Shape: pad.Isolation, Center: pad.Center, Size: pad.BlockOut, Turn: pad.Turn}
		if b.Size <= 0 {
			b.Size = (pad.Around(b.Shape) + geometry.Inch - 1) / geometry.Inch * geometry.Inch
		}
		if b.Shape == DiamondOut {
			b.Turn += 45
		}
		out = append(out, b)
	}
	return out
}

// Around gives how large a block-out is that has room for the pad with its tapers: the side of
// a square or a diamond, or the diameter.
func (p Pad) Around(shape Isolation) geometry.Length {
	w, l := p.Width+2*p.Taper, p.Length+2*p.Taper
	switch shape {
	case DiamondOut:
		return geometry.Rounded(float64(w+l) / math.Sqrt2)
	case RoundOut:
		return geometry.Rounded(math.Hypot(float64(w), float64(l)))
	}
	return max(w, l)
}

// outChords is by how many sides a round block-out is drawn where corners are needed: so many
// that no crack runs from one of them.
const outChords = 32

// Ring gives its rim, counter-clockwise; of a round one a polygon whose sides touch the circle.
func (b BlockOut) Ring() geometry.Ring {
	if b.Shape != RoundOut {
		return Pad{Center: b.Center, Width: b.Size, Length: b.Size, Turn: b.Turn}.Ring()
	}
	r := float64(b.Size) / 2 / math.Cos(math.Pi/outChords)
	ring := make(geometry.Ring, outChords)
	for i := range ring {
		s, c := math.Sincos((float64(i) + 0.5) * 2 * math.Pi / outChords)
		ring[i] = b.Center.Add(geometry.Point{X: geometry.Rounded(r * c), Y: geometry.Rounded(r * s)})
	}
	return ring
}

// Open gives the plan as the slab is poured: its block-outs are holes after the others.
func (p Plan) Open() Plan {
	outs := p.BlockOuts()
	if len(outs) == 0 {
		return p
	}
	p.Holes = append(p.Holes[:len(p.Holes):len(p.Holes)], make([]Hole, len(outs))...)
	for i, b := range outs {
		p.Holes[len(p.Holes)-len(outs)+i].Loop = Like(b.Ring(), Edge{}).Reversed()
	}
	return p
}

// blockOuts faults a block-out that does not lie wholly in the slab, clear of holes and others.
func (v *validator) blockOuts() {
	outs := v.p.BlockOuts()
	if len(outs) == 0 || len(v.faults) > 0 {
		return
	}
	if whole := (validator{p: v.p.Open(), u: v.u, home: v.home}); whole.sound() {
		return
	}
	for i := range outs {
		at, one := outs[i], v.p
		one.Pads = one.Pads[:0:0]
		for _, b := range outs[:i+1] { // with those before it
			one.Pads = append(one.Pads, v.p.Pads[b.Pad])
		}
		if of := (validator{p: one.Open(), u: v.u, home: v.home}); !of.sound() {
			v.fault(fmt.Sprintf("pads[%d].blockout", at.Pad), at.Center, v.text(at.Size)+" across at "+v.place(at.Center), "a block-out must lie within the slab, clear of its edges, of holes and of other block-outs")
			return
		}
	}
}

// sound tells whether the loops of a plan have no fault.
func (v *validator) sound() bool {
	v.loops()
	return len(v.faults) == 0
}
