package layout

import (
	"testing"

	"pgregory.net/rapid"

	"haunchbook.example/geometry"
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
		var avoid []interval
		for range rapid.IntRange(0, 3).Draw(t, "avoided") {
			at := geometry.Length(rapid.Int64Range(0, int64(run)).Draw(t, "at"))
			avoid = append(avoid, interval{at, at + 6*geometry.Inch})
		}
		bars, clean := splice(0, run, lap, long, grain, avoid)
		if bars[0].from != 0 || run-bars[len(bars)-1].to >= grain || bars[len(bars)-1].to > run {
			t.Fatalf("%v does not cover %v", bars, run)
		}
		for i, b := range bars {
			if l := b.to - b.from; l > long || l <= 0 || l%grain != 0 && run >= grain {
				t.Fatalf("bar %d is %v long", i, l)
			}
			if i == 0 {
				continue
			}
			if bars[i-1].to-b.from < lap {
				t.Fatalf("lap %d is %v, want %v", i, bars[i-1].to-b.from, lap)
			}
			for _, a := range avoid {
				if end := bars[i-1].to; clean && end > a.from+grain && end-lap+grain < a.to {
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
