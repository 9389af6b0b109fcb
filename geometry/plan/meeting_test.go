package plan_test

import (
	"bufio"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

func corners(t *testing.T, text string) (r geometry.Ring) {
	t.Helper()
	for _, c := range strings.Split(text, ",") {
		var x, y int64
		if _, err := fmt.Sscan(c, &x, &y); err != nil {
			t.Fatal(err)
		}
		r = append(r, geometry.Point{X: geometry.Length(x) * geometry.Sixteenth, Y: geometry.Length(y) * geometry.Sixteenth})
	}
	return r
}

// Slabs lie against each other where GEOS says that they do: testdata/meetings, made with
// shapely. The stretches of the second are as long, it is poured later, and the order of the
// two in the list says which.
func TestMeetingsAgainstGEOS(t *testing.T) {
	f, err := os.Open("../../testdata/meetings/meetings.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n := 0
	for s := bufio.NewScanner(f); s.Scan(); {
		if strings.HasPrefix(s.Text(), "#") {
			continue
		}
		n++
		part := strings.Split(s.Text(), "; ")
		one := plan.Plan{}.WithOutline(plan.Like(corners(t, part[0]), plan.Edge{}))
		other := plan.Plan{Field: geometry.Inch, Height: geometry.Inch / 2}.WithOutline(plan.Like(corners(t, part[1]), plan.Edge{}))
		for i := range other.Outline {
			other.Outline[i].Meets = plan.DoweledThere
		}
		all := plan.Meetings([]plan.Plan{one, other})
		var want []string
		if len(part) > 2 && part[2] != "" {
			want = strings.Split(part[2], ",")
		}
		mine, theirs := plan.OfSlab(all, 0), plan.OfSlab(all, 1)
		if len(mine) != len(want) || len(theirs) != len(want) {
			t.Errorf("row %d: %d and %d stretches, want %d", n, len(mine), len(theirs), len(want))
			continue
		}
		var sum geometry.Length
		for i, w := range want {
			v := strings.Split(w, ":")
			edge, _ := strconv.Atoi(v[0])
			from, _ := strconv.ParseFloat(v[1], 64)
			to, _ := strconv.ParseFloat(v[2], 64)
			at := func(x float64) geometry.Length { return geometry.Rounded(x * float64(geometry.Sixteenth)) }
			m := mine[i]
			if m.Edge != edge || (m.From-at(from)).Abs() > geometry.Micrometer || (m.To-at(to)).Abs() > geometry.Micrometer {
				t.Errorf("row %d: %+v, want %s", n, m, w)
			}
			if m.Later || !m.Doweled || m.Other != 1 || m.Field != geometry.Inch || m.Lower != -geometry.Inch/2 {
				t.Errorf("row %d: %+v", n, m)
			}
			sum += m.To - m.From
		}
		for _, m := range theirs {
			if !m.Later || m.Other != 0 || m.Lower != geometry.Inch/2 {
				t.Errorf("row %d: %+v", n, m)
			}
			sum -= m.To - m.From
		}
		if sum.Abs() > geometry.Micrometer {
			t.Errorf("row %d: the stretches of both differ by %v", n, sum)
		}
		for i, m := range plan.OfSlab(plan.Meetings([]plan.Plan{other, one}), 1) {
			if !m.Later || m.Doweled || m.From != mine[i].From || m.To != mine[i].To {
				t.Errorf("row %d: the other way round %+v", n, m)
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d pairs were tried", n)
	}
}

func ExampleMeetings() {
	at := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}
	}
	garage := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{at(0, 0), at(24, 0), at(24, 20), at(0, 20)}, plan.Edge{}))
	apron := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{at(4, -6), at(20, -6), at(20, 0), at(4, 0)}, plan.Edge{}))
	for _, m := range plan.Meetings([]plan.Plan{garage, apron}) {
		fmt.Printf("slab %d, edge %d: %s to %s, poured later: %t\n", m.Slab+1, m.Edge+1, m.From.Text(geometry.FeetInches), m.To.Text(geometry.FeetInches), m.Later)
	}
	// Output:
	// slab 1, edge 1: 4'-0" to 20'-0", poured later: false
	// slab 2, edge 3: 0" to 16'-0", poured later: true
}

// What is a joint by mark is poured against the other whatever the order; two that are both
// marked, that overlap, or that are farther off than a sixteenth do not meet. Of the last, a
// gap is told.
func TestMeetingsAsMarked(t *testing.T) {
	at := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}
	}
	two := func(up geometry.Length, marked ...int) []plan.Plan {
		one := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{at(0, 0), at(24, 0), at(24, 20), at(0, 20)}, plan.Edge{}))
		other := plan.Plan{}.WithOutline(plan.Like(geometry.Ring{at(4, 20).Add(geometry.Point{Y: up}), at(20, 20).Add(geometry.Point{Y: up}), at(20, 30), at(4, 30)}, plan.Edge{}))
		for _, k := range marked {
			[]plan.Plan{one, other}[k].Outline[[]int{2, 0}[k]].Joint = true
		}
		return []plan.Plan{one, other}
	}
	for _, c := range []struct {
		name   string
		slabs  []plan.Plan
		later  []bool
		marked bool
		gaps   int
	}{
		{"as listed", two(0), []bool{false, true}, false, 0},
		{"marked on the first", two(0, 0), []bool{true, false}, true, 0},
		{"marked on the second", two(0, 1), []bool{false, true}, true, 0},
		{"marked on both", two(0, 0, 1), nil, false, 0},
		{"a thirty-second off", two(geometry.Sixteenth / 2), []bool{false, true}, false, 0},
		{"an eighth off", two(2 * geometry.Sixteenth), nil, false, 1},
		{"an inch off", two(geometry.Inch + 1), nil, false, 0},
	} {
		got := plan.Meetings(c.slabs)
		if len(got) != len(c.later) {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		for i, m := range got {
			if m.Later != c.later[i] || m.Marked != c.marked {
				t.Errorf("%s: %+v", c.name, m)
			}
		}
		if g := plan.Gaps(c.slabs, geometry.Inch); len(g) != c.gaps || c.gaps > 0 && g[0].Wide != 2*geometry.Sixteenth {
			t.Errorf("%s: gaps %+v", c.name, g)
		}
	}
}
