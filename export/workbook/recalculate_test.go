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
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
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
	for _, p := range []string{"read.py", "recalculate.py"} { // so that go test knows what the result hangs on
		if _, err := os.Stat(filepath.Join("testdata", p)); err != nil {
			t.Fatal(err)
		}
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

	File  string                    `json:"in"`
	Set   map[string]any            `json:"set"`
	Cells [][4]any                  `json:"cells"`
	At    map[string]map[string]any `json:"at"` // by sheet and address
	want  func(*job.Job, *estimate.PriceList)
}

type recalculated struct {
	Names map[string]any            `json:"names"`
	Cells map[string]map[string]any `json:"cells"`
}

// TestMain runs the tests, and clears away what LibreOffice keeps.
func TestMain(m *testing.M) {
	code := m.Run()
	if profiled != "" {
		_ = os.RemoveAll(profiled)
	}
	os.Exit(code)
}

// profiled is the folder that LibreOffice keeps its settings in; "" before it is started.
var profiled string

// profile gives it, the same for all tests: to make it anew is most of what a start takes.
func profile(t *testing.T) string {
	t.Helper()
	if profiled == "" {
		var err error
		if profiled, err = os.MkdirTemp("", "office-profile-"); err != nil {
			t.Fatal(err)
		}
	}
	return profiled
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
	cmd := exec.Command(py, "testdata/recalculate.py", plan, profile(t))
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
	metric.Units = geometry.Millimeters
	metric.Spec.Order = estimateOrder("6", "0.1", "7.5")
	full := demo(t)
	full.Spec.Order.Loads = takeoff.Full
	spare := demo(t)
	spare.Price.Extras = []estimate.Extra{{Name: "=1+1", Amount: d("99.995"), Material: true}, {Name: "@allowance", Amount: d("-20")}}
	spare.Price.Mobilization = d("185.5")
	spare.Price.Others = []takeoff.ID{{Kind: takeoff.FormBoards}, {Kind: takeoff.RetarderStock}}
	varied := demo(t)
	varied.Price.Options = []estimate.Option{
		{Name: "Deep", Edge: estimate.To(26 * geometry.Inch), Bar: 5},
		{Name: "Foam, strong", Foam: estimate.To(2 * geometry.Inch), Strength: 5000},
		{Name: "Mesh, no fibers", FieldSteel: estimate.FieldChange{Set: true, To: field.Mesh}, Fiber: estimate.DoseChange{Set: true}},
		{Name: "=Grid", FieldSteel: estimate.FieldChange{Set: true, To: field.Grid}, Fiber: estimate.DoseChange{Set: true, To: 3}},
		{Name: "Close bolts", Bolts: estimate.To(4 * geometry.Foot), Field: estimate.To(4 * geometry.Inch)},
		{Name: "Impossible", Field: estimate.To(-geometry.Inch)},
	}
	twins := demo(t)
	second := demo(t).Slabs[0]
	for i := range second.Outline {
		second.Outline[i].At.X += 60 * geometry.Foot
	}
	for i := range second.Top.Falls {
		second.Top.Falls[i].From.X += 60 * geometry.Foot
		second.Top.Falls[i].To.X += 60 * geometry.Foot
	}
	second.Name = "=Twin"
	twins.Slabs = append(twins.Slabs, second, plan.Plan{Name: "Blank"})
	all := demo(t)
	all.Price.Options = varied.Price.Options
	all.Price.MarkupMaterials, all.Price.MarkupLabor, all.Price.MarkupFees = d("4.5"), d("12"), d("2.25")
	all.Price.Round, all.Price.Least = d("50"), d("12000")
	all.Price.Extras = []estimate.Extra{{Name: "Gate", Amount: d("120.55")}}
	listed := everything(geometry.FeetInches)
	small := demo(t)
	small.Price.Least, small.Price.Round, small.Price.TaxOn = d("40000"), d("7.5"), estimate.TaxAll
	half := everything(geometry.FeetInches)
	half.CrewDay = d("1")
	list := []change{
		{name: "all that a list can charge", job: all, prices: listed},
		{name: "a least charge and whole days", job: small, prices: half},
		{
			name: "all that a list can charge, with more waste, smaller trucks and a larger crew", job: all, prices: listed,
			Set: map[string]any{"WastePercent": 14, "TruckSize": 8, "Crew": 3, "Markup_LaborTotal": 7, "RoundTo": 25, "LeastCharge": 30000, "Fee_Contingency": 6, "Fee_Overtime": 1.5, "Fee_By_the_yard": 3.75},
			want: func(j *job.Job, p *estimate.PriceList) {
				j.Spec.Order.Waste, j.Spec.Order.Truck, j.Price.MarkupLabor, j.Price.Round, j.Price.Least = d("14"), d("8"), d("7"), d("25"), d("30000")
				p.Crew = 3
				p.Fees = slices.Clone(p.Fees)
				for i := range p.Fees {
					switch f := &p.Fees[i]; f.Name {
					case "Contingency":
						f.Amount = estimate.Costs(d("6"))
					case "Overtime":
						f.Amount = estimate.Costs(d("1.5"))
					case "By the yard":
						f.Amount = estimate.Costs(d("3.75"))
					}
				}
			},
		},
		{name: "as it is", job: english},
		{name: "options of every kind", job: varied},
		{name: "two slabs", job: twins},
		{name: "a list for jobs in other units", job: varied, prices: estimate.Starting(geometry.Millimeters)},
		{name: "a list without prices", job: varied, prices: estimate.PriceList{Name: "empty", Items: []estimate.Item{}}},
		{
			name: "options of every kind, prices and waste changed", job: varied, Set: map[string]any{
				"WastePercent": 7.5, "Wage": 58.4, "Rate_Set_forms": 8, "Rate_Drill_and_set_dowels": 5.5, "Price_Concrete_to_order": 181.25, "Price_Bar_No__4___20__0_": 19.5,
				"Fee_Truck_fee": 41.5, "OverheadPercent": 9.5, "TaxBasis": "all", "TruckSize": 9.5,
			},
			// What only an option takes is priced on the sheet of the options.
			Cells: [][4]any{
				{"Option lines", "Foam 2\", 4'-0\" × 8'-0\" sheets", "D", 44.15}, {"Option lines", "Tie field bars", "C", 55}, {"Option lines", "Lay foam", "D", 1.5},
				{"Option lines", "Mix of 5000 psi, beyond the base price", "D", 19.35},
			},
			want: func(j *job.Job, p *estimate.PriceList) {
				j.Spec.Order.Waste, j.Spec.Order.Truck, j.Price.Overhead, j.Price.TaxOn = d("7.5"), d("9.5"), d("9.5"), estimate.TaxAll
				p.Wage = d("58.4")
				p.Items = append(p.Items, estimate.Item{What: takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * geometry.Foot}, Name: "No. 4", Group: estimate.Steel, Unit: "bar", Price: estimate.Costs(d("19.5"))})
				for i := range p.Items {
					switch it := &p.Items[i]; it.What {
					case takeoff.ID{Kind: takeoff.ConcreteOrder}:
						it.Price = estimate.Costs(d("181.25"))
					case takeoff.ID{Kind: takeoff.FoamStock}:
						it.By, it.Price = estimate.ByUnit, estimate.Costs(d("44.15")) // the workbook has the price of a sheet
					case takeoff.ID{Kind: takeoff.MixStrength, Strength: 5000}:
						it.Price = estimate.Costs(d("19.35"))
					}
				}
				for i := range p.Tasks {
					switch k := &p.Tasks[i]; k.Name {
					case "Set forms":
						k.Rate = d("8")
					case "Drill and set dowels":
						k.Rate = d("5.5")
					case "Tie field bars":
						k.Rate = d("55")
					case "Lay foam":
						k.Each = d("1.5")
					}
				}
				for i := range p.Fees {
					if p.Fees[i].Name == "Truck fee" {
						p.Fees[i].Amount = estimate.Costs(d("41.5"))
					}
				}
			},
		},
		{name: "metric", job: metric},
		{name: "with extras", job: spare},
		{
			name: "more waste, smaller trucks", job: english, Set: map[string]any{"WastePercent": 9.25, "TruckSize": 9, "OrderStep": 0.5},
			want: func(j *job.Job, _ *estimate.PriceList) { j.Spec.Order = estimateOrder("9.25", "0.5", "9") },
		},
		{
			name: "prices and wage", job: english, Set: map[string]any{"Wage": 61.35, "Crew": 3},
			Cells: [][4]any{{"Order", "Concrete to order", "G", 171.37}, {"Order", "Stakes", "G", 28.65}, {"Labor", "Set forms", "E", 7.5}, {"Labor", "Cure", "F", 1.25}, {"Order", "Stakes", "H", 3}},
			want: func(_ *job.Job, p *estimate.PriceList) {
				p.Wage, p.Crew = d("61.35"), 3
				for i := range p.Items {
					switch p.Items[i].What.Kind {
					case takeoff.ConcreteOrder:
						p.Items[i].Price = estimate.Costs(d("171.37"))
					case takeoff.Stakes:
						p.Items[i].Price, p.Items[i].Uses = estimate.Costs(d("28.65")), 3
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
			name: "short loads", job: full, Set: map[string]any{"WastePercent": 8}, Cells: [][4]any{{"Price", "Short load", "D", 61.15}},
			want: func(j *job.Job, p *estimate.PriceList) {
				j.Spec.Order.Waste = d("8")
				for i := range p.Fees {
					if p.Fees[i].For == estimate.FeeShortLoad {
						p.Fees[i].Amount = estimate.Costs(d("61.15"))
					}
				}
			},
		},
		{
			name: "a short load", job: english, Set: map[string]any{"WastePercent": 8, "TaxBasis": "none"}, Cells: [][4]any{{"Price", "Short load", "D", 61.15}, {"Price", "Mobilization", "D", 210}},
			want: func(j *job.Job, p *estimate.PriceList) {
				j.Spec.Order.Waste, j.Price.TaxOn, j.Price.Mobilization = d("8"), estimate.TaxNone, d("210")
				for i := range p.Fees {
					if p.Fees[i].For == estimate.FeeShortLoad {
						p.Fees[i].Amount = estimate.Costs(d("61.15"))
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
			compare(t, c, got[i])
		})
	}
}

// compare holds a workbook as LibreOffice computes it against the program on the same
// change.
func compare(t *testing.T, c change, got recalculated) {
	data, to, e := write(t, c.job, c.prices, Options{})
	order, _ := to.Line(takeoff.ConcreteOrder)
	trucks, _ := to.Line(takeoff.ConcreteTrucks)
	names := got.Names
	for name, want := range map[string]float64{
		"ConcreteOrder": order.Value, "Trucks": trucks.Value, "MaterialTotal": number(e.Materials), "LaborTotal": number(e.Labor), "LaborHours": number(e.Hours),
		"FeeTotal": number(e.Fees), "ExtraTotal": number(e.Extras), "CostTotal": number(e.Cost), "OverheadTotal": number(e.Overhead), "ProfitTotal": number(e.Profit),
		"PriceBeforeTax": number(e.Price), "TaxTotal": number(e.Tax), "BidTotal": number(e.Bid),
	} {
		v, ok := names[name].(float64)
		if !ok || math.Abs(v-want) > 1e-6 {
			t.Errorf("LibreOffice has %s = %v, the program %v", name, names[name], want)
		}
	}
	if c.want == nil {
		compareStored(t, data, got.Cells)
	}
	compareOptions(t, c, got.Cells["Options"])
}

// compareOptions compares the options as LibreOffice has them with those of the
// program: amounts to the cent.
func compareOptions(t *testing.T, c change, cells map[string]any) {
	t.Helper()
	base := estimate.Base{Slabs: c.job.Slabs, Spec: c.job.Spec, Units: c.job.Units, Price: c.job.Pricing(), Prices: c.prices}
	if len(base.Price.Options) == 0 {
		base.Price.Options = estimate.EdgeOptions(base.Slabs, base.Units)
	}
	rows := map[string]int{}
	for at, v := range cells {
		var row int
		if _, err := fmt.Sscanf(at, "A%d", &row); err == nil {
			label, _, _ := strings.Cut(fmt.Sprint(v), ",")
			rows[label] = row
		}
	}
	for k, o := range estimate.Compare(t.Context(), base) {
		for label, want := range map[string]float64{
			"Concrete to order": number(o.Ordered), "Trucks": float64(o.Trucks), "Labor hours": number(o.Hours), "Cost": number(o.Cost), "Bid": number(o.Bid),
			"Difference from as drawn": number(o.Difference), "Steel": number(o.Steel), "Form boards": float64(o.Boards),
		} {
			at := fmt.Sprintf("%s%d", letter(1+k), rows[label])
			got, ok := cells[at].(float64)
			if o.Err != nil {
				if ok {
					t.Errorf("%s cannot be built, and its %s is %v", o.Name, label, got)
				}
				continue
			}
			if !ok || math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: LibreOffice has %s = %v at %s, the program %v", o.Name, label, cells[at], at, want)
			}
		}
	}
}

// everything gives a list with all of the starting one in use, fees and work by the
// concrete that is ordered, and labor by half days.
func everything(u geometry.Units) estimate.PriceList {
	p := estimate.Starting(u)
	for i := range p.Items {
		p.Items[i].Off = false
	}
	for i := range p.Tasks {
		p.Tasks[i].Off = false
	}
	for i := range p.Fees {
		p.Fees[i].Off = false
	}
	unit := takeoff.CubicYards
	p.Tasks = append(p.Tasks, estimate.Task{Name: "Rake", What: takeoff.ID{Kind: takeoff.ConcreteOrder}, Of: unit, Rate: d("3.3")}, estimate.Task{Name: "Guide trucks", What: takeoff.ID{Kind: takeoff.ConcreteTrucks}, Of: takeoff.Each, Rate: d("2")})
	p.Fees = append(p.Fees, estimate.Fee{Name: "By the yard", For: estimate.FeePerUnit, What: takeoff.ID{Kind: takeoff.ConcreteOrder}, Of: unit, Amount: estimate.Costs(d("2.15"))},
		estimate.Fee{Name: "Spilled", For: estimate.FeePerUnit, What: takeoff.ID{Kind: takeoff.ConcreteWaste}, Of: unit, Amount: estimate.Costs(d("11.3"))},
		estimate.Fee{Name: "Every 8 yards", For: estimate.FeePerUnit, What: takeoff.ID{Kind: takeoff.ConcreteOrder}, Of: unit, Pack: d("8"), Amount: estimate.Costs(d("12"))})
	p.CrewDay = d("0.5")
	return p
}

// anyPrices gives a list with prices and rates to the tenth of a cent, so that
// many amounts lie half-way between cents.
func anyPrices(seed uint64) estimate.PriceList {
	r := rand.New(rand.NewPCG(seed, 7))
	mills := func(most int64) decimal.Decimal { return decimal.New(1+r.Int64N(most), -3) }
	p := estimate.Starting(geometry.FeetInches)
	for i := range p.Items {
		it := &p.Items[i]
		it.Price, it.Uses = estimate.Costs(mills(200_000)), 1+r.IntN(4)
		if it.By != estimate.ByUnit {
			it.Price = estimate.Costs(mills(5_000))
		}
		if r.IntN(3) == 0 {
			it.Pack, it.Loose = decimal.NewFromInt(1+r.Int64N(8)), r.IntN(2) == 0
		}
	}
	for i := range p.Tasks {
		p.Tasks[i].Rate, p.Tasks[i].Each = mills(80_000), mills(5_000)
	}
	for i := range p.Fees {
		p.Fees[i].Amount, p.Fees[i].Least = estimate.Costs(mills(90_000)), mills(12_000)
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
				if said, ok := cells[sheet][at].(string); ok && said != "" && said == stored {
					continue // a formula that gives a text
				}
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
