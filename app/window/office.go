package window

import (
	"slices"
	"strings"

	"haunchbook.example/app/field"
	"haunchbook.example/app/window/pages/book"
	"haunchbook.example/storage/office"
)

// officeTold shows what came of the office book, where the book has one: what both changed
// is said until it is looked at, and who else is on the job once, as when he goes.
func (w *Window) officeTold(st office.Status) {
	if w.closed {
		return
	}
	others := strings.Join(st.Others, ", ")
	r := st.Report
	var news []string
	for _, c := range r.Conflicts {
		news = append(news, c.String())
	}
	for _, n := range r.Notes { // some come again until something is done: each is told once
		if !w.noted[n] {
			w.noted[n] = true
			news = append(news, field.Upper(n))
		}
	}
	switch {
	case len(news) > 0:
		w.say(strings.Join(news, ". "))
	case slices.Contains(r.Jobs, w.shelf.ID()):
		w.tell("Others changed this job: its history tells who did what")
	case others != "" && others != w.others:
		w.tell(book.AlsoHere(st))
	case others == "" && w.others != "" && st.Online:
		w.tell("Nobody else is on the open job any more")
	}
	w.others = others
	w.panels()
}
