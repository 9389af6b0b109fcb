package job

import (
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry/plan"
)

// fieldPaths lists every field that a job file may hold, and every list and part
// that holds some: "slabs[].outline[].at". The edges of holes have the outline's
// fields, and what is priced those of what others supply, which are not listed again.
func fieldPaths(t reflect.Type, at string) []string {
	switch {
	case field.Value(t):
		return []string{at}
	case t == reflect.TypeFor[plan.Loop]() && at != "slabs[].outline":
		return []string{at + "[]"}
	case t == reflect.TypeFor[takeoff.ID]() && at != "price.others[]":
		return []string{at}
	case t.Kind() == reflect.Slice:
		return fieldPaths(t.Elem(), at+"[]")
	}
	out := []string{at}
	for i, name := range field.Names(t) {
		if name != "" {
			out = append(out, fieldPaths(t.Field(i).Type, field.Join(at, name))...)
		}
	}
	return out
}

// Every field of a job file has a row, and every row a field.
func TestEveryFieldHasItsRow(t *testing.T) {
	known := map[string]bool{"$schema": true} // of the file, not of the job
	for _, path := range fieldPaths(reflect.TypeFor[Job](), "") {
		known[path] = true
		if r, ok := field.At(path); !ok || r.Path != path {
			t.Errorf("no row for %s", path)
		}
	}
	for _, g := range field.Groups("") {
		for _, r := range append([]*field.Row{&g.Row}, g.Rows...) {
			if !known[r.Path] {
				t.Errorf("a row for %s, which no job file has", r.Path)
			}
			if r.Help == "" {
				t.Errorf("%s has no help", r.Path)
			}
		}
	}
}

// A choice has the same names in its row as in its type, in the same order.
func TestChoicesHaveOneSetOfNames(t *testing.T) {
	var look func(t reflect.Type, at string)
	choices := 0
	look = func(of reflect.Type, at string) {
		switch {
		case field.Value(of):
			type chooser interface{ Choices() []string }
			c, ok := reflect.Zero(of).Interface().(chooser)
			r, _ := field.At(at)
			if !ok || r.Kind != field.Choice {
				return
			}
			choices++
			var names []string
			for _, n := range r.Names {
				names = append(names, n.Name)
			}
			if diff := cmp.Diff(c.Choices(), names); diff != "" {
				t.Errorf("%s: %s", at, diff)
			}
		case of.Kind() == reflect.Slice:
			look(of.Elem(), at+"[]")
		default:
			for i, name := range field.Names(of) {
				if name != "" {
					look(of.Field(i).Type, field.Join(at, name))
				}
			}
		}
	}
	look(reflect.TypeFor[Job](), "")
	if choices < 15 {
		t.Errorf("only %d choices", choices)
	}
}
