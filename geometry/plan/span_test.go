package plan

import (
	"strings"
	"testing"

	"haunchbook.example/geometry"
)

// A slab that reaches for miles was written in another unit than meant: it is told so,
// with the corner, before anything is worked out; one at the limit is sound.
func TestSpan(t *testing.T) {
	const ft, m, mm = geometry.Foot, geometry.Meter, geometry.Millimeter
	corners := func(at ...geometry.Length) Plan {
		p := Plan{Field: 6 * geometry.Inch}
		for i := 0; i < len(at); i += 2 {
			p.Outline = append(p.Outline, Edge{At: geometry.Point{X: at[i], Y: at[i+1]}})
		}
		return p
	}
	for _, c := range []struct {
		name string
		p    Plan
		u    geometry.Units
		want string
	}{
		{"meters for mm", corners(0, 0, 9999*m, 0, 40*ft, 30*ft, 0, 30*ft), geometry.FeetInches, "outline[1].at: found a corner at 32805'-1 7/16\", 0\", which makes the slab 6.2 miles long; did you mean mm? A slab reaches 2000'-0\" at most"},
		{"metric", corners(0, 0, 6*m, 0, 6*m, 9000*m, 0, 4*m), geometry.Millimeters, "outline[2].at: found a corner at 6000 mm, 9000000 mm, which makes the slab 9.0 km long; did you mean mm? A slab reaches 609600 mm at most"},
		{"feet for inches", corners(0, 0, 40*ft, 0, 40*ft, 30*ft, 0, 2400*ft), geometry.FeetInches, "outline[3].at: found a corner at 0\", 2400'-0\", which makes the slab 2400'-0\" long; did you mean inches? A slab reaches 2000'-0\" at most"},
		{"to the left", corners(-9999*ft, 0, 40*ft, 0, 40*ft, 30*ft, 0, 30*ft), geometry.FeetInches, "outline[0].at: found a corner at -9999'-0\", 0\", which makes the slab 1.9 miles long; did you mean inches?"},
		{"at the limit", corners(0, 0, MaxSpan, 0, MaxSpan, MaxSpan, 0, MaxSpan), geometry.FeetInches, ""},
		{"just beyond", corners(0, 0, MaxSpan+mm, 0, MaxSpan, MaxSpan, 0, MaxSpan), geometry.FeetInches, "outline[1].at: found"},
	} {
		got := c.p.Validate(c.u).Error()
		if c.want == "" && got != "" || !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q; want %q", c.name, got, c.want)
		}
	}
}
