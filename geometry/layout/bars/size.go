package bars

import (
	"fmt"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// Size names a bar as it is sold: by the number of ASTM A615/A615M, or by the nominal
// diameter in millimeters of ISO 6935-2 and EN 10080. 0 is no bar. A Size may name a
// bar that is not known here, as a supplier's list does: see Known. Sizes of one kind
// are in the order of their diameters.
type Size int32

// metric is added to the millimeters of a bar that is named by them.
const metric Size = 1 << 16

// Metric gives the size of a bar of so many millimeters.
func Metric(millimeters int) Size { return metric + Size(millimeters) }

// product is what a standard says of a bar.
type product struct {
	size     Size
	soft     int             // metric designation of ASTM A615M: 13 of No. 4
	perFoot  float64         // lb/ft
	perMeter float64         // kg/m
	diameter geometry.Length // nominal
	area     float64         // mm²
}

const (
	mil        = geometry.Inch / 1000
	squareInch = 645.16 // mm²
	mm         = geometry.Millimeter
	// lb/ft of kg/m: both by the agreement of 1959, NIST SP 811.
	perFoot = 0.3048 / 0.45359237
)

// products are checked in the tests against the tables in testdata/reference.
var products = [...]product{
	// ASTM A615/A615M Table 1.
	{3, 10, 0.376, 0.560, 375 * mil, 0.11 * squareInch},
	{4, 13, 0.668, 0.994, 500 * mil, 0.20 * squareInch},
	{5, 16, 1.043, 1.552, 625 * mil, 0.31 * squareInch},
	{6, 19, 1.502, 2.235, 750 * mil, 0.44 * squareInch},
	{7, 22, 2.044, 3.042, 875 * mil, 0.60 * squareInch},
	{8, 25, 2.670, 3.973, 1000 * mil, 0.79 * squareInch},
	// ISO 6935-2, table of nominal diameters, areas and masses; EN 10080 has the same.
	byMillimeters(6, 0.222, 28.3),
	byMillimeters(8, 0.395, 50.3),
	byMillimeters(10, 0.617, 78.5),
	byMillimeters(12, 0.888, 113),
	byMillimeters(14, 1.21, 154),
	byMillimeters(16, 1.58, 201),
	byMillimeters(20, 2.47, 314),
	byMillimeters(25, 3.85, 491),
}

func byMillimeters(n int, perMeter, area float64) product {
	return product{Metric(n), 0, perMeter * perFoot, perMeter, geometry.Length(n) * mm, area}
}

// Sizes lists the bars known: No. 3 to No. 8, and 6 to 25 mm.
func Sizes() []Size {
	var out []Size
	for _, p := range products {
		out = append(out, p.size)
	}
	return out
}

func (s Size) product() product {
	for i := range products {
		if products[i].size == s {
			return products[i]
		}
	}
	return product{}
}

// Known tells whether it is known what the bar weighs and measures.
func (s Size) Known() bool { return s != 0 && s.product().size == s }

// Metric tells whether the bar is named by its diameter in millimeters.
func (s Size) Metric() bool { return s > metric/2 }

// Diameter gives the nominal diameter, 0 of a bar that is not known.
func (s Size) Diameter() geometry.Length { return s.product().diameter }

// Area gives the nominal cross section, mm².
func (s Size) Area() float64 { return s.product().area }

// Soft gives the number that ASTM A615M names the bar by, its diameter rounded to
// millimeters: 13 of No. 4. 0 of others.
func (s Size) Soft() int { return s.product().soft }

// PerFoot gives the nominal weight, lb/ft.
func (s Size) PerFoot() float64 { return s.product().perFoot }

// PerMeter gives the nominal mass, kg/m.
func (s Size) PerMeter() float64 { return s.product().perMeter }

// Standard names where the figures of the bar come from.
func (s Size) Standard() string {
	if s.Metric() {
		return "ISO 6935-2"
	}
	return "ASTM A615/A615M Table 1"
}

// Next gives the next larger bar of the same kind; false for the largest.
func (s Size) Next() (Size, bool) {
	for i, p := range products[:len(products)-1] {
		if p.size == s {
			next := products[i+1].size
			return next, next.Metric() == s.Metric()
		}
	}
	return 0, false
}

// String is what a bar is called everywhere: "No. 4", or by the sign of a diameter,
// "Ø12", as drawings after ISO 3766 have it.
func (s Size) String() string {
	if s.Metric() {
		return "Ø" + strconv.Itoa(int(s-metric))
	}
	return "No. " + strconv.Itoa(int(s))
}

// MarshalText gives the size as files have it: "4", "12 mm".
func (s Size) MarshalText() ([]byte, error) {
	if s.Metric() {
		return []byte(strconv.Itoa(int(s-metric)) + " mm"), nil
	}
	return []byte(strconv.Itoa(int(s))), nil
}

// UnmarshalText reads what MarshalText gives, and what Read does with a number; nothing
// is no bar.
func (s *Size) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = 0
		return nil
	}
	is, err := Read(string(text), geometry.FeetInches)
	if err == nil {
		*s = is
	}
	return err
}

// MarshalJSON writes a number of ASTM A615/A615M as a number, as always, and a
// diameter as a text: 4, "12 mm".
func (s Size) MarshalJSON() ([]byte, error) {
	text, err := s.MarshalText()
	if s.Metric() {
		text = []byte(strconv.Quote(string(text)))
	}
	return text, err
}

// UnmarshalJSON reads what MarshalJSON writes.
func (s *Size) UnmarshalJSON(data []byte) error {
	return s.UnmarshalText([]byte(strings.Trim(string(data), `"`)))
}

// Read reads a size as it is typed in jobs in u: a bare number is a diameter in a
// metric job, "12", else a number, "4"; "#4", "No. 4", "12 mm" and "Ø12" are the same
// everywhere. The error says what would do.
func Read(typed string, u geometry.Units) (Size, error) {
	t := strings.TrimSpace(typed)
	byDiameter := u == geometry.Millimeters
	digits := t
	for _, sign := range [...]struct {
		before, after string
		metric        bool
	}{{"No.", "", false}, {"no.", "", false}, {"#", "", false}, {"Ø", "", true}, {"ø", "", true}, {"⌀", "", true}, {"", "mm", true}} {
		if rest, ok := strings.CutPrefix(digits, sign.before); ok && sign.before != "" {
			digits, byDiameter = rest, sign.metric
		}
		if rest, ok := strings.CutSuffix(digits, sign.after); ok && sign.after != "" {
			digits, byDiameter = rest, sign.metric
		}
	}
	n, err := strconv.Atoi(strings.TrimSpace(digits))
	switch {
	case err != nil || n < 0 || n > mostNamed:
		return 0, fmt.Errorf("found %q, write a bar number, such as 4, or a diameter, such as 12 mm", typed)
	case n > 0 && byDiameter:
		return Metric(n), nil
	}
	return Size(n), nil
}

// mostNamed is above every bar number and diameter.
const mostNamed = 1000
