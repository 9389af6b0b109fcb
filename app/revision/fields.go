package revision

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// comparer walks two values of one type side by side.
type comparer struct {
	units   geometry.Units
	changes []Change
	path    []string
}

var (
	lengthType  = reflect.TypeFor[geometry.Length]()
	pointType   = reflect.TypeFor[geometry.Point]()
	idType      = reflect.TypeFor[takeoff.ID]()
	textEncoder = reflect.TypeFor[encoding.TextMarshaler]()
)

// nouns names an element of a list in the job file, and the words for fields
// whose names in files are terse. "" leaves the field out of the path.
var nouns = map[string]string{
	"slabs": "slab", "benchmarks": "benchmark", "notes": "note",
	"outline": "edge", "edges": "edge", "sections": "section", "doors": "door", "holes": "hole", "pads": "pad", "strips": "strip", "falls": "fall",
	"profile": "station", "path": "point", "rows": "row", "stock": "stock length", "yard": "offcut", "bolts": "bolt mark", "extras": "extra", "options": "option",
	"items": "price of", "tasks": "task", "fees": "fee", "weather": "weather at", "stations": "station", "others": "by others",
}

var words = map[string]string{
	"price": "", "prices": "price list", "at": "corner", "runout": "run-out", "place": "", "endmax": "end at most", "endmin": "end at least", "holddown": "hold-down",
	"oldslab": "old slab", "profitas": "profit as", "taxon": "tax on", "foamwidth": "foam width", "foamlength": "foam length",
	"rollwidth": "roll width", "rolllength": "roll length", "turnup": "turn-up", "of": "unit of the takeoff", "cleardoors": "clear of doors",
}

// fields compares the named fields of two structs; all of them for nil.
func (c *comparer) fields(was, is any, only []string) {
	a, b := reflect.ValueOf(was), reflect.ValueOf(is)
	for i := range a.NumField() {
		f := a.Type().Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			name = strings.ToLower(f.Name)
		}
		if name == "-" || !f.IsExported() || only != nil && !slices.Contains(only, name) {
			continue
		}
		c.field(name, a.Field(i), b.Field(i))
	}
}

func (c *comparer) field(name string, a, b reflect.Value) {
	if a.Kind() == reflect.Slice {
		noun, ok := nouns[name]
		if !ok {
			noun = name
		}
		c.list(noun, a, b)
		return
	}
	word, ok := words[name]
	if !ok {
		word = name
	}
	c.in(word, func() { c.values(a, b) })
}

// in adds a word to the path while f runs.
func (c *comparer) in(word string, f func()) {
	n := len(c.path)
	if word != "" {
		c.path = append(c.path, word)
	}
	f()
	c.path = c.path[:n]
}

func (c *comparer) values(a, b reflect.Value) {
	if reflect.DeepEqual(a.Interface(), b.Interface()) {
		return
	}
	if a.Kind() == reflect.Struct && !simple(a.Type()) {
		c.fields(a.Interface(), b.Interface(), nil)
		return
	}
	was, is := c.print(a, false), c.print(b, false)
	if was == is {
		// They differ by less than is printed.
		if was, is = c.print(a, true), c.print(b, true); was == is {
			return
		}
	}
	c.add(was, is)
}

func (c *comparer) add(was, is string) {
	c.changes = append(c.changes, Change{strings.Join(c.path, ", "), was, is})
}

// simple tells whether a struct is printed whole.
func simple(t reflect.Type) bool { return t == pointType || t == idType || t.Implements(textEncoder) }

// list compares two lists element by element: by their names where they have
// any, else by their places, or if some came or went by where they stand.
func (c *comparer) list(noun string, a, b reflect.Value) {
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
		c.in(noun+" "+label(a.Index(i), i), func() {
			if k < 0 {
				c.add(c.print(a.Index(i), false), "")
				return
			}
			used[k] = true
			c.values(a.Index(i), b.Index(k))
		})
	}
	for n := range b.Len() {
		if !used[n] {
			c.in(noun+" "+label(b.Index(n), n), func() { c.add("", c.print(b.Index(n), false)) })
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

// label names an element: by its name, or its number from 1.
func label(v reflect.Value, i int) string {
	if v.Kind() == reflect.Struct && v.Type() != idType {
		if f := v.FieldByName("Name"); f.IsValid() && f.Kind() == reflect.String && f.String() != "" {
			return f.String()
		}
	}
	return strconv.Itoa(i + 1)
}

// print prints a value for people; exactly if lengths would round.
func (c *comparer) print(v reflect.Value, exact bool) string {
	switch {
	case v.Type() == lengthType:
		l := geometry.Length(v.Int())
		if exact {
			return l.Exact(c.units)
		}
		return l.Text(c.units)
	case v.Type() == pointType:
		return "(" + c.print(v.Field(0), exact) + ", " + c.print(v.Field(1), exact) + ")"
	case v.Type() == idType:
		return orNone(v.Interface().(takeoff.ID).Text(c.units))
	case v.Type().Implements(textEncoder):
		text, err := v.Interface().(encoding.TextMarshaler).MarshalText()
		if err != nil {
			return err.Error()
		}
		return orNone(string(text))
	}
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			return "yes"
		}
		return "no"
	case reflect.String:
		return orNone(v.String())
	case reflect.Struct:
		return c.whole(v, exact)
	case reflect.Slice:
		return fmt.Sprintf("%d in all", v.Len())
	}
	return fmt.Sprint(v.Interface())
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// whole prints a struct that came or went: its fields that say something.
func (c *comparer) whole(v reflect.Value, exact bool) string {
	var parts []string
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if !f.IsExported() || v.Field(i).IsZero() || f.Name == "Name" || f.Type == idType || v.Field(i).Kind() == reflect.Slice && v.Field(i).Len() == 0 {
			continue
		}
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			name = strings.ToLower(f.Name)
		}
		if w, ok := words[name]; ok && w != "" {
			name = w
		}
		parts = append(parts, name+" "+c.print(v.Field(i), exact))
	}
	if len(parts) == 0 {
		return "as usual"
	}
	return strings.Join(parts, ", ")
}
