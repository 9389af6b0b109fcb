package plan

import (
	"math"

	"haunchbook.example/geometry"
)

// Pad is a rectangular thickening: Depth over Width by Length, with sides that
// taper outward over Taper up to the field.
type Pad struct {
	Name   string          `json:"name,omitzero"`
	Center geometry.Point  `json:"center"`
	Width  geometry.Length `json:"width"`         // across, along X before turning
	Length geometry.Length `json:"length"`        // along Y before turning
	Turn   float64         `json:"turn,omitzero"` // degrees, counter-clockwise
	Depth  geometry.Length `json:"depth"`
	Taper  geometry.Length `json:"taper,omitzero"`

	Isolation Isolation       `json:"isolation,omitzero"` // of the slab from the column on it
	BlockOut  geometry.Length `json:"blockout,omitzero"`  // how large that is left open
}

// KindPad is the kind of pads.
const KindPad Kind = "pad"

func init() {
	register(KindPad, 40, 5, list[Pad]{
		kind: KindPad, path: "pads",
		in:   func(s *Site) *[]Pad { return &s.Plan.Pads },
		body: func(p *Pad) []*geometry.Point { return []*geometry.Point{&p.Center} },
		lies: func(p Pad) Outline { return Outline{Ring: p.Ring()} },
		turned: func(p *Pad, m motion) {
			if m.flip {
				p.Turn = -p.Turn
			}
			if m.turn != 0 {
				p.Turn = math.Mod(p.Turn+m.turn, 360)
			}
		},
		check: (*validator).pad,
	})
}

// Ring gives the rim of the pad's flat bottom.
func (p Pad) Ring() geometry.Ring {
	w, l := p.Width/2, p.Length/2
	ring := geometry.Ring{{X: -w, Y: -l}, {X: w, Y: -l}, {X: w, Y: l}, {X: -w, Y: l}}
	turn := p.Turn
	if math.IsNaN(turn) || math.IsInf(turn, 0) {
		turn = 0
	}
	for i := range ring {
		ring[i] = p.Center.Add(Turn(ring[i], turn))
	}
	return ring
}

func (v *validator) pad(path string, p *Pad) {
	v.deepEnough(path+".depth", p.Center, p.Depth)
	if v.outside(p.Center) {
		v.fault(path+".center", v.home, v.place(p.Center), "must lie on the slab")
	}
}
