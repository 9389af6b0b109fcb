package field

var jobRows = rows("",
	part("", "The job", "Who it is for, where it is, and in which units it is printed."),
	text("$schema", "Schema", "Where the schema of this file is found, for editors that know JSON Schema; written by the program, and not needed.").unshown("of the file, not of the job"),
	count("haunchbook", "Version of the file", "Always given. Files of earlier versions are read too.").unshown("of the file, not of the job"),
	text("name", "Name", "What the job is called on the sheets and in the job book."),
	text("customer", "Customer", "Who it is for."),
	text("site", "Site", "Where it is."),
	text("date", "Date", "As printed on the sheets, in any form."),
	text("revision", "Revision", "As printed on the sheets."),
	text("notes", "Notes", "Printed on the sheet.").long(100_000),
	choice("units", "Units", "How lengths are printed, and the units that things are bought in.", "ft-in: feet and inches", "mm: millimeters"),
)

var sketchRows = rows("sketch",
	part("", "Sketch", "A photograph of a sketch under the plan, to draw over. It takes part in no figure.").rule(sketch),
	row(Picture, "image", "Picture", "A PNG or JPEG file in base64.").unshown("the picture itself is shown"),
	point("corners[]", "Corner", "Where its corners lie on the plan: upper left, upper right, lower right, lower left.").unshown("fitted on the plan by known lengths"),
	percent("fade", "Fade", "From 0 as it is to 100 not to be seen.").from(0, 100).when("image"),
	check("locked", "Locked", "It can be neither dragged nor fit."),
	check("hidden", "Hidden", "It is not drawn."),
)
