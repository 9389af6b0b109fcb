package rule

import (
	"reflect"
	"testing"

	"haunchbook.example/geometry"
)

func TestOnce(t *testing.T) {
	a := Finding{Rule: Rule{Name: "Cover", Source: "ACI 318-19"}, Severity: Limit, Text: "one"}
	b, c := a, a
	b.At = geometry.Point{X: 1}
	c.Severity = Note
	got := Once([]Finding{a, b, a, c, a, b})
	a.Also = []geometry.Point{b.At}
	if want := []Finding{a, c}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestSeverityIsWritten(t *testing.T) {
	for _, s := range []Severity{Note, Limit, Severe} {
		text, err := s.MarshalText()
		var back Severity
		if err != nil || back.UnmarshalText(text) != nil || back != s {
			t.Errorf("%v is written %q and read %v", s, text, back)
		}
	}
	var s Severity
	if err := s.UnmarshalText([]byte("grave")); err == nil {
		t.Error("grave is no severity")
	}
	if (Finding{}).Broken() || !(Finding{Severity: Limit}).Broken() || !(Finding{Severity: Severe}).Broken() {
		t.Error("a note breaks nothing, the others do")
	}
}
