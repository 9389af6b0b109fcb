package field

import "fmt"

var visitRows = rows("visit",
	part("", "Site visit", "What was seen on the site before the bid. It takes part in no figure.").rule(photographs),
	row(Date, "date", "Visited on", "The day of the visit.").blank(notWritten),
	text("access", "Access", "How a truck comes in and where it stands, as it was seen.").long(2000),
	text("lines", "Overhead and buried lines", "What is over the slab and under it, as it was seen.").long(2000),
	text("ground", "Ground", "Slope, soil, water, as it was seen.").long(2000),
	text("old", "Old slab", "The slab that is there, as it was seen.").long(2000),
	text("building", "Building", "What will stand on the slab, as it was said.").long(2000),
	text("onsite", "On site", "Water, power, room, as it was seen.").long(2000),
	list("photos[]", "photograph", "A photograph of the site.").items(0, 24).named("name"),
	text("photos[].name", "Of what", "What it shows, and from where.").letters(120),
	row(Date, "photos[].date", "Taken on", "The day that it shows.").blank(notWritten),
	row(Picture, "photos[].image", "Picture", "A PNG or JPEG file in base64.").unshown("the picture itself is shown"),
	check("photos[].placed", "On the plan", "Its number stands on the plan where it was taken.").unshown("set by placing it on the plan"),
	point("photos[].at", "Place", "Where it was taken from.").when("placed"),
)

// photographs asks that each photograph is a picture, and that all together leave a job
// file its size.
func photographs(w View) {
	total := 0
	for _, p := range w.items("photos") {
		image := p.text("image")
		if total += len(image); !picture(image) {
			p.fault("image", "no picture", "give a PNG or JPEG file in base64, or remove the photograph")
		}
	}
	if total > mostPhotos {
		w.fault("photos", fmt.Sprintf("%.1f MB of photographs", float64(total)/1e6), fmt.Sprintf("leave some out: a job keeps %d MB of them", mostPhotos/1_000_000))
	}
}

// mostPhotos is how many letters the photographs of a job take: with a sketch and the rest
// they stay within the bound of a job file.
const mostPhotos = 10_000_000
