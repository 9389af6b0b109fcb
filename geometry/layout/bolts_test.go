package layout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/mark"
	"haunchbook.example/geometry/plan"
)

// A wall of 24 ft with a 9 ft door from 5 ft, 2x6 plates, worked by hand from
// IRC R403.1.6. Studs are ignored.
func TestBoltsByHand(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	for i := range p.Outline {
		p.Outline[i].Wall = ""
	}
	p.Outline[0].Wall = "2x6"
	p.Outline[0].Doors = []plan.Door{{From: 5 * foot, Width: 9 * foot}}
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Stud = 0 }))
	w := l.Walls[0]
	// Plates: 0 to 5 ft and 14 to 24 ft. Bolts 8 in from each end; 3 ft 8 in between
	// in the first, 8 ft 8 in in the second: two spaces of 4 ft 4 in.
	if got := stretches(w); !slices.Equal(got, [][2]geometry.Length{{0, 5 * foot}, {14 * foot, 24 * foot}}) {
		t.Errorf("plates %v", got)
	}
	want := []geometry.Length{8 * inch, 52 * inch, 176 * inch, 228 * inch, 280 * inch}
	for i, b := range w.Bolts {
		if i >= len(want) || b.Along != want[i] || b.Back != 24*foot-want[i] || b.Mark != (mark.Mark{Kind: mark.Bolt, N: i + 1}) {
			t.Errorf("bolt %d at %s", i+1, b.Along.Text(0))
		}
		// The middle of a 2x6, dressed 5 1/2 in (PS 20), is 2 3/4 in from the face.
		if b.At.Y != 2*inch+3*inch/4 {
			t.Errorf("bolt %d is %s from the face", i+1, b.At.Y.Text(0))
		}
	}
	if len(w.Bolts) != len(want) {
		t.Errorf("%d bolts, want %d", len(w.Bolts), len(want))
	}
	if f := broken(l); len(f) > 0 {
		t.Errorf("broken: %v", f)
	}
}

// stretches gives the running distances of a wall's plates.
func stretches(w bolts.Wall) [][2]geometry.Length {
	var out [][2]geometry.Length
	for _, p := range w.Pieces {
		out = append(out, [2]geometry.Length{p.From, p.To})
	}
	return out
}

// Each broken rule is found, by its name and its source.
func TestBoltFindings(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*layout.Spec)
		marks  []plan.BoltMark
		rule   string
		text   string
	}{
		{"6 in bolt", func(s *layout.Spec) { s.Bolts.Length = 6 * inch; s.Bolts.Projection = 2 * inch }, nil, "Bolt embedment", `goes 4" into the concrete; 7" is asked: use one of at least 9"`},
		{"7 ft apart", func(s *layout.Spec) { s.Bolts.Spacing = 7 * foot }, nil, "Bolt spacing", "at most 6'-0\""},
		{"14 in from the end", func(s *layout.Spec) { s.Bolts.EndMax = 14 * inch }, nil, "Bolts at plate ends", "at most 1'-0\""},
		{"3/8 in bolt", func(s *layout.Spec) { s.Bolts.Diameter = 3 * inch / 8 }, nil, "Bolt diameter", "at least 1/2\""},
		{"1 1/2 in from the face", func(s *layout.Spec) { s.Bolts.Offset = 3 * inch / 2 }, nil, "Bolt in the middle third of the plate", "middle third"},
		{"one builder's mark", nil, []plan.BoltMark{{Along: 20 * foot}}, "Two bolts in each plate piece", "1 of the 2 bolts"},
		{"builder's mark in the door", nil, []plan.BoltMark{{Along: 6 * foot}}, "No bolt in an opening", "in an opening"},
		{"builder's marks far apart", nil, []plan.BoltMark{{Along: 15 * foot}, {Along: 23 * foot}}, "Bolt spacing", "8'-0\" between"},
		{"hold-down in the door", nil, []plan.BoltMark{{Along: 6 * foot, HoldDown: true}}, "No bolt in an opening", "in an opening"},
		{"hold-down off the wall", nil, []plan.BoltMark{{Along: 30 * foot, HoldDown: true}}, "No bolt in an opening", "off the wall"},
		{"builder's mark at the plate's end", nil, []plan.BoltMark{{Along: 7 * inch}, {Along: 4 * foot}}, "Bolts at plate ends", "at least 3 1/2\""},
		{"builder's marks side by side", nil, []plan.BoltMark{{Along: 2 * foot}, {Along: 2*foot + 3*inch}}, "Bolts clear of each other", "at least 4\""},
		{"builder's mark off the wall", nil, []plan.BoltMark{{Along: 30 * foot}}, "No bolt in an opening", "off the wall"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := ring(0, 0, 24, 0, 24, 20, 0, 20)
			p.Outline[0].Doors = []plan.Door{{From: 5 * foot, Width: 9 * foot}}
			p.Outline[0].Bolts = c.marks
			l := lay(t, p, spec(c.change))
			i := slices.IndexFunc(l.Findings, func(f rule.Finding) bool {
				return f.Rule.Name == c.rule && strings.Contains(f.Text, c.text)
			})
			if i < 0 {
				t.Fatalf("not found: %v", l.Findings)
			}
			if !l.Findings[i].Broken() || l.Findings[i].Rule.Source == "" {
				t.Errorf("%+v", l.Findings[i])
			}
		})
	}
}

// The builder's marks win and are kept; hold-downs are kept beside the bolts.
func TestBuildersMarks(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[0].Bolts = []plan.BoltMark{{Along: 7 * inch}, {Along: 6 * foot}}
	p.Outline[1].Bolts = []plan.BoltMark{{Along: 4 * foot, HoldDown: true}}
	l := lay(t, p, spec(nil))
	if b := l.Walls[0].Bolts; len(b) != 2 || b[0].Along != 7*inch || b[1].Along != 6*foot || !b[0].Builder {
		t.Errorf("wall A: %v", b)
	}
	hold := 0
	for _, b := range l.Walls[1].Bolts {
		if b.HoldDown {
			hold++
			if b.Along != 4*foot {
				t.Errorf("hold-down at %s", b.Along.Text(0))
			}
		} else if (b.Along - 4*foot).Abs() < 4*inch {
			t.Errorf("bolt at %s beside the hold-down", b.Along.Text(0))
		}
	}
	if hold != 1 || len(l.Walls[1].Bolts) < 4 {
		t.Errorf("wall B: %v", l.Walls[1].Bolts)
	}
}

// Whatever the builder marks is placed as he marks it, to the nanometer, and what
// breaks a rule is said; hold-downs count for no plate.
func TestMarksAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := walled(t)
		want := map[int][]plan.BoltMark{}
		for i := range p.Outline {
			for range rapid.IntRange(0, 4).Draw(t, "marks") {
				m := plan.BoltMark{Along: geometry.Length(rapid.Int64Range(0, int64(p.Outline.Length(i))).Draw(t, "along")), HoldDown: rapid.Bool().Draw(t, "hold-down")}
				p.Outline[i].Bolts = append(p.Outline[i].Bolts, m)
				want[i] = append(want[i], m)
			}
		}
		l := of(p, spec(nil), nil)
		for _, w := range l.Walls {
			own := slices.ContainsFunc(want[w.Edge], func(m plan.BoltMark) bool { return !m.HoldDown })
			kept := map[plan.BoltMark]int{}
			for _, b := range w.Bolts {
				if b.Builder {
					kept[plan.BoltMark{Along: b.Along, HoldDown: b.HoldDown}]++
				} else if own {
					t.Fatalf("%s: a bolt at %s beside the builder's own", w.Name(), b.Along.Text(0))
				}
			}
			for _, m := range want[w.Edge] {
				kept[m]--
			}
			for m, n := range kept {
				if n != 0 {
					t.Fatalf("%s: %+v is off by %d", w.Name(), m, n)
				}
			}
			checkMarksSaid(t, w, p.Outline[w.Edge], l)
		}
	})
}

// What is said of a piece of plate has its place in the middle of the piece, on two walls that
// read alike as on one: not a nanometer off, by which a place would not be found again.
func TestPlacesOfPlatesWithoutBolts(t *testing.T) {
	p := ring(0, 0, 5, 0, 5, 16, 0, 16)
	high := 3129 * geometry.Sixteenth
	p.Outline[2].At.Y, p.Outline[3].At.Y = high, high
	for i := range p.Outline {
		if p.Outline[i].Wall = "2x4"; i%2 == 1 {
			p.Outline[i].Bolts = []plan.BoltMark{{}}
		}
	}
	l := lay(t, p, spec(nil))
	for _, i := range [...]int{1, 3} {
		w := l.Walls[i]
		for _, piece := range w.Pieces {
			if !tells(l, "Two bolts in each plate piece", bolts.Wall{}, w.Side.At((piece.From+piece.To)/2, 0)) {
				t.Errorf("%s: nothing is told at the middle of %v: %v", w.Name(), piece, l.Findings)
			}
		}
	}
}

// checkMarksSaid: a mark in a door, and a piece of plate without two bolts, has a
// finding of its wall. What reads alike of several walls is said once, with the name of the
// first, how many more there are, and the place of each: whoever looks goes by the places.
func checkMarksSaid(t *rapid.T, w bolts.Wall, e plan.Edge, l laid) {
	for _, b := range w.Bolts {
		for _, d := range e.Doors {
			if b.Along > d.From && b.Along < d.From+d.Width && !tells(l, "No bolt in an opening", w, b.At) {
				t.Fatalf("%s: %s is in a door, unsaid", w.Name(), b.Along.Text(0))
			}
		}
	}
	for _, piece := range w.Pieces {
		n := 0
		for _, b := range w.Bolts {
			if !b.HoldDown && b.Along >= piece.From && b.Along <= piece.To {
				n++
			}
		}
		if n < 2 && !tells(l, "Two bolts in each plate piece", w, w.Side.At((piece.From+piece.To)/2, 0), w.Side.At(w.Length/2, 0)) {
			t.Fatalf("%s: %d bolts in %v, unsaid", w.Name(), n, piece)
		}
	}
}

// tells whether a finding of a rule names a wall alone, or has one of its places.
func tells(l laid, name string, w bolts.Wall, at ...geometry.Point) bool {
	return slices.ContainsFunc(l.Findings, func(f rule.Finding) bool {
		return f.Rule.Name == name && (strings.HasPrefix(f.Text, w.Name()+":") || slices.ContainsFunc(append(f.Also, f.At), func(p geometry.Point) bool { return slices.Contains(at, p) }))
	})
}

// A short wall that connects braced ones does with one bolt in its middle third, or
// none: IRC R403.1.6, exceptions 1 and 2.
func TestShortWalls(t *testing.T) {
	for _, c := range []struct {
		length, mark geometry.Length
		want         string
	}{
		{24 * inch, 12 * inch, "note"}, {24 * inch, 8 * inch, "note"}, {24 * inch, 8*inch - inch/16, "limit"},
		{24*inch + inch/16, 12 * inch, "limit"}, {23 * inch, 12 * inch, "note"},
		{12 * inch, 9 * foot, "note"}, {12*inch + inch/16, 9 * foot, "limit"}, // off the wall: none on it
	} {
		p := ring(0, 0, 24, 0, 24, 20, 12, 20, 12, 22, 0, 22)
		p.Outline[4].At.Y, p.Outline[5].At.Y = 20*foot+c.length, 20*foot+c.length
		p.Outline[3].Bolts = []plan.BoltMark{{Along: c.mark}}
		how := ""
		for _, f := range lay(t, p, spec(func(*layout.Spec) {})).Findings {
			if f.Rule.Name == "Two bolts in each plate piece" && strings.HasPrefix(f.Text, "Wall W4") {
				how += f.Severity.String()
			}
		}
		if how != c.want {
			t.Errorf("a wall of %s with a bolt at %s: %q, want %q", c.length.Text(0), c.mark.Text(0), how, c.want)
		}
	}
}

// A bolt under a stud of a 16 in layout is moved, within the rules.
func TestBoltsClearOfStuds(t *testing.T) {
	p := ring(0, 0, 31.3, 0, 31.3, 20, 0, 20)
	l := lay(t, p, spec(nil))
	for _, w := range l.Walls {
		for _, b := range w.Bolts {
			near := b.Along.Round(16 * inch)
			if (b.Along-near).Abs() < (3*inch/2+3*inch)/2 && near > 0 {
				t.Errorf("%s: bolt at %s is under the stud at %s", w.Name(), b.Along.Text(0), near.Text(0))
			}
		}
	}
	if f := broken(l); len(f) > 0 {
		t.Error(f)
	}
}

// A row of bars at the top cover meets the bolts, and so does one that only touches
// them: No. 4 with 3 in of cover to the face, its center 3 1/4 in from it, beside bolts
// of 1/2 in at 2 3/4 in. A sixteenth further in is clear. Rows at the bottom lie below
// the bolts. Each wall tells it once, with how many of its bolts do.
func TestBoltsMeetBars(t *testing.T) {
	for _, c := range []struct {
		name  string
		row   bars.Row
		meets bool
	}{
		{"at the bottom", bars.Row{Face: 5 * inch / 2, Bottom: 3 * inch}, false},
		{"where the bolts stand", bars.Row{Face: 5 * inch / 2, Top: 2 * inch}, true},
		{"touching", bars.Row{Face: 3 * inch, Top: 2 * inch}, true},
		{"just clear", bars.Row{Face: 3*inch + geometry.Sixteenth, Top: 2 * inch}, false},
		{"under the tip", bars.Row{Face: 5 * inch / 2, Top: 15 * inch / 2}, true},
		{"just below the tip", bars.Row{Face: 5 * inch / 2, Top: 15*inch/2 + geometry.Sixteenth}, false},
	} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
			s.Bars.Rows, s.Bolts.Shape = []bars.Row{c.row}, bolts.Headed
		}))
		var said []string
		for _, f := range l.Findings {
			if f.Rule.Name == "Bolts clear of bars" {
				said = append(said, f.Text)
			}
		}
		if !c.meets {
			if len(said) > 0 {
				t.Errorf("%s: %v", c.name, said)
			}
			continue
		}
		if len(said) != len(l.Walls)/2 { // walls across from each other say the same
			t.Errorf("%s: %d walls say %v", c.name, len(l.Walls), said)
			continue
		}
		for i, text := range said {
			w := l.Walls[i]
			if want := fmt.Sprintf("%s and 1 more: %d bolts", w.Name(), len(w.Bolts)); !strings.HasPrefix(text, want) {
				t.Errorf("%s: %q, want %q", c.name, text, want)
			}
		}
	}
}

// A bolt of 10 in that stands up 2 1/2 in reaches 7 1/2 in down. Under an edge of 7 in
// it would stand 1/2 in in the ground, which nobody can build; of 7 1/2 in nothing is
// left, which is a thing to know.
func TestBoltsEndInTheConcrete(t *testing.T) {
	for depth, want := range map[geometry.Length]rule.Severity{7 * inch: rule.Severe, 15 * inch / 2: rule.Note} {
		p := ring(0, 0, 24, 0, 24, 20, 0, 20)
		p.Sections[0].Depth = depth
		said := 0
		for _, f := range lay(t, p, spec(nil)).Findings {
			ground := strings.Contains(f.Text, "would stand 1/2\" in the ground")
			left := strings.Contains(f.Text, "0\" of concrete is left to the ground")
			if !ground && !left {
				continue
			}
			said += 1 + len(f.Also)
			if f.Severity != want || ground != (want == rule.Severe) {
				t.Errorf("an edge %s deep: %v: %s", depth.Text(0), f.Severity, f.Text)
			}
		}
		if said != 4 {
			t.Errorf("an edge %s deep: %d walls tell of it", depth.Text(0), said)
		}
	}
}

// A bolt of 10 in that stands up 2 1/2 in reaches 7 1/2 in down; the middle of its
// hook of 2 in lies 7 1/4 in down and reaches 2 1/4 in inward of the middle of a
// 2x6, to 5 in from the face. A row 4 1/4 in from the face and 7 1/4 in deep is
// 1 1/2 in clear of the shafts, and in the way of every hook that points inward.
func TestHooksMeetBars(t *testing.T) {
	for _, c := range []struct {
		name  string
		row   bars.Row
		shape bolts.Shape
		hook  geometry.Length
		meets bool
	}{
		{"in the way", bars.Row{Face: 4 * inch, Top: 7 * inch}, bolts.Bent, 2 * inch, true},
		{"headed", bars.Row{Face: 4 * inch, Top: 7 * inch}, bolts.Headed, 2 * inch, false},
		{"beyond the tip", bars.Row{Face: 21 * inch / 4, Top: 7 * inch}, bolts.Bent, 2 * inch, false},
		{"just touched", bars.Row{Face: 51 * inch / 10, Top: 7 * inch}, bolts.Bent, 2 * inch, true},
		{"below", bars.Row{Face: 4 * inch, Top: 15 * inch / 2}, bolts.Bent, 2 * inch, false},
		{"just above", bars.Row{Face: 4 * inch, Top: 66 * inch / 10}, bolts.Bent, 2 * inch, true},
	} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) {
			s.Bars.Rows, s.Bolts.Shape, s.Bolts.Hook = []bars.Row{c.row}, c.shape, c.hook
		}))
		met, bolts := 0, 0
		for _, f := range l.Findings {
			if f.Rule.Name == "Bolts clear of bars" {
				met += 1 + len(f.Also)
				if !strings.Contains(f.Text, "turn it along the wall") {
					t.Errorf("%s: %s", c.name, f.Text)
				}
			}
		}
		for _, w := range l.Walls {
			bolts += len(w.Bolts)
		}
		if c.meets && met != bolts || !c.meets && met != 0 {
			t.Errorf("%s: %d of %d hooks meet the row", c.name, met, bolts)
		}
	}
}

// ACI 318-19 17.6.3.2.2, from memory: a hook counts from 3 to 4.5 diameters.
func TestHookLength(t *testing.T) {
	for hook, found := range map[geometry.Length]bool{
		inch: true, 3 * inch / 2: false, 9 * inch / 4: false, 5 * inch / 2: true,
	} {
		l := lay(t, ring(0, 0, 24, 0, 24, 20, 0, 20), spec(func(s *layout.Spec) { s.Bolts.Hook = hook }))
		got := slices.ContainsFunc(l.Findings, func(f rule.Finding) bool { return f.Rule.Name == "Hook of a bent bolt" })
		if got != found {
			t.Errorf("a hook of %s: found is %v", hook.Text(0), got)
		}
	}
}

// A mark on an edge without a wall is not dropped without a word.
func TestStrayMarks(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	p.Outline[2].Wall = ""
	p.Outline[2].Bolts = []plan.BoltMark{{Along: 6 * foot}}
	l := lay(t, p, spec(nil))
	i := slices.IndexFunc(l.Findings, func(f rule.Finding) bool { return f.Rule.Name == "Bolts stand on a wall" })
	if i < 0 || l.Findings[i].At != (geometry.Point{X: 18 * foot, Y: 20 * foot}) {
		t.Errorf("%v", l.Findings)
	}
}

// Bolts keep seven of their own diameters off the ends of a plate (IRC R403.1.6), also
// where the specification still says what suits thinner ones.
func TestThickBoltsKeepOffEnds(t *testing.T) {
	p := ring(0, 0, 24, 0, 24, 20, 0, 20)
	for i := range p.Outline {
		p.Outline[i].Wall = ""
	}
	p.Outline[0].Wall = "2x6"
	p.Outline[0].Doors = []plan.Door{{From: 4 * foot, Width: 3 * foot}, {From: 8*foot + 4*inch, Width: 10 * foot}}
	const thick = 3 * inch / 4
	l := lay(t, p, spec(func(s *layout.Spec) { s.Bolts.Diameter, s.Bolts.Stud = thick, 0 }))
	short := l.Walls[0].Pieces[1] // 16 in
	var in []geometry.Length
	for _, b := range l.Walls[0].Bolts {
		if b.Along > short.From && b.Along < short.To {
			in = append(in, b.Along)
		}
	}
	if len(in) != 2 || in[0]-short.From < 7*thick || short.To-in[1] < 7*thick {
		t.Errorf("bolts at %v on a plate from %v to %v", in, short.From, short.To)
	}
}
