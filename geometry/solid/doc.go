// Package solid computes the concrete of a plan: the exact volume under a depth
// field, its parts, and the shape of its underside.
//
// # Depth
//
// At every point of the slab the depth below the top is the greatest of the
// field's thickness and of the depths of the thickenings there: the haunch of
// each edge, pads, strips and run-outs. The volume is the integral of the depth
// over the slab. Length times section does not give it: at an outside corner it
// counts the overlap of two haunches twice, at an inside corner it falls short,
// and on a narrow slab the haunches of opposite edges overlap.
//
// An edge's haunch is the strip swept inward from the edge, or from the span of
// it that has the section, by the section's reach. It ends
//
//   - square, on the perpendicular, at an outside corner, at a door jamb where
//     the section changes, and at an inside corner whose other edge has none;
//   - on the bisector, at an inside corner of two haunched edges, also when
//     their reaches differ;
//   - at the outline and at holes: a part of the strip counts only where it is
//     connected to its edge within strip and slab, so that a haunch does not
//     reappear beyond a notch.
//
// A run-out, where a door asks for it, carries the deeper section on beyond the
// jamb, no deeper than a bottom that rises in a straight line to the shallower
// section's. A pad is a frustum; a strip is two haunches back to back along each
// leg of its path.
//
// # Algorithm
//
// Each thickening is cut to the slab by a sweep from its base inward (see
// sweeper.within) into trapezoids, and each of these lies between two stations
// of the section, so that its depth is one plane. What is left is the upper
// envelope of convex pieces of planes, which envelope finds by booking, for each
// two pieces that overlap, each half of their common part as lost to the
// shallower one, and then taking from each piece what it lost.
//
// Every step works on convex polygons and cuts them by lines; a cut parts a
// convex polygon in two whose areas add up to it, whatever the signs in the last
// bit. There is no graph of faces whose topology rounding could break. Compare
// the lower envelopes of Sharir and Agarwal, Davenport-Schinzel Sequences and
// Their Geometric Applications, 1995, which carry such a graph; the sections of
// slabs overlap only near by, so that the simple way is also the fast one.
//
// With n edges whose reach meets a bounded number of others, an index of boxes
// makes all of it O(n) after O(n log n) sorts. Where all k pieces overlap each
// other it is O(k²) pairs.
//
// # Tolerance
//
// Coordinates are whole nanometers, exact in float64, and are taken from a corner
// of the plan's box. Stretches below a nanometer and areas below 1e-12 m² are
// dropped, and depths within 1e-12 m tie. Volumes agree with an exact-arithmetic
// program (testdata/exact/cgal/reference.cpp) to 1e-9 of their value on all kept
// plans, to 3e-10 in the worst.
package solid
