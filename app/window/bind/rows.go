package bind

import (
	"errors"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
)

// At gives the same fields, of a value that stands at a path of the job file:
// "slabs[].pads[]". Its fields are then added by Rows.
func (f Fields[T]) At(path string) Fields[T] {
	f.path = path
	return f
}

// Asking gives the same fields, about whose value is asked what ask gives.
func (f Fields[T]) Asking(ask func(T) string) Fields[T] {
	f.ask = ask
	return f
}

// Emptied gives the same fields, where 0 is what nobody wrote down and shows as nothing.
func (f Fields[T]) Emptied() Fields[T] {
	f.empty = true
	return f
}

// Used gives the same fields, of which Rows leaves out those that are not used as the value
// is now: their holder is made anew as it changes.
func (f Fields[T]) Used() Fields[T] {
	f.used = true
	return f
}

// Rows adds fields by their names below the value, as in the job file, and all else
// by their rows in the table of fields: label, unit, bounds, hint and what is asked
// about. A name that is no field is a mistake of the program.
func (f Fields[T]) Rows(below ...string) {
	for _, b := range below {
		if f.used && !field.UsedIn(f.path, f.Get(), b) {
			continue
		}
		f.row(Row(f.path, b), b)
	}
}

// RowAs adds a field as Rows does, under another label: where a heading has its own.
func (f Fields[T]) RowAs(label, below string) {
	r := Row(f.path, below)
	r.Label = label
	f.row(r, below)
}

// Label gives the label of a field that is added otherwise than by Rows, and says what
// it is.
func (f Fields[T]) Label(below string) string {
	r := Row(f.path, below)
	f.In.About(r.Hint(f.In.Units()))
	return r.Title()
}

// Row gives the row of a field below a path of the job file, of a list that of its
// values.
func Row(path, below string) field.Row {
	path = field.Join(path, below)
	r, ok := field.At(path)
	if !ok {
		r, ok = field.At(path + "[]")
	}
	if !ok {
		panic("bind: no row for " + path)
	}
	return r
}

func (f Fields[T]) row(r field.Row, below string) {
	label := r.Title()
	get := func() any { return r.Of(f.Get(), below) }
	put := func(v any) error {
		var fault error
		err := f.Put(label, func(t *T) { fault = field.Set(t, below, v) })
		if fault != nil {
			return unplaced(fault)
		}
		return err
	}
	f.In.About(r.Hint(f.In.Units()))
	switch r.Kind {
	case field.Switch:
		f.In.Check(label, func() bool { on, _ := get().(bool); return on }, func(on bool) error { return put(on) })
	case field.Choice:
		f.choice(r, label, below, get, put)
	case field.Point:
		f.place(func() geometry.Point { p, _ := get().(geometry.Point); return p }, func(p geometry.Point) error { return put(p) })
	case field.Text:
		if t := ByRow(r, f.In.Units, get, put); r.Letters > 0 && !r.OneLine {
			f.In.Lines(label, t)
		} else {
			f.In.Text(label, t)
		}
	default:
		t := ByRow(r, f.In.Units, get, put)
		if full := t.Get; f.empty {
			t.Get = func() string {
				if r.Zero != "" && r.Say(get(), f.In.Units()) == r.Zero {
					return ""
				}
				return full()
			}
		}
		if f.ask != nil {
			t.Ask = func() string { return f.ask(f.Get()) }
		}
		f.In.Text(label, t)
	}
}

// unplaced takes the path away from what a field says: it stands below the field.
func unplaced(err error) error {
	if inner := errors.Unwrap(err); inner != nil {
		return inner
	}
	return err
}

// ByRow gives how a value is read and written by its row.
func ByRow(r field.Row, units func() geometry.Units, get func() any, put func(any) error) Text {
	return Text{
		Get: func() string { return r.Text(get(), units()) },
		Set: func(s string) error {
			v, err := r.Parse(strings.TrimSpace(s), units())
			if err != nil {
				return err
			}
			return put(v.Value)
		},
		Meaning: meaning(r, units),
		Unit:    func() string { return r.Kind.Bare(units()) },
		Ask:     func() string { return r.Question(get(), units()) },
	}
}

// meaning says how what is typed would be taken, or what there is to ask about it;
// nil where it is taken as it is.
func meaning(r field.Row, units func() geometry.Units) func(string) (string, error) {
	if r.Kind == field.Text {
		return nil
	}
	return func(s string) (string, error) {
		v, err := r.Parse(s, units())
		if v.Question != "" {
			return v.Question, err
		}
		return v.Meaning, err
	}
}

// choice adds a drop-down list of what the row's choice is called.
func (f Fields[T]) choice(r field.Row, label, below string, get func() any, put func(any) error) {
	offered := func() (words []string, names []any) {
		if none := r.Zero + r.Blank; none != "" {
			words, names = append(words, none), append(names, r.Of(*new(T), below))
		}
		for _, n := range r.Offered(get(), f.In.Units()) {
			words, names = append(words, n.Said(f.In.Units())), append(names, any(n.Name))
		}
		return words, names
	}
	f.In.Choice(label, func() []string { words, _ := offered(); return words }, func() string {
		v := get()
		words, names := offered()
		for i, n := range names {
			if n == v {
				return words[i]
			}
		}
		return ""
	}, func(chosen string) error {
		words, names := offered()
		for i, w := range words {
			if w == chosen {
				return put(names[i])
			}
		}
		return nil
	})
}
