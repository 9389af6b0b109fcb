package field

import (
	"fmt"
	"math"
)

const books = "a placeholder: what a business needs follows from its own books"

var priceRows = rows("price",
	part("", "", "How the job is priced. Amounts are decimals; percentages as they are spoken: 10 is 10 %.").rule(marginUnderAll),
	percent("overhead", "Overhead", "On cost.").is(10, books).under(0, 1000).digits(12).trade(0, 60, practice),
	percent("profit", "Profit", "On cost with overhead, or of the price before tax.").is(15, books).under(0, 1000).digits(12).trade(0, 60, practice),
	choice("profitas", "Profit as", "Markup on cost with overhead, or margin of the price before tax.", "markup: markup, % of cost", "margin: margin, % of price"),
	percent("markupmaterials", "Markup of materials", "Besides profit, which is on it too.").under(0, 1000).digits(12).zero("none"),
	percent("markuplabor", "Markup of labor", "Besides profit, which is on it too.").under(0, 1000).digits(12).zero("none"),
	percent("markupfees", "Markup of fees", "Of fees and equipment, besides profit, which is on it too.").under(0, 1000).digits(12).zero("none"),
	money("least", "Least charge", "The least price of a job before tax.").from(0, 1e12).zero("none"),
	money("round", "Bid rounded up to", "The bid goes up to a whole multiple: 1, 10, 50. Where tax is on the whole price, the price does.").from(0, 1e12).zero("the cent"),
	percent("tax", "Sales tax", "By the law of the place.").is(6, books).under(0, 100).digits(12).trade(0, 25, practice),
	choice("taxon", "Tax on", "What sales tax is charged on, by the law of the place.", "materials", "all: the whole price", "none: nothing"),
	money("mobilization", "Mobilization", "An amount, once.").from(0, 1e12),
	text("confirmed", "Confirmed", "Why the price is below cost, or more is given back than there is: until it is said, such a bid is a draft.").letters(200),
	list("extras[]", "extra", "An amount of this job alone."),
	text("extras[].name", "Name", "What it is for."),
	money("extras[].amount", "Amount", "May be negative: an allowance."),
	check("extras[].material", "Taxed as material", "It counts as material where tax is on materials."),
	check("extras[].allowance", "An allowance", "The bid says how much it is, and it is settled by what it comes to."),
	check("extras[].hidden", "Not named on the bid", "In the price all the same, as a contingency may be."),
	list("figures[]", "own figure", "How much this job takes of what no drawing shows, in place of the rule's figure."),
	text("figures[].kind", "Kind", "What it is: bar support, tie wire, haul-off. takeoff.json shows how each is called."),
	number("figures[].amount", "How much", "0 for none of it.").from(0, 1e12).digits(12),
	text("figures[].of", "Unit", "What it is counted in, as the job counts it."),
)

// marginUnderAll keeps a margin under the whole price.
func marginUnderAll(w View) {
	if w.text("profitas") == "margin" && w.number("profit") >= 100 && w.number("profit") < 1000 {
		w.fault("profit", w.say("profit"), "must be from 0 to under 100 % of the price")
	}
}

// A quantity is named by its kind and what tells one of the kind from another. An
// attribute left out stands for any.
var quantityRows = rows("price.others[]",
	list("", "by others", "A quantity that others supply: a kind of thing, and what tells one of the kind from another. What is left out stands for any.").
		is([]Element{{"kind": "sill plate"}}, "the framer brings the sill plates as a rule: "+practice),
	text("kind", "Kind", "What it is: sill plate, bar, form board. takeoff.json shows how each is called."),
	bar("bar", "Bar size", "Of ASTM A615/A615M, 4 is No. 4; or of ISO 6935-2, 12 mm.").zero("any").any(),
	text("size", "Size", "Nominal size of lumber: 2x12."),
	text("style", "Style", "Of mesh, ASTM A1064/A1064M: 6x6-W1.4xW1.4."),
	row(Mil, "mil", "Thickness of sheeting", "Of a vapor retarder.").zero("any"),
	row(PSI, "strength", "Strength", "Of a mix, at 28 days.").zero("any"),
	inches("diameter", "Diameter", "Of a bolt.").zero("any"),
	inches("thickness", "Thickness", "Of foam.").zero("any"),
	inches("depth", "Depth", "Of a hole.").zero("any"),
	feet("width", "Width", "Of a sheet, a roll or a washer.").zero("any"),
	feet("length", "Length", "Of a bar, a board, a bolt, a sheet or a roll.").zero("any"),
	choice("form", "Form", "How goods that cover an area are sold.", "sheet", "roll").zero("any"),
	choice("shape", "Shape", "Of a bolt.", "bent", "headed").zero("any"),
	text("name", "Name", "Of the kind unknown, which fits nothing: what a file of an older version called it."),
)

var termRows = rows("price.terms",
	part("", "Terms", "What the bid says besides its price. What is empty is printed as a blank to fill in.").rule(stepsAddUp),
	text("included[]", "Also included", "Printed on the bid, beyond what the drawing holds.").letters(90).items(0, 10),
	text("excluded[]", "Not included", "Printed on the bid.").letters(90).items(0, 10).is([]string{
		"Permits, engineering and inspections",
		"Moving pipes, cables and drains",
		"Rock, unsuitable ground and dewatering",
		"Protection from weather beyond curing",
	}, "what a customer might take for granted: "+practice),
	row(Days, "days", "Good for", "How long the bid is good, from its date.").from(0, 365).trade(7, 90, practice).zero("a blank"),
	text("payment", "Payment terms", "When and how the bid is paid.").letters(90).blank("a blank"),
	text("start", "Start of work", "When the work starts.").letters(90).blank("a blank"),
	text("finish", "Finished by", "When it is done.").letters(90).blank("a blank"),
	list("steps[]", "payment step", "A payment, such as a deposit, on the pour, on the finish, retainage. All add up to 100 %.").items(0, 6),
	text("steps[].when", "When", "As it is printed: on signing, on the day of the pour.").needed().letters(60),
	percent("steps[].percent", "Part of the total", "Of the bid.").over(0, 100).digits(12),
	choice("taxshown", "Sales tax on the bid", "Tax on materials as a line of its own tells what they cost, since everybody knows the rate.", "usual: shown where it is on the whole price", "shown: a line of its own", "inside: in the price"),
	check("alternates", "Offer the options as alternates", "The bid says what each option adds to the price or takes off."),
	money("extraconcrete", "Extra concrete", "Price for a yd³ or m³ beyond what is drawn.").from(0, 1e12).blank("not on the bid"),
	money("extradepth", "Extra depth", "Price for a foot of edge an inch deeper than drawn, or a meter 25 mm deeper.").from(0, 1e12).blank("not on the bid"),
	text("concealed", "What cannot be seen", "What holds of rock, water, soft ground and what lies in it.").letters(300).blank("not on the bid").
		is("What cannot be seen before the work begins, such as rock, water, soft ground, pipes or old footings, is agreed in writing and paid for besides.", practice),
	text("notices", "Notices", "What the law of the place asks a bid to say, in words of your own. The law differs from place to place: ask what yours asks for.").long(1200).blank("none"),
)

// stepsAddUp asks for payments of all there is to pay.
func stepsAddUp(w View) {
	sum, n := 0.0, 0
	for _, s := range w.items("steps") {
		sum, n = sum+s.number("percent"), n+1
	}
	if n > 0 && math.Abs(sum-100) > 1e-9 {
		w.fault("steps", fmt.Sprintf("%g %%", sum), "must add up to 100 %")
	}
}

var optionRows = rows("price.options[]",
	list("", "option", "A variation to set beside the job: what changes, and nothing else.").items(0, 6),
	text("name", "Name", "What it is called."),
	inches("edge", "Edge depth", "Of the most used haunch; deeper and shallower ones move with it.").blank("as drawn").from(0, deep).trade(6*inch, 4*foot, practice),
	inches("bottom", "Flat bottom", "Of every haunch.").blank("as drawn").from(0, deep).trade(0, 3*foot, practice),
	inches("taper", "Taper", "Run of every haunch's taper.").blank("as drawn").from(0, deep).trade(0, 4*foot, practice),
	inches("field", "Field thickness", "Of the slab.").blank("as drawn").from(0, deep).trade(3.5*inch, foot, "IRC R506.1: at least 3 1/2 in"),
	inches("foam", "Foam", "Thickness; 0 for none.").blank("as it is").from(0, deep).trade(inch/2, 8*inch, practice).zero("none"),
	feet("bolts", "Bolts, at most", "Spacing of the anchor bolts.").blank("as it is").from(0, deep).trade(foot, 6*foot, "IRC R403.1.6: at most 6 ft"),
	row(PSI, "strength", "Strength", "Of the concrete.").from(1000, 20000).zero("as it is").trade(2500, 5000, "IRC Table R402.2"),
	bar("bar", "Edge bars", "Size of the edge bars.").zero("as it is").any(),
	choice("fieldsteel", "Field steel", "What reinforces the field.", "none", "mesh", "grid: grid of bars", "fiber: fibers in the mix alone").blank("as it is").zero("as it is"),
	row(Dose, "fiber", "Fibers", "Dose; 0 for none.").blank("as it is").from(0, 200).trade(0.5, 15, practice).zero("none"),
)

var listRows = rows("price.prices",
	part("", "Price list", "The prices that the bid was made with; none for the current ones.").
		rule(differentItems, differ("tasks", "name"), differ("fees", "name")),
	text("name", "Name", "What the list is called."),
	text("date", "Date", "Of the list, as 2026-04-12."),
	row(Days, "days", "Prices good for", "A bid with older ones is a draft.").from(0, 3660).trade(14, 365, practice).zero("however old"),
	check("invented", "Invented", "An example: replace it before bidding."),
	text("currency", "Currency", "Sign before amounts: $."),
	choice("units", "Units", "Of the jobs it is for.", "ft-in: feet and inches", "mm: millimeters").unshown("follows the job's units"),
	money("wage", "Wage per hour", "Of a labor hour, with taxes and insurance.").from(0, 1e12),
	count("crew", "Crew", "People who work at once.").from(0, plenty),
	number("crewday", "Paid by parts of a crew's day", "Labor goes up to whole parts of a day of 8 hours for all: 1, 0.5.").from(0, 1).digits(12).zero("by the hour"),
)

var itemRows = rows("price.prices.items[]",
	list("", "item", "A material as it is sold, and its price.").rule(pricesSomething),
	part("what", "Prices", "What it prices, with the fields of price.others[]; of two that fit, the one that names more counts. Mix strength, air and water reducer price what a mix costs beside the concrete.").like("price.others[]"),
	text("name", "Name", "What the supplier calls it: said beside its name in the takeoff where it is another.").needed(),
	choice("group", "Group", "The supplier it comes from.", "Ready-mix", "Steel", "Lumber", "Base and insulation", "Hardware"),
	text("unit", "Sold by", "As sold: yd³, bar, box of 25.").needed(),
	text("of", "Unit of the takeoff", "Of the takeoff line."),
	row(Number, "pack", "Pack", "How much of the line is in one unit as sold.").from(0, 1e12).digits(12).zero("1"),
	check("loose", "Sold by hundredths, not by whole units", "Else whole ones are bought."),
	choice("by", "Priced by", "By length, area, volume or weight where the price is for a foot, a square foot, a board foot or a pound of a piece; in a metric job for a meter, a square or cubic meter or a kilogram.", "length", "area", "volume", "weight").zero("the unit as sold"),
	money("price", "Price", "Of one unit, or of a foot or meter of a piece.").from(0, 1e12).blank("no price: a bid that takes it is a draft"),
	count("uses", "Jobs that one serves", "Jobs that one purchase serves, as of form boards.").from(0, plenty).trade(1, 20, practice).zero("1"),
	text("supplier", "Supplier", "Who sells it."),
	text("date", "Date of the price", "None for the list's."),
	text("quote", "Quote number", "The supplier's."),
	check("off", "Not used", "It stays on the list, and no job takes it."),
	text("until", "Good until", "The last day of the price, as 2026-04-12: a bid made later is a draft.").blank("as long as the list allows"),
)

// pricesSomething asks what an item prices.
func pricesSomething(w View) {
	switch {
	case w.text("what.kind") == "":
		w.fault("what.kind", "nothing", "name what the item prices")
	case w.text("what.kind") == "mix strength" && w.number("what.strength") <= 0:
		w.fault("what.strength", "nothing", "write the strength that it prices, in psi")
	}
}

// differentItems refuses two prices for the same.
func differentItems(w View) {
	seen := make(map[any]bool, w.count("items"))
	for _, item := range w.items("items") {
		what := item.value("what")
		if seen[what] {
			item.fault("what", "it a second time", "remove one of the two")
		}
		seen[what] = true
	}
}

var taskRows = rows("price.prices.tasks[]",
	list("", "task", "A piece of work that takes hours."),
	text("name", "Name", "What is done.").needed(),
	part("what", "By", "The quantity that drives it, with the fields of price.others[]; none for once per job.").like("price.others[]"),
	text("of", "Unit of the takeoff", "Of the takeoff line."),
	number("rate", "Done in a labor hour", "How much one person does in an hour.").over(0, 1e12).digits(12).when("what"),
	row(Hours, "each", "Hours besides, once a job", "Labor hours whatever the quantity.").from(0, 1e12).digits(12),
	choice("method", "Only where concrete is placed by", "As the job's pour has it.", "chute", "pump", "buggy").zero("any way"),
	check("off", "Not used", "It stays on the list, and no job takes it."),
)

var feeRows = rows("price.prices.fees[]",
	list("", "fee", "What is charged besides.").rule(feeByLine),
	text("name", "Name", "What it is for.").needed(),
	choice("for", "Charged", "Once per job, once where the job has a quantity, for each unit of it, for each day of the crew, in percent of the labor or of all other cost, or for each unit that the last load falls short.",
		"job: per job", "once: once where there is any", "unit: per unit", "day: per crew day", "labor: % of labor", "cost: % of cost", "short load: per unit short"),
	part("what", "By", "The quantity, for a fee per unit or once where there is any, with the fields of price.others[].").like("price.others[]"),
	text("of", "Unit of the takeoff", "Of the takeoff line."),
	row(Number, "pack", "For each begun", "How many units one charge covers.").from(0, 1e12).digits(12).zero("1"),
	row(Number, "least", "Least load without a fee", "For a short load: no fee from this load up.").from(0, 1e12).digits(12),
	money("amount", "Amount", "Charged each time.").from(0, 1e12).blank("no price: a bid that takes it is a draft"),
	check("tool", "Equipment, not a supplier's fee", "It is charged for equipment."),
	choice("method", "Only where concrete is placed by", "As the job's pour has it.", "chute", "pump", "buggy").zero("any way"),
	check("off", "Not used", "It stays on the list, and no job takes it."),
)

// feeByLine asks what a fee per unit is charged by.
func feeByLine(w View) {
	if (w.text("for") == "unit" || w.text("for") == "once") && w.text("what.kind") == "" {
		w.fault("what.kind", "nothing", "name the quantity that the fee is for")
	}
}
