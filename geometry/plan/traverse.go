package plan

import (
	"fmt"
	"math"
	"strings"

	"haunchbook.example/geometry"
)

// Traverse is an outline given leg by leg, each from the end of the one before.
type Traverse struct {
	Corners geometry.Ring    // where each leg starts; the first is the origin
	Legs    []geometry.Point // each leg as a vector
	// Gap is the misclosure: from where the last leg ends to the first corner.
	// A traverse whose last leg was left for the program to close has none.
	Gap geometry.Point
}

// Misclosure gives the length of the gap.
func (t Traverse) Misclosure() geometry.Length { return geometry.Distance(geometry.Point{}, t.Gap) }

// Ring gives the outline with the gap as it is: where it is not zero, the end of
// the last leg is a corner of its own.
func (t Traverse) Ring() geometry.Ring {
	if t.Gap == (geometry.Point{}) {
		return t.Corners
	}
	last := t.Corners[len(t.Corners)-1].Add(t.Legs[len(t.Legs)-1])
	return append(append(geometry.Ring{}, t.Corners...), last)
}

// Spread shares the gap out over the legs in proportion to their lengths: the
// compass rule of surveying, which N. Bowditch published in 1808.
func (t Traverse) Spread() Traverse {
	var total, run float64
	for _, v := range t.Legs {
		total += math.Hypot(float64(v.X), float64(v.Y))
	}
	if total == 0 {
		return t
	}
	legs := make([]geometry.Point, len(t.Legs))
	var given geometry.Point
	for i, v := range t.Legs {
		run += math.Hypot(float64(v.X), float64(v.Y))
		upTo := geometry.Point{X: geometry.Rounded(float64(t.Gap.X) * run / total), Y: geometry.Rounded(float64(t.Gap.Y) * run / total)}
		legs[i] = v.Add(upTo.Sub(given))
		given = upTo
	}
	return fromVectors(legs)
}

// InLeg puts the whole gap into leg i.
func (t Traverse) InLeg(i int) (Traverse, error) {
	if i < 0 || i >= len(t.Legs) {
		return t, noSuch("leg", i, len(t.Legs))
	}
	legs := append([]geometry.Point{}, t.Legs...)
	legs[i] = legs[i].Add(t.Gap)
	return fromVectors(legs), nil
}

// Through gives the legs from each point to the next; the gap is from the last
// point to the first.
func Through(points geometry.Ring) Traverse {
	var legs []geometry.Point
	for i := 1; i < len(points); i++ {
		legs = append(legs, points[i].Sub(points[i-1]))
	}
	return fromVectors(legs)
}

func fromVectors(legs []geometry.Point) Traverse {
	t := Traverse{Legs: legs}
	var at geometry.Point
	for _, v := range legs {
		t.Corners = append(t.Corners, at)
		at = at.Add(v)
	}
	t.Gap = geometry.Point{}.Sub(at)
	return t
}

// FromLegs reads an outline from a list of legs separated by commas, semicolons
// or lines, each a length and a direction as ReadStep has them, of which the last may be
// "back to start":
//
//	24' right, 12' up, 10'-6" left, 8' up left, 6' at 195°
//
// The error names the leg.
func FromLegs(text string, north North, u geometry.Units) (Traverse, error) {
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' })
	var legs []geometry.Point
	var at geometry.Point
	for _, f := range fields {
		f = strings.TrimSpace(f)
		if f == "" {
			continue
		}
		v := geometry.Point{}.Sub(at)
		if !strings.EqualFold(strings.Join(strings.Fields(f), " "), "back to start") {
			c := Course{North: north}
			if n := len(legs); n > 0 {
				c.Last = &legs[n-1]
			}
			s, err := ReadStep(f, c, u)
			if err == nil && !s.Aimed {
				err = fmt.Errorf("found %q, which has no direction; say right, left, up, down or degrees, such as 24' right or 6' at 45°", f)
			}
			if err == nil && s.Length == 0 {
				err = fmt.Errorf("found %q, which has no length", f)
			}
			if err != nil {
				return Traverse{}, fmt.Errorf("leg %d: %w", len(legs)+1, err)
			}
			v = s.Vector()
		}
		legs = append(legs, v)
		at = at.Add(v)
	}
	if len(legs) < 3 {
		return Traverse{}, fmt.Errorf("found %s; give at least three, such as 24' right, 30' up, 24' left, back to start", count(len(legs), "leg"))
	}
	return fromVectors(legs), nil
}
