package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage/repository"

	"haunchbook.example/storage/wholefile"
)

// wholeFiles are the toolkit's files, except that one chosen in a dialog is left as
// it is until what is written to it is whole: the toolkit empties it at once.
type wholeFiles struct{ fileRepository }

// fileRepository is all that the toolkit's dialogs ask of files.
type fileRepository interface {
	repository.WritableRepository
	repository.DeleteAllRepository
	repository.AppendableRepository
	repository.HierarchicalRepository
	repository.ListableRepository
	repository.MovableRepository
	repository.CopyableRepository
}

// SaveWhole has the toolkit's dialogs save whole files.
func SaveWhole() {
	files, err := repository.ForScheme("file")
	if all, ok := files.(fileRepository); err == nil && ok {
		if _, done := files.(wholeFiles); !done {
			repository.Register("file", wholeFiles{all})
		}
	}
}

// Writer implements repository.WritableRepository.
func (wholeFiles) Writer(u fyne.URI) (fyne.URIWriteCloser, error) { return &chosenFile{uri: u}, nil }

// chosenFile is written when it is closed, and left alone if nothing was written to
// it.
type chosenFile struct {
	uri     fyne.URI
	data    []byte
	written bool
}

// URI implements fyne.URIWriteCloser.
func (f *chosenFile) URI() fyne.URI { return f.uri }

// Write implements io.Writer.
func (f *chosenFile) Write(b []byte) (int, error) {
	f.data, f.written = append(f.data, b...), true
	return len(b), nil
}

// Close implements io.Closer.
func (f *chosenFile) Close() error {
	if !f.written {
		return nil
	}
	return wholefile.Write(f.uri.Path(), wholefile.Bytes(f.data))
}
