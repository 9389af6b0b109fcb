package book

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/date"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
)

// pictured keeps a picture of the window where one is asked for.
func pictured(t *testing.T, d *hands.Desk, name string) {
	t.Helper()
	var b bytes.Buffer
	if png.Encode(&b, d.Window().Canvas().Capture()) == nil && os.Getenv("HAUNCHBOOK_PICTURES") != "" {
		must[int](t)(0, os.WriteFile(filepath.Join(os.Getenv("HAUNCHBOOK_PICTURES"), name), b.Bytes(), 0o600))
	}
}

// What holds the pour back is typed from field to field with Enter, told at once, stands
// in the job, and Undo takes it back, a step at a time.
func TestHolds(t *testing.T) {
	d, p := opened(t)
	f := p.shown(t, "Holds and money")
	f.ReadsNot("Number", "holds the pour back, as far")
	f.Press("Add a hold")
	f.Reads("Utility locate: not called.")
	f.Fill("Day of the pour", "Dec 5, 2026")
	if on := d.Base().Pour.Date; on != date.Of(2026, 12, 5) {
		t.Fatalf("the day of the pour is %s", on)
	}
	all := f.Entries()
	at := slices.Index(all, f.Field("Day of the pour")) + 1
	d.Window().Canvas().Focus(all[at])
	for _, text := range []string{"gas and power", "A-1182", "2026-11-20", "2026-11-23", "2026-12-04", "", "called by the office"} {
		e := d.Window().Canvas().Focused().(*form.Entry)
		e.SetText(text)
		e.OnSubmitted(text)
	}
	want := hold.Hold{Name: "gas and power", Number: "A-1182", Asked: date.Of(2026, 11, 20), From: date.Of(2026, 11, 23), Until: date.Of(2026, 12, 4), Note: "called by the office"}
	if got := d.Base().Holds; len(got) != 1 || got[0] != want {
		t.Fatalf("%+v", got)
	}
	f.Reads("runs out on 2026-12-04, before the pour on 2026-12-05")
	pictured(t, d, "holds.png")
	fyne.CurrentApp().Clipboard().SetContent("2026-12-05 41 °F 60 %\n2026-12-07 25 °F 0 %")
	f.Press("Paste a forecast")
	if got := d.Base().Pour.Forecast; len(got) != 2 || got[1].Low.F() != 25 {
		t.Errorf("the forecast is %+v", got)
	}
	d.Undo()
	until := all[at+4]
	until.SetText("12/9/2026")
	until.OnSubmitted("12/9/2026")
	f.Reads("! ")
	until.SetText("2026-12-05")
	until.OnSubmitted("2026-12-05")
	f.Reads("Nothing of 1 record holds the pour back")
	steps := 0
	for len(d.Base().Holds) > 0 && steps < 20 {
		d.Undo()
		steps++
	}
	if d.Base().Pour.Date.Known() || steps != 9 {
		t.Errorf("%d steps take all back, and the day is %s", steps, d.Base().Pour.Date)
	}
	j, err := d.Shelf.Book().Get(d.Shelf.ID())
	if err != nil || len(j.Holds) > 0 {
		t.Errorf("%+v is in the book, %v", j.Holds, err)
	}
	later := hands.Demo(t)
	later.Name, later.Pour.Date, later.Pour.Crew.People = "Apron", date.On(d.Now()).Plus(3), 4
	later.Holds = []hold.Hold{{Kind: hold.Permit}, {Kind: hold.Footing, From: date.On(d.Now()).Plus(2)}}
	if _, err := d.Shelf.Book().Create(later); err != nil {
		t.Fatal(err)
	}
	entries, err := p.entries(date.On(d.Now()), listedDays)
	if err != nil || len(entries) != 2 || entries[1].Job != "Apron" || entries[1].Held == "" {
		t.Errorf("ahead are %+v, %v", entries, err)
	}
	p.shown(t, "The book").Reads("Two weeks to print…", "Calendar file…")
	id, err := d.Shelf.Book().Create(hands.Demo(t))
	if err != nil {
		t.Fatal(err)
	}
	p.Update()
	p.choose(id)
	p.shown(t, officeName)
	on := hands.On(t, p.root)
	on.Reads("open it to read and write them")
	on.Press("Open it on the plan")
}
