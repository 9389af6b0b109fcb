package sheet

import (
	"fmt"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bolts"
	"haunchbook.example/geometry/lumber"
)

// plateDetail shows the end of a sill plate from above with its first bolt.
type plateDetail struct {
	spec  bolts.Spec
	plate lumber.Board
	units geometry.Units
}

// inset gives how far the bolt stands from the face.
func (p plateDetail) inset() geometry.Length {
	if p.spec.Offset > 0 {
		return p.spec.Offset
	}
	return p.plate.Width / 2
}

func (p plateDetail) length() geometry.Length { return p.spec.End + 6*geometry.Inch }

// Room round the plate for its measures, mm.
const (
	plateLeft  = 14.0
	plateRight = 8.0
	plateUnder = 13.0
	plateAbove = 3.0
)

func (p plateDetail) scale(width float64) Scale {
	s, _ := fit(detailScales(p.units), p.length(), p.plate.Width, rect{0, 0, width - plateLeft - plateRight, 40})
	return s
}

func (p plateDetail) text(width float64) []string {
	return wrap(fmt.Sprintf("From each end of a piece %s to %s; bolts at most %s apart, 2 at least in a piece.",
		p.spec.EndMin.Text(p.units), p.spec.EndMax.Text(p.units), p.spec.Spacing.Text(p.units)), width, sizeFine, false)
}

func (p plateDetail) height(width float64) float64 {
	return titleSkip + float64(len(p.text(width)))*leading(sizeFine) + plateAbove + p.scale(width).paperOf(p.plate.Width) + plateUnder
}

func (p plateDetail) draw(d *draft, x, top, width float64) float64 {
	bottom := top - p.height(width)
	s, u := p.scale(width), p.units
	d.write(x, top-3.2, sizeBody, true, "Bolt in plate, from above")
	d.writeRight(x+width, top-3.2, sizeFine, false, s.Name)
	top -= titleSkip
	for _, t := range p.text(width) {
		d.write(x, top-capHeight*sizeFine*mmPerPoint, sizeFine, false, t)
		top -= leading(sizeFine)
	}
	w, h := s.paperOf(p.length()), s.paperOf(p.plate.Width)
	face := top - plateAbove - h // the plate's outer side lies on it
	left := x + plateLeft
	d.line(Plates, penRule, Point{left + w, face + h}, Point{left, face + h}, Point{left, face}, Point{left + w, face})
	d.breakLine(Point{left + w, face + h}, Point{left + w, face})
	d.line(Slab, penHeavy, Point{left - 6, face}, Point{left, face})
	bolt := Point{left + s.paperOf(p.spec.End), face + s.paperOf(p.inset())}
	half := s.paperOf(p.spec.Washer) / 2
	if half > 0 {
		d.ring(Bolts, penRule, white, bolt.add(Point{-half, -half}), bolt.add(Point{half, -half}), bolt.add(Point{half, half}), bolt.add(Point{-half, half}))
	}
	d.circle(Bolts, penBolt, white, bolt, s.paperOf(p.spec.Diameter)/2)
	old := d.area
	d.area = rect{x, bottom, x + width, top}
	d.mustBetween(Point{left, face}, Point{bolt.X, face}, down, 4, 12, p.spec.End.Text(u), neither)
	d.mustBetween(Point{left, face}, Point{left, bolt.Y}, toLeft, 4, 12, p.inset().Text(u), atA)
	d.area = old
	return bottom
}
