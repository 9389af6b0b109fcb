package window

import (
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
)

// twoSlabs is the demo job with its slab a second time beside it, and a blank
// one.
func twoSlabs(t *testing.T) job.Job {
	j := demoJob(t)
	j.Slabs = append(j.Slabs, j.Slabs[0].Clone())
	for i := range j.Slabs[1].Outline {
		j.Slabs[1].Outline[i].At.X += 60 * geometry.Foot
	}
	j.Slabs[1].Top = demoJob(t).Slabs[0].Top
	for i := range j.Slabs[1].Top.Falls {
		j.Slabs[1].Top.Falls[i].From.X += 60 * geometry.Foot
		j.Slabs[1].Top.Falls[i].To.X += 60 * geometry.Foot
	}
	j.Slabs[0].Name, j.Slabs[1].Name = "Shop", "Workshop"
	return j
}

// What varies in words is checked as it is typed, and takes effect.
func TestOptionsInWords(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	p.addOne()
	o := func() *estimate.Option { return &w.doc.Job().Price.Options[0] }
	for _, v := range variables() {
		put := func(s string) error {
			at := *o()
			return v.put(&at, s, w.doc.Units())
		}
		switch v.label {
		case "Field steel":
			if err := put("straw"); err == nil || !strings.Contains(err.Error(), "mesh") {
				t.Errorf("straw as steel: %v", err)
			}
			if err := put(" Mesh "); err != nil {
				t.Error(err)
			}
		case "Fibers, lb/yd³":
			if err := put("-2"); err == nil || !strings.Contains(err.Error(), "lb/yd³") {
				t.Errorf("-2 as a dose: %v", err)
			}
			if err := put(""); err != nil {
				t.Error(err)
			}
		}
	}
	p.add(estimate.Option{Name: "Mesh", FieldSteel: estimate.FieldChange{Set: true, To: field.Mesh}, Fiber: estimate.DoseChange{Set: true}})
	wantText(t, p.root, "mesh", "Mesh", "Findings", "No finding is no approval")
	if steel := p.outcomes[2].Steel; !steel.GreaterThan(p.outcomes[0].Steel) {
		t.Errorf("with mesh %s of steel, without %s", steel, p.outcomes[0].Steel)
	}
}

// Of a job with several slabs, an option changes all, and so does choosing it;
// where no option can say what was drawn, the message says so.
func TestOptionsOfSeveralSlabs(t *testing.T) {
	w := open(t, Options{Job: twoSlabs(t)})
	w.pages.turn(optionsView)
	p := optionsViewOf(w)
	p.add(estimate.Option{Name: "Deep", Edge: estimate.To(20 * geometry.Inch)})
	if len(p.outcomes) != 2 || !p.outcomes[1].Ordered.GreaterThan(p.outcomes[0].Ordered) {
		t.Fatalf("%d outcomes", len(p.outcomes))
	}
	p.choose(0)
	for _, s := range w.doc.Job().Slabs {
		if s.Sections[0].Depth != 20*geometry.Inch {
			t.Errorf("%s: the edge is %v", s.Name, s.Sections[0].Depth.Text(w.doc.Units()))
		}
	}
	if !strings.Contains(w.machine.Info, "stays as an option") || len(p.options()) != 1 {
		t.Errorf("it says %q of %d options", w.machine.Info, len(p.options()))
	}
	// The deeper section of the door stops at the field: no depth brings it back.
	p.add(estimate.Option{Name: "None", Edge: estimate.To(1 * geometry.Inch)})
	p.choose(1)
	if !strings.Contains(w.machine.Info, "no option can say") || len(p.options()) != 1 {
		t.Errorf("it says %q of %d options", w.machine.Info, len(p.options()))
	}
}

// Every figure of the takeoff opens how it comes about, of one slab and of
// several.
func TestEveryFigureOpens(t *testing.T) {
	for name, j := range map[string]job.Job{"one slab": demoJob(t), "several": twoSlabs(t)} {
		t.Run(name, func(t *testing.T) {
			w := open(t, Options{Job: j})
			to, _ := w.doc.Takeoff()
			if to == nil || len(to.Lines) < 20 {
				t.Fatal("no takeoff")
			}
			for _, l := range to.Lines {
				q := w.takeoff.rows[l.ID]
				if q == nil {
					t.Fatalf("%s has no row", l.Name)
				}
				if q.working.Visible() {
					t.Errorf("%s is open from the start", l.Name)
				}
				q.row.Tapped(nil)
				if !q.working.Visible() {
					t.Errorf("%s does not open", l.Name)
				}
				for _, s := range l.Working {
					wantText(t, q.working, s.Text)
				}
			}
			if name == "several" {
				wantText(t, w.takeoff.rows[takeoff.ID{Kind: takeoff.ConcreteNet}].working, "Shop: ", "Workshop: ")
			}
			for _, l := range to.Lines {
				w.takeoff.rows[l.ID].row.Tapped(nil)
				if w.takeoff.rows[l.ID].working.Visible() {
					t.Errorf("%s does not close", l.Name)
				}
			}
		})
	}
}

// Two extras of one name are told apart when their amounts are typed.
func TestExtrasOfOneName(t *testing.T) {
	j := demoJob(t)
	j.Price.Extras = []estimate.Extra{{Name: "Truck fee", Amount: estimate.Starting(j.Units).Wage}, {Name: "Truck fee", Amount: estimate.Starting(j.Units).Wage}}
	w := open(t, Options{Job: j})
	w.pages.turn(priceView)
	p := priceViewOf(w)
	for _, r := range p.rows {
		if r.line.Extra == 2 {
			if err := r.put("12.50"); err != nil {
				t.Fatal(err)
			}
		}
	}
	x := w.doc.Job().Price.Extras
	if x[0].Amount.StringFixed(2) != "54.00" || x[1].Amount.StringFixed(2) != "12.50" {
		t.Errorf("the extras are %s and %s", x[0].Amount, x[1].Amount)
	}
}
