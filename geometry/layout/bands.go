package layout

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// Ply is goods that cover the slab side by side: mesh, foam, a vapor retarder.
type Ply struct {
	Width, Length geometry.Length // of one sheet or roll
	Lap           geometry.Length // over the neighbor, at sides and ends
	Margin        geometry.Length // short of the outline; negative to turn up beyond it
	Roll          bool
}

// Cover is a ply laid out on the plan.
type Cover struct {
	Sheets  []Sheet
	Flat    int     // how many of Sheets, the first, lie flat under the field: all but for Foam
	Area    float64 // m² that is covered under the field, by Foam
	Cut     float64 // m² that is covered by cut pieces, by Foam
	Count   int     // sheets or rolls to buy
	Optimal bool    // proven the fewest that these sheets can be cut from
	TooMany bool    // more than this program lays out: nothing is laid
}

// Lay covers the slab, along whichever of the two directions of its longest edge
// takes fewer sheets or rolls. A ply of no size gives no cover.
func Lay(p plan.Plan, y Ply) Cover {
	return layEither(frames(p), y, nil)
}

// layEither lays a ply in one of two directions, with other pieces to be cut
// from the same goods.
func layEither(fs [2]frame, y Ply, other []Sheet) Cover {
	if y.Width <= y.Lap || y.Length <= y.Lap {
		return Cover{}
	}
	var best Cover
	for k, f := range fs {
		var c Cover
		c.Sheets, c.TooMany = f.lay(y)
		if c.TooMany || len(c.Sheets)+len(other) > maxSheets {
			return Cover{TooMany: true}
		}
		c.Flat = len(c.Sheets)
		c.Sheets = append(c.Sheets, other...)
		c.Count, c.Optimal = rip(c.Sheets, y)
		if k == 0 || c.Count < best.Count || c.Count == best.Count && len(c.Sheets) < len(best.Sheets) {
			best = c
		}
	}
	return best
}

// maxSheets bounds how many sheets are laid out one by one.
const maxSheets = 20000

// lay covers what a frame holds with bands of a ply along X. It tells whether
// that takes too many sheets.
func (f frame) lay(y Ply) (sheets []Sheet, tooMany bool) {
	step, lap, length := float64(y.Width-y.Lap), float64(y.Lap), float64(y.Length)
	margin := float64(y.Margin)
	lo, hi := f.lo.y+margin, f.hi.y-margin
	if (hi-lo)/step*max(1, (f.hi.x-f.lo.x)/(length-lap)) > maxSheets {
		return nil, true
	}
	for at := lo; at < hi-1; at += step {
		top := min(at+float64(y.Width), hi)
		for _, s := range f.spans(max(at, f.lo.y), min(top, f.hi.y)) {
			from, to := s[0]+margin, s[1]-margin
			for to-from > 1 {
				end := min(from+length, to)
				sheets = append(sheets, Sheet{Roll: y.Roll, Width: round(top - at), Length: round(end - from),
					Corners: [4]geometry.Point{f.point(from, at), f.point(end, at), f.point(end, top), f.point(from, top)}})
				if end == to {
					break
				}
				from = end - lap
			}
		}
		if len(sheets) > maxSheets {
			return nil, true
		}
		if top == hi {
			break
		}
	}
	return sheets, false
}
