package plane

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/testdata/exact"
)

var (
	live  = flag.Bool("live", false, "run the reference program")
	cases = flag.Int("cases", 1000, "how many cases the reference program is given")
)

// TestReference compares areas and places with an independent program,
// testdata/exact/cgal/reference.cpp, on CGAL's exact polygon sets (Debian package
// libcgal-dev): areas to what snapping may move, places exactly.
func TestReference(t *testing.T) {
	if os.Getenv("CI") == "" && !*live {
		t.Skip("takes a minute: give -live")
	}
	t.Parallel()
	type pair struct {
		g, h   Region
		points []geometry.Point
	}
	r := rand.New(rand.NewPCG(uint64(*cases), 7))
	var all []pair
	var texts []string
	for range *cases {
		c := pair{g: anyRegion(r), h: anyRegion(r)}
		var in strings.Builder
		for of, g := range [...]Region{c.g, c.h} {
			for _, part := range g.Parts() {
				fmt.Fprintln(&in, "part", of)
				for _, ring := range part {
					fmt.Fprint(&in, "ring")
					for _, p := range ring {
						fmt.Fprint(&in, " ", int64(p.X), " ", int64(p.Y))
					}
					fmt.Fprintln(&in)
				}
			}
		}
		for range 8 {
			p, _ := somewhere(r, c.g)
			c.points = append(c.points, p)
			fmt.Fprintln(&in, "point", int64(p.X), int64(p.Y))
		}
		fmt.Fprintln(&in, "end")
		all, texts = append(all, c), append(texts, in.String())
	}
	worst := 0.0
	for i, line := range exact.Run(t, texts) {
		c, words := all[i], strings.NewReader(line)
		edge := perimeter(c.g) + perimeter(c.h)
		for i, got := range [...]Region{Intersect(c.g, c.h), Subtract(c.g, c.h), Union(c.g, c.h)} {
			var want float64
			if _, err := fmt.Fscan(words, &want); err != nil {
				t.Fatal(err)
			}
			off := math.Abs(got.Area() - want*1e-18)
			if edge > 0 {
				worst = max(worst, off/edge)
			}
			if off > 0.71e-9*edge+1e-18 {
				t.Errorf("operation %d of\n%v and\n%v: %v m², reference %v m²", i, c.g, c.h, got.Area(), want*1e-18)
			}
		}
		sides := NewSides(c.g)
		for _, p := range c.points {
			var want int
			if _, err := fmt.Fscan(words, &want); err != nil {
				t.Fatal(err)
			}
			if got := int(c.g.Locate(p)) - int(Border); got != want || int(sides.Locate(p))-int(Border) != want {
				t.Errorf("%v in %v: %d, reference %d", p, c.g, got, want)
			}
		}
	}
	t.Logf("areas of %d pairs are off by at most %.2g nm along their sides", len(all), worst*1e9)
}
