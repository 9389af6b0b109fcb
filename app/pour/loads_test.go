package pour

import (
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// Common practice, no source: a crew of five places and bull-floats about 11 yd³
// in 30 to 35 min straight off the chute.
func TestPace(t *testing.T) {
	s := Default()
	slow, fast := s.Pace(geometry.FeetInches)
	if a, b := 11/fast*60, 11/slow*60; math.Abs(a-30) > 1e-9 || math.Abs(b-35) > 1e-9 {
		t.Errorf("11 yd³ take %.2f to %.2f min, want 30 to 35", a, b)
	}
	if m := 11 / s.middlePace(geometry.FeetInches) * 60; math.Abs(m-32.5) > 1e-9 {
		t.Errorf("planned at %.2f min, want 32.5", m)
	}
	metric, _ := s.Pace(geometry.Millimeters)
	if math.Abs(metric-slow*0.764554857984) > 1e-9 {
		t.Errorf("%v m³ and %v yd³ an hour", metric, slow)
	}
	s.Crew.Rate = dec("18")
	if a, b := s.Pace(geometry.FeetInches); a != 18 || b != 18 {
		t.Errorf("a rate given: %v to %v, want 18", a, b)
	}
}

func namesOf(fs []Finding) string {
	var out []string
	for _, f := range fs {
		if f.Severe {
			f.Name += "!"
		}
		out = append(out, f.Name)
	}
	return strings.Join(out, ", ")
}

func TestLoadFindings(t *testing.T) {
	for _, c := range []struct {
		loads      string
		net, short string
		want       string
	}{
		{"9 8.5", "16", "0", ""},
		{"10 1.5", "10.5", "0", "Small last load"},
		{"1.5", "1.4", "0", ""}, // one load is no last load
		{"10 3", "12", "4", "Short load"},
		{"9 8.5", "17.2", "0", "Margin!"},
		{"9 8.5", "17.6", "0", "Order!"},
		{"10", "9", "0", "Full last truck"},
	} {
		var loads []decimal.Decimal
		for _, s := range strings.Fields(c.loads) {
			loads = append(loads, dec(s))
		}
		if got := namesOf(loadFindings(loads, dec("10"), dec(c.net), dec(c.short), "yd³")); got != c.want {
			t.Errorf("%s for %s: %q, want %q", c.loads, c.net, got, c.want)
		}
	}
}

// IRC Table R402.2, 2018 edition.
func TestMixFindings(t *testing.T) {
	for _, c := range []struct {
		strength int
		air      float64
		where    Weathering
		use      Use
		want     string
	}{
		{2000, 0, Unstated, Garage, ""},
		{2500, 0, Negligible, Garage, ""},
		{2499, 0, Negligible, Garage, "Strength!"},
		{3000, 5, Moderate, Garage, ""},
		{3000, 7, Moderate, Garage, ""},
		{2500, 6, Moderate, Garage, "Strength!"},
		{3000, 0, Moderate, Garage, "Air!"},
		{3000, 4.9, Moderate, Garage, "Air!"},
		{3500, 7.5, Severe, Garage, "Air!"},
		{3000, 2, Severe, Garage, "Strength!, Air!"},
		{3500, 6, Severe, Garage, ""},
		{4000, 3, Severe, Garage, "Air"},
		{3900, 3, Severe, Garage, "Air!"},
		{2500, 0, Severe, Interior, ""},
		{2400, 0, Severe, Interior, "Strength!"},
	} {
		got := namesOf(MixFindings(takeoff.Mix{Strength: c.strength, Air: c.air}, c.where, c.use, geometry.FeetInches))
		if got != c.want {
			t.Errorf("%d psi, %v %% air, %s, %s: %q, want %q", c.strength, c.air, c.where, c.use, got, c.want)
		}
	}
}
