// Package bind says how the values of a job are shown and changed in fields, whatever
// the fields look like: read as text, written as text, ticked, chosen from a list.
package bind

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Text is how a value is read and written as text.
type Text struct {
	Get     func() string
	Set     func(string) error
	Meaning func(string) (string, error) // how a text would be read, or what to ask about it; nil to say nothing while it is typed
	Unit    func() string                // of a bare number; nil for none
	Ask     func() string                // what to ask about the value as it is, "" for nothing; nil for never
}

// Holder is what fields are put into: a form, or a row of a table. What a setter
// refuses it tells beside the field.
type Holder interface {
	Units() geometry.Units // of lengths that are typed
	About(hint string)     // says what the field is that is added next
	Text(label string, t Text)
	Lines(label string, t Text) // words, which may take several lines
	Check(label string, get func() bool, set func(bool) error)
	Choice(label string, options func() []string, get func() string, set func(string) error)
}

// Fields are the fields of one value. Get gives the value as it is; Put has it
// changed, as a step that is named by what changes.
type Fields[T any] struct {
	In  Holder
	Get func() T
	Put func(what string, change func(*T)) error

	path  string         // where the value stands in the job file
	empty bool           // 0 is shown as nothing
	used  bool           // what is not used as the value is, is left out
	ask   func(T) string // what to ask about it; nil for what the rows do

	origin *Origin // of places; nil for that of the drawing
}

// Of gives the fields of a value in a holder.
func Of[T any](in Holder, get func() T, put func(what string, change func(*T)) error) Fields[T] {
	return Fields[T]{In: in, Get: get, Put: put}
}

// add adds a field for a part of the value, by how the part is written and read.
func add[T, V any](f Fields[T], label string, at func(*T) *V, write func(V) string, read func(string) (V, error)) {
	f.In.Text(label, Text{
		Get: func() string { t := f.Get(); return write(*at(&t)) },
		Set: func(s string) error {
			v, err := read(s)
			if err != nil {
				return err
			}
			return f.Put(label, func(t *T) { *at(t) = v })
		},
	})
}

// Words adds a field for words.
func (f Fields[T]) Words(label string, at func(*T) *string) {
	add(f, label, at, func(s string) string { return s }, func(s string) (string, error) { return strings.TrimSpace(s), nil })
}

// Name adds a field for words that may not be missing.
func (f Fields[T]) Name(label string, at func(*T) *string, missing string) {
	add(f, label, at, func(s string) string { return s }, func(s string) (string, error) {
		if s = strings.TrimSpace(s); s == "" {
			return "", fmt.Errorf("%s", missing)
		}
		return s, nil
	})
}

// Depth adds a field for a length that is none when it is empty.
func (f Fields[T]) Depth(label string, at func(*T) *geometry.Length) {
	u := f.In.Units
	t := length(u, func() geometry.Length { t := f.Get(); return *at(&t) }, func(l geometry.Length) error {
		return f.Put(label, func(t *T) { *at(t) = l })
	}, func(s string, u geometry.Units) (geometry.Length, error) {
		if strings.TrimSpace(s) == "" {
			return 0, nil
		}
		return field.Inches.ParseLength(s, u)
	})
	full := t.Get
	t.Get = func() string {
		if v := f.Get(); *at(&v) == 0 {
			return ""
		}
		return full()
	}
	t.Unit = func() string { return field.Inches.Bare(u()) }
	f.In.Text(label, t)
}

// Length adds a field for a place along something, or another length in plan: a bare
// number is feet, or millimeters in a metric job.
func Length(in Holder, label string, get func() geometry.Length, set func(geometry.Length) error) {
	in.Text(label, length(in.Units, get, set, field.Feet.ParseLength))
}

// Size is Length for how long something is, which is also typed as what it is longer
// by: "+2'".
func Size(in Holder, label string, get func() geometry.Length, set func(geometry.Length) error) {
	in.Text(label, length(in.Units, get, set, func(typed string, u geometry.Units) (geometry.Length, error) {
		return field.Feet.ParseSize(typed, get(), u)
	}))
}

func length(units func() geometry.Units, get func() geometry.Length, set func(geometry.Length) error, parse func(string, geometry.Units) (geometry.Length, error)) Text {
	return Text{
		Get: func() string { return get().Full(units()) },
		Set: func(s string) error {
			l, err := parse(s, units())
			if err != nil {
				return err
			}
			return set(l)
		},
		Meaning: func(s string) (string, error) {
			l, err := parse(s, units())
			return l.Full(units()), err
		},
		Unit: func() string { return field.Feet.Bare(units()) },
	}
}

// OneOf adds a drop-down list of things with names.
func OneOf[V comparable](in Holder, label string, names []string, values []V, get func() V, set func(V) error) {
	in.Choice(label, func() []string { return names }, func() string {
		if i := slices.Index(values, get()); i >= 0 {
			return names[i]
		}
		return ""
	}, func(name string) error { return set(values[slices.Index(names, name)]) })
}

// Origin is what places are measured from: how its two ways are called, and a place
// measured from it and back.
type Origin struct {
	Along, Off string
	Of, Place  func(geometry.Point) geometry.Point
}

// FromDatum measures from the datum of a slab, which may change meanwhile; before it has
// an outline, right and up from the drawing's origin.
func FromDatum(slab func() plan.Plan) Origin {
	o := Origin{Along: "Right", Off: "Up"}
	if p := slab(); len(p.Outline) > 0 {
		side := p.Datum().Side()
		o.Along, o.Off = "Along "+side, "Off "+side
	}
	o.Of = func(at geometry.Point) geometry.Point { return slab().Datum().Of(at) }
	o.Place = func(at geometry.Point) geometry.Point { return slab().Datum().Place(at) }
	return o
}

// From gives the same fields, with places measured from an origin.
func (f Fields[T]) From(o Origin) Fields[T] {
	f.origin = &o
	return f
}

// Place adds the two lengths of a point.
func (f Fields[T]) Place(at func(*T) *geometry.Point) {
	f.place(func() geometry.Point { t := f.Get(); return *at(&t) }, func(p geometry.Point) error {
		return f.Put("Place", func(t *T) { *at(t) = p })
	})
}

// place adds the two lengths of a point that is got and put as a whole.
func (f Fields[T]) place(get func() geometry.Point, put func(geometry.Point) error) {
	o := f.origin
	if o == nil {
		same := func(p geometry.Point) geometry.Point { return p }
		o = &Origin{"Right", "Up", same, same}
	}
	part := func(label string, of func(*geometry.Point) *geometry.Length) {
		Length(f.In, label, func() geometry.Length { p := o.Of(get()); return *of(&p) }, func(l geometry.Length) error {
			p := o.Of(get())
			*of(&p) = l
			return put(o.Place(p))
		})
	}
	part(o.Along, func(p *geometry.Point) *geometry.Length { return &p.X })
	part(o.Off, func(p *geometry.Point) *geometry.Length { return &p.Y })
}

// Money adds a field for an amount of money.
func (f Fields[T]) Money(label string, at func(*T) *decimal.Decimal) {
	add(f, label, at, func(d decimal.Decimal) string { return d.StringFixed(2) }, ReadAmount)
}

// Measured adds a field for an amount that is empty where nobody measured it.
func (f Fields[T]) Measured(label string, at func(*T) *decimal.Decimal) {
	add(f, label, at, func(d decimal.Decimal) string {
		if d.IsZero() {
			return ""
		}
		return d.String()
	}, func(s string) (decimal.Decimal, error) {
		if strings.TrimSpace(s) == "" {
			return decimal.Zero, nil
		}
		return ReadAmount(s)
	})
}

// Positive adds a field for an amount of more than 0.
func (f Fields[T]) Positive(label string, at func(*T) *decimal.Decimal) {
	add(f, label, at, decimal.Decimal.String, func(s string) (decimal.Decimal, error) {
		d, err := ReadAmount(s)
		if err == nil && !d.IsPositive() {
			err = fmt.Errorf("found %s; write more than 0", s)
		}
		return d, err
	})
}

// Whole adds a field for a whole number within bounds.
func (f Fields[T]) Whole(label string, at func(*T) *int, least, most int) {
	add(f, label, at, strconv.Itoa, func(s string) (int, error) { return ReadWhole(s, least, most) })
}

// Degrees adds a field for a direction; which says from where it is counted.
func (f Fields[T]) Degrees(label, which string, at func(*T) *float64) {
	add(f, label, at, Number, func(s string) (float64, error) {
		d, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "°")), 64)
		if err != nil || !(d >= -360 && d <= 360) {
			return 0, fmt.Errorf("found %q; write degrees from -360 to 360, %s", s, which)
		}
		return d, nil
	})
}

// Check adds a tick box.
func (f Fields[T]) Check(label string, at func(*T) *bool) {
	f.In.Check(label, func() bool { t := f.Get(); return *at(&t) }, func(v bool) error {
		return f.Put(label, func(t *T) { *at(t) = v })
	})
}

// Number prints a number as short as it can be.
func Number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// ReadAmount reads a number of money, hours or rates.
func ReadAmount(s string) (decimal.Decimal, error) {
	t := strings.TrimSpace(strings.ReplaceAll(strings.TrimLeft(strings.TrimSpace(s), "$€£"), ",", ""))
	d, err := decimal.NewFromString(t)
	if err != nil || len(t) > 24 || strings.ContainsAny(t, "eE") {
		return decimal.Zero, fmt.Errorf("found %q; write a number such as 7.50", s)
	}
	return d, nil
}

// ReadWhole reads a whole number within bounds.
func ReadWhole(s string, least, most int) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < least || n > most {
		return 0, fmt.Errorf("found %q; write a whole number from %d to %d", s, least, most)
	}
	return n, nil
}
