package calendar

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/hold"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

var first = date.Of(2026, 12, 1)

func demo(t *testing.T, id string, edit func(*job.Job)) Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	edit(&j)
	return Job{id, handover.Of(handover.From{Job: j})}
}

// Pours and what goes before and after them stand on their days in order, from the first
// day to the last of those asked for; what is outside, passed or of no day does not.
func TestOf(t *testing.T) {
	jobs := []Job{
		demo(t, "J-1", func(j *job.Job) {
			j.Name, j.Pour.Date, j.Pour.Start = "Late", first.Plus(13), 9*60
			j.Holds = []hold.Hold{{Kind: hold.Locate, Number: "A-1182", Until: first.Plus(5)}, {Kind: hold.Footing, From: first.Plus(13)}, {Kind: hold.Steel, From: first, Result: hold.Passed},
				{Kind: hold.Strip, From: first.Plus(14)}}
		}),
		demo(t, "J-2", func(j *job.Job) { j.Name, j.Pour.Date, j.Pour.Start = "Early", first.Plus(13), 6*60 }),
		demo(t, "J-3", func(j *job.Job) { j.Name, j.Pour.Date = "Before", first.Plus(-1) }),
		demo(t, "J-4", func(j *job.Job) { j.Name, j.Pour.Date = "After", first.Plus(14) }),
		demo(t, "J-5", func(j *job.Job) { j.Name = "No day" }),
		demo(t, "J-6", func(j *job.Job) { j.Name, j.Pour.Date, j.Slabs[0].Outline = "Nothing drawn", first, nil }),
	}
	got, err := Of(t.Context(), jobs, first, 14)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range got {
		list = append(list, e.Day.String()+" "+e.UID+" "+e.What+" "+e.Job)
	}
	want := []string{"2026-12-01 J-6-pour Pour Nothing drawn", "2026-12-06 J-1-hold-1-until Utility locate A-1182 runs out Late", "2026-12-14 J-1-hold-2-from Footing inspection Late", "2026-12-14 J-2-pour Pour Early", "2026-12-14 J-1-pour Pour Late"}
	if !slices.Equal(list, want) {
		t.Errorf("found %q, want %q", list, want)
	}
	late := got[4]
	if late.From != 9*60 || late.To <= late.From || !strings.Contains(late.Held, "runs out on 2026-12-06") || !strings.Contains(late.Held, "footing inspection") {
		t.Errorf("%+v", late)
	}
	planned, err := jobs[0].Days(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	day := planned[0]
	if last := pour.Clock(day.Loads[len(day.Loads)-1].Visit.Ends + 0.5); late.To != last || late.Notes[0] != day.Order.String()+" "+day.Unit {
		t.Errorf("to %s with %q, by the plan of the pour %s", late.To, late.Notes, last)
	}
}

// The second pour of a slab with a construction joint stands on its own day, with its own
// order, whenever the first one was.
func TestEachPourHasItsDay(t *testing.T) {
	j := demo(t, "J-1", func(j *job.Job) {
		lo, hi := j.Slabs[0].Outline.Corners().Bounds()
		mid := lo.X + (hi.X-lo.X)/2
		j.Slabs[0].Construction = []plan.Construction{{From: geometry.Point{X: mid, Y: lo.Y}, To: geometry.Point{X: mid, Y: hi.Y}, Days: 3}}
		j.Pour.Date = first.Plus(-1)
	})
	got, err := Of(t.Context(), []Job{j}, first, 14)
	if err != nil {
		t.Fatal(err)
	}
	days, err := j.Days(t.Context())
	if err != nil || len(days) != 2 {
		t.Fatal(len(days), err)
	}
	if len(got) != 1 || got[0].UID != "J-1-pour-2" || got[0].What != "Pour 2" || got[0].Day != first.Plus(2) || got[0].Notes[0] != days[1].Order.String()+" "+days[1].Unit {
		t.Errorf("%+v", got)
	}
}
