package job

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/geometry"
)

// A truck of 10 yd³ carries 7.65 m³, 10 × 0.764554857984, and not 10 m³.
func TestInOtherUnits(t *testing.T) {
	j := New()
	j.Spec.Order.Truck = decimal.NewFromInt(10)
	j.Pour.Crew.Rate = decimal.NewFromInt(20)
	m := j.In(geometry.Millimeters)
	if m.Spec.Order.Truck.String() != "7.65" || m.Pour.Crew.Rate.String() != "15.29" || m.Units != geometry.Millimeters {
		t.Errorf("in millimeters: truck %s, rate %s, %v", m.Spec.Order.Truck, m.Pour.Crew.Rate, m.Units)
	}
	if !m.Spec.Order.Step.Equal(j.Spec.Order.Step) {
		t.Errorf("the plant's step became %s", m.Spec.Order.Step)
	}
	if diff := cmp.Diff(j.Slabs, m.Slabs); diff != "" {
		t.Error(diff)
	}
}

// Quarters go there and back.
func TestUnitsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := New()
		j.Units = rapid.SampledFrom([]geometry.Units{geometry.FeetInches, geometry.Millimeters}).Draw(t, "units")
		j.Spec.Order.Truck = decimal.NewFromInt(rapid.Int64Range(0, 400).Draw(t, "quarters")).Mul(quarter)
		other := geometry.FeetInches
		if j.Units == other {
			other = geometry.Millimeters
		}
		if back := j.In(other).In(j.Units); !back.Spec.Order.Truck.Equal(j.Spec.Order.Truck) {
			t.Fatalf("%s %v came back as %s by way of %s", j.Spec.Order.Truck, j.Units, back.Spec.Order.Truck, j.In(other).Spec.Order.Truck)
		}
	})
}
