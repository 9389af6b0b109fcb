package sheet

import (
	"fmt"
	"io"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook/app/estimate"
	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/geometry/plan"
)

// WriteBid writes the bid for the customer: one page with the scope, the sizes,
// what is included and what is not, the price, and blanks for terms, validity and
// signatures. Nothing else of the estimate appears on it: no cost, quantity to
// buy, hour, percentage or supplier.
func WriteBid(w io.Writer, j job.Job, t takeoff.Takeoff, e estimate.Estimate, o Options) error {
	p, err := BidPage(j, t, e, o)
	if err != nil {
		return err
	}
	return writePDF(w, "Bid: "+j.Name, []Page{p}, o)
}

// BidPage gives the page that WriteBid writes.
func BidPage(j job.Job, t takeoff.Takeoff, e estimate.Estimate, o Options) (Page, error) {
	if len(t.Slabs) == 0 {
		return Page{}, errEmpty
	}
	paper := o.Paper
	if paper == (Paper{}) {
		paper = Papers(j.Units)[0]
	}
	d := newDraft("Bid", paper.Width, paper.Height)
	const side = 20.0
	b := bid{d, j, t, e, o, rect{side, 18, paper.Width - side, paper.Height - 18}}
	b.draw()
	return d.finish(), nil
}

type bid struct {
	*draft
	j job.Job
	t takeoff.Takeoff
	e estimate.Estimate
	o Options
	r rect
}

// Sizes of the bid's text: it is read at a desk.
const sizeBid = 10.0

func (b bid) draw() {
	top := b.head()
	top = b.section(top, "Scope", b.scope())
	half := (b.r.width() - 8) / 2
	in := b.list(b.r.x0, top, half, "Included", b.included())
	out := b.list(b.r.x0+half+8, top, half, "Not included", b.excluded())
	top = min(in, out) - 3
	top = b.price(top)
	b.closing(top)
}

// head draws who bids to whom.
func (b bid) head() float64 {
	r, top := b.r, b.r.y1
	x := r.x0
	if l := b.o.Company.Logo; l != nil && l.Bounds().Dx() > 0 && l.Bounds().Dy() > 0 {
		h := 18.0
		w := min(45, h*float64(l.Bounds().Dx())/float64(l.Bounds().Dy()))
		h = w * float64(l.Bounds().Dy()) / float64(l.Bounds().Dx())
		b.page.Items = append(b.page.Items, Picture{l, Point{x, top - h}, w})
		x += w + 4
	}
	name := b.o.Company.Name
	if name != "" {
		b.write(x, top-5, sizeTitle, true, shorten(name, r.width()*0.6, sizeTitle, true))
	} else {
		b.line(Notes, penRule, Point{x, top - 6}, Point{x + 70, top - 6})
		b.write(x, top-10, sizeFine, false, "company")
	}
	y := top - 11.5
	for i, l := range b.o.Company.Lines {
		if i < 3 && name != "" {
			b.write(x, y, sizeSmall, false, shorten(l, r.width()*0.6, sizeSmall, false))
			y -= 4.2
		}
	}
	b.writeRight(r.x1, top-5, sizeTitle, true, "Bid")
	b.writeRight(r.x1, top-11.5, sizeBid, false, revision(b.j, b.o))
	top -= 25
	b.line(Notes, penHeavy, Point{r.x0, top}, Point{r.x1, top})
	top -= 6
	for _, f := range [][2]string{{"For", b.j.Customer}, {"At", b.j.Site}, {"Work", b.j.Name}} {
		if f[1] == "" {
			continue
		}
		b.write(r.x0, top, sizeBid, false, f[0])
		b.write(r.x0+16, top, sizeBid, true, shorten(f[1], r.width()-16, sizeBid, true))
		top -= 5.4
	}
	if !b.e.Ready() {
		b.write(r.x0, top-1, sizeHead, true, "Draft. Not an offer: prices are to be confirmed.")
		top -= 7
	}
	return top - 2
}

func (b bid) section(top float64, title string, paras []string) float64 {
	b.write(b.r.x0, top-4, sizeHead, true, title)
	top -= 7
	for _, p := range paras {
		top = b.paragraph(b.r.x0, top, b.r.width(), sizeBid, false, p) - 1
	}
	return top - 3
}

func (b bid) list(x, top, width float64, title string, items []string) float64 {
	b.write(x, top-4, sizeHead, true, title)
	top -= 7
	for _, it := range items {
		b.write(x, top-capHeight*sizeBid*mmPerPoint, sizeBid, false, "•")
		top = b.paragraph(x+4, top, width-4, sizeBid, false, it) - 0.6
	}
	return top
}

// scope says in words what is built.
func (b bid) scope() []string {
	u, p := b.j.Units, b.j.Slabs[0]
	lo, hi := p.Outline.Corners().Bounds()
	first := fmt.Sprintf("A concrete slab on ground, %s × %s overall", (hi.X - lo.X).Text(u), (hi.Y - lo.Y).Text(u))
	if l, ok := b.t.Line("slab.area"); ok {
		first += fmt.Sprintf(", %.0f %s", l.Value, l.Unit)
	}
	first += fmt.Sprintf(", %s thick", p.Field.Text(u))
	if main, ok := estimate.MainSection(b.j.Slabs); ok && main.Deepest() > p.Field {
		first += fmt.Sprintf(", edges thickened to %s", main.Deepest().Text(u))
	}
	out := []string{first + "."}
	m := b.j.Spec.Mix
	mix := fmt.Sprintf("Ready-mixed concrete to ASTM C94/C94M, %d psi at 28 days", m.Strength)
	if m.Air > 0 {
		mix += fmt.Sprintf(", air-entrained, %g %%", m.Air)
	}
	if m.Fiber > 0 {
		mix += ", with fibers"
	}
	if m.Reducer {
		mix += ", with water reducer"
	}
	out = append(out, mix+".")
	if d := b.doors(); d != "" {
		out = append(out, "Openings: "+d+".")
	}
	return out
}

func (b bid) doors() string {
	var parts []string
	for _, l := range b.j.Slabs[0].Loops() {
		for _, e := range l {
			for _, d := range e.Doors {
				kind := "walk door"
				if d.Kind == plan.Overhead {
					kind = "overhead door"
				}
				parts = append(parts, fmt.Sprintf("%s %s", kind, d.Width.Text(b.j.Units)))
			}
		}
	}
	return strings.Join(parts, ", ")
}

// included lists the work that the layout holds.
func (b bid) included() []string {
	l, base, u := b.t.Slabs[0].Layout, b.j.Spec.Base, b.j.Units
	var out []string
	add := func(ok bool, s string) {
		if ok {
			out = append(out, s)
		}
	}
	add(len(l.Forms) > 0, "Setting and stripping forms")
	add(base.Gravel > 0, base.Gravel.Text(u)+" of compacted gravel")
	add(base.Foam > 0, base.Foam.Text(u)+" of insulation under the slab")
	add(base.Retarder > 0, fmt.Sprintf("Vapor retarder, %d mil", base.Retarder))
	add(len(l.Bars) > 0, "Reinforcing bars")
	add(len(l.Mesh) > 0, "Welded wire reinforcement")
	add(len(l.Dowels) > 0, "Dowels into the existing slab")
	add(anyBolts(b.t), "Anchor bolts, set to the wall layout")
	out = append(out, "Placing, finishing and curing")
	add(len(l.Joints) > 0, "Sawing control joints")
	return out
}

func anyBolts(t takeoff.Takeoff) bool {
	for _, w := range t.Slabs[0].Layout.Walls {
		if len(w.Bolts) > 0 {
			return true
		}
	}
	return false
}

// excluded lists what the customer might expect and is not in the price.
func (b bid) excluded() []string {
	var out []string
	plates := false
	for _, l := range b.e.Lines {
		if !l.ByOthers {
			continue
		}
		if strings.HasPrefix(l.Key, "plates.") {
			plates = true
			continue
		}
		out = append(out, l.Name+" (by others)")
	}
	if plates {
		out = append(out, "Sill plates (by others)")
	}
	return append(out,
		"Permits, engineering and inspections",
		"Moving pipes, cables and drains",
		"Rock, unsuitable ground and dewatering",
		"Protection from weather beyond curing",
		"Anything not named here",
	)
}

// price draws the amounts.
func (b bid) price(top float64) float64 {
	r, cur := b.r, b.e.Prices.Currency
	x := r.x1 - 85
	row := func(name string, v decimal.Decimal, bold bool) {
		size := float64(sizeBid)
		if bold {
			size = sizeHead + 1
		}
		b.write(x, top-4.5, size, bold, name)
		b.writeRight(r.x1, top-4.5, size, bold, money(v, cur))
		top -= 6.6
	}
	b.line(Notes, penRule, Point{x, top}, Point{r.x1, top})
	if b.e.Tax.IsZero() {
		row("Price", b.e.Bid, true)
	} else {
		row("Price", b.e.Price, false)
		row("Sales tax", b.e.Tax, false)
		b.line(Notes, penRule, Point{x, top}, Point{r.x1, top})
		row("Total", b.e.Bid, true)
	}
	b.line(Notes, penHeavy, Point{x, top}, Point{r.x1, top})
	return top - 4
}

// money prints an amount with its currency sign and separated thousands.
func money(v decimal.Decimal, currency string) string {
	s := v.Abs().StringFixed(2)
	whole, cents, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	sign := ""
	if v.IsNegative() {
		sign = "-"
	}
	return sign + currency + whole + "." + cents
}

// closing draws the blanks to fill in.
func (b bid) closing(top float64) {
	r := b.r
	blank := func(x0, x1, y float64, name string) {
		b.write(x0, y, sizeBid, false, name)
		b.line(Notes, penRule, Point{x0 + textWidth(name, sizeBid, false) + 1.5, y - 0.6}, Point{x1, y - 0.6})
	}
	rows := [][]string{
		{"Payment terms"}, {""}, {"Start of work", "Finished by"}, {"This bid is good until"},
	}
	for _, row := range rows {
		top -= 8.5
		w := (r.width() - 8) / 2
		for i, name := range row {
			x0, x1 := r.x0, r.x1
			if len(row) == 2 {
				x0 = r.x0 + float64(i)*(w+8)
				x1 = x0 + w
			}
			if name == "This bid is good until" {
				x1 = r.x0 + w
			}
			blank(x0, x1, top, name)
		}
	}
	top -= 16
	w := (r.width() - 12) / 2
	for i, name := range []string{"For the contractor, date", "Accepted by the customer, date"} {
		x := r.x0 + float64(i)*(w+12)
		b.line(Notes, penRule, Point{x, top}, Point{x + w, top})
		b.write(x, top-4, sizeSmall, false, name)
	}
	note := "Work follows the local code. Changes are agreed in writing before they are made."
	b.write(r.x0, r.y0, sizeSmall, false, shorten(note, r.width(), sizeSmall, false))
}
