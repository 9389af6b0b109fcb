package window

import (
	"testing"

	"fyne.io/fyne/v2"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
)

// Beside the plan stands what is edited or the takeoff, both where there is room; in a
// low window what is selected is shown in the place of the takeoff, and that after it.
func TestTakeoffBesideThePlan(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	w.Show()
	const figure = "Concrete to order"
	both := func(width, height float32, want bool) {
		t.Helper()
		w.win.Resize(fyne.NewSize(width, height))
		w.side.tab(editTab)
		w.refresh()
		h := hands.On(t, w.side.object)
		h.Reads("Field thickness")
		if want {
			h.Reads(figure)
		} else {
			h.ReadsNot(figure)
		}
	}
	both(1024, 700, false)
	both(1920, 1080, true)
	both(1280, 860, false)
	w.sideTab(takeoffTab)
	hands.On(t, w.side.object).Reads(figure)
	w.machine.Selected = tool.Target{Kind: tool.Edge}
	w.refresh()
	h := hands.On(t, w.side.object)
	h.Reads("Edge 1")
	h.ReadsNot(figure)
	w.machine.Key(tool.Escape, tool.Mods{})
	w.refresh()
	hands.On(t, w.side.object).Reads(figure)
	both(1024, 700, false)
	both(1024, 1000, true)
}
