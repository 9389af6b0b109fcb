package bars

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
)

// splice covers from..to with the fewest bars of at most stock, each lapped with
// the one before by at least lap, the laps off the stretches in avoid. Lengths
// are multiples of grain: a bar that laps is the longer for it, a single one the
// shorter by less than a grain. It tells whether every lap is off avoid.
//
// Taking each bar as long as can be gives the fewest: no other choice ends
// further on. Only the last but one gives way to the last.
func splice(from, to, lap, stock, grain geometry.Length, avoid []slab.Interval) (bars []slab.Interval, clean bool) {
	stock -= stock % grain
	clean = true
	start := from
	if stock > lap {
		bars = make([]slab.Interval, 0, min(max((to-from)/(stock-lap), 0)+2, 100))
	}
	for to-start > stock && stock >= lap*3/2 {
		// What is left is no stub: it is at least twice a lap long.
		end, ok := endLap(max(min(start+stock, to-lap), start+lap*5/4), start+lap*3/2, lap, avoid)
		clean = clean && ok
		b := lengthen(slab.Interval{From: start, To: end}, from, grain)
		bars = append(bars, b)
		start = b.To - lap
	}
	last := slab.Interval{From: start, To: to}
	if len(bars) == 0 {
		last.To -= (to - start) % grain
		if last.To <= last.From {
			last.To = to
		}
	} else {
		last = lengthen(last, from, grain)
	}
	return append(bars, last), clean
}

// lengthen moves the start back so that the length is a multiple of grain.
func lengthen(b slab.Interval, least, grain geometry.Length) slab.Interval {
	if over := (b.To - b.From) % grain; over != 0 {
		if b.From-(grain-over) >= least {
			b.From -= grain - over
		} else {
			b.To -= over
		}
	}
	return b
}

// endLap gives the furthest end, from most down to least, whose lap before it
// keeps off avoid; most and false if there is none.
func endLap(most, least, lap geometry.Length, avoid []slab.Interval) (geometry.Length, bool) {
	end := most
	for moved := true; moved; {
		moved = false
		for _, a := range avoid {
			if end > a.From && end-lap < a.To {
				end, moved = a.From, true
			}
		}
		if end < least {
			return most, false
		}
	}
	return end, true
}

// Pieces covers a run with the fewest bars from stock, lapped, cut to multiples of
// grain.
func (s Spec) Pieces(run, lap, grain geometry.Length) []slab.Interval {
	pieces, _ := splice(0, run, lap, s.longest(), grain, nil)
	return pieces
}
