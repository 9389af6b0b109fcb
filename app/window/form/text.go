package form

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/app/window/words"
)

// Bold heads a group.
func Bold(text string) *widget.Label {
	return widget.NewLabelWithStyle(brief(words.Say(text)), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// Title heads a part of a page.
func Title(text string) *widget.Label {
	l := Bold(text)
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

// Wrapped is a paragraph.
func Wrapped(text string) *widget.Label {
	l := widget.NewLabel(words.Say(text))
	l.Wrapping = fyne.TextWrapWord
	return l
}

// Path is the name of a file, which may break anywhere.
func Path(path string) *widget.Label {
	l := widget.NewLabelWithStyle(path, fyne.TextAlignLeading, fyne.TextStyle{Monospace: true})
	l.Wrapping = fyne.TextWrapBreak
	return l
}

// Small is a paragraph in small type.
func Small(text string) *widget.Label {
	l := Wrapped(text)
	l.SizeName = theme.SizeNameCaptionText
	return l
}

// Grave is a small paragraph that something is wrong.
func Grave(text string) *widget.Label { return Weighted(Small(text), widget.DangerImportance) }

// Weighted gives a text the color of its importance.
func Weighted(l *widget.Label, i widget.Importance) *widget.Label { l.Importance = i; return l }

// Caption is a small paragraph, set in below what it belongs to.
func Caption(text string) fyne.CanvasObject { return setIn(Small(text)) }

// Source is a caption that says where something comes from.
func Source(text string) fyne.CanvasObject {
	l := Small(text)
	l.TextStyle.Italic = true
	return setIn(l)
}

func setIn(o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewBorder(nil, nil, Strut(14, 1), nil, o)
}

// Explanation is a paragraph that steps back behind the fields.
func Explanation(text string) *widget.RichText {
	r := widget.NewRichText(&widget.TextSegment{Text: words.Say(text), Style: widget.RichTextStyle{ColorName: theme.ColorNamePlaceHolder, SizeName: theme.SizeNameText}})
	r.Wrapping = fyne.TextWrapWord
	return r
}

// Set changes a label only where it differs, so that nothing is drawn for nothing.
func Set(l *widget.Label, text string) {
	if text = words.Say(text); l.Text != text {
		l.SetText(text)
	}
}

// Weigh is Set with an importance.
func Weigh(l *widget.Label, text string, i widget.Importance) {
	if l.Importance != i {
		l.Importance = i
		l.Refresh()
	}
	Set(l, text)
}

// State shows a text, or with "" hides the label.
func State(l *widget.Label, text string) {
	Set(l, text)
	Seen(l, text != "")
}

// Signed puts a sign before a text of several lines.
func Signed(sign fyne.Resource, text *widget.Label) fyne.CanvasObject {
	icon := widget.NewIcon(theme.NewColoredResource(sign, theme.ColorNameWarning))
	return container.NewBorder(nil, nil, container.NewVBox(Strut(18, 4), icon), nil, text)
}

// Seen shows a thing or hides it.
func Seen(o fyne.CanvasObject, on bool) {
	if on != o.Visible() {
		if on {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// Refill puts other things into a box.
func Refill(box *fyne.Container, os ...fyne.CanvasObject) {
	box.Objects = os
	box.Refresh()
}

// Rule is a thin line between groups.
func Rule() fyne.CanvasObject { return widget.NewSeparator() }

// Strut keeps a thing at least so wide and high.
func Strut(w, h float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}

// Halves is a page in two parts side by side: what is shown, and the fields, each
// scrolling by itself.
func Halves(left, right fyne.CanvasObject, width float32) fyne.CanvasObject {
	r := container.NewVScroll(container.NewPadded(right))
	r.SetMinSize(fyne.NewSize(width, 200))
	return container.NewBorder(nil, nil, nil, container.NewHBox(Rule(), r), container.NewVScroll(container.NewPadded(left)))
}

// Working gives the steps by which a figure comes about, as captions.
func Working(steps []takeoff.Step) []fyne.CanvasObject {
	if len(steps) == 0 {
		return []fyne.CanvasObject{Caption("Counted on the plan.")}
	}
	var os []fyne.CanvasObject
	for _, s := range steps {
		line := s.Text
		if s.Work != "" {
			line += ": " + s.Work
		}
		if s.Result != "" {
			line += " = " + s.Result
		}
		os = append(os, Caption(line))
		if s.Source != "" {
			os = append(os, Source("Source: "+s.Source))
		}
	}
	return os
}
