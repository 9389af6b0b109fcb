package takeoff_test

import (
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// building is a rectangle with framed walls and an edge section, 12 in deep.
func building(w, h geometry.Length) plan.Plan {
	p := rectangle(w, h, "Edge")
	for i := range p.Outline {
		p.Outline[i].Wall = "2x6"
	}
	return p
}

// said gives how grave what is found by a source is, and its texts; none is "".
func said(fs []rule.Finding, source string) (how, text string) {
	for _, f := range fs {
		if strings.HasPrefix(f.Rule.Source, source) {
			how, text = f.Severity.String(), text+f.Text
		}
	}
	return how, text
}

// Each rule at its limit, on this side of it and beyond.
func TestRules(t *testing.T) {
	type change = func(p *plan.Plan, s *takeoff.Spec)
	const vehicle = 16 * foot
	door := func(p *plan.Plan) {
		p.Outline[0].Doors = []plan.Door{{Kind: plan.Overhead, From: 2 * foot, Width: vehicle}}
	}
	falls := func(from, to geometry.Point) change {
		return func(p *plan.Plan, _ *takeoff.Spec) {
			door(p)
			p.Top.Falls = []plan.Fall{{From: from, To: to, Drop: 3 * inch}}
		}
	}
	rows := func(high bars.Seismic, size bars.Size, rows ...bars.Row) change {
		return func(_ *plan.Plan, s *takeoff.Spec) {
			s.Place.Bars.Seismic, s.Place.Bars.Size, s.Place.Bars.Rows = high, size, rows
		}
	}
	top, low, mid := bars.Row{Face: 3 * inch, Top: 2 * inch}, bars.Row{Face: 3 * inch, Bottom: 3 * inch}, bars.Row{Face: 3 * inch, Bottom: 6 * inch}
	far := mid
	far.Face = 8 * inch
	for _, c := range []struct {
		name   string
		source string
		want   string // severity
		change change
	}{
		{"strength at the least", "IRC Table R402.2", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Mix.Strength = 2500 }},
		{"strength below", "IRC Table R402.2", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Mix.Strength = 2499 }},
		{"thickness at the least", "IRC R506.1", "", func(p *plan.Plan, _ *takeoff.Spec) { p.Field = 7 * inch / 2 }},
		{"thickness below", "IRC R506.1", "limit", func(p *plan.Plan, _ *takeoff.Spec) { p.Field = 55 * inch / 16 }},
		{"no retarder", "IRC R506.2.3", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Retarder = 0 }},
		{"retarder of 5 mil", "IRC R506.2.3", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Retarder = 5 }},
		{"of 6, enough in older editions", "IRC R506.2.3", "note", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Retarder = 6 }},
		{"of 9", "IRC R506.2.3", "note", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Retarder = 9 }},
		{"of 10", "IRC R506.2.3", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Retarder = 10 }},

		{"no base above grade", "IRC R506.2.2", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above, s.Base.Gravel = 0, 0 }},
		{"no base below grade", "IRC R506.2.2", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above, s.Base.Gravel = -inch, 0 }},
		{"thin base below grade", "IRC R506.2.2", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above, s.Base.Gravel = -inch, 63*inch/16 }},
		{"4 in of base below grade", "IRC R506.2.2", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above, s.Base.Gravel = -inch, 4*inch }},
		{"8 in of fill", "IRC R506.2.1", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above = (6 + 4 + 8) * inch }},
		{"more than 8 in of fill", "IRC R506.2.1", "note", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above = (6+4+8)*inch + inch/16 }},
		{"24 in of fill and gravel", "IRC R506.2.1", "note", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above = (6 + 24) * inch }},
		{"more than that", "IRC R506.2.1", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above = (6+24)*inch + inch/16 }},
		{"25 in of gravel", "IRC R506.2.1", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Gravel = 25 * inch }},
		{"edges on gravel", "IRC R403.1,", "note", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Under = takeoff.FieldAndHaunches }},
		{"edges on the ground", "IRC R403.1,", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Under = takeoff.FieldOnly }},

		{"edges 12 in below the ground", "IRC R403.1.4", "", func(p *plan.Plan, _ *takeoff.Spec) { p.Sections[0].Depth = 18 * inch }},
		{"deeper", "IRC R403.1.4", "", func(p *plan.Plan, _ *takeoff.Spec) { p.Sections[0].Depth = 20 * inch }},
		{"less deep", "IRC R403.1.4", "limit", func(p *plan.Plan, _ *takeoff.Spec) { p.Sections[0].Depth = 18*inch - inch/16 }},
		{"set level with the ground", "IRC R403.1.4", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Above = 0 }},
		{"on a slab of 600 ft², what it is not stated", "IRC R403.1.4", "note", func(p *plan.Plan, s *takeoff.Spec) {
			*p, s.Base.Building = building(30*foot, 20*foot), takeoff.AnyBuilding
		}},
		{"of more", "IRC R403.1.4", "limit", func(p *plan.Plan, s *takeoff.Spec) {
			*p, s.Base.Building = building(30*foot+inch, 20*foot), takeoff.AnyBuilding
		}},
		{"beside an old slab", "IRC R403.1.4", "limit", func(p *plan.Plan, s *takeoff.Spec) {
			p.Outline[2].Joint, s.Base.Building = true, takeoff.AnyBuilding
		}},
		{"a patio, no building", "IRC R403.1.4", "", func(p *plan.Plan, _ *takeoff.Spec) {
			for i := range p.Outline {
				p.Outline[i].Wall = ""
			}
		}},
		{"an accessory building of 480 ft²", "IRC R403.1.4", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Base.Building = takeoff.AccessoryBuilding }},
		{"of 600 ft²", "IRC R403.1.4", "", func(p *plan.Plan, s *takeoff.Spec) {
			*p, s.Base.Building = building(30*foot, 20*foot), takeoff.AccessoryBuilding
		}},
		{"of more", "IRC R403.1.4", "limit", func(p *plan.Plan, s *takeoff.Spec) {
			*p, s.Base.Building = building(30*foot+inch, 20*foot), takeoff.AccessoryBuilding
		}},

		{"people only", "IRC R309.1", "", func(*plan.Plan, *takeoff.Spec) {}},
		{"a level garage", "IRC R309.1", "limit", func(p *plan.Plan, _ *takeoff.Spec) { door(p) }},
		{"falls to the door", "IRC R309.1", "", falls(geometry.Point{Y: 20 * foot}, geometry.Point{})},
		{"falls away from it", "IRC R309.1", "limit", falls(geometry.Point{}, geometry.Point{Y: 20 * foot})},
		{"a jamb 1/4 in over the lowest corner", "IRC R309.1", "", falls(geometry.Point{X: 24 * foot}, geometry.Point{})}, // 2 of 24 ft, of 3 in
		{"falls to a drain", "IRC R309.1", "", func(p *plan.Plan, s *takeoff.Spec) {
			falls(geometry.Point{}, geometry.Point{Y: 20 * foot})(p, s)
			h := plan.Hole{}
			for _, q := range [][2]geometry.Length{{11, 19}, {11, 20}, {12, 20}, {12, 19}} {
				h.Loop = append(h.Loop, plan.Edge{At: geometry.Point{X: q[0] * foot, Y: q[1]*foot - inch}})
			}
			p.Holes = []plan.Hole{h}
		}},

		{"seismic category not stated", "IRC R403.1.3.3", "note", rows(bars.AnySeismic, 4, low)},
		{"a low one", "IRC R403.1.3.3", "", rows(bars.LowSeismic, 4, low)},
		{"two at the bottom", "IRC R403.1.3.3", "limit", rows(bars.HighSeismic, 4, low, far)},
		{"one at the top, one at the bottom", "IRC R403.1.3.3", "", rows(bars.HighSeismic, 4, low, top)},
		{"the same, too thin", "IRC R403.1.3.3", "limit", rows(bars.HighSeismic, 3, low, top)},
		{"one No. 4 in the middle third", "IRC R403.1.3.3", "limit", rows(bars.HighSeismic, 4, mid)},
		{"two No. 4 there", "IRC R403.1.3.3", "", rows(bars.HighSeismic, 4, mid, far)},
		{"one No. 5 there", "IRC R403.1.3.3", "", rows(bars.HighSeismic, 5, mid)},
		{"washers of 3 in", "IRC R602.11.1", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Place.Bars.Seismic = bars.HighSeismic }},
		{"smaller washers", "IRC R602.11.1", "limit", func(_ *plan.Plan, s *takeoff.Spec) {
			s.Place.Bars.Seismic, s.Place.Bolts.Washer = bars.HighSeismic, 47*inch/16
		}},
		{"smaller ones in a low category", "IRC R602.11.1", "", func(_ *plan.Plan, s *takeoff.Spec) {
			s.Place.Bars.Seismic, s.Place.Bolts.Washer = bars.LowSeismic, 2*inch
		}},

		{"grade 40 of No. 6", "ASTM A615", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Place.Bars.Grade, s.Place.Bars.Size = 40, 6 }},
		{"grade 40 of No. 7", "ASTM A615", "limit", func(_ *plan.Plan, s *takeoff.Spec) { s.Place.Bars.Grade, s.Place.Bars.Size = 40, 7 }},
		{"grade 60 of No. 7", "ASTM A615", "", func(_ *plan.Plan, s *takeoff.Spec) { s.Place.Bars.Size = 7 }},

		{"no dowels", "ACI 302.1R; UFC", "", func(*plan.Plan, *takeoff.Spec) {}},
		{"dowels", "ACI 302.1R; UFC", "note", func(p *plan.Plan, _ *takeoff.Spec) { p.Outline[2].Joint = true }},
		{"no thickened strip", "IRC R403.1.6", "", func(*plan.Plan, *takeoff.Spec) {}},
		{"a thickened strip", "IRC R403.1.6", "note", func(p *plan.Plan, _ *takeoff.Spec) {
			p.Strips = []plan.Strip{{Path: []geometry.Point{{X: 12 * foot, Y: 3 * foot}, {X: 12 * foot, Y: 17 * foot}}, Bottom: foot, Depth: 10 * inch}}
		}},
	} {
		p, s := building(24*foot, 20*foot), takeoff.Default()
		s.Base.Building = takeoff.OtherBuilding
		c.change(&p, &s)
		how, text := said(take(t, p, s, geometry.FeetInches).Findings, c.source)
		if how != c.want {
			t.Errorf("%s: %q of %s (%s), want %q", c.name, how, c.source, text, c.want)
		}
	}
}

// Frost asks nothing of a small accessory building, nor does its line.
func TestSmallAccessoryBuildingNeedsNoFrostDepth(t *testing.T) {
	p, b := building(24*foot, 20*foot), takeoff.Default().Base
	s := take(t, p, takeoff.Default(), geometry.FeetInches).Slabs[0]
	for what, short := range map[takeoff.Building]int{takeoff.AnyBuilding: 1, takeoff.OtherBuilding: 1, takeoff.AccessoryBuilding: 0} {
		b.Building = what
		got := takeoff.FrostLineOf(s.Plan, s.Solid, b, 36*inch, nil).Reaches(s.Plan)
		if len(got) != short || short > 0 && (got[0].Short() != (36+6-12)*inch || got[0].Section != "Edge") {
			t.Errorf("%s: %+v", what, got)
		}
	}
}
