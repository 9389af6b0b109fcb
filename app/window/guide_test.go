package window

import (
	"bytes"
	"image"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/look"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/assets"
	"haunchbook.example/assets/guide"
	"haunchbook.example/export/sheet"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// shotGround gives a job whose base was shot at two thirds of its places: low by up to
// 3/4 in.
func shotGround(t *testing.T, j job.Job) job.Job {
	t.Helper()
	j.Ground.Instrument = 6 * geometry.Foot
	g, err := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)}).Ground(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range g.Slabs {
		for i, p := range s.Wanted[:len(s.Wanted)*2/3] {
			j.Survey.Shots = append(j.Survey.Shots, plan.Shot{At: p.At, Height: p.Height - geometry.Length(i%4)*geometry.Inch/4})
		}
	}
	return j
}

// TestGuidePictures makes the pictures of the guide: the window on the demo job, page by
// page, and the first sheet. With -update it writes them; without, it fails where
// the guide shows another picture than those, or one that is not there.
func TestGuidePictures(t *testing.T) {
	exhaustive(t)
	t.Setenv("HOME", "/home/builder") // which the page that prints shows
	made := map[string]image.Image{}
	shot := func(name string, j job.Job, page int, more, after func(w *Window)) {
		w := withBook(t)
		w.doc.Commit("Measure", j)
		w.setAppearance(look.Light)
		w.Show()
		w.pages.turn(page)
		more(w)
		w.machine.Info, w.machine.Notice = "", ""
		for _, wide := range []float32{1240, 1201, 1200} { // what grew finds its place when all is laid out again
			w.win.Resize(fyne.NewSize(wide, 800))
			w.machine.Fit()
			w.refresh()
		}
		after(w)
		made["pictures/"+name+".png"] = w.win.Canvas().Capture()
	}
	none := func(*Window) {}
	demo := hands.Demo(t)
	shot("window", demo, planPage, none, none)
	workshop, err := job.Read(bytes.NewReader(assets.Samples()[4].Data))
	if err != nil {
		t.Fatal(err)
	}
	shot("into", workshop, planPage, none, none)
	shot("print", demo, planPage, (*Window).showPrint, none)
	shot("price", demo, pricePage, none, none)
	shot("options", demo, optionsPage, none, none)
	shot("pour", demo, pourPage, none, none)
	shot("ground", shotGround(t, demo), pourPage, none, func(w *Window) {
		root := w.pages.list[pourPage].root
		hands.On(t, root).Each(func(o fyne.CanvasObject) {
			if s, ok := o.(*container.Scroll); ok {
				hands.On(t, s.Content).Each(func(o fyne.CanvasObject) {
					if l, ok := o.(*widget.Label); ok && l.Text == "Ground" {
						s.ScrollToOffset(fyne.NewPos(0, fyne.CurrentApp().Driver().AbsolutePositionForObject(l).Y-60))
					}
				})
			}
		})
	})
	shot("book", demo, bookPage, none, none)
	h := handover.Of(handover.From{Job: demo, Prices: estimate.Starting(demo.Units)})
	pages, err := sheet.Pages(t.Context(), h, sheet.Options{Date: time.Date(2026, 4, 12, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		t.Fatal(err)
	}
	made["pictures/sheet.png"] = pages[0].Picture(1600)

	_, file, _, _ := runtime.Caller(0)
	dir := filepath.Join(filepath.Dir(file), "..", "..", "assets", "guide")
	if *update {
		for name, m := range made {
			var b bytes.Buffer
			if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, m); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		return
	}
	shown := map[string]bool{}
	for _, p := range guide.Pages() {
		for _, m := range regexp.MustCompile(`\]\((pictures/[^)]+)\)`).FindAllStringSubmatch(p.Text, -1) {
			shown[m[1]] = true
		}
	}
	if got, want := slices.Sorted(maps.Keys(shown)), slices.Sorted(maps.Keys(made)); !slices.Equal(got, want) {
		t.Errorf("the guide shows %v, made are %v", got, want)
	}
	for name, m := range made {
		kept, err := png.DecodeConfig(bytes.NewReader(guide.Picture(name)))
		if err != nil || kept.Width != m.Bounds().Dx() || kept.Height != m.Bounds().Dy() {
			t.Errorf("%s: kept %d by %d, made %v; %v; run go generate ./assets/guide", name, kept.Width, kept.Height, m.Bounds().Size(), err)
		}
	}
}

// F1 leads to the guide's page on the page in use, its links to others, and no link leads
// nowhere.
func TestGuide(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	byFile := map[string]guide.Page{}
	for _, p := range guide.Pages() {
		byFile[p.File] = p
	}
	for i := range w.pages.list {
		w.pages.turn(i)
		w.pressed(fyne.KeyF1)
		over(t, w).Press("The guide")
		over(t, w).Reads("The guide", byFile[guideOf(i)].Title)
		w.pressed(fyne.KeyEscape)
		if w.win.Canvas().Overlays().Top() != nil {
			t.Fatal("Esc does not close the guide")
		}
	}
	for _, p := range guide.Pages() {
		for _, m := range regexp.MustCompile(`[^!]\[[^\]]*\]\(([^)]+)\)`).FindAllStringSubmatch(p.Text, -1) {
			if byFile[m[1]].Text == "" {
				t.Errorf("%s: a link to %s, which is no page", p.File, m[1])
			}
		}
		for _, c := range "☐☑→" {
			if strings.ContainsRune(p.Text, c) {
				t.Errorf("%s: %c may be in no typeface", p.File, c)
			}
		}
	}
	var followed string
	box := w.markdown("See [prices](prices.md).", func(file string) { followed = file })
	for _, s := range box.Objects[0].(*widget.RichText).Segments {
		var links []widget.RichTextSegment
		if p, ok := s.(*widget.ParagraphSegment); ok {
			links = p.Texts
		}
		for _, s := range append(links, s) {
			if l, ok := s.(*widget.HyperlinkSegment); ok {
				l.OnTapped()
			}
		}
	}
	if followed != "prices.md" {
		t.Errorf("the link leads to %q", followed)
	}
}

// Every page of the guide and the change log are read in the window, tables too.
func TestGuideIsReadInTheWindow(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: hands.Demo(t)})
	w.showGuide("haunchsheet.md")
	over(t, w).Reads("layout.pdf", "the price for the customer", "It exits with 0")
	list := hands.Every[*form.Select](over(t, w))[0]
	for _, p := range guide.Pages() {
		list.OnChanged(p.Title)
		over(t, w).Reads(p.Title)
	}
	w.closeList()
	w.showChanges()
	over(t, w).Reads("Unreleased", strings.TrimPrefix(strings.Split(assets.Changes(), "\n")[0], "# "))
}

// What goes into a report says which program it is, and what was said last.
func TestCopyDetails(t *testing.T) {
	w := open(t, Options{Job: shelf.Blank(geometry.FeetInches)})
	w.say("The disk is full")
	w.log = "haunchbook.log"
	w.showAbout()
	over(t, w).Press("Copy details")
	got := w.app.Clipboard().Content()
	for _, want := range []string{job.Build(), runtime.GOOS, "page Plan", "log: haunchbook.log", "The disk is full"} {
		if !strings.Contains(got, want) {
			t.Errorf("the details lack %q:\n%s", want, got)
		}
	}
	for range 50 {
		w.say("again")
	}
	if n := strings.Count(w.details(), "again"); n != saidKept {
		t.Errorf("%d notices are kept, want %d", n, saidKept)
	}
}
