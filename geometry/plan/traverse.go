package plan

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
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
// or lines, each a length and a direction:
//
//	24' E, 12' N, 10'-6" W, 8' NW, 6' at 195
//
// A direction is N, E, S, W, one of the four between, or degrees
// counter-clockwise from E; a quadrant bearing such as N30W turns 30 degrees
// from N toward W. The last leg may be "close". Lengths without a unit are read
// in u. The error names the leg.
func FromLegs(text string, u geometry.Units) (Traverse, error) {
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' })
	var legs []geometry.Point
	var at geometry.Point
	for _, f := range fields {
		f = strings.TrimSpace(f)
		if f == "" {
			continue
		}
		if strings.EqualFold(f, "close") {
			legs = append(legs, geometry.Point{}.Sub(at))
			at = geometry.Point{}
			continue
		}
		v, err := leg(f, u)
		if err != nil {
			return Traverse{}, fmt.Errorf("leg %d: %w", len(legs)+1, err)
		}
		legs = append(legs, v)
		at = at.Add(v)
	}
	if len(legs) < 3 {
		return Traverse{}, fmt.Errorf("found %s; give at least three, such as 24' E, 30' N, 24' W, 30' S", count(len(legs), "leg"))
	}
	return fromVectors(legs), nil
}

var (
	direction = regexp.MustCompile(`(?i)^(.*?)\s*(?:(n|s)\s*([0-9.]+)\s*°?\s*(e|w)|(ne|nw|se|sw|north|east|south|west|[nesw])|(?:at|@)\s*(-?[0-9.]+)\s*°?)$`)
	compass   = map[string]float64{
		"e": 0, "ne": 45, "n": 90, "nw": 135, "w": 180, "sw": 225, "s": 270, "se": 315,
		"east": 0, "north": 90, "west": 180, "south": 270,
	}
)

func leg(s string, u geometry.Units) (geometry.Point, error) {
	m := direction.FindStringSubmatch(s)
	if m == nil {
		return geometry.Point{}, fmt.Errorf("found %q, which has no direction; write a length and N, E, S, W or degrees, such as 24' E or 6' at 45", s)
	}
	length, err := geometry.ParseLength(m[1], u.Foot())
	if err != nil {
		return geometry.Point{}, err
	}
	if length <= 0 {
		return geometry.Point{}, fmt.Errorf("found %q; a leg must be longer than 0", s)
	}
	degrees, err := bearing(m)
	if err != nil {
		return geometry.Point{}, fmt.Errorf("found %q: %w", s, err)
	}
	return Turn(geometry.Point{X: length}, degrees), nil
}

// bearing gives the direction that the expression matched, in degrees
// counter-clockwise from E.
func bearing(m []string) (float64, error) {
	switch {
	case m[5] != "":
		return compass[strings.ToLower(m[5])], nil
	case m[6] != "":
		return parseDegrees(m[6], 360)
	}
	turn, err := parseDegrees(m[3], 90)
	if err != nil {
		return 0, err
	}
	north, east := strings.EqualFold(m[2], "n"), strings.EqualFold(m[4], "e")
	switch {
	case north && east:
		return 90 - turn, nil
	case north:
		return 90 + turn, nil
	case east:
		return 270 + turn, nil
	}
	return 270 - turn, nil
}

func parseDegrees(s string, limit float64) (float64, error) {
	d, err := strconv.ParseFloat(s, 64)
	if err != nil || math.Abs(d) > limit {
		return 0, fmt.Errorf("%q is no angle; write degrees up to %g", s, limit)
	}
	return d, nil
}
