package language

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Speaker says the texts of one job in a language. It may be used by one goroutine at a
// time. A nil Speaker says everything in English.
type Speaker struct {
	texts   map[string]string
	own     []string // the user's texts, long ones first
	known   map[string]string
	unknown map[string]bool
}

// Speaker gives who speaks a language, and leaves the user's own texts as they are; nil
// for English.
func (l Language) Speaker(own []string) *Speaker {
	if len(l.Texts) == 0 {
		return nil
	}
	s := &Speaker{texts: l.Texts, known: map[string]string{}, unknown: map[string]bool{}}
	for _, o := range own {
		if o = strings.TrimSpace(o); strings.IndexFunc(o, unicode.IsLetter) >= 0 {
			s.own = append(s.own, o)
		}
	}
	slices.SortFunc(s.own, func(a, b string) int { return len(b) - len(a) })
	s.own = slices.Compact(s.own)
	return s
}

// Say says a text that may hold texts of the user's own, or be one.
func (s *Speaker) Say(text string) string {
	if s == nil || text == "" {
		return text
	}
	if said, ok := s.known[text]; ok {
		return said
	}
	said := text
	if !s.isOwn(strings.TrimSpace(text)) {
		said = s.say(text)
	}
	s.known[text] = said
	return said
}

// isOwn tells whether a text is the user's, or a line of a long one of his.
func (s *Speaker) isOwn(text string) bool {
	return slices.ContainsFunc(s.own, func(o string) bool {
		return o == text || len(o) > longText && strings.Contains(o, text)
	})
}

// longText is how long a text may be that stands in one line on drawings, at least.
const longText = 24

// Word says a text of the program's own, as a heading.
func (s *Speaker) Word(text string) string {
	if s == nil || text == "" {
		return text
	}
	return s.whole(templateOf(text, nil))
}

// Each says each of some texts.
func (s *Speaker) Each(texts []string) []string {
	if s == nil || texts == nil {
		return texts
	}
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = s.Say(t)
	}
	return out
}

// Unknown lists the keys that were asked for and are not in the file, sorted.
func (s *Speaker) Unknown() []string {
	if s == nil {
		return nil
	}
	var out []string
	for k := range s.unknown {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// say looks a text up with the names in it that may be the user's, and without: a word
// of the program may be a name too.
func (s *Speaker) say(text string) string {
	var in []string
	for _, o := range s.own {
		if strings.Contains(text, o) {
			in = append(in, o)
		}
	}
	// Where a name of the user's is a word of the program too, what begins with it is
	// the program's if it knows that: "Edge section: Edge".
	for _, o := range in {
		if rest, ok := strings.CutPrefix(text, o); ok && rest != "" {
			t := templateOf(rest, in)
			t.form = o + t.form
			if said, ok := s.lookup(t); ok {
				return said
			}
		}
	}
	tries := [][]string{in}
	if len(in) > 0 {
		tries = append(tries, nil)
	}
	for i := range in[:max(0, len(in)-1)] {
		tries = append(tries, in[i:i+1])
	}
	for _, names := range tries {
		if said, ok := s.part(templateOf(text, names), 0); ok {
			return said
		}
	}
	return s.whole(templateOf(text, in))
}

// whole says what of a text is known, statement by statement, and notes what is not.
func (s *Speaker) whole(t template) string {
	for _, split := range statements {
		parts := split(t)
		if _, ok := s.lookup(t); ok || len(parts) == 1 {
			continue
		}
		var b strings.Builder
		for _, p := range parts {
			b.WriteString(s.whole(p))
		}
		return b.String()
	}
	said, ok := s.part(t, 0)
	if !ok {
		s.unknown[t.key()] = true
	}
	return said
}

// part says a text by its parts where all of them are known.
func (s *Speaker) part(t template, from int) (string, bool) {
	if !t.words() {
		return t.text(), true
	}
	if said, ok := s.lookup(t); ok {
		return said, true
	}
	for i := from; i < len(splits); i++ {
		parts := splits[i](t)
		if len(parts) == 1 {
			continue
		}
		var b strings.Builder
		all := true
		for _, p := range parts {
			said, ok := s.part(p, i)
			b.WriteString(said)
			all = all && ok
		}
		if all {
			return b.String(), true
		}
	}
	return t.text(), false
}

// lookup finds a text in the file: as it is, without the sign it ends with, and with
// its first letter large or small.
func (s *Speaker) lookup(t template) (string, bool) {
	body := strings.TrimSpace(t.form)
	at := strings.Index(t.form, body)
	before, after := t.form[:at], t.form[at+len(body):]
	for _, end := range []string{"", ".", ":", ";", ","} {
		core, ok := strings.CutSuffix(body, end)
		if !ok || core == "" {
			continue
		}
		for _, flip := range []bool{false, true} {
			k := template{core, t.args}
			key := k.key()
			if flip {
				key = flipped(key)
			}
			said, ok := s.texts[key]
			if !ok {
				continue
			}
			if flip {
				said = flipped(said)
			}
			return template{before, t.args}.text() + k.filled(said) + end + after, true
		}
	}
	return "", false
}

// flipped makes the first letter of a text large where it is small, and small where it
// is large.
func flipped(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	switch {
	case unicode.IsUpper(r):
		return string(unicode.ToLower(r)) + s[n:]
	case unicode.IsLower(r):
		return string(unicode.ToUpper(r)) + s[n:]
	}
	return s
}
