package estimate

import (
	"fmt"
	"strconv"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// MaxOptions is how many variations stand side by side.
const MaxOptions = 6

// Option is a variation of a job: what is changed, and nothing else.
type Option struct {
	Name     string    `json:"name"`
	Edge     Change    `json:"edge,omitzero"`     // depth of the main section, the others moving with it; see Apply
	Bottom   Change    `json:"bottom,omitzero"`   // flat width of every haunch
	Taper    Change    `json:"taper,omitzero"`    // run of its taper
	Field    Change    `json:"field,omitzero"`    // thickness of the field
	Foam     Change    `json:"foam,omitzero"`     // thickness under the slab; "0" for none
	Bolts    Change    `json:"bolts,omitzero"`    // bolt spacing, at most
	Strength int       `json:"strength,omitzero"` // psi
	Bar      bars.Size `json:"bar,omitzero"`      // of the edges

	FieldSteel FieldChange `json:"fieldsteel,omitzero"` // what reinforces the field
	Fiber      DoseChange  `json:"fiber,omitzero"`      // dose of fibers, lb/yd³; "0" for none
}

// Change is a length to use instead; the zero Change keeps what is.
type Change struct {
	Set bool
	To  geometry.Length
}

// To is the change to l.
func To(l geometry.Length) Change { return Change{true, l} }

func (c Change) or(l geometry.Length) geometry.Length {
	if c.Set {
		return c.To
	}
	return l
}

// MarshalText gives the length; "" for no change.
func (c Change) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return []byte(c.To.Exact(geometry.FeetInches)), nil
}

// UnmarshalText reads what MarshalText gives, and any length with its unit.
func (c *Change) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Change{}
		return nil
	}
	l, err := geometry.ParseWritten(string(text))
	if err != nil {
		return err
	}
	*c = To(l)
	return nil
}

// FieldChange is another reinforcement of the field; the zero FieldChange keeps
// what is.
type FieldChange struct {
	Set bool
	To  field.Kind
}

// MarshalText gives the name of the kind; "" for no change.
func (c FieldChange) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return c.To.MarshalText()
}

// UnmarshalText reads what MarshalText gives.
func (c *FieldChange) UnmarshalText(text []byte) error {
	*c = FieldChange{Set: len(text) > 0}
	if !c.Set {
		return nil
	}
	return c.To.UnmarshalText(text)
}

// DoseChange is another dose of fibers; the zero DoseChange keeps what is.
type DoseChange struct {
	Set bool
	To  float64 // lb/yd³
}

// MarshalText gives the number; "" for no change.
func (c DoseChange) MarshalText() ([]byte, error) {
	if !c.Set {
		return nil, nil
	}
	return strconv.AppendFloat(nil, c.To, 'f', -1, 64), nil
}

// UnmarshalText reads a number of lb/yd³.
func (c *DoseChange) UnmarshalText(text []byte) error {
	*c = DoseChange{}
	if len(text) == 0 {
		return nil
	}
	v, err := strconv.ParseFloat(string(text), 64)
	if err != nil || !(v >= 0 && v <= mostFiber) {
		return fmt.Errorf("write a dose in lb/yd³ from 0 to %d", mostFiber)
	}
	*c = DoseChange{true, v}
	return nil
}

// mostFiber bounds a dose of fibers, lb/yd³.
const mostFiber = 200

// EdgeOptions gives usual edge depths to compare, but for the one in use; none
// for a plan without a haunch.
func EdgeOptions(p []plan.Plan, u geometry.Units) []Option {
	main, ok := MainSection(p)
	if !ok {
		return nil
	}
	depths := []geometry.Length{8 * geometry.Inch, 12 * geometry.Inch, 16 * geometry.Inch, 20 * geometry.Inch, 24 * geometry.Inch}
	if u == geometry.Millimeters {
		depths = []geometry.Length{200 * geometry.Millimeter, 300 * geometry.Millimeter, 400 * geometry.Millimeter, 500 * geometry.Millimeter, 600 * geometry.Millimeter}
	}
	var out []Option
	for _, d := range depths {
		if d != main.Depth && d >= Field(p) {
			out = append(out, Option{Name: "Edge " + d.Text(u), Edge: To(d)})
		}
	}
	return out
}
