package estimate

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
)

// Measure gives what one unit of the price counts, for jobs in u: "ft" of a price by
// length; "" for the unit as sold.
func (b By) Measure(u geometry.Units) string {
	names, ok := map[By][2]string{
		ByLength: {"ft", "m"}, ByArea: {"ft²", "m²"}, ByVolume: {"board foot", "m³"}, ByWeight: {"lb", "kg"},
	}[b]
	switch {
	case !ok:
		return ""
	case u == geometry.Millimeters:
		return names[1]
	}
	return names[0]
}

// of gives how much of the measure is in one piece of a thing; false where the thing
// has none.
func (b By) of(id takeoff.ID, u geometry.Units) (decimal.Decimal, bool) {
	foot, inch := decimal.NewFromInt(int64(geometry.Foot)), decimal.NewFromInt(int64(geometry.Inch))
	if u == geometry.Millimeters {
		foot, inch = decimal.NewFromInt(int64(geometry.Meter)), decimal.NewFromInt(int64(geometry.Meter))
	}
	length := decimal.NewFromInt(int64(id.Length))
	area := decimal.NewFromInt(int64(id.Width)).Mul(length)
	var n decimal.Decimal
	switch b {
	case ByLength:
		n = length.Div(foot)
	case ByArea:
		n = area.Div(foot.Mul(foot))
	case ByVolume:
		n = area.Mul(decimal.NewFromInt(int64(id.Thickness))).Div(foot.Mul(foot).Mul(inch))
	case ByWeight:
		n = weight(id, u).Mul(length)
		if id.Kind == takeoff.MeshStock {
			n = weight(id, u).Mul(area).Div(foot)
		}
		n = n.Div(foot)
	}
	return n, n.IsPositive()
}

// pound is a pound in kilograms: international pound, 1959; NIST SP 811.
var pound = decimal.RequireFromString("0.45359237")

// weight gives what a foot or meter of a bar weighs, ASTM A615/A615M Table 1 or ISO 6935-2, or a
// square foot or meter of mesh, ASTM A1064/A1064M, in pounds or kilograms; 0 of
// anything else.
func weight(id takeoff.ID, u geometry.Units) decimal.Decimal {
	metric := u == geometry.Millimeters
	if id.Kind == takeoff.MeshStock {
		style, _ := cover.MeshNamed(id.Style)
		w := decimal.NewFromFloat(style.PerSheet).Div(hundred)
		if metric { // from lb/ft²
			foot := decimal.NewFromInt(int64(geometry.Foot)).Div(decimal.NewFromInt(int64(geometry.Meter)))
			w = w.Mul(pound).Div(foot.Mul(foot))
		}
		return w
	}
	if metric {
		return decimal.NewFromFloat(id.Bar.PerMeter())
	}
	return decimal.NewFromFloat(id.Bar.PerFoot())
}

// measured prices a piece by its length, area, volume or weight.
func (l *Line) measured(it Item, u geometry.Units) {
	unit := it.By.Measure(u)
	n, ok := it.By.of(l.ID, u)
	if !ok {
		l.Unpriced, l.Price = true, decimal.Zero
		l.show("No size", fmt.Sprintf("the list has a price for each %s, and the takeoff line has nothing to count by it", unit), "", "")
		return
	}
	l.Price = n.Mul(it.Price.To).Round(moneyPlaces)
	l.show("Price of a piece", fmt.Sprintf("%s %s × %s per %s", n.Round(4), unit, it.Price.To, unit), l.Price.StringFixed(moneyPlaces), "")
}

// alike tells whether an item has one price for things that are not bought at one:
// foam of any thickness, mesh of any style, rolls of any size.
func (it Item) alike() bool {
	w := it.What
	sized := it.By != ByUnit || w.Width != 0 && w.Length != 0
	long := it.By != ByUnit || w.Length != 0
	switch w.Kind {
	case takeoff.MeshStock:
		return !sized || w.Style == "" && it.By != ByWeight
	case takeoff.FoamStock, takeoff.FrostStock:
		return !sized || w.Thickness == 0 && it.By != ByVolume
	case takeoff.RetarderStock:
		return !sized || w.Mil == 0
	case takeoff.AnchorBolts:
		return w.Diameter == 0 || w.Length == 0 || w.Shape == ""
	case takeoff.BarStock:
		return !long || w.Bar == 0 && it.By != ByWeight
	case takeoff.FormBoards, takeoff.SillPlates:
		return !long || w.Size == ""
	}
	return false
}
