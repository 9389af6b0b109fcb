package ground

import (
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/shoot"
	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const inch = geometry.Inch

func opened(t *testing.T, j job.Job) (*hands.Desk, *Panel) {
	t.Helper()
	d := hands.NewDesk(t, j, nil)
	p := New(d, document.Scheduler{})
	d.Show(hands.Shown{In: p.Box, Then: p.Update})
	return d, p
}

// Of a job without shots there is one button; then readings are typed, one after the
// other, and each is a step of the history.
func TestReadings(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	if p.shown.Visible() {
		t.Fatal("all is shown of a job without shots")
	}
	d.Press("Shoot the ground…")
	if p.take("5'"); !strings.Contains(p.asks.Text, "how high the instrument stands") || len(d.Job().Survey.Shots) > 0 {
		t.Errorf("without an instrument it says %q", p.asks.Text)
	}
	if err := d.Change("Instrument", func(j *job.Job) { j.Ground.Instrument = 5 * geometry.Foot }); err != nil {
		t.Fatal(err)
	}
	all := p.wanted()
	d.Reads("Place 1 of", "wanted "+all[0].Read.Text(d.Units()))
	for i, w := range all[:4] {
		if !p.take((w.Read - geometry.Length(i)*inch/4).Exact(d.Units())) {
			t.Fatalf("place %d: %s", i+1, p.asks.Text)
		}
	}
	shots := d.Job().Survey.Shots
	if len(shots) != 4 || shots[3].Height-all[3].Height != 3*inch/4 || p.next != 4 {
		t.Fatalf("%d shots, next is %d", len(shots), p.next)
	}
	d.Reads("Concrete by the plan", "What to order", "costs least", "by percent")
	// A reading that cannot be is asked about, and kept when it is typed again.
	odd := (all[4].Read + geometry.Foot).Exact(d.Units())
	if p.take(odd) || !strings.Contains(p.asks.Text, "a foot") || len(d.Job().Survey.Shots) != 4 {
		t.Errorf("a foot off: %q", p.asks.Text)
	}
	if !p.take(odd) || len(d.Job().Survey.Shots) != 5 {
		t.Errorf("typed twice it is not kept: %q", p.asks.Text)
	}
	if p.take("zz"); !strings.Contains(p.asks.Text, "zz") {
		t.Errorf("no length: %q", p.asks.Text)
	}
	d.Undo()
	if n := len(d.Job().Survey.Shots); n != 4 {
		t.Errorf("%d shots after undo", n)
	}
	if err := p.clear(); err != nil || len(d.Job().Survey.Shots) > 0 {
		t.Errorf("%v, %d shots left", err, len(d.Job().Survey.Shots))
	}
}

func TestFile(t *testing.T) {
	d, p := opened(t, hands.Demo(t))
	d.Press("Shoot the ground…")
	if err := p.rows([]shoot.Row{{Number: 1, Value: inch}}); err == nil {
		t.Error("readings without an instrument are taken")
	}
	if err := p.rows([]shoot.Row{{Number: 9999, Height: true}}); err == nil {
		t.Error("place 9999 is taken")
	}
	all := p.wanted()
	err := p.rows([]shoot.Row{{Number: 2, Value: all[1].Height, Height: true}, {At: geometry.Point{X: 8 * geometry.Foot, Y: 8 * geometry.Foot}, Value: -6 * inch, Height: true}})
	if s := d.Job().Survey.Shots; err != nil || len(s) != 2 || s[0].At != all[1].At {
		t.Errorf("%v: %v", err, s)
	}
}

// What is typed may be heights too, over the datum or over a benchmark; without an
// instrument. So may a file have them.
func TestHeights(t *testing.T) {
	j := hands.Demo(t)
	j.Survey.Benchmarks = []plan.Benchmark{{Name: "nail", Height: 2 * geometry.Foot}}
	d, p := opened(t, j)
	d.Press("Shoot the ground…")
	all := p.wanted()
	for i, kind := range []string{overDatum, overMark + "nail"} {
		d.Select("What is typed", kind)
		d.Reads("wanted " + (all[i].Height - geometry.Length(i)*2*geometry.Foot).Text(d.Units()))
		if !p.take((all[i].Height + inch/2 - geometry.Length(i)*2*geometry.Foot).Exact(d.Units())) {
			t.Fatalf("%s: %s", kind, p.asks.Text)
		}
		if s := d.Job().Survey.Shots; len(s) != i+1 || s[i].Height != all[i].Height+inch/2 {
			t.Errorf("%s: %v, planned %v", kind, s, all[i].Height)
		}
	}
	p.step(-1)
	d.Reads("; read ")
	rows, err := shoot.ReadCSV(strings.NewReader("point,over\n3,-2' 6\"\n"), d.Units())
	if err == nil {
		err = p.rows(rows)
	}
	if s := d.Job().Survey.Shots; err != nil || len(s) != 3 || s[2].Height != -6*inch {
		t.Errorf("%v, %v", s, err)
	}
	if err := d.Change("No benchmark", func(j *job.Job) { j.Survey.Benchmarks = nil }); err != nil {
		t.Fatal(err)
	}
	if p.take("1'") || !strings.Contains(p.asks.Text, "benchmark") {
		t.Errorf("without the benchmark it says %q", p.asks.Text)
	}
	if err := p.rows(rows); err == nil {
		t.Error("heights over no benchmark are taken")
	}
	// Gravel in hand goes where the ground is low.
	d.Reads("To bring the base in")
}
