package field

// What is written down after a pour stands in no job file: the book keeps it beside the
// job, and an export has it as record.json. Its rows lie under "record".

const notWritten = "not written down"

var loadRows = rows("record.loads[]",
	list("", "load", "What came in one truck, by its ticket and as it was on the site.").items(0, 200).named("ticket"),
	text("ticket", "Ticket", "Its number.").letters(40),
	row(Volume, "volume", "Volume", "By the ticket. The loads that were not sent back add up to what was delivered.").from(0, 100).trade(1, 12, practice).zero(notWritten),
	row(Time, "batched", "Batched", "When water met cement, by the ticket.").blank(notWritten),
	row(Time, "arrived", "Arrived", "When it was on the site.").blank(notWritten),
	row(Time, "started", "Started", "When its discharge began.").blank(notWritten),
	row(Time, "emptied", "Emptied", "When it was empty. From batching to this its age counts (ASTM C94/C94M-21: the purchaser's limit, else the producer's).").blank(notWritten),
	inches("slump", "Slump", "As tested (ASTM C143/C143M).").from(0, 12*inch).trade(2*inch, 8*inch, practice).zero("not tested"),
	percent("air", "Air", "As tested, by volume (ASTM C231/C231M).").from(0, 20).trade(1, 9, practice).zero("not tested"),
	row(Temperature, "temperature", "Temperature", "Of the concrete (ASTM C1064/C1064M).").blank("not tested"),
	row(Water, "water", "Water", "Added on the site.").from(0, 500).trade(0, 40, practice).zero("none"),
	count("bay", "Bay", "Where it went, by the number of the bay on the sheet of the pour.").from(0, 1000).zero(notWritten),
	check("rejected", "Sent back", "Rejected on the site: it is listed, and counts as not delivered."),
)

var cylinderRows = rows("record.cylinders[]",
	list("", "set of cylinders", "Cylinders made of one load (ASTM C31/C31M), broken by ASTM C39/C39M.").items(0, 200).named("ticket"),
	text("ticket", "Ticket", "Of the load that they were made of.").needed().letters(40),
	row(PSI, "days7", "After 7 days", "Mean strength.").from(0, 20000).trade(1000, 8000, practice).zero("not broken yet"),
	row(PSI, "days28", "After 28 days", "Mean strength of two cylinders of 6 in or three of 4 in, which are one test (ACI 318-19, 26.12.1.1, from memory).").from(0, 20000).trade(1500, 10000, practice).zero("not broken yet"),
)
