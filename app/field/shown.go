package field

// What the window shows beside the fields of a job file, each in one or more places.
var (
	Frost   = text("", "Frost depth", "How deep frost goes below the ground at the site; empty where it does not matter. The local code and the building official give it.")
	ToEnd   = text("", "To end corner", "To the corner where the edge ends.")
	CoverOf = choice("", "Measured from", "The side from which the bar's cover is given.", "the underside", "the top")
)
