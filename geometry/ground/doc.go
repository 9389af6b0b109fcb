// Package ground is what the measured ground under a slab says of its concrete. The crew
// shoots the base with a laser; each shot says how far the ground lies above or below what
// the plan has there. Between the shots a surface is laid, separately for the field, for
// the flat bottoms of haunches, for those of pads and strips, and for the slopes, with the
// edges of the dug shape as breaklines. From it come the concrete really needed, how well
// that is known, and where the slab will be thin or fat.
//
// Of how well it is known speaks kriging: shots near each other are alike, how much and how
// far is read off the shots themselves (see Krige). Where nothing was shot, the plan holds.
package ground
