package shelf

import (
	"errors"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// What a book holds beside the open job goes there by the same queue. Until it is
// there it is read from here.

// waiting is something on its way to the book.
type waiting struct {
	value  any
	change *storage.Change
}

// ofSettings is under what settings wait; price lists wait under their units, and what
// a job took under its number.
type ofSettings struct{}

// keep has a value stored.
func (s *Shelf) keep(under, value any, do func(*storage.Book) error) error {
	if s.history == nil {
		return errNoBook
	}
	s.waiting[under] = waiting{value, s.history.queue.Keep(do)}
	return nil
}

// waits gives what is on its way.
func waits[T any](s *Shelf, under any) (value T, ok bool) {
	w, ok := s.waiting[under]
	if !ok || w.change.Stored() {
		return value, false
	}
	return w.value.(T), true
}

// waitsBeside tells whether anything beside the job is not yet in the book.
func (s *Shelf) waitsBeside() bool {
	for _, w := range s.waiting {
		if !w.change.Stored() {
			return true
		}
	}
	return false
}

// Do has something done in the book, once all changes before it are there, and tells
// how it went where the window's work is told.
func (s *Shelf) Do(do func(*storage.Book) error, then func(error)) {
	if s.book == nil {
		then(errNoBook)
		return
	}
	if s.history == nil {
		then(do(s.book)) // says that it is only read
		return
	}
	s.history.queue.Do(do, func(err error) { s.work.Result(func() { then(err) }) })
}

// numbered gives the number of the open job, in any goroutine, once the book has it.
func (s *Shelf) numbered() func() storage.ID {
	if s.history != nil {
		return s.history.number
	}
	id := s.id
	return func() storage.ID { return id }
}

// Revise keeps a revision of the open job, and tells its number.
func (s *Shelf) Revise(note string, then func(number int, err error)) {
	number, id := 0, s.numbered()
	s.Do(func(b *storage.Book) (err error) {
		number, err = b.Revise(id(), note)
		return err
	}, func(err error) { then(number, err) })
}

// Bid marks the open job as bid, unless it has come further: it keeps its prices.
func (s *Shelf) Bid(then func(error)) {
	id := s.numbered()
	s.Do(func(b *storage.Book) error {
		sum, err := b.Summary(id())
		if err == nil && sum.State == storage.Draft {
			err = b.SetState(id(), storage.Bid)
		}
		return err
	}, then)
}

// Settings gives the settings of the book; none without one.
func (s *Shelf) Settings() (storage.Settings, error) {
	if set, ok := waits[storage.Settings](s, ofSettings{}); ok {
		return set, nil
	}
	if s.book == nil {
		return storage.Settings{}, nil
	}
	return s.book.Settings()
}

// ChangeSettings changes the settings of the book. While none are stored, new jobs
// start as blank ones do.
func (s *Shelf) ChangeSettings(change func(*storage.Settings)) error {
	set, err := s.Settings()
	if err != nil {
		return err
	}
	if !set.Stored {
		set.Start = StartOf(Blank(s.doc.Units()))
	}
	change(&set)
	set.Stored = true
	if err := set.Check(); err != nil {
		return err
	}
	err = s.keep(ofSettings{}, set, func(b *storage.Book) error { return b.SetSettings(set) })
	if err == nil {
		s.doc.SetFrost(set.Frost)
	}
	return err
}

// SetFrost sets the frost depth of the site, and keeps it where there is a book to
// write to.
func (s *Shelf) SetFrost(depth geometry.Length) error {
	if s.history == nil {
		s.doc.SetFrost(depth)
		return nil
	}
	return s.ChangeSettings(func(set *storage.Settings) { set.Frost = depth })
}

// MakeUsual changes the specification that new jobs start with.
func (s *Shelf) MakeUsual(change func(*takeoff.Spec)) error {
	if s.book == nil {
		return errors.New("there is no job book to keep it in; open one first")
	}
	return s.ChangeSettings(func(set *storage.Settings) {
		j := set.Start.In(s.doc.Units())
		change(&j.Spec)
		set.Start = j.In(set.Start.Units)
	})
}

// Prices gives the list that new jobs in u are priced with.
func (s *Shelf) Prices(u geometry.Units) (estimate.PriceList, error) {
	if list, ok := waits[estimate.PriceList](s, u); ok {
		return list, nil
	}
	return s.book.Prices(u)
}

// SetPrices makes a list the one for new jobs in its units.
func (s *Shelf) SetPrices(list estimate.PriceList) error {
	if err := list.Validate(); err != nil {
		return err
	}
	err := s.keep(list.Units, list, func(b *storage.Book) error { return b.SetPrices(list) })
	s.doc.ForgetPrices()
	return err
}

// KeepPrices makes the open job's list the one for new jobs.
func (s *Shelf) KeepPrices() error { return s.SetPrices(s.doc.Prices()) }

// Record gives what a job of the book took; ok is false where nothing is noted.
func (s *Shelf) Record(id storage.ID) (r actual.Record, ok bool, err error) {
	if r, ok := waits[actual.Record](s, id); ok {
		return r, true, nil
	}
	return s.book.Record(id)
}

// SetRecord notes what a job of the book took.
func (s *Shelf) SetRecord(id storage.ID, r actual.Record) error {
	if err := r.Validate(); err != nil {
		return err
	}
	return s.keep(id, r, func(b *storage.Book) error { return b.SetRecord(id, r) })
}

var errNoBook = errors.New("this window has no job book to keep that in")
