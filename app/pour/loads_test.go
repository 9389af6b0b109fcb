package pour

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		order, step, truck string
		style              Loads
		want               string
	}{
		{"11", "0.5", "11", Balanced, "[11]"},
		{"11.5", "0.5", "10", Balanced, "[6 5.5]"},
		{"11.5", "0.5", "10", Full, "[10 1.5]"},
		{"26", "0.5", "10", Balanced, "[9 8.5 8.5]"},
		{"26", "0.5", "10", Full, "[10 10 6]"},
		{"20", "0.25", "10", Balanced, "[10 10]"},
		{"11.1", "0.5", "10", Balanced, "[6 5.5]"}, // rounded up to a step
		{"10", "3", "10", Full, "[9 3]"},           // a truck takes three steps of 3
		{"0.25", "0.25", "10", Balanced, "[0.25]"},
	} {
		got, err := Split(dec(c.order), dec(c.step), dec(c.truck), c.style)
		if err != nil || fmt.Sprint(got) != c.want {
			t.Errorf("%s by %s in %s, %s: %v %v, want %s", c.order, c.step, c.truck, c.style, got, err, c.want)
		}
	}
	for _, c := range [][3]string{{"0", "0.5", "10"}, {"-1", "0.5", "10"}, {"5", "0", "10"}, {"5", "-1", "10"}, {"5", "0.5", "0.4"}, {"1000000", "0.5", "10"}} {
		if got, err := Split(dec(c[0]), dec(c[1]), dec(c[2]), Balanced); err == nil {
			t.Errorf("%v: %v without an error", c, got)
		}
	}
}

func TestLoadsSumToTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := decimal.New(rapid.Int64Range(1, 100).Draw(t, "step"), -2)
		order := step.Mul(decimal.NewFromInt(rapid.Int64Range(1, 500).Draw(t, "units")))
		truck := step.Add(decimal.New(rapid.Int64Range(0, 1200).Draw(t, "truck"), -2))
		style := Loads(rapid.IntRange(0, 1).Draw(t, "style"))
		loads, err := Split(order, step, truck, style)
		if err != nil {
			t.Fatal(err)
		}
		sum := decimal.Zero
		low, high := loads[0], loads[0]
		for _, l := range loads {
			sum = sum.Add(l)
			low, high = decimal.Min(low, l), decimal.Max(high, l)
			if !l.IsPositive() || l.GreaterThan(truck) || !l.Mod(step).IsZero() {
				t.Fatalf("load %s of step %s and truck %s", l, step, truck)
			}
		}
		if !sum.Equal(order) {
			t.Fatalf("the loads %v sum to %s, not %s", loads, sum, order)
		}
		if style == Balanced && high.Sub(low).GreaterThan(step) {
			t.Fatalf("balanced loads %v differ by more than %s", loads, step)
		}
		// No fewer trucks would do.
		most := truck.Div(step).Floor().Mul(step)
		if most.Mul(decimal.NewFromInt(int64(len(loads) - 1))).GreaterThanOrEqual(order) {
			t.Fatalf("%d loads of at most %s for %s", len(loads), most, order)
		}
	})
}

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
