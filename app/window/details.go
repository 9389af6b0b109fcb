package window

import (
	"fmt"
	"os"
	"runtime"
	"strings"

	"haunchbook.example/app/job"
)

// saidKept is how many notices are kept for a report.
const saidKept = 20

// keepSaid keeps a notice for a report.
func (w *Window) keepSaid(text string) {
	if text == "" {
		return
	}
	w.said = append(w.said, now().Format("15:04:05")+" "+text)
	w.said = w.said[max(0, len(w.said)-saidKept):]
}

// details is what a report of a fault needs: the program, the system it runs on, and what
// was said last. It has nothing of a job but what a notice names.
func (w *Window) details() string {
	var b strings.Builder
	fmt.Fprintln(&b, job.Build())
	fmt.Fprintf(&b, "%s/%s, %d processors\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU())
	for _, name := range []string{"XDG_SESSION_TYPE", "XDG_CURRENT_DESKTOP", "LANG", "FYNE_SCALE"} {
		if v := os.Getenv(name); v != "" {
			fmt.Fprintf(&b, "%s=%s\n", name, v)
		}
	}
	size := w.win.Canvas().Size()
	fmt.Fprintf(&b, "window %.0f x %.0f, scale %.2f, dark %v, page %s\n", size.Width, size.Height, w.win.Canvas().Scale(), w.dark(), w.pages.list[w.pages.at].name)
	j := w.doc.Job()
	corners := 0
	for _, p := range j.Slabs {
		corners += len(p.Outline)
	}
	fmt.Fprintf(&b, "job of %d slabs with %d corners, in %v; %d faults; kept in a book %v\n", len(j.Slabs), corners, j.Units, len(w.doc.Faults()), w.shelf.Kept())
	if w.log != "" {
		fmt.Fprintf(&b, "log: %s\n", w.log)
	}
	for _, s := range w.said {
		fmt.Fprintln(&b, s)
	}
	return b.String()
}
