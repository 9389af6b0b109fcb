package takeoff_test

import (
	"bytes"
	"reflect"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
	"pgregory.net/rapid"
)

// lengths visits every length of a specification.
func lengths(v reflect.Value, visit func(reflect.Value)) {
	switch {
	case v.Type() == reflect.TypeFor[geometry.Length]():
		visit(v)
	case v.Kind() == reflect.Struct && v.Type().PkgPath() != "github.com/shopspring/decimal":
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				lengths(v.Field(i), visit)
			}
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			lengths(v.Index(i), visit)
		}
	}
}

// Whatever a specification says, it is refused with a fault or taken off; nothing
// panics.
func TestAnySpec(t *testing.T) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	j.Slabs[0].Pads = []plan.Pad{{Center: geometry.Point{X: 10 * foot, Y: 20 * foot}, Width: 3 * foot, Length: 2 * foot, Turn: 30, Depth: 14 * inch}}
	j.Slabs[0].Strips = []plan.Strip{{Path: []geometry.Point{{X: 5 * foot, Y: 24 * foot}, {X: 20 * foot, Y: 24 * foot}, {X: 30 * foot, Y: 14 * foot}}, Bottom: foot, Depth: foot}}
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		s := takeoff.Default()
		s.Place.Field.Kind = field.Kind(rapid.IntRange(0, 3).Draw(t, "field"))
		s.Place.Bars.Corner = bars.Corner(rapid.IntRange(0, 2).Draw(t, "corner"))
		s.Place.Bars.Lap.Rule = bars.LapRule(rapid.IntRange(0, 2).Draw(t, "lap"))
		s.Place.Bars.Size = rapid.SampledFrom(bars.Sizes()).Draw(t, "size")
		s.Place.Bars.Yard = []geometry.Length{9 * foot}
		s.Place.Forms.Rip = rapid.Bool().Draw(t, "rip")
		s.Place.Field.Roll = rapid.Bool().Draw(t, "roll")
		s.Mix.Fiber = 1
		n := 0
		lengths(reflect.ValueOf(&s).Elem(), func(reflect.Value) { n++ })
		for range rapid.IntRange(0, 4).Draw(t, "changes") {
			k, i := rapid.IntRange(0, n-1).Draw(t, "which"), 0
			factor := rapid.SampledFrom([]int64{-1, 0, 1, 3, 5, 16, 40, 200, 4000}).Draw(t, "factor")
			lengths(reflect.ValueOf(&s).Elem(), func(v reflect.Value) {
				if i == k {
					v.SetInt(v.Int() / 8 * factor)
				}
				i++
			})
		}
		u := geometry.Units(rapid.IntRange(0, 1).Draw(t, "units"))
		got, err := takeoff.Of(t.Context(), j.Slabs, s, u)
		if err != nil {
			if faults, ok := err.(plan.Faults); !ok || len(faults) == 0 || faults[0].Path == "" || faults[0].Want == "" {
				t.Fatal(err)
			}
			return
		}
		taken++
		if len(got.Lines) < 10 {
			t.Fatalf("%d lines", len(got.Lines))
		}
	})
	least := 10
	if testing.Short() { // with fewer draws
		least = 3
	}
	if taken < least {
		t.Fatalf("%d specifications were sound", taken)
	}
}
