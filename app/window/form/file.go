package form

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
)

// Pictures are how the names of pictures end.
var Pictures = []string{".png", ".jpg", ".jpeg", ".PNG", ".JPG", ".JPEG"}

// fileSize is how large the dialogs for files are.
var fileSize = fyne.NewSize(760, 520)

// OpenFile asks for a file whose name ends in one of these, and hands it over; with
// none, any. It is closed by whom it is given to.
func OpenFile(w fyne.Window, say func(error), ends []string, read func(fyne.URIReadCloser)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			say(err)
			return
		}
		read(f)
	}, w)
	if len(ends) > 0 {
		d.SetFilter(storage.NewExtensionFileFilter(ends))
	}
	d.Resize(fileSize)
	d.Show()
}

// SaveFile asks for a file to write, and hands it over open.
func SaveFile(w fyne.Window, say func(error), name string, write func(fyne.URIWriteCloser)) {
	d := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			say(err)
			return
		}
		write(f)
	}, w)
	d.SetFileName(name)
	d.Resize(fileSize)
	d.Show()
}

// OpenFolder asks for a folder, beginning in one.
func OpenFolder(w fyne.Window, say func(error), confirm, begin string, take func(path string)) {
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
