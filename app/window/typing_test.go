package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// What a person types in the fields beside the plan: a bare number is inches where the
// field holds inches and feet where it holds a length in plan, a hyphen only separates,
// = opens a sum, and + makes a side longer.
func TestTypedBesideThePlan(t *testing.T) {
	j := hands.Demo(t)
	j.Slabs[0].Pads = []plan.Pad{{Name: "P", Center: pt(5*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Depth: ft}}
	w := open(t, Options{Job: j})
	w.Show()
	side := func() geometry.Length { return w.doc.Plan().Outline[0].At.Sub(w.doc.Plan().Outline[1].At).X.Abs() }
	pad := func() plan.Pad { return w.doc.Plan().Pads[0] }
	long := side()
	for _, c := range []struct {
		kind         tool.Kind
		label, typed string
		got          func() geometry.Length
		want         geometry.Length
	}{
		{tool.Pad, "Width", "3", func() geometry.Length { return pad().Width }, 3 * ft},
		{tool.Pad, "Depth from top", "14", func() geometry.Length { return pad().Depth }, 14 * geometry.Inch},
		{tool.Pad, "Depth from top", "=12 + 2 1/2", func() geometry.Length { return pad().Depth }, 14*geometry.Inch + geometry.Inch/2},
		{tool.Slab, "Field thickness", "5", func() geometry.Length { return w.doc.Plan().Field }, 5 * geometry.Inch},
		{tool.Edge, "Length", "+2'", side, long + 2*ft},
		{tool.Edge, "Length", `24' - 3 1/2"`, side, 24*ft + 7*geometry.Inch/2},
		{tool.Edge, "Length", `=24' + 2' - 3 1/2"`, side, 26*ft - 7*geometry.Inch/2},
		{tool.Edge, "Length", "30", side, 30 * ft},
		{tool.Edge, "Length", "+-6\"", side, 29*ft + 6*geometry.Inch},
	} {
		w.selects(tool.Target{Kind: c.kind})
		w.edit(t).Fill(c.label, c.typed)
		if got := c.got(); got != c.want {
			t.Errorf("%s: %s is %s, want %s", c.label, c.typed, got.Text(0), c.want.Text(0))
		}
	}
	w.selects(tool.Target{Kind: tool.Edge})
	w.edit(t).Fill("Length", "-2'")
	w.edit(t).Reads("To make it shorter, write +-2'-0\"")
	w.edit(t).Key(w.edit(t).Field("Length"), fyne.KeyEscape)
	w.selects(tool.Target{Kind: tool.Pad})
	w.edit(t).Fill("Depth from top", "14'")
	w.edit(t).Reads(`14'-0"? The trade uses 6" to 4'-0" (common practice, no source).`)
	if got := pad().Depth; got != 14*ft {
		t.Errorf("14' deep is %s", got.Text(0))
	}
	// A height below the others is typed with a minus.
	w.doc.AddSlab()
	w.selects(tool.Target{Kind: tool.Slab})
	w.edit(t).Fill("Top over the job's", `-6"`)
	if got := w.doc.Plan().Height; got != -6*geometry.Inch {
		t.Errorf("the height is %s", got.Text(0))
	}
}

// The status line says what a field is while it has the focus, and the tool again
// after.
func TestHintInTheStatusLine(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	w.side.tab(jobTab)
	h := hands.On(t, w.side.sheets[jobTab].Scroll)
	w.win.Canvas().Focus(h.Field("Site"))
	if got := w.status.help.Text; got != "Where it is." {
		t.Errorf("the status line says %q", got)
	}
	w.win.Canvas().Focus(w.plan)
	if got := w.status.help.Text; got == "Where it is." {
		t.Error("the hint stays")
	}
}

// A text of any length and script is drawn in bounded time: a field takes so much of it
// and says so. What a file has beyond that stays as it is until it is changed.
func TestLongTexts(t *testing.T) {
	exhaustive(t)
	long := strings.Repeat("水泥🏗️混凝土 ", 500)
	j := hands.Demo(t)
	j.Site = long
	w := open(t, Options{Job: j})
	w.Show()
	w.side.tab(jobTab)
	h := hands.On(t, w.side.sheets[jobTab].Scroll)
	if n := len([]rune(h.Field("Site").Text)); n > 200 {
		t.Errorf("the field shows %d letters", n)
	}
	w.win.Canvas().Focus(h.Field("Site"))
	w.win.Canvas().Focus(h.Field("Name"))
	if w.doc.Job().Site != long {
		t.Error("leaving a field changes what it does not show")
	}
	w.app.Clipboard().SetContent(long)
	h.Field("Name").TypedShortcut(&fyne.ShortcutPaste{Clipboard: w.app.Clipboard()})
	h.Reads("it takes 200 letters; the rest is cut off")
	w.win.Canvas().Focus(h.Field("Notes"))
	h.Field("Notes").TypedShortcut(&fyne.ShortcutPaste{Clipboard: w.app.Clipboard()})
	w.win.Canvas().Unfocus()
	if n := len([]rune(w.doc.Job().Name)); n < 199 || n > 200 { // without the space at its end
		t.Errorf("the name has %d letters", n)
	}
	if got := w.doc.Job().Notes; strings.Count(got, "水") < 40 || strings.Count(got, "水") > 75 {
		t.Errorf("the notes have %d letters", len([]rune(got)))
	}
	w.win.Canvas().Capture()
}
