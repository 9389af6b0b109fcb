package takeoff

import (
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/app/window/words"
	"haunchbook.example/geometry"
)

func opened(t *testing.T, j job.Job) (*hands.Desk, *Panel) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d)
	d.Show(hands.Shown{In: p.Box, Then: p.Update})
	return d, p
}

// Every figure opens how it comes about, of one slab and of several.
func TestEveryFigureOpens(t *testing.T) {
	for name, j := range map[string]job.Job{"one slab": hands.Demo(t), "several": hands.Twice(t)} {
		t.Run(name, func(t *testing.T) {
			d, p := opened(t, j)
			to, _ := d.Takeoff()
			if to == nil || len(to.Lines) < 20 {
				t.Fatal("no takeoff")
			}
			for _, l := range to.Lines {
				r := p.rows[l.ID]
				if r == nil {
					t.Fatalf("%s has no row", l.Name)
				}
				if r.Below.Visible() {
					t.Errorf("%s is open from the start", l.Name)
				}
				r.Tapped(nil)
				for _, s := range l.Working {
					hands.On(t, r.Below).Reads(s.Text)
				}
			}
			if name == "several" {
				hands.On(t, p.rows[takeoff.ID{Kind: takeoff.ConcreteNet}].Below).Reads("Shop: ", "Workshop: ")
			}
			for _, l := range to.Lines {
				if p.rows[l.ID].Tapped(nil); p.rows[l.ID].Below.Visible() {
					t.Errorf("%s does not close", l.Name)
				}
			}
		})
	}
}

func TestWhatItSays(t *testing.T) {
	d, _ := opened(t, shelf.Blank(geometry.FeetInches))
	d.Reads("Draw an outline to see quantities")
	j := hands.Demo(t)
	bad := j.Clone()
	bad.Slabs[0].Field = -geometry.Foot
	d.Commit("Spoil", bad)
	d.Reads("No figures yet")
	d.Commit("Mend", j)
	d.Reads("live; click a figure")
	d.Commit("Spoil", bad)
	d.Reads("As of the last sound plan")
}

// During a drag the rows follow in turns; when the last is done they show the figures
// of the takeoff as it is.
func TestRowsFollowInTurns(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	d.Show(hands.Shown{In: p.Box}) // so that nothing but the turns below brings rows up to date
	var got *takeoff.Takeoff
	thicker := func() {
		slab := d.Job().Slabs[0]
		slab.Field += geometry.Inch
		d.Preview(d.Job().WithSlab(0, slab))
		got, _ = d.Takeoff()
	}
	thicker()
	if !p.Some(time.Time{}) || p.next != 0 {
		t.Fatal("a turn without time did something")
	}
	right := func() (n int) {
		for _, l := range got.Lines {
			if p.rows[l.ID].Value == words.Quantity(l.Value, l.Unit) {
				n++
			}
		}
		return n
	}
	if right() == len(got.Lines) {
		t.Fatal("a thicker slab changes no figure")
	}
	turns := func() {
		for p.Some(time.Now().Add(time.Hour)) {
		}
	}
	turns()
	if n := right(); n != len(got.Lines) {
		t.Errorf("%d of %d figures are shown", n, len(got.Lines))
	}
	p.next = len(got.Lines) / 2 // the takeoff changes between two turns
	thicker()
	turns()
	if n := right(); n != len(got.Lines) {
		t.Errorf("%d of %d figures are shown after a change within a round", n, len(got.Lines))
	}
	if p.Some(time.Now().Add(time.Hour)) {
		t.Error("there is more to do when all is shown")
	}
}
