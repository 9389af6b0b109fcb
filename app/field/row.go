package field

import (
	"maps"
	"regexp"
	"strings"

	"haunchbook.example/geometry"
)

// Row is what is known of one field.
type Row struct {
	Path    string // in the job file; "[]" for each element of a list
	Label   string // for people, in front of its value; of a list, one of its things
	Help    string // a sentence: what it is, what is usual
	Kind    Kind
	Default any    // what a job has that leaves it out; nil for nothing
	Source  string // of the default

	Hard  Range  // outside is refused
	Usual Range  // what the trade uses: outside is asked about
	Zero  string // what 0, or a choice of nothing, stands for: always allowed
	Blank string // what an empty text stands for
	Names []Name // of a choice, in the order of their values

	When    []Condition // the field is used only where all hold
	AtLeast []Relation  // fields beside it that it must not be below
	AtMost  []Relation  // and above

	Needed  bool   // an empty text is refused
	Letters int    // the most letters of a text; 0 for no limit
	OneLine bool   // of a text
	Items   [2]int // least and most things of a list; a most of 0 is no limit
	Digits  int    // the most digits of a number before its point, and after it
	Named   string // the field that names a thing of a list
	Alone   bool   // its name goes without the label, and one that is the only one has none
	Like    string // the rows of its fields are those under this path
	Unshown string // why no field of the window shows it; "" where one does

	rules    []func(View) // what must hold between fields of a part or a thing
	si       any          // the default of a metric job, where it does not follow from the other
	siHelp   string       // and its help
	siSource string       // and its source
	siUsual  string       // and who says what the trade uses
	metric   *Row         // the row of a metric job

	bars sizes // of a choice of bars
}

// Range is a span of numbers; of lengths, in nanometers. The zero Range is none.
type Range struct {
	Least, Most  float64
	Above, Below bool   // without the end itself
	Source       string // of what the trade uses
	set          bool
}

// Any tells whether there is a range.
func (r Range) Any() bool { return r.set }

// holds tells whether v lies in the range.
func (r Range) holds(v float64) bool {
	return v >= r.Least && v <= r.Most && !(r.Above && v == r.Least) && !(r.Below && v == r.Most)
}

// Name is one of a choice: as in a job file, and for people.
type Name struct {
	Name, Words string
	Metric      string           // what it is called in metric jobs, where that differs
	Only        []geometry.Units // jobs that it is offered in; none for all
}

// Condition is on a field beside: it is one of the names, or, with none given,
// it is there and not 0; or the opposite.
type Condition struct {
	Field string
	Is    []string
	Not   bool
}

// Element is a thing of a list by the names of its fields, as a default.
type Element map[string]any

// Relation is to a field beside, and by how much more.
type Relation struct {
	Field string
	Plus  float64
}

// table is every row by its path, and the groups in the order of the work; beside is the
// groups of what no job file has.
var table, groups, beside = built()

func built() (table map[string]*Row, job, beside []Group) {
	table, job = build(all())
	more, beside := build(besides())
	maps.Copy(table, more)
	return table, job, beside
}

// Group is the rows of one concept: the first is the part that holds the others.
type Group struct {
	Row         // the part itself
	Rows []*Row // the others, in order
}

// Record lists the groups of what is written down after a pour.
func Record() []Group { return beside }

// Groups lists the groups under a path of the job file, in the order of the work.
func Groups(under string) []Group {
	var out []Group
	for _, g := range groups {
		if g.Path == under || strings.HasPrefix(g.Path, under+".") || under == "" {
			out = append(out, g)
		}
	}
	return out
}

func build(list [][]Row) (map[string]*Row, []Group) {
	byPath, all := map[string]*Row{}, []Group{}
	for _, rows := range list {
		g := Group{Row: rows[0]}
		for i := range rows {
			r := &rows[i]
			if _, twice := byPath[r.Path]; twice {
				panic("field: two rows for " + r.Path)
			}
			byPath[r.Path] = r
			r.metric = r.inMetric()
			if i > 0 {
				g.Rows = append(g.Rows, r)
			}
		}
		all = append(all, g)
	}
	return byPath, all
}

var numbered = regexp.MustCompile(`\[\d+\]`)

// At gives the row of a path, with or without the numbers of things in lists.
func At(path string) (Row, bool) {
	r := rowAt(numbered.ReplaceAllString(path, "[]"))
	if r == nil {
		return Row{}, false
	}
	return *r, true
}

// rowAt gives the row of a path without numbers, nil if there is none.
func rowAt(path string) *Row {
	if r := table[path]; r != nil {
		return r
	}
	for at := path; at != ""; {
		i := strings.LastIndexByte(at, '.')
		if i < 0 {
			break
		}
		at = at[:i]
		if holder := table[at]; holder != nil && holder.Like != "" {
			return table[holder.Like+path[len(at):]]
		}
	}
	return nil
}

// rows puts the rows of a group under its path. The part that holds them comes
// first.
func rows(under string, list ...Row) []Row {
	for i := range list {
		switch r := &list[i]; {
		case under == "":
		case r.Path == "":
			r.Path = under
		default:
			r.Path = under + "." + r.Path
		}
	}
	return list
}

// The rows are written as sentences: a kind with path, label and help, and then
// what else there is to say.

func row(k Kind, path, label, help string) Row {
	return Row{Kind: k, Path: path, Label: label, Help: help}
}

func part(path, label, help string) Row  { return row(Part, path, label, help) }
func list(path, label, help string) Row  { return row(List, path, label, help) }
func text(path, label, help string) Row  { return row(Text, path, label, help) }
func check(path, label, help string) Row { return row(Switch, path, label, help) }
func inches(path, label, help string) Row {
	return row(Inches, path, label, help)
}
func feet(path, label, help string) Row    { return row(Feet, path, label, help) }
func point(path, label, help string) Row   { return row(Point, path, label, help) }
func count(path, label, help string) Row   { return row(Count, path, label, help) }
func number(path, label, help string) Row  { return row(Number, path, label, help) }
func percent(path, label, help string) Row { return row(Percent, path, label, help) }
func minutes(path, label, help string) Row { return row(Minutes, path, label, help) }
func degrees(path, label, help string) Row { return row(Degrees, path, label, help).from(-360, 360) }
func money(path, label, help string) Row   { return row(Money, path, label, help).digits(12) }

// choice is one of names: "bent", or "bent: bent corner bars" where people are
// told otherwise than the job file.
func choice(path, label, help string, names ...string) Row {
	r := row(Choice, path, label, help)
	for _, n := range names {
		name, words, ok := strings.Cut(n, ": ")
		if !ok {
			words = name
		}
		r.Names = append(r.Names, Name{Name: name, Words: words})
	}
	return r
}

// is gives the default and its source.
func (r Row) is(v any, source string) Row {
	r.Default, r.Source = v, source
	return r
}

// from refuses what is outside.
func (r Row) from(least, most float64) Row {
	r.Hard = Range{Least: least, Most: most, set: true}
	return r
}

// over is from without the least itself.
func (r Row) over(least, most float64) Row {
	r.Hard = Range{Least: least, Most: most, Above: true, set: true}
	return r
}

// under is from without the most itself.
func (r Row) under(least, most float64) Row {
	r.Hard = Range{Least: least, Most: most, Below: true, set: true}
	return r
}

// trade asks about what is outside of what the trade uses.
func (r Row) trade(least, most float64, source string) Row {
	r.Usual = Range{Least: least, Most: most, Source: source, set: true}
	return r
}

// zero says what 0 stands for.
func (r Row) zero(means string) Row {
	r.Zero = means
	return r
}

// blank says what an empty text stands for.
func (r Row) blank(means string) Row {
	r.Blank = means
	return r
}

// when says that the field is used only where one beside it is one of the names,
// or is not 0.
func (r Row) when(field string, is ...string) Row {
	r.When = append(r.When, Condition{Field: field, Is: is})
	return r
}

// unless is the opposite of when.
func (r Row) unless(field string, is ...string) Row {
	r.When = append(r.When, Condition{Field: field, Is: is, Not: true})
	return r
}

func (r Row) atLeast(field string, plus float64) Row {
	r.AtLeast = append(r.AtLeast, Relation{field, plus})
	return r
}

func (r Row) atMost(field string, plus float64) Row {
	r.AtMost = append(r.AtMost, Relation{field, plus})
	return r
}

func (r Row) needed() Row {
	r.Needed = true
	return r
}

// letters bounds a text to one line of so many letters.
func (r Row) letters(most int) Row {
	r.Letters, r.OneLine = most, true
	return r
}

// long bounds a text of several lines.
func (r Row) long(most int) Row {
	r.Letters = most
	return r
}

// items bounds how many things a list has; 0 for no most.
func (r Row) items(least, most int) Row {
	r.Items = [2]int{least, most}
	return r
}

func (r Row) digits(most int) Row {
	r.Digits = most
	return r
}

func (r Row) named(field string) Row {
	r.Named = field
	return r
}

func (r Row) alone() Row {
	r.Alone = true
	return r
}

func (r Row) like(path string) Row {
	r.Like = path
	return r
}

// unshown says why no field of the window shows it.
func (r Row) unshown(why string) Row {
	r.Unshown = why
	return r
}

func (r Row) rule(f ...func(View)) Row {
	r.rules = append(r.rules, f...)
	return r
}
