package field

import (
	"encoding"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Names gives the name in job files of each field of a struct, "" for those that
// are not in them.
func Names(t reflect.Type) []string {
	names := make([]string, t.NumField())
	for i := range names {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case name == "-" || !f.IsExported():
			continue
		case name == "":
			name = strings.ToLower(f.Name)
		}
		names[i] = name
	}
	return names
}

// Join adds a field's name to a path.
func Join(path, name string) string {
	if path == "" || name == "" {
		return path + name
	}
	return path + "." + name
}

var (
	lengthType  = reflect.TypeFor[geometry.Length]()
	pointType   = reflect.TypeFor[geometry.Point]()
	decimalType = reflect.TypeFor[decimal.Decimal]()
	textReader  = reflect.TypeFor[encoding.TextUnmarshaler]()
	textWriter  = reflect.TypeFor[encoding.TextMarshaler]()
)

// Value tells whether a type is written in a job file as one value, as against
// fields or a list.
func Value(t reflect.Type) bool {
	return t == lengthType || t == pointType || t.Kind() != reflect.Struct && t.Kind() != reflect.Slice ||
		reflect.PointerTo(t).Implements(textReader)
}

// form is how a value lies in memory.
type form uint8

const (
	holder    form = iota // fields, or a list
	whole                 // a length, a count, a time
	fraction              // float64
	exact                 // decimal.Decimal
	words                 // a text
	place                 // geometry.Point
	optional              // a value that may not be set: {Set bool; To …}
	otherwise             // a choice, a switch, or what writes itself as text
)

func formOf(t reflect.Type) form {
	switch {
	case !Value(t):
		return holder
	case t == pointType:
		return place
	case t == decimalType:
		return exact
	case t.Kind() == reflect.Struct && t.NumField() == 2 && t.Field(0).Type.Kind() == reflect.Bool:
		return optional
	case t.Kind() == reflect.Int || t.Kind() == reflect.Int64:
		return whole
	case t.Kind() == reflect.Float64:
		return fraction
	case t.Kind() == reflect.String:
		return words
	}
	return otherwise
}

// node is a type as the job file has it, with its rows.
type node struct {
	form   form
	row    *Row  // nil above the first row
	elem   *node // of a list
	fields []link
	// What its row says about fields beside it, found once.
	when            []condition
	atLeast, atMost []relation
}

// link is a field of a struct.
type link struct {
	name  string
	index int
	*node
}

// condition is one of a row, on a field of the same struct.
type condition struct {
	*Condition
	field int
	is    []uint64 // of a choice, the values that are asked for
}

// relation is one of a row, to a field of the same struct.
type relation struct {
	Relation
	field int
	form  form
}

type nodeKey struct {
	t    reflect.Type
	path string
}

var nodes sync.Map // nodeKey to *node

// nodeOf gives the node of a type at a path without numbers.
func nodeOf(t reflect.Type, path string) *node {
	key := nodeKey{t, path}
	if n, ok := nodes.Load(key); ok {
		return n.(*node)
	}
	n := newNode(t, path)
	nodes.Store(key, n)
	return n
}

func newNode(t reflect.Type, path string) *node {
	n := &node{row: rowAt(path), form: formOf(t)}
	switch {
	case n.form != holder:
	case t.Kind() == reflect.Slice:
		n.row = rowAt(path + "[]")
		n.elem = newNode(t.Elem(), path+"[]")
	default:
		names := Names(t)
		for i, name := range names {
			if name != "" {
				n.fields = append(n.fields, link{name, i, newNode(t.Field(i).Type, Join(path, name))})
			}
		}
		for _, f := range n.fields {
			if f.row != nil {
				f.beside(t, names)
			}
		}
	}
	return n
}

// beside finds the fields that a row speaks of.
func (n *node) beside(t reflect.Type, names []string) {
	find := func(name string) int {
		for i, other := range names {
			if other == name {
				return i
			}
		}
		panic("field: " + n.row.Path + " speaks of " + name + ", which is not beside it in " + t.String())
	}
	for i := range n.row.When {
		c := condition{Condition: &n.row.When[i], field: find(n.row.When[i].Field)}
		if of := t.Field(c.field).Type; of.Kind() == reflect.Uint8 {
			for _, name := range c.Is {
				v := reflect.New(of)
				if err := v.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(name)); err != nil {
					panic("field: " + n.row.Path + " is used where " + c.Field + " is " + name + ": " + err.Error())
				}
				c.is = append(c.is, v.Elem().Uint())
			}
		}
		n.when = append(n.when, c)
	}
	related := func(list []Relation) (out []relation) {
		for _, r := range list {
			at := find(r.Field)
			out = append(out, relation{r, at, formOf(t.Field(at).Type)})
		}
		return out
	}
	n.atLeast, n.atMost = related(n.row.AtLeast), related(n.row.AtMost)
}

// used tells whether the field is used in the struct that it stands in.
func (n *node) used(holder reflect.Value) bool {
	for _, c := range n.when {
		if c.holds(holder.Field(c.field)) == c.Not {
			return false
		}
	}
	return true
}

// holds tells whether the value of the field beside is there, or one of the names.
func (c condition) holds(v reflect.Value) bool {
	switch {
	case len(c.Is) == 0 && v.Kind() == reflect.Slice:
		return v.Len() > 0
	case len(c.Is) == 0:
		return !v.IsZero()
	case c.is != nil:
		return slices.Contains(c.is, v.Uint())
	}
	return slices.Contains(c.Is, written(v))
}

// written gives a value as a job file has it, where that is a text.
func written(v reflect.Value) string {
	if m, ok := v.Interface().(encoding.TextMarshaler); ok {
		text, err := m.MarshalText()
		if err != nil {
			return ""
		}
		return string(text)
	}
	if v.Kind() == reflect.String {
		return v.String()
	}
	return ""
}

// measured gives a length in nanometers or a number; false for what is neither,
// and for what is not set.
func measured(v reflect.Value) (float64, bool) { return formOf(v.Type()).measure(v) }

func (f form) measure(v reflect.Value) (float64, bool) {
	switch f {
	case whole:
		return float64(v.Int()), true
	case fraction:
		return v.Float(), true
	case exact:
		d := asDecimal(v)
		if !short(d, 40) {
			return 0, false
		}
		return inexact(d), true
	case optional:
		if v.Field(0).Bool() {
			return measured(v.Field(1))
		}
	}
	return 0, false
}

func asDecimal(v reflect.Value) decimal.Decimal {
	if v.CanAddr() { // copies nothing
		return *v.Addr().Interface().(*decimal.Decimal)
	}
	return v.Interface().(decimal.Decimal)
}

// inexact is decimal.InexactFloat64, without its big numbers where none is needed:
// both parts of the quotient are exact then, and it is correctly rounded.
func inexact(d decimal.Decimal) float64 {
	if e := d.Exponent(); e <= 0 && e >= -15 && d.NumDigits() <= 15 {
		return float64(d.CoefficientInt64()) / math.Pow10(int(-e))
	}
	return d.InexactFloat64()
}

// short tells whether a number has at most so many digits before its point and
// after it. Beyond are slips of the pen, and numbers whose arithmetic would not
// end.
func short(d decimal.Decimal, most int) bool {
	return int(d.Exponent()) >= -most && int64(d.Exponent())+int64(d.NumDigits()) <= int64(most)
}
