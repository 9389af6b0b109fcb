package handover

import (
	"fmt"
	"math"
	"slices"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/plane"
)

// Thickening is the steel of a pad or thickened strip as a section across it shows it.
// Insets go from where its side leaves the underside of the field.
type Thickening struct {
	Ends  []Row     // bars seen from their end, from the left
	Lying *LyingBar // the bars that lie in the section, all at one height; nil for none
	Said  []string  // how many of each mark lie which way, and how far clear
}

// LyingBar is a bar seen from its side.
type LyingBar struct {
	From, To geometry.Length
	Depth    geometry.Length // of its center
	Diameter geometry.Length
}

// PadSteel gives the steel of a pad of a slab, cut across its width.
func PadSteel(slab takeoff.Slab, i int) Thickening {
	p := slab.Plan.Pads[i]
	frame := plane.NewFrame(p.Center, p.Turn*math.Pi/180)
	return thickening(slab, bars.Part{Kind: bars.InPad, N: i}, frame, true, p.Taper+p.Width/2, p.Depth)
}

// StripSteel gives the steel of a thickened strip of a slab, cut across its first leg.
func StripSteel(slab takeoff.Slab, i int) Thickening {
	s := slab.Plan.Strips[i]
	// Its way is up in the section's frame: across it is to the right.
	along := plane.FrameAlong(s.Path[0], s.Path[1])
	across := plane.FrameAlong(s.Path[0], along.Out(plane.Vec{X: 0, Y: -1}))
	return thickening(slab, bars.Part{Kind: bars.InStrip, N: i}, across, false, s.Taper+s.Bottom/2, s.Depth)
}

func thickening(slab takeoff.Slab, of bars.Part, frame plane.Frame, both bool, middle, deep geometry.Length) Thickening {
	var out Thickening
	type lot struct {
		mark  string
		lying bool
	}
	var lots []lot
	count := map[lot]int{}
	for _, b := range slab.Layout.Bars {
		if b.Of != of || len(b.Path) < 2 {
			continue
		}
		v, w := frame.In(b.Path[0]), frame.In(b.Path[1])
		d := b.Size.Diameter()
		across := math.Abs(w.X-v.X) > math.Abs(w.Y-v.Y)
		l := lot{b.Mark.String(), across && both}
		if count[l] == 0 {
			lots = append(lots, l)
		}
		count[l]++
		if across && !both {
			continue // of another leg
		}
		if l.lying {
			if out.Lying == nil {
				from, to := geometry.FromMeters(min(v.X, w.X)), geometry.FromMeters(max(v.X, w.X))
				out.Lying = &LyingBar{From: middle + from, To: middle + to, Depth: b.Depth, Diameter: d}
			}
			continue
		}
		at := middle + geometry.FromMeters(v.X).Round(geometry.Sixteenth/4)
		if !slices.ContainsFunc(out.Ends, func(r Row) bool { return r.Inset == at }) {
			out.Ends = append(out.Ends, Row{Size: b.Size, Diameter: d, Inset: at, Depth: b.Depth, Bottom: deep - b.Depth - d/2})
		}
	}
	slices.SortFunc(out.Ends, func(a, b Row) int { return int(a.Inset - b.Inset) })
	for _, l := range lots {
		way := "along"
		if l.lying {
			way = "across"
		}
		out.Said = append(out.Said, fmt.Sprintf("%s: %d × %s", way, count[l], l.mark))
	}
	return out
}
