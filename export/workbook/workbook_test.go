package workbook

import (
	"bytes"
	"testing"

	"haunchbook/app/estimate"
	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/assets"
)

func demo(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// write writes the workbook of a job and gives its bytes with what it shows.
func write(t testing.TB, j job.Job, p estimate.PriceList, o Options) ([]byte, takeoff.Takeoff, estimate.Estimate) {
	t.Helper()
	to, err := takeoff.Of(j.Slab, j.Spec, j.Units)
	if err != nil {
		t.Fatal(err)
	}
	e := estimate.Of(to, j.Spec.Order, j.Price, p)
	var buf bytes.Buffer
	if err := Write(&buf, j, to, e, o); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes(), to, e
}

func TestSameJobSameBytes(t *testing.T) {
	j := demo(t)
	first, _, _ := write(t, j, estimate.Starting(j.Units), Options{})
	for range 5 {
		if again, _, _ := write(t, j, estimate.Starting(j.Units), Options{}); !bytes.Equal(first, again) {
			t.Fatal("the same job gave other bytes")
		}
	}
}
