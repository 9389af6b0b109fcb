package sheet

import (
	"fmt"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/rule"
)

// lapDetail shows how long bars of a size lie side by side.
type lapDetail struct {
	of      takeoff.Lap
	stagger geometry.Length // clear between laps of neighboring rows; 0 for none
	rule    rule.Rule
	units   geometry.Units
}

// lapDetails gives one for each lap of bars that run on from piece to piece.
func (s *set) lapDetails() []block {
	spec := s.job.Spec.Layout(s.job.Units)
	var out []block
	for _, l := range s.takeoff.Laps() {
		out = append(out, lapDetail{l, spec.Bars.Stagger, spec.Bars.LapRule(), s.job.Units})
	}
	return out
}

const lapTall = 19.0

func (l lapDetail) height(width float64) float64 {
	return titleSkip + lapTall + float64(len(l.text(width)))*leading(sizeFine)
}

func (l lapDetail) title() string {
	if l.of.TopCast {
		return fmt.Sprintf("Lap, No. %d, top rows", l.of.Size)
	}
	return fmt.Sprintf("Lap, No. %d", l.of.Size)
}

func (l lapDetail) text(width float64) []string {
	s := "At least, by " + l.rule.Name + " (" + l.rule.Source + ")."
	if l.of.TopCast {
		s = "Of " + l.of.Text(l.units) + ". " + s
	}
	if l.stagger > 0 {
		s += " Laps of neighboring rows " + l.stagger.Text(l.units) + " clear of each other."
	}
	return wrap(s, width, sizeFine, false)
}

// draw draws the two bars, not to scale.
func (l lapDetail) draw(d *draft, x, top, width float64) float64 {
	d.write(x, top-capHeight*sizeBody*mmPerPoint-0.3, sizeBody, true, l.title())
	top -= titleSkip
	bar := Pen{Width: 0.8, Color: red}
	long := min(width, 66.0)
	y := top - 15.5
	a, b := Point{x + 0.3*long, y}, Point{x + 0.7*long, y}
	d.line(Steel, bar, Point{x, y + 1.3}, Point{b.X, b.Y + 1.3})
	d.line(Steel, bar, a, Point{x + long, y})
	old := d.area
	d.area = rect{x, top - lapTall, x + width, top}
	d.mustBetween(a.add(upward.times(1.8)), b.add(upward.times(1.8)), upward, 3.5, 9, l.of.Length.Text(l.units), neither)
	d.area = old
	top -= lapTall
	for _, t := range l.text(width) {
		d.write(x, top-capHeight*sizeFine*mmPerPoint, sizeFine, false, t)
		top -= leading(sizeFine)
	}
	return top
}
