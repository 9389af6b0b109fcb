package field

import (
	"haunchbook.example/geometry/layout"
)

var placeRows = rows("spec.place",
	part("", "", "What is placed, and by which rules."),
)

var barRows = rows("spec.place.bars",
	part("", "Edge bars", "The steel in the haunches."),
	bar("size", "Bar size", "Of ASTM A615/A615M; No. 4 is usual.").is(4, "IRC R403.1.3.3").inSI("12 mm", "Of ISO 6935-2 or EN 10080; 12 mm is usual.").bySI(practice),
	list("rows[]", "edge bar", "A continuous bar round every haunch, by its clear covers; none for no edge steel.").
		is([]Element{{"face": 3 * inch, "bottom": 3 * inch}, {"face": 8 * inch, "bottom": 3 * inch}},
			"a double row near the bottom, "+practice+"; covers of ACI 318-19 table 20.5.1.3.1: cast against earth").items(0, 20).rule(bottomOrTop),
	inches("rows[].face", "Clear of the face", "Cover to the face of the edge; 3 in against earth, 1 1/2 in against forms.").from(0, 10*foot).
		trade(1.5*inch, 3*foot, "ACI 318-19 table 20.5.1.3.1: 3 in against earth, 1 1/2 in formed, for No. 5 and smaller"),
	inches("rows[].bottom", "Clear of the underside", "Cover below; 0 where the cover to the top rules. 3 in against earth.").from(0, 10*foot).
		trade(1.5*inch, 3*foot, "ACI 318-19 table 20.5.1.3.1: 3 in against earth").zero("the top rules"),
	inches("rows[].top", "Clear of the top", "Cover above; 0 where the cover to the underside rules.").from(0, 10*foot).
		trade(1.5*inch, 3*foot, "ACI 318-19 table 20.5.1.3.1: 1 1/2 in, for No. 5 and smaller").zero("the underside rules"),
	bar("rows[].size", "Bar size", "If another than that of all rows.").zero("that of all rows"),
	choice("seismic", "Seismic category", "Seismic design category of the site. In D0 to D2 turned-down edges want certain bars (IRC R403.1.3.3) and plates want washers of 3 in (R602.11.1).",
		"unstated: not stated", "A to C", "D0 to D2"),
	choice("grade", "Grade", "Yield strength, ksi; 60 is usual. 40 is made up to No. 6 only.", "40: Grade 40", "60: Grade 60", "80: Grade 80", "500: B500").grades().
		is(60, "ASTM A615/A615M").inSI("500", "Yield strength: 500 MPa, B500, or 420 MPa, B420 of ISO 6935-2 and grade 60 of ASTM A615M. Laps go by it after ACI 318, which has no 500 MPa and is read on the safe side.").bySI("EN 10080"),
	check("coated", "Epoxy-coated", "Coated bars take longer laps (ACI 318-19 table 25.4.2.5)."),
	part("lap", "Lap", "How long bars lie side by side."),
	choice("lap.rule", "Lap by", "Class B of ACI 318-19; 40 bar diameters, "+practice+"; or a length of your own.",
		"aci: ACI 318-19, class B", "diameters: 40 bar diameters", "length: a length"),
	inches("lap.length", "Lap", "Where it is a length; 24 in is common.").
		is(24*inch, practice).from(6*inch, 20*foot).trade(12*inch, 5*foot, "ACI 318-19 25.5.2.1: at least 12 in").when("rule", "length"),
	inches("stagger", "Laps apart", "Clear distance between laps of neighboring rows.").is(12*inch, practice).from(0, 20*foot).trade(0, 6*foot, practice),
	choice("corner", "At corners", "Bent corner bars, bars bent in place and run round, or bars that cross.",
		"bent: bent corner bars", "wrapped: bent in place", "crossed"),
	inches("leg", "Leg of a corner bar", "Outside; 2 ft and more is usual.").from(6*inch, 20*foot).trade(foot, 6*foot, practice).
		zero("the lap and the bend").when("corner", "bent"),
	choice("joint", "Along the joint", "Rows stop at the joint with the old slab, or go on along it where it is thickened.",
		"stop: stop at the joint", "pass: pass along it"),
	feet("stock[]", "Stock lengths", "Lengths on sale; 20 ft most often, 10, 40 and 60 ft too.").
		is([]float64{20 * foot}, practice).from(5*foot, 200*foot).trade(5*foot, 60*foot, practice).items(1, 0),
	feet("yard[]", "Offcuts on hand", "In the yard, each one bar of the bar size, used first.").is([]float64{}, "").from(inch, 200*foot).trade(foot, 60*foot, practice),
	setting("Edge bars tied before the pour, or pushed into the fresh concrete, which inspectors refuse as a rule: ask first."),
	inches("kerf", "Lost at each cut", "By a saw; 0 for a shear.").from(0, inch).trade(0, inch/4, practice),
)

// bottomOrTop asks for one of the two covers that place a bar.
func bottomOrTop(w View) {
	if (w.number("bottom") > 0) == (w.number("top") > 0) {
		w.fault("", "clear of the underside "+w.say("bottom")+", of the top "+w.say("top"), "give the cover to one of them, and 0 for the other")
	}
}

// lapsThatFit asks that no lap is longer than half the stock, and that a corner
// bar's leg holds its lap.
func lapsThatFit(w View) {
	if !w.clean() {
		return
	}
	s := w.value("place").(layout.Spec)
	s.Concrete.Strength = int(w.number("mix.strength"))
	w.add("place", s.Laps(w.c.units))
}

// setting is when steel comes to its place.
func setting(help string) Row {
	return choice("setting", "Set", help, "tied: tied before the pour", "wet: set wet, where the inspector agrees")
}

var padRows = rows("spec.place.pads",
	part("", "Steel in pads", "Bars both ways near the bottom of pads."),
	bar("size", "Bar size", "Both ways; No. 4 is usual.").is(4, practice).inSI("12 mm", "Both ways; 12 mm is usual.").zero("none"),
	inches("spacing", "Spacing, at most", "Center to center; 12 in is usual.").is(12*inch, practice).from(inch, 10*foot).trade(4*inch, 2*foot, practice).when("size"),
	inches("cover", "Cover", "To the bottom and to the ends; 3 in against earth.").
		is(3*inch, "ACI 318-19 table 20.5.1.3.1: cast against earth").from(0, foot).trade(1.5*inch, 6*inch, "ACI 318-19 table 20.5.1.3.1").when("size"),
)

var stripRows = rows("spec.place.strips",
	part("", "Steel in thickened strips", "Bars along thickened strips, near the bottom."),
	count("count", "Bars", "Side by side; two are usual.").is(2, practice).from(0, 50).trade(1, 6, practice).zero("none"),
	bar("size", "Bar size", "No. 4 is usual.").is(4, practice).inSI("12 mm", "12 mm is usual.").when("count"),
	inches("cover", "Cover", "To the bottom, the sides and the ends; 3 in against earth.").
		is(3*inch, "ACI 318-19 table 20.5.1.3.1: cast against earth").from(0, foot).trade(1.5*inch, 6*inch, "ACI 318-19 table 20.5.1.3.1").when("count"),
)

var curbRows = rows("spec.place.curbs",
	part("", "Steel in curbs", "Bars along and up the curbs on edges."),
	count("count", "Bars near the top", "Side by side; one is usual. Within 12 in of the top of a stem wall one No. 4 is asked in high seismic categories (IRC R403.1.3.1, from memory).").
		is(1, "IRC R403.1.3.1, from memory").from(0, 4).trade(1, 2, practice).zero("none"),
	bar("size", "Bar size", "No. 4 is usual.").is(4, "IRC R403.1.3.1, from memory").inSI("12 mm", "12 mm is usual.").bySI(practice).when("count"),
	inches("cover", "Cover", "To the top and to the faces; 1 1/2 in against forms.").
		is(1.5*inch, "ACI 318-19 table 20.5.1.3.1: formed and exposed, No. 5 and smaller").inSI(40e6, "To the top and to the faces; 40 mm against forms.").from(0, foot).trade(1.5*inch, 3*inch, "ACI 318-19 table 20.5.1.3.1"),
	bar("upright", "Upright bars", "With a hook in the slab's edge; No. 4 is usual.").is(4, "IRC R403.1.3.1, from memory").inSI("12 mm", "With a hook in the slab's edge; 12 mm is usual.").bySI(practice).zero("none"),
	feet("spacing", "Upright bars, at most apart", "4 ft.").is(4*foot, "IRC R403.1.3.1, from memory: at most 4 ft").from(inch, 20*foot).trade(foot, 4*foot, "IRC R403.1.3.1, from memory").when("upright"),
	inches("above", "Upright in curbs over", "Lower curbs have none; 12 in.").is(12*inch, practice).from(0, deep).trade(6*inch, 2*foot, practice).when("upright"),
)
