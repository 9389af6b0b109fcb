package window

import (
	"slices"
	"strings"

	"haunchbook.example/app/window/pages/book"
	"haunchbook.example/storage/office"
)

// officeTold shows what came of the office book, where the book has one: what both changed
// is said until it is looked at, and who else is on the job once,
// as when he goes.
func (w *Window) officeTold(st office.Status) {
	if w.closed {
		return
	}
	others := strings.Join(st.Others, ", ")
	r := st.Report
	switch {
	case len(r.Conflicts) > 0:
		w.say(r.Conflicts[0].String())
	case len(r.Notes) > 0 && r.Any():
		w.say(r.Notes[0])
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
