package sheet

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// texts gives the texts of pages in the order they were drawn: those of a row of
// a table follow one another.
func texts(pages ...Page) (out []string) {
	for _, p := range pages {
		for _, it := range p.Items {
			if t, ok := it.(Text); ok {
				out = append(out, t.Text)
			}
		}
	}
	return out
}

// row tells whether texts follow one another.
func row(all []string, cells ...string) bool {
	for i := range all {
		if i+len(cells) <= len(all) && slices.Equal(all[i:i+len(cells)], cells) {
			return true
		}
	}
	return false
}

func jobNamed(t *testing.T, name string) job.Job {
	t.Helper()
	for _, c := range corpus() {
		if c.name == name {
			return c.job
		}
	}
	t.Fatalf("no plan %q", name)
	return job.Job{}
}

// Every slab has its own sheets, and everything placed on it stands on one.
func TestEverySlabIsOnTheSheets(t *testing.T) {
	for _, name := range []string{"two slabs", "three slabs"} {
		j := jobNamed(t, name)
		h := handed(t, j)
		pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
		if err != nil {
			t.Fatal(err)
		}
		all, u := texts(pages...), j.Units
		for _, s := range taken(t, h).Slabs {
			if !row(all, s.Name) {
				t.Errorf("%s: nowhere named %q", name, s.Name)
			}
			checkSlab(t, name, pages, all, s, j)
			for _, m := range bars.Schedule(s.Layout.Bars) {
				if !row(all, m.Mark.String(), fmt.Sprint(m.Count), strings.TrimPrefix(m.Size.String(), "No. "), m.Cut.Text(u)) {
					t.Errorf("%s, %s: no bar %s, %d pieces of %s", name, s.Name, m.Mark, m.Count, m.Cut.Text(u))
				}
			}
			for _, w := range s.Layout.Walls {
				for _, b := range w.Bolts {
					if !row(all, fmt.Sprint(b.Mark), b.Along.Text(u), b.Back.Text(u)) {
						t.Errorf("%s, %s: no bolt %d at %s", name, s.Name, b.Mark, b.Along.Text(u))
					}
				}
			}
			for _, d := range s.Layout.Diagonals {
				if !row(all, fmt.Sprintf("%d–%d", d.I+1, d.J+1), d.Length.Text(u)) && !slices.Contains(all, "diagonal "+d.Length.Text(u)) {
					t.Errorf("%s, %s: no diagonal %d–%d", name, s.Name, d.I+1, d.J+1)
				}
			}
		}
		for _, c := range []struct {
			title string
			list  cutlist.List
		}{{"Cutting bars", taken(t, h).Lists.Cuts}, {"Cutting boards", taken(t, h).Lists.Lumber}, {"Cutting sill plates", taken(t, h).Lists.Plates}} {
			n := 0
			for _, s := range all {
				if s == c.title {
					n++
				}
			}
			if n != 1 || !slices.ContainsFunc(all, func(s string) bool { return strings.HasPrefix(s, c.list.Bought.Text(u)+" to buy") }) {
				t.Errorf("%s: %d lists %q, want one that buys %s", name, n, c.title, c.list.Bought.Text(u))
			}
		}
	}
}

// checkSlab checks that each step of the work is drawn of the slab, and its first
// plan to scale.
func checkSlab(t *testing.T, name string, pages []Page, all []string, s takeoff.Slab, j job.Job) {
	t.Helper()
	steps := map[string]bool{"Steel": len(s.Layout.Bars) > 0, "Forms": len(s.Layout.Forms) > 0, "Pour": true}
	for step, want := range steps {
		if got := row(all, step) || row(all, s.Called(step)) || step == "Forms" && (row(all, "Forms and vapor retarder") || row(all, s.Called("Forms and vapor retarder"))); want && !got {
			t.Errorf("%s: no plan %q of %q", name, step, s.Name)
		}
	}
	i := slices.IndexFunc(pages, func(p Page) bool { return p.Name == "Layout" || p.Name == "Layout: "+s.Name })
	if i < 0 {
		t.Fatalf("%s: no layout of %q", name, s.Name)
	}
	v := pages[i].View
	for _, c := range s.Plan.Outline {
		if at := v.at(c.At); !(rect{X0: margin, Y0: margin + titleBlock, X1: pages[i].Width - margin, Y1: pages[i].Height - margin}).Has(at) {
			t.Errorf("%s: corner %v is off %q", name, c.At, pages[i].Name)
		}
	}
}

// Bookmarks lead to the sheet of each slab.
func TestBookmarksNameTheSlabs(t *testing.T) {
	j := jobNamed(t, "three slabs")
	h := handed(t, j)
	var b bytes.Buffer
	if err := Write(t.Context(), &b, h, Options{Date: fixedDate}); err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	marks := tool(t, b.Bytes(), "qpdf", "--json", "--json-key=outlines", "FILE")
	for _, s := range taken(t, h).Slabs {
		if want := fmt.Sprintf(`"title": %q`, "Layout: "+s.Name); !strings.Contains(marks, want) {
			t.Errorf("no bookmark %s", want)
		}
	}
	if n := strings.Count(marks, `"destpageposfrom1"`); n != len(pages) {
		t.Errorf("%d bookmarks for %d sheets", n, len(pages))
	}
}

// North, benchmarks, notes and heights stand on the sheets.
func TestSurveyIsOnTheSheets(t *testing.T) {
	j := jobNamed(t, "three slabs")
	h := handed(t, j)
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	flat := strings.Join(texts(pages...), " ")
	for _, want := range []string{"N", "Old drain crosses here", "Keep the gate clear", "Power line overhead", "BM 1, nail in the power pole: height 0\"",
		"BM 2, top of the curb at the drive", "height 1'-2\"", "Heights over BM 1", "top 3\"", "top 4\"", "top -1/2\""} {
		if !strings.Contains(flat, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, s := range taken(t, h).Slabs {
		for _, g := range s.Layout.Grades {
			if !row(texts(pages...), fmt.Sprint(g.Corner+1), g.Top.Text(j.Units), g.Dig.Text(j.Units)) {
				t.Errorf("%s: no height of corner %d", s.Name, g.Corner+1)
			}
		}
	}
	// Each note stands on the layout of one slab.
	for _, n := range j.Survey.Notes {
		sheets := 0
		for _, p := range pages {
			if strings.HasPrefix(p.Name, "Layout") && strings.Contains(strings.Join(texts(p), " "), n.Text) {
				sheets++
			}
		}
		if sheets != 1 {
			t.Errorf("%q stands on %d layouts", n.Text, sheets)
		}
	}
}

// The north arrow points where the survey says.
func TestNorthPoints(t *testing.T) {
	for turn, want := range map[float64]Point{0: {X: 0, Y: 1}, 90: {X: 1, Y: 0}, 180: {X: 0, Y: -1}, -90: {X: -1, Y: 0}, 45: drawing.Unit(Point{X: 1, Y: 1})} {
		j := jobNamed(t, "ell")
		j.Survey.North.Known, j.Survey.North.Turn = true, turn
		p, err := LayOut(t.Context(), handed(t, j))
		if err != nil {
			t.Fatal(err)
		}
		var n, c Point
		for _, it := range p.Items {
			switch v := it.(type) {
			case Text:
				if v.Text == "N" {
					n = v.box().Mid
				}
			case Circle:
				if v.Radius == 4 {
					c = v.Center
				}
			}
		}
		if got := drawing.Unit(n.Sub(c)); got.Sub(want).Length() > 0.12 {
			t.Errorf("turned %g°: N lies toward %v, want %v", turn, got, want)
		}
	}
}

// However much is written, every word of it stands on the sheets, and each number
// of a list that takes many sheets.
func TestNothingWrittenIsLost(t *testing.T) {
	j := jobNamed(t, "rectangle")
	var words []string
	for i := range 4000 {
		words = append(words, fmt.Sprintf("word%d", i))
	}
	j.Notes = strings.Join(words, " ")
	for i := range 120 {
		j.Survey.Notes = append(j.Survey.Notes, plan.Note{Text: fmt.Sprintf("note%d that goes on and on for a while", i), At: point(12, 10), Leader: true, To: point(12, 10)})
		words = append(words, fmt.Sprintf("note%d", i))
	}
	pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pages {
		for _, s := range overlaps(p) {
			t.Errorf("%s: %s", p.Name, s)
		}
	}
	seen := map[string]bool{}
	for _, w := range strings.Fields(strings.Join(texts(pages...), " ")) {
		seen[w] = true
	}
	lost := 0
	for _, w := range words {
		if !seen[w] {
			lost++
		}
	}
	if lost > 0 {
		t.Errorf("%d of %d words are on no sheet", lost, len(words))
	}
}

// The mesh of every slab is counted on the sheets.
func TestMeshOfEverySlab(t *testing.T) {
	j := jobNamed(t, "two slabs")
	j.Spec.Place.Field.Kind = field.Mesh
	h := handed(t, j)
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(texts(pages...), " ")
	for _, s := range taken(t, h).Slabs {
		for _, want := range []string{s.Called("Mesh"), fmt.Sprintf("in %d pieces as drawn", len(s.Layout.Mesh))} {
			if !strings.Contains(all, want) {
				t.Errorf("no %q", want)
			}
		}
	}
}

// Every finding stands on the sheets, once.
func TestEveryFindingIsOnTheSheets(t *testing.T) {
	// A pour of too many loads to plan, and slabs that lie on each other.
	many, apart := jobNamed(t, "huge"), jobNamed(t, "two slabs")
	many.Spec.Order.Step, many.Spec.Order.Truck = decimal.New(25, -2), decimal.New(25, -2)
	many.Spec.Place.SawCuts.Aspect = 1
	for i := range apart.Slabs[1].Outline {
		apart.Slabs[1].Outline[i].At.Y += 4 * ft
		apart.Slabs[1].Outline[i].Joint = false
	}
	jobs := append(corpus(), awkward{"demo", demoJob(t)}, awkward{"no plan of the pour", many}, awkward{"slabs on each other", apart})
	for _, c := range jobs {
		h := handed(t, c.job)
		pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
		if err != nil {
			t.Fatal(err)
		}
		flat := func(s string) string { return strings.Join(strings.Fields(s), "") }
		all := flat(strings.Join(texts(pages...), " "))
		for _, f := range taken(t, h).Findings {
			want := 1
			if f.Planning { // for who plans
				want = 0
			}
			if n := strings.Count(all, flat(f.Text)); n != want {
				t.Errorf("%s: %d times on the sheets: %s: %s", c.name, n, f.Rule.Name, f.Text)
			}
		}
	}
}

// A long list runs on over as many sheets as it takes.
func TestLongListsAreWhole(t *testing.T) {
	j := jobNamed(t, "huge")
	h := handed(t, j)
	pages, err := Pages(t.Context(), h, Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	all := " " + strings.Join(texts(pages...), " ") + " "
	for _, l := range []cutlist.List{taken(t, h).Lists.Cuts, taken(t, h).Lists.Lumber, taken(t, h).Lists.Plates} {
		for _, st := range l.Stock {
			for _, p := range st.Pieces {
				if !strings.Contains(all, " "+p.Mark.String()+" ") {
					t.Fatalf("piece %s is on no sheet", p.Mark)
				}
			}
		}
	}
	for _, w := range taken(t, h).Slabs[0].Layout.Walls {
		for _, b := range w.Bolts {
			if !row(texts(pages...), fmt.Sprint(b.Mark), b.Along.Text(j.Units), b.Back.Text(j.Units)) {
				t.Fatalf("bolt %d is on no sheet", b.Mark)
			}
		}
	}
}

// Sheets measure from the datum that the plan has, as the window does.
func TestSheetsMeasureFromTheDatum(t *testing.T) {
	j := demoJob(t)
	var err error
	if j.Slabs[0], err = j.Slabs[0].WithDatum(2); err != nil {
		t.Fatal(err)
	}
	datum := j.Slabs[0].Datum()
	at := datum.Place(geometry.Point{X: 7 * ft, Y: 5*ft + 3*in})
	j.Slabs[0].Pads = append(j.Slabs[0].Pads, plan.Pad{Center: at, Width: 2 * ft, Length: 2 * ft, Depth: ft})
	pages, err := Pages(t.Context(), handed(t, j), Options{Date: fixedDate})
	if err != nil {
		t.Fatal(err)
	}
	flat := strings.Join(texts(pages...), " ")
	for _, want := range []string{"Set out from corner 3", "Along 3–4", "Wet pads, from corner 3", "from corner 3, "} {
		if !strings.Contains(flat, want) {
			t.Errorf("no %q", want)
		}
	}
	if !row(texts(pages...), "7'-0\"", "5'-3\"") {
		t.Error("the pad is not measured from corner 3")
	}
	for _, stale := range []string{"from corner 1", "along 1–2,"} {
		if strings.Contains(flat, stale) {
			t.Errorf("still %q", stale)
		}
	}
}
