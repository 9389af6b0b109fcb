package estimate

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// The starting lists as earlier versions wrote them open, from a file as from a job
// book, and price the goods of a usual job as they did then.
func TestOldListsOpen(t *testing.T) {
	for _, file := range []string{"feet-inches", "metric"} {
		data, err := os.ReadFile("testdata/old/" + file + ".json")
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadPrices(data)
		if err != nil {
			t.Fatal(err)
		}
		var kept struct{ List PriceList }
		if err := json.Unmarshal([]byte(`{"List": `+string(data)+`}`), &kept); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(got, kept.List, cmp.Comparer(decimal.Decimal.Equal)); diff != "" {
			t.Errorf("%s in a book: %s", file, diff)
		}
		const ft = geometry.Foot
		for _, c := range []struct {
			id   takeoff.ID
			n    float64
			want string // of the money then
		}{
			{takeoff.ID{Kind: takeoff.MeshStock, Style: "6x6-W2.9xW2.9", Width: 5 * ft, Length: 10 * ft, Form: takeoff.Sheet}, 12, "201.00"}, // 12 × 16.75
			{takeoff.ID{Kind: takeoff.MeshStock, Style: "6x6-W1.4xW1.4", Width: 5 * ft, Length: 150 * ft, Form: takeoff.Roll}, 2, "33.50"},
			{takeoff.ID{Kind: takeoff.FoamStock, Thickness: 2 * geometry.Inch, Width: 4 * ft, Length: 8 * ft, Form: takeoff.Sheet}, 10, "382.00"},
			{takeoff.ID{Kind: takeoff.FoamStock, Thickness: 4 * geometry.Inch, Width: 4 * ft, Length: 8 * ft, Form: takeoff.Sheet}, 10, "382.00"},
			{takeoff.ID{Kind: takeoff.RetarderStock, Mil: 15, Width: 12 * ft, Length: 200 * ft, Form: takeoff.Roll}, 1, "142.00"},
			{takeoff.ID{Kind: takeoff.AnchorBolts, Diameter: geometry.Inch / 2, Length: 10 * geometry.Inch, Shape: "bent"}, 26, "92.50"}, // 2 boxes
		} {
			l, ok := material(takeoff.Line{ID: c.id, Value: c.n, Unit: takeoff.Each}, Spec{}, got)
			if !ok || l.Unpriced || l.Extended.StringFixed(2) != c.want || !l.Alike {
				t.Errorf("%s, %v: %s, want %s; priced alike: %v", file, c.id, l.Extended, c.want, l.Alike)
			}
		}
	}
}

// The starting lists call what they price as the takeoff does; a list with names of
// its own says both.
func TestOneName(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		for _, it := range Starting(u).Items {
			if want := it.What.Text(u); it.Name != want || it.Called(u) != want {
				t.Errorf("%q, called %q, prices %q", it.Name, it.Called(u), want)
			}
		}
	}
	it := Item{What: takeoff.ID{Kind: takeoff.BarStock, Bar: 4}, Name: "Half-inch rod"}
	if got, want := it.Called(geometry.FeetInches), "Bar No. 4 (“Half-inch rod”)"; got != want {
		t.Errorf("called %q, want %q", got, want)
	}
}

// Of keys that fitted the same, the one that fitted exactly counted, then the
// longer one; one with * never priced what is not bought, and a task's or a fee's
// fitted nothing.
func TestOldKeysKeepTheirRank(t *testing.T) {
	item := func(key, price string) string {
		return `{"key":"` + key + `","name":"n","group":"Steel","unit":"u","of":"ea","price":"` + price + `"}`
	}
	p, err := ReadPrices([]byte(`{"name":"x","date":"","units":"ft-in","items":[` + strings.Join([]string{
		item("steel.*", "1"), item("steel.stock.*", "2"), item("steel.chairs", "3"), item("steel.stock.4x*", "4"), item("steel.rope", "5"), item("concrete.w*", "6"),
	}, ",") + `],"wage":"1","crew":1,"tasks":[{"name":"a","key":"steel.stock.*","rate":"2"},{"name":"b","key":"nothing.such","rate":"1"},{"name":"c","each":"1"}],
	"fees":[{"name":"f","for":"unit","key":"concrete.tr*","amount":"1"},{"name":"g","for":"unit","key":"concrete.trucks","amount":"1"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[takeoff.ID]string{
		{Kind: takeoff.BarStock, Bar: 4, Length: geometry.Foot}: "4", {Kind: takeoff.BarStock, Bar: 5, Length: geometry.Foot}: "2",
		{Kind: takeoff.Chairs}: "3", {Kind: takeoff.MeshStock, Style: "x"}: "1", {Kind: takeoff.EdgeBarLength}: "", {Kind: takeoff.ConcreteWaste}: "",
	} {
		got := ""
		if it, ok := p.Item(id); ok {
			got = it.Price.To.String()
		}
		if got != want {
			t.Errorf("%+v costs %q, want %q", id, got, want)
		}
	}
	unknown := func(key string) takeoff.ID { return takeoff.ID{Kind: takeoff.Unknown, Name: key} }
	for i, want := range []takeoff.ID{unknown("steel.stock.*"), unknown("nothing.such"), {}} {
		if p.Tasks[i].What != want {
			t.Errorf("task %d is driven by %+v, want %+v", i, p.Tasks[i].What, want)
		}
	}
	for i, want := range []takeoff.ID{unknown("concrete.tr*"), {Kind: takeoff.ConcreteTrucks}} {
		if p.Fees[i].What != want {
			t.Errorf("fee %d is for %+v, want %+v", i, p.Fees[i].What, want)
		}
	}
	// What no job had is kept, under the name it had.
	if last := p.Items[len(p.Items)-2:]; last[0].What != unknown("steel.rope") || last[1].What != unknown("concrete.w*") {
		t.Errorf("kept are %+v", last)
	}
	again, err := ReadPrices(p.Encode())
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(p, again, cmp.Comparer(decimal.Decimal.Equal)); diff != "" {
		t.Error(diff)
	}
}

// Two quantities that a task or a fee fits drive it together.
func TestDrivenByAll(t *testing.T) {
	p := PriceList{Wage: d("10"), Tasks: []Task{{Name: "Carry bars", What: takeoff.ID{Kind: takeoff.BarStock}, Rate: d("2")}, {Name: "Carry No. 5", What: takeoff.ID{Kind: takeoff.BarStock, Bar: 5}, Rate: d("2")}}}
	e := Of(example(), Spec{}, p)
	got := map[string]string{}
	for _, l := range e.Lines {
		if l.Kind == Labor {
			got[l.Name] = l.Quantity.String()
		}
	}
	if diff := cmp.Diff(map[string]string{"Carry bars": "5.5", "Carry No. 5": "1"}, got); diff != "" {
		t.Error(diff)
	}
}

// A list that holds nothing is not a list that is missing.
func TestEmptyListsStayLists(t *testing.T) {
	got := string(Upgrade([]byte(`{"others":[],"prices":{"items":[],"tasks":[],"fees":[]}}`)))
	if strings.Contains(got, "null") {
		t.Errorf("upgraded to %s", got)
	}
}
