package language

import (
	"strings"
	"testing"
)

func read(t *testing.T, texts string) *Speaker {
	t.Helper()
	l, err := Read([]byte(`{"code": "xx", "name": "X", "locale": "xx", "texts": {` + texts + `}}`))
	if err != nil {
		t.Fatal(err)
	}
	return l.Speaker([]string{"Edge", "Slab 1", "A user's note that is long enough to be wrapped"})
}

func TestKeys(t *testing.T) {
	for text, want := range map[string]string{
		`No. 4 × 1'-4", 3 1/2" deep`:                "No. {1} × {2}, {3} deep",
		`Wall W1.2, 20'-0"`:                         "Wall {1}, {2}",
		"A stake each 3'-0\" at most":               "A stake each {1} at most",
		"Section A: 12\" deep":                      "Section {1}: {2} deep",
		"B of 12":                                   "{1} of {2}",
		"6x6-W1.4xW1.4, in 3 pieces":                "{1}, in {2} pieces",
		"call at 07:30, 6.2 yd³":                    "call at {1}, {2}",
		"humidity 62 %, wind 8 mph":                 "humidity {1}, wind {2}",
		"ASTM C94/C94M-21: the ticket":              "ASTM {1}/{2}-{3}: the ticket",
		"add $1,250.00, -$3.50 each":                "add {1}, {2} each",
		"between 600 and 1200 mm, 10.5 m³ of 3 bar": "between {1} and {2}, {3} of {4} bar",
	} {
		if got := templateOf(text, nil).key(); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestSay(t *testing.T) {
	s := read(t, `"drill {1}": "taladre {1}", "{1} of {2}": "de {2}, {1}", "level": "a nivel", "Edge": "Borde", "common practice": "costumbre", "LIMIT": "LIMITE", "Slab {1}": "Losa {1}", "cut {1}": "corte {1}", "Edge section: {1}": "Sección: {1}", "{1} section: {2}": "{1} sección: {2}"`)
	for text, want := range map[string]string{
		"Drill 3.":                         "Taladre 3.",
		"3 of 4":                           "de 4, 3",
		"Edge":                             "Edge", // the user's
		"Slab 1":                           "Slab 1",
		"Slab 2: level":                    "Losa 2: a nivel",
		"LIMIT: drill 2 (common practice)": "LIMITE: taladre 2 (costumbre)",
		"drill 2, never else":              "drill 2, never else", // not one half only
		"drill 2; never else":              "taladre 2; never else",
		"drill 2 (IRC R403.1)":             "taladre 2 (IRC R403.1)",
		"level × 2 ÷ 3 of 4":               "a nivel × 2 ÷ de 4, 3",
		"cut 1/2\"; 3'-0\"":                "corte 1/2\"; 3'-0\"",
		"long enough":                      "long enough",
		"Edge section: Edge":               "Sección: Edge", // the program's Edge, then the user's
		"Slab 1 section: Edge":             "Slab 1 sección: Edge",
		"":                                 "",
	} {
		if got := s.Say(text); got != want {
			t.Errorf("%q is said %q, want %q", text, got, want)
		}
	}
	if got := s.Word("Edge"); got != "Borde" {
		t.Errorf("a heading is said %q", got)
	}
	var english *Speaker
	if got := english.Say("Drill 3."); got != "Drill 3." {
		t.Errorf("English is said %q", got)
	}
}

// A translation has what varies in its English, each once; such a file is refused.
func TestPlaceholdersAreKept(t *testing.T) {
	for _, said := range []string{"taladre", "taladre {2}", "taladre {1} {1}", "taladre {1} {2}"} {
		_, err := Read([]byte(`{"code": "xx", "name": "X", "locale": "xx", "texts": {"drill {1}": "` + said + `"}}`))
		if err == nil || !strings.Contains(err.Error(), "drill {1}") {
			t.Errorf("%q: error %v", said, err)
		}
	}
	for _, bad := range []string{"", "{", `{"code": "xx"}`} {
		if _, err := Read([]byte(bad)); err == nil {
			t.Errorf("%q is a language", bad)
		}
	}
}

// The files that come with the program are read, name their terms' sources, and a key
// is as one is made from a text.
func TestFiles(t *testing.T) {
	all, err := All()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all[1:] {
		if len(l.Texts) < 300 || len(l.About) == 0 {
			t.Errorf("%s: %d texts, %d lines about their sources", l.Code, len(l.Texts), len(l.About))
		}
		for _, term := range l.Terms {
			if term.English == "" || term.Said == "" || term.Source == "" {
				t.Errorf("%s: %+v; write all three", l.Code, term)
			}
		}
		for key := range l.Texts {
			if n := len(placeholder.FindAllString(key, -1)); !strings.Contains(key, "{") {
				if got := templateOf(key, nil).key(); got != key {
					t.Errorf("%s: %q is never looked up; it is %q", l.Code, key, got)
				}
			} else {
				for i := range n {
					if !strings.Contains(key, "{"+string(rune('1'+i))+"}") {
						t.Errorf("%s: %q: placeholders are numbered in their order", l.Code, key)
					}
				}
			}
		}
	}
}

func TestChosen(t *testing.T) {
	for code, want := range map[string]int{"en": 1, "es": 1, Both: 2} {
		if l, err := Chosen(code); err != nil || len(l) != want {
			t.Errorf("%s: %d languages, %v", code, len(l), err)
		}
	}
	choices, err := Choices()
	if err != nil {
		t.Fatal(err)
	}
	var codes []string
	for _, c := range choices {
		codes = append(codes, c.Code)
	}
	if got, want := Codes(), strings.Join(codes, ", "); got != want {
		t.Errorf("the files are named %s, and say they are %s", got, want)
	}
	if _, err := Chosen("qq"); err == nil || !strings.Contains(err.Error(), "en, es, both") {
		t.Errorf("error %v", err)
	}
}
