package field

import (
	"fmt"
	"slices"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// sizes tells whether a choice is of bars, and of which.
type sizes uint8

const (
	noBars    sizes = iota
	knownBars       // those that the program lays
	anyBars         // those of a supplier's list too
)

// bar is a choice of bars: by number in jobs in feet and inches, by diameter in metric
// ones.
func bar(path, label, help string) Row {
	r := choice(path, label, help)
	r.bars = knownBars
	for _, s := range bars.Sizes() {
		in := geometry.FeetInches
		if s.Metric() {
			in = geometry.Millimeters
		}
		r.Names = append(r.Names, Name{Name: inFile(s), Words: s.String(), Only: []geometry.Units{in}})
	}
	return r
}

// any takes bars that the program does not lay as well.
func (r Row) any() Row {
	r.bars = anyBars
	return r
}

// inFile gives a bar as a job file has it.
func inFile(s bars.Size) string {
	text, err := s.MarshalText()
	if err != nil {
		panic(err) // it does not fail
	}
	return string(text)
}

// badBar says what would do instead of a bar; "" where it does.
func (r *Row) badBar(s bars.Size, u geometry.Units) string {
	if s.Known() || s == 0 && r.Zero != "" {
		return ""
	}
	return "write " + r.names(u) + r.orZero()
}

// grades says which of the grades of bars are offered in which jobs, and how they are
// called in metric ones.
func (r Row) grades() Row {
	for i := range r.Names {
		switch n := &r.Names[i]; n.Name {
		case "60":
			n.Metric = "420 MPa"
		case "500":
			n.Metric, n.Only = "500 MPa", []geometry.Units{geometry.Millimeters}
		default:
			n.Only = []geometry.Units{geometry.FeetInches}
		}
	}
	return r
}

// The largest bars that are sold: No. 18 of ASTM A615/A615M, 50 mm of ISO 6935-2.
var mostNumber, leastMetric, mostMetric = bars.Size(18), bars.Metric(4), bars.Metric(50)

// parseBar reads a bar as it is typed: "4", "#4" or "12 mm", in a metric job "12".
func (r *Row) parseBar(t string, u geometry.Units) (any, error) {
	s, err := bars.Read(t, u)
	if err == nil && (s.Known() || r.bars == anyBars && (s <= mostNumber || s >= leastMetric && s <= mostMetric)) {
		return inFile(s), nil
	}
	return nil, fmt.Errorf("found %s; write %s", quoted(t), r.names(u)+r.orZero())
}

// typedBar prints a bar, which a job file has as text, so that parseBar reads it in a
// job in u.
func typedBar(text string, u geometry.Units) string {
	if u == geometry.Millimeters && text != "" && text != "0" && !strings.HasSuffix(text, "mm") {
		return "No. " + text
	}
	return text
}

// offered tells whether a name is one that jobs in u choose from.
func (n Name) offered(u geometry.Units) bool { return len(n.Only) == 0 || slices.Contains(n.Only, u) }

// Said gives what a name is called in jobs in u.
func (n Name) Said(u geometry.Units) string {
	if u == geometry.Millimeters && n.Metric != "" {
		return n.Metric
	}
	return n.Words
}

// Offered lists what a job in u chooses from, and what it has if that is another.
func (r Row) Offered(now any, u geometry.Units) []Name {
	var out []Name
	for _, n := range r.Names {
		if n.offered(u) || n.Name == now {
			out = append(out, n)
		}
	}
	if text, ok := now.(string); ok && r.bars == anyBars && text != "0" && !slices.ContainsFunc(out, func(n Name) bool { return n.Name == text }) {
		out = append(out, Name{Name: text, Words: r.Say(text, u)})
	}
	return out
}
