package lumber

import (
	"math"

	"haunchbook.example/geometry"
)

// Corners that turn by more than leastButt and less than mostButt take a board
// that runs through and one that butts against it; others are mitered. Beyond
// sharpestFit, boards at an inside corner do not meet. Common practice, no source.
const (
	LeastButt = math.Pi / 3
	MostButt  = 2 * math.Pi / 3
	Sharpest  = 3 * math.Pi / 4
)

// byStock cuts a run of boards into whole stock lengths and a rest of at least
// least, for which the piece before gives way. Butts are at multiples of grain.
func Pieces(run, stock, least, grain geometry.Length) []geometry.Length {
	if stock <= 0 || run <= stock {
		return []geometry.Length{run}
	}
	var out []geometry.Length
	at := geometry.Length(0)
	for run-at > stock {
		end := at + stock
		if rest := run - end; rest < least && rest > 0 {
			end = max(at+stock/2, run-min(least, stock/2)).Round(grain)
		}
		out = append(out, end-at)
		at = end
	}
	return append(out, run-at)
}
