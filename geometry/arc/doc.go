// Package arc is circular arcs between two points, given by their middle ordinate: how
// far the middle of the arc lies from the middle of its chord. So a crew sets them out
// with a tape, and so a plan keeps them: the ends are its corners, and no center needs to
// lie on a whole nanometer.
//
// Source: the formulas of the circle, Euclid III 35 for the radius: half the chord is the
// mean between the middle ordinate and what is left of the diameter.
package arc
