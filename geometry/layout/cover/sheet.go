package cover

import "haunchbook.example/geometry"

// Sheet is a rectangular piece of mesh, foam or vapor retarder on the plan, before
// it is trimmed to the outline.
type Sheet struct {
	Corners       [4]geometry.Point // Width runs from the first to the last
	Width, Length geometry.Length   // as cut: on a slope, along it
	Roll          bool              // cut from a roll
}

// Area gives the sheet's area, in m².
func (s Sheet) Area() float64 { return s.Width.Meters() * s.Length.Meters() }
