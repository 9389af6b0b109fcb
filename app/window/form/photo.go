package form

import (
	"image"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"haunchbook.example/app/picture"
)

// shownSide is the longer side of pictures as forms show them, in points.
const shownSide picture.Side = 560

// photos are those that were shown last, so that a form that is made anew need not
// unpack them again.
var photos struct {
	sync.Mutex
	kept []seenPhoto
}

type seenPhoto struct {
	text string
	img  image.Image // nil where it cannot be read
}

// mostPhotos is how many are kept: all those of a job.
const mostPhotos = 24

func seen(text string) image.Image {
	all := &photos
	all.Lock()
	defer all.Unlock()
	if i := slices.IndexFunc(all.kept, func(s seenPhoto) bool { return s.text == text }); i >= 0 {
		return all.kept[i].img
	}
	s := seenPhoto{text: text}
	if img, err := picture.Decode(text, shownSide); err == nil {
		s.img = img
	}
	if len(all.kept) == mostPhotos {
		all.kept = slices.Delete(all.kept, 0, 1)
	}
	all.kept = append(all.kept, s)
	return s.img
}

// NewPhoto shows a picture of a job file, such as a photograph, as large as fits, and gives
// what brings it up to date.
func NewPhoto(w, h float32, text func() string) (o fyne.CanvasObject, update func()) {
	box, last := container.NewStack(), ""
	show := func() {
		now := text()
		if now == last {
			return
		}
		last = now
		img := seen(now)
		if img == nil {
			Refill(box, Caption("The picture cannot be shown: the file is damaged"))
			return
		}
		c := canvas.NewImageFromImage(img)
		c.FillMode = canvas.ImageFillContain
		c.SetMinSize(fyne.NewSize(w, h))
		Refill(box, c)
	}
	show()
	return box, show
}
