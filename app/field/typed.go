package field

import (
	"errors"
	"reflect"
	"strings"

	"haunchbook.example/geometry"
)

// Bare gives the unit that a bare number typed in a field of the kind is in: "in",
// "ft", "psi"; "" for a kind that counts no unit.
func (k Kind) Bare(u geometry.Units) string {
	switch {
	case !k.Length():
		return k.Unit(u)
	case u == geometry.Millimeters:
		return "mm"
	case k == Inches:
		return "in"
	}
	return "ft"
}

// ParseLength reads a length as it is typed where the window asks for one of the
// kind, Inches or Feet: "24", "24'-6\"", "=24' + 2'".
func (k Kind) ParseLength(typed string, u geometry.Units) (geometry.Length, error) {
	return geometry.ParseLength(typed, k.one(u))
}

// ParseSize is ParseLength for the size of something that has one already: "+2'" is
// that much more than it was, "+-6\"" that much less.
func (k Kind) ParseSize(typed string, was geometry.Length, u geometry.Units) (geometry.Length, error) {
	t := strings.TrimSpace(typed)
	more, longer := strings.CutPrefix(t, "+")
	l, err := k.ParseLength(more, u)
	switch {
	case err != nil:
		return 0, err
	case longer:
		return was + l, nil
	case l < 0:
		return 0, errors.New("found " + l.Exact(u) + "; a length is more than 0. To make it shorter, write +" + l.Exact(u) + ", to make it longer, +" + (-l).Exact(u))
	}
	return l, nil
}

// Of gives the value of the field in the struct from, which it is found in by the
// path below that; see Get.
func (r Row) Of(from any, below string) any {
	v, err := walk(reflect.ValueOf(from), strings.TrimSuffix(below, "[]"), false)
	if err != nil {
		return nil
	}
	return r.get(v)
}

// Title gives the label of a field where it stands in a form by itself: with that of
// the part it belongs to, unless that has a heading or the label says it.
func (r Row) Title() string {
	at := strings.TrimSuffix(r.Path, "[]")
	i := strings.LastIndexByte(at, '.')
	if i < 0 {
		return r.Label
	}
	p := rowAt(at[:i])
	if p == nil || p.Kind != Part || p.Label == "" || heads(p) || strings.HasPrefix(r.Label, p.Label) {
		return r.Label
	}
	return p.Label + ", " + Lower(r.Label)
}

// heads tells whether a part heads a group.
func heads(p *Row) bool {
	for _, g := range groups {
		if g.Path == p.Path {
			return true
		}
	}
	return false
}

// Hint says what the field is, what is usual in it and where that comes from.
func (r Row) Hint(u geometry.Units) string {
	r = r.at(u)
	t := r.Help
	if r.Default != nil && r.Kind != List {
		t += " Usual: " + r.usual(u)
		if r.Source != "" {
			t += " (" + r.Source + ")"
		}
		t += "."
	}
	if r.Zero != "" && r.Kind != Choice {
		t += " 0: " + r.Zero + "."
	}
	if r.Blank != "" {
		t += " Empty: " + r.Blank + "."
	}
	return t
}

// usual prints the default.
func (r *Row) usual(u geometry.Units) string {
	switch v := r.value(r.Default, strings.HasSuffix(r.Path, "[]")).(type) {
	case bool:
		return r.say(reflect.ValueOf(v), u)
	default:
		return r.Say(v, u)
	}
}
