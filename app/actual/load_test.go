package actual

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"haunchbook.example/app/field"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// Every field of a load and of cylinders has its row, and every row a field.
func TestEveryFieldOfTheRecordHasItsRow(t *testing.T) {
	rows := map[string]bool{}
	for _, g := range field.Record() {
		for _, r := range append([]*field.Row{&g.Row}, g.Rows...) {
			rows[r.Path] = true
			if r.Help == "" || r.Label == "" {
				t.Errorf("%s has no help or no label", r.Path)
			}
		}
	}
	for path, of := range map[string]reflect.Type{"record.loads[]": reflect.TypeFor[Load](), "record.cylinders[]": reflect.TypeFor[Cylinders]()} {
		for _, name := range append(field.Names(of), "") {
			at := field.Join(path, name)
			if !rows[at] {
				t.Errorf("no row for %s", at)
			}
			delete(rows, at)
		}
	}
	for path := range rows {
		t.Errorf("a row for %s, which no record has", path)
	}
}

// What came is the sum of the loads that were not sent back, where they are written down.
func TestLoadsAddUp(t *testing.T) {
	r := Record{Delivered: d("12"), Left: known("0.5"), Trucks: 1}
	if !r.Came().Equal(d("12")) {
		t.Errorf("without loads %s came", r.Came())
	}
	r.Loads = []Load{{Ticket: "1"}}
	if !r.Came().Equal(d("12")) {
		t.Errorf("of a load without yards %s came", r.Came())
	}
	r.Loads = []Load{{Volume: d("9")}, {Volume: d("8"), Rejected: true}, {Volume: d("2.25")}}
	if used, ok := r.Used(); !ok || !used.Equal(d("10.75")) || r.Visits() != 3 {
		t.Errorf("%s were used, %v, in %d trucks", used, ok, r.Visits())
	}
	r.Left = known("11.5")
	if err := r.Validate(); err == nil || !strings.Contains(err.Error(), "11.25") {
		t.Errorf("more left than came: %v", err)
	}
}

func TestTimes(t *testing.T) {
	for in, want := range map[string]string{"7:05": "07:05", "705": "07:05", "7.05": "07:05", "1510": "15:10", " ": "", "24:00": "!", "7": "!", "x": "!"} {
		var at Time
		err := at.UnmarshalText([]byte(in))
		if got := at.String(); err != nil && want != "!" || err == nil && got != want {
			t.Errorf("%q reads as %q, %v", in, got, err)
		}
	}
	over := Load{Batched: At(23, 30), Arrived: At(23, 55), Started: At(0, 10), Emptied: At(0, 40)}
	if age, ok := over.Age(); !ok || age != 70 {
		t.Errorf("over midnight the age is %d, %v", age, ok)
	}
	if w, ok := over.Waited(); !ok || w != 15 || over.disordered() != "" {
		t.Errorf("it waited %d min, %v; %q", w, ok, over.disordered())
	}
	if _, ok := (Load{Emptied: At(1, 0)}).Age(); ok {
		t.Error("a load without a time of batching has an age")
	}
}

// A record that knows no loads, as older books hold it, reads; one with loads comes back as
// it was, and a load of more than there is on any road is refused with its place.
func TestRecordsAreKept(t *testing.T) {
	var old Record
	if err := json.Unmarshal([]byte(`{"ordered":"11","delivered":"10.5","left":null,"trucks":2}`), &old); err != nil || old.Validate() != nil || !old.Came().Equal(d("10.5")) {
		t.Errorf("%+v, %v", old, err)
	}
	r := Record{Loads: []Load{{"17", d("9.5"), At(7, 0), At(7, 20), At(7, 25), At(7, 50), 5 * geometry.Inch, d("5.5"), pour.Fahrenheit(66), d("3"), 2, true}}, Cylinders: []Cylinders{{"17", 2300, 3400}}}
	text, err := json.Marshal(r)
	var back Record
	if err == nil {
		err = json.Unmarshal(text, &back)
	}
	if again, _ := json.Marshal(back); err != nil || string(again) != string(text) || back.Loads[0].Emptied != At(7, 50) {
		t.Errorf("%s came back as %s, %v", text, again, err)
	}
	for name, bad := range map[string]Record{
		"record.loads[1].volume":     {Loads: []Load{{}, {Volume: d("101")}}},
		"record.loads[0].slump":      {Loads: []Load{{Slump: -1}}},
		"record.cylinders[0].ticket": {Cylinders: []Cylinders{{Seven: 2000}}},
	} {
		if err := bad.Validate(); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Each limit is passed just beyond it, and kept at it.
func TestLimits(t *testing.T) {
	asked := Asked{Mix: takeoff.Mix{Strength: 3000, Slump: 5 * geometry.Inch, Air: 6}, Limit: 90, Thinnest: 6 * geometry.Inch}
	at := func(emptied Time) Load { return Load{Batched: At(7, 0), Emptied: emptied} }
	load := func(l Load) Record { return Record{Loads: []Load{{}, l}} }
	for _, c := range []struct {
		name string
		is   Record
		want string
	}{
		{"age at the limit", load(at(At(8, 30))), ""},
		{"too old", load(at(At(8, 31))), "Load 2 was 91 min old; the limit agreed is 90 min"},
		{"slump at the limit", load(Load{Slump: 13 * geometry.Inch / 2}), ""},
		{"too wet", load(Load{Slump: 27 * geometry.Inch / 4}), `Load 2 came with a slump of 6 3/4"; 5" were asked, with 1 1/2" more or less`},
		{"too stiff", load(Load{Slump: 3 * geometry.Inch}), "slump of 3"},
		{"air at the limit", load(Load{Air: d("7.5")}), ""},
		{"too little air", load(Load{Air: d("4.4")}), "Load 2 came with 4.4 % of air"},
		{"warm enough", load(Load{Temperature: pour.Fahrenheit(55)}), ""},
		{"cold", load(Load{Temperature: pour.Celsius(12)}), "53.6 °F; where less than 40 °F is expected, it is placed at 55 °F"},
		{"hot at the limit", load(Load{Temperature: pour.Celsius(35)}), ""},
		{"hot", load(Load{Temperature: pour.Fahrenheit(96)}), "at most 95 °F"},
		{"watered", load(Load{Water: d("4")}), "Load 2 got 4 gal of water"},
		{"times", load(Load{Arrived: At(7, 30), Started: At(7, 20)}), "Load 2: arrived at 07:30 and started at 07:20"},
		{"delivered", Record{Delivered: d("10"), Loads: []Load{{Volume: d("9")}}}, "The loads come to 9, and 10"},
		{"strong enough", Record{Cylinders: []Cylinders{{"a", 1950, 0}, {"b", 0, 3000}}}, ""},
		{"weak early", Record{Cylinders: []Cylinders{{"a", 1949, 0}}}, "ticket a broke at 1949 psi after 7 days"},
		{"weak a little", Record{Cylinders: []Cylinders{{"a", 1949, 2500}}}, "ticket a broke at 2500 psi after 28 days; three tests"},
		{"weak", Record{Cylinders: []Cylinders{{"a", 0, 2499}}}, "more than 500 psi below"},
		{"weak on average", Record{Cylinders: []Cylinders{{"a", 0, 3100}, {"b", 0, 3000}, {"c", 0, 2896}}}, "Three tests in a row come to 2998 psi"},
	} {
		said := ""
		for _, f := range c.is.Findings(asked) {
			said += f.Text + "\n"
			if f.Rule.Source == "" && f.Broken() {
				t.Errorf("%s: %s has no source", c.name, f.Rule.Name)
			}
		}
		if c.want == "" && said != "" || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q", c.name, said)
		}
	}
	if f := load(Load{Temperature: pour.Fahrenheit(52)}).Findings(Asked{Thinnest: 12 * geometry.Inch}); len(f) != 0 {
		t.Errorf("a thick section: %v", f)
	}
}
