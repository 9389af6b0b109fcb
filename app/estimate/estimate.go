package estimate

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Estimate is what a job costs and what is asked for it.
type Estimate struct {
	Lines []Line // materials by group, labor, fees, extras

	Materials decimal.Decimal // of the material lines
	Labor     decimal.Decimal
	Fees      decimal.Decimal // suppliers' fees, equipment and mobilization
	Extras    decimal.Decimal
	Hours     decimal.Decimal // labor hours
	CrewHours decimal.Decimal // with the crew at work together

	Cost     decimal.Decimal // sum of the lines
	Overhead decimal.Decimal
	Profit   decimal.Decimal
	Price    decimal.Decimal // before tax
	Taxed    decimal.Decimal // what tax is charged on
	Tax      decimal.Decimal
	Bid      decimal.Decimal // Price and Tax

	Spec    Spec      // as it was priced
	Prices  PriceList // as it was priced
	Working []takeoff.Step
	Wants   []Want // what stands between this and a bid
}

// Kind tells what a line is for.
type Kind string

const (
	Material  Kind = "Material"
	Labor     Kind = "Labor"
	Charge    Kind = "Fee"
	Equipment Kind = "Equipment"
	Other     Kind = "Extra"
)

// Line is one line of cost.
type Line struct {
	Kind  Kind
	Group Group      // of a material
	ID    takeoff.ID // of the takeoff line behind it; zero for none. Of labor and fees, what the list names
	Name  string

	Need     decimal.Decimal // from the takeoff
	Of       takeoff.Unit    // its unit
	Pack     decimal.Decimal // how much of Of is in one Unit
	Loose    bool            // Quantity need not be whole
	Quantity decimal.Decimal // to buy; hours for labor
	Unit     string
	Rate     decimal.Decimal // of labor: units of Need in one hour; 0 if there is none
	Each     decimal.Decimal // of labor: hours besides
	Price    decimal.Decimal // per Unit
	Uses     int             // jobs that share the cost, 1 or more
	Extended decimal.Decimal // Quantity × Price ÷ Uses, to the cent

	Supplier string
	Date     string // of the price
	Unpriced bool   // the list has no price for it
	ByOthers bool   // others supply it: listed, not charged
	Extra    int    // number of the job's extra that it is, from 1; 0 for none
	Working  []takeoff.Step
}

// Want is something to do before a bid is made.
type Want struct{ Text string }

var (
	one     = decimal.NewFromInt(1)
	hundred = decimal.NewFromInt(100)
)

// Places of rounding. Quantities from the takeoff are floating-point; a millionth
// is far below what anyone buys and far above their error.
const (
	needPlaces  = 6
	hourPlaces  = 2
	loosePlaces = 2
	moneyPlaces = 2
)

// Of prices a takeoff. o is how its concrete is bought. The list in s, where
// there is one, goes before p.
func Of(t takeoff.Takeoff, o takeoff.Order, s Spec, p PriceList) Estimate {
	if len(s.Prices.Items) > 0 {
		p = s.Prices
	}
	e := Estimate{Spec: s, Prices: p}
	for _, l := range t.Lines {
		bought := []takeoff.Line{l}
		if l.ID.Kind == takeoff.ConcreteOrder {
			bought = append(bought, mixLines(l, t.Mix, p)...)
		}
		for _, l := range bought {
			if line, ok := material(l, s, p); ok {
				e.Lines = append(e.Lines, line)
			}
		}
	}
	slices.SortStableFunc(e.Lines, func(a, b Line) int {
		return slices.Index(Groups, a.Group) - slices.Index(Groups, b.Group)
	})
	for _, task := range p.Tasks {
		if line, ok := labor(task, t, p); ok {
			e.Lines = append(e.Lines, line)
		}
	}
	for _, f := range p.Fees {
		if line, ok := fee(f, t, o, p.Currency); ok {
			e.Lines = append(e.Lines, line)
		}
	}
	e.Lines = append(e.Lines, extras(s, p.Currency)...)
	e.total()
	e.wants(t.Mix, s)
	return e
}

// driver gives how much of what a list names the job takes: the sum of the lines
// that it fits; false where there is none.
func driver(t takeoff.Takeoff, what takeoff.ID) (decimal.Decimal, takeoff.Unit, bool) {
	sum, unit, found := decimal.Zero, takeoff.Unit(""), false
	for _, l := range t.Lines {
		if what.Fits(l.ID) {
			sum, unit, found = sum.Add(need(l)), l.Unit, true
		}
	}
	return sum, unit, found && !sum.IsZero()
}

func need(l takeoff.Line) decimal.Decimal {
	return decimal.NewFromFloat(l.Value).Round(needPlaces)
}

// ToBuy gives how many packs hold need: whole ones, or where they are sold loose
// up to the next hundredth.
func ToBuy(need, pack decimal.Decimal, loose bool) decimal.Decimal {
	n := need.Div(pack).Round(needPlaces)
	if loose {
		return n.RoundCeil(loosePlaces)
	}
	return n.Ceil()
}

func material(l takeoff.Line, s Spec, p PriceList) (Line, bool) {
	n := need(l)
	it, priced := p.Item(l.ID)
	if !priced {
		if _, ok := p.Item(takeoff.ID{Kind: instead[l.ID.Kind]}); ok || !l.ID.Kind.Bought() {
			return Line{}, false
		}
		it = Item{Group: supplierOf(l.ID.Kind.Group()), Unit: string(l.Unit), Loose: !whole(n)}
	}
	if n.IsZero() {
		return Line{}, false
	}
	line := Line{
		Kind: Material, Group: it.Group, ID: l.ID, Name: l.Name, Need: n, Of: l.Unit, Pack: one, Loose: it.Loose,
		Unit: it.Unit, Price: it.Price, Uses: max(1, it.Uses), Supplier: it.Supplier, Date: it.Date,
		Unpriced: !priced, ByOthers: slices.ContainsFunc(s.Others, func(o takeoff.ID) bool { return o.Fits(l.ID) }),
	}
	if priced && line.Date == "" {
		line.Date = p.Date
	}
	if it.Pack.IsPositive() {
		line.Pack = it.Pack
	}
	line.show("From the takeoff", l.Name, quantity(n, string(l.Unit)), "")
	if priced && it.Of != "" && it.Of != l.Unit {
		line.Unpriced, line.Price = true, decimal.Zero
		line.show("The price does not fit", fmt.Sprintf("the list prices this line in %s, the job counts %s", it.Of, l.Unit), "", "")
	}
	if it.By == ByLength && !line.Unpriced {
		line.byLength(it, p.Units)
	}
	line.Quantity = ToBuy(n, line.Pack, line.Loose)
	if !line.Quantity.Equal(n) {
		work := quantity(n, string(l.Unit)) + " ÷ " + line.Pack.String() + ", rounded up to a whole number"
		if line.Loose {
			work = quantity(n, string(l.Unit)) + " ÷ " + line.Pack.String() + ", rounded up to hundredths"
		}
		line.show("To buy", work, quantity(line.Quantity, it.Unit), "")
	}
	line.extend(p.Currency)
	return line, true
}

// byLength prices a piece by its length.
func (l *Line) byLength(it Item, u geometry.Units) {
	if l.ID.Length <= 0 {
		l.Unpriced, l.Price = true, decimal.Zero
		l.show("No length", "the takeoff line names no length to price by", "", "")
		return
	}
	per, unit := decimal.NewFromInt(int64(geometry.Foot)), "ft"
	if u == geometry.Millimeters {
		per, unit = decimal.NewFromInt(int64(geometry.Meter)), "m"
	}
	n := decimal.NewFromInt(int64(l.ID.Length)).Div(per)
	l.Price = n.Mul(it.Price).Round(moneyPlaces)
	l.show("Price of a piece", fmt.Sprintf("%s %s × %s per %s", n.Round(4), unit, it.Price, unit), l.Price.StringFixed(moneyPlaces), "")
}

func whole(d decimal.Decimal) bool { return d.Equal(d.Truncate(0)) }

func quantity(d decimal.Decimal, unit string) string {
	return strings.TrimSpace(d.String() + " " + unit)
}

func (l *Line) show(text, work, result, source string) {
	l.Working = append(l.Working, takeoff.Step{Text: text, Work: work, Result: result, Source: source})
}

// extend computes the line's amount.
func (l *Line) extend(currency string) {
	if l.Uses < 1 {
		l.Uses = 1
	}
	switch {
	case l.ByOthers:
		l.show("By others", "listed, not charged", money(decimal.Zero, currency), "")
		return
	case l.Unpriced:
		l.show("No price", "the price list has none for this line", "", "")
		return
	}
	l.Extended = l.Quantity.Mul(l.Price).Div(decimal.NewFromInt(int64(l.Uses))).Round(moneyPlaces)
	work := fmt.Sprintf("%s × %s", quantity(l.Quantity, l.Unit), money(l.Price, currency))
	if l.Uses > 1 {
		work += fmt.Sprintf(" ÷ %d uses", l.Uses)
	}
	source := ""
	if l.Supplier != "" || l.Date != "" {
		source = strings.TrimSpace(l.Supplier + " " + l.Date)
	}
	l.show("Extended", work, money(l.Extended, currency), source)
}

func money(d decimal.Decimal, currency string) string {
	s := currency + d.Abs().StringFixed(moneyPlaces)
	if d.IsNegative() {
		return "-" + s
	}
	return s
}

// supplierOf gives the group of suppliers of an unpriced takeoff line.
func supplierOf(g takeoff.Group) Group {
	switch g {
	case takeoff.Concrete:
		return ReadyMix
	case takeoff.Steel:
		return Steel
	case takeoff.Lumber:
		return Lumber
	case takeoff.Ground:
		return Insulation
	}
	return Hardware
}

// instead names, for a line that can be bought by one of two measures, the other
// line: gravel by volume or by weight.
var instead = map[takeoff.Kind]takeoff.Kind{takeoff.GravelVolume: takeoff.GravelWeight}

func labor(task Task, t takeoff.Takeoff, p PriceList) (Line, bool) {
	line := Line{
		Kind: Labor, ID: task.What, Name: task.Name, Unit: "h", Price: p.Wage, Pack: one, Uses: 1, Loose: true,
		Rate: task.Rate, Each: task.Each, Date: p.Date,
	}
	hours := decimal.Zero
	if !task.What.IsZero() {
		n, unit, ok := driver(t, task.What)
		switch {
		case !ok:
			return Line{}, false // nothing of it on this job
		case task.Of != "" && task.Of != unit:
			line.Unpriced = true
			line.show("The rate does not fit", fmt.Sprintf("the list counts %s in %s, the job in %s", task.Name, task.Of, unit), "", "")
		default:
			hours = n.Div(task.Rate).Round(hourPlaces)
			line.show("Hours", fmt.Sprintf("%s ÷ %s per labor hour", quantity(n, string(unit)), task.Rate), quantity(hours, "h"), "")
		}
		line.Need, line.Of = n, unit
	}
	if task.Each.IsPositive() && !line.Unpriced {
		hours = hours.Add(task.Each)
		line.show("Hours besides", "once per job", quantity(task.Each, "h"), "")
	}
	line.Quantity = hours.Round(hourPlaces)
	line.extend(p.Currency)
	return line, line.Unpriced || !line.Quantity.IsZero()
}

func fee(f Fee, t takeoff.Takeoff, o takeoff.Order, currency string) (Line, bool) {
	line := Line{Kind: Charge, Name: f.Name, Unit: "job", Quantity: one, Price: f.Amount, Pack: one, Uses: 1, Loose: true}
	if f.Tool {
		line.Kind = Equipment
	}
	switch f.For {
	case FeePerUnit:
		n, unit, ok := driver(t, f.What)
		if !ok {
			return Line{}, false
		}
		line.ID, line.Need, line.Of, line.Quantity, line.Unit = f.What, n, unit, n, string(unit)
		if f.Of != "" && f.Of != unit {
			line.Unpriced = true
			line.show("The fee does not fit", fmt.Sprintf("the list counts it by %s, the job by %s", f.Of, unit), "", "")
		}
	case FeeShortLoad:
		l, ok := t.Line(takeoff.ConcreteOrder)
		last := LastLoad(need(l), o.Truck)
		short := f.Least.Sub(last)
		if !ok || !short.IsPositive() || last.IsZero() {
			return Line{}, false
		}
		line.ID, line.Need, line.Of, line.Quantity, line.Unit = l.ID, last, l.Unit, short, string(l.Unit)
		line.show("Last truck's load", fmt.Sprintf("%s ordered, %s a truck", need(l), o.Truck), quantity(last, string(l.Unit)), "")
		line.show("Short of the plant's least load", fmt.Sprintf("%s − %s", f.Least, last), quantity(short, string(l.Unit)), "")
	}
	if line.Quantity.IsZero() || line.Price.IsZero() && !line.Unpriced {
		return Line{}, false
	}
	line.extend(currency)
	return line, true
}

// LastLoad gives what the last truck brings when all before it are full; with no
// truck size, all of it.
func LastLoad(order, truck decimal.Decimal) decimal.Decimal {
	if !truck.IsPositive() || !order.IsPositive() {
		return order
	}
	trucks := ToBuy(order, truck, false)
	return order.Sub(trucks.Sub(one).Mul(truck))
}

func extras(s Spec, currency string) []Line {
	var lines []Line
	add := func(kind Kind, name string, amount decimal.Decimal, extra int) {
		if !amount.IsZero() {
			l := Line{Extra: extra, Kind: kind, Name: name, Unit: "job", Quantity: one, Price: amount, Pack: one, Uses: 1, Loose: true}
			l.extend(currency)
			lines = append(lines, l)
		}
	}
	add(Charge, "Mobilization", s.Mobilization, 0)
	for i, x := range s.Extras {
		kind := Other
		if x.Material {
			kind = Material
		}
		add(kind, x.Name, x.Amount, i+1)
	}
	return lines
}

// total sums the lines and finds the bid.
func (e *Estimate) total() {
	for i := range e.Lines {
		l := &e.Lines[i]
		switch l.Kind {
		case Material:
			e.Materials = e.Materials.Add(l.Extended)
		case Labor:
			e.Labor = e.Labor.Add(l.Extended)
			e.Hours = e.Hours.Add(l.Quantity)
		case Charge, Equipment:
			e.Fees = e.Fees.Add(l.Extended)
		default:
			e.Extras = e.Extras.Add(l.Extended)
		}
	}
	s, c := e.Spec, e.Prices.Currency
	e.CrewHours = e.Hours.Div(decimal.NewFromInt(int64(max(1, e.Prices.Crew)))).Round(hourPlaces)
	e.Cost = decimal.Sum(e.Materials, e.Labor, e.Fees, e.Extras)
	e.step("Cost", fmt.Sprintf("materials %s + labor %s + fees %s + extras %s", money(e.Materials, c), money(e.Labor, c), money(e.Fees, c), money(e.Extras, c)), e.Cost)
	e.Overhead = percent(s.Overhead, e.Cost)
	e.step("Overhead", fmt.Sprintf("%s %% of cost %s", s.Overhead, money(e.Cost, c)), e.Overhead)
	burdened := e.Cost.Add(e.Overhead)
	if s.ProfitAs == Margin {
		e.Profit = burdened.Mul(s.Profit).Div(hundred.Sub(s.Profit)).Round(moneyPlaces)
		e.step("Profit, as margin of the price", fmt.Sprintf("%s × %s ÷ (100 − %s)", money(burdened, c), s.Profit, s.Profit), e.Profit)
	} else {
		e.Profit = percent(s.Profit, burdened)
		e.step("Profit, as markup of the cost", fmt.Sprintf("%s %% of cost with overhead %s", s.Profit, money(burdened, c)), e.Profit)
	}
	e.Price = burdened.Add(e.Profit)
	e.step("Price before tax", fmt.Sprintf("%s + %s", money(burdened, c), money(e.Profit, c)), e.Price)
	switch s.TaxOn {
	case TaxMaterials:
		e.Taxed = e.Materials
	case TaxAll:
		e.Taxed = e.Price
	}
	e.Tax = percent(s.Tax, e.Taxed)
	e.step("Sales tax on "+s.TaxOn.String(), fmt.Sprintf("%s %% of %s", s.Tax, money(e.Taxed, c)), e.Tax)
	e.Bid = e.Price.Add(e.Tax)
	e.step("Bid", fmt.Sprintf("%s + %s", money(e.Price, c), money(e.Tax, c)), e.Bid)
}

func percent(p, of decimal.Decimal) decimal.Decimal {
	return of.Mul(p).Div(hundred).Round(moneyPlaces)
}

func (e *Estimate) step(text, work string, result decimal.Decimal) {
	e.Working = append(e.Working, takeoff.Step{Text: text, Work: work, Result: money(result, e.Prices.Currency)})
}

// wants lists what to do before this is a bid.
func (e *Estimate) wants(mix takeoff.Mix, s Spec) {
	if e.Prices.Invented {
		e.Wants = append(e.Wants, Want{"The prices and rates are invented examples: enter your own before you bid."})
	}
	if e.Prices.tooStrong(mix.Strength) {
		e.Wants = append(e.Wants, Want{fmt.Sprintf("A mix of %d psi is stronger than any on the price list: add one as strong to it.", mix.Strength)})
	}
	for _, l := range e.Lines {
		if l.Unpriced && !l.ByOthers {
			e.Wants = append(e.Wants, Want{fmt.Sprintf("%s has no price: add it to the price list.", l.Name)})
		}
	}
	for _, o := range s.Others {
		if o.Kind == takeoff.Unknown {
			e.Wants = append(e.Wants, Want{fmt.Sprintf("Others supply “%s”, which is called so in an older file and fits nothing here: mark the lines that they supply, and remove it.", o.Name)})
		}
	}
}

// Ready tells whether a bid can be made: every line has a price of one's own.
func (e Estimate) Ready() bool { return len(e.Wants) == 0 }

// Money prints an amount with the list's currency sign: "$1234.50".
func (e Estimate) Money(d decimal.Decimal) string { return money(d, e.Prices.Currency) }
