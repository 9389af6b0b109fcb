package window

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/scene"
)

// During a drag the takeoff's rows follow in turns; when the last is done they
// show the figures of the takeoff as it is.
func TestPanelsFollowInTurns(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	var got *takeoff.Takeoff
	change := func(j job.Job) {
		w.refreshed = true // so that nothing but the turns below brings panels up to date
		w.doc.Preview(j)
		got, _ = w.doc.Takeoff()
		w.refreshed = false
	}
	j := w.doc.Job()
	p := j.Slabs[0]
	p.Field += 2 * ft / 12
	change(j.WithSlab(0, p))
	over := time.Time{}
	if !w.livePanel(over) || w.takeoff.next != 0 {
		t.Fatal("a turn without time did something")
	}
	shown := func() int {
		n := 0
		for _, l := range got.Lines {
			if w.takeoff.rows[l.ID].row.value == Quantity(l.Value, l.Unit) {
				n++
			}
		}
		return n
	}
	if n := shown(); n == len(got.Lines) {
		t.Fatal("a thicker slab changes no figure")
	}
	for w.livePanel(time.Now().Add(time.Hour)) {
	}
	if n := shown(); n != len(got.Lines) {
		t.Errorf("%d of %d figures are shown", n, len(got.Lines))
	}
	// The takeoff changes between two turns.
	p.Field += 2 * ft / 12
	w.takeoff.next = len(got.Lines) / 2
	change(j.WithSlab(0, p))
	for w.livePanel(time.Now().Add(time.Hour)) {
	}
	if n := shown(); n != len(got.Lines) {
		t.Errorf("%d of %d figures are shown after a change within a round", n, len(got.Lines))
	}
}

// Layers are turned with the keyboard and remembered for the next window.
func TestLayersByKeyboard(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.Show()
	w.showLayers()
	names := map[string]bool{}
	for range w.plan.Layers.List() {
		c, ok := w.win.Canvas().Focused().(*keyCheck)
		if !ok {
			t.Fatalf("%T has the focus", w.win.Canvas().Focused())
		}
		names[c.Text] = true
		if !c.Checked {
			c.TypedRune(' ')
		}
		test.FocusNext(w.win.Canvas())
	}
	if len(names) != 12 || w.plan.Layers != scene.All {
		t.Errorf("%d layers, of which are on: %s", len(names), w.plan.Layers)
	}
	w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Overlays().Top() != nil {
		t.Error("Esc on a button leaves the list open")
	}
	again, err := New(w.app, Options{Job: demoJob(t), Synchronous: true})
	if err != nil {
		t.Fatal(err)
	}
	defer again.win.Close()
	if again.plan.Layers != scene.All {
		t.Errorf("the next window shows %s", again.plan.Layers)
	}
	again.plan.Layers = scene.Layers{}
	again.layersChanged()
	if got := loadLayers(w.app.Preferences()); got != (scene.Layers{}) {
		t.Errorf("with all off, %s are on", got)
	}
}

// Moving the pointer over the plan draws no picture anew: only what follows the
// pointer changes.
func TestHoverKeepsThePicture(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	before := w.plan.frame()
	e := &desktop.MouseEvent{}
	for i := range 200 {
		e.Position = fyne.NewPos(float32(40+i*3), float32(60+i*2))
		w.plan.MouseMoved(e)
	}
	if w.plan.frame() != before || w.plan.drawn != before {
		t.Error("the picture was drawn anew")
	}
	objects := len(test.WidgetRenderer(w.plan).Objects())
	for i := range 200 {
		e.Position = fyne.NewPos(float32(640-i*3), float32(460-i*2))
		w.plan.MouseMoved(e)
	}
	if n := len(test.WidgetRenderer(w.plan).Objects()); n > objects+8 {
		t.Errorf("%d objects above the picture, %d before", n, objects)
	}
}
