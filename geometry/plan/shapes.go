package plan

import (
	"fmt"

	"haunchbook.example/geometry"
)

// Shape is a common outline that a few sizes describe.
type Shape struct {
	Name  string
	Sizes []Size
	ring  func(s []geometry.Length) geometry.Ring
	check func(s []geometry.Length) error
}

// Size is one size of a shape.
type Size struct {
	Name  string
	Usual geometry.Length // what a form may start with
}

// Shapes lists the common outlines. The lower left corner of each is the origin.
func Shapes() []Shape {
	const ft = geometry.Foot
	width, length := Size{"Overall width", 24 * ft}, Size{"Overall length", 30 * ft}
	return []Shape{
		{
			Name:  "Rectangle",
			Sizes: []Size{{"Width", 24 * ft}, {"Length", 30 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				return ring(0, 0, s[0], 0, s[0], s[1], 0, s[1])
			},
		},
		{
			Name:  "L",
			Sizes: []Size{width, length, {"Notch width", 8 * ft}, {"Notch length", 10 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				return ring(0, 0, s[0], 0, s[0], s[1]-s[3], s[0]-s[2], s[1]-s[3], s[0]-s[2], s[1], 0, s[1])
			},
			check: func(s []geometry.Length) error {
				return firstError(fits("Notch width", s[2], "overall width", s[0]), fits("Notch length", s[3], "overall length", s[1]))
			},
		},
		{
			Name:  "T",
			Sizes: []Size{width, length, {"Stem width", 12 * ft}, {"Stem length", 12 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				l := (s[0] - s[2]) / 2
				return ring(l, 0, l+s[2], 0, l+s[2], s[3], s[0], s[3], s[0], s[1], 0, s[1], 0, s[3], l, s[3])
			},
			check: func(s []geometry.Length) error {
				return firstError(fits("Stem width", s[2], "overall width", s[0]), fits("Stem length", s[3], "overall length", s[1]))
			},
		},
		{
			Name:  "U",
			Sizes: []Size{width, length, {"Court width", 8 * ft}, {"Court length", 12 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				l := (s[0] - s[2]) / 2
				return ring(0, 0, s[0], 0, s[0], s[1], l+s[2], s[1], l+s[2], s[1]-s[3], l, s[1]-s[3], l, s[1], 0, s[1])
			},
			check: func(s []geometry.Length) error {
				return firstError(fits("Court width", s[2], "overall width", s[0]), fits("Court length", s[3], "overall length", s[1]))
			},
		},
		{
			Name:  "Cut corner",
			Sizes: []Size{width, length, {"Cut along width", 4 * ft}, {"Cut along length", 4 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				return ring(0, 0, s[0], 0, s[0], s[1]-s[3], s[0]-s[2], s[1], 0, s[1])
			},
			check: func(s []geometry.Length) error {
				return firstError(fits("Cut along width", s[2], "overall width", s[0]), fits("Cut along length", s[3], "overall length", s[1]))
			},
		},
		{
			Name:  "Bay",
			Sizes: []Size{width, {"Depth without bay", 20 * ft}, {"Bay width at the wall", 10 * ft}, {"Bay front width", 6 * ft}, {"Bay projection", 2 * ft}},
			ring: func(s []geometry.Length) geometry.Ring {
				l, f := (s[0]-s[2])/2, (s[0]-s[3])/2
				return ring(0, 0, l, 0, f, -s[4], f+s[3], -s[4], l+s[2], 0, s[0], 0, s[0], s[1], 0, s[1])
			},
			check: func(s []geometry.Length) error {
				if s[3] > s[2] {
					return fmt.Errorf("the bay front width must be at most the width at the wall")
				}
				return fits("Bay width at the wall", s[2], "overall width", s[0])
			},
		},
	}
}

// Ring gives the outline, counter-clockwise, for one length per size. The error
// names the size that does not do.
func (s Shape) Ring(sizes []geometry.Length) (geometry.Ring, error) {
	if len(sizes) != len(s.Sizes) {
		return nil, fmt.Errorf("%s takes %s; found %d", s.Name, count(len(s.Sizes), "size"), len(sizes))
	}
	for i, l := range sizes {
		if l <= 0 || l > geometry.MaxLength/2 {
			return nil, fmt.Errorf("%s must be more than 0 and at most 5 km", s.Sizes[i].Name)
		}
	}
	if s.check != nil {
		if err := s.check(sizes); err != nil {
			return nil, err
		}
	}
	return s.ring(sizes), nil
}

func fits(name string, l geometry.Length, in string, all geometry.Length) error {
	if l >= all {
		return fmt.Errorf("%s must be less than the %s", name, in)
	}
	return nil
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func ring(xy ...geometry.Length) geometry.Ring {
	r := make(geometry.Ring, 0, len(xy)/2)
	for i := 0; i+1 < len(xy); i += 2 {
		r = append(r, geometry.Point{X: xy[i], Y: xy[i+1]})
	}
	return r
}
