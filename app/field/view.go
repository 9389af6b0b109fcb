package field

import (
	"reflect"
	"strconv"
	"strings"

	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// View is a part of a job, or a thing of a list, as a rule between its fields
// sees it. Fields are named as in the job file: "bottom", "lap.rule".
type View struct {
	c *checker
	n *node
	v reflect.Value
	// Where it stands, if below the value that is looked at: a thing of a list.
	list  *View
	name  string
	index int
}

// below gives the path from the value that is looked at.
func (w View) below() string {
	if w.list == nil {
		return ""
	}
	return Join(w.list.below(), w.name) + "[" + strconv.Itoa(w.index) + "]"
}

// find gives the value of a field and what is known of it.
func (w View) find(path string) (*node, reflect.Value) {
	n, v := w.n, w.v
	for _, name := range strings.Split(path, ".") {
		next := (*node)(nil)
		for _, f := range n.fields {
			if f.name == name {
				next, v = f.node, v.Field(f.index)
				break
			}
		}
		if n = next; n == nil {
			panic("field: no " + path + " in " + w.c.path())
		}
	}
	return n, v
}

// value gives the value of a field.
func (w View) value(path string) any {
	_, v := w.find(path)
	return v.Interface()
}

func (w View) length(path string) geometry.Length { return geometry.Length(w.number(path)) }

// number gives a number or a length in nanometers; 0 where none is given.
func (w View) number(path string) float64 {
	n, v := w.find(path)
	f, _ := n.form.measure(v)
	return f
}

// text gives a text, or the name of a choice.
func (w View) text(path string) string {
	n, v := w.find(path)
	if n.form == words {
		return v.String()
	}
	return written(v)
}

// fault reports what is wrong with a field, "" for the part itself.
func (w View) fault(path, found, want string) { w.c.fault(Join(w.below(), path), found, want) }

// say prints a field as people write it.
func (w View) say(path string) string {
	n, v := w.find(path)
	return n.row.say(v, w.c.units)
}

// items gives the things of a list.
func (w View) items(path string) []View {
	n, v := w.find(path)
	out := make([]View, v.Len())
	for i := range out {
		out[i] = View{w.c, n.elem, v.Index(i), &w, path, i}
	}
	return out
}

// count gives how many things a list has.
func (w View) count(path string) int {
	_, v := w.find(path)
	return v.Len()
}

// clean tells whether nothing has been found wrong so far.
func (w View) clean() bool { return len(w.c.faults) == 0 }

// add reports faults whose paths begin at the part.
func (w View) add(under string, fs plan.Faults) {
	for _, f := range fs {
		w.fault(Join(under, f.Path), f.Found, f.Want)
	}
}

// differ refuses a name that an earlier thing of the list has.
func differ(list, name string) func(View) {
	return func(w View) {
		seen := make(map[string]bool, w.count(list))
		for _, item := range w.items(list) {
			t := item.text(name)
			if t != "" && seen[t] {
				item.fault(name, quoted(t)+" a second time", "choose another")
			}
			seen[t] = true
		}
	}
}
