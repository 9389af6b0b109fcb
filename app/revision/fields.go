package revision

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// comparer walks two values of one type side by side.
type comparer struct {
	units   geometry.Units
	changes []Change
	at      string   // where it is, as in a job file without numbers
	words   []string // and as people say it
}

var (
	lengthType  = reflect.TypeFor[geometry.Length]()
	pointType   = reflect.TypeFor[geometry.Point]()
	idType      = reflect.TypeFor[takeoff.ID]()
	textEncoder = reflect.TypeFor[encoding.TextMarshaler]()
)

// fields compares the named fields of two structs; all of them for nil.
func (c *comparer) fields(was, is any, only []string) {
	a, b := reflect.ValueOf(was), reflect.ValueOf(is)
	for i, name := range field.Names(a.Type()) {
		if name == "" || only != nil && !slices.Contains(only, name) {
			continue
		}
		c.field(field.Join(c.at, name), a.Field(i), b.Field(i))
	}
}

func (c *comparer) field(at string, a, b reflect.Value) {
	r, _ := field.At(at)
	if a.Kind() == reflect.Slice {
		r, _ = field.At(at + "[]")
		if !r.Kind.Length() {
			c.list(r, at+"[]", a, b)
			return
		}
	}
	c.in(at, r.Label, func() { c.values(r, a, b) })
}

// in goes down to a field or a thing while f runs.
func (c *comparer) in(at, word string, f func()) {
	was, n := c.at, len(c.words)
	c.at = at
	if word != "" {
		c.words = append(c.words, word)
	}
	f()
	c.at, c.words = was, c.words[:n]
}

func (c *comparer) values(r field.Row, a, b reflect.Value) {
	if reflect.DeepEqual(a.Interface(), b.Interface()) {
		return
	}
	if a.Kind() == reflect.Struct && !simple(a.Type()) {
		c.fields(a.Interface(), b.Interface(), nil)
		return
	}
	was, is := c.print(r, a, false), c.print(r, b, false)
	if was == is {
		// They differ by less than is printed.
		if was, is = c.print(r, a, true), c.print(r, b, true); was == is {
			return
		}
	}
	c.add(was, is)
}

func (c *comparer) add(was, is string) {
	words := slices.Clone(c.words)
	for i, w := range words {
		words[i] = field.Lower(w)
	}
	c.changes = append(c.changes, Change{strings.Join(words, ", "), was, is})
}

// simple tells whether a struct is printed whole.
func simple(t reflect.Type) bool { return t == pointType || t == idType || t.Implements(textEncoder) }

// list compares two lists element by element: by their names where they have
// any, else by their places, or if some came or went by where they stand.
func (c *comparer) list(r field.Row, at string, a, b reflect.Value) {
	identify := identity(a, b)
	used := make([]bool, b.Len())
	for i := range a.Len() {
		id := identify(a.Index(i), i)
		k := -1
		for n := range b.Len() {
			if !used[n] && identify(b.Index(n), n) == id {
				k = n
				break
			}
		}
		c.in(at, r.Called(a.Index(i).Interface(), i), func() {
			if k < 0 {
				c.add(c.print(r, a.Index(i), false), "")
				return
			}
			used[k] = true
			c.values(r, a.Index(i), b.Index(k))
		})
	}
	for n := range b.Len() {
		if !used[n] {
			c.in(at, r.Called(b.Index(n).Interface(), n), func() { c.add("", c.print(r, b.Index(n), false)) })
		}
	}
}

// identity gives the function by which elements of two lists are matched.
func identity(a, b reflect.Value) func(reflect.Value, int) string {
	byPlace := func(_ reflect.Value, i int) string { return strconv.Itoa(i) }
	names := func(v reflect.Value) bool {
		seen := map[string]bool{}
		for i := range v.Len() {
			n := nameOf(v.Index(i))
			if n == "" || seen[n] {
				return false
			}
			seen[n] = true
		}
		return true
	}
	switch {
	case names(a) && names(b):
		return func(v reflect.Value, _ int) string { return nameOf(v) }
	case a.Len() == b.Len():
		return byPlace
	case a.Type().Elem().Kind() == reflect.Struct:
		if at := firstOf(a.Type().Elem(), "At", "Center", "From", "Along"); at != "" {
			return func(v reflect.Value, _ int) string { return fmt.Sprint(v.FieldByName(at).Interface()) }
		}
	}
	return byPlace
}

// firstOf gives the first of the names that is a field of the struct.
func firstOf(t reflect.Type, names ...string) string {
	for _, n := range names {
		if _, ok := t.FieldByName(n); ok {
			return n
		}
	}
	return ""
}

func nameOf(v reflect.Value) string {
	if v.Kind() != reflect.Struct {
		return ""
	}
	switch v := v.Interface().(type) {
	case estimate.Item:
		return fmt.Sprint(v.What)
	case takeoff.ID:
		return fmt.Sprint(v)
	}
	if f := v.FieldByName("Name"); f.IsValid() && f.Kind() == reflect.String {
		return f.String()
	}
	return ""
}

// print prints a value for people; lengths exactly if they would round.
func (c *comparer) print(r field.Row, v reflect.Value, exact bool) string {
	switch {
	case v.Type() == lengthType && !exact && v.Int() != 0:
		return geometry.Length(v.Int()).Text(c.units)
	case v.Type() == pointType && !exact:
		p := v.Interface().(geometry.Point)
		return "(" + p.X.Text(c.units) + ", " + p.Y.Text(c.units) + ")"
	case v.Type() == idType:
		return orNone(v.Interface().(takeoff.ID).Text(c.units))
	case v.Kind() == reflect.Struct && !simple(v.Type()):
		return c.whole(v)
	case v.Kind() == reflect.Slice && !r.Kind.Length():
		return fmt.Sprintf("%d in all", v.Len())
	}
	return orNone(r.Say(v.Interface(), c.units))
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// whole prints a thing that came or went: its fields that say something.
func (c *comparer) whole(v reflect.Value) string {
	var parts []string
	for i, name := range field.Names(v.Type()) {
		f := v.Field(i)
		if name == "" || name == "name" || f.IsZero() || f.Type() == idType || f.Kind() == reflect.Slice && f.Len() == 0 {
			continue
		}
		at := field.Join(c.at, name)
		r, ok := field.At(at)
		if !ok {
			r, _ = field.At(at + "[]")
		}
		c.in(at, "", func() { parts = append(parts, field.Lower(r.Label)+": "+c.print(r, f, false)) })
	}
	if len(parts) == 0 {
		return "as usual"
	}
	return strings.Join(parts, "; ")
}
