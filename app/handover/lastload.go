package handover

import (
	"context"

	"haunchbook.example/app/order"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plane"
)

// LastLoad tells how much concrete is still wanted near the end of a pour, with what is lost
// besides: for an area that is left, by how deep it is from the top to the ground, and for
// all bays from one on.
type LastLoad struct {
	Unit, AreaUnit takeoff.Unit
	Lost           float64 // share that is added for what is lost
	Areas          []float64
	Depths         []geometry.Length
	Wanted         [][]float64 // of each area, by depth
	Bays           []BayLeft   // none where there is but one
	Shot           bool        // they go down to the ground as it was shot
	Needed         bool        // there is a last load to call
}

// BayLeft is a bay that is not placed yet.
type BayLeft struct {
	Number int
	Area   float64
	Depth  geometry.Length // mean, from the top to the ground
	Wanted float64         // for it and for all after it
}

// LastLoad gives what to call the last load by.
func (h *Handover) LastLoad(ctx context.Context) (LastLoad, error) {
	return h.last.get(ctx, "the last load", func(ctx context.Context) (LastLoad, error) {
		g, err := h.Ground(ctx)
		if err != nil {
			return LastLoad{}, err
		}
		metric := h.from.Job.Units == geometry.Millimeters
		l := lastLoad(g.Unit, metric, g.Decision.Need.Lost)
		l.Shot = g.Shot
		days, err := h.Days(ctx)
		if err != nil { // no bays then; the sheets say why
			return l, ctx.Err()
		}
		var day pour.Day
		for _, d := range days {
			l.Needed = l.Needed || d.Call.Needed
			day.Bays = append(day.Bays, d.Bays...)
		}
		if len(days) > 1 || len(day.Bays) < 2 { // what is left is of one pour alone
			return l, nil
		}
		above := make([]float64, len(day.Bays)) // m³ of ground over the plan
		for _, s := range g.Slabs {
			var of []int
			var shapes []plane.Region
			for i, b := range day.Bays {
				if b.Slab == s.Slab {
					of, shapes = append(of, i), append(shapes, b.Shape)
				}
			}
			for k, v := range s.Surface.Over(shapes) {
				above[of[k]] = v
			}
		}
		left := 0.0
		l.Bays = make([]BayLeft, len(day.Bays))
		for i := len(day.Bays) - 1; i >= 0; i-- {
			b := day.Bays[i]
			fill, m2 := max(0, b.Volume-above[i]), b.Shape.Area()
			left += fill / l.Unit.SI() * (1 + l.Lost)
			l.Bays[i] = BayLeft{Number: b.Number, Area: m2 / l.AreaUnit.SI(), Wanted: left}
			if m2 > 0 {
				l.Bays[i].Depth = geometry.FromMeters(fill / m2)
			}
		}
		return l, nil
	})
}

// lastLoad lists areas and depths that come up near the end of a pour.
func lastLoad(unit takeoff.Unit, metric bool, lost order.Lost) LastLoad {
	l := LastLoad{Unit: unit, AreaUnit: takeoff.SquareFeet, Lost: lost.Most(), Areas: []float64{10, 20, 30, 40, 50, 75, 100, 150, 200, 300}}
	cell := 1. / 27
	for d := geometry.Length(4); d <= 8; d++ {
		l.Depths = append(l.Depths, d*geometry.Inch)
	}
	l.Depths = append(l.Depths, 10*geometry.Inch, 12*geometry.Inch, 16*geometry.Inch)
	per := geometry.Foot
	if metric {
		l.AreaUnit, l.Areas, cell, per = takeoff.SquareMeters, []float64{1, 2, 3, 4, 5, 7.5, 10, 15, 20, 30}, 1, geometry.Meter
		l.Depths = nil
		for _, d := range []geometry.Length{100, 125, 150, 175, 200, 250, 300, 400} {
			l.Depths = append(l.Depths, d*geometry.Millimeter)
		}
	}
	for _, a := range l.Areas {
		var row []float64
		for _, d := range l.Depths {
			row = append(row, a*float64(d)/float64(per)*cell*(1+l.Lost))
		}
		l.Wanted = append(l.Wanted, row)
	}
	return l
}
