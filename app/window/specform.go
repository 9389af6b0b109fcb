package window

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/container"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// specPanel is the specification as plain forms, one field for each value, made
// from the specification's own types so that none is forgotten.
type specPanel struct {
	w      *Window
	form   *form
	scroll *container.Scroll
	bars   int // how many bars the form has fields for
}

func newSpecPanel(w *Window) *specPanel {
	return &specPanel{w: w, scroll: container.NewVScroll(container.NewVBox())}
}

// forget has the form made anew when it is shown next, for another job.
func (p *specPanel) forget() { p.form = nil }

func (p *specPanel) rebuild() {
	refocus := p.w.keepFocus(p.scroll)
	p.form = newForm()
	p.fields(reflect.TypeFor[takeoff.Spec](), nil, "")
	p.form.buttons(newButton("Back to the usual values", func() {
		p.say(p.w.change("Usual specification", func(j *job.Job) { j.Spec = job.New().In(j.Units).Spec }))
		p.rebuild()
	}))
	p.scroll.Content = container.NewPadded(p.form.box)
	p.scroll.Refresh()
	refocus(p.scroll)
}

func (p *specPanel) show() {
	if p.form == nil || len(p.w.doc.Job().Spec.Place.Bars.Rows) != p.bars {
		p.rebuild()
		return
	}
	p.form.sync()
}

var (
	lengthType = reflect.TypeFor[geometry.Length]()
	textReader = reflect.TypeFor[encoding.TextUnmarshaler]()
	textWriter = reflect.TypeFor[encoding.TextMarshaler]()
)

// fields adds the fields of a struct reached by a chain of indices.
func (p *specPanel) fields(t reflect.Type, path []int, prefix string) {
	last := func() {}
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() || f.Tag.Get("json") == "-" {
			continue // no field of the job file
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
		case f.Type == reflect.TypeFor[[]bars.Row]():
			last = p.rows // has headings of its own
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
				n, err := whole(s)
				if err != nil {
					return err
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
	last()
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
	return p.w.change("Set "+strings.ToLower(label[:1])+label[1:], func(j *job.Job) {
		reflect.ValueOf(&j.Spec).Elem().FieldByIndex(at).Set(v)
	})
}

// rows adds the continuous bars of the edges, one after the other.
func (p *specPanel) rows() {
	f, w := p.form, p.w
	rows := func() []bars.Row { return w.doc.Job().Spec.Place.Bars.Rows }
	p.bars = len(rows())
	for i := range p.bars {
		name := fmt.Sprintf("Bar %d round the edge", i+1)
		get := func() bars.Row {
			if i < len(rows()) {
				return rows()[i]
			}
			return bars.Row{}
		}
		put := func(what string, change func(*bars.Row)) error {
			return w.change(fmt.Sprintf("%s of edge bar %d", what, i+1), func(j *job.Job) {
				if i < len(j.Spec.Place.Bars.Rows) {
					j.Spec.Place.Bars.Rows = slices.Clone(j.Spec.Place.Bars.Rows)
					change(&j.Spec.Place.Bars.Rows[i])
				}
			})
		}
		f.heading("– " + name)
		f.length("Clear of the face", w.doc.Units, func() geometry.Length { return get().Face }, func(l geometry.Length) error {
			return put("Cover to the face", func(r *bars.Row) { r.Face = l })
		})
		// One of the two rules; the other is 0.
		const low, high = "the underside", "the top"
		f.choice("Measured from", func() []string { return []string{low, high} }, func() string {
			if get().Top > 0 {
				return high
			}
			return low
		}, func(v string) {
			p.say(put("Side", func(r *bars.Row) {
				cover := max(r.Bottom, r.Top)
				r.Bottom, r.Top = cover, 0
				if v == high {
					r.Bottom, r.Top = 0, cover
				}
			}))
		})
		f.length("Clear of that", w.doc.Units, func() geometry.Length { return max(get().Bottom, get().Top) }, func(l geometry.Length) error {
			return put("Cover", func(r *bars.Row) {
				if r.Top > 0 {
					r.Top = l
				} else {
					r.Bottom = l
				}
			})
		})
		f.text("Bar no. (0: same)", func() string { return strconv.Itoa(get().Size) }, func(s string) error {
			n, err := whole(s)
			if err != nil {
				return err
			}
			return put("Bar number", func(r *bars.Row) { r.Size = n })
		}, nil)
		f.buttons(newButton("Remove this bar", func() {
			p.say(w.change("Remove an edge bar", func(j *job.Job) {
				if i < len(j.Spec.Place.Bars.Rows) {
					j.Spec.Place.Bars.Rows = slices.Delete(slices.Clone(j.Spec.Place.Bars.Rows), i, i+1)
				}
			}))
		}))
	}
	if p.bars == 0 {
		f.note("No bars round the edge.")
	}
	f.buttons(newButton("Add a bar round the edge", func() {
		p.say(w.change("Add an edge bar", func(j *job.Job) {
			r := bars.Row{Face: 3 * geometry.Inch, Bottom: 3 * geometry.Inch} // cover against earth
			if n := len(j.Spec.Place.Bars.Rows); n > 0 {
				last := j.Spec.Place.Bars.Rows[n-1]
				r.Face, r.Size = last.Face, last.Size
			}
			j.Spec.Place.Bars.Rows = append(slices.Clone(j.Spec.Place.Bars.Rows), r)
		}))
	}))
}

// whole reads a whole number that is not negative.
func whole(s string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < 0 {
		return 0, fmt.Errorf("found %q; write a whole number", s)
	}
	return n, nil
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
			l, err := geometry.ParseLength(part, p.w.doc.Units().Foot())
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
	"Order": "Ordering", "Order.Waste": "Waste, %", "Order.Step": "Plant's step", "Order.Truck": "Truck carries", "Order.Loads": "Loads",
	"Base": "Under the slab", "Base.Under": "Base and foam lie", "Base.Above": "Top above ground", "Base.Gravel": "Gravel, compacted", "Base.Compaction": "Compaction factor", "Base.Density": "Gravel, ton/yd³",
	"Base.Foam": "Foam thickness", "Base.FoamWidth": "Foam sheet width", "Base.FoamLength": "Foam sheet length", "Base.Retarder": "Retarder, mil", "Base.Lap": "Retarder lap",
	"Base.TurnUp": "Retarder turn-up", "Base.RollWidth": "Retarder roll width", "Base.RollLength": "Retarder roll length",
	"Place": "What is placed", "Place.Bars": "Edge bars", "Place.Bars.Size": "Bar number", "Place.Bars.Grade": "Grade, ksi", "Place.Bars.Coated": "Epoxy-coated",
	"Place.Bars.Lap": "Lap", "Place.Bars.Lap.Rule": "Lap rule", "Place.Bars.Lap.Length": "Lap by length", "Place.Bars.Stagger": "Laps apart", "Place.Bars.Corner": "At corners", "Place.Bars.Leg": "Corner leg (0: lap)",
	"Place.Bars.Stock": "Stock lengths", "Place.Bars.Yard": "Offcuts on hand", "Place.Bars.Kerf": "Lost at each cut", "Place.Bars.Joint": "Along the joint", "Place.Bars.Rows": "Bars round the edge",
	"Place.Pads": "Steel in pads", "Place.Pads.Size": "Bar no. (0: none)", "Place.Pads.Spacing": "Spacing, at most", "Place.Pads.Cover": "Cover",
	"Place.Strips": "Steel in thickened strips", "Place.Strips.Size": "Bar number", "Place.Strips.Count": "Bars", "Place.Strips.Cover": "Cover",
	"Place.Field": "Field steel", "Place.Field.Kind": "Kind", "Place.Field.Style": "Mesh style", "Place.Field.Width": "Mesh width", "Place.Field.Length": "Mesh length", "Place.Field.Roll": "Mesh in rolls",
	"Place.Field.Size": "Grid bar number", "Place.Field.Spacing": "Grid spacing, most", "Place.Field.Cover": "Clear of faces", "Place.Field.Depth": "Below top (0: mid)", "Place.Field.Chairs": "Chairs apart",
	"Place.Dowels": "Dowels", "Place.Dowels.Size": "Bar no. (0: none)", "Place.Dowels.Length": "Length", "Place.Dowels.Embed": "In the old slab",
	"Place.Dowels.Spacing": "Spacing, at most", "Place.Dowels.End": "Clear of ends", "Place.Dowels.Doors": "None in a door opening", "Place.Dowels.OldSlab": "Old slab thickness", "Place.Dowels.Clearance": "Hole over bar", "Place.Dowels.Waste": "Adhesive waste, %",
	"Place.Bolts": "Anchor bolts", "Place.Bolts.Diameter": "Diameter", "Place.Bolts.Length": "Bolt length", "Place.Bolts.Projection": "Sticks up", "Place.Bolts.Embed": "In concrete, least",
	"Place.Bolts.Spacing": "Spacing, at most", "Place.Bolts.End": "From plate end", "Place.Bolts.EndMax": "– at most", "Place.Bolts.EndMin": "– at least", "Place.Bolts.Apart": "Any two, at least", "Place.Bolts.Offset": "From face (0: mid)",
	"Place.Bolts.Shape": "Shape", "Place.Bolts.Hook": "Hook", "Place.Bolts.Washer": "Washer", "Place.Bolts.Jamb": "Plate short of jamb", "Place.Bolts.Stock": "Plate stock length", "Place.Bolts.Stud": "Studs (0: ignore)", "Place.Bolts.Shift": "Off a stud by, most",
	"Place.Forms": "Forms", "Place.Forms.Board": "Board (–: by depth)", "Place.Forms.Stock": "Board lengths", "Place.Forms.Rip": "Rip the next wider board to depth", "Place.Forms.Stakes": "Stakes apart, most", "Place.Forms.Kickers": "Kickers apart",
	"Place.SawCuts": "Saw cuts", "Place.SawCuts.Ratio": "Spacing ÷ thickness", "Place.SawCuts.Spacing": "Spacing, at most", "Place.SawCuts.Aspect": "Panel, long ÷ short", "Place.SawCuts.Early": "Early-entry saw",
	"Place.StakeOut": "Stake-out", "Place.StakeOut.Offset": "Strings beyond", "Place.StakeOut.Benchmark": "Top over benchmark",
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
