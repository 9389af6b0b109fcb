// Package language says in another language what the program says in English. The
// English text is the source: what varies in it, as numbers, lengths, marks and the
// user's own names, is taken out and stands as placeholders, and what is left is looked
// up in the file of the language. What is not found there stays English.
package language

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"

	"haunchbook.example/assets/languages"
)

// Language is what a file in assets/languages says. The zero Language is English.
type Language struct {
	Code   string            `json:"code"`   // "es", ISO 639-1
	Name   string            `json:"name"`   // in the language itself
	Locale string            `json:"locale"` // of documents, as "es-US", RFC 5646
	About  []string          `json:"about"`  // where its terms come from
	Terms  []Term            `json:"terms"`
	Texts  map[string]string `json:"texts"` // by the English, with {1} {2} for what varies
}

// Term is a word of the trade with where its translation was published.
type Term struct {
	English string `json:"english"`
	Said    string `json:"said"`
	Source  string `json:"source"`
}

// English is what texts are written in.
var English = Language{Code: "en", Name: "English", Locale: "en-US"}

// Both is the code for English followed by every other language.
const Both = "both"

// Read reads the file of a language. The error names the text that does not keep to
// what varies in its English.
func Read(data []byte) (Language, error) {
	var l Language
	if err := json.Unmarshal(data, &l); err != nil {
		return l, fmt.Errorf("language: %w", err)
	}
	if l.Code == "" || l.Name == "" || l.Locale == "" {
		return l, fmt.Errorf("language %q: found no code, name or locale; write all three", l.Name)
	}
	for key, said := range l.Texts {
		if !slices.Equal(places(key), places(said)) {
			return l, fmt.Errorf("language %s: %q is said %q; write each of the placeholders %v once", l.Code, key, said, places(key))
		}
	}
	return l, nil
}

// places lists the placeholders of a text, sorted.
func places(s string) []string {
	out := placeholder.FindAllString(s, -1)
	slices.Sort(out)
	return out
}

// All gives the languages: English, then those with a file, by their codes. They are read
// once, and not to be changed.
func All() ([]Language, error) { return all() }

var all = sync.OnceValues(func() ([]Language, error) {
	out := []Language{English}
	for _, data := range languages.Files() {
		l, err := Read(data)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
})

// Choice is one way to say things: one language, or several one after another.
type Choice struct {
	Code, Name string
	Languages  []Language
}

// Choices gives each language alone, and all of them.
func Choices() ([]Choice, error) {
	all, err := All()
	if err != nil {
		return nil, err
	}
	var out []Choice
	var names []string
	for _, l := range all {
		out, names = append(out, Choice{l.Code, l.Name, []Language{l}}), append(names, l.Name)
	}
	return append(out, Choice{Both, strings.Join(names, ", then "), all}), nil
}

// Codes lists the codes of the choices, as they are typed, without reading any file.
func Codes() string {
	return strings.Join(slices.Concat([]string{English.Code}, languages.Codes(), []string{Both}), ", ")
}

// Chosen gives the languages of a code, as Choices has them.
func Chosen(code string) ([]Language, error) {
	if code == English.Code { // which no file is read for
		return []Language{English}, nil
	}
	choices, err := Choices()
	if err != nil {
		return nil, err
	}
	for _, c := range choices {
		if c.Code == code {
			return c.Languages, nil
		}
	}
	return nil, fmt.Errorf("found %q; write one of %s", code, Codes())
}
