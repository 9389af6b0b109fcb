package layout_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"haunchbook/geometry"
	"haunchbook/geometry/layout"
	"haunchbook/geometry/plan"
)

// corpus reads testdata/solids/plans.txt: generated plans with sections of many
// shapes, doors, holes, pads and strips.
func corpus(t *testing.T) []plan.Plan {
	f, err := os.Open("../../testdata/solids/plans.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var all []plan.Plan
	var p plan.Plan
	for lines := bufio.NewScanner(f); lines.Scan(); {
		word := strings.Fields(lines.Text())
		num := func(i int) geometry.Length {
			n, err := strconv.ParseInt(word[i], 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			return geometry.Length(n)
		}
		at := func(i int) geometry.Point { return geometry.Point{X: num(i), Y: num(i + 1)} }
		name := func(i int) string { return strings.TrimPrefix(word[i], "-") }
		switch word[0] {
		case "plan":
			p = plan.Plan{Field: num(1)}
		case "section":
			s := plan.Section{Name: word[1]}
			for i := 2; i < len(word); i += 2 {
				s.Profile = append(s.Profile, plan.Station{Inset: num(i), Depth: num(i + 1)})
			}
			p.Sections = append(p.Sections, s)
		case "loop":
			if len(p.Outline) > 0 {
				p.Holes = append(p.Holes, plan.Hole{})
			}
		case "edge":
			e := plan.Edge{At: at(1), Section: name(3)}
			for i := 4; i < len(word); i += 3 {
				e.Doors = append(e.Doors, plan.Door{From: num(i), Width: num(i + 1), Section: name(i + 2)})
			}
			if n := len(p.Holes); n > 0 {
				p.Holes[n-1].Loop = append(p.Holes[n-1].Loop, e)
			} else {
				p.Outline = append(p.Outline, e)
			}
		case "pad":
			turn, err := strconv.ParseFloat(word[5], 64)
			if err != nil {
				t.Fatal(err)
			}
			p.Pads = append(p.Pads, plan.Pad{Centre: at(1), Width: num(3), Length: num(4), Turn: turn, Depth: num(6), Taper: num(7)})
		case "strip":
			s := plan.Strip{Bottom: num(1), Depth: num(2), Taper: num(3)}
			for i := 4; i < len(word); i += 2 {
				s.Path = append(s.Path, at(i))
			}
			p.Strips = append(p.Strips, s)
		case "end":
			all = append(all, p)
		}
	}
	return all
}

// What holds of every layout holds on the corpus, dressed with walls and joints,
// with its bars and mesh by turns, and with its solid: foam covers the underside.
func TestCorpus(t *testing.T) {
	all := corpus(t)
	if len(all) < 400 {
		t.Fatalf("%d plans", len(all))
	}
	if testing.Short() {
		all = all[:100]
	}
	for k, p := range all {
		for i := range p.Outline {
			p.Outline[i].Wall = [...]string{"2x6", "2x4", "", "2x6"}[(i+k)%4]
			p.Outline[i].Joint = (i+k)%7 == 0
		}
		s := spec(func(s *layout.Spec) {
			s.Field.Kind = layout.FieldKind(k % 3)
			s.Bars.Corner = layout.Corner(k / 3 % 3)
		})
		sol := solidOf(t, p)
		checkLayout(t, p, s, of(p, s, sol))
		if c := layout.Foam(p, sol, 4*foot, 8*foot); math.Abs(c.Area+c.Cut-sol.Underside()) > 1e-6*sol.Area+1e-5 {
			t.Fatalf("plan %d: %.6f m² of foam flat and %.6f cut for %.6f", k+1, c.Area, c.Cut, sol.Underside())
		}
	}
}
