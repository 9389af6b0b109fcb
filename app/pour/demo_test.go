package pour_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
)

// The demo job's day holds together: what is placed is the slab with its waste,
// the loads are the order, and no bay is left out of reach of both truck places.
func TestDemoDay(t *testing.T) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	to, err := takeoff.Of(t.Context(), j.Slabs, j.Spec, j.Units)
	if err != nil {
		t.Fatal(err)
	}
	d, err := pour.Of(pour.From(j.Spec, to, j.Pour)[0])
	if err != nil {
		t.Fatal(err)
	}
	line, _ := to.Line(takeoff.ConcreteOrder)
	order := decimal.NewFromFloat(line.Value)
	const yard = 0.764554857984
	want := to.Slabs[0].Solid.Volume / yard * (1 + j.Spec.Order.Waste.InexactFloat64()/100)
	if !d.Order.Equal(order) {
		t.Errorf("ordered %s, want %s", d.Order, order)
	}
	if len(d.Pads) != 3 {
		t.Errorf("%d wet pads, want 3", len(d.Pads))
	}
	last := d.Times[len(d.Times)-1]
	if math.Abs(last.Used-want) > 1e-6*want || math.Abs(last.Left-(order.InexactFloat64()-want)) > 1e-4 {
		t.Errorf("the last bay ends at %.4f, want %.4f", last.Used, want)
	}
	bolts, set := 0, 0
	for _, w := range to.Slabs[0].Layout.Walls {
		bolts += len(w.Bolts)
	}
	for _, b := range d.Bays {
		set += b.Bolts
	}
	if bolts == 0 || set != bolts {
		t.Errorf("%d bolts set in the bays, of %d", set, bolts)
	}
	for i, b := range d.Bays {
		if i > 0 && d.Times[i].Done < d.Times[i-1].Done {
			t.Errorf("bay %d is done before bay %d", b.Number, b.Number-1)
		}
	}
	for _, h := range d.Hours {
		if h.Rate.US <= 0 || h.Trowel.From >= h.Trowel.To {
			t.Errorf("%s: %+v", h.Hour.Time, h)
		}
	}
	t.Logf("%s%s", d.OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units), d.CallText())
	for _, s := range d.Lanes {
		t.Log(d.LaneText(s.Number))
	}
	for _, f := range d.Findings {
		t.Log(f.Said())
	}
}

// BenchmarkDay plans the demo job's day.
func BenchmarkDay(b *testing.B) {
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		b.Fatal(err)
	}
	to, err := takeoff.Of(b.Context(), j.Slabs, j.Spec, j.Units)
	if err != nil {
		b.Fatal(err)
	}
	in := pour.From(j.Spec, to, j.Pour)[0]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pour.Of(in); err != nil {
			b.Fatal(err)
		}
	}
}
