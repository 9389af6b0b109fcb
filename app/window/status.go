package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/canvas/tool"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/words"
)

// statusLine stands below the plan, in two rows: tool, what is typed or drawn to, where
// the pointer is, and what is not yet on disk; below them what to do, and what Enter and
// Esc do, which is never cut.
type statusLine struct {
	tool, mid, at, help, keys *widget.Label
	disk                      *widget.Label // what is not yet there; mostly hidden
	object                    fyne.CanvasObject
}

func newStatusLine() *statusLine {
	small := func(bold bool) *widget.Label {
		l := widget.NewLabel("")
		l.SizeName = theme.SizeNameCaptionText
		l.TextStyle.Bold = bold
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	s := &statusLine{tool: small(true), mid: small(false), at: small(false), help: small(false), keys: small(false), disk: small(true)}
	s.disk.Truncation, s.keys.Truncation = fyne.TextTruncateOff, fyne.TextTruncateOff
	s.disk.Hide()
	s.object = container.New(&tightRows{},
		container.NewBorder(nil, nil, nil, s.disk, container.New(&shares{parts: []float32{0.2, 0.4, 0.4}}, s.tool, s.mid, s.at)),
		container.NewBorder(nil, nil, nil, s.keys, s.help),
	)
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
	var keys []string
	if st.Help.Enter != "" {
		keys = append(keys, "Enter: "+st.Help.Enter)
	}
	if st.Help.Esc != "" {
		keys = append(keys, "Esc: "+st.Help.Esc)
	}
	form.Set(s.keys, strings.Join(keys, "   "))
	importance := widget.MediumImportance
	switch {
	case st.Notice != "":
		help, importance = "! "+st.Notice, widget.DangerImportance
	case st.Info != "":
		help, importance = st.Info, widget.HighImportance
	}
	form.Weigh(s.help, help, importance)
}

// tightRows stacks rows of labels closer than the toolkit does, as lines of one text.
type tightRows struct{}

// tight is how much of a row's height lies over the one above.
const tight = 13

func (*tightRows) Layout(os []fyne.CanvasObject, s fyne.Size) {
	y := float32(-tight / 2)
	for _, o := range os {
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(s.Width, h))
		o.Move(fyne.NewPos(0, y))
		y += h - tight
	}
}

func (*tightRows) MinSize(os []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, o := range os {
		h += o.MinSize().Height - tight
	}
	return fyne.NewSize(100, h)
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
