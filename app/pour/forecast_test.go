package pour

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/date"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// At the limits and just beyond: rain of 30 and 50 %, 40 °F and 32 °F, the day of the pour
// and three days after it.
func TestForecast(t *testing.T) {
	on := date.Of(2026, 12, 10)
	for name, c := range map[string]struct {
		of   Forecast
		want string
		how  rule.Severity
	}{
		"little rain":    {Forecast{Date: on, Rain: 29}, "", 0},
		"some rain":      {Forecast{Date: on, Rain: 30}, "Rain on 2026-12-10", rule.Note},
		"rain":           {Forecast{Date: on, Rain: 50}, "Rain on 2026-12-10", rule.Limit},
		"rain after":     {Forecast{Date: on.Plus(1), Rain: 90}, "", 0},
		"warm enough":    {Forecast{Date: on.Plus(3), Low: Fahrenheit(40)}, "", 0},
		"cold":           {Forecast{Date: on.Plus(3), Low: Fahrenheit(39)}, "The air goes down to 39 °F on 2026-12-13, days after the pour: 3", rule.Limit},
		"freezing":       {Forecast{Date: on.Plus(3), Low: Fahrenheit(32)}, "It freezes on 2026-12-13", rule.Limit},
		"freezing later": {Forecast{Date: on.Plus(4), Low: Fahrenheit(5)}, "", 0},
		"freezing once":  {Forecast{Date: on.Plus(-1), Low: Fahrenheit(5)}, "", 0},
	} {
		got := forecastFindings([]Forecast{c.of}, on, geometry.FeetInches)
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s: %v", name, got)
		case c.want != "" && (len(got) != 1 || !strings.HasPrefix(got[0].Text, c.want) || got[0].Severity != c.how || !OfWeather(got[0])):
			t.Errorf("%s: %v", name, got)
		}
	}
	worst := []Forecast{{Date: on, Low: Fahrenheit(38)}, {Date: on.Plus(2), Low: Fahrenheit(20)}, {Date: on.Plus(1), Low: Fahrenheit(25)}}
	if got := forecastFindings(worst, on, geometry.FeetInches); len(got) != 1 || !strings.Contains(got[0].Text, "2026-12-12, days after the pour: 2, at 20 °F") {
		t.Errorf("the worst night: %v", got)
	}
	if got := forecastFindings(worst, date.Day{}, geometry.FeetInches); len(got) > 0 {
		t.Errorf("without a day: %v", got)
	}
}

func TestReadForecast(t *testing.T) {
	day := date.Of(2026, 12, 10)
	got, err := ReadForecast("2026-12-10\t28 °F\t60 %\r\n\n 2026-12-11, -2C 5%\n2026-12-12 31", geometry.FeetInches)
	want := []Forecast{{day, Fahrenheit(28), 60}, {day.Plus(1), Celsius(-2), 5}, {day.Plus(2), Fahrenheit(31), 0}}
	if err != nil || !cmp.Equal(got, want, cmp.AllowUnexported(Temperature{}, date.Day{})) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
	if got, err := ReadForecast("2026-12-12 -3", geometry.Millimeters); err != nil || got[0].Low != Celsius(-3) {
		t.Errorf("metric: %v, %v", got, err)
	}
	for _, text := range []string{"", "28 °F 60 %", "2026-12-10 sunny", "2026-12-10 120 %", "2026-12-10 x%", "2026-13-10 5 %"} {
		if got, err := ReadForecast(text, geometry.FeetInches); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}
