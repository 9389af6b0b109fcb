package layout_test

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
)

// lapsAlongX gives where bars of a row lie side by side near the edge at y = 0.
func lapsAlongX(l laid, row int) [][2]geometry.Length {
	var runs [][2]geometry.Length
	for _, b := range l.Bars {
		for i := 1; i < len(b.Path) && b.Of == (bars.Part{Kind: bars.EdgeRow, N: row}); i++ {
			if p, q := b.Path[i-1], b.Path[i]; p.Y < foot && q.Y < foot {
				runs = append(runs, [2]geometry.Length{min(p.X, q.X), max(p.X, q.X)})
			}
		}
	}
	var out [][2]geometry.Length
	for i, a := range runs {
		for _, b := range runs[:i] {
			if from, to := max(a[0], b[0]), min(a[1], b[1]); to > from {
				out = append(out, [2]geometry.Length{from, to})
			}
		}
	}
	return out
}

// Laps of neighboring rows are clear of each other by the stagger typed, those of
// corner bars too, or it is told that there is no room. From 10 ft on there is.
func TestLapsStaggeredAtCornerBars(t *testing.T) {
	for _, corner := range []bars.Corner{bars.CornerBars, bars.Wrapped} {
		for width := 3.0; width < 70; width += 2 {
			for _, stagger := range []geometry.Length{foot, 2 * foot} {
				l := lay(t, ring(0, 0, width, 0, width, 20, 0, 20), spec(func(s *layout.Spec) { s.Bars.Corner, s.Bars.Stagger = corner, stagger }))
				told := finds(l, "Laps staggered and off corners", "Some laps")
				if told && stagger == foot && width >= 10 {
					t.Errorf("%v, %g ft: no room told", corner, width)
				}
				one, two := lapsAlongX(l, 1), lapsAlongX(l, 2)
				if corner == bars.CornerBars && width >= 10 && (len(one) == 0 || len(two) == 0) {
					t.Errorf("%v, %g ft: %d and %d laps", corner, width, len(one), len(two))
				}
				for _, a := range one {
					for _, b := range two {
						if clear := max(b[0]-a[1], a[0]-b[1]); clear < stagger && !told {
							t.Errorf("%v, %g ft: laps %s clear of each other at %s", corner, width, clear.Text(0), a[0].Text(0))
						}
					}
				}
			}
		}
	}
}

// A bar is bent by at most 135 degrees: a corner of 45 degrees takes a corner bar, one of
// less is told, once for all rows.
func TestSharpCornerTold(t *testing.T) {
	for reach, want := range map[float64]bool{20: false, 20.5: true, 60: true} {
		l := lay(t, ring(0, 0, reach, 0, reach, 20), spec(nil))
		if got := finds(l, "Bars bent at corners", "No corner bar is laid"); got != want {
			t.Errorf("a corner between %g and 20 ft: told %v", reach, got)
		}
	}
}
