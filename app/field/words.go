package field

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Lower begins a label within a sentence, but for an abbreviation.
func Lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	next, _ := utf8.DecodeRuneInString(s[n:])
	if n == len(s) || unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// Upper begins a text with a capital.
func Upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// quoted sets a text apart, cut where it is long; none is nothing.
func quoted(s string) string {
	if s == "" {
		return "nothing"
	}
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return "“" + s + "”"
}

// several gives the plural of the name of a thing.
func several(noun string) string {
	switch stem, end := noun[:len(noun)-1], noun[len(noun)-1:]; {
	case noun == "by others":
		return noun
	case end == "y":
		return stem + "ies"
	}
	return noun + "s"
}

// between stands between the values of a list.
func (r *Row) between() string {
	if r.Kind == Text {
		return "\n"
	}
	return ", "
}

// measure prints a number or, of nanometers, a length with its unit.
func (r *Row) measure(v float64, u geometry.Units) string {
	if l := geometry.Length(v); r.Kind.Length() {
		switch {
		case l != 0 && l%(1000*geometry.Meter) == 0:
			return strconv.FormatInt(int64(l/geometry.Meter/1000), 10) + " km"
		case l != 0 && l%(10*geometry.Meter) == 0:
			return strconv.FormatInt(int64(l/geometry.Meter), 10) + " m"
		}
		return l.Exact(u)
	}
	if si, ok := r.Kind.si(u); ok {
		return withUnit(si.about(plainly(v)).String(), r.Kind.Unit(u))
	}
	return withUnit(strconv.FormatFloat(v, 'f', -1, 64), r.Kind.Unit(u))
}

func withUnit(number, unit string) string {
	switch unit {
	case "":
		return number
	case "°":
		return number + unit
	}
	return number + " " + unit
}

// say prints a value for people, with its unit and all its digits.
func (r *Row) say(v reflect.Value, u geometry.Units) string {
	t := r.print(v, u)
	switch {
	case t == "":
		if r.Blank != "" {
			return r.Blank
		}
		if r.Zero != "" {
			return r.Zero
		}
		return "none"
	case r.Kind == Choice:
		for _, n := range r.Names {
			if n.Name == t {
				return n.Said(u)
			}
		}
	case r.Kind.numeric():
		return r.Kind.withUnitOf(t, u)
	}
	return t
}

// print prints a value as one would type it, a number without its unit.
func (r *Row) print(v reflect.Value, u geometry.Units) string {
	if si, ok := r.Kind.si(u); ok {
		if d, ok := asNumber(v); ok && short(d, 40) {
			return r.Kind.text(si, d)
		}
	}
	switch x := v.Interface().(type) {
	case geometry.Length:
		return x.Exact(u)
	case geometry.Point:
		return "(" + x.X.Exact(u) + ", " + x.Y.Exact(u) + ")"
	case decimal.Decimal:
		if !short(x, 40) {
			return "a number of too many digits"
		}
		return x.String()
	case bool:
		if x {
			return "yes"
		}
		return "no"
	case texter:
		return x.Text(u)
	}
	switch {
	case v.Kind() == reflect.Slice:
		var list []string
		for i := range v.Len() {
			list = append(list, r.print(v.Index(i), u))
		}
		return strings.Join(list, r.between())
	case v.Type().Implements(textWriter):
		t := written(v)
		if r.Kind.Length() && t != "" { // a change to a length
			if l, err := geometry.ParseWritten(t); err == nil {
				return l.Exact(u)
			}
		}
		return t
	case v.CanInt():
		return strconv.FormatInt(v.Int(), 10)
	case v.CanFloat():
		return strconv.FormatFloat(v.Float(), 'f', -1, 64)
	case v.Kind() == reflect.String:
		return v.String()
	}
	return fmt.Sprint(v.Interface())
}

// example gives a value that would do, as the end of a sentence.
func (r *Row) example() string {
	switch r.Kind {
	case Temperature:
		return ", such as 80 °F"
	case Time:
		return ", such as 07:30"
	case Date:
		return ", such as 2026-12-03"
	}
	return ""
}
