package takeoff_test

import (
	"slices"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout"
	"haunchbook.example/geometry/layout/cutlist"
	"haunchbook.example/geometry/layout/joints"
	"haunchbook.example/geometry/layout/rule"
	"haunchbook.example/geometry/plan"
)

// Tied dowels are cut from bars, sliding ones and plates are bought; what each does is said once.
func TestDowelsTieOrSlide(t *testing.T) {
	for kind, want := range map[joints.Kind]struct {
		listed, not takeoff.Kind
		cut         bool
		says        string
	}{
		joints.Tied:    {takeoff.DowelBars, takeoff.SlideDowels, true, "Dowels tie the slabs"},
		joints.Sliding: {takeoff.SlideDowels, takeoff.DowelBars, false, "Dowels slide"},
		joints.Plates:  {takeoff.PlateDowels, takeoff.DowelHoles, false, "Dowels slide"},
	} {
		p := building(20*foot, 16*foot)
		p.Outline[1].Joint, p.Outline[1].Wall = true, ""
		p.Outline[3].Joint, p.Outline[3].Wall = true, ""
		s := takeoff.Default()
		s.Place.Dowels.Kind = kind
		off, err := takeoff.Of(t.Context(), []plan.Plan{p}, s, geometry.FeetInches)
		if err != nil {
			t.Fatal(err)
		}
		l, ok := off.Line(want.listed)
		if n := len(off.Slabs[0].Layout.Dowels); !ok || n == 0 || l.Value != float64(n) {
			t.Errorf("%v: %d dowels, listed %v", kind, n, l.Value)
		}
		if _, ok := off.Line(want.not); ok {
			t.Errorf("%v: %s is listed too", kind, want.not)
		}
		cut := slices.ContainsFunc(off.Lists.Cuts.Stock, func(b cutlist.Bar) bool {
			return slices.ContainsFunc(b.Pieces, func(p cutlist.Piece) bool { return p.Mark == layout.DowelMark })
		})
		if cut != want.cut {
			t.Errorf("%v: cut from bars: %v", kind, cut)
		}
		var said []string
		for _, f := range off.Findings {
			if f.Rule.Source == "ACI 302.1R; UFC 3-320-06A" && f.Severity == rule.Note {
				said = append(said, f.Rule.Name)
			}
		}
		if !slices.Equal(said, []string{want.says}) {
			t.Errorf("%v: says %q", kind, said)
		}
	}
}
