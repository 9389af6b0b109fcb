package cover

import (
	"testing"

	"haunchbook.example/geometry"
)

// By hand, in feet; each case says what proves the count, or why nothing does.
func TestBuy(t *testing.T) {
	const foot = geometry.Foot
	type pieces struct {
		n             int
		width, length float64
	}
	for _, c := range []struct {
		name          string
		width, length geometry.Length
		want          []pieces
		count         int
		least         bool
	}{
		{"strips of a roll, one behind the other", 20 * foot, 100 * foot, []pieces{{4, 20, 25}}, 1, true},
		{"a strip more", 20 * foot, 100 * foot, []pieces{{4, 20, 25}, {1, 1, 1}}, 2, true}, // by area
		// Each is more than half as wide as the roll and cannot be turned: three of 40 ft
		// take two rolls, though their area is that of 0.72.
		{"narrow strips that cannot lie side by side", 20 * foot, 100 * foot, []pieces{{3, 12, 40}}, 2, true},
		// 2 ft 1 in by 4 ft from sheets of 4 by 8: as they lie one strip a sheet, two of 4 ft
		// each, and five sheets; turned, three go on a sheet, and four sheets do.
		{"pieces that would be fewer turned", 4 * foot, 8 * foot, []pieces{{10, 25.0 / 12, 4}}, 5, false},
		{"nothing", 4 * foot, 8 * foot, nil, 0, true},
	} {
		var all []Sheet
		for _, p := range c.want {
			for range p.n {
				all = append(all, Sheet{Width: geometry.Length(p.width * float64(foot)), Length: geometry.Length(p.length * float64(foot))})
			}
		}
		if n, least := Buy(all, Ply{Width: c.width, Length: c.length}); n != c.count || least != c.least {
			t.Errorf("%s: %d, proven %v, want %d, %v", c.name, n, least, c.count, c.least)
		}
	}
}
