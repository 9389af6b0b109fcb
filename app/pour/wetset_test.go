package pour_test

import (
	"bytes"
	"strings"
	"testing"

	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry/layout/bars"
)

// Bolts set wet are counted in the bays; what is held before the pour is not. Bars set
// wet are told: the code has them in their place first.
func TestSetWetOrBefore(t *testing.T) {
	for _, c := range []struct {
		bolts, bars bars.Setting
		finds       string
	}{
		{bars.Wet, bars.Before, "Bolts set wet"},
		{bars.Before, bars.Before, ""},
		{bars.Before, bars.Wet, "Bars set wet"},
		{bars.Wet, bars.Wet, "Bolts set wet, Bars set wet"},
	} {
		j, err := job.Read(bytes.NewReader(assets.Demo()))
		if err != nil {
			t.Fatal(err)
		}
		j.Spec.Place.Bolts.Setting, j.Spec.Place.Bars.Setting = c.bolts, c.bars
		off, err := takeoff.Of(t.Context(), j.Slabs, j.Spec, j.Units)
		if err != nil {
			t.Fatal(err)
		}
		day, err := pour.Of(pour.From(j.Spec, off, j.Pour)[0])
		if err != nil {
			t.Fatal(err)
		}
		inBays, all, held := 0, 0, 0
		for _, b := range day.Bays {
			inBays += b.Bolts
		}
		for _, w := range off.Slabs[0].Layout.Walls {
			all += len(w.Bolts)
		}
		if l, ok := off.Line(takeoff.TiedBolts); ok {
			held = int(l.Value)
		}
		want := map[bars.Setting][2]int{bars.Wet: {all, 0}, bars.Before: {0, all}}[c.bolts]
		if all == 0 || [2]int{inBays, held} != want {
			t.Errorf("bolts %v: %d in bays, %d held before, want %v", c.bolts, inBays, held, want)
		}
		var said []string
		for _, name := range []string{"Bolts set wet", "Bars set wet"} {
			for _, f := range day.Findings {
				if f.Rule.Name == name {
					said = append(said, name)
				}
			}
		}
		if got := strings.Join(said, ", "); got != c.finds {
			t.Errorf("bolts %v, bars %v: finds %q, want %q", c.bolts, c.bars, got, c.finds)
		}
	}
}
