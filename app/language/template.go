package language

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// template is a text with what varies taken out: in form, {1} stands for the first of
// args.
type template struct {
	form string
	args []string
}

var placeholder = regexp.MustCompile(`\{[0-9]+\}`)

// varies is what a text varies by, at its beginning: lengths, amounts, numbers with their
// units, and marks as W1.2 or C94/C94M.
var varies = regexp.MustCompile(`^(?:` +
	`\d+x\d+-[WD]\d+(?:\.\d+)?x[WD]\d+(?:\.\d+)?|` +
	`[-+]?[$€£]?(?:\d+'-\d+(?: \d+/\d+)?"|\d+(?: \d+/\d+)?"|\d+/\d+"|\d+'` +
	`|\d+(?:[.,:/×x-]\d+)*(?: ?(?:mm\b|m³|m²|m\b|ft²|ft\b|yd³|psi\b|MPa\b|°F|°C|%|lb/yd³|lb/ft³|lb/ft²/h|lb\b|kg/m³|kg/m²/h|kg\b|mph\b|km/h|m/s|gal\b|L\b))?)` +
	`|[A-Z]{1,3}\d+(?:\.\d+)*[A-Z]?\b)`)

// diameter is what a bar is called by that has no number.
var diameter = regexp.MustCompile(`^Ø\d+`)

// called has what is called by a diameter called so, not by a number.
func called(said string) string { return strings.ReplaceAll(said, "No. Ø", "Ø") }

// letter is a mark of one letter, which is none where a word follows the first of a text.
var letter = regexp.MustCompile(`^[A-Z](?:[^\pL\d.'’]|$)`)

// article is a letter that is a word at the beginning of a text.
var article = regexp.MustCompile(`^A \pL`)

// templateOf takes out of a text what varies, and some names.
func templateOf(text string, names []string) template {
	t := template{}
	var b strings.Builder
	take := func(s string) {
		t.args = append(t.args, s)
		fmt.Fprintf(&b, "{%d}", len(t.args))
	}
	before := ' '
	begins := true // of a statement
	for i := 0; i < len(text); {
		rest := text[i:]
		r, n := utf8.DecodeRuneInString(rest)
		if !unicode.IsLetter(before) && !unicode.IsDigit(before) {
			if name := nameAt(rest, names); name != "" {
				take(name)
				before, begins, i = 'a', false, i+len(name)
				continue
			}
			if m := diameter.FindString(rest); m != "" { // Ø12 is said as No. 4 is
				b.WriteString("No. ")
				take(m)
				before, begins, i = '0', false, i+len(m)
				continue
			}
			if m := varies.FindString(rest); m != "" && !strings.HasSuffix(m, "-") {
				take(m)
				before, begins, i = '0', false, i+len(m)
				continue
			}
			if letter.MatchString(rest) && !(begins && article.MatchString(rest)) {
				take(rest[:1])
				before, begins, i = 'A', false, i+1
				continue
			}
		}
		b.WriteRune(r)
		before, i = r, i+n
		switch {
		case r == '.' || r == '\n' || r == '!' || r == ':' || r == ';':
			begins = true
		case unicode.IsLetter(r):
			begins = false
		}
	}
	t.form = b.String()
	return t
}

// nameAt gives the name that a text begins with as a word.
func nameAt(text string, names []string) string {
	for _, n := range names {
		if rest, ok := strings.CutPrefix(text, n); ok {
			if r, _ := utf8.DecodeRuneInString(rest); rest == "" || !unicode.IsLetter(r) && !unicode.IsDigit(r) {
				return n
			}
		}
	}
	return ""
}

// key gives the form with its placeholders numbered from 1.
func (t template) key() string {
	n := 0
	return placeholder.ReplaceAllStringFunc(t.form, func(string) string {
		n++
		return fmt.Sprintf("{%d}", n)
	})
}

// filled puts what varies into what a key is said as.
func (t template) filled(said string) string {
	own := placeholder.FindAllString(t.form, -1)
	return called(placeholder.ReplaceAllStringFunc(said, func(p string) string {
		return t.arg(own[number(p)-1])
	}))
}

// text gives the template as it was.
func (t template) text() string {
	return called(placeholder.ReplaceAllStringFunc(t.form, func(p string) string { return t.arg(p) }))
}

func (t template) arg(p string) string { return t.args[number(p)-1] }

func number(p string) int {
	n, _ := strconv.Atoi(p[1 : len(p)-1]) // digits, by the pattern
	return n
}

// name is a standard, unit, kind of file, license, key of the keyboard or path, which is
// called alike in every language.
var name = regexp.MustCompile(`[\w.-]*(?:/[\w.{}-]+)+(?: v[\w.{}-]+)?|\b(?:OSHA|ACI|ASTM|IRC|IBC|CFR|AWPA|CRSI|NIST|MPa|min|mil|ft|in|No|BM|HD|PS|yd|mm|kg|lb` +
	`|PDF|XLSX|CSV|HTML|JSON|DXF|SVG|ZIP|PNG|JPEG|Apache|BSD|MIT|ISC|LGPL|WTFPL|FreeType|GUST Font License|DejaVu Sans Condensed|Haunchbook|English|Español|Arch` +
	`|Ctrl|Shift|Alt|Esc|Tab|Enter|Backspace)\b`)

// word is what can be said otherwise.
var word = regexp.MustCompile(`\pL{2}`)

// words tells whether anything of a text can be said otherwise.
func (t template) words() bool {
	return word.MatchString(placeholder.ReplaceAllString(name.ReplaceAllString(t.form, " "), " "))
}

// cut parts a template at places, which are parts themselves; none is empty.
func (t template) cut(at [][]int) []template {
	var out []template
	from := 0
	add := func(to int) {
		if to > from {
			out = append(out, template{t.form[from:to], t.args})
			from = to
		}
	}
	for _, a := range at {
		add(a[0])
		add(a[1])
	}
	add(len(t.form))
	if len(out) == 0 {
		return []template{t}
	}
	return out
}

// by gives what parts a template where a sign stands outside brackets.
func by(sign string) func(template) []template {
	r := regexp.MustCompile(sign)
	return func(t template) []template { return t.cut(outside(t.form, r.FindAllStringIndex(t.form, -1))) }
}

// outside leaves of places in a text those that are in no brackets.
func outside(s string, at [][]int) [][]int {
	return slices.DeleteFunc(at, func(a []int) bool {
		return strings.Count(s[:a[0]], "(") > strings.Count(s[:a[0]], ")")
	})
}

// headed parts off what stands before the first colon.
func headed(t template) []template {
	at := outside(t.form, colon.FindAllStringIndex(t.form, -1))
	return t.cut(at[:min(1, len(at))])
}

var colon = regexp.MustCompile(`: `)

// sentences parts a template at full stops, which are none after "No.".
func sentences(t template) []template {
	var at [][]int
	for _, a := range outside(t.form, stop.FindAllStringIndex(t.form, -1)) {
		if !strings.HasSuffix(t.form[:a[0]], "No") {
			at = append(at, []int{a[0] + 1, a[1]})
		}
	}
	return t.cut(at)
}

var stop = regexp.MustCompile(`\. +`)

// statements part a text into what may be said in one language beside what is said in
// another; splits also into what may not.
var (
	statements = []func(template) []template{by(`\n`), sentences, by(`; `), by(`^(?:NOTE|LIMIT|SEVERE): `), cited}
	splits     = append(slices.Clone(statements), headed, by(` = `), by(` – `), by(`, `), by(`  `), by(` · `), by(` [×÷+] `))
)

// cited parts off the source in brackets at the end of a text.
func cited(t template) []template {
	m := source.FindStringSubmatchIndex(t.form)
	if m == nil {
		return []template{t}
	}
	return t.cut([][]int{{m[0], m[2]}, {m[3], m[1]}})
}

var source = regexp.MustCompile(`(?:^| )\(([^()]*(?:\([^()]*\)[^()]*)*)\)\.?$`)
