package bars

import "strconv"

// Grade is the yield strength by which bars are sold: in ksi, as ASTM A615/A615M has
// it, 40, 60 or 80; or B500, 500 MPa, of EN 10080 and ISO 6935-2.
type Grade int

// B500 is what most bars sold by millimeters are.
const B500 Grade = 500

// leastMPa is from where on a grade counts MPa.
const leastMPa = 200

// String is what the grade is called: "Grade 60", "B500".
func (g Grade) String() string {
	if g >= leastMPa {
		return "B" + strconv.Itoa(int(g))
	}
	return "Grade " + strconv.Itoa(int(g))
}

// psi gives the yield strength; 1 MPa is 145.0377 psi (NIST SP 811).
func (g Grade) psi() float64 {
	if g >= leastMPa {
		return 145.0377 * float64(g)
	}
	return 1000 * float64(g)
}

// Makes tells whether a bar is made in the grade: grade 40 goes to No. 6 (ASTM
// A615/A615M), B500 has no bar numbers. Bars by millimeters come in 420 MPa, grade 60,
// too, as B420 of ISO 6935-2.
func (g Grade) Makes(s Size) bool {
	switch {
	case g >= leastMPa:
		return s.Metric()
	case s.Metric():
		return g == 60
	case g == 40:
		return s <= 6
	}
	return true
}
