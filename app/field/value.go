package field

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// step is one name of a path, with the number of a thing where it is a list.
type step struct {
	name  string
	index int // -1 for none
}

// steps takes a path apart. A path that is none gives false.
func steps(path string) ([]step, bool) {
	var out []step
	for _, part := range strings.Split(path, ".") {
		s := step{part, -1}
		if name, rest, ok := strings.Cut(part, "["); ok {
			n, err := strconv.Atoi(strings.TrimSuffix(rest, "]"))
			if err != nil {
				return nil, false
			}
			s = step{name, n}
		}
		out = append(out, s)
	}
	return out, true
}

// walk follows a path from a struct. With clone, lists on the way are replaced by
// copies, so that what is set at its end changes no other job.
func walk(v reflect.Value, path string, clone bool) (reflect.Value, error) {
	way, ok := steps(path)
	if !ok {
		return v, fmt.Errorf("“%s” is no path", path)
	}
	for _, s := range way {
		k := -1
		if v.Kind() == reflect.Struct {
			k = slices.Index(Names(v.Type()), s.name)
		}
		if k < 0 || s.name == "" {
			return v, fmt.Errorf("no field %s in %s", s.name, path)
		}
		v = v.Field(k)
		if s.index < 0 {
			continue
		}
		if v.Kind() != reflect.Slice || s.index >= v.Len() {
			return v, fmt.Errorf("no %s[%d] in %s", s.name, s.index, path)
		}
		if clone {
			c := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(c, v)
			v.Set(c)
		}
		v = v.Index(s.index)
	}
	return v, nil
}

// Get gives the value at a path below a struct, such as a job:
//
//   - a geometry.Length, a geometry.Point or a list of them,
//   - a decimal.Decimal for any number, a bool, a string or a list of them,
//   - a string too for choices and times; a temperature or a speed is itself,
//   - nil where a length or a number that may be left out is not given.
func Get(from any, path string) (any, error) {
	v, err := walk(reflect.ValueOf(from), path, false)
	if err != nil {
		return nil, err
	}
	r, _ := At(path)
	return r.get(v), nil
}

func (r *Row) get(v reflect.Value) any {
	switch x := v.Interface().(type) {
	case geometry.Length, geometry.Point, decimal.Decimal, []geometry.Length, []geometry.Point, []string, texter:
		return x
	case encoding.TextMarshaler:
		t := written(v)
		switch {
		case r.Kind.Length() && t == "", r.Kind.numeric() && t == "":
			return nil
		case r.Kind.Length():
			l, err := geometry.ParseWritten(t)
			if err == nil {
				return l
			}
		case r.Kind.numeric():
			d, err := decimal.NewFromString(t)
			if err == nil {
				return d
			}
		}
		return t
	}
	switch {
	case v.Kind() == reflect.Bool:
		return v.Bool()
	case v.Kind() == reflect.String:
		return v.String()
	case v.CanInt() && r.Kind == Choice:
		return strconv.FormatInt(v.Int(), 10)
	case v.CanInt():
		return decimal.NewFromInt(v.Int())
	case v.CanFloat():
		return plainly(v.Float())
	}
	return v.Interface()
}

// texter is a value that keeps the unit it was written in.
type texter interface {
	Text(geometry.Units) string
}

// plainly gives a number by its shortest decimal form.
func plainly(f float64) decimal.Decimal {
	d, err := decimal.NewFromString(strconv.FormatFloat(f, 'f', -1, 64))
	if err != nil { // not a number
		return decimal.Zero
	}
	return d
}

// Set sets the value at a path below the struct that to points to. It takes what
// Get gives. Lists on the way are copied, so that no other job changes.
func Set(to any, path string, value any) error {
	v, err := walk(reflect.ValueOf(to).Elem(), path, true)
	if err != nil {
		return err
	}
	if err := set(v, value); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

func set(v reflect.Value, value any) error {
	given := reflect.ValueOf(value)
	d, isNumber := value.(decimal.Decimal)
	t, isText := value.(string)
	switch {
	case value == nil, isNumber && d.IsZero() && v.Type() == decimalType: // left out of files, whatever its digits
		v.SetZero()
	case given.Type() == v.Type():
		if given.Kind() == reflect.Slice { // a copy, but none is none
			c := reflect.MakeSlice(v.Type(), given.Len(), given.Len())
			reflect.Copy(c, given)
			given = c
		}
		v.Set(given)
	case v.Addr().Type().Implements(textReader):
		if l, ok := value.(geometry.Length); ok {
			t, isText = l.Exact(geometry.FeetInches), true
		}
		if isNumber {
			t, isText = d.String(), true
		}
		if !isText {
			return fmt.Errorf("found %T; a text is needed", value)
		}
		return v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(t))
	case isText && v.Kind() == reflect.String:
		v.SetString(t)
	case isText && v.CanInt():
		n, err := strconv.ParseInt(t, 10, 64)
		if err != nil {
			return err
		}
		v.SetInt(n)
	case isNumber && v.CanInt() && d.IsInteger() && short(d, 15):
		v.SetInt(d.IntPart())
	case isNumber && v.CanFloat() && short(d, 40):
		v.SetFloat(d.InexactFloat64())
	default:
		return fmt.Errorf("found %T where %s is needed", value, v.Type())
	}
	return nil
}

// Used tells whether the field at a path below a struct, such as a job, is used as
// the fields beside it are: the mesh style only where the field steel is mesh.
func Used(from any, path string) bool { return UsedIn("", from, path) }

// UsedIn is Used for a field below a value that stands at a path of the job file itself,
// such as a thing of a list: "slabs[].embeds[]".
func UsedIn(under string, from any, path string) bool {
	holder, name := "", path
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		holder, name = path[:i], path[i+1:]
	}
	v := reflect.ValueOf(from)
	if holder != "" {
		var err error
		if v, err = walk(v, holder, false); err != nil {
			return false
		}
	}
	name, _, _ = strings.Cut(name, "[")
	for _, f := range nodeOf(v.Type(), Join(under, numbered.ReplaceAllString(holder, "[]"))).fields {
		if f.name == name {
			return f.used(v)
		}
	}
	return false
}

// Fill sets every field below a path to its default in jobs in u: those of what to
// points to, which stands at that path. What has no default is left as it is.
func Fill(path string, to any, u geometry.Units) {
	fill(nodeOf(reflect.TypeOf(to).Elem(), path), reflect.ValueOf(to).Elem(), u)
}

func fill(n *node, v reflect.Value, u geometry.Units) {
	if n.row != nil && n.row.Default != nil {
		n.row.in(u).fill(v, u)
		return
	}
	for _, f := range n.fields {
		fill(f.node, v.Field(f.index), u)
	}
}

// SwitchUnits has what is as it is by default in jobs in one unit as it is in the other.
func SwitchUnits(path string, in any, from, to geometry.Units) {
	v := reflect.ValueOf(in).Elem()
	switchUnits(nodeOf(v.Type(), path), v, from, to)
}

func switchUnits(n *node, v reflect.Value, from, to geometry.Units) {
	if n.row != nil && n.row.Default != nil {
		usual := reflect.New(v.Type()).Elem()
		if n.row.in(from).fill(usual, from); reflect.DeepEqual(n.row.get(v), n.row.get(usual)) || equal(n.row.get(v), n.row.get(usual)) {
			n.row.in(to).fill(v, to)
		}
		return
	}
	for _, f := range n.fields {
		switchUnits(f.node, v.Field(f.index), from, to)
	}
}

// equal tells whether two numbers are the same, whatever their digits.
func equal(a, b any) bool {
	x, ok := a.(decimal.Decimal)
	y, both := b.(decimal.Decimal)
	return ok && both && x.Equal(y)
}

// fill sets a value, or the things of a list, to the row's default.
func (r *Row) fill(v reflect.Value, u geometry.Units) {
	list, ok := r.Default.([]Element)
	if !ok {
		if err := set(v, r.value(r.Default, v.Kind() == reflect.Slice)); err != nil {
			panic("field: " + r.Path + ": " + err.Error()) // a test fills every one
		}
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(list), len(list)))
	for i, e := range list {
		for name, x := range e {
			at, err := walk(v.Index(i), name, false)
			if err == nil {
				of := rowAt(r.Path + "." + name)
				if u == geometry.Millimeters {
					x = of.metricValue(x)
				}
				err = set(at, of.value(x, false))
			}
			if err != nil {
				panic("field: " + r.Path + ": " + err.Error())
			}
		}
	}
}

// value turns a value as rows write it into one that set takes.
func (r *Row) value(x any, list bool) any {
	switch x := x.(type) {
	case int:
		return r.value(float64(x), list)
	case float64:
		switch {
		case r.Kind.Length():
			return geometry.Length(x)
		case r.Kind == Choice:
			return strconv.FormatFloat(x, 'f', -1, 64)
		}
		return plainly(x)
	case []float64:
		lengths := make([]geometry.Length, len(x))
		for i, l := range x {
			lengths[i] = geometry.Length(l)
		}
		return lengths
	}
	return x
}
