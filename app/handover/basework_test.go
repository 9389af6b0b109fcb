package handover

import (
	"math"
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
)

// By hand, in yd³ with a factor of 1.2: 1 cut and 3 filled leave 2 open, 2.4 loose, of which
// some is in hand. Cut and 2.4 loose are 3.4 yd³, 91.8 ft³, 31 wheelbarrows of 3 ft³.
func TestBaseWork(t *testing.T) {
	for _, c := range []struct {
		cut, fill, gravel, fetch, over float64
		barrows                        int
		said                           string
	}{
		{1, 3, 0, 2.4, 0, 31, "Besides what is cut, 2.40 yd³ of loose gravel are missing"},
		{1, 3, 1, 1.4, 0, 31, "Besides what is cut and the 1.00 in hand, 1.40 yd³"},
		{1, 3, 2.5, 0, 0, 31, "What is cut and the 2.50 in hand do"},
		{3, 1, 2.5, 0, 2, 27, "2.00 yd³ of what is cut find no place"},
		{0, 0, 0, 0, 0, 0, "wheelbarrows: 0."},
	} {
		w := baseWork(c.cut, c.fill, c.gravel, 1.2, takeoff.CubicYards.SI())
		if math.Abs(w.Fetch-c.fetch) > 1e-9 || math.Abs(w.Over-c.over) > 1e-9 || w.Barrows != c.barrows || !strings.Contains(w.Said(takeoff.CubicYards), c.said) {
			t.Errorf("%+v: %s", w, w.Said(takeoff.CubicYards))
		}
	}
}
