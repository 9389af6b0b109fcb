package field

// aCircuit is where the greatest length of a circuit comes from.
const aCircuit = "common practice for 1/2 in tubing, no source"

var lineRows = rows("slabs[]",
	list("lines[]", "line", "What runs along or under the slab: the line of a drain, a trench drain, conduit, hydronic tubing."),
	text("lines[].name", "Name", "As it is called on the drawing."),
	choice("lines[].kind", "It is", "A drain line falls; a trench drain is a channel with a grate, flush with the top; tubing is laid in loops over a floor.", "drain line", "trench drain", "conduit: conduit or pipe", "tubing: hydronic tubing in loops"),
	point("lines[].path[]", "Point", "A point of its middle; of tubing a corner of the floor that it warms, two opposite ones for a rectangle.").unshown("dragged on the plan"),
	inches("lines[].diameter", "Diameter or width", "Outside diameter; of a trench drain the width of its channel.").over(0, 3*foot).trade(inch/2, foot, practice),
	inches("lines[].cover", "Depth of its top", "From the top of the slab down to the top of the line, at its one end; 0 for flush.").from(0, deep).trade(0, 4*foot, practice),
	inches("lines[].endcover", "Depth at its other end", "Likewise, where it ends: a drain falls 1/4 in per ft, from 3 in pipe on 1/8 in.").
		inSI(nil, "Likewise, where it ends: a drain falls 1 in 50, from 75 mm pipe on 1 in 100.").unless("kind", "trench drain", "tubing").from(0, deep).trade(0, 6*foot, practice).zero("the same"),
	inches("lines[].height", "Height of the channel", "From the top of its grate to its bottom.").when("kind", "trench drain").from(0, deep).trade(3*inch, foot, practice),
	inches("lines[].spacing", "Spacing", "Of tubing, from middle to middle.").when("kind", "tubing").from(0, far).trade(6*inch, 18*inch, practice),
	feet("lines[].longest", "Longest circuit", "With its way from the manifold and back: as the pump can feed it, by its maker's data.").when("kind", "tubing").from(0, 1000*foot).trade(150*foot, 500*foot, aCircuit).zero("one circuit, however long"),
	feet("lines[].lead", "Way of a circuit", "From the manifold to the floor and back.").when("kind", "tubing").from(0, 300*foot).trade(0, 80*foot, practice),
)
