package office

import (
	"context"
	"errors"
	"slices"

	"haunchbook.example/app/guard"
	"haunchbook.example/storage"
)

// Report is what bringing two books together came to.
type Report struct {
	Down, Up  int // edits of others that came, and own ones that went
	Revisions int // of others
	Merged    int // jobs in which both were brought together
	Conflicts []Conflict
	Lists     int      // price lists that came
	Settings  bool     // settings came
	Erased    int      // jobs that an owner deleted for good, and that went from here too
	Notes     []string // what else there is to know, a sentence each
	Jobs      []storage.ID
}

// Any tells whether anything came.
func (r Report) Any() bool { return r.Down+r.Revisions+r.Lists+r.Erased > 0 || r.Settings }

// Options say how books are brought together.
type Options struct {
	// Apply is called for what is to be stored of jobs; nil stores it at once. A window
	// has what concerns its open job stored where nothing else goes on, or gives an error
	// that is errLater: then it is tried again the next time.
	Apply func(jobs []storage.ID, store func() error) error
	// Open tells whether a job is open, so that it is not deleted; nil for none.
	Open func(storage.ID) bool
	// Told hears how far it is: edits that came and went so far; nil for nobody.
	Told func(down, up int)
}

// ErrLater is given by Options.Apply where a job is in the middle of something.
var ErrLater = errors.New("the job is in the middle of something")

// Join makes the office book the one that the book is a copy of.
func (c *Conn) Join(b *storage.Book) error {
	_, err := b.Join(c.address.String(), c.Epoch, c.Part.Prices)
	return err
}

// Sync brings a book and its office book together: what others did comes down, what was
// done here goes up, until both have all of it. What is acknowledged stays so whenever it
// is cut short: it goes on where it stopped.
func (c *Conn) Sync(ctx context.Context, b *storage.Book, o Options) (Report, error) {
	s := &syncing{Conn: c, book: b, o: o}
	if s.o.Apply == nil {
		s.o.Apply = func(_ []storage.ID, store func() error) error { return store() }
	}
	err := guard.Try("bringing the books together", func() error { return s.run(ctx) })
	return s.Report, explain(err)
}

// syncing is one run of it.
type syncing struct {
	*Conn
	Report
	book  *storage.Book
	o     Options
	our   storage.Office
	later bool
}

// rounds bounds how often others may come first.
const rounds = 100

func (s *syncing) run(ctx context.Context) error {
	if err := s.Join(s.book); err != nil {
		return err
	}
	var err error
	if s.our, _, err = s.book.Office(); err != nil {
		return err
	}
	if told := s.ClockTold(); told != "" {
		s.Notes = append(s.Notes, told)
	}
	if err := s.erasures(ctx); err != nil {
		return err
	}
	joins := !s.our.Settled
	for range rounds {
		if err := s.down(ctx); err != nil {
			return err
		}
		again, err := s.up(ctx)
		if err != nil {
			return err
		}
		if again {
			continue
		}
		if joins || s.Any() || s.Up > 0 {
			if err := s.twice(ctx); err != nil {
				return err
			}
		}
		return s.holdInvoices(ctx)
	}
	return &storage.Fault{Kind: storage.Offline, Text: "others edit the same without pause", Way: safe}
}

// down takes what others did.
func (s *syncing) down(ctx context.Context) error {
	for {
		list, upTo, done, err := s.fetch(ctx, s.our.Cursor)
		if err != nil {
			return err
		}
		if upTo < s.our.Cursor {
			if err := s.again(); err != nil {
				return err
			}
			continue
		}
		if err := s.take(ctx, list); err != nil {
			return err
		}
		if s.later {
			return ErrLater
		}
		if upTo > s.our.Cursor {
			if err := s.book.SetCursor(upTo); err != nil {
				return err
			}
			s.our.Cursor = upTo
		}
		s.tell()
		if done {
			return nil
		}
	}
}

// again has everything compared anew.
func (s *syncing) again() (err error) {
	s.Notes = append(s.Notes, "the office book was put back to an earlier state; what was done since is in everyone's own book, and goes there again")
	if err := s.book.BeginAgain(); err != nil {
		return err
	}
	s.our, _, err = s.book.Office()
	return err
}

func (s *syncing) tell() {
	if s.o.Told != nil {
		s.o.Told(s.Down, s.Up)
	}
}

// take stores a batch of changes, as long as it stays true what was looked at.
func (s *syncing) take(ctx context.Context, list []change) error {
	var order []string
	jobs := map[string][]change{}
	for _, ch := range list {
		name := ""
		switch {
		case ch.edit != nil:
			name = ch.edit.job
		case ch.rev != nil:
			name = ch.rev.job
		case ch.list != nil:
			if err := s.takeList(*ch.list); err != nil {
				return err
			}
			continue
		default:
			if err := s.takeSettings(ctx, *ch.set); err != nil {
				return err
			}
			continue
		}
		if jobs[name] == nil {
			order = append(order, name)
		}
		jobs[name] = append(jobs[name], ch)
	}
	for len(order) > 0 {
		if err := ctx.Err(); err != nil {
			return err
		}
		var left []string
		for part := range slices.Chunk(order, 100) {
			moved, err := s.takeJobs(ctx, part, jobs)
			if err != nil {
				return err
			}
			left = append(left, moved...)
		}
		order = left
	}
	return nil
}

// takeJobs stores what arrived of some jobs, and gives those that were changed meanwhile.
func (s *syncing) takeJobs(ctx context.Context, names []string, jobs map[string][]change) (moved []string, err error) {
	var list []taken
	var of []string
	var ids []storage.ID
	comes, err := s.comeOf(names, jobs)
	if err != nil {
		return nil, err
	}
	for i, t := range comes {
		s.Notes = append(s.Notes, t.notes...)
		if t.none {
			continue
		}
		if t.Pictures, err = s.pictures(ctx, t.ID, t); err != nil {
			return nil, err
		}
		list, of = append(list, t), append(of, names[i])
		if t.ID != 0 {
			ids = append(ids, t.ID)
		}
	}
	if len(list) == 0 {
		return nil, nil
	}
	receipts := make([]storage.Receipt, len(list))
	for i, t := range list {
		receipts[i] = t.Receipt
	}
	var got []storage.ID
	err = s.o.Apply(ids, func() (err error) {
		got, err = s.book.Receive(receipts)
		return err
	})
	if errors.Is(err, ErrLater) {
		if len(names) == 1 {
			s.later = true
			return nil, nil
		}
		for _, name := range names { // one by one, so that one job holds up no other
			more, err := s.takeJobs(ctx, []string{name}, jobs)
			if err != nil {
				return nil, err
			}
			moved = append(moved, more...)
		}
		return moved, nil
	}
	if err != nil {
		return nil, err
	}
	for i, t := range list {
		if got[i] == 0 {
			moved = append(moved, of[i])
			continue
		}
		s.Down += t.edits
		s.Revisions += len(t.Revisions)
		if t.merged {
			s.Merged++
		}
		if t.conflict != nil {
			t.conflict.Job = got[i]
			s.Conflicts = append(s.Conflicts, *t.conflict)
		}
		if told := otherNumber(got[i], t.Shared.Number); told != "" && t.ID == 0 {
			s.Notes = append(s.Notes, told)
		}
		if t.edits > 0 {
			s.Jobs = append(s.Jobs, got[i])
		}
	}
	return moved, nil
}

// comeOf works out what comes of jobs, several at once: that is what takes the time where
// much arrived.
func (s *syncing) comeOf(names []string, jobs map[string][]change) ([]taken, error) {
	out, errs, works := make([]taken, len(names)), make([]error, len(names)), make([]func(), len(names))
	for i, name := range names {
		works[i] = func() { out[i], errs[i] = s.comesOf(name, jobs[name]) }
	}
	guard.Each(works...)
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// comesOf works out what comes of one job. It changes nothing, and asks the book alone.
func (s *syncing) comesOf(name string, list []change) (taken, error) {
	none := taken{none: true}
	id, known, err := s.book.SharedJob(name)
	if err != nil || known && id == 0 { // it was deleted here
		return none, err
	}
	in := arrived{name: name, lastJob: s.lastJob}
	st := storage.Standing{Shared: storage.Shared{Job: name, Epoch: s.our.Since()}}
	if known {
		if st, err = s.book.Standing(id, s.our.Since(), s.Part.Prices); err != nil {
			if storage.IsKind(err, storage.Missing) { // deleted this moment
				err = nil
			}
			return none, err
		}
	}
	st.Shared.Job, st.Shared.Epoch = name, s.our.Since()
	was := st.Shared.Base
	if !s.Part.Prices { // what is typed here of money stays here
		was = st.Now
	}
	so, err := courseOf(was)
	if err != nil {
		return none, err
	}
	for _, ch := range list {
		var fault error
		switch {
		case ch.edit != nil:
			in.made, in.number = ch.edit.made, ch.edit.number
			in.upTo = max(in.upTo, ch.edit.version)
			if ch.edit.version <= st.Shared.Version {
				continue
			}
			var e edit
			if e, fault = ch.edit.put(&so); fault == nil {
				in.edits = append(in.edits, e)
			}
		case ch.rev != nil:
			var r rev
			if r, fault = ch.rev.put(); fault == nil {
				in.revisions = append(in.revisions, r)
			}
		}
		if storage.IsKind(fault, storage.Newer) {
			return none, fault
		}
		if fault != nil {
			none.notes = append(none.notes, Sentence(fault))
		}
	}
	if !known && len(in.edits) == 0 {
		return none, nil
	}
	t, err := take(st, s.our.Device, s.Part, in)
	t.notes, t.none = none.notes, t.nothing(st.Shared)
	return t, err
}

// pictures gets those that the states refer to and that are not here.
func (s *syncing) pictures(ctx context.Context, id storage.ID, t taken) (files [][]byte, err error) {
	var all []string
	for _, st := range slices.Concat(t.Edits, t.Revisions, t.Own, []storage.Step{{Data: t.Now.Data}}) {
		for _, hash := range storage.PictureHashes(st.Data) {
			if !slices.Contains(all, hash) {
				all = append(all, hash)
			}
		}
	}
	for _, hash := range all {
		if id != 0 {
			if _, ok, err := s.book.PictureOf(id, hash); err != nil || ok {
				if err != nil {
					return nil, err
				}
				continue
			}
		}
		file, err := s.picture(ctx, hash)
		if isNoRows(err) {
			s.Notes = append(s.Notes, "a picture is not in the office book: the job comes without it")
			continue
		}
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	return files, nil
}
