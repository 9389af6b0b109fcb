package sheet

import (
	"context"
	"io"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/export/look"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/drawing"
)

// WriteHowDeep writes the page to talk over with the customer how deep the edges are
// to go: the price and the concrete over the depth, the edges side by side to one
// scale with what each comes to, and what else moves the price; in each language one. No
// cost, hour, percentage or supplier stands on it. The error is estimate.ErrNoEdge for a
// job without a haunch.
func WriteHowDeep(ctx context.Context, w io.Writer, h *handover.Handover, o Options) error {
	pages, err := HowDeepPages(ctx, h, o)
	if err != nil {
		return err
	}
	return writePDF(ctx, w, pages[0].Name+" "+h.Job().Name, pages, o)
}

// HowDeepPages gives the pages that WriteHowDeep writes, one in each language.
func HowDeepPages(ctx context.Context, h *handover.Handover, o Options) ([]Page, error) {
	all, err := howDeeps(ctx, h, o)
	return finished(all), err
}

// howDeeps draws the page in each of its languages.
func howDeeps(ctx context.Context, h *handover.Handover, o Options) ([]bid, error) {
	of, err := h.HowDeep(ctx)
	if err != nil {
		return nil, err
	}
	outcomes, err := h.SideBySide(ctx)
	if err != nil {
		return nil, err
	}
	e, err := h.Estimate(ctx)
	if err != nil {
		return nil, err
	}
	j := h.Job()
	paper, r := letter(j, o)
	var out []bid
	for _, say := range o.speakers(j) {
		b := bid{draft: newDraft(say.Word(howDeep), paper.Width, paper.Height), title: howDeep, j: j, e: e, o: o, r: r, size: 9}
		b.say, b.offer.Not = say, e.Draft(o.Date)
		b.talkOver(h, of, outcomes)
		out = append(out, b)
	}
	return out, nil
}

// howDeep heads the page.
const howDeep = "How deep?"

// talkOver draws the page.
func (b bid) talkOver(h *handover.Handover, of handover.HowDeep, outcomes []estimate.Outcome) {
	j, r := b.j, b.r
	top := b.head()
	drawn := of.At[of.Drawn]
	said := []string{"As drawn the edges are " + drawn.Edge.Text(j.Units) + " deep. Deeper edges take more digging, concrete and forms; the price rises with them, and by more where one more truck or wider boards are needed."}
	if text := of.Deeper(j.Units); text != "" {
		said = append(said, text)
	}
	top = b.section(top, "Price and depth of the edges", said)
	top = b.curve(top, of)
	top = b.sideBySide(top, h, outcomes)
	var moves []string
	for _, m := range of.Movers {
		if !m.Open && !m.Difference.IsZero() {
			moves = append(moves, m.Option.Name+": "+b.change(m.Difference))
		}
	}
	if len(moves) > 0 {
		top = b.section(top, "What else moves the price, the most first", []string{strings.Join(moves, "; ") + "."})
	}
	b.paragraph(r.X0, top-2, r.Width(), sizeSmall, false, "To compare by; the bid rules. "+cautionDefer)
}

// change says what is added to the price, or taken off.
func (b bid) change(d decimal.Decimal) string {
	if d.IsPositive() {
		return "+" + estimate.Money(b.e.Prices.Currency, d)
	}
	return estimate.Money(b.e.Prices.Currency, d)
}

// Of the chart over the depth, mm.
const (
	curveTall = 62.0
	curveSide = 24.0
)

// curve draws the price as a line over the depth, and the concrete as bars below it.
func (b bid) curve(top float64, of handover.HowDeep) float64 {
	at, u, cur := of.At, b.j.Units, b.e.Prices.Currency
	x0, x1 := b.r.X0+curveSide, b.r.X1-curveSide
	foot := top - curveTall
	first, last := at[0].Edge, at[len(at)-1].Edge
	x := func(d geometry.Length) float64 { return x0 + (x1-x0)*float64(d-first)/float64(max(1, last-first)) }
	price, concrete := of.Rise(handover.ByBid), of.Rise(handover.ByConcrete)
	for i := range at {
		price[i] = foot + 32 + (curveTall-48)*price[i]
		concrete[i] = foot + 6 + 16*concrete[i]
	}
	wide := (x1 - x0) / float64(len(at)) * 0.35
	for i, a := range at {
		fill := look.Pale
		if i == of.Drawn {
			fill = gray
		}
		b.fill(Notes, fill, Point{X: x(a.Edge) - wide, Y: foot}, Point{X: x(a.Edge) + wide, Y: foot}, Point{X: x(a.Edge) + wide, Y: concrete[i]}, Point{X: x(a.Edge) - wide, Y: concrete[i]})
	}
	b.line(Notes, penRule, Point{X: x0, Y: foot}, Point{X: x1, Y: foot})
	var ends [3]float64 // of the rows of what comes at a depth
	for _, s := range of.Steps {
		b.line(Notes, penHatch, Point{X: x(s.Depth), Y: foot}, Point{X: x(s.Depth), Y: top - 1 - 4*float64(len(ends))})
		half := textWidth(b.say.Say(s.Text), sizeFine, false) / 2
		for row := range ends {
			if left := x(s.Depth) - half; left > ends[row] {
				b.writeMid(x(s.Depth), top-3-4*float64(row), sizeFine, false, s.Text)
				ends[row] = left + 2*half + 2
				break
			}
		}
	}
	var line []Point
	for i, a := range at {
		line = append(line, Point{X: x(a.Edge), Y: price[i]})
	}
	b.line(Notes, penHeavy, line...)
	drawn := at[of.Drawn]
	b.circle(Notes, penRule, black, Point{X: x(drawn.Edge), Y: price[of.Drawn]}, 1)
	for _, i := range []int{0, len(at) - 1} {
		a := at[i]
		amount, volume := estimate.Money(cur, a.Bid), a.Ordered.String()+" "+string(a.Volume)
		if i == 0 {
			b.writeRight(x0-3, price[i]-1, sizeSmall, false, amount)
			b.writeRight(x0-3, concrete[i]-1, sizeSmall, false, volume)
		} else {
			b.write(x1+3, price[i]-1, sizeSmall, false, amount)
			b.write(x1+3, concrete[i]-1, sizeSmall, false, volume)
		}
		b.writeMid(x(a.Edge), foot-4, sizeSmall, false, a.Edge.Text(u))
	}
	if of.Drawn > 0 && of.Drawn < len(at)-1 {
		b.writeMid(x(drawn.Edge), foot-4, sizeSmall, true, drawn.Edge.Text(u))
	}
	return foot - 8
}

// sideBySide draws the job as drawn and its options: their edges to one scale, and
// what each comes to.
func (b bid) sideBySide(top float64, h *handover.Handover, outcomes []estimate.Outcome) float64 {
	const label, tall = 24.0, 34.0
	var shown []estimate.Outcome
	var figures []*drawing.Drawing
	var lo, hi geometry.Point
	for _, o := range outcomes {
		s, ok := h.MainEdge(o)
		if !ok {
			continue
		}
		of := s.Detail(b.j.Spec.Place.Bars.Size)
		of.Plain = true
		d := of.Drawing(b.j.Units)
		low, high, _ := d.Bounds()
		lo, hi = geometry.Point{X: min(lo.X, low.X), Y: min(lo.Y, low.Y)}, geometry.Point{X: max(hi.X, high.X), Y: max(hi.Y, high.Y)}
		shown, figures = append(shown, o), append(figures, d)
	}
	wide := (b.r.Width() - label) / float64(max(1, len(shown)))
	area := drawing.Rect{X1: wide, Y1: tall}
	scale := min((wide-3)/float64(max(1, hi.X-lo.X)), (tall-3)/float64(max(1, hi.Y-lo.Y)))
	type row struct {
		name string
		bold bool
		text func(estimate.Outcome) string
	}
	rows := []row{
		{"Price", true, func(o estimate.Outcome) string { return estimate.Money(b.e.Prices.Currency, o.Bid) }},
		{"Difference", false, func(o estimate.Outcome) string {
			if o.Difference.IsZero() {
				return "–"
			}
			return b.change(o.Difference)
		}},
		{"Edge depth", false, func(o estimate.Outcome) string { return o.Edge.Text(b.j.Units) }},
		{"Concrete", false, func(o estimate.Outcome) string { return o.Ordered.String() + " " + string(o.Volume) }},
		{"Trucks", false, func(o estimate.Outcome) string { return strconv.Itoa(o.Trucks) }},
	}
	if h.Frost() > 0 {
		rows = append(rows, row{"Below frost", false, func(o estimate.Outcome) string { return map[bool]string{true: "yes", false: "no"}[o.Frost] }})
	}
	for i, o := range shown {
		x := b.r.X0 + label + wide*float64(i)
		name := shorten(b.say.Say(o.Name), wide-1, sizeSmall, true)
		b.draft.writeMid(x+wide/2, top-3, sizeSmall, true, name)
		p := drawing.Place(figures[i], drawing.Options{View: drawing.ViewIn(scale, lo, hi, area), Area: area, Fonts: look.Fonts{}, Manner: &drawing.OnDetail})
		p.Draw(ink{b.draft, Point{X: x, Y: top - 4 - tall}})
		y := top - 9 - tall
		for _, r := range rows {
			b.writeMid(x+wide/2, y, sizeSmall, r.bold, r.text(o))
			y -= 4.8
		}
	}
	y := top - 9 - tall
	for _, r := range rows {
		b.write(b.r.X0, y, sizeSmall, false, r.name)
		b.line(Notes, penHatch, Point{X: b.r.X0, Y: y - 1.5}, Point{X: b.r.X1, Y: y - 1.5})
		y -= 4.8
	}
	return y - 2
}
