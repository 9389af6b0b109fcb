package window

import (
	"strings"

	"haunchbook.example/app/window/pages/printing"
)

// helpOf says what a page is for and how it is used.
func helpOf(page int) [][2]string {
	return [][][2]string{
		planPage: {
			{"Draw the slab", "A rectangle by its sides (R) or an outline point by point (L): point, type the length, Enter. A sketch, a photo or a page of a PDF file can lie under it: Menu, Slab, Draw over a sketch."},
			{"Tell what is there", "Doors (D), the edge against the old slab (J), bolt marks (K), holes, pads, thickened strips and falls. Click any of them to change it, or any number on the plan."},
			{"Beside the plan", "Edit: what is selected. Checks: what is wrong or to be known, with its place. Spec: steel, base, mix and forms. Job: name, site and customer. Takeoff: every quantity; click one to see how it comes about."},
			{"Print", "Print sheets (Ctrl+P): a preview, then the files for crew, supplier and customer."},
		},
		pricePage: {
			{"Prices", "Each line of the job with its quantity, its price and what it comes to. Type a price over another; click a line to see its working."},
			{"Import prices", "A supplier's list, or a material request that came back filled in. It is shown first, and taken when you say so."},
			{"Your own", "The starting prices are invented. A bid is a draft until the lines that the job uses are your own."},
			{"From cost to bid", "Overhead, profit, tax, extras and terms stand at the right, the sum above them."},
		},
		optionsPage: {
			{"How deep?", "The line is the bid, the bars are the concrete, over the depth of the edges. Drag the mark, or move it with the arrow keys: section and figures follow."},
			{"Side by side", "The usual edge depths, or your own options; an empty field keeps what is drawn. Use this makes one the job's, and keeps the others."},
			{"What moves the price", "One usual step of each thing, the most first. Compare puts it beside the others."},
			{"To talk over", "Print sheets has a page of this for the customer, without any cost."},
		},
		pourPage: {
			{"The day", "Trucks, lanes with their bays, troweling and weather on one axis of time; the order, the trucks and the bays in figures below."},
			{"At the right", "Site, crew, trucks and reach. Places for the truck or pump are clicked on the picture."},
			{"Weather", "The hours of the forecast give evaporation and the time of troweling."},
		},
		bookPage: {
			{"Jobs", "All jobs of the book, their states, and what was printed of each: two revisions can be compared."},
			{"What it took", "Enter what a job really took; waste and rates are learned from it."},
			{"Safe", "Backups are made daily. Name a second place for them on another disk."},
		},
	}[page]
}

// next says what to do next, in one line, until sheets have been printed once.
func (w *Window) next() string {
	switch {
	case w.app.Preferences().String(printing.FolderKey) != "":
		return ""
	case w.doc.Blank():
		return "Next: draw the outline, a rectangle (R) or point by point (L)"
	case len(w.doc.Faults()) > 0:
		return "Next: mend what Checks names, beside the plan"
	case w.doc.Prices().Invented:
		const prices = "your prices, on the page Price: import a list, or type over them"
		if lacks := w.lacks(); lacks != "" {
			return "Next: " + lacks + ", where there are any; then " + prices
		}
		return "Next: " + prices
	}
	return "Next: print the sheets (Ctrl+P)"
}

// lacks names what most slabs have along their edges and the job has not, with its keys.
func (w *Window) lacks() string {
	var doors, joint, bolts bool
	for _, p := range w.doc.Job().Slabs {
		for _, e := range p.Outline {
			doors = doors || len(e.Doors) > 0
			joint = joint || e.Joint
			bolts = bolts || len(e.Bolts) > 0 || e.Wall != ""
		}
	}
	var names []string
	for _, x := range []struct {
		there bool
		name  string
	}{{doors, "doors (D)"}, {joint, "the joint with an old slab (J)"}, {bolts, "bolts (K)"}} {
		if !x.there {
			names = append(names, x.name)
		}
	}
	return strings.Join(names, ", ")
}
