package window

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"haunchbook.example/app/language"
	"haunchbook.example/app/window/words"
)

// languageKey is the preference that holds the window's language, by its code. It is of
// who works at this computer and not of the book, which several may share.
const languageKey = "language"

// speak has the window speak the language that was chosen, or else that of the system,
// where there is a file of it.
func speak(a fyne.App) {
	all, err := language.All()
	if err != nil {
		return // it speaks English; the sheets' choice says why
	}
	code := a.Preferences().StringWithFallback(languageKey, systemLanguage())
	for _, l := range all {
		if l.Code == code {
			words.Speak(l)
		}
	}
}

// systemLanguage gives the code of the system's language.
func systemLanguage() string {
	code, _, _ := strings.Cut(lang.SystemLocale().LanguageString(), "-")
	return strings.ToLower(code)
}

// Languages gives the codes and names of the languages that the window may speak.
func (d *desk) Languages() (codes, names []string) {
	all, err := language.All()
	if err != nil {
		d.w.sayError(err)
		return []string{language.English.Code}, []string{language.English.Name}
	}
	for _, l := range all {
		codes, names = append(codes, l.Code), append(names, l.Name)
	}
	return codes, names
}

// Language gives the code of the one it speaks.
func (d *desk) Language() string {
	if code := words.Spoken().Code; code != "" {
		return code
	}
	return language.English.Code
}

// SetLanguage has the window speak another language, and remembers it.
func (d *desk) SetLanguage(code string) error {
	in, err := language.Chosen(code)
	if err != nil {
		return err
	}
	d.w.app.Preferences().SetString(languageKey, code)
	words.Speak(in[0])
	d.w.rebuild()
	return nil
}

// rebuild makes everything anew around the plan, on the page that is open.
func (w *Window) rebuild() {
	at, tab := w.pages.at, w.side.tabs.SelectedIndex()
	w.pages.home()
	size := w.win.Canvas().Size()
	w.build()
	w.win.Resize(size)
	w.connect()
	w.side.tab(tab)
	w.pages.turn(at)
	w.refresh()
}

// own gives the texts of the job and of the book that are the user's own.
func (w *Window) own() []string {
	j := w.doc.Job()
	out := j.Own()
	for _, i := range w.doc.Prices().Items {
		out = append(out, i.Supplier)
	}
	if s, err := w.shelf.Settings(); err == nil {
		out = slices.Concat(out, []string{s.Company.Name}, s.Company.Lines)
	}
	if address, st, ok := w.shelf.Office(); ok {
		out = append(slices.Concat(out, st.Others), address, st.User)
		for _, c := range st.Report.Conflicts {
			out = append(append(out, c.Name), c.Who...)
		}
	}
	return out
}
