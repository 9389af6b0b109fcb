package heads

import (
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/window/hands"
)

func TestHeads(t *testing.T) {
	d := hands.NewDesk(t, hands.Shop(), nil)
	d.Beside(New(d))
	for label, got := range map[string]func(job.Job) string{
		"Name": func(j job.Job) string { return j.Name }, "Customer": func(j job.Job) string { return j.Customer },
		"Site": func(j job.Job) string { return j.Site }, "Date": func(j job.Job) string { return j.Date },
		"Revision": func(j job.Job) string { return j.Revision }, "Notes": func(j job.Job) string { return j.Notes },
	} {
		d.Fill(label, "Some "+label)
		if s := got(d.Job()); s != "Some "+label {
			t.Errorf("%s is %q", label, s)
		}
	}
	d.Reads("no job book to write to")
	d.Select("Units", "millimeters")
	if d.Last() != "switch units" {
		t.Errorf("asked %v", d.Asked)
	}
	d = hands.NewDesk(t, hands.Shop(), hands.Book(t))
	d.Beside(New(d))
	d.Reads("Every change is saved in the job book")
}
