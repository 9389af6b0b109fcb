// Package drawing is a drawing as a list: lines, areas, circles, symbols, labels
// and dimensions on named layers in named styles, and the one way in which labels
// and dimensions find their places, on a screen as on printed sheets.
//
// # Making one
//
// A Drawing holds geometry of the plan, in geometry.Point: exact, and without a
// scale. A detail such as a section has a plan of its own, true to size. What has
// a size on paper alone (a symbol, the distance of a line from its path, the
// height of letters) is in millimeters on paper.
//
//	var d drawing.Drawing
//	d.Ring(drawing.Pencil{Layer: drawing.Outline, Style: drawing.EdgeLine}, corners...)
//	d.Mark(drawing.Pencil{Layer: drawing.Bolts, Style: drawing.BoltLine}, drawing.BoltMark, at, geometry.Point{})
//	d.Label(drawing.Label{Layer: drawing.Bolts, Style: drawing.BoltLine, Of: "Bolt", At: at, Start: 1.7, Near: 5, Reach: 25}, []string{"12"})
//	d.Dimension(drawing.Dimension{Of: "Side 1–2", A: a, B: b}, drawing.Chain{Stops: stops, Texts: texts})
//
// A style says what a line is: EdgeLine, BarLine. A Pens gives it its weight and
// dashes and says whether text keeps off it (then it is hard) or breaks it (soft).
// Its color is whoever renders it to say.
//
// Plans are drawn by package planview, sections, bends and cutting diagrams by
// package detail; whoever shows a job seldom makes a drawing by hand.
//
// # Placing it
//
// Place sets a drawing on a sheet: a View maps the plan to it, labels and
// dimensions keep within Area, strokes are cut to Clip. Units of the sheet are
// millimeters on paper and pixels on a screen; Unit is how many of them a
// millimeter has.
//
//	area := drawing.Rect{X0: 10, Y0: 35, X1: 300, Y1: 205}
//	p := drawing.Place(d, drawing.Options{View: drawing.ViewIn(drawing.Ratio(48), lo, hi, area), Area: area, Fonts: fonts})
//
// The heaviest is placed first. A label tries its spots, then places round its
// own, from some distance on with a leader. A dimension tries tiers beside what it
// measures, the other side of it, and tiers farther out; a measure too short for
// its text gets it on a leader. What finds no room becomes a numbered mark on the
// drawing and a Row, which is the caller's to print in a table beside it: nothing
// is lost, cut short, or stands on anything else. On a screen (Manner.Thin) what
// finds no room is left out instead, for zooming in brings it back, and counted in
// Thinned.
//
// A plan that is split over sheets is placed once for each, with that sheet's
// part of it as Area and Clip: what belongs to another part is not placed, and a
// dimension that goes on there ends in a break.
//
// # Rendering it
//
// Draw calls a Canvas with strokes, areas, circles and lines of text, in the order
// in which they cover each other; soft lines arrive broken. Measures lists the
// dimensions for a file that has dimensions of its own. Words gives the texts,
// with their keys, to be pointed at. Free tells where the sheet is still empty,
// for tables; Bounds, how much of it is taken.
package drawing
