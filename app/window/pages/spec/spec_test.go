package spec

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

func opened(t *testing.T) *hands.Desk {
	t.Helper()
	d := hands.NewDesk(t, hands.Demo(t), hands.Book(t))
	d.Beside(New(d))
	return d
}

// look types into the search.
func look(d *hands.Desk, text string) { d.Type(d.Hinted("Find a field"), text) }

// Whatever is typed into the fields is said to be wrong, or taken, and what was there
// can be typed again.
func TestFieldsReadAndWrite(t *testing.T) {
	d := opened(t)
	look(d, ".") // every one has a sentence
	was := string(d.Job().Encode())
	n := 0
	for _, e := range d.Entries()[1:] {
		n++
		text := e.Text
		d.Type(e, "nonsense ?")
		d.Type(e, text)
		if e.Text != text {
			t.Errorf("after %q the field shows %q", text, e.Text)
		}
	}
	if n < 20 {
		t.Errorf("%d entries", n)
	}
	if got := string(d.Job().Encode()); got != was || len(d.Faults()) > 0 {
		t.Errorf("the job is not as it was; faults %v", d.Faults())
	}
}

// Bars round the edge are added, changed and removed; what cannot be is said at the
// field, and stays there to be mended.
func TestEdgeBars(t *testing.T) {
	d := opened(t)
	d.Open("Edge bars")
	rows := func() []bars.Row { return d.Job().Spec.Place.Bars.Rows }
	n := len(rows())
	d.Press("Add a bar round the edge")
	if len(rows()) != n+1 {
		t.Fatalf("%d bars, want %d", len(rows()), n+1)
	}
	d.Fill("Clear of the face", "4")
	d.Fill("Clear of the underside", "5")
	if r := rows()[n]; r.Face != 4*geometry.Inch || r.Bottom+r.Top != 5*geometry.Inch {
		t.Errorf("the bar is %+v", r)
	}
	d.Select("Measured from", "the top")
	if r := rows()[n]; r.Top != 5*geometry.Inch || r.Bottom != 0 {
		t.Errorf("the bar is %+v", r)
	}
	e := d.Field("Clear of the top")
	d.Type(e, "deep")
	if e.Text != "deep" || rows()[n].Top != 5*geometry.Inch {
		t.Errorf("after a wrong text the field has %q, the bar %+v", e.Text, rows()[n])
	}
	d.Refresh()
	if e := d.Field("Clear of the top"); e.Text != "deep" {
		t.Errorf("the wrong text is lost: %q", e.Text)
	}
	d.Fill("Clear of the top", "6")
	d.Press("Remove this bar")
	if len(rows()) != n {
		t.Errorf("%d bars, want %d", len(rows()), n)
	}
	d.Undo()
	d.Reads("Bar 2 round the edge")
	for len(rows()) > 0 {
		d.Press("Remove this bar")
	}
	d.Reads("No bars round the edge.")
	d.Press("Back to the usual values")
	if len(rows()) == 0 {
		t.Error("the usual specification has no bars")
	}
}

func TestListsOfLengths(t *testing.T) {
	d := opened(t)
	d.Open("Edge bars")
	d.Fill("Offcuts on hand", `7', 6'-6"`)
	if y := d.Job().Spec.Place.Bars.Yard; len(y) != 2 || y[1] != 78*geometry.Inch {
		t.Errorf("offcuts %v", y)
	}
	d.Fill("Offcuts on hand", "some")
	d.Reads("! ")
	d.Fill("Offcuts on hand", "")
	if y := d.Job().Spec.Place.Bars.Yard; len(y) != 0 {
		t.Errorf("offcuts %v", y)
	}
}

// A bare number is in the unit that stands in the field before it is taken: inches of
// foam, feet of a sheet. What is far from the trade is asked about below the field, and
// taken.
func TestBareNumbers(t *testing.T) {
	d := opened(t)
	d.Open("Under the slab")
	e := d.Field("Foam thickness")
	e.FocusGained()
	for _, k := range []fyne.KeyName{fyne.KeyEnd, fyne.KeyBackspace, fyne.KeyBackspace, fyne.KeyBackspace, fyne.KeyBackspace} {
		e.TypedKey(&fyne.KeyEvent{Name: k})
	}
	e.TypedRune('2')
	d.Reads("in\n= 2\"")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if f := d.Job().Spec.Base.Foam; f != 2*geometry.Inch || e.Text != `2"` {
		t.Errorf("2 of foam is %s; the field has %s", f.Text(0), e.Text)
	}
	d.Fill("Foam sheet, width", "4")
	if w := d.Job().Spec.Base.FoamWidth; w != 4*geometry.Foot {
		t.Errorf("a sheet 4 wide is %s", w.Text(0))
	}
	d.Fill("Gravel", "30")
	d.Reads(`2'-6"? The trade uses 2" to 2'-0" (IRC R506.2.1`)
	if g := d.Job().Spec.Base.Gravel; g != 30*geometry.Inch {
		t.Errorf("30 of gravel is %s", g.Text(0))
	}
	d.Fill("Gravel", "4")
	d.ReadsNot("The trade uses")
	d.Fill("Gravel", "-4")
	d.Reads("! found -4\"; must be from")
	d.Key(d.Field("Gravel"), fyne.KeyEscape)
	if e := d.Field("Gravel"); e.Text != `4"` {
		t.Errorf("Esc leaves %q", e.Text)
	}
	d.Commit("Metric", d.Job().In(geometry.Millimeters))
	d.Fill("Foam thickness", "60")
	if f := d.Job().Spec.Base.Foam; f != 60*geometry.Millimeter {
		t.Errorf("60 of foam in a metric job is %s", f.Text(geometry.Millimeters))
	}
}

// What a field is, what is usual in it and by whom stands in the status line while it
// has the focus.
func TestHints(t *testing.T) {
	d := opened(t)
	d.Open("Anchor bolts")
	e := d.Field("In concrete, least")
	e.FocusGained()
	if want := `At least 7 in. Usual: 7" (IRC R403.1.6).`; d.Hinting != want {
		t.Errorf("it says %q, want %q", d.Hinting, want)
	}
	e.FocusLost()
	if d.Hinting != "" {
		t.Errorf("it still says %q", d.Hinting)
	}
}

// A field that is not used is not shown, unless it is looked for; choosing a kind of
// steel shows what belongs to it.
func TestFieldsAsUsed(t *testing.T) {
	d := opened(t)
	d.Open("Field steel")
	d.Select("Kind", "mesh")
	d.Reads("Mesh style")
	d.ReadsNot("Grid bar size")
	d.Select("Kind", "grid of bars")
	d.Reads("Grid bar size")
	d.ReadsNot("Mesh style")
	look(d, "mesh style")
	d.Reads("Mesh style", "Not used as the job is.")
	d.ReadsNot("Anchor bolts", "Grid bar size")
	look(d, "no such thing")
	d.Reads("No field is like that.")
	look(d, "")
	d.Reads("Anchor bolts", "Grid bar size")
	d.ReadsNot("No field is like that.", "Mesh style")
}

// Every field of the table's specification is found by its label.
func TestEveryFieldIsFound(t *testing.T) {
	d := opened(t)
	n := 0
	for _, g := range field.Groups("spec") {
		for _, r := range g.Rows {
			if !shown(r) || g.Label == "" {
				continue
			}
			n++
			look(d, r.Title())
			if r.Kind != field.List {
				d.Reads(r.Title())
			}
			if strings.Contains(d.Text(), "No field is like that.") {
				t.Errorf("%s is not found by “%s”", r.Path, r.Title())
			}
		}
	}
	if n < 80 {
		t.Errorf("%d fields", n)
	}
}

// What differs from what new jobs start with is shown alone, and can become usual, or
// be as usual again.
func TestWhatDiffers(t *testing.T) {
	d := opened(t)
	d.Change("As usual", func(j *job.Job) { j.Spec = d.Usual() })
	d.Open("Ordering")
	d.Fill("Waste", "7")
	d.Open("Concrete mix")
	d.Fill("Slump", "4")
	d.Reads("Ordering\n1 not as usual", "Concrete mix\n1 not as usual")
	d.Tick("Only what differs from my usual", 0)
	d.Reads("Usual: 5 %", `Usual: 5"`)
	d.ReadsNot("Anchor bolts", "Strength")
	buttons := func(name string) []*form.Button { return d.Buttons(name) }
	buttons("Make this my usual")[0].OnTapped() // of the slump, which comes first
	if u := d.Usual().Mix.Slump; u != 4*geometry.Inch {
		t.Errorf("the usual slump is %s", u.Text(0))
	}
	d.ReadsNot("Slump")
	d.Press("Back to it")
	if w := d.Job().Spec.Order.Waste.String(); w != "5" {
		t.Errorf("the waste is %s %%", w)
	}
	d.Reads("No field is like that.")
}

// Enter in the search gives the keys to the field that was looked for: one that is used
// before one that is not, one of that name before one that only speaks of it.
func TestEnterTurnsToTheField(t *testing.T) {
	d := opened(t)
	for search, want := range map[string]string{"foam thick": "Foam thickness", "fiber": "Fibers", "bolt spacing": "Spacing, at most"} {
		look(d, search)
		d.Key(d.Hinted("Find a field"), fyne.KeyReturn)
		if got, ok := d.Window().Canvas().Focused().(*form.Entry); !ok || got != d.Field(want) {
			t.Errorf("%q and Enter: the keys go to %T, want the field %s", search, d.Window().Canvas().Focused(), want)
		}
	}
	look(d, "mesh")
	d.Key(d.Hinted("Find a field"), fyne.KeyReturn)
	if _, ok := d.Window().Canvas().Focused().(*form.Select); !ok {
		t.Errorf("mesh and Enter: the keys go to %T, want the list of kinds", d.Window().Canvas().Focused())
	}
}

// Dowels are asked for only where there is a joint, or where they are looked for.
func TestDowelsOnlyAtAJoint(t *testing.T) {
	d := opened(t)
	d.Reads("Dowels")
	if err := d.Change("No joint", func(j *job.Job) {
		for k := range j.Slabs {
			for i := range j.Slabs[k].Outline {
				j.Slabs[k].Outline[i].Joint = false
			}
		}
	}); err != nil {
		t.Fatal(err)
	}
	d.Refresh()
	d.ReadsNot("Dowels")
	look(d, "dowel")
	d.Reads("Dowels")
}
