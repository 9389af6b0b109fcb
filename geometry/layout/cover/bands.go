// Package cover lays what covers the ground or the slab in sheets and rolls: foam,
// vapor retarder and mesh.
package cover

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/slab"
	"haunchbook.example/geometry/plan"
)

// Ply is goods that cover the slab side by side: mesh, foam, a vapor retarder.
type Ply struct {
	Width, Length geometry.Length // of one sheet or roll
	Lap           geometry.Length // over the neighbor, at sides and ends
	Margin        geometry.Length // short of the outline; negative to turn up beyond it
	Least         geometry.Length // no piece is cut narrower or shorter; without laps only
	Roll          bool
}

// Laid is a ply laid out on the plan.
type Laid struct {
	Sheets  []Sheet
	Filled  []Sheet // what is narrower than a piece can be cut: filled, with no piece
	Flat    int     // how many of Sheets, the first, lie flat under the field: all but for Foam
	Area    float64 // m² that is covered under the field, by Foam
	Cut     float64 // m² that is covered by cut pieces, by Foam
	Count   int     // sheets or rolls to buy for this slab alone
	Optimal bool    // proven the fewest that these pieces can be cut from
	TooMany bool    // more than this program lays out: nothing is laid
}

// Lay covers the slab, along whichever of the two directions of its longest edge
// takes fewer sheets or rolls. A ply of no size gives no cover.
func Lay(p plan.Plan, y Ply) Laid {
	return layEither(slab.Frames(p), y, nil)
}

// On is Lay for a slab that the rules of layout look at.
func On(s *slab.Slab, y Ply) Laid { return layEither([2]slab.Frame(s.Frames()), y, nil) }

// layEither lays a ply in one of two directions, with other pieces to be cut
// from the same goods.
func layEither(fs [2]slab.Frame, y Ply, other []Sheet) Laid {
	if y.Width <= y.Lap || y.Length <= y.Lap {
		return Laid{}
	}
	var best Laid
	for k, f := range fs {
		var c Laid
		c.Sheets, c.Filled, c.TooMany = bands(f, y)
		if c.TooMany || len(c.Sheets)+len(other) > MaxSheets {
			return Laid{TooMany: true}
		}
		c.Flat = len(c.Sheets)
		c.Sheets = append(c.Sheets, other...)
		c.Count, c.Optimal = Buy(c.Sheets, y)
		if k == 0 || c.Count < best.Count || c.Count == best.Count && len(c.Sheets) < len(best.Sheets) {
			best = c
		}
	}
	return best
}

// MaxSheets bounds how many sheets are laid out one by one.
const MaxSheets = 20000

// bands covers what a frame holds with bands of a ply along X. A rest that is narrower
// than a piece can be cut takes from the piece before it; what is narrower as a whole is
// filled. It tells whether all takes too many sheets.
func bands(f slab.Frame, y Ply) (sheets, filled []Sheet, tooMany bool) {
	least := float64(y.Least)
	step, lap, length := float64(y.Width-y.Lap), float64(y.Lap), float64(y.Length)
	margin := float64(y.Margin)
	lo, hi := f.Lo.Y+margin, f.Hi.Y-margin
	if (hi-lo)/step*max(1, (f.Hi.X-f.Lo.X)/(length-lap)) > MaxSheets {
		return nil, nil, true
	}
	top := lo
	for at := lo; at < hi-1; at = top - lap {
		top = before(at+float64(y.Width), hi, least)
		for _, s := range f.Spans(max(at, f.Lo.Y), min(top, f.Hi.Y)) {
			from, to := s[0]+margin, s[1]-margin
			for to-from > 1 {
				end := before(from+length, to, least)
				in := &sheets
				if min(top-at, end-from) < least-1 {
					in = &filled
				}
				*in = append(*in, Sheet{Roll: y.Roll, Width: geometry.Rounded(top - at), Length: geometry.Rounded(end - from),
					Corners: [4]geometry.Point{f.Point(from, at), f.Point(end, at), f.Point(end, top), f.Point(from, top)}})
				if end == to {
					break
				}
				from = end - lap
			}
		}
		if len(sheets) > MaxSheets {
			return nil, nil, true
		}
		if top == hi {
			break
		}
	}
	return sheets, filled, false
}

// before gives where a piece ends that reaches up to a place: at the end of all, or so
// far before it that the rest can be cut.
func before(reach, end, least float64) float64 {
	if reach >= end {
		return end
	}
	return min(reach, end-least)
}
