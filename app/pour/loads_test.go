package pour

import (
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
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

func namesOf(fs []rule.Finding) string {
	var out []string
	for _, f := range fs {
		name := f.Rule.Name
		if f.Broken() {
			name += "!"
		}
		out = append(out, name)
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
		finish   Finish
		want     string
	}{
		{2000, 0, Unstated, Garage, Broom, "Air"}, // not checked
		{2500, 0, Negligible, Garage, AnyFinish, ""},
		{2499, 0, Negligible, Garage, Broom, ""},
		{3000, 5, Moderate, Garage, Broom, ""},
		{3000, 7, Moderate, Garage, Float, ""},
		{2500, 6, Moderate, Garage, Broom, "Strength!"},
		{3000, 0, Moderate, Garage, Broom, "Air!"},
		{3000, 4.9, Moderate, Garage, Broom, "Air!"},
		{3500, 7.5, Severe, Garage, Broom, "Air!"},
		{3000, 2, Severe, Garage, Broom, "Strength!, Air!"},
		{3500, 6, Severe, Garage, Broom, ""},
		{3500, 6, Severe, Garage, AnyFinish, "Air"}, // not checked
		{2500, 0, Severe, Interior, Broom, ""},
		{2400, 0, Severe, Interior, Broom, ""},
		// Under a trowel 3 % is the most, and the least by the footnote at 4,000 psi.
		{4000, 3, Severe, Garage, Trowel, "Air"},
		{4000, 3.1, Severe, Garage, Trowel, "Air!"},
		{4000, 2.9, Severe, Garage, Trowel, "Air!"},
		{3999, 3, Severe, Garage, Trowel, "Air!"},
		{4000, 3, Severe, Garage, Broom, "Air!"},
		{4000, 6, Severe, Garage, Burnished, "Air!"},
		{3000, 3, Negligible, Garage, Trowel, ""},
		{3000, 3.1, Negligible, Garage, Trowel, "Air!"},
		{3000, 3.1, Negligible, Garage, Float, ""},
		{3000, 0, Severe, Interior, Trowel, ""},
		{3000, 4, Severe, Interior, Trowel, "Air!"},
		{3000, 4, Severe, Interior, AnyFinish, "Air"}, // not checked
	} {
		s := Spec{Weathering: c.where, Use: c.use, Finish: c.finish}
		got := namesOf(MixFindings(takeoff.Mix{Strength: c.strength, Air: c.air}, s, geometry.FeetInches))
		if got != c.want {
			t.Errorf("%d psi, %v %% air, %s, %s, %s: %q, want %q", c.strength, c.air, c.where, c.use, c.finish, got, c.want)
		}
	}
}

// Where the code asks for more air than a trowel takes, both are named, and what would
// do; what is not checked is named.
func TestMixFindingsNameBoth(t *testing.T) {
	for _, c := range []struct {
		air  float64
		s    Spec
		want []string
	}{
		{6, Spec{Weathering: Severe, Finish: Trowel}, []string{"R402.2", "302.1R", "5 to 7", "3 %", "broom", "4000 psi"}},
		{0, Spec{Weathering: Moderate, Finish: Burnished}, []string{"R402.2", "302.1R", "broom"}},
		{6, Spec{}, []string{"Not checked", "the weathering region and the finish"}},
		{0, Spec{}, []string{"Not checked", "the weathering region."}},
	} {
		fs := MixFindings(takeoff.Mix{Strength: 3500, Air: c.air}, c.s, geometry.FeetInches)
		if len(fs) != 1 {
			t.Errorf("%+v: %d findings", c.s, len(fs))
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(fs[0].Said(), w) {
				t.Errorf("%+v: no %q in %s", c.s, w, fs[0].Said())
			}
		}
	}
}

// More hands place faster, up to what a chute gives.
func TestPaceHasACeiling(t *testing.T) {
	var s Spec
	for people, want := range map[int]float64{5: 22, 10: 44, 11: 44, 100: 44} {
		s.Crew.People = people
		if _, fast := s.Pace(geometry.FeetInches); math.Abs(fast-want) > 1e-9 {
			t.Errorf("%d people: %v yd³/h, want %v", people, fast, want)
		}
	}
}
