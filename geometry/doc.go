// Package geometry holds the plane geometry that everything else stands on:
// lengths in whole nanometers as people write and read them, points, rings of
// corners, and the exact predicates that decide whether a ring is a polygon.
//
// X runs right and Y up. Coordinates are integers, so that sidedness, crossing
// and equality are decided exactly, in 128-bit arithmetic, and never by a
// tolerance. What has to be irrational (a slanted length, an area's decimal)
// is float64 or rounded to the nearest nanometer, and says so.
package geometry
