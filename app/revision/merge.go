package revision

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry/plan"
)

// Merge brings together what two people made of one state of a job, field by field and
// thing by thing. Where both changed the same it gives the place in words, and theirs
// stands there; with any such clash the outcome is to be shown, not kept. That the two
// together make a plan with faults that neither has alone is a clash too.
func Merge(base, mine, theirs job.Job) (job.Job, []string) {
	if mine.Units != theirs.Units {
		return theirs, []string{"units"}
	}
	out, clashes := MergeParts("", base, mine, theirs)
	if len(clashes) > 0 {
		return out, clashes
	}
	known := map[string]bool{}
	for _, f := range slices.Concat(mine.Validate(), theirs.Validate()) {
		known[f.Error()] = true
	}
	for _, f := range out.Validate() {
		if !known[f.Error()] {
			return out, []string{"both together: " + f.Error()}
		}
	}
	return out, nil
}

// MergeParts is Merge for any plain data whose fields stand in the table of fields under a
// path, or in none.
func MergeParts[T any](path string, base, mine, theirs T) (T, []string) {
	m := merger{at: path}
	out := m.merge(reflect.ValueOf(base), reflect.ValueOf(mine), reflect.ValueOf(theirs))
	return out.Interface().(T), m.clashes
}

// merger walks three values of one type side by side.
type merger struct {
	at      string   // as in a job file without numbers
	words   []string // and as people say it
	clashes []string
}

func (m *merger) clash(theirs reflect.Value) reflect.Value {
	m.clashes = append(m.clashes, strings.Join(m.words, ", "))
	return theirs
}

// in goes down to a field or a thing while f runs.
func (m *merger) in(at, word string, f func() reflect.Value) reflect.Value {
	was, n := m.at, len(m.words)
	m.at = at
	if word != "" {
		m.words = append(m.words, field.Lower(word))
	}
	v := f()
	m.at, m.words = was, m.words[:n]
	return v
}

func (m *merger) merge(base, mine, theirs reflect.Value) reflect.Value {
	switch {
	case equal(mine, theirs), equal(base, mine):
		return theirs
	case equal(base, theirs):
		return mine
	case mine.Kind() == reflect.Struct && !field.Value(mine.Type()) && exported(mine.Type()):
		return m.fields(base, mine, theirs)
	case mine.Kind() == reflect.Slice && mine.Type().Elem().Kind() == reflect.Struct:
		return m.list(base, mine, theirs)
	}
	return m.clash(theirs)
}

// equal tells whether two values are the same, however they are written.
func equal(a, b reflect.Value) bool {
	switch {
	case a.Kind() == reflect.Slice && a.Len() == 0 && b.Len() == 0:
		return true
	case a.Type() == reflect.TypeFor[decimal.Decimal]():
		return a.Interface().(decimal.Decimal).Equal(b.Interface().(decimal.Decimal))
	}
	return reflect.DeepEqual(a.Interface(), b.Interface())
}

// exported tells whether all of a struct can be set.
func exported(t reflect.Type) bool {
	for i := range t.NumField() {
		if !t.Field(i).IsExported() {
			return false
		}
	}
	return true
}

func (m *merger) fields(base, mine, theirs reflect.Value) reflect.Value {
	out := reflect.New(mine.Type()).Elem()
	for i, name := range field.Names(mine.Type()) {
		if name == "" {
			name = strings.ToLower(mine.Type().Field(i).Name)
		}
		at := field.Join(m.at, name)
		r, ok := field.At(at)
		word := r.Label
		if !ok && mine.Field(i).Kind() != reflect.Slice {
			word = name // of what has no row, as the settings of a book
		}
		out.Field(i).Set(m.in(at, word, func() reflect.Value { return m.merge(base.Field(i), mine.Field(i), theirs.Field(i)) }))
	}
	return out
}

// list merges lists of things: by what names them, by their places where none came or
// went, or as what each has added at the end. Corners are not added so: two people who
// each drew on would get an outline that neither drew.
func (m *merger) list(base, mine, theirs reflect.Value) reflect.Value {
	at := m.at + "[]"
	r, _ := field.At(at)
	named := func(v reflect.Value, i int) string {
		if w := r.Called(v.Interface(), i); w != "" {
			return w
		}
		return fmt.Sprintf("%s %d", m.at, i+1)
	}
	if all := [3]map[string]int{keys(base), keys(mine), keys(theirs)}; all[0] != nil && all[1] != nil && all[2] != nil {
		return m.keyed(at, named, base, mine, theirs, all)
	}
	out := reflect.MakeSlice(mine.Type(), 0, theirs.Len())
	if base.Len() == mine.Len() && mine.Len() == theirs.Len() {
		for i := range mine.Len() {
			out = reflect.Append(out, m.in(at, named(theirs.Index(i), i), func() reflect.Value {
				return m.merge(base.Index(i), mine.Index(i), theirs.Index(i))
			}))
		}
		return out
	}
	n := base.Len()
	if mine.Type().Elem() != reflect.TypeFor[plan.Edge]() && begins(mine, base) && begins(theirs, base) {
		out = reflect.AppendSlice(out, theirs)
		for i := n; i < mine.Len(); i++ {
			for k := n; k < theirs.Len(); k++ {
				if equal(mine.Index(i), theirs.Index(k)) { // one thing that both wrote down, or two alike: nobody knows
					return m.in(at, named(mine.Index(i), i), func() reflect.Value { return m.clash(theirs) })
				}
			}
			out = reflect.Append(out, mine.Index(i))
		}
		return out
	}
	if r.Label != "" {
		m.words = append(m.words, field.Lower(r.Label)+"s")
		defer func() { m.words = m.words[:len(m.words)-1] }()
	}
	return m.clash(theirs)
}

// begins tells whether a list begins with all of another.
func begins(list, with reflect.Value) bool {
	return list.Len() >= with.Len() && equal(list.Slice(0, with.Len()), with)
}

// keys gives the places of the things of a list by what names them; nil where one has no
// name, or two have the same.
func keys(list reflect.Value) map[string]int {
	out := map[string]int{}
	for i := range list.Len() {
		k := keyOf(list.Index(i))
		if _, twice := out[k]; k == "" || twice {
			return nil
		}
		out[k] = i
	}
	return out
}

// keyOf gives what names a thing of a list, "" for nothing.
func keyOf(v reflect.Value) string {
	if n := nameOf(v); n != "" || v.Kind() != reflect.Struct {
		return n
	}
	if at := firstOf(v.Type(), "Ticket", "Task", "Number"); at != "" && !v.FieldByName(at).IsZero() {
		return fmt.Sprint(v.FieldByName(at).Interface())
	}
	return ""
}

// keyed merges lists whose things have names, in the order of theirs, with what mine alone
// has after it.
func (m *merger) keyed(at string, named func(reflect.Value, int) string, base, mine, theirs reflect.Value, all [3]map[string]int) reflect.Value {
	out := reflect.MakeSlice(mine.Type(), 0, theirs.Len())
	item := func(list reflect.Value, in map[string]int, k string) (reflect.Value, bool) {
		i, ok := in[k]
		if !ok {
			return reflect.Value{}, false
		}
		return list.Index(i), true
	}
	for i := range theirs.Len() {
		k, th := keyOf(theirs.Index(i)), theirs.Index(i)
		b, was := item(base, all[0], k)
		mi, have := item(mine, all[1], k)
		if was && !have && equal(b, th) {
			continue // mine took it away
		}
		out = reflect.Append(out, m.in(at, named(th, i), func() reflect.Value {
			switch {
			case was && have:
				return m.merge(b, mi, th)
			case have && equal(mi, th), !was && !have:
				return th
			}
			return m.clash(th)
		}))
	}
	for i := range mine.Len() {
		k, mi := keyOf(mine.Index(i)), mine.Index(i)
		if _, there := all[2][k]; there {
			continue
		}
		if b, was := item(base, all[0], k); was {
			if !equal(b, mi) { // they took away what mine changed
				m.in(at, named(mi, i), func() reflect.Value { return m.clash(mi) })
			}
			continue
		}
		out = reflect.Append(out, mi)
	}
	return out
}
