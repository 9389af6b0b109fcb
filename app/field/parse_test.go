package field_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
)

func at(t *testing.T, path string) field.Row {
	t.Helper()
	r, ok := field.At(path)
	if !ok {
		t.Fatalf("no row for %s", path)
	}
	return r
}

func TestParse(t *testing.T) {
	const us, mm = geometry.FeetInches, geometry.Millimeters
	for _, c := range []struct {
		path, typed   string
		units         geometry.Units
		text, meaning string
	}{
		{"spec.base.foam", "2", us, `2"`, `2"`}, // inches where the field holds inches
		{"spec.base.foam", "2'", us, `2'-0"`, `2'-0"`},
		{"spec.base.foam", "1 1/2", us, `1 1/2"`, `1 1/2"`},
		{"spec.base.foam", "50", mm, "50 mm", "50 mm"},
		{"spec.base.foam", "", us, `0"`, "none"},
		{"spec.base.foam", "0", us, `0"`, "none"},
		{"slabs[0].sections[1].depth", "14", us, `1'-2"`, `1'-2"`},
		{"slabs[0].sections[1].depth", "=12 + 2 1/2", us, `1'-2 1/2"`, `1'-2 1/2"`},
		{"spec.base.foamwidth", "4", us, `4'-0"`, `4'-0"`}, // feet where it holds feet
		{"spec.base.above", "-6", us, `-6"`, `-6"`},
		{"spec.place.bars.stock[]", "20, 40'", us, `20'-0", 40'-0"`, `20'-0", 40'-0"`},
		{"spec.place.bars.yard[]", "", us, "", "none"},
		{"spec.place.bars.size", "No. 5", us, "5", "No. 5"},
		{"spec.place.bars.size", "5", us, "5", "No. 5"},
		{"spec.place.dowels.size", "0", us, "0", "no dowels"},
		{"spec.place.bars.lap.rule", "40 bar diameters", us, "diameters", "40 bar diameters"},
		{"spec.place.bars.lap.rule", "ACI", us, "aci", "ACI 318-19, class B"},
		{"spec.place.forms.board", "", us, "", "by the depth of the edge"},
		{"spec.mix.strength", "3,500 psi", us, "3500", "3500 psi"},
		{"spec.mix.air", "5.5 %", us, "5.5", "5.5 %"},
		{"spec.order.truck", "10 yd³", us, "10", "10 yd³"},
		{"spec.order.truck", "7.5", mm, "7.5", "7.5 m³"},
		{"pour.start", "6:30", us, "6:30", "6:30"},
		{"pour.weather[2].air", "80", us, "80 °F", "80 °F"},
		{"pour.weather[2].air", "27", mm, "27 °C", "27 °C"},
		{"pour.weather[2].wind", "12 km/h", us, "12 km/h", "12 km/h"},
		{"price.options[0].edge", "", us, "", "as drawn"},
		{"price.options[0].edge", "16", us, `1'-4"`, `1'-4"`},
		{"price.terms.payment", "Net 30", us, "Net 30", "Net 30"},
		{"spec.mix.reducer", "yes", us, "yes", "yes"},
	} {
		r := at(t, c.path)
		got, err := r.Parse(c.typed, c.units)
		if err != nil || r.Text(got.Value, c.units) != c.text || got.Meaning != c.meaning {
			t.Errorf("%s: “%s” is %s, meaning %s (%v); want %s, %s", c.path, c.typed, r.Text(got.Value, c.units), got.Meaning, err, c.text, c.meaning)
		}
	}
}

func TestParseRefusesInWords(t *testing.T) {
	for _, c := range []struct{ path, typed, want string }{
		{"spec.base.foam", "30", `found 2'-6"; must be from 0" to 2'-0", or 0: none`},
		{"spec.base.foam", "two", "“two” is no unit"},
		{"spec.place.bolts.stud", "3", `found 3"; must be from 6" to 10'-0", or 0: not looked at`},
		{"spec.mix.strength", "300", "found 300 psi; must be from 1000 psi to 20000 psi"},
		{"spec.mix.strength", "strong", "found “strong”; write a number of psi, such as 3000 psi"},
		{"spec.mix.strength", "3500.5", "write a whole number"},
		{"spec.place.bars.size", "9", "found “9”; write 3, 4, 5, 6, 7 or 8"},
		{"spec.place.bars.corner", "kinked", "write bent, wrapped or crossed"},
		{"spec.place.bars.stock[]", "", "give at least 1"},
		{"spec.place.bars.stock[]", "20, 3", `found 3'-0"; must be from 5'-0"`},
		{"price.overhead", "1000", "found 1000 %; must be from 0 % to under 1000 %"},
		{"price.overhead", "1e99", "write at most 12 digits"},
		{"price.terms.payment", strings.Repeat("x", 91), "keep it to 90 letters; it has 91"},
		{"survey.benchmarks[0].name", "", "found nothing; give the name"},
		{"slabs[0].field", "0", `must be more than 0", and at most 10 m`},
		{"spec.mix.reducer", "perhaps", "write yes or no"},
	} {
		if got, err := at(t, c.path).Parse(c.typed, geometry.FeetInches); err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), `\`) {
			t.Errorf("%s: “%s” gave %v, %v; want %s", c.path, c.typed, got.Value, err, c.want)
		}
	}
}

// What is far from the trade is asked about, with where its range comes from, and
// taken all the same.
func TestQuestions(t *testing.T) {
	for _, c := range []struct {
		path, typed string
		want        string // "" for no question
	}{
		{"spec.place.bolts.spacing", "6", ""},
		{"spec.place.bolts.spacing", "9", `9'-0"? The trade uses 1'-0" to 6'-0" (IRC R403.1.6: at most 6 ft).`},
		{"slabs[0].sections[0].depth", "14'", `14'-0"? The trade uses 6" to 4'-0"`},
		{"spec.base.foam", "0", ""},
		{"spec.mix.air", "15", "15 %? The trade uses 0 % to 8 %"},
		{"spec.base.rollwidth", "20", ""},
		{"price.options[0].edge", "", ""},
	} {
		got, err := at(t, c.path).Parse(c.typed, geometry.FeetInches)
		if err != nil || !strings.HasPrefix(got.Question, c.want) || (c.want == "") != (got.Question == "") {
			t.Errorf("%s: “%s” asks %q, %v; want %q", c.path, c.typed, got.Question, err, c.want)
		}
	}
}

// The table itself: what the trade uses lies within what is taken, the default
// within both, labels of a group differ, and no help ends without a stop.
func TestRowsAreSound(t *testing.T) {
	usual := job.New()
	for _, g := range field.Groups("") {
		labels := map[string]string{}
		for _, r := range append([]*field.Row{&g.Row}, g.Rows...) {
			if r.Usual.Any() && (r.Usual.Source == "" || r.Usual.Least >= r.Usual.Most) {
				t.Errorf("%s: what the trade uses is %+v", r.Path, r.Usual)
			}
			if r.Usual.Any() && r.Hard.Any() && (r.Usual.Least < r.Hard.Least || r.Usual.Most > r.Hard.Most) {
				t.Errorf("%s: the trade uses what is refused", r.Path)
			}
			if !strings.HasSuffix(r.Help, ".") {
				t.Errorf("%s: help “%s”", r.Path, r.Help)
			}
			if r.Default != nil && r.Source == "" && r.Kind != field.List && fmt.Sprint(r.Default) != "[]" {
				t.Errorf("%s: the default has no source", r.Path)
			}
			if v, err := field.Get(usual, r.Path); err == nil && !r.Kind.Holds() && r.Question(v, usual.Units) != "" {
				t.Errorf("%s: the default is asked about: %s", r.Path, r.Question(v, usual.Units))
			}
			under := r.Path[:strings.LastIndex(r.Path, ".")+1] + r.Label
			if other, twice := labels[under]; twice {
				t.Errorf("%s and %s are both called %s", other, r.Path, r.Label)
			}
			labels[under] = r.Path
			if r.Kind == field.Choice && len(r.Names) == 0 || slices.ContainsFunc(r.Names, func(n field.Name) bool { return n.Name == "" || n.Words == "" }) {
				t.Errorf("%s: choice of %v", r.Path, r.Names)
			}
		}
	}
}
