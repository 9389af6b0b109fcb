package field

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/geometry"
)

// Reading is what a typed text means.
type Reading struct {
	Value    any    // as Set takes it
	Meaning  string // in full, with its unit: "2"", "5 %", "none"
	Question string // what to ask about it, "" for nothing; it is no fault
}

// Parse reads what was typed in a field of a job in u. A bare number is in the
// field's unit. The error says what was found and what would do; what is far from
// what the trade uses is only asked about.
func (r Row) Parse(typed string, u geometry.Units) (Reading, error) {
	r = r.at(u)
	if strings.HasSuffix(r.Path, "[]") && r.Kind != Point && r.Kind != List {
		return r.parseList(typed, u)
	}
	v, err := r.parse(typed, u)
	if err != nil {
		return Reading{}, err
	}
	return Reading{v, r.Say(v, u), r.Question(v, u)}, nil
}

// parseList reads values with commas between them, texts in lines.
func (r Row) parseList(typed string, u geometry.Units) (Reading, error) {
	one := r
	one.Path = strings.TrimSuffix(r.Path, "[]")
	var lengths []geometry.Length
	var texts []string
	out := Reading{}
	for _, part := range strings.Split(typed, strings.TrimRight(r.between(), " ")) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		v, err := one.Parse(part, u)
		if err != nil {
			return Reading{}, err
		}
		switch x := v.Value.(type) {
		case geometry.Length:
			lengths = append(lengths, x)
		case string:
			texts = append(texts, x)
		}
		out.Question = v.Question
	}
	if n := len(lengths) + len(texts); n < r.Items[0] {
		return Reading{}, fmt.Errorf("found none; give at least %d", r.Items[0])
	}
	if out.Value = any(texts); r.Kind.Length() {
		out.Value = append([]geometry.Length{}, lengths...)
	}
	out.Meaning = r.Say(out.Value, u)
	return out, nil
}

func (r *Row) parse(typed string, u geometry.Units) (any, error) {
	t := strings.TrimSpace(typed)
	if t == "" && (r.Blank != "" || r.Kind == Text || r.Kind == Choice && r.Zero != "") {
		if r.Kind.Length() || r.Kind.numeric() {
			return nil, nil
		}
		return "", r.wrongText("")
	}
	if t == "" && r.Zero != "" {
		t = "0"
	}
	found := func(want string) error { return fmt.Errorf("found %s; %s", quoted(t), want) }
	switch {
	case r.Kind.Length():
		l, err := geometry.ParseLength(t, r.Kind.one(u))
		if err != nil {
			return nil, err
		}
		if want := r.refused(float64(l), u); want != "" {
			return nil, fmt.Errorf("found %s; %s", l.Exact(u), want)
		}
		return l, nil
	case r.Kind.numeric():
		return r.parseNumber(t, u)
	case r.bars != noBars && t != "0" && t != r.Zero:
		return r.parseBar(t, u)
	case r.Kind == Choice:
		for _, n := range r.Names {
			if strings.EqualFold(t, n.Name) || strings.EqualFold(t, n.Said(u)) {
				return n.Name, nil
			}
		}
		if t == r.Zero || t == r.Blank {
			return "", nil
		}
		if t == "0" && r.Zero != "" {
			return "0", nil
		}
		return nil, found("write " + r.names(u) + r.orZero())
	case r.Kind == Switch:
		switch strings.ToLower(t) {
		case "yes", "true":
			return true, nil
		case "no", "false":
			return false, nil
		}
		return nil, found("write yes or no")
	case r.Kind == Temperature || r.Kind == Speed:
		if _, err := decimal.NewFromString(t); err == nil { // bare
			t += " " + r.Kind.Unit(u)
		}
		return t, nil
	case r.Kind == Text:
		return typed, r.wrongText(typed)
	}
	return t, nil
}

func (r *Row) wrongText(t string) error {
	if want := r.badText(t); want != "" {
		return fmt.Errorf("found %s; %s", quoted(t), want)
	}
	return nil
}

var thousands = regexp.MustCompile(`^-?\d{1,3}(,\d{3})+(\.\d+)?$`)

func (r *Row) parseNumber(t string, u geometry.Units) (any, error) {
	found := func(want string) error { return fmt.Errorf("found %s; %s", quoted(t), want) }
	number, unit := t, r.Kind.Unit(u)
	if unit != "" {
		number = strings.TrimSpace(strings.TrimSuffix(t, unit))
	}
	if r.Kind == Money { // the sign of the currency
		number = strings.TrimSpace(strings.TrimLeft(t, "$€£¥"))
	}
	if thousands.MatchString(number) {
		number = strings.ReplaceAll(number, ",", "")
	}
	d, err := decimal.NewFromString(number)
	meant := func() string { return withUnit(d.String(), unit) }
	if si, ok := r.Kind.si(u); ok {
		was := number
		if d, ok = r.Kind.readSI(si, strings.ReplaceAll(t, ",", "")); !ok {
			return nil, found("write a number of " + unit + ", such as " + r.sample(u))
		}
		err, meant = nil, func() string { return r.Kind.withUnitOf(was, u) }
	}
	switch {
	case err != nil && unit != "":
		return nil, found("write a number of " + unit + ", such as " + r.sample(u))
	case err != nil:
		return nil, found("write a number, such as " + r.sample(u))
	case !short(d, r.most()):
		return nil, found(fmt.Sprintf("write at most %d digits", r.most()))
	case kinds[r.Kind].whole && !d.IsInteger():
		return nil, found("write a whole number")
	}
	if want := r.refused(d.InexactFloat64(), u); want != "" {
		return nil, fmt.Errorf("found %s; %s", meant(), want)
	}
	return d, nil
}

// sample gives a number that would do: the default.
func (r *Row) sample(u geometry.Units) string {
	if f, ok := r.Default.(float64); ok {
		return r.measure(f, u)
	}
	if n, ok := r.Default.(int); ok {
		return r.measure(float64(n), u)
	}
	return r.measure(max(1, r.Hard.Least), u)
}

// Text prints a value, as Get gives it, as one would type it in the field.
func (r Row) Text(value any, u geometry.Units) string {
	if value == nil {
		return ""
	}
	if d, ok := value.(decimal.Decimal); ok && r.Kind == Money && d.Exponent() >= -2 && short(d, 40) {
		return d.StringFixed(2)
	}
	if r.bars != noBars {
		return typedBar(r.print(reflect.ValueOf(value), u), u)
	}
	return r.print(reflect.ValueOf(value), u)
}

// Say prints a value, as Get gives it, in full: with its unit, in words where it
// is a choice or stands for something.
func (r Row) Say(value any, u geometry.Units) string {
	if value == nil {
		return r.Blank
	}
	v := reflect.ValueOf(value)
	if r.Zero != "" && isZero(v) {
		return r.Zero
	}
	return r.say(v, u)
}

// isZero tells whether a value is 0 or nothing.
func isZero(v reflect.Value) bool {
	f, ok := measured(v)
	return ok && f == 0 || v.Kind() == reflect.String && (v.String() == "" || v.String() == "0")
}

// Question gives what to ask about a value that is far from what the trade uses;
// "" for nothing. It is not a fault: the value holds.
func (r Row) Question(value any, u geometry.Units) string {
	r = r.at(u)
	if value == nil || !r.Usual.Any() {
		return ""
	}
	v, ok := measured(reflect.ValueOf(value))
	if !ok || v == 0 && r.Zero != "" || r.Usual.holds(v) {
		return ""
	}
	return fmt.Sprintf("%s? The trade uses %s to %s (%s).", r.Say(value, u), r.measure(r.Usual.Least, u), r.measure(r.Usual.Most, u), r.Usual.Source)
}
