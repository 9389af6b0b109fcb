package estimate

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets/prices"
	"haunchbook.example/geometry"
)

// PriceList is what things cost: materials by takeoff line, labour by task, and
// the fees of suppliers.
type PriceList struct {
	Name     string          `json:"name"`
	Date     string          `json:"date"`              // of the list, YYYY-MM-DD
	Invented bool            `json:"invented,omitzero"` // an example: replace before bidding
	Currency string          `json:"currency,omitzero"` // sign before amounts: "$"
	Days     int             `json:"days,omitzero"`     // that a price is good for; 0 for any number
	Units    geometry.Units  `json:"units"`             // of the jobs it is for
	Items    []Item          `json:"items"`
	Wage     decimal.Decimal `json:"wage"`             // per labour hour, with taxes and insurance
	Crew     int             `json:"crew"`             // people who work at once
	CrewDay  decimal.Decimal `json:"crewday,omitzero"` // labor is paid by this part of a crew's day: 1, 0.5; 0 for by the hour
	Tasks    []Task          `json:"tasks"`
	Fees     []Fee           `json:"fees"`
}

// Item is a material as it is sold.
type Item struct {
	// What it prices: a kind of thing, and those of its attributes that set the
	// price. Of two items that fit a line, the one that names more of them counts.
	What     takeoff.ID      `json:"what"`
	Name     string          `json:"name"` // what the supplier calls it: see Called
	Group    Group           `json:"group"`
	Unit     string          `json:"unit"`           // as sold: "yd³", "bar", "box of 25"
	Of       takeoff.Unit    `json:"of"`             // unit of the takeoff line
	Pack     decimal.Decimal `json:"pack,omitzero"`  // how much of the line is in one Unit; 0 is 1
	Loose    bool            `json:"loose,omitzero"` // sold by hundredths of a unit; else whole ones
	By       By              `json:"by,omitzero"`    // what Price is for
	Price    Amount          `json:"price,omitzero"`
	Uses     int             `json:"uses,omitzero"` // jobs that one purchase serves, as of form boards; 0 is 1
	Supplier string          `json:"supplier,omitzero"`
	Date     string          `json:"date,omitzero"`  // of the price, YYYY-MM-DD; "" for the list's
	Quote    string          `json:"quote,omitzero"` // the supplier's number for it
	Until    string          `json:"until,omitzero"` // the last day it is good, YYYY-MM-DD; "" for as long as the list allows
	Off      bool            `json:"off,omitzero"`   // kept and not used
}

// Called names the item by the one name of what it prices, and beside it what the
// supplier calls it where that is another.
func (it Item) Called(u geometry.Units) string {
	name := it.What.Text(u)
	if it.Name == name {
		return name
	}
	return fmt.Sprintf("%s (“%s”)", name, it.Name)
}

// Group is the kind of supplier, the headings of an order.
type Group string

// The groups, in the order they are listed.
const (
	ReadyMix   Group = "Ready-mix"
	Steel      Group = "Steel"
	Lumber     Group = "Lumber"
	Insulation Group = "Base and insulation"
	Hardware   Group = "Hardware"
)

// Groups lists the groups in order.
var Groups = []Group{ReadyMix, Steel, Lumber, Insulation, Hardware}

// By says what a price is for.
type By string

const (
	// ByUnit prices one unit as sold.
	ByUnit By = ""
	// ByLength prices a foot, or a metre, of pieces that have a length: bars and
	// boards.
	ByLength By = "length"
	// ByArea prices a square foot, or a square meter, of sheets and rolls.
	ByArea By = "area"
	// ByVolume prices a board foot, a square foot an inch thick, or a cubic meter, of
	// sheets that have a thickness.
	ByVolume By = "volume"
	// ByWeight prices a pound, or a kilogram, of bars and mesh.
	ByWeight By = "weight"
)

// Task is a piece of work that takes hours.
type Task struct {
	Name string          `json:"name"`
	What takeoff.ID      `json:"what,omitzero"` // the quantity that drives it; zero for a task once per job
	Of   takeoff.Unit    `json:"of,omitzero"`   // its unit
	Rate decimal.Decimal `json:"rate,omitzero"` // units done in one labour hour
	Each decimal.Decimal `json:"each,omitzero"` // labour hours once per job, besides

	Method string `json:"method,omitzero"` // only where concrete is placed so: "pump"; see Spec.Placed
	Off    bool   `json:"off,omitzero"`    // kept and not used
}

// Fee is what is charged besides materials and hours.
type Fee struct {
	Name   string          `json:"name"`
	For    FeeFor          `json:"for"`
	What   takeoff.ID      `json:"what,omitzero"`  // for FeePerUnit and FeeOnce: the quantity
	Of     takeoff.Unit    `json:"of,omitzero"`    // its unit
	Pack   decimal.Decimal `json:"pack,omitzero"`  // for FeePerUnit: charged for each so many units, begun; 0 for each unit
	Least  decimal.Decimal `json:"least,omitzero"` // for FeeShortLoad: no fee from this load up
	Amount Amount          `json:"amount,omitzero"`
	Tool   bool            `json:"tool,omitzero"`   // equipment, as against a supplier's fee
	Method string          `json:"method,omitzero"` // only where concrete is placed so: "pump"; see Spec.Placed
	Off    bool            `json:"off,omitzero"`    // kept and not used
}

// FeeFor says what a fee is counted by.
type FeeFor string

const (
	// FeePerJob is charged once.
	FeePerJob FeeFor = "job"
	// FeeOnce is charged once by a job that has anything of the quantity What.
	FeeOnce FeeFor = "once"
	// FeePerDay is charged for each day of the crew, begun.
	FeePerDay FeeFor = "day"
	// FeeOfLabor is Amount percent of the labor, as for overtime.
	FeeOfLabor FeeFor = "labor"
	// FeeOfCost is Amount percent of all other cost, as for what is not foreseen.
	FeeOfCost FeeFor = "cost"
	// FeePerUnit is charged for each unit of the quantity What.
	FeePerUnit FeeFor = "unit"
	// FeeShortLoad is charged for each unit by which the last truck's load falls
	// short of Least.
	FeeShortLoad FeeFor = "short load"
)

// maxList bounds the size of a price list file.
const maxList = 4 << 20

// ReadPrices reads a price list from its JSON form.
func ReadPrices(data []byte) (PriceList, error) {
	if len(data) > maxList {
		return PriceList{}, fmt.Errorf("price list: found %d MB; the most is %d MB", len(data)>>20, maxList>>20)
	}
	data = upgraded(data)
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	var f listFile
	if err := dec.Decode(&f); err != nil {
		at := int(dec.InputOffset())
		if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
			at = len(data)
		}
		line := 1 + bytes.Count(data[:min(at, len(data))], []byte("\n"))
		return PriceList{}, fmt.Errorf("price list, line %d: %s", line, strings.TrimPrefix(err.Error(), "json: "))
	}
	if dec.More() {
		return PriceList{}, fmt.Errorf("price list: found more after its end; one file holds one list")
	}
	p := PriceList(f)
	if err := p.Validate(); err != nil {
		return p, fmt.Errorf("price list: %w", err)
	}
	return p, nil
}

// listFile is a price list as encoding/json reads it.
type listFile PriceList

// UnmarshalJSON reads a price list of this version or an older one.
func (p *PriceList) UnmarshalJSON(data []byte) error {
	return json.Unmarshal(upgraded(data), (*listFile)(p))
}

// Encode gives the list as a file that ReadPrices reads.
func (p PriceList) Encode() []byte {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(p); err != nil {
		panic(err) // plain data does not fail
	}
	return buf.Bytes()
}

// Validate gives what is wrong with the list, nil for nothing: a plan.Faults with
// paths in the list's own file, "items[2].price".
func (p PriceList) Validate() error {
	faults := field.Check("price.prices", p, p.Units)
	if len(faults) == 0 {
		return nil
	}
	for i, f := range faults {
		faults[i].Path = strings.TrimPrefix(f.Path, "price.prices.")
	}
	return faults
}

// ShortLoad gives the load below which the plant charges a fee; 0 for none.
func (p PriceList) ShortLoad() decimal.Decimal {
	least := decimal.Zero
	for _, f := range p.Fees {
		if f.For == FeeShortLoad && !f.Off && f.Amount.To.IsPositive() {
			least = decimal.Max(least, f.Least)
		}
	}
	return least
}

// Item gives the item that prices a takeoff line.
func (p PriceList) Item(id takeoff.ID) (Item, bool) {
	best, found := Item{}, false
	for _, it := range p.Items {
		if !it.Off && it.What.Fits(id) && (!found || it.What.Named() > best.What.Named()) {
			best, found = it, true
		}
	}
	return best, found
}

// Complete gives the list with what another has and it has not, not in use: nothing
// comes to cost more.
func (p PriceList) Complete(other PriceList) PriceList {
	p.Items, p.Tasks, p.Fees = slices.Clone(p.Items), slices.Clone(p.Tasks), slices.Clone(p.Fees)
	for _, it := range other.Items {
		if !slices.ContainsFunc(p.Items, func(o Item) bool { return o.What == it.What }) {
			it.Off = true
			p.Items = append(p.Items, it)
		}
	}
	for _, t := range other.Tasks {
		if !slices.ContainsFunc(p.Tasks, func(o Task) bool { return o.Name == t.Name }) {
			t.Off = true
			p.Tasks = append(p.Tasks, t)
		}
	}
	for _, f := range other.Fees {
		if !slices.ContainsFunc(p.Fees, func(o Fee) bool { return o.Name == f.Name }) {
			f.Off = true
			p.Fees = append(p.Fees, f)
		}
	}
	return p
}

// Starting gives the built-in price list for jobs in u. Its prices and rates are
// invented.
func Starting(u geometry.Units) PriceList {
	data := prices.FeetInches()
	if u == geometry.Millimeters {
		data = prices.Metric()
	}
	p, err := ReadPrices(data)
	if err != nil {
		panic(err) // a test reads both
	}
	return p
}
