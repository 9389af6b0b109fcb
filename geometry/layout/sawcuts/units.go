package sawcuts

import "haunchbook.example/geometry"

const (
	inch = geometry.Inch
	foot = geometry.Foot
)
