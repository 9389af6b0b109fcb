// Package bind says how the values of a job are shown and changed in fields, whatever
// the fields look like: read as text, written as text, ticked, chosen from a list.
package bind

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Text is how a value is read and written as text.
type Text struct {
	Get     func() string
	Set     func(string) error
	Meaning func(string) (string, error) // how a text would be read; nil to say nothing while it is typed
}

// Holder is what fields are put into: a form, or a row of a table. What a setter
// refuses it tells beside the field.
type Holder interface {
	Units() geometry.Units // of lengths that are typed
	Text(label string, t Text)
	Check(label string, get func() bool, set func(bool) error)
	Choice(label string, options func() []string, get func() string, set func(string) error)
}

// Fields are the fields of one value. Get gives the value as it is; Put has it
// changed, as a step that is named by what changes.
type Fields[T any] struct {
	In  Holder
	Get func() T
	Put func(what string, change func(*T)) error
}

// Of gives the fields of a value in a holder.
func Of[T any](in Holder, get func() T, put func(what string, change func(*T)) error) Fields[T] {
	return Fields[T]{in, get, put}
}

// field adds a field for a part of the value, by how the part is written and read.
func field[T, V any](f Fields[T], label string, at func(*T) *V, write func(V) string, read func(string) (V, error)) {
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
	field(f, label, at, func(s string) string { return s }, func(s string) (string, error) { return strings.TrimSpace(s), nil })
}

// Name adds a field for words that may not be missing.
func (f Fields[T]) Name(label string, at func(*T) *string, missing string) {
	field(f, label, at, func(s string) string { return s }, func(s string) (string, error) {
		if s = strings.TrimSpace(s); s == "" {
			return "", fmt.Errorf("%s", missing)
		}
		return s, nil
	})
}

// Length adds a field for a length.
func (f Fields[T]) Length(label string, at func(*T) *geometry.Length) {
	f.In.Text(label, lengthOf(f.In.Units, func() geometry.Length { t := f.Get(); return *at(&t) }, func(l geometry.Length) error {
		return f.Put(label, func(t *T) { *at(t) = l })
	}))
}

func lengthOf(units func() geometry.Units, get func() geometry.Length, set func(geometry.Length) error) Text {
	return Text{
		Get: func() string { return get().Full(units()) },
		Set: func(s string) error {
			l, err := geometry.ParseLength(s, units().Foot())
			if err != nil {
				return err
			}
			return set(l)
		},
		Meaning: func(s string) (string, error) {
			l, err := geometry.ParseLength(s, units().Foot())
			return l.Full(units()), err
		},
	}
}

// Depth adds a field for a length that is none when it is empty.
func (f Fields[T]) Depth(label string, at func(*T) *geometry.Length) {
	u := f.In.Units
	field(f, label, at, func(l geometry.Length) string {
		if l == 0 {
			return ""
		}
		return l.Full(u())
	}, func(s string) (geometry.Length, error) {
		if strings.TrimSpace(s) == "" {
			return 0, nil
		}
		return geometry.ParseLength(s, u().Foot())
	})
}

// Length adds a field for a length to a holder.
func Length(in Holder, label string, get func() geometry.Length, set func(geometry.Length) error) {
	in.Text(label, lengthOf(in.Units, get, set))
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

// Place adds the two lengths of a point.
func (f Fields[T]) Place(at func(*T) *geometry.Point) {
	f.Length("Right (x)", func(t *T) *geometry.Length { return &at(t).X })
	f.Length("Up (y)", func(t *T) *geometry.Length { return &at(t).Y })
}

// Money adds a field for an amount of money.
func (f Fields[T]) Money(label string, at func(*T) *decimal.Decimal) {
	field(f, label, at, func(d decimal.Decimal) string { return d.StringFixed(2) }, ReadAmount)
}

// Amount adds a field for hours, rates, percentages.
func (f Fields[T]) Amount(label string, at func(*T) *decimal.Decimal) {
	field(f, label, at, decimal.Decimal.String, ReadAmount)
}

// Measured adds a field for an amount that is empty where nobody measured it.
func (f Fields[T]) Measured(label string, at func(*T) *decimal.Decimal) {
	field(f, label, at, func(d decimal.Decimal) string {
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
	field(f, label, at, decimal.Decimal.String, func(s string) (decimal.Decimal, error) {
		d, err := ReadAmount(s)
		if err == nil && !d.IsPositive() {
			err = fmt.Errorf("found %s; write more than 0", s)
		}
		return d, err
	})
}

// Whole adds a field for a whole number within bounds.
func (f Fields[T]) Whole(label string, at func(*T) *int, least, most int) {
	field(f, label, at, strconv.Itoa, func(s string) (int, error) { return ReadWhole(s, least, most) })
}

// Number adds a field for a number within bounds.
func (f Fields[T]) Number(label string, at func(*T) *float64, least, most float64) {
	field(f, label, at, Number, func(s string) (float64, error) {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil || !(v >= least && v <= most) {
			return 0, fmt.Errorf("found %q; write a number from %g to %g", s, least, most)
		}
		return v, nil
	})
}

// Degrees adds a field for a direction; which says from where it is counted.
func (f Fields[T]) Degrees(label, which string, at func(*T) *float64) {
	field(f, label, at, Number, func(s string) (float64, error) {
		d, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "°")), 64)
		if err != nil || !(d >= -360 && d <= 360) {
			return 0, fmt.Errorf("found %q; write degrees from -360 to 360, %s", s, which)
		}
		return d, nil
	})
}

// Spelled is a value that is written and read as text.
type Spelled interface {
	MarshalText() ([]byte, error)
	UnmarshalText([]byte) error
}

// Spell writes a value.
func Spell(v Spelled) string {
	b, err := v.MarshalText()
	if err != nil {
		return ""
	}
	return string(b)
}

// Read reads a value.
func Read(v Spelled, s string) error {
	err := v.UnmarshalText([]byte(strings.TrimSpace(s)))
	if err != nil && strings.Contains(err.Error(), "decimal") { // the library's words
		err = fmt.Errorf("write a number such as 7.5")
	}
	if err != nil {
		return fmt.Errorf("found %q; %w", s, err)
	}
	return nil
}

// Spelled adds a field for a value that is written and read as text: a list where it
// is one of few, else an entry. Before it is read, in changes what was typed; nil for
// nothing.
func (f Fields[T]) Spelled(label string, at func(*T) Spelled, in func(string) string) {
	f.In.Text(label, Text{Get: f.spell(at), Set: func(s string) error {
		if in != nil {
			s = in(s)
		}
		t := f.Get()
		if err := Read(at(&t), s); err != nil {
			return err
		}
		return f.Put(label, func(t *T) { _ = Read(at(t), s) }) // it was read just now
	}})
}

func (f Fields[T]) spell(at func(*T) Spelled) func() string {
	return func() string { t := f.Get(); return Spell(at(&t)) }
}

// Pick adds a drop-down list for a value that is one of few.
func (f Fields[T]) Pick(label string, at func(*T) Spelled) {
	var zero T
	options := Options(at(&zero))
	f.In.Choice(label, func() []string { return options }, f.spell(at), func(s string) error {
		return f.Put(label, func(t *T) { _ = Read(at(t), s) }) // it is one of the options
	})
}

// Check adds a tick box.
func (f Fields[T]) Check(label string, at func(*T) *bool) {
	f.In.Check(label, func() bool { t := f.Get(); return *at(&t) }, func(v bool) error {
		return f.Put(label, func(t *T) { *at(t) = v })
	})
}

// Options gives what a small enumeration takes: every value that writes as text and
// reads back as itself. It is none for what is no enumeration.
func Options(v Spelled) []string {
	t := reflect.TypeOf(v).Elem()
	if t.Kind() != reflect.Uint8 {
		return nil
	}
	var out []string
	for i := range 32 {
		s, ok := spelling(t, uint64(i))
		back := reflect.New(t)
		if !ok || back.Interface().(Spelled).UnmarshalText([]byte(s)) != nil || back.Elem().Uint() != uint64(i) {
			break
		}
		out = append(out, s)
	}
	return out
}

// spelling writes value i of an enumeration; false past its last.
func spelling(t reflect.Type, i uint64) (s string, ok bool) {
	defer func() {
		if recover() != nil { // past the end of its table of names
			s, ok = "", false
		}
	}()
	v := reflect.New(t)
	v.Elem().SetUint(i)
	b, err := v.Interface().(Spelled).MarshalText()
	return string(b), err == nil && len(b) > 0
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

// UnitAfter adds a unit to a number that was typed without one.
func UnitAfter(s, unit string) string {
	s = strings.TrimSpace(s)
	if _, err := strconv.ParseFloat(s, 64); err != nil {
		return s
	}
	return s + " " + unit
}
