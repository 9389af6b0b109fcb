// Package spec has the panel of the specification as plain forms, one field for each
// value, made from the specification's own types so that none is forgotten.
package spec

import (
	"fmt"
	"reflect"
	"strings"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/form"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// Frame is what the panel needs of the window.
type Frame interface {
	form.Desk
	Job() job.Job
	Change(label string, change func(*job.Job)) error
}

// Panel is the panel.
type Panel struct {
	frame Frame
	form  *form.Form
}

// New gives the panel.
func New(f Frame) *Panel { return &Panel{frame: f} }

// Name is how the status line calls the panel: as the tool at hand.
func (*Panel) Name() string { return "" }

// Key changes when the panel is to be made anew.
func (p *Panel) Key() string { return fmt.Sprint(len(p.frame.Job().Spec.Place.Bars.Rows)) }

// Form makes the panel.
func (p *Panel) Form() *form.Form {
	p.form = form.New(p.frame)
	p.fields(reflect.TypeFor[takeoff.Spec](), nil, "")
	p.form.Buttons(form.Do("Back to the usual values", p.form.Act(func() error {
		return p.frame.Change("Usual specification", func(j *job.Job) { j.Spec = job.New().In(j.Units).Spec })
	})))
	return p.form
}

// fields adds the fields of a struct reached by a chain of indices.
func (p *Panel) fields(t reflect.Type, path []int, prefix string) {
	last := func() {}
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() || f.Tag.Get("json") == "-" {
			continue // no field of the job file
		}
		at := append(append([]int{}, path...), i)
		name := prefix + f.Name
		label := labelOf(name)
		_, spelled := reflect.New(f.Type).Interface().(bind.Spelled)
		switch {
		case f.Type == reflect.TypeFor[[]bars.Row]():
			last = p.rows // has headings of its own
		case f.Type == reflect.TypeFor[[]geometry.Length]():
			p.lengths(label, at)
		case f.Type.Kind() == reflect.Struct && !spelled:
			if len(path) > 0 {
				p.form.Heading("– " + label)
			} else {
				p.form.Heading(label)
			}
			p.fields(f.Type, at, name+".")
		default:
			p.field(label, f.Type, at)
		}
	}
	last()
}

// of gives a field of the specification as one of the form.
func of[T any](p *Panel, at []int) (f bind.Fields[takeoff.Spec], part func(*takeoff.Spec) *T) {
	f = bind.Of(p.form, func() takeoff.Spec { return p.frame.Job().Spec }, func(what string, change func(*takeoff.Spec)) error {
		return p.frame.Change("Set "+strings.ToLower(what[:1])+what[1:], func(j *job.Job) { change(&j.Spec) })
	})
	return f, func(s *takeoff.Spec) *T { return reflect.ValueOf(s).Elem().FieldByIndex(at).Addr().Interface().(*T) }
}

// most bounds plain numbers.
const most = 1_000_000

// field adds a field by its type.
func (p *Panel) field(label string, t reflect.Type, at []int) {
	switch reflect.New(t).Interface().(type) {
	case *geometry.Length:
		f, part := of[geometry.Length](p, at)
		f.Length(label, part)
	case *bool:
		f, part := of[bool](p, at)
		f.Check(label, part)
	case *string:
		f, part := of[string](p, at)
		f.Words(label, part)
	case *int:
		f, part := of[int](p, at)
		f.Whole(label, part, 0, most)
	case *float64:
		f, part := of[float64](p, at)
		f.Number(label, part, 0, most)
	case bind.Spelled:
		f, _ := of[any](p, at)
		part := func(s *takeoff.Spec) bind.Spelled {
			return reflect.ValueOf(s).Elem().FieldByIndex(at).Addr().Interface().(bind.Spelled)
		}
		if len(bind.Options(part(new(takeoff.Spec)))) > 1 {
			f.Pick(label, part)
		} else {
			f.Spelled(label, part, nil)
		}
	default:
		p.form.Explain(label + ": see the job file") // a kind of field without a form: none, as tests show
	}
}

// lengths adds a field for a list of lengths with commas.
func (p *Panel) lengths(label string, at []int) {
	f, part := of[[]geometry.Length](p, at)
	u := p.frame.Units
	read := func(s string) (out []geometry.Length, err error) {
		for _, text := range strings.Split(s, ",") {
			if strings.TrimSpace(text) == "" {
				continue
			}
			l, err := geometry.ParseLength(text, u().Foot())
			if err != nil {
				return nil, err
			}
			out = append(out, l)
		}
		return out, nil
	}
	write := func(ls []geometry.Length) string {
		var texts []string
		for _, l := range ls {
			texts = append(texts, l.Full(u()))
		}
		return strings.Join(texts, ", ")
	}
	p.form.Text(label, bind.Text{Get: func() string { s := f.Get(); return write(*part(&s)) }, Set: func(s string) error {
		ls, err := read(s)
		if err != nil {
			return err
		}
		return f.Put(label, func(s *takeoff.Spec) { *part(s) = ls })
	}, Meaning: func(s string) (string, error) {
		ls, err := read(s)
		return write(ls), err
	}})
}

// rows adds the continuous bars of the edges, one after the other.
func (p *Panel) rows() {
	f := p.form
	all := bind.Items[bars.Row]{
		Get: func() []bars.Row { return p.frame.Job().Spec.Place.Bars.Rows },
		Put: func(what string, change func(*[]bars.Row)) error {
			return p.frame.Change(what, func(j *job.Job) { change(&j.Spec.Place.Bars.Rows) })
		},
	}
	for i := range all.Get() {
		name := fmt.Sprintf("edge bar %d", i+1)
		get, put := all.Item(i)
		r := bind.Of(f, get, func(what string, change func(*bars.Row)) error { return put(what+" of "+name, change) })
		f.Heading(fmt.Sprintf("– Bar %d round the edge", i+1))
		r.Length("Clear of the face", func(r *bars.Row) *geometry.Length { return &r.Face })
		// One of the two rules; the other is 0.
		bind.OneOf(f, "Measured from", []string{"the underside", "the top"}, []bool{false, true}, func() bool { return get().Top > 0 }, func(top bool) error {
			return put("Side of "+name, func(r *bars.Row) {
				cover := max(r.Bottom, r.Top)
				r.Bottom, r.Top = cover, 0
				if top {
					r.Bottom, r.Top = 0, cover
				}
			})
		})
		r.Length("Clear of that", func(r *bars.Row) *geometry.Length {
			if r.Top > 0 {
				return &r.Top
			}
			return &r.Bottom
		})
		r.Whole("Bar no. (0: same)", func(r *bars.Row) *int { return &r.Size }, 0, most)
		f.Buttons(form.Do("Remove this bar", f.Act(func() error { return all.Remove("Remove an edge bar", i) })))
	}
	if len(all.Get()) == 0 {
		f.Explain("No bars round the edge.")
	}
	f.Buttons(form.Do("Add a bar round the edge", f.Act(func() error {
		r := bars.Row{Face: 3 * geometry.Inch, Bottom: 3 * geometry.Inch} // cover against earth
		if rows := all.Get(); len(rows) > 0 {
			last := rows[len(rows)-1]
			r.Face, r.Size = last.Face, last.Size
		}
		return all.Append("Add an edge bar", r)
	})))
}
