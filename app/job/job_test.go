package job

import (
	"encoding/base64"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const minimal = `{
  "haunchbook": 7,
  "name": "Lean-to",
  "units": "ft-in",
  "slabs": [{
    "field": "6\"",
    "sections": [{"name": "edge", "depth": "12\"", "bottom": "12\"", "taper": "12\""}],
    "outline": [
      {"at": ["0", "0"], "section": "edge", "doors": [{"kind": "walk", "from": "4'", "width": "3'"}]},
      {"at": ["24'", "0"], "section": "edge"},
      {"at": ["24'", "20'-6 1/2\""], "joint": true},
      {"at": ["0", "20'-6 1/2\""], "section": "edge", "wall": "2x6"}
    ]
  }]
}`

func TestRead(t *testing.T) {
	j, err := Read(strings.NewReader(minimal))
	if err != nil {
		t.Fatal(err)
	}
	e := j.Slabs[0].Outline
	if j.Name != "Lean-to" || len(e) != 4 || e[2].At.Y != 20*geometry.Foot+13*geometry.Inch/2 || !e[2].Joint || e[3].Wall != "2x6" || e[0].Doors[0].Kind != plan.Walk {
		t.Errorf("read %+v", j)
	}
	// What the file leaves out is as New gives it.
	if diff := cmp.Diff(New().Spec, j.Spec); diff != "" {
		t.Errorf("specification differs from the usual:\n%s", diff)
	}
}

func TestReadFaults(t *testing.T) {
	for _, c := range []struct{ name, old, new, want string }{
		{"empty", minimal, "", "line 1: found the end of the file"},
		{"cut short", "  }]\n}", "", "the end of the file; the job is cut short"},
		{"not JSON", `"name": "Lean-to",`, `"name" "Lean-to",`, "line 3"},
		{"two jobs", "  }]\n}", "  }]\n} {}", "one file holds one job"},
		{"a list", minimal, "[]", "job file: found a list; write an object"},
		{"unknown field", `"joint": true`, `"joined": true`, "slabs[0].outline[2].joined: found an unknown field; the fields here are at, section, joint, wall, doors"},
		{"repeated field", `"units": "ft-in",`, `"units": "ft-in", "units": "mm",`, "units: found the field a second time"},
		{"bare number", `"12\"", "bottom"`, `12, "bottom"`, `slabs[0].sections[0].depth: found 12; write a length as a string with its unit`},
		{"no unit", `"6\""`, `"6"`, `slabs[0].field: found “6”; no unit; add one`},
		{"bad length", `"6\""`, `"6 hands"`, `found “6 hands”; “hands” is no unit`},
		{"half a point", `["24'", "0"]`, `["24'"]`, "slabs[0].outline[1].at: found a list; write a point as [x, y]"},
		{"bad name", `"walk"`, `"cat"`, `slabs[0].outline[0].doors[0].kind: found “cat”; write overhead or walk`},
		{"wrong type", `true`, `"yes"`, `slabs[0].outline[2].joint: found “yes”; write true or false`},
		{"null", `true`, `null`, "slabs[0].outline[2].joint: found null"},
		{"bad units", `"ft-in"`, `"cubits"`, `units: found “cubits”; write ft-in or mm`},
		{"no version", `"haunchbook": 7,`, ``, `haunchbook: found no version; start the file with "haunchbook": 7`},
		{"newer version, newer fields", "  }]\n}", "  }], \"rooms\": 3\n}", `rooms: found an unknown field`},
		{"newer version", `"haunchbook": 7,`, `"haunchbook": 99,`, "haunchbook: found 99; this program reads up to version"},
		{"version as text", `"haunchbook": 7,`, `"haunchbook": "1",`, `haunchbook: found “1”; write a whole number`},
		{"too deep", `"name": "Lean-to"`, `"name": ` + strings.Repeat("[", 50) + strings.Repeat("]", 50), "too many levels"},
		{"faulty plan", `"width": "3'"`, `"width": "30'"`, `slabs[0].outline[0].doors[0].width: found 30'-0" on an edge of 24'-0"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(minimal, c.old, c.new, 1)
			if text == minimal {
				t.Fatal("the edit found nothing to replace")
			}
			_, err := Read(strings.NewReader(text))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v\nwant %s", err, c.want)
			}
		})
	}
}

// A file of sound form with a faulty plan gives the job too, so that the plan
// can be shown.
func TestReadGivesFaultyPlan(t *testing.T) {
	j, err := Read(strings.NewReader(strings.Replace(minimal, `["24'", "0"]`, `["12'", "30'"]`, 1)))
	var faults plan.Faults
	if !errors.As(err, &faults) || len(j.Slabs[0].Outline) != 4 {
		t.Errorf("got %v with %d edges", err, len(j.Slabs[0].Outline))
	}
}

// A file of version 1 held one slab, and the builder's bolts apart from the
// edges. They stay where they were.
func TestReadVersion1(t *testing.T) {
	old := strings.NewReplacer(`"haunchbook": 7`, `"haunchbook": 1`, `"slabs": [{`, `"slab": {`, "  }]\n}", `  },
  "pour": {"trucks": {"shortload": "4"}},
  "spec": {"place": {"bolts": {"spacing": "4'", "marks": [
    {"edge": 3, "along": "2'"}, {"edge": 3, "along": "18'", "holddown": true}, {"edge": 9, "along": "1'"}
  ]}}}
}`).Replace(minimal)
	j, err := Read(strings.NewReader(old))
	if err != nil {
		t.Fatal(err)
	}
	want, err := Read(strings.NewReader(minimal))
	if err != nil {
		t.Fatal(err)
	}
	want.Slabs[0].Outline[3].Bolts = []plan.BoltMark{{Along: 2 * geometry.Foot}, {Along: 18 * geometry.Foot, HoldDown: true}}
	want.Spec.Place.Bolts.Spacing = 4 * geometry.Foot
	want.Spec.Mix.Air = 6
	if diff := cmp.Diff(string(want.Encode()), string(j.Encode())); diff != "" {
		t.Error(diff)
	}
}

// In a file of version 2, what others supply and what a price list prices were
// keys of takeoff lines.
func TestReadVersion2(t *testing.T) {
	old := strings.NewReplacer(`"haunchbook": 7`, `"haunchbook": 2`, "  }]\n}", `  }],
  "price": {"overhead": "12", "others": ["forms.boards.2x12x*", "retarder.rolls"], "prices": {"name": "Mine", "date": "2025-03-01", "units": "ft-in",
    "items": [{"key": "steel.stock.4x20ft", "name": "No. 4", "group": "Steel", "unit": "bar", "of": "ea", "price": "17.20"}],
    "wage": "50", "crew": 4, "tasks": [{"name": "Set forms", "key": "forms.length", "of": "ft", "rate": "9"}],
    "fees": [{"name": "Truck fee", "for": "unit", "key": "concrete.trucks", "of": "ea", "amount": "35"}]}}
}`).Replace(minimal)
	j, err := Read(strings.NewReader(old))
	if err != nil {
		t.Fatal(err)
	}
	p := j.Price.Prices
	for _, c := range []struct{ got, want takeoff.ID }{
		{j.Price.Others[0], takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12"}},
		{j.Price.Others[1], takeoff.ID{Kind: takeoff.RetarderStock}},
		{p.Items[0].What, takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * geometry.Foot}},
		{p.Tasks[0].What, takeoff.ID{Kind: takeoff.FormLength}},
		{p.Fees[0].What, takeoff.ID{Kind: takeoff.ConcreteTrucks}},
	} {
		if c.got != c.want {
			t.Errorf("read %+v, want %+v", c.got, c.want)
		}
	}
	if j.Price.Overhead.String() != "12" || p.Wage.String() != "50" || p.Items[0].Price.String() != "17.20" {
		t.Errorf("read %+v", j.Price)
	}
	back, err := Read(strings.NewReader(string(j.Encode())))
	if err != nil || string(back.Encode()) != string(j.Encode()) {
		t.Errorf("written and read again (%v):\n%s", err, j.Encode())
	}
}

func TestRoundTrip(t *testing.T) {
	for _, units := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		j, err := Read(strings.NewReader(minimal))
		if err != nil {
			t.Fatal(err)
		}
		j.Units = units
		j.Slabs[0].Outline[1].At.X += 1 // a nanometer is not lost
		j.Slabs[0].Pads = []plan.Pad{{Name: `post "A"`, Center: j.Slabs[0].Outline[0].At.Add(geometry.Point{X: geometry.Meter, Y: geometry.Meter}), Width: geometry.Foot, Length: geometry.Foot, Depth: geometry.Foot, Turn: 12.5}}
		j.Spec.Order.Waste = j.Spec.Order.Waste.Sub(j.Spec.Order.Waste) // a zero is not the usual
		text := j.Encode()
		back, err := Read(strings.NewReader(string(text)))
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if diff := cmp.Diff(j.Slabs[0], back.Slabs[0]); diff != "" {
			t.Errorf("%v: %s", units, diff)
		}
		if !back.Spec.Order.Waste.IsZero() {
			t.Errorf("%v: a waste of 0 %% came back as %v", units, back.Spec.Order.Waste)
		}
		if again := back.Encode(); string(again) != string(text) {
			t.Errorf("%v: written twice, two texts", units)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(minimal)
	f.Add(`{"haunchbook":1}`)
	f.Add("[[[[")
	f.Fuzz(func(t *testing.T, text string) {
		j, err := Read(strings.NewReader(text))
		if err != nil {
			return
		}
		if _, err := Read(strings.NewReader(string(j.Encode()))); err != nil {
			t.Fatalf("%v\n%s", err, j.Encode())
		}
	})
}

// A file of version 2 has other names for some fields, and says the same.
func TestReadOldNames(t *testing.T) {
	png := base64.StdEncoding.EncodeToString(append([]byte("\x89PNG\r\n"), make([]byte, 60)...))
	rest := `"pads": [{"centre": ["8'", "8'"], "width": "2'", "length": "2'", "depth": "1'"}]
  }],
  "spec": {"mix": {"air": 6}, "place": {"joints": {"spacing": "9'"}}},
  "price": {"mobilisation": "180"},
  "trace": {"image": "` + png + `", "corners": [["0", "9'"], ["9'", "9'"], ["9'", "0"], ["0", "0"]]}
}`
	fresh := strings.Replace(minimal, "\n  }]\n}", ",\n    "+rest, 1)
	old := strings.Replace(fresh, `"haunchbook": 7`, `"haunchbook": 2`, 1)
	for _, r := range renamed3 {
		key := r.path[strings.LastIndex(r.path, ".")+1:]
		if !strings.Contains(old, `"`+key+`"`) {
			t.Errorf("no %s in the file of this test", r.path)
		}
		fresh = strings.Replace(fresh, `"`+key+`"`, `"`+r.name+`"`, 1)
	}
	want, err := Read(strings.NewReader(fresh))
	if err != nil {
		t.Fatal(err)
	}
	got, err := Read(strings.NewReader(old))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want.Encode()), string(got.Encode())); diff != "" {
		t.Error(diff)
	}
	if _, err := Read(strings.NewReader(strings.Replace(old, `"haunchbook": 2`, `"haunchbook": 7`, 1))); err == nil {
		t.Error("a file of this version may have the names of version 2")
	}
}

// A mix of which an older file says nothing had 6 % of air; a file of this version
// asks for none, and what is given stays.
func TestReadOldAir(t *testing.T) {
	for _, c := range []struct {
		version int
		spec    string
		want    float64
	}{
		{1, "", 6}, {2, "", 6}, {3, "", 6}, {4, "", 0},
		{3, `, "spec": {}`, 6}, {3, `, "spec": {"mix": {"strength": 3500}}`, 6},
		{3, `, "spec": {"mix": {"air": 0}}`, 0}, {3, `, "spec": {"mix": {"air": 4.5}}`, 4.5}, {4, `, "spec": {"mix": {"air": 7}}`, 7},
	} {
		j, err := Read(strings.NewReader(fmt.Sprintf(`{"haunchbook": %d%s}`, c.version, c.spec)))
		if _, faulty := err.(plan.Faults); err != nil && !faulty { // a blank plan
			t.Fatal(err)
		}
		if j.Spec.Mix.Air != c.want {
			t.Errorf("version %d%s: air %g, want %g", c.version, c.spec, j.Spec.Mix.Air, c.want)
		}
	}
}

// A fault says what was found, and says it once.
func TestWhatIsFoundIsSaidOnce(t *testing.T) {
	_, err := Read(strings.NewReader(`{"haunchbook": 7, "price": {"others": [{"kind": "gravvel"}]}}`))
	if err == nil || strings.Count(err.Error(), "gravvel") != 1 {
		t.Errorf("%v", err)
	}
}
