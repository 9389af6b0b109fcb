package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/assets"
	"haunchbook.example/export/sheet"
	"haunchbook.example/export/workbook"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// namedJobs are jobs that take everything there is to take, in turn.
func namedJobs(t *testing.T) map[string]job.Job {
	t.Helper()
	out := map[string]job.Job{}
	for name, change := range map[string]func(*job.Job){
		"demo": func(*job.Job) {},
		"foam, mesh, hold-downs, own sill plates": func(j *job.Job) {
			j.Spec.Base.Foam = 2 * geometry.Inch
			j.Spec.Place.Field.Kind, j.Spec.Place.Field.Chairs = field.Mesh, 3*geometry.Foot
			j.Price.Others = nil
			e := &j.Slabs[0].Outline[1]
			e.Bolts = []plan.BoltMark{{Along: geometry.Foot}, {Along: 5 * geometry.Foot, HoldDown: true}, {Along: 9 * geometry.Foot}}
		},
		"millimeters, on fill, grid of bars, plain mix": func(j *job.Job) {
			j.Units = geometry.Millimeters
			j.Spec.Base.Above = 3 * geometry.Foot
			j.Spec.Place.Field.Kind = field.Grid
			j.Spec.Mix.Air, j.Spec.Mix.Fiber, j.Spec.Mix.Reducer = 0, 0, false
			j.Spec.Place.Dowels.Size = 0
		},
		"much by others": func(j *job.Job) {
			j.Price.Others = []takeoff.ID{{Kind: takeoff.BarStock}, {Kind: takeoff.ConcreteOrder}, {Kind: takeoff.AnchorBolts}, {Kind: takeoff.SillPlates}}
		},
	} {
		j, err := job.Read(bytes.NewReader(assets.Demo()))
		if err != nil {
			t.Fatal(err)
		}
		change(&j)
		out[name] = j
	}
	return out
}

// underOf is what a customer is told of that holds a line which the bid does not
// name by itself: one of the words between which "|" stands.
var underOf = map[takeoff.Kind]string{
	takeoff.ConcreteOrder: "concrete", takeoff.ConcreteTrucks: "concrete", takeoff.SlabArea: "placing, finishing and curing",
	takeoff.MixStrength: "at 28 days", takeoff.Stakes: "forms", takeoff.Kickers: "forms", takeoff.FormBoards: "forms",
	takeoff.Chairs: "mesh|bars", takeoff.BoltWashers: "anchor bolts", takeoff.DowelHoles: "dowels", takeoff.Adhesive: "dowels",
	takeoff.BaseArea: "gravel", takeoff.EdgeBarLength: "bars", takeoff.FieldBarLength: "bars", takeoff.SillPlates: "sill plates",
	takeoff.BarSupports: "bars", takeoff.TieWire: "bars", takeoff.FormRelease: "forms", takeoff.KickerStakes: "forms", takeoff.BoardScabs: "forms", takeoff.DuplexNails: "forms",
	takeoff.LipBlockOuts: "forms", takeoff.MarkingString: "forms", takeoff.RetarderTape: "vapor retarder", takeoff.CuringCompound: "curing", takeoff.BarCaps: "bars|anchor bolts|dowels",
	takeoff.OverDig: "digging|forms", takeoff.LooseFill: "fill",
}

// What a line of the takeoff is called in the list, it is called on the bid, in
// every sheet of the workbook and in the order of the concrete.
func TestOneNameOnEveryPaper(t *testing.T) {
	seen := map[takeoff.Kind]bool{}
	for name, j := range namedJobs(t) {
		t.Run(name, func(t *testing.T) {
			h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
			all, err := h.Takeoff(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			e, err := h.Estimate(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			for _, l := range e.Lines {
				seen[l.ID.Kind] = true
			}
			bidNames(t, h, e)
			bookNames(t, h, all, e)
			orderNames(t, h, e)
		})
	}
	for _, k := range []takeoff.Kind{takeoff.MeshStock, takeoff.FoamStock, takeoff.HoldDowns, takeoff.SillPlates, takeoff.FieldBarLength, takeoff.Fibers,
		takeoff.MixAir, takeoff.Digging, takeoff.IsolationStrip, takeoff.Adhesive, takeoff.Chairs, takeoff.SawCuts} {
		if !seen[k] {
			t.Errorf("no job has a price for %q", k)
		}
	}
}

// bidNames looks on the bid for every line with a price.
func bidNames(t *testing.T, h *handover.Handover, e estimate.Estimate) {
	p, err := sheet.BidPages(t.Context(), h, sheet.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, it := range p[0].Items {
		if text, ok := it.(sheet.Text); ok {
			words = append(words, text.Text)
		}
	}
	bid := strings.ToLower(strings.Join(words, " "))
	in, out, ok := strings.Cut(bid, "not included")
	if !ok {
		t.Fatalf("the bid says %q", bid)
	}
	for _, l := range e.Lines {
		if l.ID.IsZero() {
			continue
		}
		want, where := strings.ToLower(l.ID.Kind.Noun()), in
		if of, ok := underOf[l.ID.Kind]; ok {
			want = of
		}
		if l.ByOthers {
			where = out
			if l.ID.Kind != takeoff.SillPlates {
				want = strings.ToLower(l.Name)
			}
		}
		if !slices.ContainsFunc(strings.Split(want, "|"), func(w string) bool { return strings.Contains(where, w) }) {
			t.Errorf("the bid has no %q for %q; it says %q", want, l.Name, where)
		}
	}
}

// bookNames looks in the workbook for every line with a price and every quantity.
func bookNames(t *testing.T, h *handover.Handover, all takeoff.Takeoff, e estimate.Estimate) {
	var b bytes.Buffer
	if err := workbook.Write(t.Context(), &b, h, workbook.Options{}); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	// column gives the texts of a column that have a number beside them.
	column := func(title string, of, number int) []string {
		rows, err := f.GetRows(title, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, r := range rows {
			if len(r) > max(of, number) && r[of] != "" && r[number] != "" && strings.Trim(r[number], "-.0123456789E") == "" {
				out = append(out, r[of])
			}
		}
		return out
	}
	order, driven, lines := column("Order", 0, 1), column("Labor", 1, 2), column("Option lines", 0, 5)
	var bought []string
	for _, l := range e.Lines {
		name := l.ID.Text(h.Units())
		switch {
		case l.ID.IsZero():
		case l.Kind == estimate.Material:
			if l.Name != name {
				t.Errorf("%q is priced as %q", name, l.Name)
			}
			bought = append(bought, name)
			if n := count(lines, name); n < 2 {
				t.Errorf("%q stands %d times among the lines of the options", name, n)
			}
		case l.Kind == estimate.Labor && !slices.Contains(driven, name):
			t.Errorf("%q is driven by none of %q", name, driven)
		}
	}
	order = slices.DeleteFunc(order, func(s string) bool { return s == "Lines without a price, in no total" }) // it counts them
	slices.Sort(bought)
	slices.Sort(order)
	if !slices.Equal(bought, order) {
		t.Errorf("to buy are %q; the order has %q", bought, order)
	}
	rows, err := f.GetRows("Working")
	if err != nil {
		t.Fatal(err)
	}
	concrete := column("Concrete", 0, 5)
	for _, l := range all.Lines {
		name := l.ID.Text(h.Units())
		if l.Name != name {
			t.Errorf("%q is called %q", name, l.Name)
		}
		if !slices.ContainsFunc(rows, func(r []string) bool { return len(r) > 0 && r[0] == name }) {
			t.Errorf("%q has no working", name)
		}
		if l.ID.Kind.Group() == takeoff.Concrete && l.ID.Kind != takeoff.ConcreteWaste && l.ID.Kind != takeoff.Fibers && count(concrete, name) != 1 {
			t.Errorf("%q stands %d times among %q", name, count(concrete, name), concrete)
		}
	}
}

// orderNames looks in the order of the concrete for what the plant charges.
func orderNames(t *testing.T, h *handover.Handover, e estimate.Estimate) {
	days, err := h.Days(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	j := h.Job()
	text := "\n" + days[0].OrderText(j.Name, j.Site, j.Date, j.Spec.Mix, j.Pour, j.Units)
	for _, l := range e.Lines {
		if l.Group == estimate.ReadyMix && l.ID.Kind != takeoff.MixStrength && !strings.Contains(text, "\n"+l.Name+":") {
			t.Errorf("the order has no %q:%s", l.Name, text)
		}
	}
}

func count(list []string, name string) int {
	n := 0
	for _, s := range list {
		if s == name {
			n++
		}
	}
	return n
}
