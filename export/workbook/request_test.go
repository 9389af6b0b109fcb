package workbook

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/takeoff"
)

// requested gives the demo's handover, and its request to the yard.
func requested(t *testing.T) (*handover.Handover, estimate.Estimate, estimate.Request) {
	t.Helper()
	j := demo(t)
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	e, err := h.Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range e.Requests() {
		if r.Supplier == "Sample yard" {
			return h, e, r
		}
	}
	t.Fatal("nothing is asked of the yard")
	return nil, e, estimate.Request{}
}

// A request has what one supplier is asked for, and no word of money, labor, the
// customer or what others bring.
func TestRequestKeepsSecrets(t *testing.T) {
	h, e, r := requested(t)
	var b bytes.Buffer
	if err := WriteRequest(&b, h, r, Options{}); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(f.GetSheetList(), "\n")
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name)
		if err != nil {
			t.Fatal(err)
		}
		text += "\n" + fmt.Sprint(rows)
	}
	for _, l := range r.Lines {
		if !strings.Contains(text, l.Name) {
			t.Errorf("%s is not asked for", l.Name)
		}
	}
	secret := []string{"$", "54", h.Job().Customer, "wage", "Total", "overhead"}
	for _, l := range e.Lines {
		if l.Supplier != r.Supplier && l.Name != "" {
			secret = append(secret, l.Name)
		}
		if !l.Price.IsZero() && l.Supplier == r.Supplier {
			secret = append(secret, l.Price.StringFixed(2))
		}
	}
	for _, s := range secret {
		if strings.Contains(strings.ToLower(text), strings.ToLower(s)) {
			t.Errorf("the request says %q", s)
		}
	}
}

// A request is filled in and saved by another program, comes back, is compared with
// another, and prices the job.
func TestRequestComesBack(t *testing.T) {
	h, _, r := requested(t)
	var b bytes.Buffer
	if err := WriteRequest(&b, h, r, Options{}); err != nil {
		t.Fatal(err)
	}
	filled := func(supplier string, price func(i int) any) estimate.Quote {
		t.Helper()
		f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		set := func(at string, v any) {
			if err := f.SetCellValue(requestSheet, at, v); err != nil {
				t.Fatal(err)
			}
		}
		rows, err := f.GetRows(requestSheet)
		if err != nil {
			t.Fatal(err)
		}
		i := 0
		for n, row := range rows {
			switch {
			case row == nil:
			case row[0] == supplierLabel:
				set(fmt.Sprintf("D%d", n+1), supplier)
			case row[0] == numberLabel:
				set(fmt.Sprintf("D%d", n+1), "Q-17")
			case row[0] == untilLabel:
				set(fmt.Sprintf("D%d", n+1), "2026-05-01")
			case len(row) > 6 && strings.HasPrefix(row[6], "{"):
				if v := price(i); v != nil {
					set(fmt.Sprintf("D%d", n+1), v)
					set(fmt.Sprintf("E%d", n+1), "2 days")
				}
				i++
			}
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		q, err := ReadQuote(throughOffice(t, out.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	one := filled("First yard", func(i int) any { return 10.25 + float64(i) })
	two := filled("Second yard", func(i int) any {
		if i == 0 {
			return 9.995
		}
		return nil // left blank
	})
	if one.Number != "Q-17" || one.Until != "2026-05-01" || len(one.Lines) != len(r.Lines) {
		t.Fatalf("read %+v", one)
	}
	for i, l := range one.Lines {
		if l.ID != r.Lines[i].ID || l.Name != r.Lines[i].Name || !l.Quantity.Equal(r.Lines[i].Quantity) || l.Lead != "2 days" {
			t.Errorf("%+v came back as %+v", r.Lines[i], l)
		}
	}
	both := []estimate.Quote{one, two}
	for i, c := range estimate.CompareQuotes(both) {
		want := "First yard"
		if i == 0 {
			want = "Second yard"
		}
		if c.Least < 0 || c.Offers[c.Least].Supplier != want {
			t.Errorf("%s: %+v", c.Name, c)
		}
	}
	p := h.Prices().With(both, "2026-04-12")
	it, _ := p.Item(r.Lines[0].ID)
	if it.Price.String() != "9.995" || it.Supplier != "Second yard" || it.Quote != "Q-17" || it.Until != "2026-05-01" || it.Date != "2026-04-12" {
		t.Errorf("the list has %+v", it)
	}
	e, err := handover.Of(handover.From{Job: h.Job(), Prices: p}).Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range e.Lines {
		if l.ID != r.Lines[0].ID {
			continue
		}
		if want := l.Quantity.Mul(decimal.RequireFromString("9.995")).Div(decimal.NewFromInt(int64(l.Uses))).Round(2); !l.Extended.Equal(want) {
			t.Errorf("%s comes to %s, want %s", l.Name, l.Extended, want)
		}
	}
}

// throughOffice opens a workbook with LibreOffice, and gives what it saves; where
// there is none, the workbook as it is.
func throughOffice(t *testing.T, data []byte) []byte {
	t.Helper()
	office, err := exec.LookPath("soffice")
	if err != nil || testing.Short() {
		return data
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "in.xlsx"), data, 0o666); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(office, "-env:UserInstallation=file://"+profile(t), "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out"), filepath.Join(dir, "in.xlsx"))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, err := os.ReadFile(filepath.Join(dir, "out", "in.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What no request is, or is not filled in as one, is refused with its cell.
func TestReadQuoteRefuses(t *testing.T) {
	h, _, r := requested(t)
	var b bytes.Buffer
	if err := WriteRequest(&b, h, r, Options{}); err != nil {
		t.Fatal(err)
	}
	changed := func(label string, col int, v any) []byte {
		f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		rows, _ := f.GetRows(requestSheet)
		for n, row := range rows {
			if len(row) > 0 && row[0] == label {
				if err := f.SetCellValue(requestSheet, fmt.Sprintf("%s%d", letter(col), n+1), v); err != nil {
					t.Fatal(err)
				}
			}
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	name := r.Lines[0].Name
	for what, data := range map[string][]byte{
		"found no workbook":                  []byte("PK"),
		`found "$175/yd"; write the price`:   changed(name, 3, "$175/yd"),
		`found "-3"; write the price`:        changed(name, 3, "-3"),
		"leave this column as it was sent":   changed(name, 6, "{}"),
		`found "May"; write a day`:           changed(untilLabel, 3, "May"),
		"found no supplier":                  changed(supplierLabel, 3, ""),
		`found no sheet "Request" with the `: changed("Item", 3, "Price"),
	} {
		if q, err := ReadQuote(data); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("it reads %+v, %v; want %q", q, err, what)
		}
	}
	if _, ok := h.Prices().Item(takeoff.ID{Kind: takeoff.Stakes}); !ok {
		t.Error("the list has no stakes")
	}
}
