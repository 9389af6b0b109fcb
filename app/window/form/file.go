package form

import (
	"context"
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver"
	"fyne.io/fyne/v2/storage"

	"haunchbook.example/app/guard"
	"haunchbook.example/app/portal"
	"haunchbook.example/app/window/words"
)

// Pictures are how the names of pictures end.
var Pictures = []string{".png", ".jpg", ".jpeg", ".PNG", ".JPG", ".JPEG"}

// fileSize is how large the dialogs for files are.
var fileSize = fyne.NewSize(760, 520)

// Desktop gives the desktop whose dialogs for files are used where it offers them; with
// nil, those of the toolkit. The program that runs on a desktop sets it as it starts.
var Desktop func() *portal.Portal

// choose asks the desktop for a file or folder and hands over its path, or what went
// wrong; where that has no dialog for it, own shows one of the toolkit.
func choose(w fyne.Window, a portal.Ask, say func(error), take func(path string), own func()) {
	var p *portal.Portal
	if Desktop != nil {
		p = Desktop()
	}
	if p == nil {
		own()
		return
	}
	if n, ok := w.(driver.NativeWindow); ok {
		n.RunNative(func(context any) {
			if x, ok := context.(driver.X11WindowContext); ok {
				a.Parent = portal.Window(x.WindowHandle)
			}
		})
	}
	go func() {
		path, err := guard.Get("the dialog for files", func() (string, error) { return p.Choose(context.Background(), a) })
		_ = p.Close() // it has answered
		fyne.Do(func() {
			switch {
			case errors.Is(err, portal.ErrNone):
				own()
			case err != nil || path == "":
				say(err)
			default:
				take(path)
			}
		})
	}()
}

// OpenFile asks for a file whose name ends in one of these, and hands it over; with
// none, any. It is closed by whom it is given to.
func OpenFile(w fyne.Window, say func(error), ends []string, read func(fyne.URIReadCloser)) {
	got := func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			say(err)
			return
		}
		read(f)
	}
	choose(w, portal.Ask{Title: words.Say("Open a file"), Ends: ends}, say, func(path string) {
		got(storage.Reader(storage.NewFileURI(path)))
	}, func() {
		d := dialog.NewFileOpen(got, w)
		if len(ends) > 0 {
			d.SetFilter(storage.NewExtensionFileFilter(ends))
		}
		d.Resize(fileSize)
		d.Show()
	})
}

// SaveFile asks for a file to write, and hands it over open.
func SaveFile(w fyne.Window, say func(error), name string, write func(fyne.URIWriteCloser)) {
	got := func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			say(err)
			return
		}
		write(f)
	}
	choose(w, portal.Ask{Title: words.Say("Save as a file"), Name: name}, say, func(path string) {
		got(storage.Writer(storage.NewFileURI(path)))
	}, func() {
		d := dialog.NewFileSave(got, w)
		d.SetFileName(name)
		d.Resize(fileSize)
		d.Show()
	})
}

// OpenFolder asks for a folder, beginning in one.
func OpenFolder(w fyne.Window, say func(error), confirm, begin string, take func(path string)) {
	choose(w, portal.Ask{Title: words.Say("Choose a folder"), Accept: confirm, Begin: begin, Folder: true}, say, take, func() {
		d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
			if err != nil || u == nil {
				say(err)
				return
			}
			take(u.Path())
		}, w)
		if u, err := storage.ListerForURI(storage.NewFileURI(begin)); begin != "" && err == nil {
			d.SetLocation(u)
		}
		if confirm != "" {
			d.SetConfirmText(confirm)
		}
		d.Resize(fileSize)
		d.Show()
	})
}

// FileName makes a name that every file system takes.
func FileName(s string) string {
	var b strings.Builder
	last := '-'
	for _, r := range s {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
		case r == ' ' && last != '-':
			r = '-'
		default:
			continue
		}
		b.WriteRune(r)
		if last = r; b.Len() == 60 {
			break
		}
	}
	if b.Len() == 0 {
		return "job"
	}
	return b.String()
}
