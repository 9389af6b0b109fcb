package cover

import (
	"math"

	"haunchbook.example/geometry"
)

// MeshStyle is a stock style of welded wire reinforcement.
type MeshStyle struct {
	Name     string
	Spacing  geometry.Length // of the wires, both ways
	Area     float64         // in² of steel per foot of width, each way
	PerSheet float64         // lb per 100 ft²
}

// meshStyles is checked in the tests against the table in testdata/reference:
// ASTM A1064/A1064M, and fabric of ISO 6935-3.
var meshStyles = [...]MeshStyle{
	{"6x6-W1.4xW1.4", 6 * geometry.Inch, 0.028, 21},
	{"6x6-W2.0xW2.0", 6 * geometry.Inch, 0.040, 29},
	{"6x6-W2.9xW2.9", 6 * geometry.Inch, 0.058, 42},
	{"6x6-W4.0xW4.0", 6 * geometry.Inch, 0.080, 58},
	{"4x4-W1.4xW1.4", 4 * geometry.Inch, 0.042, 31},
	{"4x4-W2.0xW2.0", 4 * geometry.Inch, 0.060, 43},
	{"4x4-W2.9xW2.9", 4 * geometry.Inch, 0.087, 62},
	{"4x4-W4.0xW4.0", 4 * geometry.Inch, 0.120, 85},
	{"6x6-W5.5xW5.5", 6 * geometry.Inch, 0.110, 80},
	byMillimeters("200x200-5x5", 200, 5, 0.154),
	byMillimeters("200x200-6x6", 200, 6, 0.222),
	byMillimeters("200x200-7x7", 200, 7, 0.302),
	byMillimeters("200x200-8x8", 200, 8, 0.395),
	byMillimeters("150x150-5x5", 150, 5, 0.154),
	byMillimeters("150x150-6x6", 150, 6, 0.222),
	byMillimeters("150x150-8x8", 150, 8, 0.395),
}

// byMillimeters is a welded fabric that is named by the spacing of its wires and their
// diameters both ways: the masses of wires, kg/m, are of ISO 6935-3; EN 10080 has the
// same.
func byMillimeters(name string, spacing, wire int, perMeter float64) MeshStyle {
	perFoot := 304.8 / float64(spacing) // wires in a foot of width
	return MeshStyle{
		name, geometry.Length(spacing) * geometry.Millimeter,
		math.Pi / 4 * float64(wire*wire) / 645.16 * perFoot,
		2 * 100 * perFoot * 0.3048 * perMeter / 0.45359237,
	}
}

// Metric tells whether the style is named by millimeters.
func (m MeshStyle) Metric() bool { return m.Spacing%geometry.Millimeter == 0 }

// PerArea gives kg in a square meter.
func (m MeshStyle) PerArea() float64 { return m.PerSheet / 100 * 0.45359237 / (0.3048 * 0.3048) }

// MeshStyles lists the styles known.
func MeshStyles() []MeshStyle { return append([]MeshStyle(nil), meshStyles[:]...) }

// MeshNamed gives the style of that name.
func MeshNamed(name string) (MeshStyle, bool) {
	for _, m := range meshStyles {
		if m.Name == name {
			return m, true
		}
	}
	return MeshStyle{}, false
}

// MeshLap is one square of the mesh plus 2 in, or 50 mm: common practice.
func (m MeshStyle) MeshLap() geometry.Length {
	if m.Metric() {
		return m.Spacing + 50*geometry.Millimeter
	}
	return m.Spacing + 2*geometry.Inch
}
