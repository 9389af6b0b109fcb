package field

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"haunchbook.example/geometry"
)

func sorted(e Element) []string { return slices.Sorted(maps.Keys(e)) }

// Reference gives the reference of the job file in Markdown: a table for each
// group of fields.
func Reference() string {
	var b strings.Builder
	referTo(&b, groups)
	b.WriteString("## After the pour\n\nWhat is written down after a pour stands in no job file: the book keeps it beside the job, and an export has it as `record.json`.\n\n")
	referTo(&b, beside)
	return strings.TrimSuffix(b.String(), "\n")
}

// referTo writes a table for each group of fields.
func referTo(b *strings.Builder, groups []Group) {
	for _, g := range groups {
		title := g.Label
		if g.Kind == List {
			title = several(g.Label)
		}
		if title == "" {
			title = strings.TrimSuffix(first(g.Help), ".")
		}
		fmt.Fprintf(b, "### %s\n\n", Upper(title))
		if g.Path != "" {
			fmt.Fprintf(b, "`%s`: ", g.Path)
		}
		fmt.Fprintf(b, "%s\n\n", g.Help)
		if len(g.Rows) == 0 {
			continue
		}
		b.WriteString("| field | what it is | what it holds | left out |\n| --- | --- | --- | --- |\n")
		for _, r := range g.Rows {
			fmt.Fprintf(b, "| `%s` | %s | %s | %s |\n", r.Path, cell(r.meaning()), cell(r.content()), cell(r.leftOut()))
		}
		b.WriteByte('\n')
	}
}

// first gives the first sentence of a text.
func first(s string) string {
	sentence, _, _ := strings.Cut(s, ". ")
	return sentence
}

// cell makes a text fit into a table.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }

// meaning says what a field is, and when it is used.
func (r *Row) meaning() string {
	s := r.Help
	if r.Label != "" {
		s = "**" + Upper(r.Label) + ".** " + s
	}
	for _, c := range r.When {
		s += " Used " + c.words() + "."
	}
	return s
}

func (c Condition) words() string {
	switch {
	case len(c.Is) > 0:
		return "where `" + c.Field + "` is " + alternatives(c.Is)
	case c.Not:
		return "where there is no `" + c.Field + "`"
	}
	return "where there is `" + c.Field + "`"
}

// alternatives lists names: `"mesh"` or `"grid"`.
func alternatives(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, "`"+n+"`")
	}
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

// content says what a field may hold.
func (r *Row) content() string {
	u := geometry.FeetInches
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	switch {
	case r.Kind == Choice:
		var names []string
		for _, n := range r.Names {
			names = append(names, n.Name)
		}
		add("%s", alternatives(names))
	case r.Kind == Part:
		return ""
	case kinds[r.Kind].called != "":
		add("%s", kinds[r.Kind].called)
	}
	if r.Kind != List && strings.HasSuffix(r.Path, "[]") {
		parts[0] = "list: " + parts[0]
	}
	if r.Hard.Any() && r.Kind != Degrees {
		if b := strings.TrimPrefix(r.bounds(r.Hard, u), "must be "); b != "" {
			add("%s", b)
		}
	}
	for _, rel := range r.AtLeast {
		add("at least that of `%s`%s", rel.Field, plus(r, rel, u))
	}
	for _, rel := range r.AtMost {
		add("at most that of `%s`%s", rel.Field, plus(r, rel, u))
	}
	switch {
	case r.Letters > 0 && r.OneLine:
		add("one line of at most %d letters", r.Letters)
	case r.Letters > 0:
		add("at most %d letters", r.Letters)
	}
	if r.Needed {
		add("always given")
	}
	switch {
	case r.Items[0] > 0:
		add("at least %d", r.Items[0])
	case r.Items[1] > 0:
		add("at most %d", r.Items[1])
	}
	if r.Zero != "" {
		nothing := "0"
		if r.Kind == Choice && (len(r.Names) == 0 || r.Names[0].Name > "9") {
			nothing = `""`
		}
		add("%s: %s", nothing, r.Zero)
	}
	if r.Blank != "" {
		add(`"": %s`, r.Blank)
	}
	if r.Usual.Any() {
		add("the trade uses %s to %s (%s)", r.measure(r.Usual.Least, u), r.measure(r.Usual.Most, u), r.Usual.Source)
	}
	return strings.Join(parts, "; ")
}

func plus(r *Row, rel Relation, u geometry.Units) string {
	switch {
	case rel.Plus > 0:
		return " and " + r.measure(rel.Plus, u)
	case rel.Plus < 0:
		return " less " + r.measure(-rel.Plus, u)
	}
	return ""
}

// leftOut says what a job has that leaves the field out, and why.
func (r *Row) leftOut() string {
	s := r.inFile()
	if s != "" && r.Source != "" {
		s += " (" + r.Source + ")"
	}
	return s
}
