package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
)

// statusLine is the line below the plan: tool, what is typed or drawn to, where
// the pointer is, what Enter and Esc do, and what is not yet on disk.
type statusLine struct {
	tool, mid, at, help *widget.Label
	disk                *widget.Label // what is not yet there; mostly hidden
	object              fyne.CanvasObject
}

func newStatusLine() *statusLine {
	small := func(bold bool) *widget.Label {
		l := widget.NewLabel("")
		l.SizeName = theme.SizeNameCaptionText
		l.TextStyle.Bold = bold
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	s := &statusLine{tool: small(true), mid: small(false), at: small(false), help: small(false), disk: small(true)}
	s.disk.Truncation = fyne.TextTruncateOff
	s.disk.Hide()
	s.object = container.NewBorder(nil, nil, nil, s.disk, container.New(&shares{parts: []float32{0.10, 0.19, 0.19, 0.52}}, s.tool, s.mid, s.at, s.help))
	return s
}

// unsaved says how many changes are not yet in the book, where they go into one.
func (s *statusLine) unsaved(n int, kept bool) {
	if n > 0 && kept {
		form.Set(s.disk, "not yet on disk: "+words.Plural(n, "change"))
	}
	form.Seen(s.disk, n > 0 && kept)
}

// inUse says what is in use: a page as wide as the window, a page of the side panel,
// or the tool at hand.
func (w *Window) inUse() (st tool.Status) {
	m := w.machine
	st = m.Status()
	defer func() {
		if w.hint != "" {
			st.Info, st.Help = "", tool.Help{Do: w.hint}
		}
	}()
	if f := w.pages.list[w.pages.at]; w.pages.at != planPage {
		return tool.Status{Tool: f.name, Notice: m.Notice, Info: m.Info, Help: tool.Help{Do: f.about, Esc: "back to the plan"}}
	}
	if next := w.next(); next != "" && st.Tool == (&tool.Select{}).Name() && m.Selected == (tool.Target{}) && st.Typed == "" {
		st.Help = tool.Help{Do: next}
	}
	if name := w.side.name(); name != "" && st.Tool == (&tool.Select{}).Name() {
		st.Tool = name
	}
	return st
}

func (s *statusLine) show(st tool.Status) {
	form.Set(s.tool, st.Tool)
	mid := st.Length
	if st.Snap != "" {
		if mid != "" {
			mid += "  ·  "
		}
		mid += st.Snap
	}
	if st.Typed != "" {
		mid = st.Typed
	}
	form.Set(s.mid, mid)
	form.Set(s.at, st.At)
	help := st.Help.Do
	if st.Help.Enter != "" {
		help += "   Enter: " + st.Help.Enter
	}
	if st.Help.Esc != "" {
		help += "   Esc: " + st.Help.Esc
	}
	importance := widget.MediumImportance
	switch {
	case st.Notice != "":
		help, importance = "! "+st.Notice, widget.DangerImportance
	case st.Info != "":
		help, importance = st.Info, widget.HighImportance
	}
	form.Weigh(s.help, help, importance)
}

// shares lays things out side by side, each with its share of the width.
type shares struct{ parts []float32 }

func (l *shares) Layout(os []fyne.CanvasObject, s fyne.Size) {
	x := float32(0)
	for i, o := range os {
		w := s.Width * l.parts[i]
		o.Resize(fyne.NewSize(w, s.Height))
		o.Move(fyne.NewPos(x, 0))
		x += w
	}
}

func (l *shares) MinSize(os []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, o := range os {
		h = max(h, o.MinSize().Height)
	}
	return fyne.NewSize(100, h)
}
