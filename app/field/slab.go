package field

import "strconv"

const pointByPoint = "a section drawn point by point comes from a job file; the library says that it has one"

// smoothDowels is where sizes of the dowels of construction joints come from.
const smoothDowels = "ACI 302.1R, table of smooth round dowels, from memory"

var slabRows = rows("slabs[]",
	list("", "slab", "One slab: its outline, the sections of its edges, and what stands on it.").
		is([]Element{{"field": 6 * inch}}, practice).items(1, 1000).alone().rule(differ("sections", "name")),
	text("name", "Name", "Of the slab among others of the job: Apron."),
	inches("height", "Top over the job's", "Height of its finished top, at its lowest where it falls, over the height that the job gives; 0 for the same.").from(-far, far).
		trade(-4*foot, 4*foot, practice),
	check("unheated", "Unheated", "No part of the heated building: a porch, an apron, a garage. It has no foam against frost, and its edges go to the frost depth."),
	inches("field", "Field thickness", "Thickness of the slab away from edges, pads and strips; 4 to 6 in.").over(0, deep).
		trade(3.5*inch, foot, "IRC R506.1: at least 3 1/2 in; more than 12 in, "+practice),

	list("sections[]", "section", "The shape of a thickened edge, by which edges and doors refer to it.").rule(someWidth),
	text("sections[].name", "Name", "By which edges and doors refer to it.").needed(),
	inches("sections[].depth", "Depth from top", "Of the haunch; 12 to 24 in.").unless("profile").over(0, deep).
		trade(6*inch, 4*foot, practice),
	inches("sections[].bottom", "Flat bottom", "Flat width of its bottom, from the face inward; about 12 in.").unless("profile").from(0, far).
		trade(0, 3*foot, practice),
	inches("sections[].taper", "Taper", "Run over which it then rises to the field; about as much as it rises.").unless("profile").from(0, far).
		trade(0, 4*foot, practice),
	list("sections[].profile[]", "station", "A point of the underside, instead of depth, bottom and taper."),
	inches("sections[].profile[].inset", "Inset", "From the face inward.").from(0, far).trade(0, 6*foot, practice).unshown(pointByPoint),
	inches("sections[].profile[].depth", "Depth", "From the top of the slab.").over(0, deep).trade(3.5*inch, 4*foot, practice).unshown(pointByPoint),

	list("outline[]", "edge", "A side of the outline, from its corner to the next one's. The outline may run either way round, and is turned counter-clockwise."),
	point("outline[].at", "Corner", "Where the edge starts."),
	text("outline[].section", "Section", "Name of its section; none for no haunch."),
	check("outline[].joint", "Joint with the old slab", "It meets a slab that is already there: doweled and not formed."),
	feet("outline[].oldcuts[]", "Joints of the old slab", "Where joints and saw cuts of the old slab end on it, from the edge's start corner: saw cuts here go on from them where they may.").is([]float64{}, "").from(0, far).when("joint"),
	choice("outline[].meets", "At the other slab", "Where it lies on an edge of another slab of the job that is poured before: a strip of filler keeps the two apart, or dowels, as at a joint with an old slab, hold them level.", "isolated: isolation strip", "doweled: dowels"),
	text("outline[].wall", "Wall", "Sill plate of the framed wall on it: 2x4 or 2x6; none for no wall."),
	inches("outline[].curb", "Curb", "Height above the slab's top of a raised wall on the edge, under the sill plate: 4 to 12 in. It follows the top, or is level where the slab says so and then so high over the highest place of the slab's top. It is open at doors.").from(0, deep).zero("none").trade(3*inch, 2*foot, practice),
	inches("outline[].curbwidth", "Curb, width", "From the face inward: as wide as the wall's plate at least, 6 to 8 in; 6 in where none is given.").when("curb").from(0, far).zero("as usual").inSI(nil, "From the face inward: as wide as the wall's plate at least, 150 to 200 mm; about 150 mm where none is given.").trade(4*inch, foot, practice),
	feet("outline[].middle", "Middle ordinate", "Of an arc: from the middle of the line between its corners, out of the slab, or into it where it is negative.").
		from(-far, far).zero("straight"),
	feet("outline[].runout", "Run-out at start", "Where the edge goes straight on from the one before: length over which the deeper of the two sections ramps up into the other; 0 is square.").
		from(0, far).trade(0, 10*foot, practice),
	check("outline[].datum", "Datum", "Positions on the slab are measured from its corner, along the edge and square off it; from the first corner where none is marked.").unshown("a button of the corner"),
	list("outline[].doors[]", "door", "An opening in the wall on an edge."),
	text("outline[].doors[].name", "Name", "As it is called on the drawing: D1."),
	choice("outline[].doors[].kind", "For", "Who goes through: vehicles or people.", "overhead: vehicles", "walk: people"),
	feet("outline[].doors[].from", "From start corner", "From the edge's corner to the near jamb of the rough opening.").from(0, far),
	feet("outline[].doors[].width", "Rough opening", "Its width: 3 ft for people, 9 to 16 ft for vehicles.").over(0, far).
		trade(2*foot, 24*foot, practice),
	text("outline[].doors[].section", "Section under it", "Under the door, if another than the edge's."),
	feet("outline[].doors[].runout", "Run-out", "Length beyond each jamb over which that section ramps to the edge's; 0 is square.").
		from(0, far).trade(0, 10*foot, practice),
	part("outline[].doors[].lip", "Lip", "A strip of the top at the door that lies lower, so that rain stays out.").rule(wholeLip),
	inches("outline[].doors[].lip.inset", "Reach", "How far in from the face it reaches; about the wall's thickness.").
		from(0, far).trade(0, 2*foot, practice),
	inches("outline[].doors[].lip.drop", "Drop", "How far it lies below the top; about 3/4 in.").from(0, deep).trade(0, 3*inch, practice),
	list("outline[].bolts[]", "bolt mark", "An anchor bolt given by the builder. Where a wall has one that is no hold-down, all its bolts are the builder's."),
	feet("outline[].bolts[].along", "From start corner", "To the bolt, along the edge.").from(-far, far),
	check("outline[].bolts[].holddown", "Hold-down", "It stands beside the wall's bolts."),

	list("holes[]", "hole", "An opening right through the slab: a block-out, a pit, a pier."),
	text("holes[].name", "Name", "As it is called on the drawing."),
	list("holes[].edges[]", "edge", "Its edges, with the fields of an edge of the outline.").like("slabs[].outline[]"),

	list("pads[]", "pad", "A rectangular thickening under a post."),
	text("pads[].name", "Name", "As it is called on the drawing."),
	point("pads[].center", "Middle", "Of the pad."),
	feet("pads[].width", "Width", "Along X, before turning; 2 to 4 ft.").over(0, far).trade(foot, 10*foot, practice),
	feet("pads[].length", "Length", "Along Y, before turning; 2 to 4 ft.").over(0, far).trade(foot, 10*foot, practice),
	degrees("pads[].turn", "Turned", "Counter-clockwise."),
	inches("pads[].depth", "Depth from top", "Of the pad; 12 to 24 in.").over(0, deep).trade(6*inch, 4*foot, practice),
	inches("pads[].taper", "Taper of sides", "Run of its sides, outward up to the field.").from(0, far).trade(0, 4*foot, practice),

	choice("pads[].isolation", "Isolation", "The slab is kept off the column that stands on the pad: a block-out is left open, lined with joint filler, and filled once the column stands (ACI 302.1R, from memory). Saw cuts run to the points of a diamond.",
		"none", "square", "diamond: diamond, a square turned 45°", "round"),
	inches("pads[].blockout", "Block-out, across", "Side of a square or a diamond, or diameter: the base of the column with its bolts goes in with room to spare; 16 to 36 in.").when("isolation").over(0, far).zero("as large as the pad").trade(8*inch, 6*foot, practice),

	list("strips[]", "thickened strip", "A thickening along a bearing wall."),
	text("strips[].name", "Name", "As it is called on the drawing."),
	point("strips[].path[]", "Point", "A point of its center line.").unshown("dragged on the plan"),
	inches("strips[].bottom", "Flat width", "Of its flat bottom; 12 to 16 in.").over(0, far).trade(6*inch, 4*foot, practice),
	inches("strips[].depth", "Depth from top", "Of the strip; 8 to 12 in.").over(0, deep).trade(6*inch, 4*foot, practice),
	inches("strips[].taper", "Taper of sides", "Run of its sides, outward up to the field.").from(0, far).trade(0, 4*foot, practice),

	list("embeds[]", "embed", "A thing that is set before the pour and stays in the concrete."),
	text("embeds[].name", "Name", "As it is called on the drawing."),
	choice("embeds[].kind", "It is", "A sleeve keeps a way through the slab; a stub-up is a pipe or conduit that comes up through it.", "sleeve", "stub-up: pipe or conduit up through", "floor drain", "post base", "plate: steel plate, flush"),
	point("embeds[].center", "Middle", "Of the embed."),
	inches("embeds[].width", "Diameter or width", "Outside diameter of a round one; else along X, before turning.").over(0, far).trade(inch/2, 3*foot, practice),
	inches("embeds[].length", "Length", "Along Y, before turning, of one with corners; 0 for a round one.").from(0, far).trade(0, 3*foot, practice).zero("round"),
	degrees("embeds[].turn", "Turned", "Counter-clockwise.").when("length"),
	inches("embeds[].deep", "Depth below the top", "How far its lowest part reaches below the top; 0 for right through the slab.").from(0, deep).trade(0, 2*foot, practice).zero("right through"),

	list("walls[]", "wall on the slab", "A framed wall along a line of its own: within the slab, or along a part of an edge."),
	text("walls[].name", "Name", "As it is called on the drawing."),
	choice("walls[].kind", "It is", "A bearing wall carries a floor or a roof, and stands on a thickened strip; a braced wall holds the building sideways alone.", "bearing: bearing wall", "braced: braced wall"),
	text("walls[].plate", "Plate", "The board of its sill plate: 2x4 or 2x6."),
	point("walls[].from", "One end", "Where its tape hooks: the middle of its plate, or the face of the edge that it stands along.").unshown("dragged on the plan"),
	point("walls[].to", "Other end", "Where it ends.").unshown("dragged on the plan"),
	list("walls[].doors[]", "door", "An opening in it."),
	feet("walls[].doors[].from", "From its one end", "From the wall's one end to the near jamb of the rough opening.").from(0, far),
	feet("walls[].doors[].width", "Rough opening", "Its width; 3 ft for people.").over(0, far).trade(2*foot, 24*foot, practice),
	list("walls[].bolts[]", "bolt mark", "An anchor bolt given by the builder. Where a wall has one that is no hold-down, all its bolts are the builder's."),
	feet("walls[].bolts[].along", "From its one end", "To the bolt, along the wall.").from(-far, far),
	check("walls[].bolts[].holddown", "Hold-down", "It stands beside the wall's bolts."),

	list("construction[]", "construction joint", "A line across the slab at which one pour ends and the next begins."),
	text("construction[].name", "Name", "As it is called on the drawing."),
	choice("construction[].kind", "It is", "A plain face against a board, a face with a key, or one with smooth dowels that slide in one half.", "bulkhead: plain face", "keyed: face with a key", "doweled: smooth dowels"),
	point("construction[].from", "One end", "Of its line, which reaches as far as the slab does.").unshown("dragged on the plan"),
	point("construction[].to", "Other end", "Of its line.").unshown("dragged on the plan"),
	choice("construction[].first", "Poured first", "The side that is poured first, looking from its one end to the other.", "left", "right"),
	row(Days, "construction[].days", "Days between", "From the pour on one side to the pour on the other.").from(0, 365).trade(1, 14, practice).zero("the next day"),
	choice("construction[].steel", "Bars of the field", "Whether they go through it. By common practice they stop where dowels slide, and go through else; edge bars go through.", "usual: as is usual for its kind", "through: go through", "stops: stop at it"),
	inches("construction[].diameter", "Dowels, diameter", "Of smooth round dowels.").when("kind", "doweled").from(0, 3*inch).trade(inch/2, 1.5*inch, smoothDowels).zero("by the slab's thickness"),
	inches("construction[].length", "Dowels, length", "Half of it in each pour.").when("kind", "doweled").from(0, far).trade(10*inch, 24*inch, smoothDowels).zero("by the slab's thickness"),
	inches("construction[].spacing", "Dowels, at most apart", "From middle to middle.").when("kind", "doweled").from(0, far).trade(9*inch, 24*inch, smoothDowels).zero("as usual"),

	part("top", "", "The shape of the finished surface."),
	list("top.falls[]", "fall", "A plane that falls; none for a level top."),
	point("top.falls[].from", "High end", "Where it falls from.").unshown("dragged on the plan"),
	point("top.falls[].to", "Low end", "Where it falls to.").unshown("dragged on the plan"),
	inches("top.falls[].drop", "Drop", "From the high to the low end; 1/8 in per ft is usual. A garage floor falls to its door or a drain (IRC R309.1).").
		inSI(nil, "From the high to the low end; 10 mm per meter is usual. A garage floor falls to its door or a drain (IRC R309.1).").
		from(0, deep).trade(0, 2*foot, practice),
	list("top.breaks[]", "break", "A line at which the top bends: beyond it an apron drops away, or a ramp rises. It reaches as far as the slab does."),
	point("top.breaks[].from", "One end", "Of the line: the top drops on its left, looking from this end to the other.").unshown("dragged on the plan"),
	point("top.breaks[].to", "Other end", "Of the line.").unshown("dragged on the plan"),
	inches("top.breaks[].drop", "Drop beyond it", "How much the top drops there against the plane before the line; negative for a ramp, which rises. Paved ground falls at least 2 %, 1/4 in per ft, away from a building (IRC R401.3).").
		inSI(nil, "How much the top drops there against the plane before the line; negative for a ramp, which rises. Paved ground falls at least 2 %, 20 mm per meter, away from a building (IRC R401.3).").
		from(-deep, deep).trade(-2*foot, 2*foot, practice),
	feet("top.breaks[].over", "In a run of", "Square to the line: how far from it the top has dropped by that much.").over(0, far).trade(foot, 50*foot, practice),
	choice("top.meet", "Falls meet", "Of several falls: the higher counts, as round a drain, or the lower.", "valley: in a valley", "ridge: in a ridge"),
	choice("top.curbs", "Curbs' tops", "Where the slab falls: with it, or level for a sill plate that lies level. Level curbs stand their height over the highest place of the slab's top, and more where the top lies lower.", "follow: with the slab", "level: level, from the slab's highest place"),
	choice("base", "Ground under it", "Under a falling top: parallel to it, or level, which adds a wedge of concrete.", "graded: graded to the fall", "level"),
	choice("trench", "Edges are dug", "To their depth, or only to the bottom of the form board, whose dressed width is less than its name.", "depth: to their depth", "board: to the form board"),
)

// someWidth asks that a section is not of no width.
func someWidth(w View) {
	if w.count("profile") == 0 && w.number("bottom") == 0 && w.number("taper") == 0 {
		w.fault("bottom", w.say("bottom"), "a section needs a flat bottom, a taper, or both")
	}
}

// wholeLip asks for both sizes of a lip or none.
func wholeLip(w View) {
	if (w.number("drop") > 0) != (w.number("inset") > 0) {
		w.fault("", "reach "+w.say("inset")+", drop "+w.say("drop"), "give both, or neither for no lip")
	}
}

var surveyRows = rows("survey",
	part("", "", "What stands on the drawing around the slabs.").rule(fewNotes),
	part("north", "North", "Which way north is on the drawing."),
	check("north.known", "North is known", "Whether it is known which way north is."),
	degrees("north.turn", "North, turned", "Clockwise from straight up the drawing.").when("known"),
	list("benchmarks[]", "benchmark", "A fixed point on the site that heights are measured from."),
	text("benchmarks[].name", "Name", "What it is: BM 1, nail in the curb.").needed(),
	point("benchmarks[].at", "Place", "Where it is.").unshown("dragged on the plan"),
	feet("benchmarks[].height", "Height over datum", "Over the datum of all heights.").from(-far, far).trade(-500*foot, 500*foot, practice),
	list("notes[]", "note", "A text on the drawing."),
	text("notes[].text", "Text", "What it says.").needed().long(2000),
	point("notes[].at", "Place", "Where its text stands: the middle of its left edge."),
	check("notes[].leader", "With a leader", "A line from it to what it speaks of."),
	point("notes[].to", "End of the leader", "Where that line ends.").when("leader").unshown("dragged on the plan"),
	list("shots[]", "shot", "A place of the ground, ready for concrete, whose height was measured.").items(0, 2000),
	point("shots[].at", "Place", "Where it was shot.").unshown("dragged on the plan"),
	feet("shots[].height", "Height of the ground", "Over the datum of all heights.").from(-far, far).trade(-500*foot, 500*foot, practice),
)

var groundRows = rows("ground",
	part("", "Shooting the ground", "How the ground is measured before the pour, and what a wrong order costs."),
	feet("instrument", "Height of the instrument", "Over the datum; with it, rod readings are printed, else how far below the top each place lies.").from(-far, far).zero("not known yet"),
	percent("accuracy", "Concrete known to", "How well the concrete is to be known by shooting the field: the better, the more places.").from(0, 20).trade(0.5, 3, practice).zero("1 %, an own figure"),
	money("short", "Running short costs", "Once: a truck called again, the crew that waits, the cold joint.").from(0, 1e9).zero("450, an own figure"),
	money("left", "What is left costs", "A yd³ or m³: paid for, and to be got rid of.").from(0, 1e9).zero("190 a yd³ or 250 a m³, an own figure"),
	row(Volume, "gravel", "Gravel in hand", "Loose, on the site, to bring the base in where it lies low.").from(0, 10000).zero("none"),
	percent("lost", "Yield and spill", "What is used beyond the ground as measured, on average over own jobs.").from(-10, 30).trade(-1, 6, practice).when("stray"),
	percent("stray", "Its spread", "How far the next job strays from that: a standard deviation, as own jobs tell it.").from(0, 30).trade(0.2, 3, practice).zero("up to 2 % of yield (NRMCA CIP 8) and 1 % of spill, an own figure"),
)

// fewNotes bounds what stands on a drawing.
func fewNotes(w View) {
	const most = 500
	if n := w.count("notes") + w.count("benchmarks"); n > most {
		w.fault("notes", strconv.Itoa(n)+" notes and benchmarks", "keep 500 at most")
	}
}
