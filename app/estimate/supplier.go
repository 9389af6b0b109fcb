package estimate

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// Matches is what a supplier's list says about the prices of a list.
type Matches struct {
	Found     []Matched
	Unmatched []Unmatched
}

// Matched is a price of the list that the supplier names.
type Matched struct {
	What takeoff.ID // the item
	Name string     // what the item is called
	Said string     // what the supplier calls it
	Per  string     // what the price is for
	Was  Amount
	Is   decimal.Decimal
}

// Change gives by how much the price changes, in percent of what it was; false where
// there was none.
func (o Matched) Change() (decimal.Decimal, bool) {
	if !o.Was.Set || !o.Was.To.IsPositive() {
		return decimal.Zero, false
	}
	return o.Is.Sub(o.Was.To).Mul(decimal.NewFromInt(100)).Div(o.Was.To).Round(1), true
}

// Unmatched is a row of a supplier's list that is not taken, and why.
type Unmatched struct {
	Row  int // from 1
	Said string
	Why  string
}

// The headings of a supplier's columns, as they are written in lower case.
var (
	namesOf  = []string{"item", "name", "description", "product", "material", "article"}
	pricesOf = []string{"price", "unit price", "cost", "net", "amount", "each"}
	unitsOf  = []string{"unit", "per", "uom", "sold by", "unit of measure"}
)

// Match finds the prices of a list in the rows of a supplier's. The first row with
// headings for what a thing is and what it costs says which columns count, and one for
// its unit is read where there is one. A row is for the item whose name, or whose kind
// with its sizes, it holds whole; of several for the one of most words. What fits two
// alike, is sold by another unit, or comes a second time is not taken.
func (p PriceList) Match(rows [][]string) (Matches, error) {
	head, name, price, unit := -1, -1, -1, -1
	for i, r := range rows {
		if name, price, unit = column(r, namesOf), column(r, pricesOf), column(r, unitsOf); name >= 0 && price >= 0 {
			head = i
			break
		}
	}
	if head < 0 {
		return Matches{}, errors.New("found no headings; the list needs a row with a heading for what a thing is, such as “Item”, and one for its “Price”")
	}
	var o Matches
	for i, r := range rows[head+1:] {
		said, cost := cell(r, name), cell(r, price)
		if said == "" && cost == "" {
			continue
		}
		row := head + 2 + i
		if why := o.match(p, said, cost, cell(r, unit)); why != "" {
			o.Unmatched = append(o.Unmatched, Unmatched{row, said, why})
		}
	}
	return o, nil
}

// match takes one row, and tells why it cannot.
func (o *Matches) match(p PriceList, said, cost, unit string) (why string) {
	d, err := amountOf(cost)
	if err != nil {
		return err.Error()
	}
	have := wordsOf(said)
	best, most, alike := -1, 0, false
	for i, it := range p.Items {
		n := max(held(have, wordsOf(it.Name)), held(have, wordsOf(it.What.Text(p.Units))))
		switch {
		case n > most:
			best, most, alike = i, n, false
		case n == most && n > 0:
			alike = true
		}
	}
	if best < 0 {
		return "nothing on the price list is called so"
	}
	it := p.Items[best]
	per := it.By.Measure(p.Units)
	if per == "" {
		per = it.Unit
	}
	switch {
	case alike:
		return "several prices on the list are called so"
	case unit != "" && plainUnit(unit) != plainUnit(per):
		return fmt.Sprintf("it is sold by %s, and the price list has it by %s", unit, per)
	case slices.ContainsFunc(o.Found, func(f Matched) bool { return f.What == it.What }):
		return it.Called(p.Units) + " has a price from a row before it"
	}
	o.Found = append(o.Found, Matched{it.What, it.Called(p.Units), said, per, it.Price, d})
	return ""
}

// Take gives the list with the prices of a supplier's list, of a day.
func (p PriceList) Take(o Matches, day string) PriceList {
	p.Items = slices.Clone(p.Items)
	for _, f := range o.Found {
		if i := slices.IndexFunc(p.Items, func(it Item) bool { return it.What == f.What }); i >= 0 {
			p.Items[i].Price, p.Items[i].Date = Costs(f.Is), day
		}
	}
	return p
}

// Unconfirmed gives the lines of an estimate whose price, rate or fee is that of the
// starting list, which is invented, and of no day of its own: nobody has changed or
// confirmed it.
func (e Estimate) Unconfirmed(starting PriceList) []Line {
	var out []Line
	for _, l := range e.Lines {
		same := false
		switch {
		case l.ByOthers || l.Unpriced:
		case l.Kind == Material && !l.ID.IsZero():
			is, ok := e.Prices.Item(l.ID)
			was, there := starting.Item(l.ID)
			same = ok && there && is.Date == "" && is.Price.Equal(was.Price) && is.Unit == was.Unit
		case l.Kind == Labor:
			named := func(t Task) bool { return t.Name == l.Name }
			i, k := slices.IndexFunc(e.Prices.Tasks, named), slices.IndexFunc(starting.Tasks, named)
			same = i >= 0 && k >= 0 && e.Prices.Tasks[i].Rate.Equal(starting.Tasks[k].Rate) && e.Prices.Tasks[i].Each.Equal(starting.Tasks[k].Each)
		default:
			named := func(f Fee) bool { return f.Name == l.Name }
			i, k := slices.IndexFunc(e.Prices.Fees, named), slices.IndexFunc(starting.Fees, named)
			same = l.Extra == 0 && i >= 0 && k >= 0 && e.Prices.Fees[i].Amount.Equal(starting.Fees[k].Amount)
		}
		if same {
			out = append(out, l)
		}
	}
	return out
}

// Confirm gives the list as one's own, with the lines confirmed on a day.
func (p PriceList) Confirm(lines []Line, day string) PriceList {
	p.Items, p.Invented = slices.Clone(p.Items), false
	for _, l := range lines {
		if it, ok := p.Item(l.ID); ok && l.Kind == Material {
			i := slices.IndexFunc(p.Items, func(o Item) bool { return o.What == it.What })
			p.Items[i].Date = day
		}
	}
	if strings.Contains(p.Name, "invented") {
		p.Name = "My prices"
	}
	return p
}

func column(row, names []string) int {
	heads := make([]string, len(row))
	for i, c := range row {
		heads[i] = strings.ToLower(strings.TrimSpace(c))
	}
	for _, n := range names {
		if i := slices.Index(heads, n); i >= 0 {
			return i
		}
	}
	for _, n := range names { // "Price, $", "Unit price per piece"
		if i := slices.IndexFunc(heads, func(h string) bool { return strings.HasPrefix(h, n) && len(h) < 30 }); i >= 0 {
			return i
		}
	}
	return -1
}

func cell(row []string, i int) string {
	if i < 0 || i >= len(row) {
		return ""
	}
	return strings.TrimSpace(row[i])
}

var grouped = regexp.MustCompile(`^\d{1,3}(,\d{3})+(\.\d+)?$`)

// amountOf reads a price as suppliers write it: "$1,234.50".
func amountOf(text string) (decimal.Decimal, error) {
	t := strings.TrimSpace(strings.Trim(text, "$€£ "))
	if grouped.MatchString(t) {
		t = strings.ReplaceAll(t, ",", "")
	}
	d, err := decimal.NewFromString(t)
	switch {
	case text == "":
		return d, errors.New("it has no price")
	case err != nil || len(t) > 20 || strings.ContainsAny(t, "eE"):
		return d, fmt.Errorf("its price is written %q, not as 12.50", text)
	case d.IsNegative():
		return d, errors.New("its price is below 0")
	}
	return d, nil
}

// wordsOf gives the words and numbers of a name, each once, without what says nothing.
func wordsOf(name string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '/' && r != '.' && r != '-'
	}) {
		w = strings.Trim(w, ".-/")
		if len(w) > 3 { // one or many
			w = strings.TrimSuffix(w, "s")
		}
		switch w {
		case "", "no", "of", "the", "with", "for", "and", "to", "x":
			continue
		}
		if !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// held gives how many words a name has, if all of them are there; else 0.
func held(have, name []string) int {
	for _, w := range name {
		if !slices.Contains(have, w) {
			return 0
		}
	}
	return len(name)
}

// plainUnit writes a unit as one of those that mean the same.
func plainUnit(u string) string {
	u = strings.ToLower(strings.Trim(u, " ./"))
	for plain, all := range map[string][]string{
		"yd³": {"yd3", "cy", "cu yd", "cuyd", "cubic yard", "yard"}, "m³": {"m3", "cbm", "cubic meter"},
		"ft²": {"ft2", "sf", "sq ft", "sqft", "square foot", "square feet"}, "m²": {"m2", "sq m", "sqm", "square meter"}, "board foot": {"bf", "bd ft", "board feet", "fbm"},
		"ft": {"lf", "lin ft", "foot", "feet", "linear foot"}, "m": {"lm", "meter"}, "piece": {"ea", "each", "pc", "pcs", "pieces"},
		"lb": {"lbs", "pound", "pounds"}, "kg": {"kgs", "kilogram", "kilograms"}, "ton": {"tons", "tn"}, "t": {"tonne", "tonnes"},
	} {
		if u == plain || slices.Contains(all, u) {
			return plain
		}
	}
	return u
}
