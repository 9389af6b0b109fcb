package printing

import (
	"context"
	"fmt"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"haunchbook.example/app/window/document"
	"haunchbook.example/app/window/form"
	"haunchbook.example/app/window/shelf"
	"haunchbook.example/export/sheet"
)

// preview shows the pages that are ticked as they will be printed, one at a time. They
// are the pages of the files, and no others.
type preview struct {
	p             *Page
	ctx           context.Context
	stop          context.CancelFunc
	work          document.Latest
	pages         []sheet.Page
	at            int
	large         bool
	picture       *canvas.Image
	scroll        *container.Scroll
	said          *widget.Label
	before, after *form.Button
	size          *form.Button
}

func newPreview(p *Page) *preview {
	v := &preview{p: p, work: document.Latest{Scheduler: *p.work}, picture: canvas.NewImageFromImage(nil), said: form.Bold("making the pages")}
	v.ctx, v.stop = context.WithCancel(context.Background())
	v.picture.FillMode = canvas.ImageFillContain
	v.scroll = container.NewScroll(v.picture)
	v.before = form.NewButton("", theme.NavigateBackIcon(), func() { v.show(v.at - 1) })
	v.after = form.NewButton("", theme.NavigateNextIcon(), func() { v.show(v.at + 1) })
	v.size = form.Do("Larger", func() {
		v.large = !v.large
		v.size.SetText(map[bool]string{true: "Whole page", false: "Larger"}[v.large])
		v.show(v.at)
	})
	return v
}

// open shows the preview and has the pages made.
func (v *preview) open() {
	bar := container.NewHBox(v.before, v.after, v.said, v.size)
	v.p.frame.ShowOver("Preview", container.NewBorder(bar, nil, nil, nil, v.scroll), v.key, v.stop)
	from, err := v.p.source()
	if err != nil {
		v.fail(err)
		return
	}
	v.work.Run("making the pages", func(context.Context) error {
		for _, o := range outputs {
			if !v.p.ticked[o.name] || o.pages == nil {
				continue
			}
			pages, err := o.pages(v.ctx, from)
			if err != nil {
				return fmt.Errorf("%s: %w", o.about, err)
			}
			v.pages = append(v.pages, pages...)
		}
		return nil
	}, func(err error) {
		switch {
		case v.ctx.Err() != nil: // closed
		case err != nil:
			v.fail(err)
		case len(v.pages) == 0:
			form.Set(v.said, "Nothing that is made of pages is ticked")
		default:
			v.show(0)
		}
	})
}

func (v *preview) fail(err error) { form.Set(v.said, "! "+shelf.Sentence(err)) }

// key turns the pages.
func (v *preview) key(k *fyne.KeyEvent) bool {
	switch k.Name {
	case fyne.KeyRight, fyne.KeyPageDown:
		v.show(v.at + 1)
	case fyne.KeyLeft, fyne.KeyPageUp:
		v.show(v.at - 1)
	case fyne.KeyHome:
		v.show(0)
	case fyne.KeyEnd:
		v.show(len(v.pages) - 1)
	default:
		return false
	}
	return true
}

// show draws a page as large as there is room, or to the width of it.
func (v *preview) show(i int) {
	if i < 0 || i >= len(v.pages) {
		return
	}
	v.at = i
	p, room := v.pages[i], v.scroll.Size()
	form.Able(v.before, i > 0)
	form.Able(v.after, i < len(v.pages)-1)
	form.Set(v.said, fmt.Sprintf("%s, page %d of %d, %.0f × %.0f mm", p.Name, i+1, len(v.pages), p.Width, p.Height))
	tall := float32(p.Height / p.Width)
	wide := min(room.Width, room.Height/tall)
	if v.large {
		wide = 2 * room.Width
	}
	scale := float32(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v.scroll); c != nil {
		scale = c.Scale()
	}
	var img image.Image
	v.work.Run("drawing the page", func(context.Context) error {
		img = p.Picture(int(wide * scale))
		return nil
	}, func(err error) {
		if err != nil {
			v.fail(err)
			return
		}
		v.picture.Image = img
		least := fyne.NewSize(0, 0)
		if v.large {
			least = fyne.NewSize(wide, wide*tall)
		}
		v.picture.SetMinSize(least)
		v.picture.Refresh()
		v.scroll.Refresh()
	})
}
