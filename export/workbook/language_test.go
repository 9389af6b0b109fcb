package workbook

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/handover"
	"haunchbook.example/app/job"
	"haunchbook.example/app/language"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/field"
	"haunchbook.example/geometry/plan"
)

// spoken are jobs that together take nearly everything there is.
func spoken(t *testing.T) map[string]job.Job {
	t.Helper()
	files, err := filepath.Glob("../../testdata/priced/*.json")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]job.Job{"demo": demo(t)}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(data, []byte(`"slabs"`)) { // no price list
			j, err := job.Read(bytes.NewReader(data))
			if err != nil {
				t.Fatal(f, err)
			}
			out[filepath.Base(f)] = j
		}
	}
	if len(out) < 4 {
		t.Fatalf("%d jobs", len(out))
	}
	metric := demo(t)
	metric.Units = geometry.Millimeters
	metric.Spec.Base.Above, metric.Spec.Place.Field.Kind = 3*geometry.Foot, field.Grid
	metric.Spec.Mix.Air, metric.Spec.Mix.Fiber, metric.Spec.Mix.Reducer = 0, 0, false
	out["metric, on fill, grid of bars, plain mix"] = metric
	mesh := demo(t)
	mesh.Spec.Base.Foam = 2 * geometry.Inch
	mesh.Spec.Place.Field.Kind, mesh.Spec.Place.Field.Chairs = field.Mesh, 3*geometry.Foot
	mesh.Slabs[0].Outline[1].Bolts = []plan.BoltMark{{Along: geometry.Foot}, {Along: 5 * geometry.Foot, HoldDown: true}, {Along: 9 * geometry.Foot}}
	mesh.Price.Others = []takeoff.ID{{Kind: takeoff.BarStock}, {Kind: takeoff.ConcreteOrder}, {Kind: takeoff.AnchorBolts}}
	out["mesh, foam, much by others"] = mesh
	return out
}

// Whatever stands in the workbook and the requests is in the file of each language, but
// for the user's own texts.
func TestEveryTextIsKnown(t *testing.T) {
	all, err := language.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all[1:] {
		unknown := map[string]string{}
		for name, j := range spoken(t) {
			h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units), Frost: 30 * geometry.Inch})
			b, err := build(t.Context(), h, Options{Language: l})
			if err != nil {
				t.Fatal(err)
			}
			for _, key := range b.say.Unknown() {
				unknown[key] = name
			}
			e, err := h.Estimate(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range e.Requests() {
				b, err := request(h, r, Options{Language: l})
				if err != nil {
					t.Fatal(err)
				}
				for _, key := range b.say.Unknown() {
					unknown[key] = name
				}
			}
		}
		for key, where := range unknown {
			t.Errorf("assets/languages/%s.json: texts: no %q, which stands in the workbook of %q", l.Code, key, where)
		}
	}
}

// A request comes back in whatever language it was sent, and a workbook's sheets, its
// choices and the formulas that go by them are in one.
func TestOtherLanguages(t *testing.T) {
	all, err := language.All()
	if err != nil {
		t.Fatal(err)
	}
	j := demo(t)
	h := handover.Of(handover.From{Job: j, Prices: estimate.Starting(j.Units)})
	e, err := h.Estimate(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all[1:] {
		var b bytes.Buffer
		if err := WriteRequest(&b, h, e.Requests()[0], Options{Language: l}); err != nil {
			t.Fatal(err)
		}
		q, err := ReadQuote(b.Bytes())
		if err != nil || q.Supplier != e.Requests()[0].Supplier || len(q.Lines) != len(e.Requests()[0].Lines) {
			t.Errorf("%s: %d lines of %q come back: %v", l.Code, len(q.Lines), q.Supplier, err)
		}
		b.Reset()
		if err := Write(t.Context(), &b, h, Options{Language: l}); err != nil {
			t.Fatal(err)
		}
		f := opened(t, b.Bytes())
		say := l.Speaker(nil)
		for i, s := range []string{orderSheet, "Concrete", "Steel", "Bolts and dowels", "Forms", laborSheet, priceSheet, "Options", optionLines, "Working"} {
			if got := f.GetSheetName(i); got != say.Word(s) || got == s {
				t.Errorf("%s: sheet %d is called %q, of %q", l.Code, i+1, got, s)
			}
		}
		for cell, is := range formulas(t, b.Bytes()) {
			for _, s := range []string{orderSheet + "!", laborSheet + "!", priceSheet + "!", `"materials"`, `"margin"`, `"none"`} {
				if strings.Contains(is, s) {
					t.Errorf("%s: %s refers to %s: %s", l.Code, cell, s, is)
				}
			}
		}
	}
}
