package window

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// goes undoes and does again what made states of the job, the last of which it is in; each is
// the same when it is saved as a file and opened in another window.
func (w *Window) goes(t *testing.T, states []job.Job) {
	t.Helper()
	same := func(what string, got, want job.Job) {
		t.Helper()
		if !bytes.Equal(got.Encode(), want.Encode()) {
			t.Errorf("%s it is another job", what)
		}
	}
	for i := len(states) - 2; i >= 0; i-- {
		w.doc.Undo()
		same("undone", w.doc.Job(), states[i])
	}
	for _, s := range states[1:] {
		w.doc.Redo()
		same("done again", w.doc.Job(), s)
		file := filepath.Join(t.TempDir(), "job.json")
		if err := os.WriteFile(file, w.doc.Job().Encode(), 0o600); err != nil {
			t.Fatal(err)
		}
		other, err := New(w.app, Options{Job: hands.Shop()})
		if err != nil {
			t.Fatal(err)
		}
		other.openNamed(file)
		same("reopened", other.doc.Job(), s)
		other.win.Close()
	}
}

// Arcs, drawn and bowed, and aprons are undone, done again, saved and opened.
func TestArcsAndApronsReopen(t *testing.T) {
	w := open(t, Options{Job: hands.Shop()})
	w.Show()
	states := []job.Job{w.doc.Job()}
	step := func(what string, do func()) {
		t.Helper()
		before := w.doc.Version()
		do()
		if w.doc.Version() == before {
			t.Errorf("%s changes nothing: %s", what, w.machine.Notice)
		}
		states = append(states, w.doc.Job())
	}
	step("drawing an arc", func() {
		w.typed("l0,0<Return>24' right<Return>(6' right, 10' up<Return>20' up<Return>24' left<Return><Return>")
	})
	press := func(name string) func() {
		return func() {
			w.selects(tool.Target{Kind: tool.Edge, Index: 3})
			w.side.turn(tool.Selection)
			w.edit(t).Press(name)
		}
	}
	step("bowing an edge", press("Bow out"))
	step("making it straight", press("Make it straight"))
	step("an arc through a point", func() {
		w.selects(tool.Target{Kind: tool.Edge, Index: 3})
		w.win.Canvas().Focus(w.plan)
		w.typed("(-3', 10'<Return>")
	})
	step("an apron", func() {
		w.typed("/0, 4'<Return>24', 4'<Return>")
		w.click(pt(12*ft, ft))
	})
	l := w.doc.Plan().Outline
	if l[1].Middle < 5*ft || l[3].Middle < 2*ft || len(w.doc.Plan().Top.Breaks) != 1 {
		t.Fatalf("it has %+v, %+v", l, w.doc.Plan().Top)
	}
	w.goes(t, states)
}

// What insulates the edges of a heated building is typed field by field, undone, done again,
// saved and opened.
func TestFrostInsulationReopens(t *testing.T) {
	j := hands.Demo(t)
	i := slices.IndexFunc(j.Slabs[0].Outline, func(e plan.Edge) bool { return e.Joint })
	j.Slabs[0].Outline[i].SetJoint(false)
	w := open(t, Options{Job: j})
	w.Show()
	states := []job.Job{w.doc.Job()}
	found := func() hands.Hands {
		w.side.tab(specTab)
		h := hands.On(t, w.side.sheets[specTab].Scroll)
		h.Type(h.Hinted("Find a field"), ".")
		w.win.Canvas().Unfocus()
		return h
	}
	keep := func() { states = append(states, w.doc.Job()) }
	h := found()
	list := h.List("Building on it")
	heated := slices.IndexFunc(list.Options, func(o string) bool { return strings.HasPrefix(o, "heated") })
	if heated < 0 {
		t.Fatalf("there are %q", list.Options)
	}
	h.Select("Building on it", list.Options[heated])
	keep()
	for _, f := range [][2]string{{"Frost foam, upright", `2"`}, {"Upright foam, height", `18"`}, {"Frost foam, lying", `2"`}, {"Lying foam, depth", `10"`}, {"Lying foam, width", `2'`}} {
		found().Fill(f[0], f[1])
		w.win.Canvas().Unfocus()
		keep()
	}
	b := w.doc.Job().Spec.Base
	if b.Building != takeoff.HeatedBuilding || b.Upright != 2*geometry.Inch || b.UprightDeep != 18*geometry.Inch || b.Wing != 2*geometry.Inch || b.WingDeep != 10*geometry.Inch || b.WingWidth != 2*ft {
		t.Fatalf("typed, it is %+v", b)
	}
	w.goes(t, states)
}

// The steps between slabs, that one of them is no part of the heated building and how the tops
// of its curbs run are typed, undone, done again, saved and opened.
func TestStepsReopen(t *testing.T) {
	samples := assets.Samples()
	j, err := job.Read(bytes.NewReader(samples[len(samples)-1].Data))
	if err != nil {
		t.Fatal(err)
	}
	apron := 1
	j.Slabs[apron].Outline[0].Curb = 6 * geometry.Inch
	w := open(t, Options{Job: j})
	w.Show()
	states := []job.Job{w.doc.Job()}
	step := func(do func(hands.Hands)) {
		t.Helper()
		w.doc.Choose(apron)
		w.selects(tool.Target{Kind: tool.Slab})
		w.side.tab(editTab)
		w.side.turn(tool.Selection)
		do(w.edit(t))
		w.win.Canvas().Unfocus()
		if bytes.Equal(w.doc.Job().Encode(), states[len(states)-1].Encode()) {
			t.Fatalf("step %d changes nothing", len(states))
		}
		states = append(states, w.doc.Job())
	}
	step(func(h hands.Hands) { h.Fill("Top over the job's", `-4"`) })
	step(func(h hands.Hands) { h.Tick("Unheated", 0) })
	step(func(h hands.Hands) { h.Select("Curbs' tops", h.List("Curbs' tops").Options[1]) })
	s := w.doc.Job().Slabs[apron]
	if s.Height != -4*geometry.Inch || s.Unheated == j.Slabs[apron].Unheated || s.Top.Curbs != plan.CurbsLevel {
		t.Fatalf("typed, it is %+v", s)
	}
	w.goes(t, states)
}
