package field

import (
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/cover"
)

var fieldRows = rows("spec.place.field",
	part("", "Field steel", "What reinforces the field of the slab.").rule(wideMesh),
	choice("kind", "Kind", "Welded wire mesh, a grid of bars, or no steel. Fibers go with each of them: their dose is among the mix.", "none", "mesh", "grid: grid of bars", "fiber: fibers in the mix alone"),
	mesh("style", "Mesh style", "Of ASTM A1064/A1064M: spacing both ways in inches, and wire areas.").
		is("6x6-W1.4xW1.4", "ASTM A1064/A1064M").inSI("200x200-6x6", "Of ISO 6935-3 or EN 10080: spacing both ways, and diameters of the wires.").bySI(practice).when("kind", "mesh"),
	feet("width", "Mesh width", "Of a sheet or roll as it is sold.").is(5*foot, practice).inSI(2400e6, "").from(0, 20*foot).trade(4*foot, 8*foot, practice).when("kind", "mesh"),
	feet("length", "Mesh length", "Of a sheet or roll as it is sold; sheets 10 or 20 ft, rolls 150 ft.").
		is(10*foot, practice).inSI(4800e6, "Of a sheet or roll as it is sold; sheets 4800 or 6000 mm.").from(0, 1000*foot).trade(5*foot, 200*foot, practice).when("kind", "mesh"),
	check("roll", "Mesh in rolls", "It comes in rolls, not in sheets.").when("kind", "mesh"),
	bar("size", "Grid bar size", "No. 3 or No. 4 is usual.").is(4, practice).inSI("10 mm", "10 mm or 12 mm is usual.").when("kind", "grid"),
	inches("spacing", "Grid spacing, at most", "Center to center, both ways; 12 to 24 in.").
		is(18*inch, practice).from(2*inch, 10*foot).trade(6*inch, 3*foot, practice).when("kind", "grid"),
	inches("cover", "Clear of faces", "Ends of the steel from the faces of the slab.").
		is(2*inch, practice).from(0, 2*foot).trade(1.5*inch, foot, "ACI 318-19 table 20.5.1.3.1: 1 1/2 in").when("kind", "mesh", "grid"),
	inches("depth", "Below the top", "Of the steel's center.").
		from(0, 10*foot).trade(inch, foot, practice).zero("in the middle").when("kind", "mesh", "grid"),
	feet("chairs", "Chairs apart", "Both ways; steel on the ground does nothing.").
		is(3*foot, practice).from(6*inch, 20*foot).trade(2*foot, 5*foot, practice).zero("none").when("kind", "mesh", "grid"),
)

// mesh is a choice of mesh styles: each is offered where it is sold.
func mesh(path, label, help string) Row {
	r := choice(path, label, help)
	for _, m := range cover.MeshStyles() {
		in := geometry.FeetInches
		if m.Metric() {
			in = geometry.Millimeters
		}
		r.Names = append(r.Names, Name{Name: m.Name, Words: m.Name, Only: []geometry.Units{in}})
	}
	return r
}

// wideMesh asks for sheets that are more than their lap.
func wideMesh(w View) {
	style, ok := cover.MeshNamed(w.text("style"))
	if w.text("kind") != "mesh" || !ok {
		return
	}
	least := style.MeshLap() + geometry.Foot
	for _, side := range []string{"width", "length"} {
		if w.length(side) < least {
			w.fault(side, w.say(side), "must be at least "+least.Exact(w.c.units)+", a foot more than the lap")
		}
	}
}
