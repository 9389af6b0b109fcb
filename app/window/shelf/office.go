package shelf

import (
	"context"
	"errors"
	"sync/atomic"
	"time"

	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
)

// follower keeps the book one with its office book, beside the window. What comes for the
// open job is stored where the window works, when it is in the middle of nothing.
type follower struct {
	at       atomic.Pointer[office.Following] // nil while none is followed
	quit     chan struct{}                    // closed once it is not followed any more
	password office.Password                  // as it was typed
	status   office.Status
}

// Office tells how the book stands with its office book; false if it has none.
func (s *Shelf) Office() (address string, st office.Status, ok bool) {
	if s.book == nil {
		return "", st, false
	}
	our, ok, err := s.book.Office()
	if err != nil || !ok || our.Left {
		return "", st, false
	}
	return our.Address, s.office.status, true
}

// NumberThere gives the number that a job has in the office book: another only where two
// were made under one.
func (s *Shelf) NumberThere(id storage.ID) storage.ID {
	our, ok, err := s.book.Office()
	if err != nil || !ok || our.Left {
		return id
	}
	if n, err := s.book.NumberThere(id); err == nil && n != 0 {
		return n
	}
	return id
}

// JoinOffice makes an office book the one that the book is a copy of, once it lets one in,
// and follows it. The password is forgotten with the window, unless the system's keyring is
// to keep it.
func (s *Shelf) JoinOffice(address, password string, keep bool, then func(error)) {
	b := s.book
	a, err := office.ParseAddress(address)
	if err != nil || b == nil || b.ReadOnly() {
		if err == nil {
			err = errNoBook
		}
		then(err)
		return
	}
	var notKept error
	s.work.Do("connecting to the office book", func() error {
		ctx, stop := context.WithTimeout(context.Background(), connecting)
		defer stop()
		c, err := office.Connect(ctx, a, office.KeptOr(typed(password)))
		if err != nil {
			return err
		}
		defer c.Close()
		if keep && password != "" {
			notKept = office.KeepPassword(a, password)
		}
		return c.Join(b)
	}, func(err error) {
		if err == nil && s.book == b {
			s.follow(typed(password))
			err = notKept
		}
		then(err)
	})
}

// connecting is how long an office book may take to let one in.
const connecting = 30 * time.Second

// LeaveOffice goes on with the book alone. Everything in it stays.
func (s *Shelf) LeaveOffice() error {
	address, _, ok := s.Office()
	if !ok {
		return nil
	}
	s.unfollow()
	if err := s.book.LeaveOffice(); err != nil {
		return err
	}
	if a, err := office.ParseAddress(address); err == nil {
		office.ForgetPassword(a)
	}
	return nil
}

// follow begins to follow the office book of the book, if it has one.
func (s *Shelf) follow(password office.Password) {
	s.unfollow()
	address, _, ok := s.Office()
	if !ok || s.book.ReadOnly() || s.work.Go == nil {
		return
	}
	a, err := office.ParseAddress(address)
	if err != nil {
		s.office.status.Err = err
		return
	}
	quit := make(chan struct{})
	s.office.quit, s.office.password = quit, password
	f := office.Follow(s.book, a, office.KeptOr(password), office.Options{Apply: s.apply(quit), Open: func(id storage.ID) bool { return id == s.number() }}, func(st office.Status) {
		s.work.Result(func() {
			if s.office.quit != quit {
				return
			}
			s.office.status = st
			if st.Report.Any() {
				s.doc.ForgetPrices()
				set, _ := s.Settings() // who shows the settings says why they do not read
				s.doc.SetFrost(set.Frost)
			}
			if s.Told != nil {
				s.Told(st)
			}
		})
	})
	s.office.at.Store(f)
	f.On(s.ID())
}

// unfollow ends that. It waits for nothing: what works on is told that the window is gone.
func (s *Shelf) unfollow() {
	if f := s.office.at.Swap(nil); f != nil {
		f.Quit()
		close(s.office.quit)
	}
	s.office.quit, s.office.password, s.office.status = nil, nil, office.Status{}
}

// number gives the number of the open job, in any goroutine; 0 until the book has it.
func (s *Shelf) number() storage.ID {
	if h := s.open.Load(); h != nil {
		return h.number()
	}
	return 0
}

// moved tells the office that something of the job may have come into the book; in any
// goroutine.
func (s *Shelf) moved(id storage.ID) {
	if f := s.office.at.Load(); f != nil {
		f.On(id)
		f.Nudge()
	}
}

// apply gives what stores what came: at once, or, for the open job, on the window's
// goroutine.
func (s *Shelf) apply(quit chan struct{}) func([]storage.ID, func() error) error {
	return func(ids []storage.ID, store func() error) error {
		done := make(chan error, 1)
		s.work.Result(func() {
			if s.office.quit != quit {
				done <- office.ErrLater
				return
			}
			for _, id := range ids {
				if id == s.ID() {
					done <- s.receive(store)
					return
				}
			}
			done <- errNotOpen
		})
		select {
		case err := <-done:
			if errors.Is(err, errNotOpen) {
				return store()
			}
			return err
		case <-quit:
			return office.ErrLater
		}
	}
}

// errNotOpen tells that what came is of other jobs than the open one.
var errNotOpen = errors.New("not of the open job")

// receive stores what came for the open job, and shows it. Nothing is taken while the job
// is in the middle of an edit, or one is on its way to the disk.
func (s *Shelf) receive(store func() error) error {
	if s.history == nil || s.doc.Previewing() || s.Busy != nil && s.Busy() {
		return office.ErrLater
	}
	if n, _, err := s.history.queue.Pending(); n > 0 || err != nil {
		return office.ErrLater
	}
	if err := store(); err != nil {
		return err
	}
	id, slab := s.ID(), s.doc.Slab()
	j, err := s.book.Get(id)
	if err != nil {
		return err
	}
	if j.Same(s.doc.Base()) {
		return nil
	}
	h, err := newHistory(s.history.queue, id, j)
	s.history = h
	s.open.Store(h)
	s.doc.Reset(j, h)
	s.doc.Choose(slab)
	return err
}
