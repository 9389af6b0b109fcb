package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/actual"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/window/canvas/scene"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// spoken gives the languages with a file, and has the window speak English again at the
// end.
func spoken(t *testing.T) []language.Language {
	t.Helper()
	all, err := language.All()
	if err != nil || len(all) < 2 {
		t.Fatal(len(all), err)
	}
	t.Cleanup(func() { words.Speak(language.Language{}) })
	return all[1:]
}

// walk shows all pages of a window, opens what can be opened in them, and looks at
// every field.
func walk(t *testing.T, w *Window) {
	t.Helper()
	w.Show()
	look := func(o fyne.CanvasObject) {
		h := hands.On(t, o)
		for _, r := range hands.Every[*form.Row](h) {
			r.Tap()
		}
		for _, n := range hands.Every[*form.Name](h) {
			n.MouseIn(nil)
			n.MouseOut()
		}
		for _, e := range h.Entries() {
			if e.Held != nil {
				e.Held(true)
				e.Held(false)
			}
		}
	}
	w.plan.Layers = scene.All
	w.layersChanged()
	w.win.Canvas().Capture() // so that the plan is drawn
	beside := func() {
		for tab := range w.side.tabs.Items {
			w.sideTab(tab)
			look(w.side.tabs.Items[tab].Content)
		}
	}
	beside()
	look(w.side.object)
	w.sideTab(editTab)
	for _, k := range tool.Kinds {
		for i, g := range k.All(tool.On{Job: w.doc.Job(), Slab: w.doc.Slab(), View: w.machine.View}) {
			if i < 8 {
				w.selects(g)
				w.win.Canvas().Capture()
				look(w.side.sheets[editTab].Scroll)
			}
		}
	}
	for _, e := range tools() {
		w.use(e.start())
		look(w.side.sheets[editTab].Scroll)
	}
	for _, s := range []tool.State{&tool.PlaceEmbed{}, &tool.Chain{What: tool.Piping}, &tool.PlaceWall{}, &tool.PlaceConstruction{}, &tool.PlaceBreak{}} {
		w.use(s)
		look(w.side.sheets[editTab].Scroll)
	}
	for page := tool.Selection; page <= tool.Surveying; page++ {
		w.side.turn(page)
		look(w.side.sheets[editTab].Scroll)
	}
	w.showPrint()
	look(w.side.sheets[editTab].Scroll)
	for i, p := range w.pages.list {
		w.pages.turn(i)
		look(p.root)
		w.showHelp()
		w.closeList()
		if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 640 {
			t.Errorf("%s: %s needs %v", words.Spoken().Code, p.name, m)
		}
	}
	for _, show := range []func(){w.showLayers, w.showAbout, w.showKeys, w.showCautions} {
		show()
		w.closeList()
	}
}

// shown are the jobs whose windows are read.
func shown(t *testing.T) map[string]Options {
	metric := fullJob(t).In(geometry.Millimeters)
	faulty := hands.Demo(t)
	meeting := hands.Demo(t)
	apron := plan.Plan{Name: "Apron", Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(6*ft, -6*ft), pt(16*ft, -6*ft), pt(16*ft, 0), pt(6*ft, 0)}, plan.Edge{}))
	meeting.Slabs = append(meeting.Slabs, apron)
	faulty.Slabs[0].Outline[0].Doors[0].Width = 900 * ft
	return map[string]Options{
		"demo":        {Job: hands.Demo(t), Book: hands.Book(t), Welcome: true},
		"everything":  {Job: fullJob(t)},
		"millimeters": {Job: metric},
		"faulty":      {Job: faulty},
		"meeting":     {Job: meeting},
		"blank":       {Job: shelf.Blank(geometry.FeetInches), Book: hands.Book(t)},
	}
}

// written is a record with loads, limits passed.
func written() actual.Record {
	load := actual.Load{Ticket: "4471", Volume: decimal.NewFromInt(9), Batched: actual.At(7, 0), Emptied: actual.At(9, 0), Water: decimal.NewFromInt(5)}
	return actual.Record{Loads: []actual.Load{load}, Cylinders: []actual.Cylinders{{Ticket: "4471", TwentyEight: 900}}}
}

// records are holds and an account that do not go together well.
func records() ([]hold.Hold, account.Account) {
	much := decimal.NewFromInt(9000)
	return []hold.Hold{{Kind: hold.Locate}, {Kind: hold.Strip}}, account.Account{
		Contract: account.Contract{Amount: decimal.NewFromInt(90)}, Changes: []account.Change{{Number: 1, State: account.Accepted}},
		Invoices: []account.Invoice{{Number: 1, Amount: much, Held: much.Neg()}}, Payments: []account.Payment{{Invoice: 1, Amount: much.Add(much).Add(much)}, {Invoice: 2, Amount: much}},
		Papers: []account.Paper{{Name: "7", Text: "7"}},
	}
}

// Whatever is written in the window is in the file of each language, but for the user's
// own texts.
func TestEveryTextIsKnown(t *testing.T) {
	exhaustive(t)
	for _, l := range spoken(t) {
		for name, o := range shown(t) {
			words.Speak(l)
			w := open(t, o)
			walk(t, w)
			if o.Book != nil {
				if err := w.shelf.SetRecord(w.shelf.ID(), written()); err != nil {
					t.Fatal(err)
				}
				for range actual.EnoughJobs {
					id, err := o.Book.Create(hands.Demo(t))
					if err == nil {
						err = w.shelf.SetRecord(id, actual.Record{Delivered: decimal.NewFromInt(20), Left: decimal.NewNullDecimal(decimal.NewFromInt(1))})
					}
					if err == nil {
						err = o.Book.Archive(id, true) // so that its name is not listed
					}
					if err != nil {
						t.Fatal(err)
					}
				}
				if err := w.doc.Change("Records", func(j *job.Job) { j.Holds, j.Account = records() }); err != nil {
					t.Fatal(err)
				}
				w.pages.turn(bookPage)
				for _, part := range []string{"Job", "Revisions", "After the pour", "Own figures", "Price lists", "Settings", "The book", "Job", "Holds and money"} {
					on := hands.On(t, w.pages.list[bookPage].root)
					on.Press(words.Say(part))
					for _, e := range on.Entries() {
						if e.Held != nil {
							e.Held(true)
							e.Held(false)
						}
					}
				}
			}
			for _, key := range words.Unknown() {
				t.Errorf("assets/languages/%s.json: texts: no %q, which stands in the window of %q", l.Code, key, name)
			}
		}
	}
}

// The window speaks the language that was chosen in its settings, at once and when it is
// opened again; what is chosen from a list is the same thing in each.
func TestLanguageOfTheWindow(t *testing.T) {
	for _, l := range spoken(t) {
		words.Speak(language.Language{})
		book := hands.Book(t)
		w := open(t, Options{Job: hands.Demo(t), Book: book})
		w.Show()
		settings := func() hands.Hands {
			w.pages.turn(bookPage)
			h := hands.On(t, w.pages.list[bookPage].root)
			h.Press(words.Say("Settings"))
			return h
		}
		settings().Select("Language", l.Name)
		if words.Spoken().Code != l.Code || w.app.Preferences().String(languageKey) != l.Code {
			t.Fatalf("%s is chosen and %q spoken", l.Code, words.Spoken().Code)
		}
		h := hands.On(t, w.win.Content())
		h.Reads(l.Texts["Price"], l.Texts["Settings"])
		h.ReadsNot("Print sheets")
		got := ""
		form.NewSelect([]string{"steel", "pour"}, func(s string) { got = s }).SetSelected(words.Say("pour"))
		if got != "pour" || words.Say("pour") == "pour" {
			t.Errorf("%s: of %q %q is chosen", l.Code, words.Say("pour"), got)
		}
		settings().Select(words.Say("Language"), "English")
		hands.On(t, w.win.Content()).Reads("Print sheets")
		w.app.Preferences().SetString(languageKey, l.Code)
		speak(w.app)
		if words.Spoken().Code != l.Code {
			t.Errorf("opened again it speaks %q", words.Spoken().Code)
		}
	}
}

// What the user wrote stands as it is, whatever it says.
func TestOwnTextsStayInTheWindow(t *testing.T) {
	for _, l := range spoken(t) {
		words.Speak(l)
		j := hands.Demo(t)
		j.Name, j.Notes = "Steel", "Watch the slab, not the clock."
		w := open(t, Options{Job: j})
		w.Show()
		w.sideTab(jobTab)
		if !strings.HasPrefix(w.win.Title(), j.Name) {
			t.Errorf("the title is %q", w.win.Title())
		}
		if e := hands.On(t, w.side.sheets[jobTab].Scroll).Entries(); e[0].Text != j.Name {
			t.Errorf("the name is shown as %q", e[0].Text)
		}
		if got := words.Say(j.Name); got != j.Name {
			t.Errorf("the user's %q is said %q", j.Name, got)
		}
	}
}
