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

// What is said of several walls is said once.
func TestOnceOfWalls(t *testing.T) {
	of := func(wall string, x geometry.Length) Finding {
		return Finding{Rule: Rule{Name: "Bolt embedment"}, At: geometry.Point{X: x}, Text: wall + ": the bolt at 8\" is short."}
	}
	got := Once([]Finding{of("Wall W1", 1), of("Wall W2", 2), of("Wall W1", 3), of("Wall W2 at 4\" and Wall W3", 4)})
	one := of("Wall W1 and 1 more", 1)
	one.Also = []geometry.Point{{X: 2}, {X: 3}}
	if want := []Finding{one, of("Wall W2 at 4\" and Wall W3", 4)}; !reflect.DeepEqual(got, want) || !reflect.DeepEqual(Once(got), want) {
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
