package storage

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"

	"haunchbook.example/geometry"
)

// A book can be one person's copy of an office book, which several people work on; see
// package office. What is kept here is how far the two are one: of the book, and of each
// job. Books that have no office book have nothing of it.

// Office is what a book knows of its office book.
type Office struct {
	Address string `json:"address"`          // without a password
	Epoch   string `json:"epoch"`            // names the office book, whatever its address
	Device  string `json:"device"`           // names this book among its people's
	Cursor  int64  `json:"cursor"`           // the last of the office's changes that is here
	Scanned uint64 `json:"scanned"`          // the stamp up to which changes of this book are there
	Prices  bool   `json:"prices,omitzero"`  // this book's user may see prices
	Left    bool   `json:"left,omitzero"`    // left: nothing goes either way any more
	Again   int    `json:"again,omitzero"`   // how often the office book was put back to an earlier state
	Settled bool   `json:"settled,omitzero"` // was up to date once

	// Invoices are numbers for invoices that the office book gave this one, and nobody else.
	Invoices []int `json:"invoices,omitempty"`
	// Lists are how many price lists are there, by units.
	Lists map[geometry.Units]int `json:"lists,omitempty"`
	// Settings are as both had them last, with their version there.
	Settings        json.RawMessage `json:"settings,omitempty"`
	SettingsVersion int64           `json:"settingsVersion,omitzero"`
}

var officeKey = key{}

// Office gives what the book knows of its office book; false if it has none, and never had.
func (b *Book) Office() (Office, bool, error) {
	var o Office
	var ok bool
	err := b.view(func(t *tx) (err error) {
		o, ok, err = t.office()
		return err
	})
	return o, ok, err
}

func (t *tx) office() (o Office, ok bool, err error) {
	err = t.getJSON(inOffice, officeKey, &o)
	if IsKind(err, Missing) {
		return Office{}, false, nil
	}
	return o, err == nil, err
}

// Join notes the office book that the book is a copy of from now on. The same again goes on
// where it stood; with another one nothing is known to be one.
func (b *Book) Join(address, epoch string, prices bool) (Office, error) {
	o, ok, err := b.Office()
	if err != nil || ok && o.Address == address && o.Epoch == epoch && o.Prices == prices && !o.Left {
		return o, err
	}
	err = b.update(func(t *tx) error {
		err := t.getJSON(inOffice, officeKey, &o)
		if err != nil && !IsKind(err, Missing) {
			return err
		}
		if o.Device == "" {
			name := make([]byte, 16)
			_, _ = rand.Read(name) // never fails, by its documentation
			o.Device = hex.EncodeToString(name)
		}
		if o.Epoch != epoch {
			o = Office{Epoch: epoch, Device: o.Device}
		}
		if o.Prices != prices { // all is read anew, with them or without
			o.Cursor, o.Scanned = 0, 0
		}
		o.Address, o.Prices, o.Left = address, prices, false
		return t.putOffice(o)
	})
	return o, err
}

// LeaveOffice ends the book's part in its office book; everything in it stays, and it is
// known again should it come back.
func (b *Book) LeaveOffice() error {
	return b.changeOffice(func(o *Office) { o.Left = true })
}

// SetScanned notes up to which stamp the changes of this book are in the office book, and
// that the two were one.
func (b *Book) SetScanned(stamp uint64) error {
	return b.changeOffice(func(o *Office) { o.Scanned, o.Settled = stamp, true })
}

// SetCursor notes up to which of its changes the office book is here.
func (b *Book) SetCursor(change int64) error {
	return b.changeOffice(func(o *Office) { o.Cursor = change })
}

// BeginAgain has everything compared anew: the office book was put back to an earlier state.
func (b *Book) BeginAgain() error {
	return b.changeOffice(func(o *Office) { o.Again, o.Cursor, o.Scanned = o.Again+1, 0, 0 })
}

// Since gives what jobs must be known by: the office book since it was put back last.
func (o Office) Since() string { return fmt.Sprintf("%s/%d", o.Epoch, o.Again) }

func (b *Book) changeOffice(f func(*Office)) error {
	return b.update(func(t *tx) error {
		var o Office
		if err := t.getJSON(inOffice, officeKey, &o); err != nil {
			return err
		}
		f(&o)
		return t.putOffice(o)
	})
}

func (t *tx) putOffice(o Office) error { return t.putShared(inOffice, officeKey, o) }

// putShared puts a record into a bucket that only books with an office book have.
func (t *tx) putShared(in bucket, k key, v any) error {
	if _, err := t.CreateBucketIfNotExists(in.name()); err != nil {
		return err
	}
	return t.putJSON(in, k, v)
}

// Shared is how far a job of the book is one with that of the office book.
type Shared struct {
	Job       string `json:"job"`             // names the job in the office book: 32 hexadecimal digits
	Epoch     string `json:"epoch"`           // of the office book that Version is of
	Version   int64  `json:"version"`         // of Base there; 0 for none yet
	Seq       uint64 `json:"seq"`             // the edit here whose outcome Base is, if any
	Revisions int    `json:"revisions"`       // the last revision that is there
	Number    uint64 `json:"number,omitzero"` // that the job has there; 0 where that is not known
	Prices    bool   `json:"prices,omitzero"`
	Base      Kept   `json:"-"` // the job as both had it last
}

// Kept is a job as the book keeps it: its file, whose sketch is a reference to a picture,
// and what stands beside it.
type Kept struct {
	Data     []byte // the job file
	State    State
	Archived bool
	Record   []byte // after the pour, as JSON; nil for none
}

// Equal tells whether two are the same.
func (k Kept) Equal(o Kept) bool {
	return bytes.Equal(k.Data, o.Data) && k.State == o.State && k.Archived == o.Archived && bytes.Equal(k.Record, o.Record)
}

// keptHead is what stands before the job file of a base.
type keptHead struct {
	State    State           `json:"state"`
	Archived bool            `json:"archived,omitzero"`
	Record   json.RawMessage `json:"record,omitempty"`
}

func (t *tx) shared(id ID) (s Shared, ok bool, err error) {
	err = t.getJSON(inOffice, key{uint64(id), 0}, &s)
	if err == nil && s.Version > 0 {
		var data []byte
		if data, err = t.get(inOffice, key{uint64(id), 1}); err == nil {
			if data, err = unpack(data); err == nil {
				head, file, _ := bytes.Cut(data, []byte("\n"))
				var h keptHead
				err = json.Unmarshal(head, &h)
				s.Base = Kept{file, h.State, h.Archived, h.Record}
			}
		}
	}
	if IsKind(err, Missing) {
		return Shared{}, false, nil
	}
	return s, err == nil, err
}

func (t *tx) setShared(id ID, s Shared) error {
	head, err := json.Marshal(keptHead{s.Base.State, s.Base.Archived, s.Base.Record})
	if err != nil {
		return err
	}
	if err := t.putShared(inOffice, key{uint64(id), 0}, s); err != nil {
		return err
	}
	if err := t.putShared(inShared, nameKey(s.Job), id); err != nil {
		return err
	}
	return t.put(inOffice, key{uint64(id), 1}, pack(append(append(head, '\n'), s.Base.Data...)))
}

// SetShared notes how far a job is one with that of the office book.
func (b *Book) SetShared(id ID, s Shared) error {
	return b.update(func(t *tx) error { return t.setShared(id, s) })
}

// NumberThere gives the number that a job has in the office book; 0 where it has none yet.
func (b *Book) NumberThere(id ID) (ID, error) {
	var s Shared
	err := b.view(func(t *tx) error { return t.getJSON(inOffice, key{uint64(id), 0}, &s) })
	return ID(s.Number), ignore(err, Missing)
}

// nameKey is the key of a job by its name in the office book.
func nameKey(name string) key {
	b, err := hex.DecodeString(name)
	k, ok := keyOf(b)
	if err != nil || !ok {
		return key{} // no name
	}
	return k
}

// SharedJob gives the job of the book that has a name in the office book; 0 with ok for one
// that was deleted here.
func (b *Book) SharedJob(name string) (id ID, ok bool, err error) {
	err = b.view(func(t *tx) error { return t.getJSON(inShared, nameKey(name), &id) })
	if IsKind(err, Missing) {
		return 0, false, nil
	}
	return id, err == nil, err
}

// forgetShared keeps in mind that a job was deleted here, so that it does not come back.
func (t *tx) forgetShared(id ID) error {
	var s Shared
	err := t.getJSON(inOffice, key{uint64(id), 0}, &s)
	if err != nil {
		return ignore(err, Missing)
	}
	return t.putShared(inShared, nameKey(s.Job), ID(0))
}

// Step is a state of a job with what is said of it: an edit, or a revision.
type Step struct {
	Number uint64
	Label  string
	Time   time.Time
	Data   []byte // the job file
}

// Standing is how a job of the book stands, for the office book.
type Standing struct {
	Summary
	Now       Kept
	Mark      Mark
	Shared    Shared
	Known     bool   // the office book is known to have it
	Seq       uint64 // the edit that is the job now
	Edits     []Step // those that lead from Shared.Base to Now; none if the history does not
	Revisions []Step // that are not known to be there
}

// Mark tells whether a job was changed since it was looked at.
type Mark struct {
	entry uint64
	last  int
}

// Standing gives how a job stands with an office book. With another, or for who may see
// prices that he could not see before, nothing is known to be there.
func (b *Book) Standing(id ID, epoch string, prices bool) (Standing, error) {
	var s Standing
	err := b.view(func(t *tx) (err error) {
		s, err = t.standing(id, epoch, prices)
		return err
	})
	return s, err
}

func (t *tx) mark(id ID) Mark {
	m := Mark{last: t.lastRevision(id)}
	if bk := t.Bucket(inEntries.name()); bk != nil {
		m.entry = stampOf(bk.Get(key{uint64(id), 0}.bytes()))
	}
	return m
}

func (t *tx) standing(id ID, epoch string, prices bool) (Standing, error) {
	var e entry
	if err := t.entry(id, &e); err != nil {
		return Standing{}, err
	}
	s := Standing{Summary: e.Summary, Mark: t.mark(id), Seq: e.At}
	now, err := t.kept(id, e)
	if err != nil {
		return s, err
	}
	s.Now = now
	if s.Shared, s.Known, err = t.shared(id); err != nil {
		return s, err
	}
	if s.Shared.Epoch != epoch || prices && !s.Shared.Prices {
		s.Shared = Shared{Job: s.Shared.Job, Prices: s.Shared.Prices}
	}
	if s.Edits, err = t.steps(id, e, s.Shared); err != nil {
		return s, err
	}
	return s, t.each(inRevisions, uint64(id), func(k key, payload []byte, err error) error {
		if err != nil || k.b <= uint64(s.Shared.Revisions) {
			return err
		}
		r, err := parseEdit(payload)
		s.Revisions = append(s.Revisions, Step{k.b, r.Label, r.Time, bytes.Clone(r.data)})
		return err
	})
}

// kept gives a job as it is kept now.
func (t *tx) kept(id ID, e entry) (Kept, error) {
	data, err := t.get(inJobs, key{uint64(id), 0})
	if err != nil {
		return Kept{}, err
	}
	k := Kept{Data: bytes.Clone(data), State: e.State, Archived: e.Archived}
	record, err := t.get(inRecords, key{uint64(id), 0})
	if err == nil {
		k.Record = bytes.Clone(record)
	}
	return k, ignore(err, Missing)
}

// steps gives the edits after the one whose outcome the office has; all of them of a job
// that it has not, with the state that the history starts from.
func (t *tx) steps(id ID, e entry, s Shared) ([]Step, error) {
	from := e.First
	if s.Version > 0 {
		if s.Seq < e.First || s.Seq > e.At {
			return nil, nil
		}
		base, err := t.getEdit(id, s.Seq)
		if err != nil || !bytes.Equal(base.data, s.Base.Data) {
			return nil, ignore(err, Missing)
		}
		from = s.Seq + 1
	}
	var out []Step
	for seq := from; seq <= e.At; seq++ {
		d, err := t.getEdit(id, seq)
		if err != nil {
			return nil, err
		}
		out = append(out, Step{seq, d.Label, d.Time, bytes.Clone(d.data)})
	}
	return out, nil
}
