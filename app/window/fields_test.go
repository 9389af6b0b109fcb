package window

import (
	"encoding"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/hit"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// unshown are the fields of a job file that the fields of the window do not show of
// this test's job, each with the reason. Those that no field shows of any job have
// theirs in the table of fields.
var unshown = map[string]string{
	"slabs[].outline[].runout": "shown on an edge that runs straight on from the one before; here none does",
	"slabs[].holes[].edges[]":  "edges as those of the outline",
	"price.others[].name":      "shown of what fits nothing; TestOthersThatFitNothing has some",
	"price.prices.items[]":     "in the opened row of each line that the takeoff has; the job has the list's copy",
	"price.prices.tasks[]":     "as that of an item",
	"price.prices.fees[]":      "as that of an item",
	"price.prices.currency":    "of the price list as a whole",
}

// leaf is a field of the job file that holds one value.
type leaf struct {
	path string
	t    reflect.Type
	at   func(j *job.Job) reflect.Value
}

// leaves lists the fields below a value, with the first element of each list.
func leaves(t reflect.Type, path string, at func(*job.Job) reflect.Value) []leaf {
	whole := t == lengthType || t == reflect.TypeFor[geometry.Point]() || reflect.PointerTo(t).Implements(textReader)
	switch {
	case whole:
		return []leaf{{path, t, at}}
	case t.Kind() == reflect.Slice:
		return leaves(t.Elem(), path+"[]", func(j *job.Job) reflect.Value {
			if l := at(j); l.IsValid() && l.Len() > 0 {
				return l.Index(0)
			}
			return reflect.Value{}
		})
	case t.Kind() == reflect.Struct:
		var out []leaf
		for i := range t.NumField() {
			f := t.Field(i)
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if name == "-" || !f.IsExported() {
				continue
			}
			if name == "" {
				name = strings.ToLower(f.Name)
			}
			below := path + "." + name
			if path == "" {
				below = name
			}
			out = append(out, leaves(f.Type, below, func(j *job.Job) reflect.Value {
				if v := at(j); v.IsValid() {
					return v.Field(i)
				}
				return reflect.Value{}
			})...)
		}
		return out
	}
	return []leaf{{path, t, at}}
}

// change gives v another value that its field takes; false where it cannot.
func change(v reflect.Value) bool {
	switch x := v.Addr().Interface().(type) {
	case *geometry.Length:
		*x += geometry.Inch
		return true
	case *geometry.Point:
		x.X += geometry.Foot
		return true
	case *decimal.Decimal:
		*x = x.Add(decimal.NewFromInt(1))
		return true
	case *pour.Clock:
		*x += 30
		return true
	case *estimate.Change:
		*x = estimate.To(x.To + 13*geometry.Inch)
		return true
	}
	if options := choices(v.Type()); len(options) > 1 {
		v.SetUint((v.Uint() + 1) % uint64(len(options)))
		return true
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(v.String() + " changed")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	default:
		r, ok := v.Addr().Interface().(encoding.TextUnmarshaler)
		if !ok {
			return false
		}
		was := fmt.Sprint(v.Interface())
		for _, s := range []string{"2", "71 °F", "12 mph", "mesh", "grid", "none", "90"} {
			if r.UnmarshalText([]byte(s)) == nil && fmt.Sprint(v.Interface()) != was {
				return true
			}
		}
		return false
	}
	return true
}

// fullJob has one of everything that a job file can hold.
func fullJob(t *testing.T) job.Job {
	t.Helper()
	j := demoJob(t)
	s := &j.Slabs[0]
	*s = s.AddHole("pit", plan.Like(geometry.Ring{pt(10*ft, 20*ft), pt(13*ft, 20*ft), pt(13*ft, 23*ft), pt(10*ft, 23*ft)}, plan.Edge{}))
	s.Pads = []plan.Pad{{Name: "P", Center: pt(5*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Depth: ft}}
	s.Strips = []plan.Strip{{Name: "S", Path: []geometry.Point{pt(3*ft, 6*ft), pt(12*ft, 6*ft)}, Bottom: ft, Depth: ft, Taper: ft / 2}}
	s.Outline[0].Bolts = []plan.BoltMark{{Along: ft}}
	j.Pour.Stations = []geometry.Point{pt(0, -10*ft)}
	j.Price.Extras = []estimate.Extra{{Name: "Sealer", Amount: decimal.NewFromInt(100)}}
	j.Price.Options = []estimate.Option{{Name: "Deep", Edge: estimate.To(16 * geometry.Inch)}}
	j.Pour.Reach.Turned = true
	j.Spec.Place.Bars.Yard = []geometry.Length{7 * ft}
	j.Price.Terms.Included = []string{"Cleaning up"}
	second := plan.Plan{Name: "Apron", Field: ft / 2}
	j.Slabs = append(j.Slabs, second.WithOutline(plan.Like(geometry.Ring{pt(50*ft, 0), pt(60*ft, 0), pt(60*ft, 10*ft), pt(50*ft, 10*ft)}, plan.Edge{})))
	f, err := os.Open(filepath.Join("..", "..", "testdata", "sketch", "sketch.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	image, size, err := sketch.Import(f)
	if err != nil {
		t.Fatal(err)
	}
	j.Sketch = job.Sketch{Image: image, Corners: sketch.Place(size, pt(0, 0), pt(40*ft, 30*ft)), Fade: 40}
	j.Price.Prices = estimate.Starting(j.Units)
	return j
}

// Every field of the job file has a field in the window that shows it, or a
// reason why not: with another value in the file, the window shows something else.
func TestEveryFieldIsShown(t *testing.T) {
	exhaustive(t)
	w := open(t, Options{Job: fullJob(t)})
	w.Show()
	base := w.doc.Job()
	before := map[string]string{}
	for _, l := range leaves(reflect.TypeFor[job.Job](), "", func(j *job.Job) reflect.Value { return reflect.ValueOf(j).Elem() }) {
		if reasonFor(l.path) != "" {
			continue
		}
		group, _, _ := strings.Cut(strings.ReplaceAll(l.path, "[]", ""), ".")
		j := copyJob(t, base)
		v := l.at(&j)
		if !v.IsValid() {
			t.Errorf("%s: the test's job has none", l.path)
			continue
		}
		if !change(v) {
			t.Errorf("%s: the test knows no other value of a %s", l.path, v.Type())
			continue
		}
		if before[group] == "" {
			w.show(base)
			before[group] = w.fieldsOf(group)
		}
		w.show(j)
		if w.fieldsOf(group) == before[group] {
			t.Errorf("%s is shown nowhere", l.path)
		}
	}
	w.show(base)
}

// reasonFor gives why a field or the list it is in is not shown.
func reasonFor(path string) string {
	if r, ok := field.At(path); ok && r.Unshown != "" {
		return r.Unshown
	}
	for p, why := range unshown {
		if path == p || strings.HasPrefix(path, p+".") || strings.HasPrefix(path, p+"[") {
			return why
		}
	}
	return ""
}

func (w *Window) show(j job.Job) { w.doc.Commit("test", j) }

// copyJob gives a job that shares nothing with j.
func copyJob(t *testing.T, j job.Job) job.Job {
	t.Helper()
	c, err := job.Read(strings.NewReader(string(j.Encode())))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// fieldsOf gives what the fields for a part of the job show.
func (w *Window) fieldsOf(group string) string {
	var b strings.Builder
	take := func(o fyne.CanvasObject) { visit(o, func(o fyne.CanvasObject) { b.WriteString(fieldText(o)) }) }
	w.win.Canvas().Unfocus() // a field that is typed in keeps what it has
	switch group {
	case "slabs":
		w.tabs.SelectIndex(0)
		all := []hit.Target{{}}
		for _, k := range []hit.Kind{hit.Edge, hit.Corner, hit.Door, hit.Pad, hit.Strip, hit.Fall, hit.Bolt} {
			all = append(all, hit.Target{Kind: k})
		}
		all = append(all, hit.Target{Kind: hit.Slab, Loop: 1})
		for i := range all {
			w.machine.Selected = all[i]
			w.edit.turn(selection)
			take(w.edit.scroll)
		}
		w.machine.Selected = hit.Target{}
		w.edit.turn(sectionsPage)
		take(w.edit.scroll)
	case "survey":
		w.tabs.SelectIndex(0)
		w.edit.turn(surveyPage)
		take(w.edit.scroll)
		for _, k := range []hit.Kind{hit.Benchmark, hit.Note} {
			w.machine.Selected = hit.Target{Kind: k}
			w.edit.turn(selection)
			take(w.edit.scroll)
		}
		w.machine.Selected = hit.Target{}
	case "sketch":
		w.tabs.SelectIndex(0)
		w.edit.turn(sketchPage)
		take(w.edit.scroll)
	case "spec":
		w.tabs.SelectIndex(2)
		take(w.spec.scroll)
	case "pour":
		w.pages.turn(pourView)
		take(w.pages.list[pourView].root)
	case "price":
		for _, i := range []int{priceView, optionsView} {
			w.pages.turn(i)
			take(w.pages.list[i].root)
		}
		w.pages.home()
	default:
		w.tabs.SelectIndex(3)
		take(w.job.scroll)
	}
	return b.String()
}

// fieldText gives what a field shows.
func fieldText(o fyne.CanvasObject) string {
	switch o := o.(type) {
	case *entry:
		return o.Text + "\n"
	case *widget.Entry:
		return o.Text + "\n"
	case *keySelect:
		return o.Selected + "\n"
	case *widget.Select:
		return o.Selected + "\n"
	case *keyCheck:
		return fmt.Sprintln(o.Text, o.Checked)
	case *widget.Check:
		return fmt.Sprintln(o.Text, o.Checked)
	case *lineRow:
		return o.name + o.value + "\n"
	}
	return textOf(o) + "\n"
}

// The reasons are for fields that there are.
func TestUnshownFieldsExist(t *testing.T) {
	var all []string
	for _, l := range leaves(reflect.TypeFor[job.Job](), "", func(j *job.Job) reflect.Value { return reflect.ValueOf(j).Elem() }) {
		all = append(all, l.path)
	}
	for path := range unshown {
		if !slices.ContainsFunc(all, func(p string) bool { return p == path || strings.HasPrefix(p, path+".") }) {
			t.Errorf("a job file has no %s", path)
		}
	}
}

// Bars round the edge are added, changed and removed in the specification; what
// cannot be is said at the field, and stays there to be mended.
func TestEdgeBarsInTheSpecification(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	w.Show()
	w.sideTab(2)
	rows := func() int { return len(w.doc.Job().Spec.Place.Bars.Rows) }
	press := func(text string) {
		t.Helper()
		var found *keyButton
		visit(w.spec.scroll, func(o fyne.CanvasObject) {
			if b, ok := o.(*keyButton); ok && b.Text == text {
				found = b
			}
		})
		if found == nil {
			t.Fatalf("no button %q", text)
		}
		found.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	field := func(label string) *entry {
		t.Helper()
		var last *entry
		visit(w.spec.scroll, func(o fyne.CanvasObject) {
			c, ok := o.(*fyne.Container)
			if !ok || len(c.Objects) != 2 {
				return
			}
			l, isLabel := c.Objects[0].(*widget.Label)
			if e, isEntry := c.Objects[1].(*entry); isLabel && isEntry && l.Text == label {
				last = e
			}
		})
		if last == nil {
			t.Fatalf("no field %q", label)
		}
		return last
	}
	n := rows()
	press("Add a bar round the edge")
	if rows() != n+1 {
		t.Fatalf("%d bars, want %d", rows(), n+1)
	}
	w.enter(t, field("Clear of the face"), `4"`)
	w.enter(t, field("Clear of that"), `5"`)
	if r := w.doc.Job().Spec.Place.Bars.Rows[n]; r.Face != 4*geometry.Inch || r.Bottom+r.Top != 5*geometry.Inch {
		t.Errorf("the bar is %+v", r)
	}
	e := field("Clear of that")
	w.enter(t, e, "deep")
	if e.Text != "deep" || w.doc.Job().Spec.Place.Bars.Rows[n].Bottom != 5*geometry.Inch {
		t.Errorf("after a wrong text the field has %q, the bar %+v", e.Text, w.doc.Job().Spec.Place.Bars.Rows[n])
	}
	w.sideTab(3)
	w.sideTab(2)
	if e := field("Clear of that"); e.Text != "deep" {
		t.Errorf("the wrong text is lost: %q", e.Text)
	}
	w.enter(t, field("Clear of that"), `6"`)
	press("Remove this bar")
	if rows() != n {
		t.Errorf("%d bars, want %d", rows(), n)
	}
	w.undo()
	w.sideTab(2)
	if rows() != n+1 || w.spec.bars != n+1 {
		t.Errorf("undone to %d bars, and the form has %d", rows(), w.spec.bars)
	}
}

// Every field of the specification has a label in words, which fits its column
// beside the plan; no label is for a field that is gone.
func TestSpecificationLabels(t *testing.T) {
	w := open(t, Options{Job: demoJob(t)})
	fields := map[string]bool{}
	var walk func(reflect.Type, string)
	walk = func(t reflect.Type, prefix string) {
		for i := range t.NumField() {
			f := t.Field(i)
			if f.Tag.Get("json") == "-" {
				continue
			}
			fields[prefix+f.Name] = true
			if f.Type.Kind() == reflect.Struct && !reflect.PointerTo(f.Type).Implements(textReader) {
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
	w.tabs.SelectIndex(2)
	visit(w.spec.scroll, func(o fyne.CanvasObject) {
		l, ok := o.(*widget.Label)
		if !ok || l.Truncation == fyne.TextTruncateOff {
			return
		}
		room := l.Size().Width - 2*theme.InnerPadding()
		if need := fyne.MeasureText(l.Text, theme.TextSize(), l.TextStyle).Width; need > room {
			t.Errorf("%q is cut off: %g wide in %g", l.Text, need, room)
		}
	})
}
