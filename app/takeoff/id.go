package takeoff

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

// ID says which quantity a line of the takeoff is: the kind of thing, and what
// tells one of the kind from another. It is small and can be compared. Attributes
// that a kind does not have are zero.
//
// A price list, work, a fee, or what others supply names with an ID what it is
// for: there an attribute left out stands for any. See Fits.
type ID struct {
	Kind      Kind            `json:"kind"`
	Bar       bars.Size       `json:"bar,omitzero"`       // of a bar: 4, "12 mm"
	Size      string          `json:"size,omitzero"`      // nominal size of lumber: "2x12"
	Style     string          `json:"style,omitzero"`     // of mesh, ASTM A1064/A1064M: "6x6-W1.4xW1.4"
	Mil       int             `json:"mil,omitzero"`       // thickness of a vapor retarder, mil
	Strength  int             `json:"strength,omitzero"`  // of a mix, psi at 28 days
	Diameter  geometry.Length `json:"diameter,omitzero"`  // of a bolt
	Thickness geometry.Length `json:"thickness,omitzero"` // of foam
	Depth     geometry.Length `json:"depth,omitzero"`     // of a hole
	Width     geometry.Length `json:"width,omitzero"`     // of a sheet, a roll or a washer
	Length    geometry.Length `json:"length,omitzero"`    // of a bar, a board, a bolt, a sheet or a roll
	Form      Form            `json:"form,omitzero"`      // as bought
	Shape     string          `json:"shape,omitzero"`     // of a bolt: "bent" or "headed"
	Name      string          `json:"name,omitzero"`      // of the Unknown: what an older file called it
}

// Form is how goods that cover an area are sold.
type Form string

const (
	Sheet Form = "sheet"
	Roll  Form = "roll"
)

// IsZero tells whether the ID names nothing.
func (id ID) IsZero() bool { return id == ID{} }

// Fits tells whether id is what p names: of its kind, and alike in every
// attribute that p has.
func (p ID) Fits(id ID) bool {
	return p.Kind == id.Kind && p.Kind != Unknown &&
		fits(p.Bar, id.Bar) && fits(p.Size, id.Size) && fits(p.Style, id.Style) && fits(p.Mil, id.Mil) && fits(p.Strength, id.Strength) &&
		fits(p.Diameter, id.Diameter) && fits(p.Thickness, id.Thickness) && fits(p.Depth, id.Depth) &&
		fits(p.Width, id.Width) && fits(p.Length, id.Length) && fits(p.Form, id.Form) && fits(p.Shape, id.Shape)
}

func fits[T comparable](p, v T) bool {
	var none T
	return p == none || p == v
}

// Named counts the attributes that p has: of two that fit, the one with more is
// the closer.
func (p ID) Named() int {
	n := 0
	for _, has := range [...]bool{p.Bar != 0, p.Size != "", p.Style != "", p.Mil != 0, p.Strength != 0, p.Diameter != 0, p.Thickness != 0,
		p.Depth != 0, p.Width != 0, p.Length != 0, p.Form != "", p.Shape != ""} {
		if has {
			n++
		}
	}
	return n
}

// Text names what id is for people, everywhere alike: "Bar No. 4 × 20'-0\"". Of an
// ID in a price list, it names what it is for: "Bar No. 4". Lengths are printed in
// u.
func (id ID) Text(u geometry.Units) string {
	if id.Kind == Unknown {
		return id.Name
	}
	noun, after, _ := strings.Cut(kinds[id.Kind].noun, ";")
	var b strings.Builder
	b.WriteString(noun)
	add := func(has bool, format string, a ...any) {
		if has {
			fmt.Fprintf(&b, format, a...)
		}
	}
	add(id.Bar != 0, " %s", id.Bar)
	add(id.Size != "", " %s", id.Size)
	add(id.Style != "", " %s", id.Style)
	add(id.Mil != 0, " %s", Mils(id.Mil, u))
	add(id.Strength != 0, " of %s", StrengthText(id.Strength, u))
	add(id.Diameter != 0, " %s", id.Diameter.Text(u))
	add(id.Thickness != 0, " %s", id.Thickness.Text(u))
	switch {
	case id.Width != 0 && id.Length != 0:
		add(true, ", %s × %s", id.Width.Text(u), id.Length.Text(u))
	case id.Width != 0:
		add(true, ", %s wide", id.Width.Text(u))
	case id.Length != 0:
		add(true, " × %s", id.Length.Text(u))
	}
	add(id.Form != "", " %ss", id.Form)
	add(id.Depth != 0, ", %s deep", id.Depth.Text(u))
	add(id.Shape != "", ", %s", id.Shape)
	return b.String() + after
}

// MarshalJSON writes the attributes that id has; lengths as a job file has them.
func (id ID) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(fileID{
		id.Kind, id.Bar, id.Size, id.Style, id.Mil, id.Strength,
		lengthText(id.Diameter), lengthText(id.Thickness), lengthText(id.Depth), lengthText(id.Width), lengthText(id.Length),
		id.Form, id.Shape, id.Name,
	})
	return bytes.TrimSpace(b.Bytes()), err
}

// UnmarshalJSON reads what MarshalJSON writes.
func (id *ID) UnmarshalJSON(data []byte) error {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	var f fileID
	if err := dec.Decode(&f); err != nil {
		return err
	}
	*id = ID{
		f.Kind, f.Bar, f.Size, f.Style, f.Mil, f.Strength,
		geometry.Length(f.Diameter), geometry.Length(f.Thickness), geometry.Length(f.Depth), geometry.Length(f.Width), geometry.Length(f.Length),
		f.Form, f.Shape, f.Name,
	}
	return nil
}

// fileID is an ID in a file of prices.
type fileID struct {
	Kind      Kind       `json:"kind"`
	Bar       bars.Size  `json:"bar,omitzero"`
	Size      string     `json:"size,omitzero"`
	Style     string     `json:"style,omitzero"`
	Mil       int        `json:"mil,omitzero"`
	Strength  int        `json:"strength,omitzero"`
	Diameter  lengthText `json:"diameter,omitzero"`
	Thickness lengthText `json:"thickness,omitzero"`
	Depth     lengthText `json:"depth,omitzero"`
	Width     lengthText `json:"width,omitzero"`
	Length    lengthText `json:"length,omitzero"`
	Form      Form       `json:"form,omitzero"`
	Shape     string     `json:"shape,omitzero"`
	Name      string     `json:"name,omitzero"`
}

// lengthText is a length that is written with its unit.
type lengthText geometry.Length

func (l lengthText) MarshalText() ([]byte, error) {
	return []byte(geometry.Length(l).Exact(geometry.FeetInches)), nil
}

func (l *lengthText) UnmarshalText(text []byte) error {
	v, err := geometry.ParseWritten(string(text))
	*l = lengthText(v)
	return err
}

// psiPerMPa: 1 psi is 0.006 894 757 MPa, NIST SP 811, appendix B.
const psiPerMPa = 1 / 0.006894757

// MPa gives a strength that is sold as whole megapascals in psi, to the whole one.
func MPa(n int) int { return int(math.Round(float64(n) * psiPerMPa)) }

// StrengthText writes a strength in the units of a job: "3000 psi", "20.7 MPa (3000
// psi)", and one that is sold as whole megapascals "25 MPa".
func StrengthText(psi int, u geometry.Units) string {
	mpa := float64(psi) / psiPerMPa
	switch {
	case u == geometry.Millimeters && MPa(int(math.Round(mpa))) == psi:
		return fmt.Sprintf("%.0f MPa", mpa)
	case u == geometry.Millimeters:
		return fmt.Sprintf("%.1f MPa (%d psi)", mpa, psi)
	}
	return fmt.Sprintf("%d psi", psi)
}

// Mils prints a thickness of sheeting: "10 mil", or "0.25 mm (10 mil)".
func Mils(n int, u geometry.Units) string {
	if u == geometry.Millimeters {
		return fmt.Sprintf("%.2f mm (%d mil)", float64(n)*0.0254, n)
	}
	return fmt.Sprintf("%d mil", n)
}
