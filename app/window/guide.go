package window

import (
	"bytes"
	"image/png"
	"regexp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/form"
	"haunchbook.example/assets"
	"haunchbook.example/assets/guide"
)

// guideOf names the guide's page about a page of the window.
func guideOf(page int) string {
	return []string{
		planPage: "sketch.md", pricePage: "prices.md", optionsPage: "options.md", pourPage: "ground.md", bookPage: "book.md",
	}[page]
}

// showGuide shows the guide, open at one of its pages.
func (w *Window) showGuide(file string) {
	pages := guide.Pages()
	var titles []string
	for _, p := range pages {
		titles = append(titles, p.Title)
	}
	scroll := container.NewVScroll(container.NewVBox())
	show := func(i int) {
		scroll.Content = w.markdown(pages[i].Text, func(file string) { w.closeList(); w.showGuide(file) })
		scroll.Refresh()
		scroll.ScrollToTop()
	}
	list := form.NewSelect(titles, func(title string) { show(slices.Index(titles, title)) })
	at := max(0, slices.IndexFunc(pages, func(p guide.Page) bool { return p.File == file }))
	list.ShowOptions(titles, titles[at])
	show(at)
	w.showOver("The guide", container.New(&roomy{w}, container.NewBorder(list, nil, nil, nil, scroll)), scrolled(scroll), func() {})
}

// showChanges shows what changed by version.
func (w *Window) showChanges() {
	scroll := container.NewVScroll(w.markdown(assets.Changes(), func(string) {}))
	scroll.SetMinSize(fyne.NewSize(min(600, w.room().Width), min(620, w.room().Height)))
	w.showOver("What changed", scroll, scrolled(scroll), func() {})
}

var pictureLine = regexp.MustCompile(`^!\[(.*)\]\((.*)\)$`)

// markdown shows a text in Markdown with its pictures and tables, block by block. Links
// between its pages go by follow.
func (w *Window) markdown(text string, follow func(file string)) *fyne.Container {
	box := container.NewVBox()
	for _, block := range strings.Split(strings.TrimSpace(text), "\n\n") {
		picture := pictureLine.FindStringSubmatch(block)
		switch {
		case picture != nil:
			box.Add(w.guidePicture(picture[2]))
			box.Add(form.Caption(picture[1]))
		case strings.HasPrefix(block, "|"):
			for _, row := range strings.Split(block, "\n")[2:] { // after its head and the line under it
				name, about, _ := strings.Cut(strings.Trim(row, "| "), "|")
				key := widget.NewLabelWithStyle(plain(name), fyne.TextAlignLeading, fyne.TextStyle{Monospace: true})
				key.Wrapping = fyne.TextWrapWord
				box.Add(form.Tight(key, form.Wrapped(plain(about))))
			}
		default:
			r := widget.NewRichTextFromMarkdown(block)
			r.Wrapping = fyne.TextWrapWord
			linked(r.Segments, follow)
			box.Add(r)
		}
	}
	return box
}

// plain is a text without the marks of code.
func plain(s string) string { return strings.TrimSpace(strings.ReplaceAll(s, "`", "")) }

// linked has links to other pages of the guide followed in the window.
func linked(segments []widget.RichTextSegment, follow func(file string)) {
	for _, s := range segments {
		switch s := s.(type) {
		case *widget.HyperlinkSegment:
			file := s.URL.String()
			s.OnTapped = func() { follow(file) }
		case *widget.ListSegment:
			linked(s.Items, follow)
		case *widget.ParagraphSegment:
			linked(s.Texts, follow)
		}
	}
}

// guidePicture shows a picture of the guide as large as the window lets it.
func (w *Window) guidePicture(path string) fyne.CanvasObject {
	data := guide.Picture(path)
	p := canvas.NewImageFromResource(fyne.NewStaticResource(path, data))
	p.FillMode = canvas.ImageFillContain
	if size, err := png.DecodeConfig(bytes.NewReader(data)); err == nil {
		wide := min(float32(size.Width), w.room().Width-40, 760)
		p.SetMinSize(fyne.NewSize(wide, wide*float32(size.Height)/float32(size.Width)))
	}
	return p
}
