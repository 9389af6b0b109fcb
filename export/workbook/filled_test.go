package workbook

import (
	"bytes"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
)

// Every cell to fill in that holds a number, or is to hold one, takes nothing else.
func TestNumbersAreNumbers(t *testing.T) {
	j := demo(t)
	var b bytes.Buffer
	if err := Write(t.Context(), &b, handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)}), Options{}); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	cells := 0
	for _, name := range f.GetSheetList() {
		all, err := f.GetDataValidations(name)
		if err != nil {
			t.Fatal(err)
		}
		guarded := map[string]bool{}
		for _, v := range all {
			guarded[v.Sqref] = true
		}
		rows, err := f.GetRows(name)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for c := range 12 {
				at, _ := excelize.CoordinatesToCellName(c+1, r+1)
				id, err := f.GetCellStyle(name, at)
				if err != nil {
					t.Fatal(err)
				}
				s, err := f.GetStyle(id)
				if err != nil || s.Protection == nil || s.Protection.Locked || s.CustomNumFmt != nil && *s.CustomNumFmt == "@" {
					continue
				}
				if cells++; !guarded[at] {
					t.Errorf("%s!%s takes anything", name, at)
				}
			}
		}
	}
	if cells < 40 {
		t.Errorf("%d cells to fill in", cells)
	}
}

// What has no price is counted and named beside every total, and no longer once it
// has one.
func TestUnpricedIsNamed(t *testing.T) {
	j := demo(t)
	p := estimate.Starting(j.Units)
	for i, it := range p.Items {
		if it.What.Kind == takeoff.Stakes || it.What.Kind == takeoff.ConcreteOrder {
			p.Items[i].Price = estimate.Amount{}
		}
	}
	var b bytes.Buffer
	if err := Write(t.Context(), &b, handover.Of(handover.From{Job: j, Prices: p}), Options{}); err != nil {
		t.Fatal(err)
	}
	seen := func(data []byte) map[string]string {
		t.Helper()
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]string{}
		for _, name := range f.GetSheetList() {
			rows, err := f.GetRows(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range rows {
				for _, v := range r {
					if strings.HasPrefix(v, "In no total") || strings.HasPrefix(v, "; ") {
						out[name] = v
					}
				}
			}
		}
		return out
	}
	const said = "In no total, since without a price: 2; Concrete to order; Stakes"
	for who, data := range map[string][]byte{"the program": b.Bytes(), "LibreOffice": throughOffice(t, b.Bytes())} {
		got := seen(data)
		if got["Price"] != said || got["Options"] != said || got["Order"] != "; Concrete to order; Stakes" {
			t.Errorf("%s says %q", who, got)
		}
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	rows, _ := f.GetRows("Order")
	for n, r := range rows {
		if len(r) > 0 && (r[0] == "Stakes" || r[0] == "Concrete to order") {
			at, _ := excelize.CoordinatesToCellName(7, n+1)
			if err := f.SetCellValue("Order", at, 1.5); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := f.UpdateLinkedValue(); err != nil { // what was computed before is gone
		t.Fatal(err)
	}
	var filled bytes.Buffer
	if err := f.Write(&filled); err != nil {
		t.Fatal(err)
	}
	if office := throughOffice(t, filled.Bytes()); !bytes.Equal(office, filled.Bytes()) { // recalculated
		if got := seen(office); len(got) > 0 {
			t.Errorf("with all prices it says %q", got)
		}
	}
}
