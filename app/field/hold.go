package field

var holdRows = rows("holds[]",
	list("", "hold", "What holds the pour back until it is there, or waits after it. What is asked, and how long it holds, is the law of the place.").items(0, 60).named("kind"),
	choice("kind", "What", "A locate marks buried lines: in the US, call 811; how long a ticket holds is the law of the state.",
		"locate: utility locate", "permit", "footing: footing inspection", "steel: steel inspection", "prepour: pre-pour inspection", "inspection: other inspection", "strip: strip forms", "cure: cured"),
	text("name", "Name", "Which, or who: power and gas, the special inspector.").letters(60),
	text("number", "Number", "Of the ticket or the permit.").letters(40),
	row(Date, "asked", "Asked for", "Called in, or applied for.").blank(notWritten),
	row(Date, "from", "From", "Valid from; of an inspection, stripping and curing the day that is set for it.").blank(notWritten),
	row(Date, "until", "Until", "Valid to, that day included.").blank(notWritten),
	choice("result", "Result", "Of an inspection.", "open", "passed", "failed"),
	row(Date, "on", "On", "The day of the result.").blank(notWritten),
	text("note", "Note", "For oneself.").letters(200),
)
