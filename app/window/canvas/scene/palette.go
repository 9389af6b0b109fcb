package scene

import (
	"fmt"
	"image/color"
)

// Palette is the colors of the plan. Nothing is told by color alone: each kind
// of line has its own pattern, and what matters is labeled.
type Palette struct {
	Paper, Grid, GridBold    color.NRGBA
	Slab, Deep, Ridge        color.NRGBA // field, deepest underside, bends of the underside
	Contour                  color.NRGBA // lines of equal depth and their numbers
	Ink, Faint               color.NRGBA // outline; secondary lines
	Joint, OldSlab           color.NRGBA
	Wall, Door               color.NRGBA
	Steel, Bolt, Dowel       color.NRGBA
	Saw, Form                color.NRGBA
	Foam, Retarder           color.NRGBA
	Stake, Pour              color.NRGBA
	Dim, Text, Plate         color.NRGBA // dimension lines, their numbers, what numbers stand on
	Fault, FaultInk, Finding color.NRGBA
	Accent, Select           color.NRGBA
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}

func rgba(v uint32, a uint8) color.NRGBA {
	c := rgb(v)
	c.A = a
	return c
}

// Light is ink on warm paper.
var Light = Palette{
	Paper: rgb(0xfaf8f3), Grid: rgb(0xeeeae1), GridBold: rgb(0xdfd9cc),
	Slab: rgb(0xe4e6e6), Deep: rgb(0x8fa3ad), Ridge: rgba(0x53656f, 120), Contour: rgb(0x3a4c57),
	Ink: rgb(0x1d2a33), Faint: rgb(0x76828a),
	Joint: rgb(0x8a4b08), OldSlab: rgba(0x8a4b08, 90),
	Wall: rgb(0x4c6a2f), Door: rgb(0x1b5f8c),
	Steel: rgb(0xa1342a), Bolt: rgb(0x5a2d82), Dowel: rgb(0x8a4b08),
	Saw: rgb(0x0e6e6e), Form: rgb(0x8a682a),
	Foam: rgb(0x2c5f96), Retarder: rgb(0x6a5180), Stake: rgb(0x96286a), Pour: rgb(0x0f5c86),
	Dim: rgb(0x5c6b75), Text: rgb(0x1d2a33), Plate: rgb(0xfaf8f3),
	Fault: rgb(0xb3261e), FaultInk: rgb(0xffffff), Finding: rgb(0x9a5b00),
	Accent: rgb(0x0b6b74), Select: rgb(0x0b6b74),
}

// Dark is the same at night.
var Dark = Palette{
	Paper: rgb(0x14191d), Grid: rgb(0x1c2328), GridBold: rgb(0x273037),
	Slab: rgb(0x2e383f), Deep: rgb(0x6d8796), Ridge: rgba(0xc3d2da, 90), Contour: rgb(0xc3d2da),
	Ink: rgb(0xe8edf0), Faint: rgb(0x8b98a1),
	Joint: rgb(0xe5a45b), OldSlab: rgba(0xe5a45b, 90),
	Wall: rgb(0xa3c97e), Door: rgb(0x7ec3f0),
	Steel: rgb(0xf08a7e), Bolt: rgb(0xc9a2ee), Dowel: rgb(0xe5a45b),
	Saw: rgb(0x6fd0cf), Form: rgb(0xd9b56b),
	Foam: rgb(0x8fb8e8), Retarder: rgb(0xc0aed2), Stake: rgb(0xf09ac8), Pour: rgb(0x86c5f0),
	Dim: rgb(0x9fadb6), Text: rgb(0xe8edf0), Plate: rgb(0x14191d),
	Fault: rgb(0xf2665c), FaultInk: rgb(0x14191d), Finding: rgb(0xf0b44d),
	Accent: rgb(0x5fc9d3), Select: rgb(0x5fc9d3),
}

// between mixes two colors; t from 0 to 1.
func between(a, b color.NRGBA, t float64) color.NRGBA {
	t = min(max(t, 0), 1)
	mix := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*t + 0.5) }
	return color.NRGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), mix(a.A, b.A)}
}

// quiet gives the colors of the lines of what is not being worked on: nearer to
// the paper.
func (p Palette) quiet() Palette {
	q := p
	for _, c := range append(q.inks(), &q.Slab, &q.Deep, &q.Ridge, &q.Ink, &q.Faint, &q.OldSlab, &q.Wall) {
		a := c.A
		*c = between(*c, p.Paper, 0.45)
		c.A = a
	}
	return q
}

// inks are the colors that labels are written in on Plate or Paper.
func (p *Palette) inks() []*color.NRGBA {
	return []*color.NRGBA{
		&p.Contour, &p.Joint, &p.Door, &p.Steel, &p.Bolt, &p.Dowel, &p.Saw, &p.Form, &p.Foam, &p.Retarder,
		&p.Stake, &p.Pour, &p.Dim, &p.Text, &p.Fault, &p.Finding, &p.Accent, &p.Select,
	}
}

// Written is one kind of text on the plan: its color and what it stands on.
type Written struct {
	What       string
	Ink, Paper color.NRGBA
}

// Written lists everything that is written.
func (p Palette) Written() []Written {
	var out []Written
	for i, c := range p.inks() {
		out = append(out, Written{fmt.Sprintf("label %d on its plate", i), *c, p.Plate}, Written{fmt.Sprintf("label %d on paper", i), *c, p.Paper})
	}
	return append(out,
		Written{"sign of a fault", p.FaultInk, p.Fault}, Written{"truck", p.Paper, p.Pour},
		Written{"tool", p.Accent, p.Paper}, Written{"text on the slab", p.Text, p.Slab})
}
