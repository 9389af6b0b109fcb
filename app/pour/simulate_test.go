package pour

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Each case is worked by hand, in minutes.
func TestSimulate(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []Delivery
		site Site
		want []Visit
	}{
		{
			// 10 to load, 20 on the road, 5 to set up; 10 yd³ at 0.5 a minute are 20.
			"one truck",
			[]Delivery{{Volume: 10, Load: 100}},
			Site{Loading: 10, Travel: 20, SetUp: 5, Pace: 0.5},
			[]Visit{{Volume: 10, Batched: 100, Arrives: 130, Starts: 135, Ends: 155}},
		},
		{
			// Each 25 min on site. Asked 20 apart: the second waits 5, the third 10.
			"too close together",
			[]Delivery{{10, 100, 0}, {10, 120, 0}, {10, 140, 0}},
			Site{Loading: 10, Travel: 20, SetUp: 5, Pace: 0.5},
			[]Visit{
				{10, 100, 130, 135, 155, 0, 0},
				{10, 120, 150, 160, 180, 5, 0},
				{10, 140, 170, 185, 205, 10, 0},
			},
		},
		{
			// Asked 40 apart: the crew stands 15 min before each.
			"too far apart",
			[]Delivery{{10, 100, 0}, {10, 140, 0}},
			Site{Loading: 10, Travel: 20, SetUp: 5, Pace: 0.5},
			[]Visit{{10, 100, 130, 135, 155, 0, 0}, {10, 140, 170, 175, 195, 0, 15}},
		},
		{
			// The plant loads one at a time: both asked at 100, the second leaves at 120.
			"both at once",
			[]Delivery{{5, 100, 0}, {5, 100, 0}},
			Site{Loading: 10, Travel: 20, Pace: 0.5},
			[]Visit{{5, 100, 130, 130, 140, 0, 0}, {5, 110, 140, 140, 150, 0, 0}},
		},
		{
			// One truck: empty at 155, back at 175, loaded by 185, on site at 205.
			"a fleet of one",
			[]Delivery{{10, 100, 0}, {10, 100, 0}},
			Site{Loading: 10, Travel: 20, SetUp: 5, Pace: 0.5, Fleet: 1},
			[]Visit{{10, 100, 130, 135, 155, 0, 0}, {10, 175, 205, 210, 230, 0, 50}},
		},
		{
			// The first is held up 30 and arrives at 160, after the second at 140. The
			// second goes first and is empty at 160; the first follows at once.
			"overtaken",
			[]Delivery{{10, 100, 30}, {10, 110, 0}},
			Site{Loading: 10, Travel: 20, Pace: 0.5},
			[]Visit{{10, 110, 140, 140, 160, 0, 0}, {10, 100, 160, 160, 180, 0, 0}},
		},
		{"none", nil, Site{Pace: 1}, nil},
	} {
		got := Simulate(c.in, c.site)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d visits, want %d", c.name, len(got), len(c.want))
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s, visit %d:\n%+v, want\n%+v", c.name, i, got[i], c.want[i])
			}
		}
	}
}

// lindley gives each customer's wait in a single-server queue by the recursion
// W(n+1) = max(0, W(n) + S(n) - T(n)), with S the service of one and T the time to
// the next arrival. Source: D. V. Lindley, "The theory of queues with a single
// server", Mathematical Proceedings of the Cambridge Philosophical Society 48
// (1952), 277-289.
func lindley(arrivals, services []float64) []float64 {
	waits := make([]float64, len(arrivals))
	for n := 1; n < len(arrivals); n++ {
		waits[n] = max(0, waits[n-1]+services[n-1]-(arrivals[n]-arrivals[n-1]))
	}
	return waits
}

// With trucks enough the day is two single-server queues one after the other: the
// plant's, which loads, and the site's, which places. The event simulation, which
// knows of neither, is checked against the recursion for both.
func TestSimulationIsTwoQueues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.Float64Range(0, 60)
		site := Site{Loading: minutes.Draw(t, "loading"), Travel: minutes.Draw(t, "travel"), SetUp: minutes.Draw(t, "setup"),
			Pace: rapid.Float64Range(0.05, 2).Draw(t, "pace")}
		var ds []Delivery
		var asked, loading []float64
		due := 400.0
		for range rapid.IntRange(1, 12).Draw(t, "loads") {
			ds = append(ds, Delivery{Volume: rapid.Float64Range(0.5, 11).Draw(t, "volume"), Load: due, Delay: rapid.Float64Range(0, 40).Draw(t, "delay")})
			asked, loading = append(asked, due), append(loading, site.Loading)
			due += minutes.Draw(t, "gap")
		}
		type truck struct{ batched, arrives, volume float64 }
		var trucks []truck
		for i, w := range lindley(asked, loading) {
			batched := asked[i] + w
			trucks = append(trucks, truck{batched, batched + site.Loading + site.Travel + ds[i].Delay, ds[i].Volume})
		}
		slices.SortStableFunc(trucks, func(a, b truck) int { return cmp.Compare(a.arrives, b.arrives) })
		var arrivals, placing []float64
		for _, k := range trucks {
			arrivals, placing = append(arrivals, k.arrives), append(placing, site.SetUp+k.volume/site.Pace)
		}
		visits := Simulate(ds, site)
		for i, w := range lindley(arrivals, placing) {
			k, v := trucks[i], visits[i]
			ends := k.arrives + w + placing[i]
			for _, x := range [][2]float64{{v.Batched, k.batched}, {v.Arrives, k.arrives}, {v.Waits, w}, {v.Ends, ends}, {v.Volume, k.volume}} {
				if math.Abs(x[0]-x[1]) > 1e-6 {
					t.Fatalf("visit %d is %+v; by the recursion it waits %v and ends at %v", i, v, w, ends)
				}
			}
		}
	})
}

func TestAge(t *testing.T) {
	vs := Simulate([]Delivery{{Volume: 10, Load: 100}}, Site{Loading: 10, Travel: 50, SetUp: 5, Pace: 0.5})
	if got := vs[0].Age(); got != 85 {
		t.Errorf("10 + 50 + 5 + 20 min make %v", got)
	}
}

// Whatever comes: nothing is lost, one truck is emptied at a time, nobody arrives
// before he could, and the crew never stands while a truck waits.
func TestSimulationHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.Float64Range(0, 60)
		site := Site{
			Loading: minutes.Draw(t, "loading"), Travel: minutes.Draw(t, "travel"), SetUp: minutes.Draw(t, "setup"),
			Pace: rapid.Float64Range(0.05, 2).Draw(t, "pace"), Fleet: rapid.IntRange(0, 4).Draw(t, "fleet"),
		}
		n := rapid.IntRange(1, 12).Draw(t, "loads")
		var ds []Delivery
		total, due := 0.0, 400.0
		for range n {
			d := Delivery{rapid.Float64Range(0.5, 11).Draw(t, "volume"), due, rapid.Float64Range(0, 40).Draw(t, "delay")}
			due += minutes.Draw(t, "gap")
			total += d.Volume
			ds = append(ds, d)
		}
		vs := Simulate(ds, site)
		if len(vs) != n {
			t.Fatalf("%d of %d loads came", len(vs), n)
		}
		sum, end := 0.0, math.Inf(-1)
		const eps = 1e-9
		for i, v := range vs {
			sum += v.Volume
			ready := v.Starts - site.SetUp
			if v.Arrives < v.Batched+site.Loading+site.Travel-eps || ready < v.Arrives-eps || ready < end-eps {
				t.Fatalf("visit %d: %+v, the one before ended %v", i, v, end)
			}
			if i > 0 && math.Abs(ready-max(v.Arrives, end)) > 1e-6 {
				t.Fatalf("visit %d began at %v, with the truck there at %v and the crew free at %v", i, ready, v.Arrives, end)
			}
			if math.Abs(v.Waits-(ready-v.Arrives)) > 1e-6 || i > 0 && math.Abs(v.Idle-(ready-end)) > 1e-6 {
				t.Fatalf("visit %d: %+v", i, v)
			}
			end = v.Ends
		}
		if math.Abs(sum-total) > 1e-9 {
			t.Fatalf("%v placed of %v", sum, total)
		}
		// PlacedBy and PlacedAt are each other's inverse while concrete flows.
		x := rapid.Float64Range(0.001, 0.999).Draw(t, "share") * total
		if got := PlacedAt(vs, PlacedBy(vs, x)); math.Abs(got-x) > 1e-6 {
			t.Fatalf("%v placed by %v, at which %v was placed", x, PlacedBy(vs, x), got)
		}
	})
}
