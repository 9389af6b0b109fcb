package plan

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
)

// Course is what directions are said from.
type Course struct {
	Last  *geometry.Point // the side before, as a vector; nil before the first
	Right bool            // a turn that does not say which way goes right, else left
	North North           // compass words count where it is known
}

// Step is how far one goes, and which way.
type Step struct {
	Length  geometry.Length // 0 where only a direction was said
	Degrees float64         // counter-clockwise from right
	Aimed   bool            // whether a direction was said
}

// Vector gives the step as a vector.
func (s Step) Vector() geometry.Point { return Turn(geometry.Point{X: s.Length}, s.Degrees) }

// A length before a word: what stands before it ends in no letter, so that the last
// letter of a unit is no direction.
const before = `^(|.*?[^a-z])`

var (
	pointing = regexp.MustCompile(before + `(?:(up|down|left|right)[ -]+(up|down|left|right)|(up|down|left|right|u|d|l|r))$`)
	turning  = regexp.MustCompile(`^(.*?)\s*(?:at\s*(-?[0-9.]+)\s*(?:°|deg|degrees)?|\b([0-9.]+)\s*°)\s*(left|right)?\s*((?:to|of|off|from)\s+(?:the\s+)?last(?:\s+side)?)?$`)
	bearings = regexp.MustCompile(before + `(?:(n|s)\s*([0-9.]+)\s*°?\s*(e|w)|(ne|nw|se|sw|north|east|south|west|[nesw]))$`)

	degreesOf = map[string]float64{"right": 0, "r": 0, "up": 90, "u": 90, "left": 180, "l": 180, "down": 270, "d": 270}
	compass   = map[string]float64{
		"n": 0, "ne": 45, "e": 90, "se": 135, "s": 180, "sw": 225, "w": 270, "nw": 315,
		"north": 0, "east": 90, "south": 180, "west": 270,
	} // clockwise from north
)

// ReadStep reads a length and a direction as a carpenter says them:
//
//	12' right   8' up left   12' at 30°   12' at 30° to the last side
//	6' 45° right   back 4'   10' NE   10' N30W
//
// Right, left, up and down are those of the drawing, of which only the first letter is
// needed; "at 30°" rises counter-clockwise from right, "to the last side" turns off it;
// "back" returns along it. Compass words need a known north. A direction may stand alone,
// and a length, which is read in u where it has no unit.
func ReadStep(text string, c Course, u geometry.Units) (Step, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	length, way, err := c.way(s)
	if err != nil {
		return Step{}, fmt.Errorf("found %q: %w", brief(text), err)
	}
	var out Step
	if way != nil {
		out.Degrees, out.Aimed = math.Mod(*way+720, 360), true
	}
	if strings.TrimSpace(length) == "" && out.Aimed {
		return out, nil
	}
	if out.Length, err = geometry.ParseLength(length, u.Foot()); err != nil {
		return Step{}, err
	}
	if out.Length <= 0 {
		return Step{}, fmt.Errorf("found %q: a length must be more than 0", brief(text))
	}
	return out, nil
}

// brief gives the beginning of a text.
func brief(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}

var errNoLast = errors.New("there is no side before it; say right, left, up or down")

// way parts a text into a length and a direction, in degrees counter-clockwise from
// right; nil where none is said.
func (c Course) way(s string) (length string, way *float64, err error) {
	last := func() (float64, error) {
		if c.Last == nil || *c.Last == (geometry.Point{}) {
			return 0, errNoLast
		}
		return math.Atan2(float64(c.Last.Y), float64(c.Last.X)) * 180 / math.Pi, nil
	}
	for _, rest := range []string{strings.TrimPrefix(s, "back"), strings.TrimSuffix(s, "back")} {
		if rest != s {
			d, err := last()
			d += 180
			return rest, &d, err
		}
	}
	if m := turning.FindStringSubmatch(s); m != nil && (m[2] != "" || m[4]+m[5] != "") {
		d, err := parseDegrees(m[2]+m[3], 360)
		if err != nil || m[4]+m[5] == "" {
			return m[1], &d, err
		}
		from, err := last()
		if m[4] == "right" || m[4] == "" && c.Right {
			d = -d
		}
		d += from
		return m[1], &d, err
	}
	if m := pointing.FindStringSubmatch(s); m != nil {
		d := degreesOf[m[4]]
		if m[2] != "" {
			a, b := degreesOf[m[2]], degreesOf[m[3]]
			turn := math.Mod(b-a+540, 360) - 180
			if math.Abs(turn) != 90 {
				return "", nil, errors.New("these two are no direction between; say up left, down right")
			}
			d = a + turn/2
		}
		return m[1], &d, nil
	}
	if m := bearings.FindStringSubmatch(s); m != nil {
		if !c.North.Known {
			return "", nil, errors.New("where north is has not been said; say right, left, up or down, or put North on the plan")
		}
		turn := compass[m[5]]
		if m[2] != "" {
			if turn, err = parseDegrees(m[3], 90); err != nil {
				return "", nil, err
			}
			if (m[2] == "s") != (m[4] == "w") {
				turn = -turn
			}
			if m[2] == "s" {
				turn += 180
			}
		}
		d := 90 - c.North.Turn - turn
		return m[1], &d, nil
	}
	return s, nil, nil
}

func parseDegrees(s string, limit float64) (float64, error) {
	d, err := strconv.ParseFloat(s, 64)
	if err != nil || !(math.Abs(d) <= limit) {
		return 0, fmt.Errorf("%q is no angle; write degrees up to %g", s, limit)
	}
	return d, nil
}

// Toward says which way a vector goes on the drawing: "right", "30° up from left"; "" for
// one of no length.
func Toward(v geometry.Point) string {
	if v == (geometry.Point{}) {
		return ""
	}
	across, along := "right", "up"
	if v.X < 0 {
		across = "left"
	}
	if v.Y < 0 {
		along = "down"
	}
	rise := math.Atan2(math.Abs(float64(v.Y)), math.Abs(float64(v.X))) * 180 / math.Pi
	switch rise = math.Round(rise*10) / 10; rise {
	case 0:
		return across
	case 90:
		return along
	}
	return fmt.Sprintf("%g° %s from %s", rise, along, across)
}

// ReadSteps reads steps with commas between, each with its direction, and gives where
// they lead: "12' right, 4' up".
func ReadSteps(text string, c Course, u geometry.Units) (geometry.Point, error) {
	var sum geometry.Point
	for _, part := range strings.Split(text, ",") {
		s, err := ReadStep(part, c, u)
		if err == nil && (!s.Aimed || s.Length == 0) {
			err = fmt.Errorf("found %q; say how far and which way, such as 12' right, 4' up", brief(strings.TrimSpace(part)))
		}
		if err != nil {
			return sum, err
		}
		sum = sum.Add(s.Vector())
	}
	return sum, nil
}
