package window

import (
	"encoding"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook/app/takeoff"
	"haunchbook/geometry"
)

// specPanel is the specification as plain forms, one field for each value, made
// from the specification's own types so that none is forgotten.
type specPanel struct {
	w      *Window
	form   *form
	scroll *container.Scroll
}

func newSpecPanel(w *Window) *specPanel {
	p := &specPanel{w: w}
	p.scroll = container.NewVScroll(container.NewVBox())
	p.rebuild()
	return p
}

func (p *specPanel) rebuild() {
	p.form = newForm()
	p.fields(reflect.TypeFor[takeoff.Spec](), nil, "")
	p.form.buttons(widget.NewButton("Back to the usual values", func() {
		j := p.w.doc.Job()
		j.Spec = takeoff.Default()
		p.w.doc.Commit("Usual specification", j)
		p.rebuild()
	}))
	p.scroll.Content = container.NewPadded(p.form.box)
	p.scroll.Refresh()
}

func (p *specPanel) show() { p.form.sync() }

var (
	lengthType = reflect.TypeFor[geometry.Length]()
	textReader = reflect.TypeFor[encoding.TextUnmarshaler]()
	textWriter = reflect.TypeFor[encoding.TextMarshaler]()
)

// fields adds the fields of a struct reached by a chain of indices.
func (p *specPanel) fields(t reflect.Type, path []int, prefix string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue
		}
		at := append(append([]int{}, path...), i)
		name := prefix + f.Name
		label := labelOf(name)
		switch {
		case f.Type == lengthType:
			p.form.length(label, p.w.doc.Units, func() geometry.Length { return geometry.Length(p.value(at).Int()) }, func(l geometry.Length) error {
				return p.put(label, at, reflect.ValueOf(l))
			})
		case reflect.PointerTo(f.Type).Implements(textReader) && f.Type.Implements(textWriter):
			p.written(label, f.Type, at)
		case f.Type.Kind() == reflect.Struct:
			if len(path) < 1 {
				p.form.heading(label)
			} else {
				p.form.heading("– " + label)
			}
			p.fields(f.Type, at, name+".")
		case f.Type == reflect.TypeFor[[]geometry.Length]():
			p.lengths(label, at)
		case f.Type.Kind() == reflect.Bool:
			p.form.check(label, func() bool { return p.value(at).Bool() }, func(v bool) { p.say(p.put(label, at, reflect.ValueOf(v))) })
		case f.Type.Kind() == reflect.String:
			p.form.text(label, func() string { return p.value(at).String() }, func(s string) error {
				return p.put(label, at, reflect.ValueOf(s).Convert(f.Type))
			}, nil)
		case f.Type.Kind() == reflect.Int:
			p.form.text(label, func() string { return strconv.FormatInt(p.value(at).Int(), 10) }, func(s string) error {
				n, err := strconv.Atoi(strings.TrimSpace(s))
				if err != nil || n < 0 {
					return fmt.Errorf("found %q; write a whole number", s)
				}
				return p.put(label, at, reflect.ValueOf(n).Convert(f.Type))
			}, nil)
		case f.Type.Kind() == reflect.Float64:
			p.form.text(label, func() string { return strconv.FormatFloat(p.value(at).Float(), 'g', -1, 64) }, func(s string) error {
				n, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
				if err != nil || n < 0 || n > 1e6 {
					return fmt.Errorf("found %q; write a number", s)
				}
				return p.put(label, at, reflect.ValueOf(n).Convert(f.Type))
			}, nil)
		}
	}
}

func (p *specPanel) say(err error) {
	if err != nil {
		p.w.say(err.Error())
	}
}

// value gives the present value of a field.
func (p *specPanel) value(at []int) reflect.Value {
	return reflect.ValueOf(p.w.doc.Job().Spec).FieldByIndex(at)
}

// put sets a field, unless the job would then have a fault it has not now.
func (p *specPanel) put(label string, at []int, v reflect.Value) error {
	j := p.w.doc.Job()
	reflect.ValueOf(&j.Spec).Elem().FieldByIndex(at).Set(v)
	before := map[string]bool{}
	for _, f := range p.w.doc.Faults() {
		before[f.Error()] = true
	}
	for _, f := range j.Validate() {
		if !before[f.Error()] {
			return fmt.Errorf("found %s; %s", f.Found, f.Want)
		}
	}
	p.w.doc.Commit("Set "+strings.ToLower(label[:1])+label[1:], j)
	return nil
}

// written adds a field of a type that reads and writes itself as text: a list
// where its error names the choices, else an entry.
func (p *specPanel) written(label string, t reflect.Type, at []int) {
	get := func() string {
		b, err := p.value(at).Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			return ""
		}
		return string(b)
	}
	set := func(s string) error {
		v := reflect.New(t)
		if err := v.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(strings.TrimSpace(s))); err != nil {
			return fmt.Errorf("found %q; %w", s, plainer(err))
		}
		return p.put(label, at, v.Elem())
	}
	if options := choices(t); len(options) > 1 {
		p.form.choice(label, func() []string { return options }, get, func(v string) { p.say(set(v)) })
		return
	}
	p.form.text(label, get, set, nil)
}

// plainer replaces the decimal library's words by ours.
func plainer(err error) error {
	if strings.Contains(err.Error(), "decimal") {
		return fmt.Errorf("write a number such as 7.5")
	}
	return err
}

// choices gives what a small enumeration takes: every value that writes as text
// and reads back as itself.
func choices(t reflect.Type) []string {
	if t.Kind() != reflect.Uint8 {
		return nil
	}
	var out []string
	for i := range 32 {
		s, ok := enumText(t, uint64(i))
		if !ok {
			break
		}
		back := reflect.New(t)
		if back.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(s)) != nil || back.Elem().Uint() != uint64(i) {
			break
		}
		out = append(out, s)
	}
	return out
}

// enumText writes value i of an enumeration; false past its last.
func enumText(t reflect.Type, i uint64) (s string, ok bool) {
	defer func() {
		if recover() != nil { // past the end of its table of names
			s, ok = "", false
		}
	}()
	v := reflect.New(t).Elem()
	v.SetUint(i)
	b, err := v.Interface().(encoding.TextMarshaler).MarshalText()
	return string(b), err == nil && len(b) > 0
}

// lengths adds a field for a list of lengths with commas.
func (p *specPanel) lengths(label string, at []int) {
	read := func(s string) ([]geometry.Length, error) {
		var out []geometry.Length
		for _, part := range strings.Split(s, ",") {
			if strings.TrimSpace(part) == "" {
				continue
			}
			l, err := geometry.ParseLength(part, p.w.doc.Units())
			if err != nil {
				return nil, err
			}
			out = append(out, l)
		}
		return out, nil
	}
	write := func(ls []geometry.Length) string {
		var parts []string
		for _, l := range ls {
			parts = append(parts, lengthText(l, p.w.doc.Units()))
		}
		return strings.Join(parts, ", ")
	}
	p.form.text(label, func() string { return write(p.value(at).Interface().([]geometry.Length)) }, func(s string) error {
		ls, err := read(s)
		if err != nil {
			return err
		}
		return p.put(label, at, reflect.ValueOf(ls))
	}, func(s string) (string, error) {
		ls, err := read(s)
		return write(ls), err
	})
}

// labels says what the fields mean, with their units; fields not here are named
// as in the job file.
var labels = map[string]string{
	"Mix": "Concrete mix", "Mix.Strength": "Strength, psi", "Mix.Slump": "Slump", "Mix.Aggregate": "Aggregate, largest",
	"Mix.Air": "Air, % (0: none)", "Mix.Fiber": "Fiber, lb/yd³", "Mix.Reducer": "Water reducer (ASTM C494)", "Mix.Notes": "Notes for the plant",
	"Order": "Ordering", "Order.Waste": "Waste, %", "Order.Step": "Plant's step", "Order.Truck": "Truck carries",
	"Under": "Under the slab", "Under.Gravel": "Gravel, compacted", "Under.Compaction": "Compaction factor", "Under.Density": "Gravel, ton/yd³ loose",
	"Under.Foam": "Foam thickness", "Under.Retarder": "Vapor retarder, mil", "Under.Lap": "Retarder lap",
	"Place": "What is placed", "Place.Bars": "Edge bars", "Place.Bars.Size": "Bar number", "Place.Bars.Grade": "Grade, ksi", "Place.Bars.Coated": "Epoxy-coated",
	"Place.Bars.Lap": "Lap", "Place.Bars.Lap.Rule": "Lap rule", "Place.Bars.Lap.Length": "Lap by length", "Place.Bars.Corner": "At corners",
	"Place.Bars.Stock": "Stock lengths", "Place.Bars.Yard": "Offcuts on hand", "Place.Bars.Joint": "Along the joint",
	"Place.Field": "Field steel", "Place.Dowels": "Dowels", "Place.Dowels.Size": "Bar number", "Place.Dowels.Length": "Length", "Place.Dowels.Embed": "In the old slab",
	"Place.Dowels.Spacing": "Spacing", "Place.Dowels.End": "Clear of ends", "Place.Dowels.OldSlab": "Old slab thickness", "Place.Dowels.Clearance": "Hole over bar",
	"Place.Bolts": "Anchor bolts", "Place.Bolts.Diameter": "Diameter", "Place.Bolts.Shape": "Lower end", "Place.Bolts.Hook": "Hook, shaft to tip", "Place.Bolts.Length": "Bolt length", "Place.Bolts.Projection": "Sticks up", "Place.Bolts.Embed": "In concrete, least",
	"Place.Bolts.Spacing": "Spacing, at most", "Place.Bolts.EndMax": "From plate end, most", "Place.Bolts.EndMin": "From plate end, least", "Place.Bolts.Stock": "Plate stock length",
	"Place.Bolts.Stud": "Studs to keep clear of", "Place.Forms": "Forms", "Place.Forms.Stock": "Board lengths", "Place.Forms.Stakes": "Stakes apart, most", "Place.Forms.Kickers": "Kickers apart, most",
	"Place.Joints": "Saw cuts", "Place.Joints.Ratio": "Spacing ÷ thickness",
}

func labelOf(name string) string {
	if l, ok := labels[name]; ok {
		return l
	}
	name = name[strings.LastIndex(name, ".")+1:]
	var b strings.Builder
	for i, r := range name {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte(' ')
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}
