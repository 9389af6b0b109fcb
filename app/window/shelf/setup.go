package shelf

import (
	"context"
	"errors"
	"path/filepath"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

// PrepareOffice looks at a database and finds what making an office book there comes to,
// for who asks to say it first; nothing is changed yet. The setup is closed by who gets it.
func (s *Shelf) PrepareOffice(address, password string, then func(*office.Setup, error)) {
	a, err := office.ParseAddress(address)
	if err != nil || s.book == nil {
		if err == nil {
			err = errNoBook
		}
		then(nil, err)
		return
	}
	dir := filepath.Dir(s.book.Path())
	var setup *office.Setup
	s.work.Do("looking at the database", func() (err error) {
		ctx, stop := context.WithTimeout(context.Background(), connecting)
		defer stop()
		setup, err = office.Prepare(ctx, a, office.KeptOr(typed(password)), dir)
		return err
	}, func(err error) { then(setup, err) })
}

// SetUpOffice does what a setup says, or removes the office book, and closes it. It gives
// how people get a part in a new one.
func (s *Shelf) SetUpOffice(setup *office.Setup, remove bool, then func(told []string, err error)) {
	var told []string
	s.work.Do("setting up the office book", func() (err error) {
		defer func() { err = errors.Join(err, setup.Close()) }()
		if remove {
			return setup.Drop(context.Background())
		}
		told, err = setup.Do(context.Background())
		return err
	}, func(err error) { then(told, err) })
}

// ErasingForAll gives what deletes a job for good in the office book, which only its owner
// may, for any goroutine.
func (s *Shelf) ErasingForAll(id storage.ID) func(context.Context) error {
	address, _, ok := s.Office()
	b, password := s.book, s.office.password
	return func(ctx context.Context) error {
		if !ok {
			return errNoBook
		}
		a, err := office.ParseAddress(address)
		if err != nil {
			return err
		}
		c, err := office.Connect(ctx, a, office.KeptOr(password))
		if err != nil {
			return err
		}
		return errors.Join(c.Erase(ctx, b, id), c.Close())
	}
}

// typed gives a password that was typed.
func typed(password string) office.Password {
	return func(office.Address, bool) (string, error) {
		if password == "" {
			return "", &storage.Fault{Kind: storage.Forbidden, Text: "the office book asks for a password", Way: "type it"}
		}
		return password, nil
	}
}
