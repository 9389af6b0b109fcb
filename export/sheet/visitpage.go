package sheet

import (
	"context"
	"io"

	"haunchbook.example/app/date"
	"haunchbook.example/app/handover"
)

// visitPart is a part of the list for a visit to the site: what to look at, each with room
// for the answer, and where in the program the answer goes.
type visitPart struct {
	title string
	items []string
	goes  string
}

// visit is what to look at before a bid (common practice, no source; the distances of
// pumps from power lines are those of the pumping association).
var visit = []visitPart{
	{"Access", []string{"Way in for trucks, width and turning", "Ground that carries a loaded truck", "Place to stand, reach to the far side", "Place for wash-out", "Neighbors, hours, parking"}, "Pour: places for a truck, chute or hose, placed by"},
	{"Overhead and buried lines", []string{"Power lines, how far and which voltage: a pump stays 20 ft away, 50 ft above 350 kV", "Utility locate called, ticket", "Private lines: well, septic, sprinklers, yard lights"}, "Job book, Holds and money"},
	{"Ground", []string{"Slope over the slab, high and low corner", "Soil, topsoil to take off, fill", "Water standing or running, drains", "Frost depth that the building department asks"}, "Spec: base; Ground: shots; Settings: frost depth"},
	{"Old slab", []string{"Thickness at the edge", "Top over or under the new one", "Joint: to tie, to slide, to part", "Bars, cracks, its saw cuts, moisture"}, "Edge: joint; Spec: dowels, old slab"},
	{"Building", []string{"Walls 2x4 or 2x6, doors and rough openings", "Posts, drains, sleeves, stub-ups", "Use, finish, heated or not", "Permit and inspections, who calls them"}, "Plan; Pour: use, finish; Holds and money"},
	{"On site", []string{"Water, power, toilet", "Spoil: stays or goes", "Weather expected, season"}, "Price: lines; Pour: weather"},
}

// WriteVisit writes the list for a visit to the site, to fill in by hand; it needs nothing
// drawn.
func WriteVisit(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages := VisitPages(h, o)
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}

// VisitPages gives the pages that WriteVisit writes.
func VisitPages(h *handover.Handover, o Options) (out []Page) {
	for _, p := range offices(h, o) {
		p.visit()
		out = append(out, p.finished()...)
	}
	return out
}

// visit draws the list, with a table for shots and one for photographs.
func (p *office) visit() {
	p.open("Site visit", date.On(p.options.Date))
	for _, part := range visit {
		if p.top < p.r.Y0+6+6*float64(len(part.items)) {
			p.turn("Site visit")
		}
		d := p.page()
		d.write(p.r.X0, p.top-4, sizeHead, true, p.say.Say(part.title))
		d.writeRight(p.r.X1, p.top-4, sizeFine, false, "→ "+p.say.Say(part.goes))
		p.top -= 6
		for _, it := range part.items {
			p.top = d.paragraph(p.r.X0+5, p.top, p.r.Width()*0.55-5, sizeSmall, false, p.say.Say(it)) - 2.6
			y := p.top + 2.2
			d.line(Notes, penRule, Point{X: p.r.X0 + 0.55*p.r.Width() + 2, Y: y}, Point{X: p.r.X1, Y: y})
			box := y + 1
			d.line(Notes, penRule, Point{X: p.r.X0, Y: box}, Point{X: p.r.X0 + 3, Y: box}, Point{X: p.r.X0 + 3, Y: box + 3}, Point{X: p.r.X0, Y: box + 3}, Point{X: p.r.X0, Y: box})
		}
		p.top -= 2
	}
	p.turn("Site visit")
	p.blanks("Shots: rod readings from one set-up", []string{"Where", "Reading", "Where", "Reading"}, 14)
	p.blanks("Photographs", []string{"No.", "Of what, from where", "No.", "Of what, from where"}, 12)
	p.foot("Call before you dig (811 in the US). Structural values: local code and a licensed engineer decide.")
}

// blanks draws a table to fill in.
func (p *office) blanks(title string, head []string, rows int) {
	d := p.page()
	d.write(p.r.X0, p.top-4, sizeHead, true, p.say.Say(title))
	p.top -= 8
	wide := p.r.Width() / float64(len(head))
	for i, h := range head {
		d.write(p.r.X0+float64(i)*wide+1, p.top-2, sizeSmall, true, p.say.Word(h))
	}
	p.top -= 4
	const tall = 7.0
	for n := range rows + 1 {
		y := p.top - tall*float64(n)
		d.line(Notes, penRule, Point{X: p.r.X0, Y: y}, Point{X: p.r.X1, Y: y})
	}
	for i := range len(head) + 1 {
		x := p.r.X0 + float64(i)*wide
		d.line(Notes, penRule, Point{X: x, Y: p.top}, Point{X: x, Y: p.top - tall*float64(rows)})
	}
	p.top -= tall*float64(rows) + 6
}
