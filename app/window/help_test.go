package window

import (
	"strings"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/pages/printing"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/geometry"
)

// over gives what stands over the window.
func over(t *testing.T, w *Window) hands.Hands {
	t.Helper()
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatal("nothing stands over the window")
	}
	return hands.On(t, top)
}

// F1 tells of the page in use, from a field of it too, and Esc leads back to it.
func TestHelpOfEachPage(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	seen := map[string]bool{}
	for i, f := range w.pages.list {
		w.pages.turn(i)
		if i == pricePage {
			w.win.Canvas().Focus(hands.On(t, f.root).Field("Overhead"))
		}
		w.pressed(fyne.KeyF1)
		o := over(t, w)
		o.Reads("Help: " + f.name)
		for _, row := range helpOf(i) {
			o.Reads(row[0], row[1])
			if seen[row[1]] {
				t.Errorf("%s: the help of another page", f.name)
			}
			seen[row[1]] = true
		}
		w.pressed(fyne.KeyEscape)
		if w.win.Canvas().Overlays().Top() != nil || w.pages.at != i {
			t.Errorf("%s: Esc does not close the help alone", f.name)
		}
		w.pages.home()
	}
}

func TestAbout(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.showAbout()
	over(t, w).Reads("About Haunchbook", job.Program(), "DejaVu Sans Condensed", "are invented", "go.etcd.io/bbolt")
}

// Until something was printed, the status line says what to do next.
func TestWhatToDoNext(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	says := func(what string) {
		t.Helper()
		if !strings.HasPrefix(w.status.help.Text, what) {
			t.Errorf("it says %q, want %q", w.status.help.Text, what)
		}
	}
	says("Next: draw the outline")
	bad := hands.Demo(t)
	bad.Slabs[0].Field = -geometry.Foot
	w.doc.Commit("Spoil", bad)
	says("Next: mend what Checks names")
	j := hands.Demo(t)
	w.doc.Commit("Draw", j)
	says("Next: your prices")
	bare := hands.Demo(t)
	for i := range bare.Slabs[0].Outline {
		e := &bare.Slabs[0].Outline[i]
		e.Doors, e.Joint = nil, false
	}
	w.doc.Commit("Strip", bare)
	says("Next: doors (D), the joint with an old slab (J), where there are any; then your prices")
	j.Price.Prices = w.doc.Prices()
	j.Price.Prices.Invented = false
	w.doc.Commit("Price", j)
	says("Next: print the sheets")
	w.app.Preferences().SetString(printing.FolderKey, "/somewhere")
	w.refresh()
	says("Click a thing")
}

// No text of the window has a sign out of the picture blocks of Unicode: a typeface
// need not have them.
func TestNoPictureSigns(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	pictures := &unicode.RangeTable{
		R16: []unicode.Range16{{Lo: 0x2600, Hi: 0x27bf, Stride: 1}},
		R32: []unicode.Range32{{Lo: 0x1f300, Hi: 0x1faff, Stride: 1}},
	}
	look := func(where string, o fyne.CanvasObject) {
		for _, line := range strings.Split(hands.On(t, o).Text(), "\n") {
			if strings.ContainsFunc(line, func(r rune) bool { return unicode.Is(pictures, r) || r == 'ⓘ' }) {
				t.Errorf("%s: %q", where, line)
			}
		}
	}
	for i, f := range w.pages.list {
		w.pages.turn(i)
		look(f.name, w.pages.list[i].root)
	}
	for i := range w.side.tabs.Items {
		w.pages.home()
		w.side.tab(i)
		w.refresh()
		look(w.side.tabs.Items[i].Text, w.win.Content())
	}
}
