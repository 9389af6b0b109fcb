package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// bolts lists the builder's bolt marks of one edge, as he would read them off: a
// line to type them all in, and a row for each.
func (p *editPanel) bolts(t hit.Target) {
	f, w := p.form, p.w
	get := func() plan.Edge {
		if !w.machine.Exists(t) {
			return plan.Edge{}
		}
		return p.loop(t.Loop)[t.Index]
	}
	put := func(label string, marks []plan.BoltMark) error {
		q, err := w.doc.Plan().SetBolts(t.Loop, t.Index, marks)
		return p.commit(label, q, err)
	}
	marks := get().Bolts
	if get().Wall == "" && len(marks) == 0 {
		return
	}
	f.heading("Builder's bolt marks")
	read := func(s string) ([]plan.BoltMark, error) {
		return boltMarks(s, p.units(), p.loop(t.Loop).Length(t.Index))
	}
	f.text("From the start", func() string { return boltText(get().Bolts, p.units()) }, func(s string) error {
		marks, err := read(s)
		if err != nil {
			return err
		}
		return put(fmt.Sprintf("%d bolt marks", len(marks)), marks)
	}, func(s string) (string, error) {
		marks, err := read(s)
		return boltText(marks, p.units()), err
	})
	for k := range marks {
		p.boltRow(hit.Target{Kind: hit.Bolt, Loop: t.Loop, Index: t.Index, Sub: k})
	}
	if len(marks) == 0 {
		f.note("None: the spacing of the specification holds. Type the builder's distances from the start corner, such as 1', 5'-6\", 11' H (H for a hold-down), or mark them on the plan.")
	}
	f.buttons(newButton("Mark on the plan", func() { w.use(&tool.PlaceBolt{}) }))
}

// boltText writes bolt marks in one line, as boltMarks reads them.
func boltText(marks []plan.BoltMark, u geometry.Units) string {
	words := make([]string, len(marks))
	for i, m := range marks {
		words[i] = lengthText(m.Along, u)
		if m.HoldDown {
			words[i] += " H"
		}
	}
	return strings.Join(words, ", ")
}

// boltMarks reads distances from an edge's start corner with commas between; H
// after one makes it a hold-down.
func boltMarks(s string, u geometry.Units, length geometry.Length) ([]plan.BoltMark, error) {
	var out []plan.BoltMark
	for _, part := range strings.Split(s, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		text, hold := strings.CutSuffix(strings.ToUpper(part), "H")
		if hold {
			part = part[:len(text)]
		}
		l, err := geometry.ParseLength(strings.TrimSpace(part), u.Foot())
		if err != nil {
			return nil, err
		}
		if l < 0 || l > length {
			return nil, fmt.Errorf("found %s on a wall of %s; a bolt stands on its wall", lengthText(l, u), length.Text(u))
		}
		if slices.ContainsFunc(out, func(m plan.BoltMark) bool { return m.Along == l }) {
			return nil, fmt.Errorf("found %s twice", lengthText(l, u))
		}
		out = append(out, plan.BoltMark{Along: l, HoldDown: hold})
	}
	return out, nil
}

// boltRow is one mark of the list: a click selects it.
func (p *editPanel) boltRow(t hit.Target) {
	w := p.w
	get := func() plan.BoltMark {
		if !w.machine.Exists(t) {
			return plan.BoltMark{}
		}
		return p.loop(t.Loop)[t.Index].Bolts[t.Sub]
	}
	b := newButton("", func() { w.selectThing(t) })
	b.Alignment, b.Importance = widget.ButtonAlignLeading, widget.LowImportance
	hold := newCheck("hold-down", nil)
	quiet := true
	show := func() {
		quiet = true
		if text := fmt.Sprintf("%d:  %s", t.Sub+1, lengthText(get().Along, p.units())); b.Text != text {
			b.SetText(text)
		}
		if hold.Checked != get().HoldDown {
			hold.SetChecked(get().HoldDown)
		}
		quiet = false
	}
	hold.OnChanged = func(v bool) {
		if quiet || !w.machine.Exists(t) {
			return
		}
		marks := slices.Clone(p.loop(t.Loop)[t.Index].Bolts)
		marks[t.Sub].HoldDown = v
		q, err := w.doc.Plan().SetBolts(t.Loop, t.Index, marks)
		p.report(p.commit("Mark a hold-down", q, err))
	}
	show()
	remove := newIconButton("", theme.DeleteIcon(), func() {
		if !w.machine.Exists(t) {
			return
		}
		marks := slices.Clone(p.loop(t.Loop)[t.Index].Bolts)
		q, err := w.doc.Plan().SetBolts(t.Loop, t.Index, slices.Delete(marks, t.Sub, t.Sub+1))
		p.report(p.commit("Remove a bolt mark", q, err))
	})
	remove.Importance = widget.LowImportance
	p.form.add(container.NewBorder(nil, nil, nil, container.NewHBox(hold, remove), b), show)
}

// bolt is the form of one bolt mark.
func (p *editPanel) bolt(t hit.Target) {
	f, w := p.form, p.w
	get := func() plan.BoltMark {
		if !w.machine.Exists(t) {
			return plan.BoltMark{}
		}
		return p.loop(t.Loop)[t.Index].Bolts[t.Sub]
	}
	length := func() geometry.Length { return p.loop(t.Loop).Length(t.Index) }
	put := func(m plan.BoltMark) error {
		if m.Along < 0 || m.Along > length() {
			return fmt.Errorf("found %s on a wall of %s; a bolt stands on its wall", lengthText(m.Along, p.units()), length().Text(p.units()))
		}
		marks := slices.Clone(p.loop(t.Loop)[t.Index].Bolts)
		marks[t.Sub] = m
		q, err := w.doc.Plan().SetBolts(t.Loop, t.Index, marks)
		if err == nil {
			// Marks stand in order: this one may have changed its number.
			w.machine.Selected.Sub = slices.Index(q.Loops()[t.Loop][t.Index].Bolts, m)
		}
		return p.commit("Change a bolt mark", q, err)
	}
	f.heading(fmt.Sprintf("Bolt mark %d on edge %d", t.Sub+1, t.Index+1))
	f.length("From start corner", p.units, func() geometry.Length { return get().Along }, func(l geometry.Length) error {
		m := get()
		m.Along = l
		return put(m)
	})
	f.length("To end corner", p.units, func() geometry.Length {
		if !w.machine.Exists(t) {
			return 0
		}
		return length() - get().Along
	}, func(l geometry.Length) error {
		m := get()
		m.Along = length() - l
		return put(m)
	})
	f.check("Hold-down", func() bool { return get().HoldDown }, func(v bool) {
		m := get()
		m.HoldDown = v
		p.report(put(m))
	})
	f.buttons(
		newButton("All of this edge", func() { w.selectThing(hit.Target{Kind: hit.Edge, Loop: t.Loop, Index: t.Index}) }),
		newButton("Remove", func() { w.machine.Key(tool.Delete, tool.Mods{}) }),
	)
}

// newBolts is the form of the marks about to be put.
func (p *editPanel) newBolts() {
	m := p.w.machine
	p.form.heading("Next bolt mark")
	p.form.check("Hold-down (Space)", func() bool { return m.NewBolt.HoldDown }, func(v bool) { m.NewBolt.HoldDown = v })
	p.form.note("Click on a wall, to the inch; Shift for sixteenths. Or type distances from the marked corner, with commas: 1', 5'-6\", 9'-11 3/16\". Tab takes the other corner. Where a wall has marks, all its bolts are the builder's; hold-downs come on top.")
}
