package sheet

import (
	"context"
	"fmt"
	"io"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
)

// WriteBid writes the bid for the customer, in each of its languages one page with the
// scope, the sizes, what is included and what is not, the price, and blanks for terms,
// validity and signatures. Where it is a draft it says so and why, and there is nothing
// to sign. Nothing else of the estimate appears on it: no cost, quantity to
// buy, hour, percentage or supplier.
func WriteBid(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages, err := BidPages(ctx, h, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, pages[0].Name+": "+h.Job().Name, pages, o)
}

// mostLetter is how wide a sheet may be, in millimeters, that a letter is written
// on.
const mostLetter = 230

// BidPages gives the pages that WriteBid writes, one in each language.
func BidPages(ctx context.Context, h *handover.Handover, o Options) ([]Page, error) {
	all, err := bids(ctx, h, o)
	return finished(all), err
}

// finished gives the pages of bids.
func finished(all []bid) (out []Page) {
	for _, b := range all {
		out = append(out, b.finish())
	}
	return out
}

// bids draws the bid in each of its languages.
func bids(ctx context.Context, h *handover.Handover, o Options) ([]bid, error) {
	j := h.Job()
	t, err := h.Takeoff(ctx)
	if err != nil {
		return nil, err
	}
	if len(t.Slabs) == 0 {
		return nil, errEmpty
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return nil, err
	}
	offer, err := h.Offer(ctx, o.Date)
	if err != nil {
		return nil, err
	}
	paper, r := letter(j, o)
	var out []bid
	for _, say := range o.speakers(j) {
		var b bid
		for _, size := range bidSizes {
			b = bid{newDraft(say.Word("Bid"), paper.Width, paper.Height), "Bid", j, t, e, offer, o, r, size}
			b.say = say
			if b.draw() {
				break
			}
		}
		out = append(out, b)
	}
	return out, nil
}

// What is written is said in the language of the page, before it is measured.

func (b bid) write(x, y, size float64, bold bool, s string) {
	b.draft.write(x, y, size, bold, b.say.Say(s))
}

func (b bid) writeRight(x, y, size float64, bold bool, s string) {
	b.draft.writeRight(x, y, size, bold, b.say.Say(s))
}

func (b bid) writeMid(x, y, size float64, bold bool, s string) {
	b.draft.writeMid(x, y, size, bold, b.say.Say(s))
}

func (b bid) paragraph(x, top, width, size float64, bold bool, s string) float64 {
	return b.draft.paragraph(x, top, width, size, bold, b.say.Say(s))
}

// shortened writes a text, as much of it as the width holds.
func (b bid) shortened(x, y, width, size float64, bold bool, s string) {
	b.draft.write(x, y, size, bold, shorten(b.say.Say(s), width, size, bold))
}

// letter gives the paper of what a customer gets, whatever the drawings are on, and
// the place for text on it.
func letter(j job.Job, o Options) (Paper, rect) {
	paper := o.Paper
	if paper == (Paper{}) || paper.Width > mostLetter {
		paper = Papers(j.Units)[0]
	}
	const side = 20.0
	return paper, rect{X0: side, Y0: 13, X1: paper.Width - side, Y1: paper.Height - 15}
}

type bid struct {
	*draft
	title string
	j     job.Job
	t     takeoff.Takeoff
	e     estimate.Estimate
	offer handover.Offer
	o     Options
	r     rect
	size  float64 // of its text
}

// bidSizes are the sizes of the bid's text, the largest first: a long bid is set
// smaller, so that it goes on one page.
var bidSizes = []float64{10, 9, 8, sizeFine}

// draw draws the bid; false where it takes more than the page.
func (b bid) draw() bool {
	top := b.head()
	top = b.section(top, "Scope", b.scope())
	half := (b.r.Width() - 8) / 2
	in := b.list(b.r.X0, top, half, "Included", b.offer.Included)
	out := b.list(b.r.X0+half+8, top, half, "Not included", b.offer.Excluded)
	top = min(in, out) - 3
	top = b.price(top)
	top = b.lists(top)
	return b.closing(top) > b.r.Y0+3.5
}

// head draws who bids to whom.
func (b bid) head() float64 {
	r, top := b.r, b.r.Y1
	x := r.X0
	if l := b.o.Company.Logo; l != nil && l.Bounds().Dx() > 0 && l.Bounds().Dy() > 0 {
		h := 18.0
		w := min(45, h*float64(l.Bounds().Dx())/float64(l.Bounds().Dy()))
		h = w * float64(l.Bounds().Dy()) / float64(l.Bounds().Dx())
		b.page.Items = append(b.page.Items, Picture{l, Point{X: x, Y: top - h}, w})
		x += w + 4
	}
	name := b.o.Company.Name
	if name != "" {
		b.shortened(x, top-5, r.Width()*0.6, sizeTitle, true, name)
	} else {
		b.line(Notes, penRule, Point{X: x, Y: top - 6}, Point{X: x + 70, Y: top - 6})
		b.write(x, top-10, sizeFine, false, "company")
	}
	y := top - 11.5
	for i, l := range b.o.Company.Lines {
		if i < 3 && name != "" {
			b.shortened(x, y, r.Width()*0.6, sizeSmall, false, l)
			y -= 4.2
		}
	}
	b.writeRight(r.X1, top-5, sizeTitle, true, b.title)
	b.writeRight(r.X1, top-11.5, b.size, false, revision(b.j, b.o, nil))
	top -= 25
	b.line(Notes, penHeavy, Point{X: r.X0, Y: top}, Point{X: r.X1, Y: top})
	top -= 6
	for _, f := range [][2]string{{"For", b.j.Customer}, {"At", b.j.Site}, {"Work", b.j.Name}} {
		if f[1] == "" {
			continue
		}
		b.write(r.X0, top, b.size, false, f[0])
		b.shortened(r.X0+16, top, r.Width()-16, b.size, true, f[1])
		top -= 0.54 * b.size
	}
	return b.reasons(top) - 2
}

// mostReasons is how many reasons a draft gives one by one.
const mostReasons = 9

// reasons says that the bid is a draft, and why.
func (b bid) reasons(top float64) float64 {
	if len(b.offer.Not) == 0 {
		return top
	}
	b.write(b.r.X0, top-2, sizeHead, true, "DRAFT. Not an offer, since:")
	top -= 5
	var items []string
	for _, r := range b.offer.Not[:min(len(b.offer.Not), mostReasons)] {
		items = append(items, r.Text)
	}
	if n := len(b.offer.Not) - mostReasons; n > 0 {
		items = append(items, fmt.Sprintf("and %s more", counted(n, "reason")))
	}
	return b.bullets(b.r.X0, top, b.r.Width(), min(b.size, sizeSmall), items)
}

func (b bid) section(top float64, title string, paras []string) float64 {
	b.write(b.r.X0, top-4, sizeHead, true, title)
	top -= 7
	for _, p := range paras {
		top = b.paragraph(b.r.X0, top, b.r.Width(), b.size, false, p) - 0.1*b.size
	}
	return top - 3
}

func (b bid) list(x, top, width float64, title string, items []string) float64 {
	b.write(x, top-4, sizeHead, true, title)
	return b.bullets(x, top-7, width, b.size, items)
}

func (b bid) bullets(x, top, width, size float64, items []string) float64 {
	for _, it := range items {
		b.write(x, top-capHeight*size*mmPerPoint, size, false, "•")
		top = b.paragraph(x+4, top, width-4, size, false, it) - 0.06*size
	}
	return top
}

// price draws the amounts.
func (b bid) price(top float64) float64 {
	r, cur := b.r, b.e.Prices.Currency
	x := r.X1 - 85
	row := func(name string, v decimal.Decimal, bold bool) {
		size := b.size
		if bold {
			size = b.size + 2
		}
		b.write(x, top-0.45*size, size, bold, name)
		b.writeRight(r.X1, top-0.45*size, size, bold, estimate.Money(cur, v))
		top -= 0.68 * size
	}
	b.line(Notes, penRule, Point{X: x, Y: top}, Point{X: r.X1, Y: top})
	switch o := b.offer; {
	case o.TaxInside:
		row("Total", o.Total, true)
	case o.Tax.IsZero():
		row("Price", o.Total, true)
	default:
		row("Price", o.Price, false)
		row("Sales tax", o.Tax, false)
		b.line(Notes, penRule, Point{X: x, Y: top}, Point{X: r.X1, Y: top})
		row("Total", o.Total, true)
	}
	b.line(Notes, penHeavy, Point{X: x, Y: top}, Point{X: r.X1, Y: top})
	if b.offer.TaxInside {
		b.writeRight(r.X1, top-3.5, sizeSmall, false, "Sales tax is in the price.")
		top -= 3
	}
	return top - 2
}

// lists draws what the customer may choose, and what more than is drawn costs.
func (b bid) lists(top float64) float64 {
	var items []string
	for _, a := range b.offer.Alternates {
		price := "add " + estimate.Money(b.e.Prices.Currency, a.Add)
		switch {
		case a.Asks:
			price = "price on request"
		case a.Add.IsNegative():
			price = "take off " + estimate.Money(b.e.Prices.Currency, a.Add.Neg())
		}
		items = append(items, a.Name+": "+price)
	}
	half := (b.r.Width() - 8) / 2
	left, right := top, top
	if len(items) > 0 {
		left = b.list(b.r.X0, top, half, "Alternates, chosen before the work begins", items) - 3
	}
	if len(b.offer.Units) > 0 {
		right = b.list(b.r.X0+half+8, top, half, "Unit prices", b.offer.Units) - 3
	}
	return min(left, right)
}

// closing draws the terms, and blanks for those that are not given. It gives the
// lowest place drawn on.
func (b bid) closing(top float64) float64 {
	r, terms := b.r, b.j.Price.Terms
	half := (r.Width() - 8) / 2
	step := 0.85 * b.size
	top -= step
	switch {
	case len(b.offer.Payments) > 0:
		for _, p := range b.offer.Payments {
			b.shortened(r.X0, top, r.Width()-35, b.size, false, "Payment, "+p.When)
			b.writeRight(r.X1, top, b.size, true, estimate.Money(b.e.Prices.Currency, p.Amount))
			top -= 0.6 * b.size
		}
		top += 0.6 * b.size
	case terms.Payment != "":
		b.write(r.X0, top, b.size, false, "Payment terms")
	default:
		b.entry(r.X0, r.X1, top, "Payment terms", "")
		top -= step
		b.line(Notes, penRule, Point{X: r.X0, Y: top - 0.6}, Point{X: r.X1, Y: top - 0.6})
	}
	if terms.Payment != "" {
		x := r.X0 + textWidth(b.say.Say("Payment terms"), b.size, false) + 1.5
		if len(b.offer.Payments) > 0 {
			x, top = r.X0, top-0.6*b.size
		}
		top = b.paragraph(x, top+capHeight*b.size*mmPerPoint, r.X1-x, b.size, true, terms.Payment) + 1
	}
	top -= step
	b.entry(r.X0, r.X0+half, top, "Start of work", terms.Start)
	b.entry(r.X0+half+8, r.X1, top, "Finished by", terms.Finish)
	top -= step
	if terms.Days > 0 {
		b.entry(r.X0, r.X1, top, "This bid is good for", counted(terms.Days, "day")+" from its date")
	} else {
		b.entry(r.X0, r.X0+half, top, "This bid is good until", "")
	}
	top -= 0.3 * b.size
	for _, text := range []string{terms.Concealed, terms.Notices} {
		if text != "" {
			top = b.paragraph(r.X0, top, r.Width(), min(b.size, sizeSmall), false, text) - 0.1*b.size
		}
	}
	if len(b.offer.Not) > 0 {
		b.write(r.X0, r.Y0, sizeSmall, true, "DRAFT. Not to be signed.")
		return top - 4
	}
	return b.signatures(top)
}

// entry writes a term, or a line to write it on.
func (b bid) entry(x0, x1, y float64, name, text string) {
	b.write(x0, y, b.size, false, name)
	x := x0 + textWidth(b.say.Say(name), b.size, false) + 1.5
	if text != "" {
		b.shortened(x, y, x1-x, b.size, true, text)
		return
	}
	b.line(Notes, penRule, Point{X: x, Y: y - 0.6}, Point{X: x1, Y: y - 0.6})
}

// licenseLine is the line of the company that has its license.
const licenseLine = 2

// signatures draws the acceptance, and where both sign.
func (b bid) signatures(top float64) float64 {
	r := b.r
	top = b.paragraph(r.X0, top-0.1*b.size, r.Width(), b.size, true, "Accepted: the work, the price and the terms above. Signed by both, this is what they agree on.")
	w := (r.Width() - 12) / 2
	top -= 1.1 * b.size
	for i, name := range []string{"For the contractor, date", "Accepted by the customer, date"} {
		x := r.X0 + float64(i)*(w+12)
		b.line(Notes, penRule, Point{X: x, Y: top}, Point{X: x + w, Y: top})
		b.write(x, top-3.5, sizeSmall, false, name)
	}
	top -= 3.5 + 0.8*b.size
	if len(b.o.Company.Lines) > licenseLine {
		b.entry(r.X0, r.X0+w, top, "Printed name", "")
	} else {
		b.entry(r.X0, r.X0+0.58*w, top, "Printed name", "")
		b.entry(r.X0+0.6*w, r.X0+w, top, "License", "")
	}
	b.entry(r.X0+w+12, r.X1, top, "Printed name", "")
	b.shortened(r.X0, r.Y0, r.Width(), sizeSmall, false, "The work is done as drawn. Changes are agreed in writing before they are made.")
	return top - 1
}
