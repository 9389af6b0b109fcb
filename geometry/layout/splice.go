package layout

import "haunchbook.example/geometry"

// splice covers from..to with the fewest bars of at most stock, each lapped with
// the one before by at least lap, the laps off the stretches in avoid. Lengths
// are multiples of grain: a bar that laps is the longer for it, a single one the
// shorter by less than a grain. It tells whether every lap is off avoid.
//
// Taking each bar as long as can be gives the fewest: no other choice ends
// further on. Only the last but one gives way to the last.
func splice(from, to, lap, stock, grain geometry.Length, avoid []interval) (bars []interval, clean bool) {
	stock -= stock % grain
	clean = true
	start := from
	if stock > lap {
		bars = make([]interval, 0, min(max((to-from)/(stock-lap), 0)+2, 100))
	}
	for to-start > stock && stock >= lap*3/2 {
		// What is left is no stub: it is at least twice a lap long.
		end, ok := endLap(max(min(start+stock, to-lap), start+lap*5/4), start+lap*3/2, lap, avoid)
		clean = clean && ok
		b := lengthen(interval{start, end}, from, grain)
		bars = append(bars, b)
		start = b.to - lap
	}
	last := interval{start, to}
	if len(bars) == 0 {
		last.to -= (to - start) % grain
		if last.to <= last.from {
			last.to = to
		}
	} else {
		last = lengthen(last, from, grain)
	}
	return append(bars, last), clean
}

// lengthen moves the start back so that the length is a multiple of grain.
func lengthen(b interval, least, grain geometry.Length) interval {
	if over := (b.to - b.from) % grain; over != 0 {
		if b.from-(grain-over) >= least {
			b.from -= grain - over
		} else {
			b.to -= over
		}
	}
	return b
}

// endLap gives the furthest end, from most down to least, whose lap before it
// keeps off avoid; most and false if there is none.
func endLap(most, least, lap geometry.Length, avoid []interval) (geometry.Length, bool) {
	end := most
	for moved := true; moved; {
		moved = false
		for _, a := range avoid {
			if end > a.from && end-lap < a.to {
				end, moved = a.from, true
			}
		}
		if end < least {
			return most, false
		}
	}
	return end, true
}
