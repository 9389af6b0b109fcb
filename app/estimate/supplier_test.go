package estimate

import (
	"strings"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// A supplier's list as it comes: a title, headings of its own, names with more words
// than ours, amounts with signs, and rows that fit nothing, two things, or another unit.
func TestMatch(t *testing.T) {
	p := Starting(geometry.FeetInches)
	o, err := p.Match([][]string{
		{"Sample Yard, spring list"},
		{"Code", "Description", "UOM", "Price, $"},
		{"c1", "Concrete to order, delivered", "CY", "$1,171.25"},
		{"b4", "Bar No. 4, grade 60", "lf", "0.91"},
		{"b9", "Bar No. 9", "lf", "3.91"},
		{"f", "FORM BOARD 2x12", "", "2.60"},
		{"s", "Stakes", "bundle of 50", "55"},
		{"w", "Washers with nuts", "ea", "on request"},
		{"w", "Washer with nut", "each", "3.00"},
		{"w", "Washers with nuts, again", "each", "3.10"},
		{"x", "", "", ""},
		{"g", "Gloves", "pair", "4"},
		{"k", "Kickers", "piece", "-1"},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := map[takeoff.ID]string{
		{Kind: takeoff.ConcreteOrder}:            "1171.25",
		{Kind: takeoff.BarStock, Bar: 4}:         "0.91",
		{Kind: takeoff.FormBoards, Size: "2x12"}: "2.60",
		{Kind: takeoff.BoltWashers}:              "3.00",
	}
	if len(o.Found) != len(want) {
		t.Errorf("found %+v", o.Found)
	}
	for _, f := range o.Found {
		if f.Is.StringFixed(2) != want[f.What] {
			t.Errorf("%s at %s, want %s", f.Name, f.Is, want[f.What])
		}
	}
	if c, ok := o.Found[1].Change(); !ok || c.String() != "9.6" { // 0.91 for 0.83
		t.Errorf("No. 4 changes by %s", c)
	}
	why := ""
	for _, u := range o.Unmatched {
		why += u.Said + ": " + u.Why + "\n"
	}
	for _, w := range []string{"Bar No. 9: nothing", "Stakes: it is sold by bundle of 50, and the price list has it by bundle of 25", "on request", "again: Washers", "Gloves: nothing", "Kickers: its price is below 0"} {
		if !strings.Contains(why, w) {
			t.Errorf("no %q in:\n%s", w, why)
		}
	}
	if len(o.Unmatched) != 6 || o.Unmatched[0].Row != 5 {
		t.Errorf("unmatched: %+v", o.Unmatched)
	}
	is := p.Take(o, "2026-04-12")
	if it, _ := is.Item(takeoff.ID{Kind: takeoff.BoltWashers}); it.Price.String() != "3.00" || it.Date != "2026-04-12" {
		t.Errorf("washers: %+v", it)
	}
	if it, _ := p.Item(takeoff.ID{Kind: takeoff.BoltWashers}); it.Price.String() != "2.85" {
		t.Error("the list it was made from has changed")
	}
	for _, bad := range [][][]string{nil, {{"a", "b"}}, {{"Item", "What it is"}}} {
		if _, err := p.Match(bad); err == nil {
			t.Errorf("%v has headings", bad)
		}
	}
}

// A price for a piece is none for what the list prices by length, area, volume or
// weight, and one for that measure is taken however it is abbreviated.
func TestMatchMeasures(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		p := PriceList{Units: u}
		var pieces, measures [][]string
		measures = append(measures, []string{"Item", "Unit", "Price"})
		pieces = append(pieces, measures[0])
		for _, c := range []struct {
			by     By
			id     takeoff.ID
			unit   string
			abbrev [2]string
		}{
			{ByLength, takeoff.ID{Kind: takeoff.BarStock, Bar: 4}, "bar", [2]string{"LF", "lm"}},
			{ByArea, takeoff.ID{Kind: takeoff.MeshStock, Style: "6x6-W1.4xW1.4"}, "sheet", [2]string{"SF", "sq m"}},
			{ByVolume, takeoff.ID{Kind: takeoff.FoamStock}, "sheet", [2]string{"BF", "CBM"}},
			{ByWeight, takeoff.ID{Kind: takeoff.BarStock, Bar: 8}, "bar", [2]string{"lbs", "kilogram"}},
		} {
			it := Item{What: c.id, Name: c.id.Text(u), Unit: c.unit, By: c.by, Price: Costs(one)}
			p.Items = append(p.Items, it)
			pieces = append(pieces, []string{it.Name, c.unit, "25"})
			measures = append(measures, []string{it.Name, c.abbrev[btoi(u == geometry.Millimeters)], "2"})
		}
		if o, err := p.Match(pieces); err != nil || len(o.Found) > 0 {
			t.Errorf("%v: a price of a piece is taken: %+v, %v", u, o.Found, err)
		}
		o, err := p.Match(measures)
		if err != nil || len(o.Found) != len(p.Items) {
			t.Errorf("%v: of a measure, %+v is not taken, %v", u, o.Unmatched, err)
		}
		for i, f := range o.Found {
			if want := p.Items[i].By.Measure(u); f.Per != want {
				t.Errorf("%s is told per %s, want %s", f.Name, f.Per, want)
			}
		}
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Each item of either starting list is found by the name that it has there.
func TestMatchFindsEveryItemByItsName(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		p := Starting(u)
		rows := [][]string{{"Name", "Price"}}
		for _, it := range p.Items {
			rows = append(rows, []string{it.Name, "7"})
		}
		o, err := p.Match(rows)
		if err != nil || len(o.Found) != len(p.Items) {
			t.Errorf("%v: %d of %d, %v; unmatched: %+v", u, len(o.Found), len(p.Items), err, o.Unmatched)
		}
	}
}
