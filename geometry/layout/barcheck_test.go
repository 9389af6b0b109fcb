package layout_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

func finds(l laid, name, text string) bool {
	return slices.ContainsFunc(l.Findings, func(f rule.Finding) bool {
		return f.Rule.Name == name && strings.Contains(f.Text, text)
	})
}

// ACI 318-19 table 20.5.1.3.1: 3 in cast against earth; exposed to weather or
// ground 1 1/2 in up to No. 5 and 2 in from No. 6. At the limit and just short.
func TestCover(t *testing.T) {
	const s = geometry.Sixteenth
	for _, c := range []struct {
		name  string
		depth geometry.Length // of the edge
		row   bars.Row
		found string
	}{
		{"usual", 12 * inch, bars.Row{Face: 3 * inch, Bottom: 3 * inch}, ""},
		{"bottom", 12 * inch, bars.Row{Face: 3 * inch, Bottom: 3*inch - s}, "to the bottom"},
		{"face", 12 * inch, bars.Row{Face: 3 * inch / 2, Bottom: 3 * inch}, ""},
		{"face short", 12 * inch, bars.Row{Face: 3*inch/2 - s, Bottom: 3 * inch}, "to the face"},
		{"face of No. 6", 12 * inch, bars.Row{Face: 2 * inch, Bottom: 3 * inch, Size: 6}, ""},
		{"face of No. 6 short", 12 * inch, bars.Row{Face: 2*inch - s, Bottom: 3 * inch, Size: 6}, "to the face"},
		{"top", 12 * inch, bars.Row{Face: 3 * inch, Top: 3 * inch / 2}, ""},
		{"top short", 12 * inch, bars.Row{Face: 3 * inch, Top: 3*inch/2 - s}, "to the top"},
		// 5 in less 3 in and 1/2 in leaves 1 1/2 in above a bottom row.
		{"shallow", 5 * inch, bars.Row{Face: 3 * inch, Bottom: 3 * inch}, ""},
		{"too shallow", 5*inch - s, bars.Row{Face: 3 * inch, Bottom: 3 * inch}, "to the top"},
		// A top row 2 in down in 5 in of edge has 2 1/2 in below it.
		{"top row near the ground", 5 * inch, bars.Row{Face: 3 * inch, Top: 2 * inch}, "to the bottom"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := ring(0, 0, 24, 0, 24, 20, 0, 20)
			p.Field, p.Sections[0].Depth = 4*inch, c.depth
			for i := range p.Outline {
				p.Outline[i].Wall = "" // bolts have a cover of their own
			}
			l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Rows = []bars.Row{c.row} }))
			if got := finds(l, "Cover", c.found); got != (c.found != "") {
				t.Errorf("found is %v: %v", got, l.Findings)
			}
		})
	}
}

// A door's deeper or shallower section is looked at like an edge's own.
func TestCoverUnderDoors(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Sections[1].Depth = 13 * inch / 2 // 2 3/4 in above a row 3 in from the bottom
	p.Outline[0].Doors = []plan.Door{{From: 6 * foot, Width: 9 * foot, Section: "Deep"}}
	deep := func(rows ...bars.Row) layout.Spec {
		return spec(func(s *layout.Spec) { s.Bars.Rows = rows })
	}
	if l := lay(t, p, deep(bars.Row{Face: 3 * inch, Top: 4 * inch})); !finds(l, "Cover", "of section Deep") {
		t.Errorf("%v", l.Findings)
	}
}

// ACI 318-19 table 25.4.2.3 holds for bars two diameters clear of each other: 1 in
// for No. 4.
func TestRowsApart(t *testing.T) {
	for clear, found := range map[geometry.Length]bool{inch: false, inch - geometry.Sixteenth: true, 0: true} {
		for _, rule := range []bars.LapRule{bars.LapByACI, bars.LapByDiameters} {
			l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
				s.Bars.Lap.Rule = rule
				s.Bars.Rows = []bars.Row{{Face: 3 * inch, Bottom: 3 * inch}, {Face: 3*inch + inch/2 + clear, Bottom: 3 * inch}}
			}))
			if got := finds(l, "Clear spacing that the lap asks for", ""); got != (found && rule == bars.LapByACI) {
				t.Errorf("%s clear, %v: found is %v", clear.Text(0), rule, got)
			}
		}
	}
}

// A typed leg must hold the lap beyond its bend: for No. 4 at 28.48 in, a bend that
// starts 1.75 in from the corner and half a bar, 30.48 in.
func TestLegHoldsLap(t *testing.T) {
	for leg, sound := range map[geometry.Length]bool{0: true, 30 * inch: false, 31 * inch: true} {
		s := spec(func(s *layout.Spec) { s.Bars.Leg = leg })
		faults := specFaults(s)
		if (len(faults) == 0) != sound || !sound && faults[0].Path != "bars.leg" {
			t.Errorf("a leg of %s: %v", leg.Text(0), faults)
		}
	}
}

// ACI 318-19 table 25.3.1: past a bend of 90 degrees a standard hook runs on
// straight by 12 diameters, 6 in for No. 4.
func TestHookExtension(t *testing.T) {
	if e := bars.HookExtension(4); e != 6*inch {
		t.Errorf("No. 4: %s", e.Text(0))
	}
	// A corner bar's leg is the lap past the bend: 6 in holds for No. 4, and is too
	// short for No. 5, which asks for 7 1/2 in.
	for size, found := range map[bars.Size]bool{4: false, 5: true} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
			s.Bars.Size, s.Bars.Lap, s.Bars.Rows = size, bars.Lap{Rule: bars.LapByLength, Length: 6 * inch}, s.Bars.Rows[:1]
		}))
		if got := finds(l, "Straight past a bend", ""); got != found {
			t.Errorf("%s: found is %v", size, got)
		}
	}
}

// Crossed bars at the inside corner of an L. The haunch round the corner is flat for
// 12 in and then rises 6 in over 8 in: the end of a bottom row, 8 3/4 in deep and 1/2 in
// thick, is 3 in from the slope up to 10.9 in, and cannot lap by 28 1/2 in; it is said. A top row, 2 1/4 in deep, is covered by the 6 in field and runs on by
// its lap.
func TestCrossedAtInsideCorner(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 12, 16, 12, 16, 20, 0, 20)
	for _, c := range []struct {
		row         bars.Row
		least, most geometry.Length // past the corner
		found       bool
	}{
		{bars.Row{Face: 3 * inch, Bottom: 3 * inch}, 10 * inch, 11 * inch, true},
		{bars.Row{Face: 3 * inch, Top: 2 * inch}, 28 * inch, 29 * inch, false},
	} {
		l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Corner, s.Bars.Rows = bars.Crossed, []bars.Row{c.row} }))
		var past geometry.Length
		for _, b := range l.Bars {
			for _, q := range b.Path { // of edge 3, which ends at the corner
				if q.Y > 12*foot-4*inch && q.Y < 12*foot {
					past = max(past, 16*foot-q.X)
				}
			}
		}
		if past < c.least || past > c.most {
			t.Errorf("%+v runs on %s past the corner", c.row, past.Text(0))
		}
		if got := finds(l, "Crossed bars lap at inside corners", ""); got != c.found {
			t.Errorf("%+v: found is %v", c.row, got)
		}
	}
}

// ACI 318-19 25.5.2.1: no lap in tension is shorter than 12 in. At the limit and just
// short.
func TestLeastLapTyped(t *testing.T) {
	for length, want := range map[geometry.Length]bool{foot: false, foot - geometry.Sixteenth: true} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
			s.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: length}
		}))
		if got := finds(l, "Least lap", "the least lap is 1'-0\""); got != want {
			t.Errorf("a lap of %s: told %v", length.Text(0), got)
		}
	}
}

// A dowel of No. 4 holds from 8 diameters on, 4 in, in the old slab and in the new.
func TestDowelEmbedment(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Joint, p.Outline[2].Wall = true, ""
	for _, c := range []struct {
		length, embed geometry.Length
		text          string
	}{
		{16 * inch, 4 * inch, ""},
		{16 * inch, 4*inch - geometry.Sixteenth, "into the old slab"},
		{16 * inch, 12 * inch, ""},
		{16 * inch, 12*inch + geometry.Sixteenth, "into the new slab"},
	} {
		l := lay(t, p, spec(func(s *layout.Spec) { s.Dowels.Size, s.Dowels.Length, s.Dowels.Embed = 4, c.length, c.embed }))
		if got := finds(l, "Dowels deep in both slabs", c.text); got != (c.text != "") {
			t.Errorf("%s of %s: told %v", c.embed.Text(0), c.length.Text(0), got)
		}
	}
}

// What is to be said of several places is said once, with them.
func TestFoundAtSeveralPlaces(t *testing.T) {
	// A strip 5 ft wide, cut across at even distances of more than 5 ft.
	l := lay(t, ring(0, 0, 60, 0, 60, 5, 0, 5), spec(func(s *layout.Spec) { s.SawCuts.Spacing, s.SawCuts.Aspect = 12*foot, 1 }))
	n, also := 0, 0
	for _, f := range l.Findings {
		if strings.HasPrefix(f.Text, "A panel of about") {
			n, also = n+1, len(f.Also)
			if !strings.Contains(f.Text, "Also at ") || !strings.Contains(f.Text, "more places") || !strings.Contains(f.Text, "along side 1–2 and 2'-6\" off it") {
				t.Errorf("%q", f.Text)
			}
		}
	}
	if n != 1 || also != len(l.SawCuts) { // there is a panel more than cuts
		t.Errorf("told %d times, of %d more places", n, also)
	}
}

// A haunch 18 in deep and 8 in wide rises by 12 in over 8 in to a field of 6 in. A No. 4
// with 3 in under it, 14 3/4 in deep, is (12·(7 3/4 − f) + 26)/√208 in from the slope,
// half a bar less: 3.009 in for a face cover f of 6 in, 2.957 in for 6 1/16 in.
func TestCoverToSlope(t *testing.T) {
	for face, want := range map[geometry.Length]bool{6 * inch: false, 6*inch + geometry.Sixteenth: true} {
		p := ring(0, 0, 24, 0, 24, 20, 0, 20)
		p.Field = 6 * inch
		p.Sections = []plan.Section{{Name: p.Outline[0].Section, Depth: 18 * inch, Bottom: 8 * inch, Taper: 8 * inch}}
		l := lay(t, p, spec(func(s *layout.Spec) { s.Bars.Size, s.Bars.Rows = 4, []bars.Row{{Face: face, Bottom: 3 * inch}} }))
		if got := finds(l, "Cover", "Row 1 has 2 15/16\" to the slope"); got != want || !want && finds(l, "Cover", "slope") {
			t.Errorf("face cover %s: told %v", face.Text(0), got)
		}
	}
}

// ACI 318M-19 table 20.5.1.3.1: a metric job is held to 75 mm against earth and 40 mm
// at the face. At the limit and just short.
func TestMetricCover(t *testing.T) {
	const mm = geometry.Millimeter
	for _, c := range []struct {
		face, bottom geometry.Length
		told         string
	}{{40 * mm, 75 * mm, ""}, {39 * mm, 75 * mm, "has 39 mm to the face"}, {40 * mm, 74 * mm, "has 74 mm to the bottom"}} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
			s.Units, s.Bars.Rows = geometry.Millimeters, []bars.Row{{Face: c.face, Bottom: c.bottom}}
		}))
		if got := finds(l, "Cover", "Row 1 "+c.told); got != (c.told != "") {
			t.Errorf("%s to the face, %s to the bottom: told %v", c.face.Text(geometry.Millimeters), c.bottom.Text(geometry.Millimeters), got)
		}
	}
}

// Metric jobs are held to the metric figures of the codes, at the limit and beyond: a
// typed lap to 300 mm (ACI 318M-19 25.5.2.1), bolts to 1829 mm apart, 305 mm from a
// plate's end and 305 and 610 mm of short wall, as IRC R403.1.6 prints them.
func TestMetricLimits(t *testing.T) {
	const mm = geometry.Millimeter
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	for i := range p.Outline {
		p.Outline[i].Wall = "2x6"
	}
	for _, c := range []struct {
		rule, told string
		set        func(*layout.Spec, geometry.Length)
		at, beyond geometry.Length
	}{
		{"Least lap", "least lap is 300 mm", func(s *layout.Spec, l geometry.Length) {
			s.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: l}
		}, 300 * mm, 299 * mm},
		{"Bolt spacing", "at most 1829 mm", func(s *layout.Spec, l geometry.Length) { s.Bolts.Spacing = l }, 1829 * mm, 1830 * mm},
		{"Bolts at plate ends", "at most 305 mm", func(s *layout.Spec, l geometry.Length) { s.Bolts.EndMax = l }, 305 * mm, 306 * mm},
	} {
		for l, want := range map[geometry.Length]bool{c.at: false, c.beyond: true} {
			s := spec(func(s *layout.Spec) { s.Units = geometry.Millimeters; c.set(s, l) })
			if got := finds(lay(t, p, s), c.rule, c.told); got != want {
				t.Errorf("%s of %s: told %v", c.rule, l.Text(geometry.Millimeters), got)
			}
		}
	}
	for l, want := range map[geometry.Length]geometry.Length{12 * inch: 305 * mm, 8 * inch: 8 * inch} {
		if got := rule.Most(l, geometry.Millimeters); got != want || rule.Most(l, geometry.FeetInches) != l {
			t.Errorf("%s is at most %s", l.Text(0), got.Text(geometry.Millimeters))
		}
	}
}

// A crossed bar that runs on past the corner of a jog of 8 in ends 3 in short of the
// haunch's upright inner side, which stands 12 in behind the face at 8 in: by 17 in.
func TestCrossedBarsEndInTheHaunch(t *testing.T) {
	p := ring(0, 0, 142, 0, 142, 8, 354, 8, 354, 246, 0, 246)
	for i := range p.Outline {
		at := &p.Outline[i].At
		at.X, at.Y = at.X/12, at.Y/12 // ring takes feet
	}
	p.Sections[0].Depth, p.Sections[0].Bottom, p.Sections[0].Taper = 18*inch, 12*inch, 0
	l := lay(t, p, spec(func(s *layout.Spec) {
		s.Bars.Corner, s.Bars.Rows = bars.Crossed, []bars.Row{{Face: 3 * inch, Bottom: 3 * inch}}
	}))
	on := 0
	for _, b := range l.Bars {
		if q := b.Path[len(b.Path)-1]; q.X > 130*inch && q.X < 142*inch && q.Y > 8*inch && q.Y < 4*foot {
			if on++; q.Y > 17*inch {
				t.Errorf("a bar along edge 2 ends at %s", q.Y.Text(0))
			}
		}
	}
	if on != 1 {
		t.Errorf("%d bars run on past the jog", on)
	}
}

// A haunch ends square where the edge round the corner has none: at a blunt corner ground
// lies between it and that face, and bars end 3 in before it.
func TestBarsEndShortOfABareCorner(t *testing.T) {
	p := ring(0, 0, 24, 0, 28, 20, 0, 20)
	p.Outline[0].Joint, p.Outline[0].Wall, p.Outline[0].Section = true, "", ""
	l := lay(t, p, spec(nil))
	a := p.Outline[1].At
	nearest := math.Inf(1)
	for _, b := range l.Bars {
		for _, q := range b.Path {
			if along := (float64(q.X-a.X)*4 + float64(q.Y-a.Y)*20) / math.Hypot(4, 20); q.X > 23*foot && q.Y < 2*foot {
				nearest = min(nearest, along)
			}
		}
	}
	if off := geometry.Rounded(nearest); off < 3*inch || off > 4*inch {
		t.Errorf("the bars along edge 2 end %s from where its haunch does", off.Text(0))
	}
}
