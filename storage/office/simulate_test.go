package office_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// tries is how often something is tried; HAUNCHBOOK_TRIES sets another number.
func tries(t *testing.T, usual int) int {
	t.Helper()
	n := usual
	if set, err := strconv.Atoi(os.Getenv("HAUNCHBOOK_TRIES")); err == nil {
		n = set
	} else if testing.Short() {
		n = max(1, usual/4)
	}
	return n
}

// The model is plain: what everybody wrote, by job and field. Each has a field of his own
// in every job, which must be as he left it last; and there is one that all write in the
// jobs of fights. What anybody wrote there last before he met others' must be in the office
// book at the end, as an edit or a revision, and all that he wrote in his own history.
type model struct {
	own     map[string]string // "job/field": its value
	fights  []string          // what was written where all write
	notes   []string          // of revisions
	wages   []int64           // of price lists
	fighted map[string]bool   // the jobs
}

// who takes part, and writes which field.
var who = []string{"ed", "eve", "frank", "olga"}

// one is somebody of the simulation.
type one struct {
	*person
	line   *line
	seesIt bool // prices
}

// sim is one course of events.
type sim struct {
	t      *testing.T
	random *rand.Rand
	server *trial.Server
	db     string
	people []*one
	model  model
	next   int
	old    []office.Resent
	log    []string
	trials map[string]int
}

func (s *sim) token(of string) string {
	s.next++
	return fmt.Sprintf("%s-%d.", of, s.next)
}

func (s *sim) note(format string, args ...any) { s.log = append(s.log, fmt.Sprintf(format, args...)) }

func newSim(t *testing.T, server *trial.Server, seed uint64) *sim {
	s := &sim{t: t, random: rand.New(rand.NewPCG(seed, 21)), server: server, db: server.NewBook(t), trials: map[string]int{}}
	s.model.own, s.model.fighted = map[string]string{}, map[string]bool{}
	for _, name := range who {
		b, err := storage.Open(filepath.Join(t.TempDir(), name+".book"), storage.Options{NoBackup: true})
		if err != nil {
			t.Fatal(err)
		}
		s.people = append(s.people, &one{person: &person{t: t, name: name, book: b}, line: newLine(t, server), seesIt: name != "frank"})
	}
	t.Cleanup(func() {
		for _, p := range s.people {
			p.hangUp()
			_ = p.book.Close()
		}
	})
	return s
}

func (p *one) hangUp() {
	if p.conn != nil {
		_ = p.conn.Close()
		p.conn = nil
	}
}

// sync brings somebody's books together, as far as the line allows.
func (s *sim) sync(p *one) error {
	ctx := context.Background()
	if p.conn == nil {
		c, err := office.Connect(ctx, p.line.address(s.t, p.name, s.db), nil)
		if err != nil {
			return err
		}
		p.conn = c
	}
	r, err := p.conn.Sync(ctx, p.book, office.Options{})
	if err != nil {
		p.hangUp()
	}
	for _, c := range r.Conflicts {
		s.trials["conflicts"]++
		s.note("%s: %v", p.name, c)
	}
	s.trials["merged"] += r.Merged
	return err
}

// jobs gives the jobs of somebody by the token that names each.
func (s *sim) pick(p *one) (storage.ID, job.Job, bool) {
	list := must(p.book.List())(s.t)
	if len(list) == 0 {
		return 0, job.Job{}, false
	}
	storage.Sort(list, storage.ByNumber)
	id := list[s.random.IntN(len(list))].ID
	return id, must(p.book.Get(id))(s.t).Clone(), true
}

// step has somebody do something.
func (s *sim) step() {
	p := s.people[s.random.IntN(len(s.people))]
	id, j, any := s.pick(p)
	switch n := s.random.IntN(100); {
	case !any || n < 4:
		s.create(p)
	case n < 40:
		s.edit(p, id, j)
	case n < 44:
		note := s.token("note")
		if _, err := p.book.Revise(id, note); err != nil {
			s.t.Fatal(err)
		}
		s.model.notes = append(s.model.notes, note)
	case n < 50:
		s.record(p, id, j)
	case n < 53 && p.name != "frank":
		s.next++
		l := estimate.Starting(geometry.FeetInches)
		l.Wage = decimal.NewFromInt(int64(s.next))
		if err := p.book.SetPrices(l); err != nil {
			s.t.Fatal(err)
		}
		s.model.wages = append(s.model.wages, int64(s.next))
	case n < 56:
		s.reopen(p)
	case n < 58 && s.trials["server killed"] < 2:
		s.trials["server killed"]++
		s.server.Kill()
		if err := s.server.Start(); err != nil {
			s.t.Fatal(err)
		}
	case n < 68:
		s.resend(p)
	case n < 84:
		s.trials["cut"]++
		if s.random.IntN(2) == 0 {
			p.line.after(s.random.IntN(9000), -1)
		} else {
			p.line.after(-1, s.random.IntN(9000))
		}
		err := s.sync(p)
		if err != nil && !storage.IsKind(err, storage.Offline) {
			s.t.Fatalf("%s: a line that is cut is told as %v", p.name, err)
		}
		if err != nil {
			s.trials["cut while syncing"]++
		}
		p.line.mend()
	default:
		// A server that was killed has taken the line with it: the next try finds it.
		if err := s.sync(p); err != nil && !storage.IsKind(err, storage.Offline) {
			s.t.Fatalf("%s: %v", p.name, err)
		}
	}
}

func (s *sim) create(p *one) {
	j := shop()
	j.Name = s.token("job")
	if !p.seesIt {
		j = open(j)
	}
	if s.random.IntN(3) == 0 {
		s.model.fighted[j.Name] = true
	}
	p.create(j)
}

// edit has somebody write his field, or the one that all write.
func (s *sim) edit(p *one, id storage.ID, j job.Job) {
	text := s.token(p.name)
	if s.model.fighted[j.Name] {
		j.Notes = text
		s.model.fights = append(s.model.fights, text)
	} else {
		s.model.own[j.Name+"/"+p.name] = text
		switch p.name {
		case "ed":
			j.Customer = text
			j.Price.Extras = []estimate.Extra{{Name: "Drain", Amount: decimal.NewFromInt(int64(s.next))}}
			s.model.own[j.Name+"/money"] = strconv.Itoa(s.next)
		case "eve":
			j.Site = text
		case "frank":
			j.Spec.Mix.Notes = text
		default:
			j.Account.Papers = []account.Paper{{Name: "Waiver", Text: text}}
		}
	}
	if err := p.book.Edit(id, "Write "+text, j); err != nil {
		s.t.Fatal(err)
	}
	if s.random.IntN(6) == 0 { // undone and done again
		if _, _, _, err := p.book.Undo(id); err != nil {
			s.t.Fatal(err)
		}
		if _, _, _, err := p.book.Redo(id); err != nil {
			s.t.Fatal(err)
		}
	}
}

func (s *sim) record(p *one, id storage.ID, j job.Job) {
	if s.model.fighted[j.Name] {
		return
	}
	r, _, err := p.book.Record(id)
	if err != nil {
		s.t.Fatal(err)
	}
	s.next++
	switch p.name {
	case "ed":
		r.Weather = strconv.Itoa(s.next)
	case "frank":
		r.Trucks = s.next
	default:
		return
	}
	s.model.own[j.Name+"/record "+p.name] = strconv.Itoa(s.next)
	if err := p.book.SetRecord(id, r); err != nil {
		s.t.Fatal(err)
	}
}

// reopen closes and opens somebody's book, as a program that is started anew.
func (s *sim) reopen(p *one) {
	p.hangUp()
	path := p.book.Path()
	if err := p.book.Close(); err != nil {
		s.t.Fatal(err)
	}
	b, err := storage.Open(path, storage.Options{NoBackup: true})
	if err != nil {
		s.t.Fatal(err)
	}
	p.book = b
}

// resend sends what somebody once was about to send, late and perhaps again: it must be
// refused, or be what the office book has already.
func (s *sim) resend(p *one) {
	if p.conn == nil || s.random.IntN(2) == 0 {
		list := must(p.book.List())(s.t)
		if len(list) > 0 {
			if r, ok := office.Sending(p.book, list[s.random.IntN(len(list))].ID, p.seesIt); ok {
				r.By = p.name
				s.old = append(s.old, r)
			}
		}
		return
	}
	for _, r := range s.old {
		if r.By != p.name {
			continue
		}
		s.trials["sent late"]++
		if err := p.conn.Resend(context.Background(), p.book, r); err != nil {
			p.hangUp()
			return
		}
	}
}

// settle has all lines whole, and everyone sync until nothing comes any more.
func (s *sim) settle() {
	for range 6 {
		for _, p := range s.people {
			p.line.mend()
			var err error
			for range 3 {
				if err = s.sync(p); err == nil {
					break
				}
			}
			if err != nil {
				s.t.Fatalf("%s: %v", p.name, err)
			}
		}
	}
}

// TestSimulatedOffice has people work, with lines that are cut, books that are opened anew,
// a server that is killed, and messages that come late and twice, and holds the outcome
// against the model.
func TestSimulatedOffice(t *testing.T) {
	t.Parallel()
	server := trial.Own(t, "-c", "fsync=off")
	n, all := tries(t, 2), map[string]int{}
	for seed := range n {
		s := newSim(t, server, uint64(seed))
		for range 120 {
			s.step()
		}
		s.settle()
		s.check()
		for k, v := range s.trials {
			all[k] += v
		}
		if t.Failed() {
			t.Logf("seed %d: %s", seed, strings.Join(s.log, "\n"))
			break
		}
	}
	t.Logf("%d courses of 120 steps: %v", n, all)
}
