package window

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// What is done where two slabs of the job meet is chosen on the edge of the one that is poured
// later, and nowhere else.
func TestMeetingSlabsAreShown(t *testing.T) {
	j := hands.Demo(t)
	apron := plan.Plan{Name: "Apron", Field: ft / 2}.WithOutline(plan.Like(geometry.Ring{pt(6*ft, -6*ft), pt(16*ft, -6*ft), pt(16*ft, 0), pt(6*ft, 0)}, plan.Edge{}))
	j.Slabs = append(j.Slabs, apron)
	w := open(t, Options{Job: j})
	w.Show()
	for slab, p := range j.Slabs {
		w.machine.Choose(slab)
		for i := range p.Outline {
			w.machine.Selected = tool.Target{Kind: tool.Edge, Index: i}
			w.side.tab(editTab)
			w.side.turn(tool.Selection)
			if got := strings.Contains(w.edit(t).Text(), "At the other slab"); got != (slab == 1 && i == 2) {
				t.Errorf("edge %d of slab %d shows it: %t", i+1, slab+1, got)
			}
		}
	}
	// What is chosen there is undone, done again, and stands in the file.
	meets := func() plan.EdgeMeets { return w.doc.Job().Slabs[1].Outline[2].Meets }
	w.machine.Selected = tool.Target{Kind: tool.Edge, Index: 2}
	w.side.turn(tool.Selection)
	w.edit(t).Select("At the other slab", "dowels")
	if meets() != plan.DoweledThere {
		t.Error("dowels were chosen, and are not there")
	}
	if w.doc.Undo(); meets() != plan.IsolatedThere {
		t.Error("undone, it is doweled still")
	}
	if w.doc.Redo(); meets() != plan.DoweledThere {
		t.Error("done again, it is not doweled")
	}
	if again, err := job.Read(bytes.NewReader(w.doc.Job().Encode())); err != nil || !reflect.DeepEqual(again.Slabs, w.doc.Job().Slabs) {
		t.Errorf("reopened it is another: %v", err)
	}
}
