package office

import (
	"context"
	"errors"
	"sync"
	"time"

	"haunchbook.example/storage"
)

// How often things happen where nothing tells that they should.
const (
	pollHeard = 30 * time.Second // where the office book says when something changed
	pollDeaf  = 3 * time.Second  // where it does not
	beat      = 20 * time.Second // between two signs of being on a job
	gone      = 60 * time.Second // without one
	retryMost = 30 * time.Second // between two tries to connect
)

// Status is how a book stands with its office book.
type Status struct {
	Part    Part
	User    string
	Online  bool
	Waiting int      // edits that are not there yet
	Others  []string // who else is on the open job
	Err     error    // why not online, or what was refused
	Report  Report   // what came of the last run; empty between
	Heard   bool     // changes are told at once; else they are looked for
}

// Following keeps a book and its office book one, in goroutines of its own, until it is
// stopped.
type Following struct {
	book     *storage.Book
	address  Address
	password Password
	o        Options
	told     func(Status)

	stop  context.CancelFunc
	done  chan struct{}
	nudge chan struct{}

	mu     sync.Mutex
	job    storage.ID
	status Status
}

// Follow begins. told hears of every change of the status, in any goroutine.
func Follow(b *storage.Book, a Address, password Password, o Options, told func(Status)) *Following {
	ctx, stop := context.WithCancel(context.Background())
	f := &Following{book: b, address: a, password: password, o: o, told: told, stop: stop, done: make(chan struct{}), nudge: make(chan struct{}, 1)}
	go f.run(ctx)
	return f
}

// Stop ends it, and waits until nothing of it works any more.
func (f *Following) Stop() {
	f.stop()
	<-f.done
}

// Quit ends it without waiting.
func (f *Following) Quit() { f.stop() }

// Nudge says that something changed here.
func (f *Following) Nudge() {
	select {
	case f.nudge <- struct{}{}:
	default:
	}
}

// On says which job is open; 0 for none.
func (f *Following) On(id storage.ID) {
	f.mu.Lock()
	news := f.job != id
	f.job = id
	f.mu.Unlock()
	if news {
		f.Nudge()
	}
}

func (f *Following) open() storage.ID {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.job
}

func (f *Following) tell(change func(*Status)) {
	f.mu.Lock()
	f.status.Report = Report{}
	change(&f.status)
	s := f.status
	f.mu.Unlock()
	f.told(s)
}

func (f *Following) run(ctx context.Context) {
	defer close(f.done)
	wait := time.Second
	for ctx.Err() == nil {
		begun := time.Now()
		err := f.session(ctx)
		if ctx.Err() != nil {
			return
		}
		waiting, _ := Waiting(f.book)
		f.tell(func(s *Status) { s.Online, s.Err, s.Waiting, s.Others = false, err, waiting, nil })
		if !storage.IsKind(err, storage.Offline) { // trying again helps nothing until something is done about it
			wait = retryMost
		} else if time.Since(begun) > retryMost {
			wait = time.Second
		}
		select {
		case <-ctx.Done():
		case <-time.After(wait):
		}
		wait = min(2*wait, retryMost)
	}
}

// session is one connection, until it breaks.
func (f *Following) session(ctx context.Context) error {
	ctx, stop := context.WithCancel(ctx)
	c, err := Connect(ctx, f.address, f.password)
	if err != nil {
		stop()
		return err
	}
	var all sync.WaitGroup
	defer func() {
		stop()
		all.Wait()
		_ = c.Close()
		bye(f.address, c.password, f.book)
	}()
	heard := make(chan struct{}, 1)
	listening := f.listen(ctx, c.password, heard, &all)
	poll := pollDeaf
	if listening {
		poll = pollHeard
	}
	f.tell(func(s *Status) { s.Part, s.User, s.Heard = c.Part, c.User, listening })
	for {
		report, err := c.Sync(ctx, f.book, f.o)
		later := errors.Is(err, ErrLater)
		if err != nil && !later {
			return err
		}
		others, err := f.present(ctx, c)
		if err != nil {
			return err
		}
		waiting, err := Waiting(f.book)
		if err != nil {
			return err
		}
		f.tell(func(s *Status) {
			s.Online, s.Err, s.Report, s.Others, s.Waiting = true, nil, report, others, waiting
		})
		next := min(poll, beat)
		if later || waiting > 0 {
			next = time.Second
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-heard:
		case <-f.nudge:
		case <-time.After(next):
		}
	}
}

// listen hears of changes on a connection of its own; false where the server allows none.
func (f *Following) listen(ctx context.Context, password string, heard chan<- struct{}, all *sync.WaitGroup) bool {
	ear := &Conn{address: f.address, password: password}
	err := ear.dial(ctx)
	if err == nil {
		_, err = ear.pg.Exec(ctx, `LISTEN haunchbook`)
	}
	if err != nil {
		_ = ear.Close()
		return false
	}
	all.Go(func() {
		defer func() { _ = ear.Close() }()
		for {
			_, err := ear.pg.WaitForNotification(ctx)
			select {
			case heard <- struct{}{}:
			default:
			}
			if err != nil {
				return // the other connection finds at once what it was, or polls from then on
			}
		}
	})
	return true
}

// present says on which job one is, and gives who else is on it.
func (f *Following) present(ctx context.Context, c *Conn) ([]string, error) {
	our, _, err := f.book.Office()
	if err != nil {
		return nil, err
	}
	name := ""
	if id := f.open(); id != 0 {
		st, err := f.book.Standing(id, our.Since(), our.Prices)
		if err == nil {
			name = st.Shared.Job
		} else if !storage.IsKind(err, storage.Missing) {
			return nil, err
		}
	}
	return c.Present(ctx, our.Device, name)
}

// Present says that a book is on a job, by its name in the office book, and gives who else
// is on it; "" for on none.
func (c *Conn) Present(ctx context.Context, device, job string) ([]string, error) {
	if job == "" {
		_, err := c.pg.Exec(ctx, `DELETE FROM haunchbook.presence WHERE device = $1 AND who = session_user`, device)
		return nil, explain(err)
	}
	// Who is there already is not put in again: that would tell everyone, oneself too, as of
	// somebody who comes.
	done, err := c.pg.Exec(ctx, `UPDATE haunchbook.presence SET job = $2 WHERE device = $1 AND who = session_user`, device, job)
	if err == nil && done.RowsAffected() == 0 {
		_, err = c.pg.Exec(ctx, `INSERT INTO haunchbook.presence (device, job) VALUES ($1, $2) ON CONFLICT (device, who) DO UPDATE SET job = excluded.job`, device, job)
	}
	if err != nil {
		return nil, explain(err)
	}
	rows, err := c.pg.Query(ctx, `SELECT DISTINCT who FROM haunchbook.presence WHERE job = $1 AND device <> $2 AND seen > clock_timestamp() - make_interval(secs => $3) ORDER BY who`, job, device, gone.Seconds())
	if err != nil {
		return nil, explain(err)
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var who string
		if err := rows.Scan(&who); err != nil {
			return nil, explain(err)
		}
		out = append(out, who)
	}
	return out, explain(rows.Err())
}

// bye says that a book is on no job any more, if that can be said.
func bye(a Address, password string, b *storage.Book) {
	our, ok, err := b.Office()
	if err != nil || !ok {
		return
	}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Second)
	defer stop()
	c := &Conn{address: a, password: password}
	if c.dial(ctx) == nil {
		_, _ = c.Present(ctx, our.Device, "")
		_ = c.Close()
	}
}
