package pour

import (
	"math"
	"testing"

	"haunchbook.example/geometry"
)

func TestTemperatureText(t *testing.T) {
	for _, c := range []struct {
		in, out string
		f       float64
	}{
		{"85 °F", "85 °F", 85},
		{"85F", "85 °F", 85},
		{"29.5 c", "29.5 °C", 85.1},
		{" -3 °C ", "-3 °C", 26.6},
		{"0 C", "0 °C", 32},
		{"0 F", "0 °F", 0},
	} {
		var v Temperature
		if err := v.UnmarshalText([]byte(c.in)); err != nil || v.String() != c.out || math.Abs(v.F()-c.f) > 1e-9 || !v.Known() {
			t.Errorf("%q: %q, %v °F, %v; want %q, %v °F", c.in, v, v.F(), err, c.out, c.f)
		}
		if math.Abs((v.F()-32)*5/9-v.C()) > 1e-9 {
			t.Errorf("%q: %v °F and %v °C", c.in, v.F(), v.C())
		}
	}
	var none Temperature
	if err := none.UnmarshalText(nil); err != nil || none.Known() {
		t.Errorf("nothing: %v %v", none, err)
	}
	for _, bad := range []string{"85", "F", "hot", "1e3 F", "NaN F", "900 F", "-100 C", "8 5 F", "85 K"} {
		if err := none.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q is read as %v", bad, none)
		}
	}
}

func TestSpeedText(t *testing.T) {
	for _, c := range []struct {
		in, out string
		mph     float64
	}{
		{"12 mph", "12 mph", 12}, {"12.5MPH", "12.5 mph", 12.5}, {"16.09344 km/h", "16.09 km/h", 16.09 / 1.609344}, {"", "", 0},
	} {
		var v Speed
		if err := v.UnmarshalText([]byte(c.in)); err != nil || v.String() != c.out || math.Abs(v.MPH()-c.mph) > 1e-9 {
			t.Errorf("%q: %q, %v mph, %v", c.in, v, v.MPH(), err)
		}
		if math.Abs(v.KMH()-v.MPH()*1.609344) > 1e-9 {
			t.Errorf("%q: %v mph and %v km/h", c.in, v.MPH(), v.KMH())
		}
	}
	for _, bad := range []string{"12", "mph", "-1 mph", "300 mph", "12 knots"} {
		var v Speed
		if err := v.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q is read as %v", bad, v)
		}
	}
}

func TestClockText(t *testing.T) {
	for in, want := range map[string]Clock{"0:00": 0, "6:30": 390, "06:30": 390, "23:59": 1439} {
		var c Clock
		if err := c.UnmarshalText([]byte(in)); err != nil || c != want {
			t.Errorf("%q: %v %v, want %v", in, c, err, want)
		}
		var again Clock
		if err := again.UnmarshalText([]byte(c.String())); err != nil || again != c {
			t.Errorf("%v read back: %v %v", c, again, err)
		}
	}
	for _, bad := range []string{"", "6", "24:00", "6:60", "6:3", "-1:00", "a:bc"} {
		var c Clock
		if err := c.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q is read as %v", bad, c)
		}
	}
}

func TestTextInTheJobsUnits(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Fahrenheit(80).Text(geometry.FeetInches), "80 °F"},
		{Fahrenheit(80).Text(geometry.Millimeters), "26.7 °C"},
		{Celsius(20).Text(geometry.FeetInches), "68 °F"},
		{Celsius(21.5).Text(geometry.Millimeters), "21.5 °C"},
		{Temperature{}.Text(geometry.Millimeters), ""},
		{MilesPerHour(12).Text(geometry.Millimeters), "19.3 km/h"},
		{KilometersPerHour(20).Text(geometry.FeetInches), "12.4 mph"},
		{Speed{}.Text(geometry.FeetInches), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
