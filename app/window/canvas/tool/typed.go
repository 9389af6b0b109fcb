package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// leg is what a typed step from the last point means.
type leg struct {
	length  geometry.Length
	degrees float64 // counter-clockwise from right
	angled  bool    // whether degrees was typed
	by      geometry.Point
	pair    bool // whether a pair was typed, in by
}

// parseLeg reads "12-6" (in the direction pointed at), "12-6 < 30" (in a typed
// direction), "< 30" (that direction alone, with no length) or "12-6, 4" (right
// and up).
func parseLeg(text string, u geometry.Units) (leg, error) {
	if x, y, ok := strings.Cut(text, ","); ok {
		p, err := parsePair(x, y, u)
		return leg{by: p, pair: true}, err
	}
	length, angle, angled := strings.Cut(text, "<")
	var l geometry.Length
	if strings.TrimSpace(length) != "" || !angled {
		var err error
		if l, err = field.Feet.ParseLength(length, u); err != nil {
			return leg{}, err
		}
		if l == 0 {
			return leg{}, fmt.Errorf("a length must be more than 0")
		}
	}
	out := leg{length: l, angled: angled}
	if angled {
		angle = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(angle), "°"))
		d, err := strconv.ParseFloat(angle, 64)
		if err != nil || math.Abs(d) > 360 || math.IsNaN(d) {
			return leg{}, fmt.Errorf("%q is no angle; write degrees counter-clockwise from right, such as 12' < 30", angle)
		}
		out.degrees = d
	}
	return out, nil
}

// parsePair reads two lengths.
func parsePair(x, y string, u geometry.Units) (geometry.Point, error) {
	px, err := field.Feet.ParseLength(x, u)
	if err != nil {
		return geometry.Point{}, err
	}
	py, err := field.Feet.ParseLength(y, u)
	return geometry.Point{X: px, Y: py}, err
}

// parseSizes reads a width and a length: "24, 30" or "24 x 30".
func parseSizes(text string, u geometry.Units) (w, h geometry.Length, err error) {
	a, b, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(text), "×", "x"), "x")
	if !ok {
		a, b, ok = strings.Cut(text, ",")
	}
	if !ok {
		return 0, 0, fmt.Errorf("type a width and a length, such as 24 x 30")
	}
	p, err := parsePair(a, b, u)
	if err == nil && (p.X == 0 || p.Y == 0) {
		err = fmt.Errorf("a length must be more than 0")
	}
	return p.X, p.Y, err
}

// from gives where the leg leads from a point, with a direction pointed at for a
// leg that has none of its own.
func (l leg) from(p geometry.Point, pointed geometry.Point) (geometry.Point, error) {
	switch {
	case l.pair:
		return p.Add(l.by), nil
	case l.angled:
		return p.Add(plan.Turn(geometry.Point{X: l.length}, l.degrees)), nil
	case p == pointed:
		return p, fmt.Errorf("point a direction with the mouse or an arrow key first")
	}
	return geometry.Along(p, pointed, l.length), nil
}

// readPair reads two lengths with a comma between.
func readPair(text string, u geometry.Units) (geometry.Point, error) {
	x, y, ok := strings.Cut(text, ",")
	if !ok {
		return geometry.Point{}, fmt.Errorf("type two lengths with a comma between")
	}
	return parsePair(x, y, u)
}

// typedPlace reads a place that is typed as two lengths from the datum.
func typedPlace(m *Machine, text string) (geometry.Point, bool) {
	p, err := readPair(text, m.Units())
	if err != nil {
		m.say(err)
		return p, false
	}
	return m.Plan().Datum().Place(p), true
}
