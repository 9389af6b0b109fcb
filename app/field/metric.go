package field

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// A metric job goes by metric sizes, not by inches converted: where a row does not give
// its own, a foot is 300 mm and an inch is 25 mm, rounded to what rules are marked in.
// So do ACI 318M beside ACI 318, with a cover of 75 mm for 3 in and 40 mm for 1 1/2 in,
// and what is sold: sheets of 1200 by 2400 mm, bars of 6 m.

// Sized gives what is used in jobs in u where others use that length: 2700 mm for 9 ft.
func Sized(l geometry.Length, u geometry.Units) geometry.Length {
	if u == geometry.Millimeters {
		return geometry.Length(round(float64(l)))
	}
	return l
}

// round gives the metric size beside a length in nanometers.
func round(v float64) float64 {
	const mm = 1e6
	if v == 0 || math.Mod(v, 1000*mm) == 0 || math.Abs(v) >= far { // metric by itself, or no bound
		return v
	}
	v = v / inch * 25 * mm
	return math.Copysign(multiple(math.Abs(v))*math.RoundToEven(math.Abs(v)/multiple(math.Abs(v))), v)
}

// multiple is what a metric length of about v is a multiple of.
func multiple(v float64) float64 {
	const mm = 1e6
	switch {
	case v < 5*mm:
		return mm / 2
	case v < 30*mm:
		return mm
	case v < 1000*mm:
		return 5 * mm
	}
	return 50 * mm
}

// wide gives what a metric job refuses outside of: never less than a job in feet and
// inches takes, so that either can be shown in the units of the other.
func wide(b Range) Range {
	const mm = 1e6
	least, most := round(b.Least), round(b.Most)
	for least > b.Least {
		least -= multiple(math.Abs(least))
	}
	if most < b.Most {
		digits := math.Pow(10, math.Floor(math.Log10(math.Abs(b.Most)))-1)
		most = math.Ceil(b.Most/max(digits, mm)) * max(digits, mm)
	}
	b.Least, b.Most = least, most
	return b
}

// inMetric gives the row of a job in millimeters.
func (r Row) inMetric() *Row {
	length := r.Kind.Length()
	if r.si != nil {
		r.Default = r.si
	} else {
		r.Default = r.metricValue(r.Default)
	}
	if length {
		r.Hard = wide(r.Hard)
		r.Usual.Least, r.Usual.Most = round(r.Usual.Least), round(r.Usual.Most)
	}
	r.AtLeast, r.AtMost = relationsIn(r.AtLeast, length), relationsIn(r.AtMost, length)
	if r.siHelp != "" {
		r.Help = r.siHelp
	}
	r.Help = inMillimeters(r.Help, round)
	if r.siSource != "" {
		r.Source = r.siSource
	}
	exact := func(v float64) float64 { return math.Round(v/1e6) * 1e6 } // what a code says
	r.Source, r.Usual.Source = inMillimeters(r.Source, exact), inMillimeters(r.Usual.Source, exact)
	if r.siUsual != "" {
		r.Usual.Source = r.siUsual
	}
	return &r
}

func relationsIn(list []Relation, length bool) (out []Relation) {
	for _, r := range list {
		if length {
			r.Plus = round(r.Plus)
		}
		out = append(out, r)
	}
	return out
}

// metricValue gives a default for a metric job.
func (r *Row) metricValue(x any) any {
	switch x := x.(type) {
	case int:
		return r.metricValue(float64(x))
	case float64:
		if r.Kind.Length() {
			return round(x)
		}
	case []float64:
		var out []float64
		for _, l := range x {
			out = append(out, round(l))
		}
		if r.Kind.Length() && out != nil {
			return out
		}
	}
	return x
}

// spoken is one or more sizes in a sentence: "4 in", "12 to 24 in", "10, 40 and 60 ft".
var (
	spoken = regexp.MustCompile(`(?:\d+ )?\d+(?:/\d+)?(?:(?:, | to | and | or )(?:\d+ )?\d+(?:/\d+)?)* (?:in|ft)\b`)
	figure = regexp.MustCompile(`(?:\d+ )?\d+/\d+|\d+`)
)

// inMillimeters turns the sizes in a text into millimeters.
func inMillimeters(text string, to func(float64) float64) string {
	return spoken.ReplaceAllStringFunc(text, func(s string) string {
		unit := inch
		if strings.HasSuffix(s, "ft") {
			unit = foot
		}
		s = strings.TrimRight(s, "infty")
		return figure.ReplaceAllStringFunc(s, func(n string) string {
			v := 0.0
			for _, part := range strings.Fields(n) {
				over, under, broken := strings.Cut(part, "/")
				a, _ := strconv.ParseFloat(over, 64) // digits
				if b, _ := strconv.ParseFloat(under, 64); broken {
					a /= b
				}
				v += a
			}
			return strconv.FormatFloat(to(v*unit)/1e6, 'f', -1, 64)
		}) + "mm"
	})
}

// in gives the row of a job in u.
func (r *Row) in(u geometry.Units) *Row {
	if u == geometry.Millimeters && r.metric != nil {
		return r.metric
	}
	return r
}

// at is in for a row that was handed out, whose path may have lost its "[]".
func (r Row) at(u geometry.Units) Row {
	if m := r.in(u); m != &r {
		is := *m
		is.Path = r.Path
		return is
	}
	return r
}

// inSI gives the default of a metric job, and the help where its sizes do not follow from
// those in inches; "" where they do.
func (r Row) inSI(v any, help string) Row {
	r.si, r.siHelp = v, help
	return r
}

// tradeSI says for a metric job who says what the trade uses.
func (r Row) tradeSI(source string) Row {
	r.siUsual = source
	return r
}

// bySI gives the source of that default, where it is another.
func (r Row) bySI(source string) Row {
	r.siSource = source
	return r
}
