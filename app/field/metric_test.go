package field_test

import (
	"errors"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

const mm = geometry.Millimeter

// A metric job starts from metric sizes: whole millimeters, those above 30 mm in steps
// of 5.
func TestMetricDefaults(t *testing.T) {
	j := job.NewIn(geometry.Millimeters)
	for path, want := range map[string]geometry.Length{
		"spec.base.gravel": 100 * mm, "spec.base.above": 150 * mm, "spec.base.foamwidth": 1200 * mm, "spec.base.foamlength": 2400 * mm,
		"spec.base.rollwidth": 6000 * mm, "spec.mix.slump": 125 * mm, "spec.mix.aggregate": 20 * mm,
		"spec.place.bars.rows[1].face": 200 * mm, "spec.place.bars.rows[0].bottom": 75 * mm, "spec.place.bars.stock[0]": 6000 * mm,
		"spec.place.bolts.diameter": 16 * mm, "spec.place.bolts.spacing": 1800 * mm, "spec.place.bolts.endmin": 115 * mm, "spec.place.bolts.embed": 180 * mm,
		"spec.place.dowels.clearance": 3 * mm, "spec.place.forms.stock[2]": 4800 * mm, "slabs[0].field": 150 * mm,
		"pour.reach.straightedge": 4200 * mm,
	} {
		if got, err := field.Get(j, path); err != nil || got != want {
			t.Errorf("%s is %v, %v; want %v", path, got, err, want)
		}
	}
	for _, f := range j.Validate() {
		if !strings.HasPrefix(f.Path, "slabs") {
			t.Errorf("%s: found %s; %s", f.Path, f.Found, f.Want)
		}
	}
	for _, g := range field.Groups("") {
		for _, r := range g.Rows {
			v, err := field.Get(j, r.Path)
			if err != nil {
				continue
			}
			lengths, _ := v.([]geometry.Length)
			if l, ok := v.(geometry.Length); ok {
				lengths = append(lengths, l)
			}
			for _, l := range lengths {
				if l%mm != 0 || l > 30*mm && l%(5*mm) != 0 {
					t.Errorf("%s is %s", r.Path, l.Exact(geometry.Millimeters))
				}
			}
			if q := r.Question(v, geometry.Millimeters); q != "" && !r.Kind.Holds() {
				t.Errorf("%s: the default is asked about: %s", r.Path, q)
			}
		}
	}
}

// What a metric job is told of a field has no inch in it, and no inch converted; what
// it may not be is no more than in feet and inches.
func TestMetricHints(t *testing.T) {
	inches := regexp.MustCompile(`\d(?: in| ft)\b|\d["']`)
	broken := regexp.MustCompile(`\d\.\d+ mm`)
	for _, g := range field.Groups("") {
		for _, r := range g.Rows {
			said := r.Hint(geometry.Millimeters)
			if r.Kind.Length() && r.Usual.Any() {
				said += " " + r.Question(9000*geometry.Meter, geometry.Millimeters)
			}
			if _, err := r.Parse("-90000 m", geometry.Millimeters); err != nil && r.Kind.Length() {
				said += " " + err.Error()
			}
			if _, err := r.Parse("90000 m", geometry.Millimeters); err != nil && r.Kind.Length() {
				said += " " + err.Error()
			}
			for _, m := range inches.FindAllString(said, -1) {
				t.Errorf("%s: %q in %s", r.Path, m, said)
			}
			for _, m := range broken.FindAllString(said, -1) {
				if m != "1.5 mm" && m != "0.5 mm" && r.Kind != field.Mil {
					t.Errorf("%s: %q in %s", r.Path, m, said)
				}
			}
		}
	}
}

// Whatever a job in feet and inches may have, it may have in millimeters too.
func TestMetricBoundsAreNoNarrower(t *testing.T) {
	for _, g := range field.Groups("") {
		for _, r := range g.Rows {
			if !r.Kind.Length() || !r.Hard.Any() || strings.HasSuffix(r.Path, "[]") {
				continue
			}
			for _, v := range []float64{r.Hard.Least, r.Hard.Most} {
				if v > 1e13 || r.Hard.Above && v == r.Hard.Least || r.Hard.Below && v == r.Hard.Most {
					continue
				}
				if _, err := r.Parse(geometry.Length(v).Exact(geometry.FeetInches), geometry.Millimeters); err != nil {
					t.Errorf("%s: %v", r.Path, err)
				}
			}
		}
	}
}

// Units switched on what is as usual leave what is usual in the others.
func TestSwitchUnits(t *testing.T) {
	was := job.New().Spec
	was.Base.Foam = 2 * geometry.Inch
	is := was
	field.SwitchUnits("spec", &is, geometry.FeetInches, geometry.Millimeters)
	if is.Base.Gravel != 100*mm || is.Place.Bolts.Spacing != 1800*mm || is.Base.Foam != 2*geometry.Inch {
		t.Errorf("gravel %v, bolts %v, foam %v", is.Base.Gravel, is.Place.Bolts.Spacing, is.Base.Foam)
	}
	if was.Base.Gravel != 4*geometry.Inch || was.Place.Bars.Rows[0].Face != 3*geometry.Inch {
		t.Error("what it was made from has changed")
	}
	field.SwitchUnits("spec", &is, geometry.Millimeters, geometry.FeetInches)
	if is.Base.Gravel != 4*geometry.Inch || is.Place.Bolts.Spacing != 6*geometry.Foot || is.Base.Foam != 2*geometry.Inch {
		t.Errorf("back: gravel %v, bolts %v, foam %v", is.Base.Gravel, is.Place.Bolts.Spacing, is.Base.Foam)
	}
}

// A metric job starts from bars that are sold by millimeters, and reads and offers those.
func TestMetricBars(t *testing.T) {
	j := job.NewIn(geometry.Millimeters)
	for path, want := range map[string]string{
		"spec.place.bars.size": "12 mm", "spec.place.bars.grade": "500", "spec.place.pads.size": "12 mm", "spec.place.strips.size": "12 mm",
		"spec.place.field.size": "10 mm", "spec.place.dowels.size": "12 mm",
	} {
		if got, err := field.Get(j, path); err != nil || got != want {
			t.Errorf("%s is %v, %v; want %s", path, got, err, want)
		}
	}
	r, _ := field.At("spec.place.bars.size")
	for _, c := range []struct {
		typed string
		u     geometry.Units
		want  any
		text  string
	}{
		{"4", geometry.FeetInches, "4", "4"},
		{"#4", geometry.FeetInches, "4", "4"},
		{"12", geometry.Millimeters, "12 mm", "12 mm"},
		{"8", geometry.Millimeters, "8 mm", "8 mm"},
		{"12mm", geometry.Millimeters, "12 mm", "12 mm"},
		{"Ø12", geometry.FeetInches, "12 mm", "12 mm"},
		{"No. 4", geometry.Millimeters, "4", "No. 4"},
	} {
		got, err := r.Parse(c.typed, c.u)
		if err != nil || got.Value != c.want || r.Text(got.Value, c.u) != c.text {
			t.Errorf("%q is %v, %v, printed %q; want %v, %q", c.typed, got.Value, err, r.Text(got.Value, c.u), c.want, c.text)
		}
	}
	for typed, u := range map[string]geometry.Units{"12": geometry.FeetInches, "4": geometry.Millimeters, "13 mm": geometry.Millimeters} {
		if got, err := r.Parse(typed, u); err == nil {
			t.Errorf("%q is %v", typed, got.Value)
		}
	}
	offered := func(now any, u geometry.Units) string {
		var out []string
		for _, n := range r.Offered(now, u) {
			out = append(out, n.Said(u))
		}
		return strings.Join(out, " ")
	}
	if got := offered("4", geometry.FeetInches); got != "No. 3 No. 4 No. 5 No. 6 No. 7 No. 8" {
		t.Errorf("a job in feet and inches is offered %s", got)
	}
	if got := offered("4", geometry.Millimeters); got != "No. 4 Ø6 Ø8 Ø10 Ø12 Ø14 Ø16 Ø20 Ø25" {
		t.Errorf("a metric job with No. 4 is offered %s", got)
	}
}

// A file that names bars by numbers alone, as all did, is the same job and file again,
// metric or not; one by millimeters is written as text.
func TestBarsInFiles(t *testing.T) {
	const file = `{"haunchbook": 7, "name": "", "units": "mm", "spec": {"place": {"bars": {"size": 5, "rows": [{"face": "75 mm", "bottom": "75 mm", "size": "16 mm"}]}}}, "price": {"others": [{"kind": "bar", "bar": 11}]}}`
	j, err := job.Read(strings.NewReader(file))
	if faults := (plan.Faults)(nil); err != nil && !errors.As(err, &faults) {
		t.Fatal(err)
	}
	again := string(j.Encode())
	for _, want := range []string{`"size": 5,`, `"size": "16 mm"`, `"bar": 11`, `"grade": 60`} {
		if !strings.Contains(again, want) {
			t.Errorf("no %s in %s", want, again)
		}
	}
	for _, bad := range []string{`9`, `"13 mm"`, `-4`, `"four"`} {
		if _, err := job.Read(strings.NewReader(strings.Replace(file, "5", bad, 1))); err == nil || !strings.Contains(err.Error(), "size") {
			t.Errorf("a bar of %s: %v", bad, err)
		}
	}
}

// Everything that a new metric job starts with is a size that is sold and marked out in
// metric: whole millimeters, in steps of 5 from 30 and of 50 from 1000, megapascals in
// fives, and no bar, mesh or board by inches but lumber, which has no other sizes here.
func TestMetricJobsStartRound(t *testing.T) {
	j := job.NewIn(geometry.Millimeters)
	round := func(path string, l geometry.Length) {
		step := mm
		switch {
		case l >= 1000*mm:
			step = 50 * mm
		case l >= 30*mm:
			step = 5 * mm
		}
		if l%step != 0 {
			t.Errorf("%s: a new metric job has %s", path, l.Exact(geometry.Millimeters))
		}
	}
	converted := regexp.MustCompile(`\d(?:'|"| in\b| ft\b)|psi|lb/|yd³|\bmil\b|No\. \d|^#|W\d|\d/\d`)
	seen := 0
	for _, path := range leaves(reflect.ValueOf(j), "") {
		r, ok := field.At(path)
		if !ok || strings.HasPrefix(path, "price.terms") {
			continue
		}
		v, err := field.Get(j, strings.TrimSuffix(path, "[]"))
		if err != nil {
			t.Fatal(err)
		}
		seen++
		switch x := v.(type) {
		case geometry.Length:
			round(path, x)
		case []geometry.Length:
			for _, l := range x {
				round(path, l)
			}
		}
		if said := r.Say(v, geometry.Millimeters); !strings.HasPrefix(path, "ground.") && converted.MatchString(said) {
			t.Errorf("%s: a new metric job has %s", path, said)
		}
	}
	if seen < 150 {
		t.Errorf("%d fields looked at", seen)
	}
	for path, want := range map[string]string{
		"spec.mix.strength": "25 MPa", "spec.base.retarder": "0.25 mm", "spec.base.density": "1.65 t/m³", "spec.place.bolts.diameter": "16 mm",
		"spec.place.field.style": "200x200-6x6", "spec.place.field.width": "2400 mm", "spec.place.field.length": "4800 mm", "spec.place.bars.size": "Ø12",
	} {
		r, _ := field.At(path)
		if v, err := field.Get(j, path); err != nil || r.Say(v, geometry.Millimeters) != want {
			t.Errorf("%s is %s, %v; want %s", path, r.Say(v, geometry.Millimeters), err, want)
		}
	}
}

// What is in psi, mil, lb/yd³ or ton/yd³ in a file is typed and printed in MPa, mm, kg/m³
// and t/m³ in a metric job, and what a file has of old stays exactly what it is.
func TestOtherUnitsInMetricJobs(t *testing.T) {
	for _, c := range []struct{ path, typed, file, text, said string }{
		{"spec.mix.strength", "25", "3626", "25", "25 MPa"}, // 25 × 145.0377 = 3625.9
		{"spec.mix.strength", "30 MPa", "4351", "30", "30 MPa"},
		{"spec.mix.strength", "3000 psi", "3000", "3000 psi", "3000 psi"},
		{"spec.base.retarder", "0.25", "10", "0.25", "0.25 mm"}, // 9.84 mil
		{"spec.base.retarder", "15 mil", "15", "0.38", "0.38 mm"},
		{"spec.mix.fiber", "0.9", "1.517", "0.9", "0.9 kg/m³"},
		{"spec.mix.fiber", "1.5 lb/yd³", "1.5", "0.89", "0.89 kg/m³"},
		{"spec.base.density", "1.65", "1.391", "1.65", "1.65 t/m³"},
	} {
		r, _ := field.At(c.path)
		got, err := r.Parse(c.typed, geometry.Millimeters)
		if err != nil {
			t.Errorf("%s: %q: %v", c.path, c.typed, err)
			continue
		}
		if file := fmt.Sprint(got.Value); file != c.file || r.Text(got.Value, geometry.Millimeters) != c.text || got.Meaning != c.said {
			t.Errorf("%s: %q is %s in the file, printed %q, said %q; want %s, %q, %q", c.path, c.typed, file, r.Text(got.Value, geometry.Millimeters), got.Meaning, c.file, c.text, c.said)
		}
	}
	r, _ := field.At("spec.mix.strength")
	for _, bad := range []string{"3000", "much", "2 in"} {
		if got, err := r.Parse(bad, geometry.Millimeters); err == nil {
			t.Errorf("%q is %v", bad, got.Value)
		}
	}
}

// The metric sample job holds nothing that is inches converted.
func TestMetricSample(t *testing.T) {
	f, err := os.Open("../../assets/samples/house.json")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	j, err := job.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range leaves(reflect.ValueOf(j), "") {
		v, err := field.Get(j, strings.TrimSuffix(path, "[]"))
		if l, ok := v.(geometry.Length); err != nil || ok && l%mm != 0 {
			t.Errorf("%s is %v, %v", path, v, err)
		}
	}
}
