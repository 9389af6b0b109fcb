package window

import (
	"os"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/guard"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
)

// A fault of the program itself, wherever something is computed, is said where its
// outcome would stand; everything else goes on, and so does the same once it can.
func TestPlantedPanics(t *testing.T) {
	page := func(n int) func(*Window, string) {
		return func(w *Window, _ string) { w.pages.turn(n) }
	}
	takeoff := func(w *Window, _ string) { w.side.tab(takeoffTab) }
	write := func(w *Window, folder string) {
		w.pages.home()
		w.showPrint()
		h := hands.On(t, w.side.object)
		h.Hinted("Folder to write to").SetText(folder)
		h.Press("Write")
	}
	for _, c := range []struct {
		at    string // where it is planted
		do    func(w *Window, folder string)
		says  string
		still []string // what is there all the same
		then  []string // what is there once it goes well
	}{
		{"the takeoff", takeoff, "the takeoff failed (planted)", nil, nil},
		{document.ShowingOf + "the takeoff", takeoff, document.ShowingOf + "the takeoff failed (planted)", nil, nil},
		{"Deeper edge", page(optionsPage), "Deeper edge cannot be built: Deeper edge failed (planted)", []string{"As drawn", "Thicker field", "broken"}, []string{"Deeper edge"}},
		{"comparing the options", page(optionsPage), "comparing the options failed (planted)", nil, []string{"broken"}},
		{"the plan of the pour", page(pourPage), "the plan of the pour failed (planted)", []string{"Weather"}, []string{"Bay"}},
		{document.ShowingOf + "planning the pour", page(pourPage), document.ShowingOf + "planning the pour failed (planted)", []string{"Weather"}, []string{"Bay"}},
		{"making the files", write, "aking the files failed (planted)", nil, []string{"Written:"}},
	} {
		t.Run(c.at, func(t *testing.T) {
			j, folder := hands.Demo(t), t.TempDir()
			j.Price.Options = []estimate.Option{{Name: "Deeper edge", Edge: estimate.To(2 * geometry.Foot)}, {Name: "Thicker field", Field: estimate.To(6 * geometry.Inch)}}
			w := open(t, Options{Job: j})
			w.Show()
			change := func(to string) {
				j := w.doc.Job().Clone()
				j.Spec.Order.Waste = j.Spec.Order.Waste.Add(decimal.NewFromInt(1))
				j.Customer = to
				w.doc.Commit("Customer", j)
			}
			uproot := guard.Plant(func(what string) {
				if what == c.at {
					panic("planted")
				}
			})
			defer uproot()
			change("With a fault")
			c.do(w, folder)
			h := hands.On(t, w.win.Content())
			h.Reads(append(c.still, c.says)...)
			if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
				t.Errorf("written all the same: %v, %v", left, err)
			}
			uproot()
			w.undo()
			change("Without")
			c.do(w, folder)
			h.Reads(c.then...)
			h.ReadsNot("(planted)")
			if _, stale := w.doc.Takeoff(); stale || w.doc.Err() != nil || w.doc.Job().Customer != "Without" {
				t.Errorf("the window does not go on: %v, %v", stale, w.doc.Err())
			}
		})
	}
}
