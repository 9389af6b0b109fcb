package bars

import (
	"testing"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"pgregory.net/rapid"
)

// Every stretch is covered by bars of whole steps, none longer than stock, each
// lapped enough, and by no more of them than stock and laps require.
func TestSplice(t *testing.T) {
	const grain = geometry.Inch / 4
	rapid.Check(t, func(t *rapid.T) {
		stock := rapid.Int64Range(20, 240).Draw(t, "stock")
		lap := geometry.Length(rapid.Int64Range(4, stock/4).Draw(t, "lap")) * geometry.Inch
		run := geometry.Length(rapid.Int64Range(int64(geometry.Inch), int64(300*geometry.Foot)).Draw(t, "run"))
		long := geometry.Length(stock) * geometry.Inch
		var avoid []slab.Interval
		for range rapid.IntRange(0, 3).Draw(t, "avoided") {
			at := geometry.Length(rapid.Int64Range(0, int64(run)).Draw(t, "at"))
			avoid = append(avoid, slab.Interval{From: at, To: at + 6*geometry.Inch})
		}
		bars, clean := splice(0, run, lap, long, grain, avoid)
		if bars[0].From != 0 || run-bars[len(bars)-1].To >= grain || bars[len(bars)-1].To > run {
			t.Fatalf("%v does not cover %v", bars, run)
		}
		for i, b := range bars {
			if l := b.To - b.From; l > long || l <= 0 || l%grain != 0 && run >= grain {
				t.Fatalf("bar %d is %v long", i, l)
			}
			if i == 0 {
				continue
			}
			if bars[i-1].To-b.From < lap {
				t.Fatalf("lap %d is %v, want %v", i, bars[i-1].To-b.From, lap)
			}
			for _, a := range avoid {
				if end := bars[i-1].To; clean && end > a.From+grain && end-lap+grain < a.To {
					t.Fatalf("lap %d before %v lies on %v", i, end, a)
				}
			}
		}
		// n bars reach n·stock − (n−1)·lap.
		if n := geometry.Length(len(bars)); len(avoid) == 0 && n > 1 && (n-1)*long-(n-2)*lap >= run+n*grain {
			t.Fatalf("%d bars for %v, one less would do", n, run)
		}
	})
}
