package plan

import (
	"math"

	"haunchbook.example/geometry"
)

// Embed is a thing that is set before the pour and stays in the concrete: a sleeve or a
// pipe that comes up through it, a floor drain, a post base, a plate.
type Embed struct {
	Name   string          `json:"name,omitzero"`
	Kind   EmbedKind       `json:"kind"`
	Center geometry.Point  `json:"center"`
	Width  geometry.Length `json:"width"`           // outside diameter of a round one; else along X before turning
	Length geometry.Length `json:"length,omitzero"` // along Y of one with corners; 0 for a round one
	Turn   float64         `json:"turn,omitzero"`   // degrees, counter-clockwise
	Deep   geometry.Length `json:"deep,omitzero"`   // how far below the top it reaches; 0 for right through
}

// EmbedKind tells what an embed is.
type EmbedKind = geometry.Choice[embedKinds]

type embedKinds struct{}

// Names implements geometry.Named.
func (embedKinds) Names() []string {
	return []string{"sleeve", "stub-up", "floor drain", "post base", "plate"}
}

// The kinds of embeds.
const (
	Sleeve     EmbedKind = iota // a short pipe that keeps a way through the slab open
	StubUp                      // a pipe or conduit that comes up through the slab
	FloorDrain                  // whose rim is the low place of the top
	PostBase                    // a bracket with its anchor, for a post on the slab
	WeldPlate                   // a steel plate with anchors, flush with the top
)

// KindEmbed is the kind of embeds.
const KindEmbed Kind = "embed"

func init() {
	register(KindEmbed, 39, 7, list[Embed]{
		kind: KindEmbed, path: "embeds",
		in:   func(s *Site) *[]Embed { return &s.Plan.Embeds },
		body: func(e *Embed) []*geometry.Point { return []*geometry.Point{&e.Center} },
		lies: func(e Embed) Outline { return Outline{Ring: e.Ring()} },
		turned: func(e *Embed, m motion) {
			if m.flip {
				e.Turn = -e.Turn
			}
			if m.turn != 0 {
				e.Turn = math.Mod(e.Turn+m.turn, 360)
			}
		},
		check: func(v *validator, path string, e *Embed) {
			if v.outside(e.Center) {
				v.fault(path+".center", v.home, v.place(e.Center), "must lie on the slab")
			}
		},
	})
}

// Round tells whether the embed is round.
func (e Embed) Round() bool { return e.Length == 0 }

// Dot gives the radius of the dot in its middle by which a drawing tells a pipe that comes
// up; 0 for none.
func (e Embed) Dot() geometry.Length {
	if e.Kind != StubUp {
		return 0
	}
	return e.Width / 8
}

// Sign gives the strokes within its rim by which a drawing tells what the embed is: two
// across a drain, one across a post base.
func (e Embed) Sign() [][2]geometry.Point {
	if e.Kind != FloorDrain && e.Kind != PostBase {
		return nil
	}
	w := e.Width / 2
	ends := geometry.Ring{e.Center.Add(geometry.Point{X: -w}), e.Center.Add(geometry.Point{Y: -w}), e.Center.Add(geometry.Point{X: w}), e.Center.Add(geometry.Point{Y: w})}
	if !e.Round() {
		ends = e.Ring()
	}
	out := [][2]geometry.Point{{ends[0], ends[2]}}
	if e.Kind == FloorDrain {
		out = append(out, [2]geometry.Point{ends[1], ends[3]})
	}
	return out
}

// chords is by how many sides the rim of a round embed is drawn where corners are needed.
const chords = 24

// Ring gives the rim of the embed; of a round one a polygon round it, whose sides touch the
// circle.
func (e Embed) Ring() geometry.Ring {
	if !e.Round() {
		return Pad{Center: e.Center, Width: e.Width, Length: e.Length, Turn: e.Turn}.Ring()
	}
	r := float64(e.Width) / 2 / math.Cos(math.Pi/chords)
	ring := make(geometry.Ring, chords)
	for i := range ring {
		s, c := math.Sincos((float64(i) + 0.5) * 2 * math.Pi / chords)
		ring[i] = e.Center.Add(geometry.Point{X: geometry.Rounded(r * c), Y: geometry.Rounded(r * s)})
	}
	return ring
}
