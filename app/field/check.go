package field

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/layout/bars"
	"haunchbook.example/geometry/plan"
)

// Check gives what its rows refuse in a value that stands at a path of the job
// file, such as a specification at "spec" or a whole job at "". Faults have their
// full path, lengths in u with all their digits, and of something drawn a place
// on the drawing. What a row calls not used is not looked at.
func Check(path string, v any, u geometry.Units) plan.Faults {
	// A copy that can be addressed: numbers in it are read where they are.
	at := reflect.New(reflect.TypeOf(v)).Elem()
	at.Set(reflect.ValueOf(v))
	c := checker{units: u, way: make([]stop, 0, 16)}
	c.way = append(c.way, stop{path, -1, at})
	c.check(nodeOf(at.Type(), numbered.ReplaceAllString(path, "[]")), at)
	return c.faults
}

type checker struct {
	units  geometry.Units
	faults plan.Faults
	way    []stop // to the value that is looked at
}

// stop is a value on the way: a field by its name, or a thing of a list by its
// number.
type stop struct {
	name  string
	index int // -1 for a field
	value reflect.Value
}

// path gives where the value is that is looked at.
func (c *checker) path() string {
	path := ""
	for _, s := range c.way {
		if s.index >= 0 {
			path += "[" + strconv.Itoa(s.index) + "]"
		} else {
			path = Join(path, s.name)
		}
	}
	return path
}

// point gives the nearest place on the drawing.
func (c *checker) point() geometry.Point {
	for i := len(c.way) - 1; i >= 0; i-- {
		if at, ok := firstPoint(c.way[i].value); ok {
			return at
		}
	}
	return geometry.Point{}
}

// firstPoint gives the first point in a value, not looking into every list.
func firstPoint(v reflect.Value) (geometry.Point, bool) {
	switch {
	case v.Type() == pointType:
		return v.Interface().(geometry.Point), true
	case Value(v.Type()):
	case v.Kind() == reflect.Slice:
		if v.Len() > 0 {
			return firstPoint(v.Index(0))
		}
	default:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if at, ok := firstPoint(v.Field(i)); ok {
				return at, true
			}
		}
	}
	return geometry.Point{}, false
}

// fault reports what is wrong with the value that is looked at, or with one below
// it.
func (c *checker) fault(below, found, want string) {
	f := plan.Fault{Path: Join(c.path(), below), Found: found, Want: want}
	if strings.HasPrefix(f.Path, "slabs[") || strings.HasPrefix(f.Path, "survey.") {
		f.At = c.point()
	}
	c.faults = append(c.faults, f)
}

func (c *checker) check(n *node, v reflect.Value) {
	last := len(c.way)
	switch {
	case n.elem != nil:
		c.items(n, v)
		for i := range v.Len() {
			e := v.Index(i)
			c.way = append(c.way, stop{"", i, e})
			c.check(n.elem, e)
			c.way = c.way[:last]
		}
	case n.fields != nil:
		for _, f := range n.fields {
			fv := v.Field(f.index)
			c.way = append(c.way, stop{f.name, -1, fv})
			if before := len(c.faults); !f.used(v) {
				c.readable(f.node, fv)
			} else if c.check(f.node, fv); len(c.faults) == before {
				c.relations(f.node, v, fv)
			}
			c.way = c.way[:last]
		}
		if n.row != nil {
			for _, rule := range n.row.rules {
				rule(View{c: c, n: n, v: v})
			}
		}
	case n.row != nil:
		c.value(n, v)
	}
}

// readable checks what even a field that is not used must be: a number that can be
// written.
func (c *checker) readable(n *node, v reflect.Value) bool {
	of, number := n.form, v
	if of == optional {
		number = v.Field(1)
		of = formOf(number.Type())
	}
	switch {
	case n.row == nil:
	case of == exact && !short(asDecimal(number), n.row.most()):
		c.fault("", "a number of too many digits", "write at most "+strconv.Itoa(n.row.most()))
		return false
	case n.form == fraction && v.Float()-v.Float() != 0: // endless, or none at all
		c.fault("", "no number", "write a number")
		return false
	}
	return true
}

// items checks how many things a list has.
func (c *checker) items(n *node, v reflect.Value) {
	if n.row == nil {
		return
	}
	switch least, most := n.row.Items[0], n.row.Items[1]; {
	case v.Len() == 0 && least > 0:
		c.fault("", "none", "give at least "+strconv.Itoa(least))
	case v.Len() < least:
		c.fault("", strconv.Itoa(v.Len()), "give at least "+strconv.Itoa(least))
	case most > 0 && v.Len() > most:
		c.fault("", strconv.Itoa(v.Len()), "keep "+strconv.Itoa(most)+" at most")
	}
}

// value checks one value by itself.
func (c *checker) value(n *node, v reflect.Value) {
	r := n.row
	switch {
	case !c.readable(n, v):
	case n.form == place:
		for i := range 2 {
			if l := geometry.Length(v.Field(i).Int()); l > geometry.MaxLength || l < -geometry.MaxLength {
				c.fault("", l.Exact(c.units), "must lie within 10 km of the origin")
				return
			}
		}
	case n.form == words:
		if want := r.badText(v.String()); want != "" {
			c.fault("", quoted(v.String()), want)
		}
	case r.bars == knownBars:
		if want := r.badBar(v.Interface().(bars.Size), c.units); want != "" {
			c.fault("", r.say(v, c.units), want)
		}
	case n.form == otherwise:
		if r.Needed && written(v) == "" {
			c.fault("", "nothing", "give the "+Lower(r.Label)+r.example())
		}
	default:
		f, ok := n.form.measure(v)
		if want := r.in(c.units).refused(f, c.units); ok && want != "" {
			c.fault("", r.say(v, c.units), want)
		}
	}
}

// most is how many digits a number may have on either side of its point.
func (r *Row) most() int {
	if r.Digits > 0 {
		return r.Digits
	}
	return 40
}

// refused says what would do instead of a number or a length; "" where it does.
func (r *Row) refused(v float64, u geometry.Units) string {
	if v == 0 && r.Zero != "" {
		return ""
	}
	if r.Kind == Choice && len(r.Names) > 0 {
		for _, n := range r.Names {
			if n.Name == strconv.FormatFloat(v, 'f', -1, 64) {
				return ""
			}
		}
		return "write " + r.names(u) + r.orZero()
	}
	if !r.Hard.Any() || r.Hard.holds(v) {
		return ""
	}
	return r.bounds(r.Hard, u) + r.orZero()
}

func (r *Row) orZero() string {
	if r.Zero == "" {
		return ""
	}
	return ", or 0: " + r.Zero
}

// bounds says a range: "must be from 6" to 20'-0"".
func (r *Row) bounds(b Range, u geometry.Units) string {
	least, most := r.measure(b.Least, u), r.measure(b.Most, u)
	switch unbounded := b.Most >= plenty || !r.Kind.Length() && b.Most >= 1e12; {
	case b.Above && unbounded:
		return "must be more than " + least
	case b.Above:
		return "must be more than " + least + ", and at most " + most
	case b.Below:
		return "must be from " + least + " to under " + most
	case unbounded:
		return "must be " + least + " or more"
	}
	return "must be from " + least + " to " + most
}

// badText says what would do instead of a text; "" where it does.
func (r *Row) badText(t string) string {
	switch {
	case t == "" && r.Needed:
		return "give the " + Lower(r.Label) + r.example()
	case r.Kind == Choice && !(t == "" && r.Zero != ""):
		for _, n := range r.Names {
			if n.Name == t {
				return ""
			}
		}
		want := "write " + r.names(geometry.FeetInches)
		if r.Zero != "" {
			want += ", or nothing: " + r.Zero
		}
		return want
	case r.Letters > 0 && len([]rune(t)) > r.Letters:
		return fmt.Sprintf("keep it to %d letters; it has %d", r.Letters, len([]rune(t)))
	case r.OneLine && strings.ContainsAny(t, "\n\r"):
		return "write it in one line"
	}
	return ""
}

// names lists a choice: "bent, wrapped or crossed".
func (r *Row) names(u geometry.Units) string {
	var list []string
	for _, n := range r.Names {
		if n.offered(u) {
			list = append(list, n.Name)
		}
	}
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

// relations checks a value against fields beside it.
func (c *checker) relations(n *node, holder, v reflect.Value) {
	if len(n.atLeast)+len(n.atMost) == 0 {
		return
	}
	f, ok := n.form.measure(v)
	if !ok {
		return
	}
	for i, r := range n.atLeast {
		r.Relation = n.row.in(c.units).AtLeast[i]
		if least, ok := r.form.measure(holder.Field(r.field)); ok && f < least+r.Plus {
			c.fault("", n.row.say(v, c.units), "must be at least "+n.row.measure(least+r.Plus, c.units)+r.to(n.row, c.units))
			return
		}
	}
	for i, r := range n.atMost {
		r.Relation = n.row.in(c.units).AtMost[i]
		if most, ok := r.form.measure(holder.Field(r.field)); ok && f > most+r.Plus {
			c.fault("", n.row.say(v, c.units), "must be at most "+n.row.measure(most+r.Plus, c.units)+r.to(n.row, c.units))
			return
		}
	}
}

// to says what a bound comes from: " (Length)", " (Straightedge − 6")".
func (r Relation) to(of *Row, u geometry.Units) string {
	other := r.Field
	if row := rowAt(of.Path[:strings.LastIndexByte(of.Path, '.')+1] + r.Field); row != nil {
		other = row.Label
	}
	switch {
	case r.Plus > 0:
		other += " + " + of.measure(r.Plus, u)
	case r.Plus < 0:
		other += " − " + of.measure(-r.Plus, u)
	}
	return " (" + other + ")"
}
