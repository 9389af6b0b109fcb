package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"haunchbook/app/estimate"
	"haunchbook/app/job"
	"haunchbook/app/takeoff"
	"haunchbook/assets"
)

func demo(t testing.TB) job.Job {
	t.Helper()
	j, err := job.Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// write writes the workbook of a job and gives its bytes with what it shows.
func write(t testing.TB, j job.Job, p estimate.PriceList, o Options) ([]byte, takeoff.Takeoff, estimate.Estimate) {
	t.Helper()
	to, err := takeoff.Of(j.Slabs, j.Spec, j.Units)
	if err != nil {
		t.Fatal(err)
	}
	e := estimate.Of(to, j.Spec.Order, j.Price, p)
	var buf bytes.Buffer
	if err := Write(&buf, j, to, e, o); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes(), to, e
}

func TestSameJobSameBytes(t *testing.T) {
	j := demo(t)
	first, _, _ := write(t, j, estimate.Starting(j.Units), Options{})
	for range 5 {
		if again, _, _ := write(t, j, estimate.Starting(j.Units), Options{}); !bytes.Equal(first, again) {
			t.Fatal("the same job gave other bytes")
		}
	}
}

func estimateOrder(waste, step, truck string) takeoff.Order {
	return takeoff.Order{Waste: d(waste), Step: d(step), Truck: d(truck)}
}

func opened(t testing.TB, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

func TestSheets(t *testing.T) {
	j := demo(t)
	data, _, _ := write(t, j, estimate.Starting(j.Units), Options{})
	f := opened(t, data)
	want := []string{"Order", "Concrete", "Steel", "Bolts and dowels", "Forms", "Labour", "Price", "Options", "Option lines", "Trace"}
	if diff := cmp.Diff(want, f.GetSheetList()); diff != "" {
		t.Error(diff)
	}
	scoped := map[string]int{}
	for _, n := range f.GetDefinedName() {
		if n.Scope != "" && n.Scope != "Workbook" {
			scoped[n.Scope]++
		}
	}
	for _, s := range want {
		panes, err := f.GetPanes(s)
		if err != nil || !panes.Freeze || panes.YSplit != headRows {
			t.Errorf("%s: the heads are not frozen: %+v, %v", s, panes, err)
		}
		layout, err := f.GetPageLayout(s)
		if err != nil || *layout.FitToWidth != 1 || *layout.Size != 1 {
			t.Errorf("%s: page layout %+v, %v", s, layout, err)
		}
		if scoped[s] != 2 {
			t.Errorf("%s has %d print names, want area and titles", s, scoped[s])
		}
		protection, err := f.GetSheetProtection(s)
		if err != nil || !protection.SelectUnlockedCells {
			t.Errorf("%s is not protected: %v", s, err)
		}
	}
	lists, err := f.GetDataValidations("Price")
	if err != nil || len(lists) != 2 {
		t.Errorf("%d drop lists on the price sheet, want 2 (%v)", len(lists), err)
	}
	foot, err := f.GetHeaderFooter("Order")
	if err != nil || !strings.Contains(foot.OddFooter, "&8 Shop addition") {
		t.Errorf("the foot is %+v, %v", foot, err)
	}
	parts, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	charts := 0
	for _, p := range parts.File {
		if strings.HasPrefix(p.Name, "xl/charts/chart") {
			charts++
		}
	}
	if charts != 2 {
		t.Errorf("%d charts, want 2", charts)
	}
}

// TestInputsAreUnlocked goes through every cell: what is filled in by hand is
// open, what is computed is locked.
func TestInputsAreUnlocked(t *testing.T) {
	j := demo(t)
	data, _, _ := write(t, j, estimate.Starting(j.Units), Options{})
	f := opened(t, data)
	open := 0
	for _, s := range f.GetSheetList() {
		rows, err := f.GetRows(s)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c := range row {
				at := fmt.Sprintf("%s%d", letter(c), r+1)
				id, err := f.GetCellStyle(s, at)
				if err != nil {
					t.Fatal(err)
				}
				st, err := f.GetStyle(id)
				if err != nil {
					t.Fatal(err)
				}
				formula, _ := f.GetCellFormula(s, at)
				unlocked := st.Protection != nil && !st.Protection.Locked
				if unlocked {
					open++
				}
				if unlocked && formula != "" {
					t.Errorf("%s %s is computed, and open to writing", s, at)
				}
			}
		}
	}
	if open < 40 {
		t.Errorf("only %d cells are open", open)
	}
}

// TestTextIsNeverAFormula gives names that a spreadsheet would run, or that break
// its form, and reads them back as text.
func TestTextIsNeverAFormula(t *testing.T) {
	nasty := []string{"=1+1", "+SUM(A1)", "-2+3", "@cmd", "=HYPERLINK(\"x\")", "<b>&amp;\"'", "a\x00b\x1fc", "_x0041_", "bad\xff", strings.Repeat("long ", 10000)}
	for _, s := range nasty {
		j := demo(t)
		j.Name, j.Customer, j.Site, j.Revision = s, s, s, s
		j.Price.Extras = []estimate.Extra{{Name: s, Amount: d("1")}}
		p := estimate.Starting(j.Units)
		p.Items[0].Supplier, p.Items[0].Unit, p.Currency = s, s, s
		p.Tasks[0].Name, p.Fees[0].Name = s, s
		data, _, _ := write(t, j, p, Options{Company: s})
		f := opened(t, data)
		for _, sheet := range f.GetSheetList() {
			if formula, err := f.GetCellFormula(sheet, "A1"); err != nil || formula != "" {
				t.Errorf("%q on %s became the formula %q (%v)", s, sheet, formula, err)
			}
		}
		got, err := f.GetCellValue("Order", "A1")
		if want := plain(s); err != nil || got != want && s != "_x0041_" {
			t.Errorf("%.20q reads as %.20q, %v", s, got, err)
		}
	}
}

func TestEmptyAndOddJobs(t *testing.T) {
	for name, change := range map[string]func(*job.Job){
		"no haunch": func(j *job.Job) {
			j.Slabs[0].Sections = nil
			for i := range j.Slabs[0].Outline {
				e := &j.Slabs[0].Outline[i]
				e.Section, e.Wall, e.Joint = "", "", false
				for k := range e.Doors {
					e.Doors[k].Section, e.Doors[k].RunOut = "", 0
				}
			}
		},
		"nothing under it":  func(j *job.Job) { j.Spec.Base.Gravel, j.Spec.Base.Retarder, j.Spec.Base.Foam = 0, 0, 0 },
		"no edge bars":      func(j *job.Job) { j.Spec.Place.Bars.Rows = nil },
		"nobody":            func(j *job.Job) { j.Name, j.Customer, j.Site = "", "", "" },
		"options that fail": func(j *job.Job) { j.Price.Options = []estimate.Option{{Name: "no", Field: estimate.To(-1)}} },
	} {
		t.Run(name, func(t *testing.T) {
			j := demo(t)
			change(&j)
			data, _, _ := write(t, j, estimate.PriceList{Name: "empty"}, Options{})
			opened(t, data)
		})
	}
}

func BenchmarkWrite(b *testing.B) {
	j := demo(b)
	p := estimate.Starting(j.Units)
	for b.Loop() {
		write(b, j, p, Options{})
	}
}
