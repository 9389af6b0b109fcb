package handover

import (
	"math"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// layers gives foam and gravel under a section, where the job has them lie: under
// all of it, as thick across its slopes as on the flat, or under the field alone.
// None lies against a step.
func layers(under []plan.Station, field geometry.Length, b takeoff.Base) []Layer {
	var reach geometry.Length
	if n := len(under); n > 0 {
		reach = under[n-1].Inset
	}
	upper := append(append([]plan.Station{}, under...), plan.Station{Inset: reach + beyond(under), Depth: field})
	if b.Under == takeoff.FieldOnly || len(under) == 0 {
		upper = []plan.Station{{Inset: reach, Depth: field}, {Inset: reach + beyond(under), Depth: field}}
	}
	var out []Layer
	for _, l := range []Layer{{Kind: takeoff.FoamStock, Thickness: b.Foam}, {Kind: takeoff.GravelVolume, Thickness: b.Gravel}} {
		if l.Thickness > 0 {
			l.Upper, l.Lower = upper, lowered(upper, l.Thickness)
			out = append(out, l)
			upper = l.Lower
		}
	}
	return out
}

// lowered gives the line that runs at a distance below an underside, square to it:
// the ends straight below the ends, the corners on their bisectors.
func lowered(st []plan.Station, by geometry.Length) []plan.Station {
	// Across each stretch, downward: from the face inward the ground is on the
	// right, depths counted down.
	type vec struct{ x, y float64 }
	var runs [][2]plan.Station
	for i := 1; i < len(st); i++ {
		if st[i].Inset > st[i-1].Inset { // none against a step
			runs = append(runs, [2]plan.Station{st[i-1], st[i]})
		}
	}
	shift := func(r [2]plan.Station) (vec, vec) {
		u := vec{float64(r[1].Inset - r[0].Inset), float64(r[1].Depth - r[0].Depth)}
		h := math.Hypot(u.x, u.y)
		return u, vec{-u.y / h * float64(by), u.x / h * float64(by)}
	}
	at := func(s plan.Station, d vec) plan.Station {
		return plan.Station{Inset: s.Inset + geometry.Length(math.Round(d.x)), Depth: s.Depth + geometry.Length(math.Round(d.y))}
	}
	// below is straight below an end of a run: by the run's slope.
	below := func(s plan.Station, r [2]plan.Station) plan.Station {
		u, _ := shift(r)
		return at(s, vec{0, float64(by) * math.Hypot(u.x, u.y) / u.x})
	}
	var out []plan.Station
	for i, r := range runs {
		if i == 0 || runs[i-1][1] != r[0] {
			out = append(out, below(r[0], r))
		}
		if i+1 == len(runs) || runs[i+1][0] != r[1] {
			out = append(out, below(r[1], r))
			continue
		}
		// On the bisector of the corner: the sum of both ways across, as long as
		// brings it to the distance from either.
		_, a := shift(r)
		_, b := shift(runs[i+1])
		m := vec{a.x + b.x, a.y + b.y}
		k := 2 * float64(by) * float64(by) / (m.x*m.x + m.y*m.y)
		out = append(out, at(r[1], vec{m.x * k, m.y * k}))
	}
	return out
}
