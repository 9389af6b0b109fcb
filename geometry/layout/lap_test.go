package layout_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/layout/cover"
	"haunchbook.example/geometry/layout/slab"
)

const (
	inch = geometry.Inch
	foot = geometry.Foot
)

// table reads a reference table, whose first line names its source.
func table(t *testing.T, name string) []map[string]string {
	f, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[all[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// ASTM A615/A615M Table 1 and ISO 6935-2, as in testdata/reference.
func TestBarSizes(t *testing.T) {
	const near = 1e-9
	seen := 0
	for _, row := range table(t, "bars.csv") {
		s := bars.Size(number(t, row["bar"]))
		seen++
		if !s.Known() || s.Soft() != int(number(t, row["soft_metric"])) || s.PerFoot() != number(t, row["lb_per_ft"]) || s.PerMeter() != number(t, row["kg_per_m"]) ||
			s.Diameter().Inches() != number(t, row["diameter_in"]) || math.Abs(s.Area()/645.16-number(t, row["area_in2"])) > near {
			t.Errorf("%s: the table has %v", s, row)
		}
		// The table's own columns agree: a pound is 0.45359237 kg, a foot 0.3048 m.
		if d := s.PerFoot()*0.45359237/0.3048 - s.PerMeter(); math.Abs(d) > 0.0015 {
			t.Errorf("%s: lb/ft and kg/m differ by %.4f kg/m", s, d)
		}
	}
	for _, row := range table(t, "bars_metric.csv") {
		mm := number(t, row["diameter_mm"])
		s := bars.Metric(int(mm))
		seen++
		if !s.Known() || s.Diameter() != geometry.Length(mm)*geometry.Millimeter || s.Area() != number(t, row["area_mm2"]) || s.PerMeter() != number(t, row["kg_per_m"]) {
			t.Errorf("%s: the table has %v", s, row)
		}
		// The area is a circle's, and steel has 7850 kg/m³, to three figures.
		if area := math.Pi / 4 * mm * mm; math.Abs(s.Area()-area) > 0.005*area || math.Abs(s.PerMeter()-0.00785*area) > 0.005*0.00785*area {
			t.Errorf("%s: %v mm², %v kg/m; a circle has %.1f", s, s.Area(), s.PerMeter(), area)
		}
		if d := s.PerFoot()*0.45359237/0.3048 - s.PerMeter(); math.Abs(d) > near {
			t.Errorf("%s: lb/ft and kg/m differ by %g kg/m", s, d)
		}
	}
	if n := len(bars.Sizes()); n != seen {
		t.Errorf("%d sizes, the tables have %d", n, seen)
	}
}

// A bar is read as it is typed in either kind of job, and written as it is read.
func TestReadBar(t *testing.T) {
	for _, c := range []struct {
		typed string
		u     geometry.Units
		want  bars.Size
	}{
		{"4", geometry.FeetInches, 4},
		{"#4", geometry.Millimeters, 4},
		{"No. 4", geometry.Millimeters, 4},
		{" # 5 ", geometry.FeetInches, 5},
		{"12", geometry.Millimeters, bars.Metric(12)},
		{"12mm", geometry.FeetInches, bars.Metric(12)},
		{"12 mm", geometry.Millimeters, bars.Metric(12)},
		{"Ø8", geometry.FeetInches, bars.Metric(8)},
		{"0", geometry.Millimeters, 0},
	} {
		got, err := bars.Read(c.typed, c.u)
		if err != nil || got != c.want {
			t.Errorf("%q is %s, %v; want %s", c.typed, got, err, c.want)
		}
		data, err := json.Marshal(got)
		var back bars.Size
		if err == nil {
			err = json.Unmarshal(data, &back)
		}
		if err != nil || back != got {
			t.Errorf("%s is written %s, read as %s, %v", got, data, back, err)
		}
	}
	for _, typed := range []string{"", "four", "-4", "12 in", "Ø", "12 mm mm", "99999"} {
		if got, err := bars.Read(typed, geometry.FeetInches); err == nil {
			t.Errorf("%q is %s", typed, got)
		}
	}
}

// ASTM A1064/A1064M stock styles, as in testdata/reference/mesh.csv. A wire Wn
// has an area of n/100 in².
func TestMeshStyles(t *testing.T) {
	rows, metric := table(t, "mesh.csv"), table(t, "mesh_metric.csv")
	if n := len(rows) + len(metric); n != len(cover.MeshStyles()) {
		t.Fatalf("%d styles, the tables have %d", len(cover.MeshStyles()), n)
	}
	for _, row := range metric {
		m, ok := cover.MeshNamed(row["style"])
		if mm2 := m.Area * 645.16 / 0.3048; !ok || math.Abs(mm2-number(t, row["area_mm2_per_m"])) > 0.6 || math.Abs(m.PerArea()-number(t, row["kg_per_m2"])) > 0.006 {
			t.Errorf("%v: %+v, %.1f mm²/m, %.3f kg/m²", row, m, mm2, m.PerArea())
		}
		if l := m.MeshLap() - m.Spacing; l != 50*geometry.Millimeter || strconv.Itoa(int(m.Spacing/geometry.Millimeter)) != row["style"][:3] {
			t.Errorf("%s: spacing %v, lap %v", m.Name, m.Spacing, m.MeshLap())
		}
	}
	for _, row := range rows {
		m, ok := cover.MeshNamed(row["style"])
		if !ok || m.Area != number(t, row["area_in2_per_ft"]) || m.PerSheet != number(t, row["lb_per_100ft2"]) {
			t.Errorf("%v: %+v", row, m)
		}
		if want := row["style"][:1]; strconv.Itoa(int(m.Spacing/inch)) != want {
			t.Errorf("%s: spacing %v", m.Name, m.Spacing)
		}
	}
	m, _ := cover.MeshNamed("6x6-W1.4xW1.4")
	if m.MeshLap() != 8*inch { // one square plus 2 in: common practice
		t.Errorf("lap %v", m.MeshLap())
	}
}

// ACI 318-19 table 25.4.2.3 and 25.5.2.1. The first row is the usual worked
// example: Grade 60, 3,000 psi, uncoated No. 4: ld 21.9 in, lap 28.5 in.
func TestLapACI(t *testing.T) {
	for _, c := range []struct {
		size        bars.Size
		grade       bars.Grade
		strength    int
		coated, top bool
		ld, lap     float64 // in
	}{
		{4, 60, 3000, false, false, 21.9, 28.5},
		{4, 60, 4000, false, false, 19.0, 24.7},
		{5, 60, 3000, false, false, 27.4, 35.6},
		{6, 60, 4000, false, false, 28.5, 37.0},
		{7, 60, 4000, false, false, 41.5, 54.0},                      // 20 in place of 25 in the divisor
		{4, 60, 3000, false, true, 28.5, 37.0},                       // top bar, 1.3
		{4, 60, 3000, true, false, 32.9, 42.7},                       // epoxy-coated, 1.5
		{4, 60, 3000, true, true, 37.2, 48.4},                        // 1.3 × 1.5 is at most 1.7
		{3, 40, 5000, false, false, 12.0, 12.0},                      // the minima
		{4, 80, 3000, false, false, 33.6, 43.7},                      // ψg 1.15
		{4, 60, 15000, false, false, 12.0, 15.6},                     // √f'c at most 100 psi: 12 in before the minimum
		{bars.Metric(12), 60, 3000, false, false, 20.7, 26.9},        // 43.82 db of 12 mm
		{bars.Metric(12), bars.B500, 3000, false, false, 28.8, 37.4}, // 500 MPa is 72,519 psi, ψg 1.15: 60.91 db
		{bars.Metric(20), bars.B500, 4000, false, false, 51.9, 67.5}, // thicker than a No. 6: 20 in the divisor
		{bars.Metric(16), bars.B500, 4000, false, true, 43.2, 56.1},  // top bar, 1.3
	} {
		s := takeoff.Default().Place
		s.Bars.Grade, s.Bars.Coated, s.Concrete.Strength = c.grade, c.coated, c.strength
		ld, lap := bars.Development(c.size, c.grade, c.strength, c.coated, c.top), s.Bars.LapLength(c.size, c.top, s.Concrete)
		if math.Abs(ld.Inches()-c.ld) > 0.06 || math.Abs(lap.Inches()-c.lap) > 0.06 {
			t.Errorf("%+v: ld %.2f, lap %.2f in", c, ld.Inches(), lap.Inches())
		}
	}
}

func TestLapRules(t *testing.T) {
	s := takeoff.Default().Place
	s.Bars.Lap.Rule = bars.LapByDiameters
	if l := s.Bars.LapLength(4, false, s.Concrete); l != 20*inch { // 40 db: common practice
		t.Errorf("40 diameters of No. 4: %v", l)
	}
	s.Bars.Lap = bars.Lap{Rule: bars.LapByLength, Length: 24 * inch}
	if l := s.Bars.LapLength(5, false, s.Concrete); l != 24*inch {
		t.Errorf("typed: %v", l)
	}
}

// The handbook's table of spacing of control joints, with 24 to 36 times the
// thickness (ACI 302.1R).
func TestJointLimit(t *testing.T) {
	for _, row := range table(t, "joint_spacing.csv") {
		thick := geometry.Length(number(t, row["thickness_in"])) * inch
		for _, c := range []struct {
			slump, aggregate geometry.Length
			column           string
		}{
			{5 * inch, inch / 2, "wet_small_aggregate_under_3_4_in"},
			{5 * inch, 3 * inch / 4, "wet_aggregate_3_4_in_and_larger"},
			{3 * inch, 3 * inch / 4, "slump_under_4_in"},
		} {
			s := takeoff.Default().Place
			s.SawCuts.Ratio = 36
			s.Concrete = slab.Concrete{Slump: c.slump, Aggregate: c.aggregate}
			want := min(geometry.Length(number(t, row[c.column]))*foot, 36*thick)
			if got, _ := s.SawCuts.Limit(thick, s.Concrete); got != want {
				t.Errorf("%s, %s: %v, want %v", thick.Text(0), c.column, got.Text(0), want.Text(0))
			}
		}
	}
	s := takeoff.Default().Place
	s.SawCuts.Ratio = 30
	// At most 18 ft (Portland Cement Association); 30 times 7 in is less.
	for thick, want := range map[geometry.Length]geometry.Length{7 * inch: 35 * foot / 2, 8 * inch: 18 * foot} {
		if got, _ := s.SawCuts.Limit(thick, s.Concrete); got != want {
			t.Errorf("%s at 30 times: %v", thick.Text(0), got.Text(0))
		}
	}
	// Thicker is never closer, and no step is taken at a row of the table.
	s.Concrete = slab.Concrete{Slump: 5 * inch, Aggregate: inch / 2}
	last := geometry.Length(0)
	for thick := 3 * inch; thick <= 12*inch; thick += inch / 16 {
		got, _ := s.SawCuts.Limit(thick, s.Concrete)
		if got < last || last > 0 && got > last+3*inch {
			t.Errorf("%s after %s at %s thick", got.Text(0), last.Text(0), thick.Text(0))
		}
		last = got
	}
	// A quarter of the thickness, at least 1 in (ACI 302.1R).
	for thick, want := range map[geometry.Length]geometry.Length{3 * inch: inch, 4 * inch: inch, 6 * inch: 3 * inch / 2} {
		if got := s.SawCuts.CutDepth(thick, geometry.FeetInches); got != want {
			t.Errorf("saw depth in %s: %s", thick.Text(0), got.Text(0))
		}
	}
	if got := s.SawCuts.CutDepth(100*geometry.Millimeter, geometry.Millimeters); got != 25*geometry.Millimeter {
		t.Errorf("saw depth in 100 mm: %v", got)
	}
}

// ACI 318-19 table 25.3.1: 6 db inside for No. 3 to No. 8.
func TestBendDiameter(t *testing.T) {
	if d := bars.BendDiameter(4); d != 3*inch {
		t.Errorf("No. 4: %v", d.Text(0))
	}
}
