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

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/app/job"
	"haunchbook.example/app/picture"
	"haunchbook.example/app/pour"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/canvas/sketch"
	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/hands"
	"haunchbook.example/geometry"
	"haunchbook.example/geometry/plan"
)

// unshown are the fields of a job file that the fields of the window do not show of
// this test's job, each with the reason. Those that no field shows of any job have
// theirs in the table of fields.
var unshown = map[string]string{
	"slabs[].outline[].runout":    "shown on an edge that runs straight on from the one before; here none does",
	"slabs[].outline[].oldcuts[]": "shown on a joint; TestJointsOfTheOldSlabAreShown has one",
	"slabs[].outline[].meets":     "shown on an edge that lies on another slab's; TestMeetingSlabsAreShown has one",
	"visit":                       "at the site visit of the job book; TestSiteVisit fills it in",
	"slabs[].lines[].endcover":    "shown of a drain line; TestLinesAreUndone types it",
	"slabs[].lines[].height":      "shown of a trench drain; TestLinesAreUndone types it",
	"slabs[].holes[].edges[]":     "edges as those of the outline",
	"price.others[].name":         "shown of what fits nothing; TestOthersThatFitNothing has some",
	"price.figures[]":             "in the opened row of each line it is for; TestOwnFigureOnThePage has one",
	"price.prices.items[]":        "in the opened row of each line that the takeoff has; the job has the list's copy",
	"price.prices.tasks[]":        "as that of an item",
	"price.prices.fees[]":         "as that of an item",
	"price.markupmaterials":       "as payment steps",
	"price.markuplabor":           "as payment steps",
	"price.markupfees":            "as payment steps",
	"price.least":                 "as payment steps",
	"price.round":                 "as payment steps",
	"price.prices.crewday":        "as payment steps",
	"price.terms.steps[]":         "opened by More for the bid, as what follows; TestMoreForTheBid shows them",
	"price.terms.taxshown":        "as payment steps",
	"price.terms.alternates":      "as payment steps",
	"price.terms.extraconcrete":   "as payment steps",
	"price.terms.extradepth":      "as payment steps",
	"price.terms.concealed":       "as payment steps",
	"price.terms.notices":         "as payment steps",
	"holds[]":                     "shown beside the list of the job book; TestHolds of that page types them",
	"pour.date":                   "as holds",
	"pour.forecast[]":             "as holds",
	"account":                     "shown beside the list of the job book; TestAccount of that page types them",
	"price.prices.currency":       "of the price list as a whole",
}

// leaf is a field of the job file that holds one value.
type leaf struct {
	path string
	t    reflect.Type
	at   func(j *job.Job) reflect.Value
}

// leaves lists the fields below a value, with the first element of each list.
func leaves(t reflect.Type, path string, at func(*job.Job) reflect.Value) []leaf {
	_, whole := reflect.New(t).Interface().(encoding.TextUnmarshaler)
	whole = whole || t == reflect.TypeFor[geometry.Length]() || t == reflect.TypeFor[geometry.Point]()
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
	if c, ok := v.Addr().Interface().(spelled); ok {
		if options := enumerated(c); len(options) > 1 {
			v.SetUint((v.Uint() + 1) % uint64(len(options)))
			return true
		}
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
	j := hands.Demo(t)
	s := &j.Slabs[0]
	*s = s.AddHole("pit", plan.Like(geometry.Ring{pt(10*ft, 20*ft), pt(13*ft, 20*ft), pt(13*ft, 23*ft), pt(10*ft, 23*ft)}, plan.Edge{}))
	s.Pads = []plan.Pad{{Name: "P", Center: pt(5*ft, 10*ft), Width: 2 * ft, Length: 2 * ft, Depth: ft, Isolation: plan.DiamondOut, BlockOut: 3 * ft}}
	s.Top.Breaks = []plan.Break{{From: pt(24*ft, 3*ft), To: pt(0, 3*ft), Drop: geometry.Inch / 4, Over: ft}}
	s.Outline[0].Curb, s.Outline[0].CurbWidth = 6*geometry.Inch, 8*geometry.Inch
	s.Construction = []plan.Construction{{Kind: plan.Doweled, From: pt(20*ft, 0), To: pt(20*ft, 20*ft)}}
	s.Embeds = []plan.Embed{{Kind: plan.PostBase, Center: pt(10*ft, 12*ft), Width: 6 * geometry.Inch, Length: 6 * geometry.Inch, Turn: 15, Deep: 4 * geometry.Inch}, {Name: "Water", Center: pt(8*ft, 12*ft), Width: 4 * geometry.Inch}}
	s.Lines = []plan.Line{{Name: "Floor", Kind: plan.Tubing, Path: []geometry.Point{pt(3*ft, 3*ft), pt(9*ft, 9*ft)}, Diameter: geometry.Inch, Cover: 2 * geometry.Inch, Spacing: ft, Longest: 300 * ft, Lead: 20 * ft},
		{Kind: plan.TrenchDrain, Path: []geometry.Point{pt(3*ft, 10*ft), pt(9*ft, 10*ft)}, Diameter: 6 * geometry.Inch, Height: 6 * geometry.Inch},
		{Kind: plan.DrainLine, Path: []geometry.Point{pt(9*ft, 10*ft), pt(9*ft, -4*ft)}, Diameter: 3 * geometry.Inch, Cover: 24 * geometry.Inch, EndCover: 26 * geometry.Inch}}
	b := &j.Spec.Base // its edges are insulated
	b.Building, b.Upright, b.UprightDeep, b.Wing, b.WingDeep, b.WingWidth, b.CornerWidth, b.CornerLong = takeoff.HeatedBuilding, 2*geometry.Inch, ft, 2*geometry.Inch, ft, 2*ft, 3*ft, 4*ft
	s.Walls = []plan.Wall{{Name: "Stair", Plate: "2x4", From: pt(3*ft, 6*ft), To: pt(15*ft, 6*ft), Doors: []plan.Opening{{From: 4 * ft, Width: 3 * ft}}, Bolts: []plan.BoltMark{{Along: ft}}}}
	s.Strips = []plan.Strip{{Name: "S", Path: []geometry.Point{pt(3*ft, 6*ft), pt(12*ft, 6*ft)}, Bottom: ft, Depth: ft, Taper: ft / 2}}
	s.Outline[0].Bolts = []plan.BoltMark{{Along: ft}}
	j.Survey.Shots = []plan.Shot{{At: pt(3*ft, 3*ft), Height: -ft}}
	j.Pour.Stations = []geometry.Point{pt(0, -10*ft)}
	j.Price.Extras = []estimate.Extra{{Name: "Sealer", Amount: decimal.NewFromInt(100)}}
	j.Price.Figures = []estimate.Figure{{Kind: takeoff.TieWire, Amount: decimal.NewFromInt(8), Of: takeoff.Pounds}}
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
	image, size, err := picture.Import(f, picture.Sketch)
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
		group := groupOf(l.path)
		j := base.Clone()
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
			w.doc.Commit("test", base)
			before[group] = w.fieldsOf(t, group)
		}
		w.doc.Commit("test", j)
		if w.fieldsOf(t, group) == before[group] {
			t.Errorf("%s is shown nowhere", l.path)
		}
	}
	w.doc.Commit("test", base)
}

// Where the old slab has its joints is typed on a joint, and nowhere else.
func TestJointsOfTheOldSlabAreShown(t *testing.T) {
	j := hands.Demo(t)
	joint := slices.IndexFunc(j.Slabs[0].Outline, func(e plan.Edge) bool { return e.Joint })
	j.Slabs[0].Outline[joint].OldCuts = []geometry.Length{4*ft + 7*geometry.Inch}
	w := open(t, Options{Job: j})
	w.Show()
	for i := range j.Slabs[0].Outline {
		w.machine.Selected = tool.Target{Kind: tool.Edge, Index: i}
		w.side.tab(editTab)
		w.side.turn(tool.Selection)
		if got := strings.Contains(w.edit(t).Text(), `4'-7"`); got != (i == joint) {
			t.Errorf("edge %d shows the old slab's joint: %t", i+1, got)
		}
	}
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

// listed are the kinds of things on the plan by their lists in a slab.
var listed = map[string]tool.Kind{"pads": tool.Pad, "embeds": tool.Embed, "strips": tool.Strip, "lines": tool.Pipe, "walls": tool.Wall, "construction": tool.Construction}

// groupOf gives the part of the job that a field belongs to: its first name, or the list of
// a slab that has a kind of its own.
func groupOf(path string) string {
	names := strings.Split(strings.ReplaceAll(path, "[]", ""), ".")
	if names[0] == "slabs" && listed[names[1]] != nil {
		return names[1]
	}
	return names[0]
}

// fieldsOf gives what the fields for a part of the job show.
func (w *Window) fieldsOf(t *testing.T, group string) string {
	w.win.Canvas().Unfocus() // a field that is typed in keeps what it has
	text := ""
	page := func(p tool.Page) {
		w.side.turn(p)
		text += w.edit(t).Text()
	}
	thing := func(k tool.Kind, loop int) {
		w.machine.Selected = tool.Target{Kind: k, Loop: loop}
		page(tool.Selection)
	}
	tab := func(i int) {
		w.side.tab(i)
		text += hands.On(t, w.side.sheets[i].Scroll).Text()
	}
	pageText := func(i int) string {
		defer w.pages.home()
		w.pages.turn(i)
		return hands.On(t, w.pages.list[i].root).Text()
	}
	if group == "spec" { // which is slow to find, and is found once
		if w.side.tabs.SelectedIndex() != specTab {
			w.side.tab(specTab)
		}
		h := hands.On(t, w.side.sheets[specTab].Scroll)
		if find := h.Hinted("Find a field"); find.Text != "." { // every one has a sentence
			h.Type(find, ".")
			w.win.Canvas().Unfocus() // the fields of a sheet that is typed in stay as they are
		}
		return h.Text()
	}
	w.side.tab(editTab)
	if k := listed[group]; k != nil {
		thing(k, 0)
		return text
	}
	switch group {
	case "slabs":
		for _, k := range []tool.Kind{nil, tool.Edge, tool.Corner, tool.Door, tool.Fall, tool.Break, tool.Bolt} {
			thing(k, 0)
		}
		thing(tool.Slab, 1)
		w.machine.Deselect()
		page(tool.Sections)
	case "survey":
		page(tool.Surveying)
		thing(tool.Benchmark, 0)
		thing(tool.Note, 0)
		w.machine.Deselect()
		text += pageText(pourPage) // of the shots
	case "sketch":
		page(tool.Sketching)
	case "pour", "price", "ground":
		for _, i := range map[string][]int{"pour": {pourPage}, "price": {pricePage, optionsPage}, "ground": {pourPage}}[group] {
			text += pageText(i)
		}
	default:
		tab(jobTab)
	}
	return text
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

// spelled is a value that is written and read as text.
type spelled interface {
	encoding.TextMarshaler
	encoding.TextUnmarshaler
}

// enumerated gives what a small enumeration takes: every value that writes as text and
// reads back as itself. It is none for what is no enumeration.
func enumerated(v spelled) []string {
	t := reflect.TypeOf(v).Elem()
	if t.Kind() != reflect.Uint8 {
		return nil
	}
	var out []string
	for i := range uint64(32) {
		s, ok := spelling(t, i)
		back := reflect.New(t)
		if !ok || back.Interface().(spelled).UnmarshalText([]byte(s)) != nil || back.Elem().Uint() != i {
			break
		}
		out = append(out, s)
	}
	return out
}

// spelling writes value i of an enumeration; false past its last.
func spelling(t reflect.Type, i uint64) (s string, ok bool) {
	defer func() {
		if recover() != nil { // past the end of its table of names
			s, ok = "", false
		}
	}()
	v := reflect.New(t)
	v.Elem().SetUint(i)
	b, err := v.Interface().(spelled).MarshalText()
	return string(b), err == nil && len(b) > 0
}
