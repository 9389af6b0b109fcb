package tool

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/plan"
)

type bolt struct{ none }

// Bolt is the kind of the bolt marks that the builder gave.
var Bolt Kind = bolt{}

func (bolt) Called(On, Target) string { return "a bolt mark" }

func (bolt) Help(Target) string { return "Drag it; type its distance; Space: hold-down; Delete" }

func (bolt) Typed() planview.MeasureKind { return planview.BoltFrom }

// boltOf gives the mark of a target; nil where it is gone.
func boltOf(p *plan.Plan, t Target) *plan.BoltMark {
	e := edgeOf(p, t)
	if e == nil || t.Sub < 0 || t.Sub >= len(e.Bolts) {
		return nil
	}
	return &e.Bolts[t.Sub]
}

func (bolt) Has(o On, t Target) bool { p := o.Plan(); return boltOf(&p, t) != nil }

func (k bolt) Near(o On, r *Reach) {
	if !r.Wants(rankBolt) {
		return
	}
	for i, l := range o.Plan().Loops() {
		for n, e := range l {
			for s, mark := range e.Bolts {
				if face, inner, ok := l.BoltLine(n, mark.Along); ok {
					r.Offer(rankBolt, r.segment(o, face, inner), edgeReach, Target{Kind: k, Loop: i, Index: n, Sub: s})
				}
			}
		}
	}
}

// marked gives the plan with other marks on the edge of a target, and the number that
// the target has among them: marks stand in order, so that one that passes another
// changes places with it.
func marked(p plan.Plan, t Target, change func(marks []plan.BoltMark) []plan.BoltMark) (plan.Plan, Target, error) {
	if boltOf(&p, t) == nil {
		return p, t, errGone
	}
	marks := change(slices.Clone(edgeOf(&p, t).Bolts))
	q, err := p.SetBolts(t.Loop, t.Index, marks)
	if err == nil && t.Sub < len(marks) {
		t.Sub = max(0, slices.Index(edgeOf(&q, t).Bolts, marks[t.Sub]))
	}
	return q, t, err
}

// slid gives the plan with a mark so far along its edge, as far as the edge goes.
func slid(p plan.Plan, t Target, along geometry.Length) (plan.Plan, Target, error) {
	return marked(p, t, func(marks []plan.BoltMark) []plan.BoltMark {
		marks[t.Sub].Along = max(0, min(along, lengthOf(p, t)))
		return marks
	})
}

func (bolt) Move(o On, t Target, by geometry.Point) (job.Job, Target, error) {
	p := o.Plan()
	at := boltOf(&p, t)
	if at == nil {
		return o.Job, t, errGone
	}
	a, b := p.Loops()[t.Loop].Ends(t.Index)
	q, is, err := slid(p, t, at.Along+plan.Foot(a, b, a.Add(by)))
	j, err := o.with(q, err)
	return j, is, err
}

func (bolt) Remove(o On, t Target) (job.Job, error) {
	q, _, err := marked(o.Plan(), t, func(marks []plan.BoltMark) []plan.BoltMark { return slices.Delete(marks, t.Sub, t.Sub+1) })
	return o.with(q, err)
}

func (bolt) Outline(m *Machine, o *Overlay, t Target, s Style) {
	p := m.Plan()
	at := boltOf(&p, t)
	if at == nil {
		return
	}
	if face, inner, ok := p.Loops()[t.Loop].BoltLine(t.Index, at.Along); ok {
		o.line(m, face, inner, s)
		o.ring(m, face, 6, s)
	}
}

// Drag slides a mark along its wall.
func (bolt) Drag(m *Machine, d *Drag) (job.Job, Target, error) {
	o, t := m.base(), d.target
	p := o.Plan()
	a, b := p.Loops()[t.Loop].Ends(t.Index)
	if a == b {
		return o.Job, t, nil
	}
	along := m.roundOn(a, b, lengthOf(p, t), plan.Foot(a, b, m.View.Plan(m.Pointer)), false)
	q, is, err := slid(p, t, along)
	j, err := o.with(q, err)
	return j, is, err
}

func (bolt) Beside(m *Machine, t Target) string {
	p := m.Plan()
	at := boltOf(&p, t)
	if at == nil {
		return ""
	}
	return fromCorners(m, at.Along, lengthOf(p, t)-at.Along)
}

// Space makes a mark a hold-down or an anchor bolt.
func (bolt) Space(m *Machine, t Target) {
	hold := false
	p, is, err := marked(m.Plan(), t, func(marks []plan.BoltMark) []plan.BoltMark {
		hold = !marks[t.Sub].HoldDown
		marks[t.Sub].HoldDown = hold
		return marks
	})
	if m.commit("Make it "+aBolt(hold), p, err) {
		m.Selected = is
	}
}

// boltFields gives the fields of one mark.
func (m *Machine) boltFields(t Target, s bind.Holder) bind.Fields[plan.BoltMark] {
	return bind.Of(s, func() (b plan.BoltMark) {
		p := m.Plan()
		if at := boltOf(&p, t); at != nil {
			b = *at
		}
		return b
	}, func(_ string, change func(*plan.BoltMark)) error {
		p, is, err := marked(m.Plan(), t, func(marks []plan.BoltMark) []plan.BoltMark { change(&marks[t.Sub]); return marks })
		if err != nil {
			return err
		}
		if err := m.onWall(t, boltOf(&p, is).Along); err != nil {
			return err
		}
		if m.Selected.On(t) {
			m.Selected = is
		}
		m.Doc.CommitPlan("Change a bolt mark", p)
		return nil
	}).At("slabs[].outline[].bolts[]")
}

// onWall refuses a place beyond the wall of an edge.
func (m *Machine) onWall(t Target, along geometry.Length) error {
	if length := lengthOf(m.Plan(), t); along < 0 || along > length {
		return fmt.Errorf("found %s on a wall of %s; a bolt stands on its wall", along.Full(m.Units()), length.Text(m.Units()))
	}
	return nil
}

// Describe gives the fields of one mark.
func (bolt) Describe(m *Machine, t Target, s Sheet) {
	s.Heading(fmt.Sprintf("Bolt mark %d on %s", t.Sub+1, edgeName(t)))
	f := m.boltFields(t, s)
	f.Rows("along")
	bind.Length(s, field.ToEnd.Label, func() geometry.Length { return lengthOf(m.Plan(), t) - f.Get().Along }, func(l geometry.Length) error {
		return f.Put("Place", func(b *plan.BoltMark) { b.Along = lengthOf(m.Plan(), t) - l })
	})
	f.Rows("holddown")
	s.Buttons(
		Do{"All of this edge", func() error { m.Take(Target{Kind: Edge, Loop: t.Loop, Index: t.Index}); return nil }},
		m.removal("Remove"),
	)
}

// boltsOf lists the marks of one edge, as the builder would read them off: a line to
// type them all in, and a row for each.
func (m *Machine) boltsOf(t Target, s Sheet) {
	edge := func() (e plan.Edge) {
		p := m.Plan()
		if at := edgeOf(&p, t); at != nil {
			e = *at
		}
		return e
	}
	marks := edge().Bolts
	if edge().Wall == "" && len(marks) == 0 {
		return
	}
	s.Heading("Builder's bolt marks")
	s.Text("From the start", listed(m.Units, func() []plan.BoltMark { return edge().Bolts }, func(marks []plan.BoltMark) error {
		p, err := m.Plan().SetBolts(t.Loop, t.Index, marks)
		if err == nil {
			m.Doc.CommitPlan(fmt.Sprintf("%d bolt marks", len(marks)), p)
		}
		return err
	}, boltText, func(text string) ([]plan.BoltMark, error) {
		return readBolts(text, m.Units(), func(along geometry.Length) error { return m.onWall(t, along) })
	}))
	for k := range marks {
		at := Target{Kind: Bolt, Loop: t.Loop, Index: t.Index, Sub: k}
		f := m.boltFields(at, s)
		s.Row(Row{
			Text:   func() string { return fmt.Sprintf("%d:  %s", k+1, f.Get().Along.Full(m.Units())) },
			Tap:    func() { m.Take(at) },
			Tick:   "hold-down",
			Ticked: func() bool { return f.Get().HoldDown },
			SetTo: func(v bool) error {
				return f.Put("Kind", func(b *plan.BoltMark) { b.HoldDown = v })
			},
			Remove: func() error {
				j, err := Bolt.Remove(m.base(), at)
				if err == nil {
					m.Doc.Commit("Remove a bolt mark", j)
				}
				return err
			},
		})
	}
	if len(marks) == 0 {
		s.Explain("None: the spacing of the specification holds. Type the builder's distances from the start corner, such as 1', 5'-6\", 11' H (H for a hold-down), or mark them on the plan.")
	}
	s.Buttons(m.tool("Mark on the plan", func() State { return &PlaceBolt{} }))
}

// boltText writes bolt marks in one line, as readBolts reads them.
func boltText(marks []plan.BoltMark, u geometry.Units) string {
	texts := make([]string, len(marks))
	for i, b := range marks {
		texts[i] = b.Along.Full(u)
		if b.HoldDown {
			texts[i] += " H"
		}
	}
	return strings.Join(texts, ", ")
}

// readBolts reads distances from a wall's start with commas between, each of which onWall
// may refuse; H after one makes it a hold-down.
func readBolts(text string, u geometry.Units, onWall func(geometry.Length) error) ([]plan.BoltMark, error) {
	var out []plan.BoltMark
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		bare, hold := strings.CutSuffix(strings.ToUpper(part), "H")
		if hold {
			part = part[:len(bare)]
		}
		l, err := field.Feet.ParseLength(strings.TrimSpace(part), u)
		if err == nil {
			err = onWall(l)
		}
		if err == nil && slices.ContainsFunc(out, func(b plan.BoltMark) bool { return b.Along == l }) {
			err = fmt.Errorf("found %s twice", l.Full(u))
		}
		if err != nil {
			return nil, err
		}
		out = append(out, plan.BoltMark{Along: l, HoldDown: hold})
	}
	return out, nil
}
