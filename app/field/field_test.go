package field_test

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

func demo(t *testing.T) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if faults := (plan.Faults)(nil); err != nil && !errors.As(err, &faults) {
		t.Fatal(err)
	}
	return j
}

// leaves lists the paths of every value of a job, with the numbers of things.
func leaves(v reflect.Value, at string) []string {
	switch {
	case field.Value(v.Type()):
		return []string{at}
	case v.Kind() == reflect.Slice:
		if v.Type().Elem() == reflect.TypeFor[geometry.Length]() || v.Type().Elem().Kind() == reflect.String {
			return []string{at + "[]"}
		}
		var out []string
		for i := range v.Len() {
			out = append(out, leaves(v.Index(i), at+"["+string(rune('0'+i))+"]")...)
		}
		return out
	}
	var out []string
	for i, name := range field.Names(v.Type()) {
		if name != "" {
			out = append(out, leaves(v.Field(i), field.Join(at, name))...)
		}
	}
	return out
}

// Whatever a field holds is printed so that it reads back, and set again so that
// the job is the same, in either units.
func TestValuesAreReadAsTheyArePrinted(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		j := demo(t)
		j.Units = u
		for _, path := range leaves(reflect.ValueOf(j), "") {
			r, ok := field.At(path)
			if !ok {
				t.Fatalf("no row for %s", path)
			}
			if path == "haunchbook" || r.Kind == field.Point {
				continue
			}
			at := strings.TrimSuffix(path, "[]")
			v, err := field.Get(j, at)
			if err != nil {
				t.Errorf("%s: %v", path, err)
				continue
			}
			back, err := r.Parse(r.Text(v, u), u)
			if err != nil && r.Text(v, u) != "" {
				t.Errorf("%s: %s: %v", path, r.Text(v, u), err)
				continue
			}
			is := j
			if err == nil {
				err = field.Set(&is, at, back.Value)
			}
			if r.Text(v, u) != "" && err != nil {
				t.Errorf("%s: %v", path, err)
			}
			if diff := cmp.Diff(string(j.Encode()), string(is.Encode())); diff != "" && r.Kind != field.Temperature && r.Kind != field.Speed {
				t.Errorf("%s: %s", path, diff)
			}
		}
	}
}
