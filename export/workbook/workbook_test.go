package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
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
	h := handover.Of(handover.From{Job: j, Prices: p})
	var buf bytes.Buffer
	err := Write(t.Context(), &buf, h, o)
	to, err2 := h.Takeoff(t.Context())
	e, err3 := h.Estimate(t.Context())
	if err := errors.Join(err, err2, err3); err != nil {
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
	want := []string{"Order", "Concrete", "Steel", "Bolts and dowels", "Forms", "Labor", "Price", "Options", "Option lines", "Working"}
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
	lists = slices.DeleteFunc(lists, func(v *excelize.DataValidation) bool { return v.Type != "list" }) // others take numbers alone
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

// hostile gives the demo job with a text wherever a user can write one.
func hostile(t testing.TB, s string) (job.Job, estimate.PriceList) {
	j := demo(t)
	j.Name, j.Customer, j.Site, j.Revision, j.Date = s, s, s, s, s
	j.Spec.Mix.Notes = s
	second := demo(t).Slabs[0]
	for i := range second.Outline {
		second.Outline[i].At.X += 60 * geometry.Foot
	}
	second.Top = plan.Plan{}.Top
	j.Slabs[0].Name, second.Name = s, s+" 2"
	j.Slabs[0].Pads = []plan.Pad{{Name: s, Center: geometry.Point{X: 10 * geometry.Foot, Y: 20 * geometry.Foot}, Width: geometry.Foot, Length: geometry.Foot, Depth: 14 * geometry.Inch}}
	j.Slabs = append(j.Slabs, second)
	j.Price.Extras = []estimate.Extra{{Name: s, Amount: d("1")}, {Name: s, Amount: d("2"), Material: true}}
	j.Price.Options = []estimate.Option{{Name: s, Edge: estimate.To(8 * geometry.Inch)}, {Name: s, Field: estimate.To(-1)}}
	p := estimate.Starting(j.Units)
	p.Name, p.Date, p.Currency = s, s, s
	for i := range p.Items {
		p.Items[i].Name, p.Items[i].Supplier, p.Items[i].Unit, p.Items[i].Date = s, s, s, s
	}
	for i := range p.Tasks {
		p.Tasks[i].Name = fmt.Sprint(s, i)
	}
	for i := range p.Fees {
		p.Fees[i].Name = fmt.Sprint(s, i)
	}
	return j, p
}

// formulas gives every formula of a workbook by its place.
func formulas(t testing.TB, book []byte) map[string]string {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range r.File {
		if !strings.HasPrefix(f.Name, "xl/worksheets/") {
			continue
		}
		part, err := readPart(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`<c r="([A-Z]+[0-9]+)"[^>]*><f[^>]*>([^<]*)</f>`).FindAllSubmatch(part, -1) {
			out[f.Name+" "+string(m[1])] = string(m[2])
		}
	}
	return out
}

// TestTextIsNeverAFormula writes text that a spreadsheet would run, or that breaks
// its form, wherever a user can: the formulas are those of a harmless job, and the
// text reads back as text.
func TestTextIsNeverAFormula(t *testing.T) {
	nasty := []string{"=1+1", "+SUM(A1)", "-2+3", "@cmd", "\t=1+1", "\r=1+1", "\n=1+1", "=HYPERLINK(\"x\")", "=cmd|' /C calc'!A0", "'=1", "<b>&amp;\"'", "a\x00b\x1fc", "bad\xff", strings.Repeat("long ", 10000)}
	book := func(s string) []byte {
		j, p := hostile(t, s)
		data, _, _ := write(t, j, p, Options{Company: s})
		return data
	}
	harmless := formulas(t, book("harmless"))
	if len(harmless) < 100 {
		t.Fatalf("%d formulas", len(harmless))
	}
	names := regexp.MustCompile(`(Price|Rate|Fee)_[A-Za-z0-9_]+`)
	for _, s := range nasty {
		data := book(s)
		f, got := opened(t, data), formulas(t, data)
		for at, text := range got {
			if want := names.ReplaceAllString(harmless[at], "$1"); names.ReplaceAllString(text, "$1") != want {
				t.Errorf("%.20q: %s is =%s, of a harmless job =%s", s, at, text, want)
			}
		}
		if len(got) != len(harmless) {
			t.Errorf("%.20q: %d formulas, %d of a harmless job", s, len(got), len(harmless))
		}
		for sheet, at := range map[string]string{"Order": "A1", "Working": "A1", "Options": "C5"} {
			kind, err := f.GetCellType(sheet, at)
			text, err2 := f.GetCellValue(sheet, at)
			if err != nil || err2 != nil || kind == excelize.CellTypeFormula || text != plain(s) {
				t.Errorf("%.20q on %s reads as %.20q of kind %v", s, sheet, text, kind)
			}
		}
		for _, n := range f.GetDefinedName() {
			if !regexp.MustCompile(`^(_xlnm\.)?[A-Za-z_][A-Za-z0-9_]*$`).MatchString(n.Name) {
				t.Errorf("%.20q made the name %q", s, n.Name)
			}
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
