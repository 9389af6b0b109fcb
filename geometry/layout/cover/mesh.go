package cover

import "haunchbook.example/geometry"

// MeshStyle is a stock style of plain welded wire reinforcement.
type MeshStyle struct {
	Name     string
	Spacing  geometry.Length // of the wires, both ways
	Area     float64         // in² of steel per foot of width, each way
	PerSheet float64         // lb per 100 ft²
}

// meshStyles is checked in the tests against the table in testdata/reference:
// ASTM A1064/A1064M.
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
}

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

// MeshLap is one square of the mesh plus 2 in: common practice.
func (m MeshStyle) MeshLap() geometry.Length { return m.Spacing + 2*geometry.Inch }
