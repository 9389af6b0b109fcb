package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
)

// rowNamed finds the row of a list with that name.
func rowNamed(t *testing.T, o fyne.CanvasObject, name string) *lineRow {
	t.Helper()
	var found *lineRow
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *lineRow:
			if o.name == name {
				found = o
			}
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		}
	}
	walk(o)
	if found == nil {
		t.Fatalf("no row %q in\n%s", name, texts(o))
	}
	return found
}

// All of the price list can be read and changed, whatever the job takes.
func TestWholePriceList(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(priceView)
	l := priceViewOf(w).whole
	l.head.Tapped(nil)
	p := w.prices()
	for _, it := range p.Items {
		wantText(t, l.body, it.Name+"\n"+it.Price.StringFixed(2))
	}
	for _, x := range p.Tasks {
		wantText(t, l.body, x.Name)
	}
	for _, x := range p.Fees {
		wantText(t, l.body, x.Name+"\n"+x.Amount.StringFixed(2))
	}
	// The demo's last truck is full enough: nothing but the list shows the fee.
	rowNamed(t, l.body, "Short load").Tapped(nil)
	wantText(t, l.body, "Least load without a fee")
	if err := w.changeFee("Short load", "test", func(f *estimate.Fee) { f.Least = w.prices().Fees[0].Amount }); err != nil {
		t.Fatal(err)
	}
	wantText(t, l.body, "42.00 for each short of 35")
	found := false
	for _, line := range w.estimated(t).Lines {
		found = found || line.Name == "Short load"
	}
	if !found {
		t.Error("a least load of 35 brings no fee about")
	}
	l.head.Tapped(nil)
	if l.body.Visible() {
		t.Error("the list does not close")
	}
}

// A task is added, driven by a quantity, priced, and removed.
func TestTaskOfThePriceList(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(priceView)
	l := priceViewOf(w).whole
	l.head.Tapped(nil)
	n := len(w.prices().Tasks)
	l.addTask()
	task := func() estimate.Task { return w.prices().Tasks[n] }
	if len(w.prices().Tasks) != n+1 || task().Name != "Task 1" {
		t.Fatalf("%d tasks", len(w.prices().Tasks))
	}
	wantText(t, l.body, "Task 1\n1 h a job", "Done in a labor hour")
	to, _ := w.doc.Takeoff()
	trucks, _ := to.Line(takeoff.ConcreteTrucks)
	what, of, ok := l.driver(quantityName(trucks))
	if !ok || what.Kind != takeoff.ConcreteTrucks || of != trucks.Unit || l.drivenBy(what) != quantityName(trucks) || l.drivenBy(takeoff.ID{Kind: takeoff.Unknown, Name: "none.such"}) != "none.such" {
		t.Errorf("trucks are %v in %q, and driven by %q", what, of, l.drivenBy(what))
	}
	if err := w.changeTask("Task 1", "test", func(x *estimate.Task) { x.What, x.Of, x.Rate = what, of, x.Each }); err != nil {
		t.Fatal(err)
	}
	wantText(t, l.body, "1 ea an hour + 1 h a job")
	l.addFee()
	wantText(t, l.body, "Fee 1\n0.00 a job")
	w.undo()
	if row := rowNamed(t, l.body, "Task 1"); !row.open {
		row.Tapped(nil)
	}
	var tap func(fyne.CanvasObject) bool
	tap = func(o fyne.CanvasObject) bool {
		switch o := o.(type) {
		case *pageButton:
			if o.Text == "Remove from the list" && o.Visible() {
				test.Tap(o)
				return true
			}
		case *fyne.Container:
			if !o.Visible() {
				return false
			}
			for _, c := range o.Objects {
				if tap(c) {
					return true
				}
			}
		}
		return false
	}
	if !tap(l.body) || len(w.prices().Tasks) != n {
		t.Errorf("%d tasks after removing one", len(w.prices().Tasks))
	}
	w.undo()
	if len(w.prices().Tasks) != n+1 {
		t.Error("undo does not bring the task back")
	}
}
