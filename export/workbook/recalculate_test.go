package workbook

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook/app/estimate"
	"haunchbook/app/job"
	"haunchbook/geometry"
)

// python finds the interpreter that has openpyxl, and LibreOffice.
func python(t *testing.T) string {
	t.Helper()
	missing := func(what string) {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is missing", what)
		}
		t.Skipf("%s is missing: install libreoffice-calc and python3-openpyxl to compare the workbook with them", what)
	}
	if _, err := exec.LookPath("soffice"); err != nil {
		missing("LibreOffice")
	}
	for _, p := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(p, "-c", "import openpyxl").Run() == nil {
			return p
		}
	}
	missing("openpyxl")
	return ""
}

// change is a workbook with inputs changed, and the job that has them from the
// start.
type change struct {
	name   string
	job    job.Job
	prices estimate.PriceList

	File  string         `json:"in"`
	Set   map[string]any `json:"set"`
	Cells [][4]any       `json:"cells"`
	want  func(*job.Job, *estimate.PriceList)
}

type recalculated struct {
	Names map[string]any            `json:"names"`
	Cells map[string]map[string]any `json:"cells"`
}

func recalculate(t *testing.T, list []change) []recalculated {
	t.Helper()
	py := python(t)
	data, err := json.Marshal(list)
	if err != nil {
		t.Fatal(err)
	}
	plan := filepath.Join(t.TempDir(), "plan.json")
	if err := os.WriteFile(plan, data, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(py, "testdata/recalculate.py", plan)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	var got []recalculated
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	return got
}

func d(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// TestLibreOfficeGetsTheSame lets LibreOffice compute the workbook from scratch,
// as it is and with inputs changed by hand, and compares with the program's own
// numbers for a job that has these inputs: amounts to the cent.
func TestLibreOfficeGetsTheSame(t *testing.T) {
	english := demo(t)
	metric := demo(t)
	metric.Units = geometry.Millimetres
	metric.Spec.Order = estimateOrder("6", "0.1", "7.5")
	spare := demo(t)
	spare.Price.Extras = []estimate.Extra{{Name: "=1+1", Amount: d("99.995"), Material: true}, {Name: "@allowance", Amount: d("-20")}}
	spare.Price.Mobilisation = d("185.5")
	spare.Price.Others = []string{"forms.boards.*", "retarder.rolls"}
	list := []change{
		{name: "as it is", job: english},
		{name: "metric", job: metric},
		{name: "with extras", job: spare},
		{
			name: "more waste, smaller trucks", job: english, Set: map[string]any{"WastePercent": 9.25, "TruckSize": 9, "OrderStep": 0.5},
			want: func(j *job.Job, _ *estimate.PriceList) { j.Spec.Order = estimateOrder("9.25", "0.5", "9") },
		},
		{
			name: "prices and wage", job: english, Set: map[string]any{"Wage": 61.35, "Crew": 3},
			Cells: [][4]any{{"Order", "Concrete to order", "G", 171.37}, {"Order", "Stakes", "G", 28.65}, {"Labour", "Set forms", "E", 7.5}, {"Labour", "Cure", "F", 1.25}, {"Order", "Stakes", "H", 3}},
			want: func(_ *job.Job, p *estimate.PriceList) {
				p.Wage, p.Crew = d("61.35"), 3
				for i := range p.Items {
					switch p.Items[i].Key {
					case "concrete.order":
						p.Items[i].Price = d("171.37")
					case "forms.stakes":
						p.Items[i].Price, p.Items[i].Uses = d("28.65"), 3
					}
				}
				for i := range p.Tasks {
					switch p.Tasks[i].Name {
					case "Set forms":
						p.Tasks[i].Rate = d("7.5")
					case "Cure":
						p.Tasks[i].Each = d("1.25")
					}
				}
			},
		},
		{
			name: "margin, tax on all", job: english, Set: map[string]any{"ProfitBasis": "margin", "ProfitPercent": 17.5, "OverheadPercent": 8.125, "TaxBasis": "all", "TaxPercent": 7.375},
			want: func(j *job.Job, _ *estimate.PriceList) {
				j.Price.ProfitAs, j.Price.Profit, j.Price.Overhead, j.Price.TaxOn, j.Price.Tax = estimate.Margin, d("17.5"), d("8.125"), estimate.TaxAll, d("7.375")
			},
		},
		{
			name: "a short load", job: english, Set: map[string]any{"WastePercent": 8, "TaxBasis": "none"}, Cells: [][4]any{{"Price", "Short load", "D", 61.15}, {"Price", "Mobilisation", "D", 210}},
			want: func(j *job.Job, p *estimate.PriceList) {
				j.Spec.Order.Waste, j.Price.TaxOn, j.Price.Mobilisation = d("8"), estimate.TaxNone, d("210")
				for i := range p.Fees {
					if p.Fees[i].For == estimate.FeeShortLoad {
						p.Fees[i].Amount = d("61.15")
					}
				}
			},
		},
	}
	for seed := range uint64(6) {
		list = append(list, change{name: fmt.Sprintf("any prices %d", seed), job: english, prices: anyPrices(seed)})
	}
	dir := t.TempDir()
	for i := range list {
		c := &list[i]
		if c.prices.Items == nil {
			c.prices = estimate.Starting(c.job.Units)
		}
		c.File = filepath.Join(dir, fmt.Sprintf("%d.xlsx", i))
		data, _, _ := write(t, c.job, c.prices, Options{})
		if err := os.WriteFile(c.File, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if c.want != nil {
			c.want(&c.job, &c.prices)
		}
	}
	got := recalculate(t, list)
	for i, c := range list {
		t.Run(c.name, func(t *testing.T) {
			data, to, e := write(t, c.job, c.prices, Options{})
			order, _ := to.Line("concrete.order")
			trucks, _ := to.Line("concrete.trucks")
			names := got[i].Names
			for name, want := range map[string]float64{
				"ConcreteOrder": order.Value, "Trucks": trucks.Value, "MaterialTotal": number(e.Materials), "LabourTotal": number(e.Labour), "LabourHours": number(e.Hours),
				"FeeTotal": number(e.Fees), "ExtraTotal": number(e.Extras), "CostTotal": number(e.Cost), "OverheadTotal": number(e.Overhead), "ProfitTotal": number(e.Profit),
				"PriceBeforeTax": number(e.Price), "TaxTotal": number(e.Tax), "BidTotal": number(e.Bid),
			} {
				v, ok := names[name].(float64)
				if !ok || math.Abs(v-want) > 1e-6 {
					t.Errorf("LibreOffice has %s = %v, the program %v", name, names[name], want)
				}
			}
			if c.want == nil {
				compareStored(t, data, got[i].Cells)
			}
		})
	}
}

// anyPrices gives a list with prices and rates to the tenth of a cent, so that
// many amounts lie half-way between cents.
func anyPrices(seed uint64) estimate.PriceList {
	r := rand.New(rand.NewPCG(seed, 7))
	mills := func(most int64) decimal.Decimal { return decimal.New(1+r.Int64N(most), -3) }
	p := estimate.Starting(geometry.FeetInches)
	for i := range p.Items {
		it := &p.Items[i]
		it.Price, it.Uses = mills(200_000), 1+r.IntN(4)
		if it.By == estimate.ByLength {
			it.Price = mills(5_000)
		}
		if r.IntN(3) == 0 {
			it.Pack, it.Loose = decimal.NewFromInt(1+r.Int64N(8)), r.IntN(2) == 0
		}
	}
	for i := range p.Tasks {
		p.Tasks[i].Rate, p.Tasks[i].Each = mills(80_000), mills(5_000)
	}
	for i := range p.Fees {
		p.Fees[i].Amount, p.Fees[i].Least = mills(90_000), mills(12_000)
	}
	p.Wage, p.Crew = mills(90_000), 1+r.IntN(9)
	return p
}

// compareStored compares every result stored in the workbook with what
// LibreOffice computed in the same cell.
func compareStored(t *testing.T, data []byte, cells map[string]map[string]any) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	compared := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c, stored := range row {
				at := fmt.Sprintf("%s%d", letter(c), r+1)
				text, err := f.GetCellFormula(sheet, at)
				if err != nil || text == "" {
					continue
				}
				compared++
				want, err := decimal.NewFromString(stored)
				got, ok := cells[sheet][at].(float64)
				if err != nil || !ok || math.Abs(number(want)-got) > 1e-6 {
					t.Errorf("%s %s (=%s): stored %q, LibreOffice has %v", sheet, at, text, stored, cells[sheet][at])
				}
			}
		}
	}
	if compared < 50 {
		t.Errorf("only %d formulas were compared", compared)
	}
}
