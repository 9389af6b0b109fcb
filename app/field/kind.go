package field

import "haunchbook.example/geometry"

// Kind is what a field holds, with the unit of a bare number in it.
type Kind uint8

// The kinds. Volumes are in cubic yards for a job in feet and inches, in cubic
// meters for one in millimeters; other units are the same in both.
const (
	Text        Kind = iota
	Switch           // on or off
	Choice           // one of a few names
	Inches           // a length; a bare number is inches, or millimeters in a metric job
	Feet             // a length; a bare number is feet, or millimeters in a metric job
	Point            // a place on the drawing, as two lengths: right and up
	Count            // a whole number
	Number           // a number without a unit
	Percent          // as it is spoken: 10 is 10 %
	PSI              // strength
	Mil              // thickness of sheeting, thousandths of an inch
	Dose             // pounds in a cubic yard
	Density          // short tons in a cubic yard
	Volume           // of concrete
	Rate             // volume in an hour
	Water            // added on the site
	Minutes          //
	Hours            // of work
	Days             //
	Degrees          // of an angle
	Money            // in the currency of the price list
	Temperature      // with its unit
	Speed            // of wind, with its unit
	Time             // of day
	Date             // of the calendar
	Picture          // a PNG or JPEG file in base64
	Part             // holds other fields
	List             // holds things that have fields
)

// kinds tells about each kind: its unit in either system of units, and what it is
// called in the reference.
var kinds = [...]struct {
	us, si, called string
	whole          bool
}{
	Text:        {called: "text"},
	Switch:      {called: "`true` or `false`"},
	Choice:      {called: "choice"},
	Inches:      {called: "length"},
	Feet:        {called: "length"},
	Point:       {called: "point"},
	Count:       {called: "whole number", whole: true},
	Number:      {called: "number"},
	Percent:     {us: "%", si: "%", called: "percent"},
	PSI:         {us: "psi", si: "MPa", called: "psi", whole: true},
	Mil:         {us: "mil", si: "mm", called: "mil", whole: true},
	Dose:        {us: "lb/yd³", si: "kg/m³", called: "lb/yd³"},
	Density:     {us: "ton/yd³", si: "t/m³", called: "ton/yd³"},
	Volume:      {us: "yd³", si: "m³", called: "yd³ or m³"},
	Rate:        {us: "yd³/h", si: "m³/h", called: "yd³/h or m³/h"},
	Water:       {us: "gal", si: "L", called: "gal or L"},
	Minutes:     {us: "min", si: "min", called: "minutes", whole: true},
	Hours:       {us: "h", si: "h", called: "hours"},
	Days:        {us: "days", si: "days", called: "days", whole: true},
	Degrees:     {us: "°", si: "°", called: "degrees"},
	Money:       {called: "amount"},
	Temperature: {us: "°F", si: "°C", called: "temperature"},
	Speed:       {us: "mph", si: "km/h", called: "speed"},
	Time:        {called: "time of day"},
	Date:        {called: "date"},
	Picture:     {called: "picture"},
	Part:        {},
	List:        {called: "list"},
}

// Unit gives the unit of a bare number, "" where there is none to name or, as
// with lengths, it stands in the value.
func (k Kind) Unit(u geometry.Units) string {
	if u == geometry.Millimeters {
		return kinds[k].si
	}
	return kinds[k].us
}

// Length tells whether the kind is one length.
func (k Kind) Length() bool { return k == Inches || k == Feet }

// one gives the length that a bare number counts.
func (k Kind) one(u geometry.Units) geometry.Length {
	if k == Inches {
		return u.Inch()
	}
	return u.Foot()
}

// numeric tells whether the kind is a number, as against a length.
func (k Kind) numeric() bool { return k >= Count && k <= Money }

// Holds tells whether the kind holds other fields.
func (k Kind) Holds() bool { return k == Part || k == List }
