package window

import (
	"fmt"
	"strconv"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func (p *editPanel) pad(t hit.Target) {
	get := func() plan.Pad {
		if !p.w.machine.Exists(t) {
			return plan.Pad{}
		}
		return p.w.doc.Plan().Pads[t.Index]
	}
	put := func(v plan.Pad) error { return p.change("Change a pad", func(q *plan.Plan) { q.Pads[t.Index] = v }) }
	p.form.heading(fmt.Sprintf("Pad %d", t.Index+1))
	p.form.text("Name", func() string { return get().Name }, func(s string) error {
		v := get()
		v.Name = s
		return put(v)
	}, nil)
	p.padFields(get, put)
	p.form.text("Turned, degrees", func() string { return strconv.FormatFloat(get().Turn, 'g', -1, 64) }, func(s string) error {
		d, err := degrees(s)
		v := get()
		v.Turn = d
		if err != nil {
			return err
		}
		return put(v)
	}, nil)
	p.place(func() geometry.Point { return get().Center }, func(c geometry.Point) error {
		v := get()
		v.Center = c
		return put(v)
	})
	p.form.buttons(newButton("Remove pad", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

func (p *editPanel) padFields(get func() plan.Pad, put func(plan.Pad) error) {
	for _, fl := range []struct {
		label string
		at    func(*plan.Pad) *geometry.Length
	}{
		{"Width (x)", func(v *plan.Pad) *geometry.Length { return &v.Width }},
		{"Length (y)", func(v *plan.Pad) *geometry.Length { return &v.Length }},
		{"Depth from top", func(v *plan.Pad) *geometry.Length { return &v.Depth }},
		{"Taper of sides", func(v *plan.Pad) *geometry.Length { return &v.Taper }},
	} {
		p.form.length(fl.label, p.units, func() geometry.Length { v := get(); return *fl.at(&v) }, func(l geometry.Length) error {
			v := get()
			*fl.at(&v) = l
			return put(v)
		})
	}
}

func (p *editPanel) newPad() {
	m := p.w.machine
	p.form.heading("Next pad")
	p.padFields(func() plan.Pad { return m.NewPad }, func(v plan.Pad) error { m.NewPad = v; return nil })
	p.form.note("Click its middle on the plan.")
}

func (p *editPanel) strip(t hit.Target) {
	get := func() plan.Strip {
		if !p.w.machine.Exists(t) {
			return plan.Strip{}
		}
		return p.w.doc.Plan().Strips[t.Index]
	}
	put := func(v plan.Strip) error {
		return p.change("Change a thickened strip", func(q *plan.Plan) { q.Strips[t.Index] = v })
	}
	p.form.heading(fmt.Sprintf("Thickened strip %d", t.Index+1))
	p.form.text("Name", func() string { return get().Name }, func(s string) error {
		v := get()
		v.Name = s
		return put(v)
	}, nil)
	p.stripFields(get, put)
	p.form.buttons(newButton("Remove thickened strip", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

func (p *editPanel) stripFields(get func() plan.Strip, put func(plan.Strip) error) {
	for _, fl := range []struct {
		label string
		at    func(*plan.Strip) *geometry.Length
	}{
		{"Flat width", func(v *plan.Strip) *geometry.Length { return &v.Bottom }},
		{"Depth from top", func(v *plan.Strip) *geometry.Length { return &v.Depth }},
		{"Taper of sides", func(v *plan.Strip) *geometry.Length { return &v.Taper }},
	} {
		p.form.length(fl.label, p.units, func() geometry.Length { v := get(); return *fl.at(&v) }, func(l geometry.Length) error {
			v := get()
			*fl.at(&v) = l
			return put(v)
		})
	}
}

func (p *editPanel) newStrip() {
	m := p.w.machine
	p.form.heading("Next thickened strip")
	p.stripFields(func() plan.Strip { return m.NewBand }, func(v plan.Strip) error { m.NewBand = v; return nil })
	p.form.note("Click its line point by point; Enter finishes it.")
}

func (p *editPanel) fall(t hit.Target) {
	get := func() plan.Fall {
		if !p.w.machine.Exists(t) {
			return plan.Fall{}
		}
		return p.w.doc.Plan().Top.Falls[t.Index]
	}
	p.form.heading(fmt.Sprintf("Fall %d of the top", t.Index+1))
	p.form.length("Drop", p.units, func() geometry.Length { return get().Drop }, func(l geometry.Length) error {
		return p.change("Change a fall", func(q *plan.Plan) { q.Top.Falls[t.Index].Drop = l })
	})
	p.meet()
	p.form.buttons(newButton("Remove fall", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// meet is how falls meet and how the ground is cut under them.
func (p *editPanel) meet() {
	p.form.choice("Falls meet in a", func() []string { return []string{"valley", "ridge"} },
		func() string { return p.w.doc.Plan().Top.Meet.String() },
		func(v string) {
			p.report(p.change("Falls meet in a "+v, func(q *plan.Plan) { _ = q.Top.Meet.UnmarshalText([]byte(v)) }))
		})
	p.form.choice("Ground under it", func() []string { return []string{"graded", "level"} },
		func() string { return p.w.doc.Plan().Base.String() },
		func(v string) {
			p.report(p.change("Ground "+v, func(q *plan.Plan) { _ = q.Base.UnmarshalText([]byte(v)) }))
		})
}

func (p *editPanel) hole(t hit.Target) {
	p.form.heading(fmt.Sprintf("Hole %d", t.Loop))
	p.form.text("Name", func() string {
		if !p.w.machine.Exists(t) {
			return ""
		}
		return p.w.doc.Plan().Holes[t.Loop-1].Name
	}, func(s string) error {
		return p.change("Name a hole", func(q *plan.Plan) { q.Holes[t.Loop-1].Name = s })
	}, nil)
	p.form.note("Its edges can have sections and walls of their own: click one.")
	p.form.buttons(newButton("Remove hole", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}
