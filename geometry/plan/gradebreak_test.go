package plan

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

// A break drops on the same side of the slab however the slab is turned or mirrored.
func TestBreakFollowsTheSlab(t *testing.T) {
	p := full().Plan
	b := p.Top.Breaks[0]
	low := geometry.Point{X: 5 * foot, Y: foot} // left of it
	if geometry.Orientation(b.From, b.To, low) <= 0 {
		t.Fatal("the corner does not lie where it drops")
	}
	for name, c := range map[string]struct {
		p  Plan
		at geometry.Point
	}{
		"mirrored": {p.Mirror(AcrossX, 12*foot), geometry.Point{X: 19 * foot, Y: foot}},
		"turned":   {p.Rotate(geometry.Point{}, 90), geometry.Point{X: -foot, Y: 5 * foot}},
		"moved":    {p.Translate(geometry.Point{X: foot, Y: foot}), geometry.Point{X: 6 * foot, Y: 2 * foot}},
	} {
		if b := c.p.Top.Breaks[0]; geometry.Orientation(b.From, b.To, c.at) <= 0 || b.Drop != foot/48 {
			t.Errorf("%s: %+v", name, b)
		}
	}
}

// What is no bend of one plane is a fault at its place, which says what would do.
func TestFaultsOfBreaks(t *testing.T) {
	fall := Fall{From: geometry.Point{Y: 20 * foot}, Drop: foot / 6}
	apron := Break{From: geometry.Point{X: 24 * foot, Y: 4 * foot}, To: geometry.Point{Y: 4 * foot}, Drop: foot / 48, Over: foot}
	ramp := Break{From: geometry.Point{Y: 16 * foot}, To: geometry.Point{X: 24 * foot, Y: 16 * foot}, Drop: -foot / 48, Over: foot}
	short, flat := apron, apron
	short.To, flat.Over = short.From, 0
	for _, c := range []struct {
		top         Top
		path, found string
	}{
		{Top{Falls: []Fall{fall}, Breaks: []Break{apron, apron}}, "", ""},
		{Top{Breaks: []Break{ramp}}, "", ""},
		{Top{Falls: []Fall{fall, fall}, Breaks: []Break{apron}}, "top.breaks[0]", "2 falls"},
		{Top{Breaks: []Break{apron, ramp}}, "top.breaks[1].drop", "has an apron"},
		{Top{Breaks: []Break{ramp, apron}}, "top.breaks[0].drop", "has an apron"},
		{Top{Breaks: []Break{short}}, "top.breaks[0].to", "runs from"},
		{Top{Breaks: []Break{flat}}, "top.breaks[0].over", "0"},
	} {
		p := full().Plan
		p.Top = c.top
		fs := p.Validate(geometry.FeetInches)
		switch {
		case c.path == "" && len(fs) > 0, c.path != "" && (len(fs) != 1 || fs[0].Path != c.path || !strings.Contains(fs[0].Found, c.found)):
			t.Errorf("%+v: %v, want one at %s of %q", c.top, fs, c.path, c.found)
		case c.path != "" && (c.path == "top.breaks[0]" || strings.HasSuffix(c.path, ".drop")) && !strings.Contains(fs[0].Want, "slab of its own"):
			t.Errorf("%s: nothing that would do in %q", c.path, fs[0].Want)
		}
	}
}
