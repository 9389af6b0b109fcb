package sheet

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// building gives a job of a plain rectangle of so many feet with framed walls, and
// doors on its first side: pairs of where one begins and how wide it is.
func building(wide, long float64, doors ...float64) job.Job {
	j := job.New()
	j.Name = "Plain"
	j.Slabs[0].Sections = []plan.Section{{Name: "Edge", Depth: 12 * in, Bottom: 12 * in, Taper: 8 * in}}
	for _, c := range [][2]float64{{0, 0}, {wide, 0}, {wide, long}, {0, long}} {
		j.Slabs[0].Outline = append(j.Slabs[0].Outline, plan.Edge{At: point(c[0], c[1]), Section: "Edge", Wall: "2x6"})
	}
	for i := 0; i+1 < len(doors); i += 2 {
		j.Slabs[0].Outline[0].Doors = append(j.Slabs[0].Outline[0].Doors, plan.Door{
			From: geometry.Length(doors[i] * float64(ft)), Width: geometry.Length(doors[i+1] * float64(ft)),
		})
	}
	return j
}

// A crew folds one or two sheets into a pocket: what is added later takes none that
// the job has no use for.
func TestSheetsAreFew(t *testing.T) {
	shed, garage := building(10, 8, 3, 3), building(24, 20, 2, 16, 19.5, 3)
	shop := building(200, 80, 10, 14, 40, 14, 70, 14, 100, 14, 130, 14, 160, 14)
	addition := building(24, 20, 2, 16, 19.5, 3)
	addition.Slabs[0].Outline[2].Joint, addition.Slabs[0].Outline[2].Wall = true, ""
	addition.Spec.Base.Foam, addition.Spec.Place.Field.Kind = 2*in, field.Mesh
	for _, c := range []struct {
		name  string
		job   job.Job
		paper Paper
		most  int
	}{
		{"shed", shed, Letter, 2},
		{"garage", garage, Letter, 3},
		{"garage", garage, Tabloid, 2},
		{"addition", addition, Letter, 4},
		{"addition", addition, Tabloid, 2},
		{"demo", demoJob(t), Tabloid, 3},
		{"shop", shop, Tabloid, 6},
		{"shop", shop, ArchD, 4},
	} {
		pages, err := Pages(t.Context(), handed(t, c.job), Options{Date: fixedDate, Paper: c.paper})
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) > c.most {
			t.Errorf("%s on %s: %d sheets, at most %d", c.name, c.paper.Name, len(pages), c.most)
		}
	}
}

// What found no room on drawings takes no sheet for itself: of the sample jobs, one on
// letter and one on tabloid did.
func TestSamplesAreFew(t *testing.T) {
	most := map[string][2]int{"Shop addition": {6, 3}, "Garage addition": {4, 3}, "Shop": {7, 3}, "House, metric": {7, 3}, "Workshop": {9, 5}}
	for _, sample := range assets.Samples() {
		j, err := job.Read(bytes.NewReader(sample.Data))
		if err != nil {
			t.Fatal(err)
		}
		h := handed(t, j)
		about, _, _ := strings.Cut(sample.Name, ":")
		for i, paper := range []Paper{Letter, Tabloid} {
			pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			if n := most[about][i]; len(pages) > n {
				t.Errorf("%s on %s: %d sheets, at most %d", about, paper.Name, len(pages), n)
			}
		}
	}
}

// Where no edge section is drawn beside the first plan, it is told there: the crew forms
// by that sheet alone.
func TestFirstSheetTellsTheEdge(t *testing.T) {
	for _, sample := range assets.Samples() {
		j, err := job.Read(bytes.NewReader(sample.Data))
		if err != nil {
			t.Fatal(err)
		}
		for _, paper := range []Paper{Letter, Tabloid} {
			pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate, Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			said := strings.Join(texts(pages[0]), "\n")
			for _, sec := range j.Slabs[0].Sections {
				title := strings.Contains(said, "Section "+sec.Name) || regexp.MustCompile("(Edge section|Section [A-Z]): "+regexp.QuoteMeta(sec.Name)).MatchString(said)
				if words := fmt.Sprintf("bottom %s, taper %s", sec.Bottom.Text(j.Units), sec.Taper.Text(j.Units)); !title && !strings.Contains(said, words) {
					t.Errorf("%s on %s: the first sheet says nothing of the shape of %s", sample.Name, paper.Name, sec.Name)
				}
			}
		}
	}
}

// A large sheet is read from farther off: its letters and lines grow with it, and its
// drawings keep their scale.
func TestLetteringGrowsWithThePaper(t *testing.T) {
	h := handed(t, building(24, 20, 2, 16))
	for _, c := range []struct {
		paper Paper
		grown float64
	}{{Letter, 1}, {Tabloid, 1}, {ArchC, 1.2}, {ArchD, 1.4}, {A2, 1.2}, {A1, 1.4}} {
		pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Paper: c.paper})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			if w, tall := c.paper.landscape(); math.Abs(p.Width-w) > 1e-9 || math.Abs(p.Height-tall) > 1e-9 {
				t.Errorf("%s: a page of %g by %g mm", c.paper.Name, p.Width, p.Height)
			}
			for _, it := range p.Items {
				if x, ok := it.(Text); ok && x.Size < sizeFine*c.grown-1e-9 {
					t.Errorf("%s, %s: %q is of %g points", c.paper.Name, p.Name, x.Text, x.Size)
				}
			}
		}
		// By what is printed: the first side, 24 ft, between the ends of its dimension.
		v := pages[0].View
		if got := v.at(point(24, 0)).X - v.at(point(0, 0)).X; math.Abs(got-24*304.8/v.Scale.Ratio) > 1e-6 {
			t.Errorf("%s: 24 ft are %g mm long at %s", c.paper.Name, got, v.Scale.Name)
		}
	}
}

// The marks a job was handed out under before stand on the first sheet, once each, with
// the one it has now; a job that never had another has no word of them.
func TestRevisionsAreListed(t *testing.T) {
	j := building(24, 20, 2, 16)
	j.Revision = "B"
	a := Revision{"A", "before moving the door", time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)}
	for _, c := range []struct {
		had  []Revision
		rows int
	}{{nil, 0}, {[]Revision{{"B", "", fixedDate}}, 0}, {[]Revision{a}, 2}, {[]Revision{a, {"B", "", fixedDate}}, 2}} {
		pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate, Paper: Tabloid, Revisions: c.had})
		if err != nil {
			t.Fatal(err)
		}
		var first []string
		for _, s := range texts(pages[0]) {
			if s == "Revisions" || s == "Mar 1, 2024" || s == "before moving the door" || s == "this set" {
				first = append(first, s)
			}
		}
		if len(first) != 2*c.rows {
			t.Errorf("with %v: %q", c.had, first)
		}
	}
}

// The datum is dark on the plan and in the key, and match lines are measured from it.
func TestDatumIsSeen(t *testing.T) {
	j := building(200, 80, 10, 14)
	var err error
	if j.Slabs[0], err = j.Slabs[0].WithDatum(2); err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate, Paper: Letter})
	if err != nil {
		t.Fatal(err)
	}
	dark, lines := 0, 0
	for _, p := range pages {
		for _, it := range p.Items {
			x, ok := it.(Text)
			switch {
			case ok && x.Color == white && x.Layer != Frame && x.Bold && x.Text == "3":
				dark++
			case ok && x.Color == white && x.Layer == drawing.Corners && x.Text == "1":
				t.Errorf("%s: corner 1 is dark", p.Name)
			case ok && strings.HasPrefix(x.Text, "match line"):
				if lines++; !strings.Contains(x.Text, " corner 3: ") || strings.Contains(x.Text, "right of") || strings.Contains(x.Text, "above") {
					t.Errorf("%s: %q", p.Name, x.Text)
				}
			}
		}
	}
	if dark < 2 || lines < 4 {
		t.Errorf("the datum is dark %d times; %d match lines", dark, lines)
	}
}

// The first sheet says what stands on the others.
func TestSheetIndex(t *testing.T) {
	pages, err := Pages(t.Context(), handed(t, building(200, 80, 10, 14, 40, 14)), Options{Date: fixedDate, Paper: Letter})
	if err != nil {
		t.Fatal(err)
	}
	var index []string
	for _, p := range pages {
		for _, s := range texts(p) {
			if strings.HasPrefix(s, "Sheets: ") {
				index = append(index, p.Name+": "+s)
			}
		}
	}
	if len(index) != 1 || !strings.HasPrefix(index[0], pages[0].Name) {
		t.Fatalf("the index stands on %q", index)
	}
	// Each name of a page is in it with a range that has the page.
	for i, p := range pages {
		for _, topic := range strings.Split(strings.Split(p.Name, ", part")[0], ", ") {
			m := regexp.MustCompile(topic + `(?:, [^;\d]*)? (\d+)(?:–(\d+))?(;|$)`).FindStringSubmatch(index[0])
			if m == nil {
				t.Fatalf("%q is not in %q", topic, index[0])
			}
			from, _ := strconv.Atoi(m[1])
			to, _ := strconv.Atoi(m[2])
			if n := i + 1; n < from || n > max(from, to) {
				t.Errorf("%s stands on sheet %d too: %q", topic, n, index[0])
			}
		}
	}
}

// A part that fills its sheets keeps off their title blocks.
func TestFullPartsOfTheSet(t *testing.T) {
	h := handed(t, building(200, 80, 10, 14, 40, 14, 70, 14))
	for _, part := range []Part{ForSteel, ForPour, ForForms} {
		pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Paper: Letter, Part: part})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			for _, s := range overlaps(p) {
				t.Errorf("%s, %s: %s", part, p.Name, s)
			}
		}
	}
}

// Each part of the set has what its person needs, and no more sheets than the whole.
func TestPartsOfTheSet(t *testing.T) {
	h := handed(t, demoJob(t))
	whole, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	for part, want := range map[Part][]string{
		FirstOnly: {"Square: diagonals", "Rough openings"},
		ForForms:  {"Rough openings", "Forms", "Cutting boards", "To order"},
		ForSteel:  {"Steel", "Bars, Grade 60", "Cutting bars"},
		ForPour:   {"Loads", "Concrete, ASTM C94/C94M", "Curing and loading"},
	} {
		pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Part: part})
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) == 0 || len(pages) >= len(whole) && part != ForForms {
			t.Errorf("%s: %d sheets of %d", part, len(pages), len(whole))
		}
		for _, p := range pages {
			for _, s := range overlaps(p) {
				t.Errorf("%s: %s", part, s)
			}
		}
		all := texts(pages...)
		for _, w := range want {
			if !slices.Contains(all, w) {
				t.Errorf("%s: no %q", part, w)
			}
		}
	}
}

// A list that goes on elsewhere says what it is there too, however often it is parted.
func TestPartedListsAreNamed(t *testing.T) {
	row := notes{items: []string{"a row"}, size: sizeSmall}
	for name, b := range map[string]splitter{
		"pile":  pile{notes{title: "Cutting bars", size: sizeSmall}, row, row, row, row, row, row, row, row, row, row, row, row},
		"table": tableBlock{table: table{title: "Cutting bars", head: []string{"x"}, rows: make([][]string, 30)}},
	} {
		for part := range 2 {
			_, rest, ok := b.cut(45, 80)
			if !ok {
				t.Fatalf("%s: part %d is not cut", name, part)
			}
			d := newDraft("", 200, 900)
			rest.draw(d, 10, 890, 80)
			if all := texts(d.finish()); len(all) == 0 || all[0] != "Cutting bars, continued" {
				t.Errorf("%s: part %d begins %q", name, part, all[:min(2, len(all))])
			}
			b = rest.(splitter)
		}
	}
}

// plainJobs are plain jobs, each with something that most have, of which the first sheet
// suffices.
func plainJobs(t *testing.T) map[string]job.Job {
	joined := func(j job.Job) job.Job {
		j.Slabs[0].Outline[2].Joint, j.Slabs[0].Outline[2].Wall = true, ""
		return j
	}
	garage := func() job.Job { return building(24, 20, 2, 16, 19.5, 3) }
	drained := garage()
	drained.Slabs[0] = drained.Slabs[0].AddHole("drain", plan.Like(geometry.Ring{point(11, 9), point(13, 9), point(13, 11), point(11, 11)}, plan.Edge{}))
	drained.Slabs[0].Pads = []plan.Pad{{Name: "post", Center: point(6, 10), Width: 2 * ft, Length: 2 * ft, Depth: 18 * in}, {Name: "post", Center: point(18, 10), Width: 2 * ft, Length: 2 * ft, Depth: 18 * in}}
	bearing := garage()
	bearing.Slabs[0].Strips = []plan.Strip{{Name: "wall", Path: []geometry.Point{point(12, 2), point(12, 18)}, Bottom: 12 * in, Depth: 12 * in, Taper: 6 * in}}
	foamed := joined(garage())
	foamed.Spec.Base.Foam, foamed.Spec.Place.Field.Kind = 2*in, field.Mesh
	noted := garage()
	noted.Notes, noted.Revision = "Keep the drive clear; the neighbor parks on the left. Water is at the house.", "B"
	noted.Survey.Benchmarks = []plan.Benchmark{{Name: "nail in the curb", At: point(-8, -8)}}
	shop := building(200, 80, 10, 14, 40, 14, 70, 14, 100, 14, 130, 14, 160, 14)
	beside := building(200, 80, 10, 14, 40, 14, 70, 14)
	beside.Slabs[0].Outline[1].Joint, beside.Slabs[0].Outline[1].Wall = true, ""
	posts := building(200, 80, 10, 14, 40, 14, 70, 14)
	for x := 25.0; x < 200; x += 25 {
		posts.Slabs[0].Pads = append(posts.Slabs[0].Pads, plan.Pad{Center: point(x, 40), Width: 3 * ft, Length: 3 * ft, Depth: 18 * in})
	}
	return map[string]job.Job{
		"shed": building(10, 8, 3, 3), "garage": garage(), "addition": joined(garage()), "drain and posts": drained, "bearing wall": bearing,
		"foam and mesh": foamed, "notes": noted, "metric": joined(garage()).In(geometry.Millimeters), "demo": demoJob(t), "shop": shop, "posts": posts, "shop with a joint": beside,
	}
}

// running tells whether a row stands among texts, whose first cell may run on below it.
func running(all []string, name string, cells ...string) bool {
	for at := len(name); at > 0; at = strings.LastIndex(name[:at], " ") {
		if begun := append([]string{name[:at]}, cells...); at == len(name) && row(all, begun...) || at < len(name) && row(all, append(begun, name[at+1:])...) {
			return true
		}
	}
	return false
}

// The first sheet alone suffices to stake out, form and set the bolts of a plain job, or
// the sheets of its plan, where that is split.
func TestTheFirstSheetSuffices(t *testing.T) {
	for name, j := range plainJobs(t) {
		papers := []Paper{Letter, Tabloid}
		switch {
		case j.Units == geometry.Millimeters:
			papers = []Paper{A4, A3}
		case len(j.Slabs[0].Outline) == 4 && j.Slabs[0].Outline[1].At.X > 100*ft:
			papers = []Paper{Tabloid, ArchD}
		case name == "demo":
			papers = papers[1:]
		}
		if name == "shop with a joint" {
			papers = papers[1:] // on tabloid the last of its 54 dowels stand on the sheet after the plan's
		}

		for _, paper := range papers {
			h := handed(t, j)
			pages, err := Pages(t.Context(), h, Options{Date: fixedDate, Paper: paper})
			if err != nil {
				t.Fatal(err)
			}
			plans := 1 // sheets of the first plan
			for plans < len(pages) && strings.HasPrefix(pages[plans].Name, "Layout") {
				plans++
			}
			all, u, slab := texts(pages[:plans]...), j.Units, taken(t, h).Slabs[0]
			lacks := func(has bool, what string, args ...any) {
				if !has {
					t.Errorf("%s on %s: the first sheet lacks "+what, append([]any{name, paper.Name}, args...)...)
				}
			}
			said := strings.Join(all, " ")
			sec := slab.Plan.Sections[0]
			lacks(strings.Contains(said, ": "+sec.Name) || strings.Contains(said, "bottom") && strings.Contains(said, "taper"), "the edge section")
			lacks(strings.Contains(said, "truck loads: "), "the order")
			lacks(strings.Contains(strings.Join(texts(pages[0]), "\n"), strings.TrimSuffix(cautionDig, ".")), "its cautions")
			for _, w := range slab.Layout.Walls {
				for _, b := range w.Bolts {
					lacks(row(all, b.Mark.String(), b.Along.Text(u), b.Back.Text(u)), "bolt %s", b.Mark)
				}
			}
			for _, d := range slab.Layout.Diagonals {
				lacks(row(all, fmt.Sprintf("%d–%d", d.I+1, d.J+1), d.Length.Text(u)) || slices.Contains(all, "diagonal "+d.Length.Text(u)), "diagonal %d–%d", d.I+1, d.J+1)
			}
			for i, e := range slab.Plan.Outline {
				a, b := slab.Plan.Outline.Ends(i)
				lacks(slices.Contains(all, geometry.Distance(a, b).Text(u)), "side %d", i+1)
				end := geometry.Length(0) // of the door before
				for _, d := range e.Doors {
					lacks(slices.Contains(all, d.Width.Text(u)) && (slices.Contains(all, d.From.Text(u)) || slices.Contains(all, (d.From-end).Text(u))), "a door")
					end = d.From + d.Width
				}
			}
			for i, d := range slab.Layout.Dowels {
				lacks(row(all, fmt.Sprint(i+1), d.Along.Text(u)), "dowel %d", i+1)
			}
			for _, c := range slab.Layout.SawCuts {
				lacks(slices.Contains(all, c.Mark.String()), "saw cut %s", c.Mark)
			}
			datum, marks := slab.Plan.Datum(), slab.Layout.Marks
			set := func(what string, p geometry.Point) {
				at := datum.Of(p)
				lacks(running(all, what, at.X.Text(u), at.Y.Text(u)), "where %s lies", what)
			}
			for i, p := range slab.Plan.Pads {
				set(marks.Pad(i).Called(p.Name)+" center", p.Center)
			}
			for i, h := range slab.Plan.Holes {
				for k, e := range h.Loop {
					set(fmt.Sprintf("%s corner %d", marks.Hole(i).Called(h.Name), k+1), e.At)
				}
			}
			for i, st := range slab.Plan.Strips {
				for k, p := range st.Path {
					set(fmt.Sprintf("%s point %d", marks.Strip(i).Called(st.Name), k+1), p)
				}
			}
		}
	}
}
