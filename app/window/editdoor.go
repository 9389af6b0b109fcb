package window

import (
	"errors"
	"fmt"

	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func (p *editPanel) door(t hit.Target) {
	f := p.form
	get := func() plan.Door {
		if !p.w.machine.Exists(t) {
			return plan.Door{}
		}
		return p.loop(t.Loop)[t.Index].Doors[t.Sub]
	}
	put := func(d plan.Door) error {
		q, err := p.w.doc.Plan().SetDoor(t.Loop, t.Index, t.Sub, d)
		return p.commit("Change a door", q, err)
	}
	f.heading(fmt.Sprintf("Door on edge %d", t.Index+1))
	f.text("Name", func() string { return get().Name }, func(s string) error {
		d := get()
		d.Name = s
		return put(d)
	}, nil)
	p.doorFields(get, put)
	f.length("From start corner", p.units, func() geometry.Length { return get().From }, func(l geometry.Length) error {
		d := get()
		d.From = l
		return put(d)
	})
	f.length("To end corner", p.units, func() geometry.Length {
		if !p.w.machine.Exists(t) {
			return 0
		}
		return p.loop(t.Loop).Length(t.Index) - get().From - get().Width
	}, func(l geometry.Length) error {
		d := get()
		d.From = p.loop(t.Loop).Length(t.Index) - d.Width - l
		return put(d)
	})
	f.buttons(newButton("Remove door", func() { p.w.machine.Key(tool.Delete, tool.Mods{}) }))
}

// doorFields are the fields of a door wherever it is placed.
func (p *editPanel) doorFields(get func() plan.Door, put func(plan.Door) error) {
	f := p.form
	f.choice("For", func() []string { return []string{"overhead", "walk"} }, func() string { return get().Kind.String() }, func(v string) {
		d := get()
		if d.Kind.UnmarshalText([]byte(v)) == nil {
			p.report(put(d))
		}
	})
	f.length("Rough opening", p.units, func() geometry.Length { return get().Width }, func(l geometry.Length) error {
		d := get()
		d.Width = l
		return put(d)
	})
	f.choice("Section under it", func() []string {
		names := p.sectionNames()
		names[0] = "the edge's own"
		return names
	}, func() string {
		if s := get().Section; s != "" {
			return s
		}
		return "the edge's own"
	}, func(v string) {
		d := get()
		d.Section = v
		if v == "the edge's own" {
			d.Section = ""
		}
		p.report(put(d))
	})
	f.length("Run-out", p.units, func() geometry.Length { return get().RunOut }, func(l geometry.Length) error {
		d := get()
		d.RunOut = l
		return put(d)
	})
	f.length("Lip reaches in", p.units, func() geometry.Length { return get().Lip.Inset }, func(l geometry.Length) error {
		d := get()
		d.Lip.Inset = l
		return put(d)
	})
	f.length("Lip drops", p.units, func() geometry.Length { return get().Lip.Drop }, func(l geometry.Length) error {
		d := get()
		d.Lip.Drop = l
		return put(d)
	})
}

func (p *editPanel) newDoor() {
	p.form.heading("Next door")
	m := p.w.machine
	p.doorFields(func() plan.Door { return m.NewDoor }, func(d plan.Door) error {
		if d.Width <= 0 {
			return errors.New("a door must be wider than 0")
		}
		m.NewDoor = d
		return nil
	})
	p.form.note("Point at an edge and click, or type the distance from the marked corner and press Enter. A comma and a second length set the width: 4', 9'")
}
