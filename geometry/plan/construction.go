package plan

import (
	"haunchbook.example/geometry"
)

// Construction is a construction joint: a line across the slab at which one pour ends and
// the next begins, against a bulkhead. It reaches as far as the slab does along its line, so
// that it stays whole where an edge is moved.
type Construction struct {
	Name     string            `json:"name,omitzero"`
	Kind     ConstructionKind  `json:"kind"`
	From     geometry.Point    `json:"from"`
	To       geometry.Point    `json:"to"`
	First    ConstructionSide  `json:"first"`             // which side is poured first, looking from From to To
	Days     int               `json:"days,omitzero"`     // from the pour on one side to that on the other; 0 for the next day
	Steel    ConstructionSteel `json:"steel"`             // whether the bars of the field go through it
	Diameter geometry.Length   `json:"diameter,omitzero"` // of its dowels; 0 by the slab's thickness
	Length   geometry.Length   `json:"length,omitzero"`   // of its dowels; 0 by the slab's thickness
	Spacing  geometry.Length   `json:"spacing,omitzero"`  // of its dowels, at most; 0 for what is usual
}

// ConstructionKind tells what holds both sides of a construction joint level.
type ConstructionKind = geometry.Choice[constructionKinds]

type constructionKinds struct{}

// Names implements geometry.Named.
func (constructionKinds) Names() []string { return []string{"bulkhead", "keyed", "doweled"} }

// The kinds of construction joints.
const (
	Bulkhead ConstructionKind = iota // a plain face; the steel that runs through it holds it
	Keyed                            // a key along the middle of the face
	Doweled                          // smooth dowels, one half of each free to slide
)

// ConstructionSide is a side of a construction joint.
type ConstructionSide = geometry.Choice[constructionSides]

type constructionSides struct{}

// Names implements geometry.Named.
func (constructionSides) Names() []string { return []string{"left", "right"} }

// The sides, looking from one end of the joint to the other.
const (
	LeftFirst ConstructionSide = iota
	RightFirst
)

// ConstructionSteel tells whether the bars of the field go through a construction joint.
type ConstructionSteel = geometry.Choice[constructionSteel]

type constructionSteel struct{}

// Names implements geometry.Named.
func (constructionSteel) Names() []string { return []string{"usual", "through", "stops"} }

// What the steel may do.
const (
	SteelAsUsual ConstructionSteel = iota // it stops where dowels slide, else it goes through
	SteelThrough
	SteelStops
)

// Stops tells whether the bars of the field end at the joint: by common practice they do
// where dowels are to slide, since a bar that goes through holds the joint shut.
func (c Construction) Stops() bool {
	return c.Steel == SteelStops || c.Steel == SteelAsUsual && c.Kind == Doweled
}

// Wait gives how many days the later side is poured after the earlier one.
func (c Construction) Wait() int { return max(1, c.Days) }

// KindConstruction is the kind of construction joints. Both ends can be taken alone.
const KindConstruction Kind = "construction joint"

func init() {
	ends := func(c *Construction) []*geometry.Point { return []*geometry.Point{&c.From, &c.To} }
	register(KindConstruction, 43, 8, list[Construction]{
		kind: KindConstruction, path: "construction",
		in:   func(s *Site) *[]Construction { return &s.Plan.Construction },
		body: ends, ends: ends,
		lies: func(c Construction) Outline { return Outline{Lines: [][2]geometry.Point{{c.From, c.To}}} },
		turned: func(c *Construction, m motion) {
			if m.flip {
				c.First = RightFirst - c.First
			}
		},
		check: func(v *validator, path string, c *Construction) {
			if c.From == c.To {
				v.fault(path+".to", c.To, "the point it runs from", "give two different points: from one edge to another")
			}
			for _, p := range [...]geometry.Point{c.From, c.To} {
				if tooFar(p.X) || tooFar(p.Y) {
					v.fault(path, v.home, v.place(p), "must lie within 10 km of the origin")
				}
			}
		},
	})
}
