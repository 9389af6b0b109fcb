// Package pour plans the day of the pour: what the weather asks for, whether the
// mix is fit for its place, the loads to order and when, the lanes and bays in
// which the slabs are placed with their running yards, and what may be done with
// them afterwards.
//
// All of it is pure: slabs with their solids, a specification and the order of the
// takeoff go in; texts, times and positions come out. Ranges are given where the
// trade has no single number, each with its source or as common practice.
package pour
