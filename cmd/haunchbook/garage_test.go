package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// counted is a hand whose actions are counted: a click, a drag, a key or chord, or an
// entry with the Enter or Tab that ends it.
type counted struct {
	*sketching
	actions int
}

// newCounted opens the program with an empty book, on a blank sheet of a name.
func newCounted(t *testing.T, name string) *counted {
	t.Helper()
	home := t.TempDir()
	const width, height = 1024, 700
	h := &counted{sketching: &sketching{
		program: newDesk(t, home, width+20, height+60).open(underTest(t), "-book", filepath.Join(home, "jobs.book")),
		home:    home, width: width, height: height,
	}}
	h.sized(width, height)
	h.press("ctrl+n")
	h.titled("New job")
	h.findPlan()
	h.fit(geometry.Point{}, geometry.Point{X: 40 * geometry.Foot, Y: 30 * geometry.Foot})
	h.press("alt+4")
	h.enter(name, "Return")
	h.titled(name)
	return h
}

// press is one key or one chord.
func (h *counted) press(k string) { h.t.Helper(); h.actions++; h.key(k) }

// enter types something and ends it.
func (h *counted) enter(text, end string) { h.t.Helper(); h.actions++; h.typed(text); h.key(end) }

// tap clicks, at a place of the window.
func (h *counted) tap(x, y int) { h.t.Helper(); h.actions++; h.click(x, y) }

// step tells how many actions it took up to here, and keeps a picture.
func (h *counted) step(name string) {
	h.t.Helper()
	h.t.Logf("%s: %d actions so far", name, h.actions)
	if pictures() != "" {
		h.rest()
		h.picture("counted-" + name)
	}
}

// feet is a place on the plan.
func feet(x, y geometry.Length) geometry.Point {
	return geometry.Point{X: x * geometry.Foot, Y: y * geometry.Foot}
}

// specified looks a field of the specification up and types into it.
func (h *counted) specified(search, value string) {
	h.t.Helper()
	h.press("alt+3")
	h.enter(search, "Return")
	h.enter(value, "Return")
}

// ownPrices imports a supplier's list and confirms what it has not got.
func (h *counted) ownPrices() {
	h.t.Helper()
	list := filepath.Join(h.home, "0 spring.csv") // the first in its folder
	if err := os.WriteFile(list, []byte("Item,Unit,Price\nConcrete to order,CY,171.50\n"), 0o666); err != nil {
		h.t.Fatal(err)
	}
	h.press("ctrl+2")
	h.rest()
	h.tap(850, 351) // Import prices
	h.tap(416, 213) // the file, after the folder above
	h.tap(859, 591) // Open
	for range 2 {   // Take these prices; then: they are right
		h.rest()
		h.tap(h.boldButton(10, 110))
	}
}

// printed prints, and gives the text of the sheets.
func (h *counted) printed() string {
	h.t.Helper()
	h.actions += 2
	h.print(h.home, h.width, map[string]string{"layout.pdf": "%PDF-", "materials.xlsx": "PK"})
	files, err := filepath.Glob(filepath.Join(h.home, "*", "*-layout.pdf"))
	if err != nil || len(files) != 1 {
		h.t.Fatalf("sheets %v, %v", files, err)
	}
	text, err := exec.Command("pdftotext", "-layout", files[0], "-").Output()
	if err != nil {
		h.t.Fatalf("pdftotext: %v: go run ./cmd/dev test installs it", err)
	}
	return string(text)
}

// most is how many actions a usual job may take, from an empty book to the printed set.
const most = 60

// done closes the window, holds the count against the most, and gives the job.
func (h *counted) done(name string) job.Job {
	h.t.Helper()
	h.step("printed")
	h.close()
	if h.actions > most {
		h.t.Errorf("%s took %d actions, want at most %d", name, h.actions, most)
	}
	return inBook(h.t, filepath.Join(h.home, "jobs.book"), name)
}

// TestGarage does a plain garage from an empty book to the printed set, and counts what
// its hand does: the outline, the joint, two doors, foam, mesh, fibers, bolts every
// 4 ft, and prices of one's own by one import and one confirmation.
func TestGarage(t *testing.T) {
	t.Parallel()
	h := newCounted(t, "Plain garage")
	h.press("r")
	h.enter("24' x 20'", "Return")
	h.press("j")
	h.tap(h.on(feet(20, 20)))
	h.press("d")
	h.move(h.on(feet(6, 0)))
	h.enter("16' at 4'", "Return")
	h.press("d")
	h.move(h.on(feet(24, 8)))
	h.enter("3' at 3'", "Return")
	h.press("F6")
	h.press("Tab")
	h.press("Right") // for people
	h.step("drawn")
	h.specified("foam thick", "2")
	h.press("alt+3")
	h.enter("mesh", "Return")
	h.press("Right") // from none
	h.specified("fiber", "1.5")
	h.specified("bolt spacing", "4")
	h.step("specified")
	h.ownPrices()
	h.step("priced")
	text := h.printed()
	j := h.done("Plain garage")

	edges := j.Slabs[0].Outline
	if len(edges) != 4 || edges.Length(0) != 24*geometry.Foot || edges.Length(1) != 20*geometry.Foot || !edges[2].Joint {
		t.Errorf("the outline is %+v", edges)
	}
	for i, want := range []plan.Door{
		{Kind: plan.Overhead, From: 4 * geometry.Foot, Width: 16 * geometry.Foot},
		{Kind: plan.Walk, From: 3 * geometry.Foot, Width: 3 * geometry.Foot},
	} {
		if doors := edges[i].Doors; len(doors) != 1 || doors[0] != want {
			t.Errorf("edge %d has the doors %+v, want %+v", i+1, doors, want)
		}
	}
	s := j.Spec
	if s.Base.Foam != 2*geometry.Inch || s.Place.Field.Kind != field.Mesh || s.Mix.Fiber != 1.5 || s.Place.Bolts.Spacing != 4*geometry.Foot {
		t.Errorf("foam %s, field steel %s, fibers %g, bolts %s", s.Base.Foam.Text(0), s.Place.Field.Kind, s.Mix.Fiber, s.Place.Bolts.Spacing.Text(0))
	}
	if j.Price.Prices.Invented {
		t.Error("the prices are not one's own")
	}
	for _, want := range []string{"Plain garage", "24'-0\"", "16'-0\"", "Foam", "Mesh", "fiber"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheets do not show %s", want)
		}
	}
}

// TestCutCorner does an L with a cut corner, a pad, a drain and a fall to it, from an
// empty book to the printed set, and counts as TestGarage does.
func TestCutCorner(t *testing.T) {
	t.Parallel()
	h := newCounted(t, "Shop with a drain")
	h.press("l")
	h.press("Return") // from the corner that positions are measured from
	for _, leg := range []string{"30' right", "17' up", "3' left, 3' up", "9' left", "8' down", "18' left"} {
		h.enter(leg, "Return")
	}
	h.press("Return") // back to the start
	h.press("a")
	h.enter("6' along, 6' off", "Return")
	h.press("h")
	h.tap(h.on(feet(23, 7)))
	h.enter("1' x 1'", "Return")
	// The number of its distance from the right edge, to be typed.
	x, y := h.on(geometry.Point{X: 27 * geometry.Foot, Y: 7*geometry.Foot + geometry.Foot/2})
	h.tap(x+6, y-10)
	h.enter("6'-6\"", "Return")
	h.press("f")
	h.tap(h.on(feet(23, 20)))
	h.tap(h.on(feet(23, 8)))
	h.enter("1/8\" per ft", "Return")
	h.step("cut-corner-drawn")
	h.ownPrices()
	text := h.printed()
	j := h.done("Shop with a drain")

	p := j.Slabs[0]
	at := []geometry.Point{feet(0, 0), feet(30, 0), feet(30, 17), feet(27, 20), feet(18, 20), feet(18, 12), feet(0, 12)}
	if got := p.Outline.Corners(); !slices.Equal(got, geometry.Ring(at)) {
		t.Errorf("the outline is %v", got)
	}
	if len(p.Pads) != 1 || p.Pads[0].Center != feet(6, 6) {
		t.Errorf("the pads are %+v", p.Pads)
	}
	if len(p.Holes) != 1 || p.Holes[0].Loop.Length(0) != geometry.Foot {
		t.Errorf("the holes are %+v", p.Holes)
	} else if _, hi := p.Holes[0].Loop.Corners().Bounds(); hi.X != 23*geometry.Foot+geometry.Foot/2 {
		t.Errorf("the drain reaches to %s", hi.X.Text(0))
	}
	if f := p.Top.Falls; len(f) != 1 || f[0].Drop != geometry.Inch+geometry.Inch/2 {
		t.Errorf("the falls are %+v", f)
	}
	for _, want := range []string{"Shop with a drain", "30'-0\"", "17'-0\"", "4'-3"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheets do not show %s", want)
		}
	}
}
