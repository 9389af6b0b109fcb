package layout_test

import (
	"math"
	"slices"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// A slab of 24 ft by 20 ft, one row of No. 4 at 3 in to face and bottom, worked
// by hand. The center line stands 3 1/4 in from the face: 23 ft 5 1/2 in by
// 19 ft 5 1/2 in. Lap 28.5 in.
func TestEdgeRowByHand(t *testing.T) {
	one := func(corner bars.Corner) layout.Spec {
		return spec(func(s *layout.Spec) {
			s.Bars.Rows = s.Bars.Rows[:1]
			s.Bars.Corner = corner
		})
	}
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	lap := one(0).Bars.LapLength(4, false, one(0).Concrete)

	t.Run("wrapped", func(t *testing.T) {
		l := lay(t, p, one(bars.Wrapped))
		// Round the loop: 2·(281.5 + 233.5) in, less 4 bends. A bend of 90° about a
		// 3 in pin has its center line at R = 1.75 in: 2R − πR/2 = 0.751 in less.
		loop := 2*(281.5+233.5) - 4*1.75*(2-math.Pi/2)
		// n bars of 20 ft reach n·240 − n·28.5 on a closed loop: 5.
		if n := math.Ceil(loop / (240 - lap.Inches())); float64(len(l.Bars)) != n {
			t.Errorf("%d bars, want %v", len(l.Bars), n)
		}
		total := 0.0
		for _, b := range l.Bars {
			total += b.Cut.Inches()
		}
		if least := loop + 5*lap.Inches(); total < least-0.01 || total > least+5*(0.25+2*lap.Inches()) {
			t.Errorf("%.2f in of bar, at least %.2f", total, least)
		}
	})
	t.Run("bent", func(t *testing.T) {
		l := lay(t, p, one(bars.CornerBars))
		var corner, straight []bars.Bar
		for _, b := range l.Bars {
			if len(b.Bends) > 0 {
				corner = append(corner, b)
			} else {
				straight = append(straight, b)
			}
		}
		if len(corner) != 4 {
			t.Fatalf("%d corner bars", len(corner))
		}
		// Leg: lap 28.48, tangent 1.75, half a bar: 30.48, up to 30.5 in. Cut: two
		// legs less 0.5 in (outside to center) and 0.751 in: 59.75, a multiple of 1/4.
		for _, b := range corner {
			if b.Cut != 59*inch+3*inch/4 {
				t.Errorf("corner bar is cut %s", b.Cut.Text(0))
			}
			if math.Abs(b.Bends[0].Turn-90) > 1e-9 || len(b.Legs) != 2 {
				t.Errorf("corner bar %+v", b)
			}
		}
		// Straights: 281.5 in less 2·(30.25 − 28.48) in: one and a rest on the long
		// sides, one on the short.
		if len(straight) != 6 {
			t.Errorf("%d straights", len(straight))
		}
	})
	t.Run("crossed", func(t *testing.T) {
		l := lay(t, p, one(bars.Crossed))
		// Each side from cover to cover: 288 − 6 in needs two, 240 − 6 in one.
		if len(l.Bars) != 6 {
			t.Errorf("%d bars", len(l.Bars))
		}
		for _, b := range l.Bars {
			if len(b.Bends) > 0 {
				t.Errorf("%+v is bent", b)
			}
		}
		if got := l.Bars[2].Cut; got != 234*inch {
			t.Errorf("short side %s, want 19'-6\"", got.Text(0))
		}
	})
}

// Rows stop at the joint with cover, and their depth is under the section.
func TestRowsStopAtJoint(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint = true
	l := lay(t, p, spec(nil))
	for _, b := range l.Bars {
		for _, q := range b.Path {
			if q.Y > 20*foot-3*inch {
				t.Errorf("%s runs to %s, less than 3 in from the joint", b.Mark, q.Y.Text(0))
			}
		}
		if b.Depth != 12*inch-3*inch-inch/4 {
			t.Errorf("%s lies %s deep", b.Mark, b.Depth.Text(0))
		}
	}
	s := spec(func(s *layout.Spec) { s.Bars.Joint = bars.PassAtJoint })
	passes := slices.ContainsFunc(lay(t, p, s).Bars, func(b bars.Bar) bool {
		return slices.ContainsFunc(b.Path, func(q geometry.Point) bool { return q.Y > 20*foot-4*inch })
	})
	if !passes {
		t.Error("no row passes along the joint")
	}
}

// Under a door with a section 6 in deeper the rows drop by 6 in and come back,
// inside the deeper trench.
func TestRowsDropUnderDoors(t *testing.T) {
	p := ring(0, 0, 40, 0, 40, 20, 0, 20)
	p.Outline[0].Doors = []plan.Door{{From: 14 * foot, Width: 12 * foot, Section: "Deep"}}
	for _, corner := range []bars.Corner{bars.CornerBars, bars.Wrapped, bars.Crossed} {
		l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Corner = corner }))
		deepest := map[bars.Part]geometry.Length{}
		for _, b := range l.Bars {
			for i, d := range b.Depths {
				if d > 8*inch+3*inch/4 && (b.Path[i].X < 14*foot+3*inch || b.Path[i].X > 26*foot-3*inch) {
					t.Errorf("%v: %s is %s deep at %s, outside the door's trench", corner, b.Mark, d.Text(0), b.Path[i].X.Text(0))
				}
				deepest[b.Of] = max(deepest[b.Of], d)
			}
		}
		for row, d := range deepest {
			if d != 18*inch-3*inch-inch/4 {
				t.Errorf("%v: %v is at most %s deep", corner, row, d.Text(0))
			}
		}
		if len(deepest) != 2 {
			t.Errorf("%v: %d rows drop", corner, len(deepest))
		}
	}
}

// Laps of neighboring rows keep apart, and off corners, where bars are wrapped
// round a slab that has room for it.
func TestLapsStaggered(t *testing.T) {
	p := ring(0, 0, 60, 0, 60, 40, 0, 40)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Corner = bars.Wrapped }))
	type lap struct{ a, b geometry.Point }
	laps := map[bars.Part][]lap{}
	var prev bars.Bar
	for _, b := range l.Bars {
		if prev.Of == b.Of {
			laps[b.Of] = append(laps[b.Of], lap{b.Path[0], prev.Path[len(prev.Path)-1]})
		}
		prev = b
	}
	if len(laps[bars.Part{Kind: bars.EdgeRow, N: 1}]) < 8 {
		t.Fatalf("%d laps", len(laps[bars.Part{Kind: bars.EdgeRow, N: 1}]))
	}
	for _, f := range l.Findings {
		if f.Rule.Name == "Laps staggered and off corners" {
			t.Errorf("found: %s", f.Text)
		}
	}
	for _, u := range laps[bars.Part{Kind: bars.EdgeRow, N: 1}] {
		for _, v := range laps[bars.Part{Kind: bars.EdgeRow, N: 2}] {
			lo := max(min(u.a.X, u.b.X), min(v.a.X, v.b.X))
			hi := min(max(u.a.X, u.b.X), max(v.a.X, v.b.X))
			near := geometry.Distance(u.a, v.a) < 4*foot
			if near && hi-lo > inch && u.a.Y == u.b.Y {
				t.Errorf("laps %v and %v lie side by side", u, v)
			}
		}
	}
}

// Pads get bars both ways, strips along them.
func TestThickenings(t *testing.T) {
	p := ring(0, 0, 40, 0, 40, 30, 0, 30)
	p.Pads = []plan.Pad{{Name: "P1", Center: geometry.Point{X: 15 * foot, Y: 15 * foot}, Width: 3 * foot, Length: 4 * foot, Depth: 14 * inch}}
	p.Strips = []plan.Strip{{Name: "S1", Path: []geometry.Point{{X: 25 * foot, Y: 2 * foot}, {X: 25 * foot, Y: 28 * foot}}, Bottom: 16 * inch, Depth: 12 * inch}}
	l := lay(t, p, spec(nil))
	count, cut := map[bars.Part]int{}, map[bars.Part]geometry.Length{}
	for _, b := range l.Bars {
		count[b.Of]++
		cut[b.Of] += b.Cut
	}
	// 36 in − 6 in = 30 in long; 48 in − 6 in − 1/2 in = 41.5 in at 12 in: 4 gaps, 5 bars.
	// The other way 42 in long; 29.5 in at 12 in: 3 gaps, 4 bars.
	if count[bars.Part{Kind: bars.InPad}] != 9 || cut[bars.Part{Kind: bars.InPad}] != 5*30*inch+4*42*inch {
		t.Errorf("pad: %d bars, %s", count[bars.Part{Kind: bars.InPad}], cut[bars.Part{Kind: bars.InPad}].Text(0))
	}
	// Two lines of 26 ft − 6 in, each of two bars with a lap of at least 28.48 in.
	if count[bars.Part{Kind: bars.InStrip}] != 4 || cut[bars.Part{Kind: bars.InStrip}] < 2*(25*foot+6*inch+28*inch) || cut[bars.Part{Kind: bars.InStrip}] > 2*(25*foot+6*inch+58*inch) {
		t.Errorf("strip: %d bars, %s", count[bars.Part{Kind: bars.InStrip}], cut[bars.Part{Kind: bars.InStrip}].Text(0))
	}
}

// A grid of No. 4 at 18 in in a field of 20 ft by 10 ft, by hand, the first bar half a
// space from the edge: 10 ft are 7 spaces of 1 ft 5 1/7 in with a bar of 19 ft 8 in in
// the middle of each, 20 ft are 14 with a bar of 9 ft 8 in.
func TestGrid(t *testing.T) {
	p := ring(0, 0, 20, 0, 20, 10, 0, 10)
	l := lay(t, p, spec(func(s *layout.Spec) { s.Field.Kind, s.Bars.Rows = field.Grid, nil }))
	var long, short int
	for _, b := range l.Bars {
		switch b.Cut {
		case 19*foot + 8*inch:
			long++
		case 9*foot + 8*inch:
			short++
		default:
			t.Errorf("a bar of %s", b.Cut.Text(0))
		}
	}
	if long != 7 || short != 14 {
		t.Errorf("%d long and %d short bars, want 7 and 14", long, short)
	}
}

// Around a walled slab no bar of a grid runs along the row of anchor bolts: the first
// is half a space away from it.
func TestNoGridAlongBolts(t *testing.T) {
	p := ring(0, 0, 20, 0, 20, 10, 0, 10)
	for i := range p.Outline {
		p.Outline[i].Wall = "2x4"
	}
	l := lay(t, p, spec(func(s *layout.Spec) { s.Field.Kind, s.Bars.Rows = field.Grid, nil }))
	var all []bolts.Bolt
	for _, w := range l.Walls {
		all = append(all, w.Bolts...)
	}
	if len(all) == 0 {
		t.Fatal("no bolts")
	}
	for _, b := range l.Bars {
		from, to := b.Path[0], b.Path[len(b.Path)-1]
		for _, bolt := range all {
			along, away := min(bolt.At.Y, 10*foot-bolt.At.Y), bolt.At.Y-from.Y
			if from.X == to.X {
				along, away = min(bolt.At.X, 20*foot-bolt.At.X), bolt.At.X-from.X
			}
			if along < 6*inch && max(away, -away) < 2*inch {
				t.Errorf("a bar along %v runs at %s from the bolt at %v", b.Path, max(away, -away).Text(0), bolt.At)
			}
		}
	}
}
