package tool

import (
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var constructions = &list[plan.Construction]{
	called: "construction joint",
	help:   "Drag to move; Delete removes it; arrows nudge",
	rank:   rankPoint,
	in:     func(j *job.Job, slab int) *[]plan.Construction { return &j.Slabs[slab].Construction },
	whole:  constructionEnds,
	points: constructionEnds,
	near: func(o On, c plan.Construction, r *Reach, t Target) {
		r.Offer(rankBody, r.segment(o, c.From, c.To)/edgeReach, 1, t)
	},
	outline: func(m *Machine, o *Overlay, c plan.Construction, sub int, s Style) {
		o.line(m, c.From, c.To, s)
		if sub >= 0 {
			o.ring(m, *constructionEnds(&c)[sub], 7, s)
		}
	},
	clear: func(c plan.Construction, sub int) geometry.Ring {
		if sub == 1 {
			return geometry.Ring{c.To}
		}
		return geometry.Ring{c.From}
	},
	describe: func(_ *Machine, f bind.Fields[plan.Construction], _ Sheet) {
		f.At("slabs[].construction[]").Rows("name")
		constructionSizes(f)
	},
}

// Construction is the kind of construction joints.
var Construction Kind = constructions

func constructionEnds(c *plan.Construction) []*geometry.Point {
	return []*geometry.Point{&c.From, &c.To}
}

func constructionSizes(f bind.Fields[plan.Construction]) {
	f.At("slabs[].construction[]").Rows("kind", "first", "days", "steel", "diameter", "length", "spacing")
}

// PlaceConstruction draws a construction joint across the slab.
type PlaceConstruction struct{ byEnds }

// Name implements State.
func (*PlaceConstruction) Name() string { return "Construction joint" }

// Help implements State.
func (c *PlaceConstruction) Help(*Machine) Help {
	if c.from == nil {
		return Help{"Click where it meets an edge, or type the place: 12' along, 0 off", "Set its one end", "Stop"}
	}
	return Help{"Click where it meets the edge across, or another such joint", "Set its other end", "Choose the one end again"}
}

// Press implements State.
func (c *PlaceConstruction) Press(m *Machine) { c.press(m, c.put(m)) }

// Enter implements State.
func (c *PlaceConstruction) Enter(m *Machine, text string) { c.typed(m, text, c.put(m)) }

func (*PlaceConstruction) put(m *Machine) func(a, b geometry.Point) {
	return func(a, b geometry.Point) {
		j := m.NewConstruction
		j.From, j.To = a, b
		constructions.put(m, "Construction joint", j)
	}
}

// Describe gives the fields of the next joint.
func (*PlaceConstruction) Describe(m *Machine, s Sheet) {
	s.Heading("Next construction joint")
	constructionSizes(nextOf(s, &m.NewConstruction))
	s.Explain("Where one pour ends and the next begins, against a bulkhead: click where it meets one edge and where it meets the other. Each side is ordered, formed and poured by itself.")
}
