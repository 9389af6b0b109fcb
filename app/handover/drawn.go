package handover

import (
	"cmp"
	"fmt"
	"strconv"

	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/visit"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
	"haunchbook.example/geometry/drawing/detail"
	"haunchbook.example/geometry/drawing/planview"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/lumber"
	"haunchbook.example/geometry/plan"
	"haunchbook.example/geometry/plane"
)

// Drawn gives what is laid on and under a slab, ready to be drawn. Its plan and its
// name are for whoever draws it to set.
func Drawn(s *takeoff.Slab) planview.Slab {
	loops, top := s.Plan.Loops(), s.Solid.Surface()
	return planview.Slab{
		Layout: &s.Layout, Surface: &top, Underside: planview.UndersideOf(cmp.Or(s.Whole, s.Solid), s.Plan.Field), Foam: planview.CoverOf(s.Foam.Sheets, loops),
		Retarder: planview.CoverOf(s.Retarder.Sheets, nil), // it is turned up at the edges
		Mesh:     planview.CoverOf(s.Layout.Mesh, loops), Frost: &s.Frost,
	}
}

// PoursDrawn gives what of the days of all pours can be drawn.
func PoursDrawn(days []pour.Day, u geometry.Units) *planview.Pour {
	out := &planview.Pour{}
	for _, d := range days {
		p := pourDrawn(d, u)
		out.Lines, out.Bays, out.Pads = append(out.Lines, p.Lines...), append(out.Bays, p.Bays...), append(out.Pads, p.Pads...)
		out.Trucks, out.Reach = p.Trucks, p.Reach
	}
	return out
}

// pourDrawn gives what of a day can be drawn.
func pourDrawn(day pour.Day, u geometry.Units) *planview.Pour {
	out := &planview.Pour{}
	known := map[[2]geometry.Point]bool{}
	border := func(shape plane.Region, lane bool) {
		for _, ring := range shape {
			for k, a := range ring {
				b := ring[(k+1)%len(ring)]
				if known[[2]geometry.Point{a, b}] || known[[2]geometry.Point{b, a}] {
					continue // from the other side
				}
				known[[2]geometry.Point{a, b}] = true
				out.Lines = append(out.Lines, planview.Line{A: a, B: b, Lane: lane})
			}
		}
	}
	for _, s := range day.Lanes {
		border(s.Shape, true)
	}
	for i, b := range day.Bays {
		border(b.Shape, false)
		bay := planview.Bay{Middle: b.Middle, Name: strconv.Itoa(b.Number)}
		if len(b.Shape) > 0 {
			lo, hi := b.Shape[0].Bounds()
			bay.Size = min(hi.X-lo.X, hi.Y-lo.Y)
		}
		if bay.Text = "bay " + bay.Name; b.Station >= 0 && !b.Reached {
			bay.Name, bay.Text = "! "+bay.Name, "! "+bay.Text+": out of reach"
		}
		bay.Takes = fmt.Sprintf("%.1f %s", day.Times[i].Volume, day.Unit)
		if b.Bolts > 0 {
			bay.More += fmt.Sprintf(", bolts: %d", b.Bolts)
		}
		if day.Call.Needed && b.Number == day.Call.Bay {
			bay.More += ", call at " + day.Call.At.String()
		}
		out.Bays = append(out.Bays, bay)
	}
	for _, p := range day.Pads {
		name := p.Mark().String()
		if !p.Level {
			name += " +" + p.Height.Text(u)
		}
		out.Pads = append(out.Pads, planview.Spot{Name: name, At: p.At})
	}
	for i, p := range day.Places {
		out.Trucks = append(out.Trucks, planview.Spot{Name: pour.PlaceMark(i).String(), At: p.At})
		out.Reach = p.Reach
	}
	return out
}

// BarsDrawn gives rows of bars as they are drawn.
func BarsDrawn(rows []Row) (out []detail.Bar) {
	for _, r := range rows {
		out = append(out, detail.Bar{Inset: r.Inset, Depth: r.Depth, Diameter: r.Diameter, Face: r.Face, Bottom: r.Bottom, Top: r.Top})
	}
	return out
}

// Detail gives the section as it is drawn, with bars of a size.
func (s EdgeSection) Detail(of bars.Size) detail.Section {
	out := detail.Section{Under: s.Under, Field: s.Field, Lip: s.Lip, Board: s.Board, Bolt: (*detail.Bolt)(s.Bolt), Mesh: (*detail.FieldSteel)(s.Steel), Said: true}
	if s.Plate != nil {
		out.Plate = s.Plate.Board
	}
	if a := s.Against; a != nil {
		out.Against = &detail.Against{Lower: a.Lower, Thickness: a.Thickness, Curb: a.Curb, Wide: a.Wide, Filled: !a.Doweled, Board: a.Board}
	}
	if s.Foam != nil { // set when the boards are off
		out.Frost, out.Board = s.Foam, lumber.Board{}
	}
	if c := s.Curb; c != nil {
		out.Curb, out.Lip = &detail.Curb{Height: c.Height, Width: c.Width}, plan.Lip{}
		for _, f := range c.Boards {
			out.Curb.Boards = append(out.Curb.Boards, detail.CurbBoard{Board: f.Board, From: f.Up, High: f.Depth})
		}
		for _, r := range c.Bars {
			out.Curb.Bars = append(out.Curb.Bars, detail.Bar{Inset: r.Inset, Depth: r.Depth - c.Height, Diameter: r.Diameter})
		}
		if u := c.Upright; u != nil {
			out.Curb.Upright = &detail.Upright{Inset: u.Inset, Diameter: u.Diameter, Top: u.Top, Low: u.Low}
		}
	}
	out.Bars = BarsDrawn(s.Rows)
	if n := len(out.Bars); n > 0 {
		out.Bars[n-1].Name = of.String() + " bars"
	}
	for _, l := range s.Layers {
		layer := detail.Layer{Name: "gravel", Pattern: drawing.Pebbles, Thickness: l.Thickness, Upper: l.Upper, Lower: l.Lower}
		if l.Kind == takeoff.FoamStock {
			layer.Name, layer.Pattern = "foam", drawing.Slanted
		}
		out.Layers = append(out.Layers, layer)
	}
	return out
}

// Photos gives the photographs of a visit that stand on the plan, ready to be drawn.
func Photos(v visit.Visit) (out []planview.Photo) {
	for n, p := range v.Photos {
		if p.Placed {
			out = append(out, planview.Photo{Mark: visit.Mark(n), At: p.At})
		}
	}
	return out
}
