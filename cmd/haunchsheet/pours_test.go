package main

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/export/exchange"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// poured are jobs of two slabs, the first with a joint or two that leave two or three pours.
func poured() map[string]job.Job {
	const foot = geometry.Foot
	across := func(x, days geometry.Length, k plan.ConstructionKind) plan.Construction {
		return plan.Construction{Kind: k, From: geometry.Point{X: x * foot}, To: geometry.Point{X: x * foot, Y: 30 * foot}, Days: int(days)}
	}
	out := map[string]job.Job{}
	for name, joints := range map[string][]plan.Construction{
		"two":   {across(37, 2, plan.Keyed)},
		"three": {across(20, 1, plan.Doweled), across(44, 3, plan.Bulkhead)},
	} {
		j := job.New()
		j.Slabs = []plan.Plan{rectangle(0, 0, 60*foot, 30*foot), rectangle(0, 40*foot, 18*foot, 10*foot)}
		j.Slabs[0].Construction = joints
		out[name] = j
		j.Units = geometry.Millimeters
		j.Spec.Order.Loads, j.Spec.Order.Truck = takeoff.Full, decimal.NewFromInt(7)
		out[name+", metric, full trucks"] = j
	}
	return out
}

// order is what a document says of the pours: what is ordered for each, and for all.
type order struct {
	pours []string
	all   string
}

// What each pour orders is the same on the sheets, in the workbook and in the JSON; it is
// what the pour takes with waste, in whole steps and not one too many; its loads bring it;
// and all of them add up to what the job orders.
func TestPoursAddUp(t *testing.T) {
	for name, j := range poured() {
		t.Run(name, func(t *testing.T) {
			h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
			var b bytes.Buffer
			if err := exchange.WriteJSON(t.Context(), &b, h); err != nil {
				t.Fatal(err)
			}
			var f struct {
				Lines []struct {
					What  struct{ Kind string }
					Value decimal.Decimal
				}
				Pours []struct {
					Net   float64
					Order decimal.Decimal
					Loads []decimal.Decimal
				}
			}
			if err := json.Unmarshal(b.Bytes(), &f); err != nil {
				t.Fatal(err)
			}
			line := func(kind string) decimal.Decimal {
				for _, l := range f.Lines {
					if l.What.Kind == kind {
						return l.Value
					}
				}
				t.Fatalf("no line of %s", kind)
				return decimal.Zero
			}
			if want := len(j.Slabs[0].Construction) + 1; len(f.Pours) != want {
				t.Fatalf("%d pours, want %d", len(f.Pours), want)
			}
			net, sum, trucks := 0.0, decimal.Zero, 0
			said := order{all: line("concrete").String()}
			for i, p := range f.Pours {
				need := p.Net * (1 + j.Spec.Order.Waste.InexactFloat64()/100)
				if over := p.Order.InexactFloat64() - need; over < -1e-9 || over >= j.Spec.Order.Step.InexactFloat64() {
					t.Errorf("pour %d takes %g with waste, and %s are ordered", i+1, need, p.Order)
				}
				if !p.Order.Mod(j.Spec.Order.Step).IsZero() || !decimal.Sum(decimal.Zero, p.Loads...).Equal(p.Order) {
					t.Errorf("pour %d: %s by the loads %s", i+1, p.Order, p.Loads)
				}
				net, sum, trucks = net+p.Net, sum.Add(p.Order), trucks+len(p.Loads)
				said.pours = append(said.pours, p.Order.String())
			}
			if !sum.Equal(line("concrete")) || int64(trucks) != line("trucks").IntPart() || math.Abs(net-line("concrete in place").InexactFloat64()) > 1e-9*net {
				t.Errorf("pours add up to %s in %d loads for %g; the job orders %s in %s for %s", sum, trucks, net, line("concrete"), line("trucks"), line("concrete in place"))
			}
			for where, got := range map[string]order{"sheets": orderOnSheets(t, h), "workbook": orderInBook(t, h)} {
				if !slices.Equal(got.pours, said.pours) || got.all != said.all {
					t.Errorf("the %s order %s, together %s; the JSON has %s and %s", where, got.pours, got.all, said.pours, said.all)
				}
			}
		})
	}
}

// orderOnSheets reads the list of pours on the first sheet, and what stands over it.
func orderOnSheets(t *testing.T, h *handover.Handover) (o order) {
	pages, err := sheet.Pages(t.Context(), h, sheet.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var words []string // of the first sheet, in the order they are written: texts run on over lines
	for _, it := range pages[0].Items {
		if text, ok := it.(sheet.Text); ok {
			words = append(words, text.Text)
		}
	}
	said := strings.Join(words, " ")
	if m := regexp.MustCompile(`([\d.]+) (?:yd³|m³), [^;:]*; truck loads: \d+ Pour 1,`).FindStringSubmatch(said); m != nil {
		o.all = m[1]
	}
	for _, m := range regexp.MustCompile(`Pour (\d+), day \d+: ([\d.]+) (?:yd³|m³); truck loads: \d+`).FindAllStringSubmatch(said, -1) {
		if m[1] != strconv.Itoa(len(o.pours)+1) {
			t.Errorf("after %d pours stands %q", len(o.pours), m[0])
		}
		o.pours = append(o.pours, m[2])
	}
	return o
}

// orderInBook reads the sheet of the concrete in the workbook.
func orderInBook(t *testing.T, h *handover.Handover) (o order) {
	var b bytes.Buffer
	if err := workbook.Write(t.Context(), &b, h, workbook.Options{}); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("Concrete", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		switch {
		case len(r) < 6:
		case r[0] == "To order for it":
			o.pours = append(o.pours, r[5])
		case r[0] == "Concrete to order":
			o.all = r[5]
		}
	}
	return o
}
