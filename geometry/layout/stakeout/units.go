package stakeout

import "haunchbook.example/geometry"

const (
	inch = geometry.Inch
	foot = geometry.Foot
)
