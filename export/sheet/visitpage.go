package sheet

import (
	"cmp"
	"context"
	"io"

	"haunchbook.example/app/date"
	"haunchbook.example/app/field"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/visit"
)

// WriteVisit writes the list for a visit to the site, to fill in by hand; it needs nothing
// drawn. What was written down already stands under its topic.
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
	seen := p.job.Visit
	p.open("Site visit", cmp.Or(seen.Date, date.On(p.options.Date)))
	for _, topic := range visit.Topics {
		label, _ := field.At("visit." + topic.Field)
		said, _ := label.Of(seen, topic.Field).(string)
		tall := 0.0
		if said != "" {
			tall = float64(len(wrap(said, p.r.Width(), sizeSmall, false)))*leading(sizeSmall) + 2
		}
		if p.top < p.r.Y0+6+6*float64(len(topic.Items))+tall {
			p.turn("Site visit")
		}
		d := p.page()
		d.write(p.r.X0, p.top-4, sizeHead, true, p.say.Say(label.Label))
		p.top -= 6
		if said != "" {
			p.top = d.paragraph(p.r.X0, p.top, p.r.Width(), sizeSmall, false, said) - 2
		}
		for _, it := range topic.Items {
			p.top = d.paragraph(p.r.X0+5, p.top, p.r.Width()*0.55-5, sizeSmall, false, p.say.Say(it)) - 2.6
			y := p.top + 2.2
			d.line(Notes, penRule, Point{X: p.r.X0 + 0.55*p.r.Width() + 2, Y: y}, Point{X: p.r.X1, Y: y})
			box := y + 1
			d.line(Notes, penRule, Point{X: p.r.X0, Y: box}, Point{X: p.r.X0 + 3, Y: box}, Point{X: p.r.X0 + 3, Y: box + 3}, Point{X: p.r.X0, Y: box + 3}, Point{X: p.r.X0, Y: box})
		}
		p.top -= 2
	}
	if p.top < p.r.Y0+blanksTall(shotBlanks)+blanksTall(photoBlanks) {
		p.turn("Site visit")
	}
	p.blanks("Shots: rod readings from one set-up", []string{"Where", "Reading", "Where", "Reading"}, shotBlanks)
	p.blanks("Photographs", []string{"No.", "Of what, from where", "No.", "Of what, from where"}, photoBlanks)
	p.foot("Call before you dig (811 in the US). Structural values: local code and a licensed engineer decide.")
}

// How many rows the tables to fill in have, and how tall one is, mm.
const (
	shotBlanks  = 12
	photoBlanks = 12
	blankTall   = 7.0
)

// blanksTall gives how tall such a table is.
func blanksTall(rows int) float64 { return 18 + blankTall*float64(rows) }

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
	const tall = blankTall
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
