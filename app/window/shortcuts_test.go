package window

import (
	"testing"

	"haunchbook.example/app/window/hands"
)

// No two commands have the same keys, and none takes those of text fields.
func TestShortcutsAreApart(t *testing.T) {
	w := open(t, Options{Job: hands.Demo(t)})
	taken := map[string]string{"Ctrl+X": "cut", "Ctrl+C": "copy", "Ctrl+V": "paste", "Ctrl+A": "select all"}
	for _, m := range w.commands.Items {
		for _, i := range m.Items {
			if i.Shortcut == nil {
				continue
			}
			keys := keysOf(i.Shortcut)
			if other := taken[keys]; other != "" {
				t.Errorf("%s is for %s and for %s", keys, other, i.Label)
			}
			taken[keys] = i.Label
		}
	}
	letters := map[rune]string{}
	for _, t := range tools() {
		letters[t.key] = t.name
	}
	for _, k := range letterKeys() {
		for _, r := range k.runes {
			if letters[r] != "" {
				t.Errorf("%c is for %s and for %s", r, letters[r], k.about)
			}
			letters[r] = k.about
		}
	}
}
