package takeoff_test

import (
	"fmt"
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/field"
)

// A row near the top of an edge that is 24 in deep has more than 12 in of concrete
// cast below it: its laps are 1.3 times as long (ACI 318-19 table 25.4.2.5), 37 in of
// No. 4 in place of 28 1/2, and what is said of them is what they are cut for.
func TestLapsSaidAreLapsCut(t *testing.T) {
	p := rectangle(90*foot, 40*foot, "Edge")
	p.Sections[0].Depth = 24 * inch
	s := takeoff.Default()
	s.Place.Bars.Rows = append(s.Place.Bars.Rows, bars.Row{Face: 3 * inch, Top: 2 * inch})
	s.Place.Field.Kind = field.Grid
	got := take(t, p, s, geometry.FeetInches)
	laps := map[bool]geometry.Length{}
	for _, l := range got.Laps() {
		if l.Size != 4 || laps[l.TopCast] != 0 {
			t.Errorf("laps of %+v", got.Laps())
		}
		laps[l.TopCast] = l.Length
	}
	for top, want := range map[bool]geometry.Length{false: 28*inch + inch/2, true: 37 * inch} {
		if (laps[top] - want).Abs() > inch/4 {
			t.Errorf("laps of %s where cast at the top is %v, want about %s", laps[top].Text(geometry.FeetInches), top, want.Text(geometry.FeetInches))
		}
	}
	// The lower long side, where y is the row's inset: pieces that lie on one line
	// overlap by the lap of their row at least, and by no more than a cut's rounding.
	shared := map[bool]int{}
	laid := got.Slabs[0].Layout.Bars
	for i, a := range laid {
		for _, b := range laid[:i] {
			if a.Of != b.Of || a.Of.Kind != bars.EdgeRow || len(a.Path) != 2 || len(b.Path) != 2 || a.Path[0].Y != a.Path[1].Y || b.Path[0].Y != a.Path[0].Y || b.Path[1].Y != a.Path[0].Y {
				continue
			}
			over := min(max(a.Path[0].X, a.Path[1].X), max(b.Path[0].X, b.Path[1].X)) - max(min(a.Path[0].X, a.Path[1].X), min(b.Path[0].X, b.Path[1].X))
			if over <= 0 {
				continue
			}
			top := a.Of.N == 3
			shared[top]++
			if over < laps[top] || over > laps[top]+inch {
				t.Errorf("%s laps by %s, it is said by %s", a.Of.Text(got.Slabs[0].Plan, got.Slabs[0].Layout.Marks), over.Text(geometry.FeetInches), laps[top].Text(geometry.FeetInches))
			}
		}
	}
	if shared[false] == 0 || shared[true] == 0 {
		t.Errorf("no laps to measure: %v", shared)
	}
	l, _ := got.Line(takeoff.EdgeBarLength)
	said := fmt.Sprint(l.Working)
	if !strings.Contains(said, "at least "+laps[true].Text(geometry.FeetInches)) || !strings.Contains(said, "at least "+laps[false].Text(geometry.FeetInches)) {
		t.Errorf("the working says %s", said)
	}
}
