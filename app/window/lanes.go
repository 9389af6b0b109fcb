package window

import (
	"haunchbook.example/app/pour"
	"haunchbook.example/app/window/board"
)

// showLanes plans the pour for the plan's layer, beside the window, when the job has
// changed and nothing is being dragged. A pour that cannot be planned is not shown;
// the page of the pour says why.
func (w *Window) showLanes() {
	t, stale := w.doc.Takeoff()
	if !w.plan.Layers.Pour || t == nil || stale || w.doc.Blank() || len(w.doc.Faults()) > 0 || w.lanesOf == w.edition() {
		return
	}
	w.lanesOf = w.edition()
	j := w.doc.Job()
	plan := (&desk{w.doc, w}).Day(j, t)
	var day pour.Day
	w.lanes.Run("planning the pour", func() (err error) {
		day, err = plan()
		return err
	}, func(err error) {
		w.plan.Pour = nil
		if err == nil {
			w.plan.Pour = board.PourOf(day, j.Units)
		}
		w.plan.Update()
	})
}
