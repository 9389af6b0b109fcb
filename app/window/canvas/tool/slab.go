package tool

import (
	"fmt"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

type slab struct{ none }

// Slab is the kind of the area of a slab, and of its holes.
var Slab Kind = slab{}

func (slab) Called(o On, t Target) string {
	if t.Loop > 0 {
		return fmt.Sprintf("hole %d", t.Loop)
	}
	return o.Plan().Called(o.Slab)
}

func (slab) Help(t Target) string {
	if t.Loop == 0 {
		return "Ctrl+drag moves the slab; arrows nudge; Delete removes"
	}
	return "Drag to move; Delete removes it; arrows nudge"
}

func (slab) Has(o On, t Target) bool {
	loops := o.Plan().Loops()
	return t.Loop < len(loops) && len(loops[t.Loop]) > 0
}

func (k slab) Near(o On, r *Reach) {
	if !r.Wants(rankSlab) {
		return
	}
	at := o.View.Plan(r.At)
	for i, l := range o.Plan().Loops() {
		if len(l) > 2 && plane.In(l.Rim(), at) {
			rank := rankHole
			if i == 0 {
				rank = rankSlab
			}
			r.Offer(rank, 0, 1, Target{Kind: k, Loop: i})
		}
	}
}

// Held implements held: the slab itself is moved with Ctrl only.
func (slab) Held(m *Machine, t Target) bool { return t.Loop > 0 || m.Mods.Ctrl }

// Anchor gives the corner nearest to where it was taken.
func (slab) Anchor(o On, t Target, from geometry.Point) geometry.Point {
	l := o.Plan().Loops()[t.Loop]
	best := l[0].At
	for _, e := range l {
		if geometry.Distance(e.At, from) < geometry.Distance(best, from) {
			best = e.At
		}
	}
	return best
}

func (k slab) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	if !k.Has(o, t) {
		return o.Job, t, errGone
	}
	p := o.Plan()
	if t.Loop == 0 {
		j, err := o.with(p.Translate(by), nil)
		return j, t, err
	}
	p = p.Clone()
	for i := range p.Holes[t.Loop-1].Loop {
		e := &p.Holes[t.Loop-1].Loop[i]
		e.At = e.At.Add(by)
	}
	j, err := o.with(p, nil)
	return j, t, err
}

// Remove removes a hole; a slab is removed by Machine.RemoveSlab.
func (slab) Remove(o On, t Target) (job.Job, error) {
	return o.less(plan.Thing{Kind: plan.KindHole, Loop: t.Loop})
}

func (k slab) Outline(m *Machine, o *Overlay, t Target, s Style) {
	if k.Has(m.on(), t) && s == Chosen {
		m.closed(o, m.Plan().Loops()[t.Loop].Corners(), s)
	}
}

// Clear implements cleared, of a hole.
func (slab) Clear(o On, t Target) geometry.Ring {
	if t.Loop == 0 {
		return nil
	}
	return o.Plan().Loops()[t.Loop].Corners()
}

// Describe gives the fields of a hole, or of the slab that is worked on.
func (k slab) Describe(m *Machine, t Target, s Sheet) {
	if t.Loop > 0 {
		s.Heading(title(k.Called(m.on(), t)))
		f := fieldsOf(m, s, "Name a hole", func(p *plan.Plan) *plan.Hole {
			if t.Loop > len(p.Holes) {
				return nil
			}
			return &p.Holes[t.Loop-1]
		})
		f.At("slabs[].holes[]").Rows("name")
		s.Explain("Its edges can have sections and walls of their own: click one.")
		s.Buttons(m.removal("Remove hole"))
		return
	}
	m.ofSlabs(s)
	m.ofSlab(s)
}

// ofSlab adds the fields of the slab that is worked on.
func (m *Machine) ofSlab(s Sheet) {
	d := m.Doc
	drawn := len(d.Plan().Outline) > 0
	switch {
	case drawn:
		s.Heading(d.Plan().Called(d.Slab()))
	case d.Blank():
		s.Heading("A blank sheet")
	default:
		s.Heading(d.Plan().Called(d.Slab()) + ": nothing drawn")
	}
	if !drawn {
		s.Explain("Draw the slab: choose Rectangle (R) or Outline (L) at the left, or start from sizes.")
		s.Buttons(m.page("Shapes by size…", Shapes), m.page("List of legs…", Legs))
	}
	f := fieldsOf(m, s, "Change the slab", func(p *plan.Plan) *plan.Plan { return p }).At("slabs[]")
	if !d.Blank() {
		f.Rows("name")
		if len(d.Job().Slabs) > 1 {
			f.Rows("height")
			if d.Job().Spec.Base.Insulated() {
				f.Rows("unheated")
			}
		}
	}
	f.Rows("field", "trench")
	m.ofTop(s)
	s.Buttons(m.page("Sections…", Sections), m.page("Shapes…", Shapes), m.page("Legs…", Legs))
	s.Buttons(m.page("Draw over a sketch…", Sketching), m.page("North, notes…", Surveying))
	if drawn {
		m.turning(s)
	}
}

// turning adds what mirrors and turns the slab.
func (m *Machine) turning(s Sheet) {
	center := func() geometry.Point {
		lo, hi := m.Doc.Plan().Outline.Rim().Bounds()
		return geometry.Point{X: lo.X/2 + hi.X/2, Y: lo.Y/2 + hi.Y/2}
	}
	s.Buttons(
		Do{"Flip left-right", func() error {
			m.Doc.CommitPlan("Mirror", m.Doc.Plan().Mirror(plan.AcrossX, center().X))
			return nil
		}},
		Do{"Flip up-down", func() error {
			m.Doc.CommitPlan("Mirror", m.Doc.Plan().Mirror(plan.AcrossY, center().Y))
			return nil
		}},
		Do{"Turn 90°", func() error {
			m.Doc.CommitPlan("Turn 90°", m.Doc.Plan().Rotate(center(), 90))
			m.Fit()
			return nil
		}},
	)
	turn := bind.Of(s, func() float64 { return 0 }, func(_ string, change func(*float64)) error {
		var by float64
		if change(&by); by != 0 {
			m.Doc.CommitPlan(fmt.Sprintf("Turn %g°", by), m.Doc.Plan().Rotate(center(), by))
		}
		return nil
	})
	turn.Degrees("Turn by, degrees", "counter-clockwise", func(v *float64) *float64 { return v })
}

// ofSlabs adds the short list of the job's slabs, with what is done to whole ones.
func (m *Machine) ofSlabs(s Sheet) {
	n := len(m.Doc.Job().Slabs)
	if n == 1 && m.Doc.Blank() {
		return
	}
	if n > 1 {
		s.Heading(fmt.Sprintf("%d slabs", n))
		for k := range n {
			s.Row(Row{
				Text: func() string {
					if all := m.Doc.Job().Slabs; k < len(all) {
						return all[k].Called(k)
					}
					return ""
				},
				Tap: func() {
					m.Choose(k)
					m.Selected = Target{Kind: Slab}
					m.changed()
				},
				On:     func() bool { return k == m.Doc.Slab() },
				Beside: func() string { return m.slabSize(k) },
			})
		}
	}
	s.Buttons(
		Do{"New slab", func() error { m.NewSlab(); return nil }},
		Do{"Copy", func() error { m.CopySlab(); return nil }},
		m.tool("Move…", func() State { return &MovePlan{} }),
		Do{"Remove", func() error { m.RemoveSlab(); return nil }},
	)
}

// slabSize gives the area of a slab as it was taken off, or its overall sizes where
// it could not be yet.
func (m *Machine) slabSize(k int) string {
	slabs, u := m.Doc.Job().Slabs, m.Units()
	if k >= len(slabs) || len(slabs[k].Outline) == 0 {
		return "nothing drawn"
	}
	if t, stale := m.Doc.Takeoff(); t != nil && !stale {
		if s, ok := t.Slab(k); ok {
			if u == geometry.Millimeters {
				return words.Quantity(s.Solid.Area, takeoff.SquareMeters)
			}
			foot := geometry.Foot.Meters()
			return words.Quantity(s.Solid.Area/(foot*foot), takeoff.SquareFeet)
		}
	}
	lo, hi := slabs[k].Outline.Rim().Bounds()
	return (hi.X - lo.X).Text(u) + " × " + (hi.Y - lo.Y).Text(u)
}

// NewSlab begins another slab.
func (m *Machine) NewSlab() {
	m.Doc.AddSlab()
	m.showSlab()
	m.Info = "A new slab: draw it with Rectangle (R) or Outline (L), beside the others or against them"
	m.changed()
}

// CopySlab puts a copy of the slab beside it.
func (m *Machine) CopySlab() {
	m.Doc.CopySlab()
	m.showSlab()
}

// RemoveSlab removes the slab that is worked on.
func (m *Machine) RemoveSlab() {
	name := m.Plan().Called(m.Doc.Slab())
	m.Doc.RemoveSlab()
	m.showSlab()
	m.Info = "Removed " + name + "; undo brings it back"
	m.changed()
}

// showSlab shows the slab that is worked on after it was begun, copied or removed.
func (m *Machine) showSlab() {
	m.Begin(&Select{})
	m.Deselect()
	if len(m.Doc.Plan().Outline) > 0 {
		m.Selected = Target{Kind: Slab}
	}
	m.Fit()
}
