package field

import "haunchbook.example/geometry/lumber"

var formRows = rows("spec.place.forms",
	part("", "Forms", "The boards round the slab."),
	choice("board", "Board", "One size for all, 2x12.", boards()...).zero("by the depth of the edge"),
	feet("stock[]", "Board lengths", "As they are sold; 10 to 16 ft.").
		is([]float64{10 * foot, 12 * foot, 16 * foot}, practice).from(2*foot, 200*foot).trade(6*foot, 24*foot, practice).items(1, 0),
	check("rip", "Rip to depth", "Rip the next wider board to the depth instead of digging below a narrower one."),
	feet("stakes", "Stakes apart, at most", "2 to 3 ft.").is(3*foot, practice).from(6*inch, 20*foot).trade(foot, 4*foot, practice),
	feet("kickers", "Kickers apart, at most", "Braces of the boards; about 4 ft for a 12 in board.").
		is(4*foot, practice).from(6*inch, 100*foot).trade(2*foot, 8*foot, practice).zero("none"),
)

// boards lists the boards that are known.
func boards() []string {
	var names []string
	for _, b := range lumber.Boards() {
		names = append(names, b.Name)
	}
	return names
}

var sawRows = rows("spec.place.sawcuts",
	part("", "Saw cuts", "What is sawn so that the slab cracks there."),
	number("ratio", "Spacing ÷ thickness", "Cuts at most this many thicknesses of the slab apart; 24 to 36.").
		is(30, "ACI 302.1R: 24 to 36 times the thickness").from(10, 100).trade(24, 36, "ACI 302.1R: 24 to 36 times the thickness").zero("no saw cuts"),
	feet("spacing", "Spacing, at most", "In no case farther apart than this.").
		from(2*foot, 100*foot).trade(6*foot, 18*foot, "ACI 302.1R: at most 18 ft").zero("what the thickness gives").when("ratio"),
	number("aspect", "Panel, long ÷ short", "Longer over shorter side of a panel, at most; 1.5.").
		is(1.5, "ACI 302.1R").from(1, 10).trade(1, 1.5, "ACI 302.1R: at most 1.5").when("ratio"),
	check("early", "Early-entry saw", "Cut within hours, 1 in deep, instead of the next day.").when("ratio"),
)

var stakeRows = rows("spec.place.stakeout",
	part("", "Stake-out", "What staking out needs."),
	feet("offset", "Strings beyond corners", "How far string-line stakes stand beyond the corners; about 3 ft.").is(3*foot, practice).from(0, 100*foot).trade(foot, 10*foot, practice),
	feet("benchmark", "Top over benchmark", "Height of the finished floor over the site's benchmark.").from(-far, far).trade(-50*foot, 50*foot, practice),
)
