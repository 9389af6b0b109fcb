package spec

import (
	"reflect"
	"testing"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/bind"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
)

func opened(t *testing.T) *hands.Desk {
	t.Helper()
	d := hands.NewDesk(t, hands.Demo(t), nil)
	d.Beside(New(d))
	return d
}

// Whatever is typed into the fields is said to be wrong, or taken, and what was there
// can be typed again.
func TestFieldsReadAndWrite(t *testing.T) {
	d := opened(t)
	was := string(d.Job().Encode())
	n := 0
	for _, e := range d.Entries() {
		n++
		text := e.Text
		d.Type(e, "nonsense ?")
		d.Type(e, text)
		if e.Text != text {
			t.Errorf("after %q the field shows %q", text, e.Text)
		}
	}
	if n < 20 {
		t.Errorf("%d entries", n)
	}
	if got := string(d.Job().Encode()); got != was || len(d.Faults()) > 0 {
		t.Errorf("the job is not as it was; faults %v", d.Faults())
	}
}

// Bars round the edge are added, changed and removed; what cannot be is said at the
// field, and stays there to be mended.
func TestEdgeBars(t *testing.T) {
	d := opened(t)
	rows := func() []bars.Row { return d.Job().Spec.Place.Bars.Rows }
	n := len(rows())
	d.Press("Add a bar round the edge")
	if len(rows()) != n+1 {
		t.Fatalf("%d bars, want %d", len(rows()), n+1)
	}
	d.Fill("Clear of the face", `4"`)
	d.Fill("Clear of that", `5"`)
	if r := rows()[n]; r.Face != 4*geometry.Inch || r.Bottom+r.Top != 5*geometry.Inch {
		t.Errorf("the bar is %+v", r)
	}
	d.Select("Measured from", "the top")
	if r := rows()[n]; r.Top != 5*geometry.Inch || r.Bottom != 0 {
		t.Errorf("the bar is %+v", r)
	}
	e := d.Field("Clear of that")
	d.Type(e, "deep")
	if e.Text != "deep" || rows()[n].Top != 5*geometry.Inch {
		t.Errorf("after a wrong text the field has %q, the bar %+v", e.Text, rows()[n])
	}
	d.Refresh()
	if e := d.Field("Clear of that"); e.Text != "deep" {
		t.Errorf("the wrong text is lost: %q", e.Text)
	}
	d.Fill("Clear of that", `6"`)
	d.Press("Remove this bar")
	if len(rows()) != n {
		t.Errorf("%d bars, want %d", len(rows()), n)
	}
	d.Undo()
	d.Reads("– Bar 2 round the edge")
	for len(rows()) > 0 {
		d.Press("Remove this bar")
	}
	d.Reads("No bars round the edge.")
	d.Press("Back to the usual values")
	if len(rows()) == 0 {
		t.Error("the usual specification has no bars")
	}
}

func TestListsOfLengths(t *testing.T) {
	d := opened(t)
	d.Fill("Offcuts on hand", `7', 6'-6"`)
	if y := d.Job().Spec.Place.Bars.Yard; len(y) != 2 || y[1] != 78*geometry.Inch {
		t.Errorf("offcuts %v", y)
	}
	d.Fill("Offcuts on hand", "some")
	d.Reads("! ")
	d.Fill("Offcuts on hand", "")
	if y := d.Job().Spec.Place.Bars.Yard; len(y) != 0 {
		t.Errorf("offcuts %v", y)
	}
}

// Every field of the specification has a label in words; no label is for a field that
// is gone.
func TestLabels(t *testing.T) {
	fields := map[string]bool{}
	var walk func(reflect.Type, string)
	walk = func(t reflect.Type, prefix string) {
		for i := range t.NumField() {
			f := t.Field(i)
			if f.Tag.Get("json") == "-" {
				continue
			}
			fields[prefix+f.Name] = true
			if _, spelled := reflect.New(f.Type).Interface().(bind.Spelled); f.Type.Kind() == reflect.Struct && !spelled {
				walk(f.Type, prefix+f.Name+".")
			}
		}
	}
	walk(reflect.TypeFor[takeoff.Spec](), "")
	for name := range fields {
		if labels[name] == "" {
			t.Errorf("%s has no label", name)
		}
	}
	for name := range labels {
		if !fields[name] {
			t.Errorf("there is no %s to have the label %q", name, labels[name])
		}
	}
}
