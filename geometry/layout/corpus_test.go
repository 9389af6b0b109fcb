package layout_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/solid"
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
			p.Pads = append(p.Pads, plan.Pad{Center: at(1), Width: num(3), Length: num(4), Turn: turn, Depth: num(6), Taper: num(7)})
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

// checkInConcrete: every bar lies over the underside, as the solid has it, all
// along.
func checkInConcrete(t failing, l laid, sol *solid.Solid) {
	for _, b := range l.Bars {
		depth := func(i int) geometry.Length {
			if b.Depths == nil {
				return b.Depth
			}
			return b.Depths[i]
		}
		for i := 1; i < len(b.Path); i++ {
			for f := 0.02; f < 1; f += 0.16 {
				v := b.Path[i].Sub(b.Path[i-1])
				q := b.Path[i-1].Add(geometry.Point{X: geometry.Length(f * float64(v.X)), Y: geometry.Length(f * float64(v.Y))})
				d := depth(i-1) + geometry.Length(f*float64(depth(i)-depth(i-1)))
				if under, ok := sol.DepthAt(q); ok && d+b.Size.Diameter()/2 > under+geometry.Micrometer {
					t.Fatalf("a bar of %v, %s deep at %v, lies under the slab, which is %s deep there", b.Of, d.Text(0), q, under.Text(0))
				}
			}
		}
	}
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
			s.Field.Kind = field.Kind(k % 3)
			s.Bars.Corner = bars.Corner(k / 3 % 3)
		})
		sol := solidOf(t, p)
		l := of(p, s, sol)
		checkLayout(t, p, s, l)
		checkInConcrete(t, l, sol)
		if c := cover.Foam(p, sol, 4*foot, 8*foot, true); math.Abs(c.Area+c.Cut-sol.Underside()) > 1e-6*sol.Area+1e-5 {
			t.Fatalf("plan %d: %.6f m² of foam flat and %.6f cut for %.6f", k+1, c.Area, c.Cut, sol.Underside())
		}
	}
}
