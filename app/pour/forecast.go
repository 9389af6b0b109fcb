package pour

import (
	"fmt"
	"strconv"
	"strings"

	"haunchbook.example/app/date"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// Forecast is what is expected of one day: of that of the pour, and of those after it.
type Forecast struct {
	Date date.Day    `json:"date"`
	Low  Temperature `json:"low,omitzero"`  // of the air, the least of the day and its night
	Rain float64     `json:"rain,omitzero"` // how likely, percent
}

// How likely rain is to be told of, and to be minded (common practice, no source).
const rainTold, rainLikely = 30, 50

// forecastFindings holds what is expected against the day of the pour: rain on it, and cold
// from it to the end of the protection period.
func forecastFindings(all []Forecast, on date.Day, u geometry.Units) (out []rule.Finding) {
	if !on.Known() {
		return nil
	}
	var cold Forecast
	for _, f := range all {
		after := f.Date.Since(on)
		if after == 0 && f.Rain >= rainTold {
			how := rule.Note
			if f.Rain >= rainLikely {
				how = rule.Limit
			}
			out = append(out, found("Rain", practice, how, "Rain on %s, the day of the pour: %g %%. Have sheeting at hand, finish no water into the top, and have another day ready.", f.Date, f.Rain))
		}
		if after >= 0 && after <= protectDays && f.Low.Known() && f.Low.F() < coldAirF && (!cold.Low.Known() || f.Low.F() < cold.Low.F()) {
			cold = f
		}
	}
	switch {
	case !cold.Low.Known():
	case cold.Low.C() <= 0:
		out = append(out, found("Freezing nights", "ACI 306R; protection period from memory", rule.Limit, "It freezes on %s, days after the pour: %d, at %s: cover and heat for the protection period of %d days, and let it not freeze before %s.",
			cold.Date, cold.Date.Since(on), cold.Low.Text(u), protectDays, frostStrength(u)))
	default:
		out = append(out, found("Freezing nights", "ACI 306R; protection period from memory", rule.Limit, "The air goes down to %s on %s, days after the pour: %d; below %s, protect it for %d days.",
			cold.Low.Text(u), cold.Date, cold.Date.Since(on), Fahrenheit(coldAirF).Text(u), protectDays))
	}
	return out
}

// ReadForecast reads days as they are copied from a forecast: a line each, with a day and
// beside it the least temperature and how likely rain is: "2026-12-10 28 °F 60 %". A
// temperature without a unit is in the job's.
func ReadForecast(text string, u geometry.Units) ([]Forecast, error) {
	var out []Forecast
	for i, line := range strings.Split(text, "\n") {
		line = strings.NewReplacer(" %", "%", " °", "°", "° ", "°", "\t", " ", "\r", " ", ";", " ", ",", " ").Replace(line)
		if strings.TrimSpace(line) == "" {
			continue
		}
		f, err := readForecast(strings.Fields(line), u)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("found nothing; copy lines such as 2026-12-10 28 °F 60 %%")
	}
	return out, nil
}

func readForecast(words []string, u geometry.Units) (f Forecast, err error) {
	for _, w := range words {
		rain, percent := strings.CutSuffix(w, "%")
		var day date.Day
		var low Temperature
		if _, bare := strconv.ParseFloat(w, 64); bare == nil {
			if low = Fahrenheit(0); u == geometry.Millimeters {
				low = Celsius(0)
			}
			w += low.String()[len(low.String())-1:]
		}
		switch {
		case percent:
			if f.Rain, err = strconv.ParseFloat(rain, 64); err != nil || !(f.Rain >= 0 && f.Rain <= 100) {
				return f, fmt.Errorf("found %q; write how likely rain is, from 0 %% to 100 %%", w)
			}
		case day.UnmarshalText([]byte(w)) == nil && day.Known():
			f.Date = day
		case low.UnmarshalText([]byte(w)) == nil && low.Known():
			f.Low = low
		default:
			return f, fmt.Errorf("found %q; write a day, the least temperature and how likely rain is, such as 2026-12-10 28 °F 60 %%", w)
		}
	}
	if !f.Date.Known() {
		return f, fmt.Errorf("found no day; write it as 2026-12-10")
	}
	return f, nil
}
