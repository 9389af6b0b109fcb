// Package plane is the one kernel for what lies in a plane: regions with holes,
// what of them lies in one another, which points and lines lie on them, turned
// frames, and an index of boxes.
//
// # Exactness
//
// A Region has its corners on whole nanometers. Whether a point is inside it, on
// its border or outside, which sides cross, which way a corner turns and in which
// order things lie along a line are decided exactly, in 128-bit integers, and
// never by a tolerance. Coordinates may go to 1,000 km, far beyond
// geometry.MaxLength, for all of this to hold.
//
// Where two sides cross, the crossing is rounded to the nanometer, and with it
// every side that passes the rounded place is bent through it: snap rounding
// (J. D. Hobby, Practical segment intersection with finite precision output,
// Computational Geometry 13, 1999). After it no two sides cross but in a common
// corner, so that what Intersect, Union, Subtract and Offset give is exact on the
// snapped sides: no face is lost, none is counted twice, and no border moves by
// more than 0.71 nm. Areas are right to the perimeter times that. What is thinner
// than a nanometer may close up.
//
// Lengths along a slanted line, a Frame and the convex polygons of Vec are
// float64. They are for what is cut by straight lines only, piece by piece: a
// convex polygon cut in two by a line gives two convex polygons whose areas add up
// to it, whatever the last bits are, so that nothing depends on how rounding
// falls. There is no overlay of floating-point polygons here.
package plane
