package window

import (
	"context"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/pour"
)

// showLanes plans the pour for the plan's layer, beside the window, when the job has
// changed and nothing is being dragged. A pour that cannot be planned is not shown;
// the page of the pour says why.
func (w *Window) showLanes() {
	h, stale := w.doc.Handover()
	if !w.plan.Layers.Pour || h == nil || stale || w.doc.Blank() || len(w.doc.Faults()) > 0 || w.lanesOf == w.edition() {
		return
	}
	w.lanesOf = w.edition()
	var days []pour.Day
	w.lanes.Run("planning the pour", func(ctx context.Context) (err error) {
		days, err = h.Days(ctx)
		return err
	}, func(err error) {
		w.plan.Pour = nil
		if err == nil {
			w.plan.Pour = handover.PoursDrawn(days, h.Units())
		}
		w.plan.Update()
	})
}
