package workbook

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
)

// Every cell that a person may change carries through to the totals, the options and
// their lines: all of them are changed by a script in LibreOffice, the program is run on
// the same changes, and both agree to the cent.
func TestEveryCellCarriesThrough(t *testing.T) {
	j := demo(t)
	j.Price.MarkupMaterials, j.Price.MarkupLabor, j.Price.MarkupFees = d("4.5"), d("12"), d("2.25")
	j.Price.Round, j.Price.Least, j.Price.Mobilization = d("50"), d("2000"), d("75")
	j.Price.Extras = []estimate.Extra{{Name: "Gate", Amount: d("120.55")}, {Name: "Drain", Amount: d("99.5"), Material: true}}
	j.Price.Options = []estimate.Option{
		{Name: "Deep", Edge: estimate.To(26 * geometry.Inch), Bar: 5, Strength: 5000},
		{Name: "Foam, mesh", Foam: estimate.To(2 * geometry.Inch), FieldSteel: estimate.FieldChange{Set: true, To: field.Mesh}},
		{Name: "Grid", FieldSteel: estimate.FieldChange{Set: true, To: field.Grid}},
	}
	p := everything(geometry.FeetInches)
	c := change{job: j, prices: p, File: filepath.Join(t.TempDir(), "all.xlsx"), At: map[string]map[string]any{}, want: func(*job.Job, *estimate.PriceList) {}}
	data, _, _ := write(t, j, p, Options{})
	if err := os.WriteFile(c.File, data, 0o644); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	names := map[string]string{} // of cells, by sheet and address
	for _, n := range f.GetDefinedName() {
		names[strings.ReplaceAll(strings.ReplaceAll(n.RefersTo, "'", ""), "$", "")] = n.Name
	}
	w := edits{t: t, c: &c, outcomes: estimate.Compare(t.Context(), estimate.Base{Slabs: j.Slabs, Spec: j.Spec, Units: j.Units, Price: j.Pricing(), Prices: p})}
	cells := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		own := map[string]decimal.Decimal{}
		for r := range rows {
			label, _ := f.GetCellValue(sheet, fmt.Sprint("A", r+1))
			clear(own)
			for col := range 12 {
				at := fmt.Sprintf("%s%d", letter(col), r+1)
				id, _ := f.GetCellStyle(sheet, at)
				s, err := f.GetStyle(id)
				if err != nil || s.Protection == nil || s.Protection.Locked {
					continue
				}
				if s.CustomNumFmt != nil && *s.CustomNumFmt == "@" {
					continue // a text: no figure
				}
				was, _ := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
				cells++
				w.change(sheet, label, letter(col), at, names[sheet+"!"+at], was, own)
			}
		}
	}
	if cells < 120 {
		t.Errorf("only %d cells to fill in", cells)
	}
	compare(t, c, recalculate(t, []change{c})[0])
}

// edits changes cells, and the job and its list in the same way.
type edits struct {
	t        *testing.T
	c        *change
	outcomes []estimate.Outcome
	n        int
}

// change gives a cell another value, and the program the same. own gathers the cells of a
// row of one's own.
func (w *edits) change(sheet, label, col, at, name, was string, own map[string]decimal.Decimal) {
	w.n++
	v := d("3.1").Add(decimal.NewFromInt(int64(w.n % 7)))
	if old, err := decimal.NewFromString(was); err == nil {
		v = old.Mul(d("1.1")).Add(decimal.New(int64(w.n), -2)).Round(2)
	}
	set := func(to any) {
		if w.c.At[sheet] == nil {
			w.c.At[sheet] = map[string]any{}
		}
		w.c.At[sheet][at] = to
	}
	j, p := &w.c.job, &w.c.prices
	given := map[string]func(){
		"WastePercent": func() { v = d("7.5"); j.Spec.Order.Waste = v }, "OrderStep": func() { v = d("0.5"); j.Spec.Order.Step = v },
		"TruckSize": func() { v = d("8.5"); j.Spec.Order.Truck = v }, "FiberDose": func() { v = d("2.25"); j.Spec.Mix.Fiber = 2.25 },
		"Wage": func() { p.Wage = v }, "Crew": func() { v = d("3"); p.Crew = 3 },
		"OverheadPercent": func() { j.Price.Overhead = v }, "ProfitPercent": func() { j.Price.Profit = v }, "TaxPercent": func() { j.Price.Tax = v },
		"Markup_MaterialTotal": func() { j.Price.MarkupMaterials = v }, "Markup_LaborTotal": func() { j.Price.MarkupLabor = v }, "Markup_FeeTotal": func() { j.Price.MarkupFees = v },
		"LeastCharge": func() { v = d("15000"); j.Price.Least = v }, "RoundTo": func() { v = d("20"); j.Price.Round = v },
		"ProfitBasis": func() { j.Price.ProfitAs = estimate.Margin; set("margin") }, "TaxBasis": func() { j.Price.TaxOn = estimate.TaxAll; set("all") },
	}
	task := func(change func(*estimate.Task)) bool {
		i := slices.IndexFunc(p.Tasks, func(t estimate.Task) bool { return t.Name == label })
		if i >= 0 {
			change(&p.Tasks[i])
		}
		return i >= 0
	}
	fee := func(change func(*estimate.Fee)) bool {
		i := slices.IndexFunc(p.Fees, func(f estimate.Fee) bool { return f.Name == label })
		if i >= 0 {
			change(&p.Fees[i])
		}
		return i >= 0
	}
	done := false
	switch do, known := given[name]; {
	case known:
		do()
		if name == "ProfitBasis" || name == "TaxBasis" {
			return
		}
		done = true
	case label == "" && (sheet == "Order" || sheet == "Labor" || sheet == "Price"):
		own[col], done = v, true
		w.own(sheet, own)
	case sheet == "Order" && col == "G", sheet == optionLines && col == "D" && w.material(label, nil):
		done = w.material(label, func(it *estimate.Item) { it.Price = estimate.Costs(v) })
	case sheet == "Order" && col == "H", sheet == optionLines && col == "E" && w.material(label, nil):
		v = d("4")
		done = w.material(label, func(it *estimate.Item) { it.Uses = 4 })
	case sheet == "Labor" && col == "E", sheet == optionLines && col == "C" && task(func(*estimate.Task) {}):
		done = task(func(t *estimate.Task) { t.Rate = v })
	case sheet == "Labor" && col == "F", sheet == optionLines && col == "D":
		done = task(func(t *estimate.Task) { t.Each = v })
	case label == "Mobilization":
		j.Price.Mobilization, done = v, true
	case sheet == "Price" && col == "E":
		done = fee(func(f *estimate.Fee) { f.Least = v })
	case sheet == "Price" && col == "D", sheet == optionLines && col == "C":
		done = fee(func(f *estimate.Fee) { f.Amount = estimate.Costs(v) })
		for i, x := range j.Price.Extras {
			if strings.TrimSuffix(label, " (material)") == x.Name {
				j.Price.Extras[i].Amount, done = v, true
			}
		}
	}
	if !done {
		w.t.Errorf("%s!%s (%s) may be changed, and nothing in the program is what it changes", sheet, at, label)
	}
	set(number(v))
}

// own adds what a row of one's own comes to once its cells are all there.
func (w *edits) own(sheet string, cells map[string]decimal.Decimal) {
	j, p := &w.c.job, &w.c.prices
	name := fmt.Sprintf("Own %d", w.n)
	switch {
	case sheet == "Order" && len(cells) == 3:
		j.Price.Extras = append(slices.Clone(j.Price.Extras), estimate.Extra{Name: name, Amount: cells["E"].Mul(cells["G"]).Div(cells["H"]).Round(2), Material: true})
	case sheet == "Labor":
		p.Tasks = append(p.Tasks, estimate.Task{Name: name, Each: cells["F"]})
	case sheet == "Price" && len(cells) == 2:
		p.Fees = append(p.Fees, estimate.Fee{Name: name, For: estimate.FeePerJob, Amount: estimate.Costs(cells["B"].Mul(cells["D"]).Round(2))})
	}
}

// material changes the item of the very thing that a line is; false where no line of the
// job or of an option is called so.
func (w *edits) material(label string, change func(*estimate.Item)) bool {
	p := &w.c.prices
	for _, o := range w.outcomes {
		for _, l := range o.Estimate.Lines {
			if l.Kind != estimate.Material || l.Name != label || l.ID.IsZero() {
				continue
			}
			if change == nil {
				return true
			}
			i := slices.IndexFunc(p.Items, func(it estimate.Item) bool { return it.What == l.ID })
			if i < 0 {
				it, _ := p.Item(l.ID)
				it.What, it.Name, it.By, it.Price = l.ID, l.Name, estimate.ByUnit, estimate.Costs(l.Price)
				i, p.Items = len(p.Items), append(p.Items, it)
			}
			it := &p.Items[i]
			if it.By != estimate.ByUnit {
				it.By, it.Price = estimate.ByUnit, estimate.Costs(l.Price)
			}
			change(it)
			return true
		}
	}
	return false
}
