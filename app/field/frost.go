package field

// Of heated buildings alone. How thick, wide and deep the insulation is to be, the table
// of the code that is in force says by the air-freezing index of the place: none of it is
// known here, and none is a default.
const byTable = "As IRC Table R403.3(1), or the local code's, asks for the air-freezing index of the place"

var frostRows = rows("spec.base",
	inches("upright", "Frost foam, upright", "Thickness on the outside face of the free edges of a heated building, which then need not go to the frost depth (IRC R403.3): not of garages, carports and other unheated ones. "+byTable+".").when("building", "heated").from(0, foot).trade(inch, 6*inch, practice).zero("none"),
	inches("uprightdeep", "Upright foam, height", "From the top of the slab down; commonly to the bottom of the edge.").when("building", "heated").when("upright").from(0, deep).trade(0, 4*foot, practice).zero("not given"),
	number("uprightr", "Upright foam, R", "In ft²·°F·h/Btu, in jobs of either unit; 1 of it is 0.176 m²·K/W. "+byTable+".").when("building", "heated").when("upright").from(0, 100).trade(4, 20, practice).zero("not given"),
	inches("shallow", "Insulated edges, depth", "Below the ground outside, instead of the frost depth; at least 12 in. "+byTable+".").
		when("building", "heated").when("upright").from(12*inch, deep).trade(12*inch, 2*foot, practice).zero("the least"),
	choice("frostfoam", "Frost foam, type", "By ASTM C578, with its compressive strength at 10 % deformation (values from memory): below ground it is labeled so. Where it carries the building, its strength is for who designs that.",
		"unstated: not stated",
		"eps ii: EPS Type II, 15 psi", "eps ix: EPS Type IX, 25 psi", "eps xiv: EPS Type XIV, 40 psi", "eps xv: EPS Type XV, 60 psi",
		"xps x: XPS Type X, 15 psi", "xps iv: XPS Type IV, 25 psi", "xps vi: XPS Type VI, 40 psi", "xps vii: XPS Type VII, 60 psi", "xps v: XPS Type V, 100 psi",
	).when("building", "heated").when("upright"),
	feet("frostwidth", "Frost foam sheet, width", "As it is sold; 4 ft.").when("building", "heated").when("upright").from(6*inch, 100*foot).trade(2*foot, 8*foot, practice).zero("as of the foam under the slab"),
	feet("frostlength", "Frost foam sheet, length", "As it is sold; 8 ft.").when("building", "heated").when("upright").from(6*inch, 1000*foot).trade(2*foot, 20*foot, practice).zero("as of the foam under the slab"),
	inches("wing", "Frost foam, lying", "Thickness of the wings in the ground outside. "+byTable+"; none where it asks for none.").when("building", "heated").when("upright").from(0, foot).trade(inch, 6*inch, practice).zero("none"),
	inches("wingdeep", "Lying foam, depth", "Of its top below the ground. With less than 12 in over it it is covered (IRC R403.3.2, from memory).").when("building", "heated").when("upright").when("wing").from(0, deep).trade(0, 2*foot, practice),
	number("wingr", "Lying foam, R", "In ft²·°F·h/Btu, in jobs of either unit; 1 of it is 0.176 m²·K/W. "+byTable+".").when("building", "heated").when("upright").when("wing").from(0, 100).trade(1, 20, practice).zero("not given"),
	inches("wingwidth", "Lying foam, width", "Out from the upright foam. "+byTable+".").when("building", "heated").when("upright").when("wing").from(0, 20*foot).trade(0, 4*foot, practice).zero("not given"),
	inches("cornerwidth", "Lying foam, width at corners", "Likewise at corners that stand out. "+byTable+".").when("building", "heated").when("upright").when("wing").from(0, 20*foot).trade(8*inch, 5*foot, practice).zero("as elsewhere"),
	inches("cornerlong", "Lying foam, length at corners", "How far from a corner along each edge it is that wide. "+byTable+".").when("building", "heated").when("upright").when("wing").when("cornerwidth").from(0, 100*foot).trade(0, 8*foot, practice).zero("not given"),
)
