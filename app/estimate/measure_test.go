package estimate

import (
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// What is bought sets the price. Each is worked by hand: size in the measure, times
// the price of one of it, to the cent.
func TestPriceByWhatIsBought(t *testing.T) {
	const ft, in, mm = geometry.Foot, geometry.Inch, geometry.Millimeter
	mesh := func(length geometry.Length, f takeoff.Form) takeoff.ID {
		return takeoff.ID{Kind: takeoff.MeshStock, Style: "6x6-W2.9xW2.9", Width: 5 * ft, Length: length, Form: f}
	}
	foam := func(thick geometry.Length) takeoff.ID {
		return takeoff.ID{Kind: takeoff.FoamStock, Thickness: thick, Width: 4 * ft, Length: 8 * ft, Form: takeoff.Sheet}
	}
	bar := takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 20 * ft}
	for _, c := range []struct {
		name  string
		id    takeoff.ID
		by    By
		price string
		u     geometry.Units
		want  string // of one piece; "" for no price
	}{
		{"a sheet of mesh", mesh(10*ft, takeoff.Sheet), ByArea, "0.67", geometry.FeetInches, "33.5"},                                                                  // 50 ft²
		{"a roll of mesh", mesh(150*ft, takeoff.Roll), ByArea, "0.67", geometry.FeetInches, "502.5"},                                                                  // 750 ft²
		{"mesh by weight", mesh(10*ft, takeoff.Sheet), ByWeight, "0.85", geometry.FeetInches, "17.85"},                                                                // 42 lb/100 ft² × 50 ft² = 21 lb
		{"foam of 1 in", foam(in), ByVolume, "0.596875", geometry.FeetInches, "19.1"},                                                                                 // 32 board feet
		{"foam of 2 in", foam(2 * in), ByVolume, "0.596875", geometry.FeetInches, "38.2"},                                                                             // 64
		{"foam of 4 in", foam(4 * in), ByVolume, "0.596875", geometry.FeetInches, "76.4"},                                                                             // 128
		{"foam in meters", takeoff.ID{Kind: takeoff.FoamStock, Thickness: 50 * mm, Width: 1200 * mm, Length: 2400 * mm}, ByVolume, "250", geometry.Millimeters, "36"}, // 0.144 m³
		{"a bar by length", bar, ByLength, "0.83", geometry.FeetInches, "16.6"},                                                                                       // 20 ft
		{"a bar by weight", bar, ByWeight, "0.91", geometry.FeetInches, "12.16"},                                                                                      // 0.668 lb/ft × 20 ft = 13.36 lb, 12.1576
		{"a bar by weight in meters", takeoff.ID{Kind: takeoff.BarStock, Bar: 4, Length: 6000 * mm}, ByWeight, "2", geometry.Millimeters, "11.93"},                    // 0.994 kg/m × 6 m = 5.964 kg, 11.928
		{"a roll of retarder", takeoff.ID{Kind: takeoff.RetarderStock, Mil: 15, Width: 20 * ft, Length: 100 * ft, Form: takeoff.Roll}, ByArea, "0.115", geometry.FeetInches, "230"},
		{"chairs have no area", takeoff.ID{Kind: takeoff.Chairs}, ByArea, "1", geometry.FeetInches, ""},
		{"a board has no weight", takeoff.ID{Kind: takeoff.FormBoards, Size: "2x12", Length: 16 * ft}, ByWeight, "1", geometry.FeetInches, ""},
	} {
		p := PriceList{Units: c.u, Items: []Item{{What: takeoff.ID{Kind: c.id.Kind}, Unit: "piece", Of: takeoff.Each, By: c.by, Price: Costs(d(c.price))}}}
		l, _ := material(takeoff.Line{ID: c.id, Value: 1, Unit: takeoff.Each}, Spec{}, p)
		switch {
		case c.want == "" && !l.Unpriced:
			t.Errorf("%s costs %s", c.name, l.Price)
		case c.want != "" && (l.Unpriced || !l.Price.Equal(d(c.want))):
			t.Errorf("%s costs %s, by hand %s; no price: %v", c.name, l.Price, c.want, l.Unpriced)
		}
	}
}

// The starting lists price each thing by what it is bought by: nothing in them has
// the price of any.
func TestStartingListsPriceNothingAlike(t *testing.T) {
	for _, u := range []geometry.Units{geometry.FeetInches, geometry.Millimeters} {
		for _, it := range Starting(u).Items {
			if it.alike() {
				t.Errorf("%s is priced as any", it.Called(u))
			}
		}
	}
}
