package field

import (
	"reflect"
	"strconv"
	"strings"
)

// Words names what a path leads to in a job, or in whatever stands at its root,
// as people do who count from 1: things by their names, and then, after a colon,
// the field: "Apron, edge 3, door D1: width". Things are in the order of the path.
func Words(job any, path string) string {
	things, name := follow(reflect.ValueOf(job), path)
	at := strings.Join(things, ", ")
	switch {
	case at == "":
		return Upper(name)
	case name == "":
		return Upper(at)
	}
	return Upper(at) + ": " + name
}

// Thing names the thing that a path leads to, beside another on the same slab:
// "door D1", "edge 3 of hole pit".
func Thing(job any, path string) string {
	things, _ := follow(reflect.ValueOf(job), path)
	if len(things) == 0 {
		return path
	}
	name := things[len(things)-1]
	if i := len(things) - 2; i >= 0 && strings.HasPrefix(things[i], "hole ") {
		name += " of " + things[i]
	}
	return name
}

// follow names the parts and things on the way to a field, and the field.
func follow(v reflect.Value, path string) (things []string, name string) {
	at := ""
	for _, part := range strings.Split(path, ".") {
		field, number, listed := strings.Cut(part, "[")
		at = Join(at, field)
		v = fieldNamed(v, field)
		r := rowAt(at)
		if !listed {
			switch list := rowAt(at + "[]"); {
			case r == nil && list != nil: // a whole one
				name = Lower(list.Label)
				if list.Kind == List {
					name = several(name)
				}
			case r == nil:
				name = field
			case r.Kind.Holds() && r.Label != "":
				things = append(things, Lower(r.Label))
			case !r.Kind.Holds():
				name = Lower(r.Label)
			}
			continue
		}
		at += "[]"
		k, _ := strconv.Atoi(strings.TrimSuffix(number, "]"))
		e := item(v, k)
		if r = rowAt(at); r == nil {
			things = append(things, field+" "+strconv.Itoa(k+1))
		} else if n := r.call(e, k, v); n != "" {
			things = append(things, n)
		}
		v = e
	}
	return things, name
}

// call names a thing of a list.
func (r *Row) call(e reflect.Value, k int, list reflect.Value) string {
	name := ""
	for _, field := range []string{r.Named, "name"} {
		if v := fieldNamed(e, field); name == "" && v.IsValid() {
			name = written(v)
		}
	}
	switch {
	case r.Alone && list.IsValid() && list.Len() == 1:
		return ""
	case r.Alone && name != "":
		return name
	case name != "":
		return Lower(r.Label) + " " + name
	}
	return Lower(r.Label) + " " + strconv.Itoa(k+1)
}

// Called names a thing of a list by its name or its number from 1: "door D1".
func (r Row) Called(thing any, k int) string {
	return r.call(reflect.ValueOf(thing), k, reflect.Value{})
}

// fieldNamed gives a field of a struct by its name in job files; the zero Value
// if there is none.
func fieldNamed(v reflect.Value, name string) reflect.Value {
	if name == "" || !v.IsValid() || v.Kind() != reflect.Struct {
		return reflect.Value{}
	}
	for i, n := range Names(v.Type()) {
		if n == name {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}

// item gives a thing of a list; the zero Value if there is none.
func item(v reflect.Value, k int) reflect.Value {
	if !v.IsValid() || v.Kind() != reflect.Slice || k < 0 || k >= v.Len() {
		return reflect.Value{}
	}
	return v.Index(k)
}
