package tool

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// course is what is said from after some points: turns go to the side that is pointed to.
func (m *Machine) course(points []geometry.Point) plan.Course {
	c := plan.Course{North: m.Doc.Job().Survey.North}
	if n := len(points); n > 1 {
		a, b := points[n-2], points[n-1]
		last := b.Sub(a)
		c.Last = &last
		c.Right = m.Inside && plan.Foot(b, b.Add(plan.Turn(last, 90)), m.Snap.At) < 0
	}
	return c
}

// typedLeg gives where a leg that is typed after some points leads, and whether it only
// says a direction, in degrees: "12'" (the way that is pointed), "12' right",
// "12' at 30° to the last side", "back 4'", "4' right, 3' up", "at 30°".
func (m *Machine) typedLeg(points []geometry.Point, text string) (to geometry.Point, aim *float64, err error) {
	from, c := points[len(points)-1], m.course(points)
	if strings.Contains(text, ",") {
		by, err := plan.ReadSteps(text, c, m.Units())
		return from.Add(by), nil, err
	}
	s, err := plan.ReadStep(text, c, m.Units())
	switch {
	case err != nil:
		return from, nil, err
	case s.Length == 0:
		return from, &s.Degrees, nil
	case s.Aimed:
		return from.Add(s.Vector()), nil, nil
	case from == m.Snap.At:
		return from, nil, fmt.Errorf("say which way, such as 12' right, or point with the mouse or an arrow key")
	}
	return geometry.Along(from, m.Snap.At, s.Length), nil, nil
}

// parseSizes reads a width and a length: "24 x 30".
func parseSizes(text string, u geometry.Units) (w, h geometry.Length, err error) {
	a, b, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(text), "×", "x"), "x")
	if !ok {
		return 0, 0, fmt.Errorf("type a width and a length, such as 24 x 30")
	}
	if w, err = field.Feet.ParseLength(a, u); err == nil {
		h, err = field.Feet.ParseLength(b, u)
	}
	if err == nil && (w == 0 || h == 0) {
		err = fmt.Errorf("a length must be more than 0")
	}
	return w, h, err
}

// readPlace reads a place as it lies from the datum: "12' along, 4' off", or as one goes
// there on the drawing: "12' right, 4' up".
func (m *Machine) readPlace(text string) (geometry.Point, error) {
	d := m.Plan().Datum()
	along, off, two := strings.Cut(text, ",")
	if by, err := plan.ReadSteps(text, m.course(nil), m.Units()); err == nil {
		return d.At().Add(by), nil
	}
	x, err := field.Feet.ParseLength(strings.TrimSuffix(strings.TrimSpace(along), "along"), m.Units())
	if err != nil {
		return geometry.Point{}, err
	}
	if !two {
		return geometry.Point{}, errPlace
	}
	y, err := field.Feet.ParseLength(strings.TrimSuffix(strings.TrimSpace(off), "off"), m.Units())
	return d.Place(geometry.Point{X: x, Y: y}), err
}

var errPlace = errors.New("say where: 12' along, 4' off, or 12' right, 4' up of the datum")

// placeMeaning says where a place that is typed lies.
func placeMeaning(m *Machine, text string) (string, error) {
	p, err := m.readPlace(text)
	return m.from(p), err
}

// typedPlace reads a place, and says where it cannot.
func typedPlace(m *Machine, text string) (geometry.Point, bool) {
	p, err := m.readPlace(text)
	if err != nil {
		m.say(err)
	}
	return p, err == nil
}

// legText says how long a leg is and which way it goes.
func legText(m *Machine, a, b geometry.Point) string {
	return strings.TrimSpace(geometry.Distance(a, b).Text(m.Units()) + " " + plan.Toward(b.Sub(a)))
}

// wayText says a direction in degrees counter-clockwise from right.
func wayText(degrees float64) string {
	const far = 1e9
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return plan.Toward(geometry.Point{X: geometry.Rounded(far * cos), Y: geometry.Rounded(far * sin)})
}
