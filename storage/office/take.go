package office

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"haunchbook.example/app/actual"
	"haunchbook.example/app/revision"
	"haunchbook.example/storage"
)

// arrived is what came down of one job.
type arrived struct {
	name      string // of the job
	upTo      int64  // the last version, of those that do not read too
	made      time.Time
	number    uint64 // that it has there
	lastJob   uint64 // the highest there
	edits     []edit
	revisions []rev
}

// edit is an edit as it came, put together with the money that one may see.
type edit struct {
	id      string
	version int64
	author  string
	at      time.Time
	label   string
	kept    storage.Kept
}

type rev struct {
	id     string
	number int
	author string
	at     time.Time
	note   string
	data   []byte
}

// Conflict is a job that two people changed in the same place: both states are among its
// revisions, and the job is as the office has it.
type Conflict struct {
	Job     storage.ID
	Name    string
	Who     []string // changed it meanwhile
	Clashes []string // where, in words
}

// String gives a sentence.
func (c Conflict) String() string {
	return fmt.Sprintf("%s: %s changed the same as you (%s). Both are kept as revisions of the job, and it is now as in the office book: compare them under Revisions, and bring yours back if it is the better one", titled(storage.Summary{ID: c.Job, Name: c.Name}), strings.Join(c.Who, " and "), strings.Join(c.Clashes, "; "))
}

// taken is what comes of what arrived.
type taken struct {
	storage.Receipt
	conflict *Conflict
	merged   bool // edits of both were brought together
	edits    int  // that others made

	none  bool     // the book is to be left as it is
	notes []string // what there is to say of it
}

// nothing tells whether the book is to be left as it is.
func (t taken) nothing(was storage.Shared) bool {
	return len(t.Edits) == 0 && len(t.Revisions) == 0 && t.Shared.Version == was.Version && t.Shared.Revisions == was.Revisions
}

// take works out what comes of a job here when something arrived. It changes nothing. What
// does not read is passed over: the next edit is made on the version after it.
func take(s storage.Standing, device string, p Part, in arrived) (taken, error) {
	t, err := takeRead(s, device, p, in)
	if t.Shared.Version > 0 {
		t.Shared.Version = max(t.Shared.Version, in.upTo)
	}
	return t, err
}

// takeRead is take of what reads.
func takeRead(s storage.Standing, device string, p Part, in arrived) (taken, error) {
	t := taken{Receipt: storage.Receipt{ID: s.ID, Mark: s.Mark, Created: in.made, Number: in.number, Beyond: in.lastJob, Now: s.Now, Shared: s.Shared}}
	t.Shared.Job, t.Shared.Prices = in.name, p.Prices
	if in.number > 0 {
		t.Shared.Number = in.number
	}
	edits := slices.DeleteFunc(slices.Clone(in.edits), func(e edit) bool { return e.version <= s.Shared.Version })
	mine, err := messages(s, device, p)
	if err != nil {
		return t, err
	}
	own := slices.Clone(s.Edits)
	if err := t.revisions(&s, device, in.revisions, own); err != nil {
		return t, err
	}
	from, known := s.Shared.Base, s.Shared.Version > 0 // what both had last
	for len(edits) > 0 && len(mine) > 0 {              // those of one's own that nobody said had arrived
		if edits[0].id != mine[0].id {
			break
		}
		from, known = edits[0].kept, true
		t.Shared.Version, t.Shared.Base, t.Shared.Seq = edits[0].version, from, mine[0].number
		own = after(own, mine[0].number)
		edits, mine = edits[1:], mine[1:]
	}
	if len(edits) == 0 {
		return t, nil
	}
	theirs := edits[len(edits)-1].kept
	if !known {
		for _, o := range slices.Backward(own) { // a state of one's own history
			if bytes.Equal(o.Data, theirs.Data) {
				from, known, own = theirs, true, after(own, o.Number)
				break
			}
		}
	}
	t.edits, t.Edits = len(edits), nil
	last := from.Data
	for _, e := range edits {
		if bytes.Equal(e.kept.Data, last) && (s.ID != 0 || len(t.Edits) > 0) {
			continue // what changed stands beside the job, or is not to be seen here
		}
		last = e.kept.Data
		t.Edits = append(t.Edits, storage.Step{Label: e.label + " (" + e.author + ")", Time: e.at, Data: e.kept.Data})
	}
	t.Shared.Version, t.Shared.Base = edits[len(edits)-1].version, theirs
	unchanged, err := t.unchanged(s, p, from, theirs, known)
	if err != nil {
		return t, err
	}
	if unchanged {
		t.Now = theirs
		return t, nil
	}
	if !known {
		return t, t.beside(s, edits, []string{"nothing is known of a state that both had"})
	}
	clashes, err := t.rebase(s, own, from, theirs)
	if err != nil {
		return t, err
	}
	if len(clashes) > 0 {
		return t, t.beside(s, edits, clashes)
	}
	t.merged = true
	return t, nil
}

// unchanged tells whether the job here is to be as it is there: nobody changed it here, or
// to the same. Who was shown no prices until now has none to compare.
func (t *taken) unchanged(s storage.Standing, p Part, from, theirs storage.Kept, known bool) (bool, error) {
	if s.ID == 0 {
		return true, nil
	}
	if p.Prices && !s.Shared.Prices && s.Shared.Job != "" {
		p.Prices = false
	}
	if known {
		if same, err := p.same(s.Now, from); same || err != nil {
			return same, err
		}
	}
	return p.same(s.Now, theirs)
}

// after gives the edits of a history after one of them.
func after(own []storage.Step, number uint64) []storage.Step {
	return slices.DeleteFunc(own, func(o storage.Step) bool { return o.Number <= number })
}

// rebase makes one's own edits again on what others made.
func (t *taken) rebase(s storage.Standing, own []storage.Step, from, theirs storage.Kept) ([]string, error) {
	if len(own) == 0 && !bytes.Equal(s.Now.Data, from.Data) {
		own = []storage.Step{{Label: backLabel, Time: s.Changed, Data: s.Now.Data}}
	}
	before, err := readKept(from.Data)
	if err != nil {
		return nil, err
	}
	now, err := readKept(theirs.Data)
	if err != nil {
		return nil, err
	}
	var steps []storage.Step
	last := theirs.Data
	for _, o := range own {
		mine, err := readKept(o.Data)
		if err != nil {
			return nil, err
		}
		var clashes []string
		if now, clashes = revision.Merge(before, mine, now); len(clashes) > 0 {
			return clashes, nil
		}
		before = mine
		if data := now.Encode(); !bytes.Equal(data, last) {
			steps = append(steps, storage.Step{Label: o.Label, Time: o.Time, Data: data})
			last = data
		}
	}
	kept, clashes, err := mergeBeside(from, s.Now, theirs)
	if err != nil || len(clashes) > 0 {
		return clashes, err
	}
	kept.Data = last
	t.Edits, t.Now = append(t.Edits, steps...), kept
	return nil, nil
}

// mergeBeside merges what stands beside the job file.
func mergeBeside(from, mine, theirs storage.Kept) (storage.Kept, []string, error) {
	out := theirs
	var clashes []string
	switch {
	case mine.State == from.State || mine.State == theirs.State:
	case theirs.State == from.State:
		out.State = mine.State
	default:
		clashes = append(clashes, fmt.Sprintf("the state: %v, and %v", theirs.State, mine.State))
	}
	if theirs.Archived == from.Archived {
		out.Archived = mine.Archived
	}
	var records [3]actual.Record
	for i, k := range []storage.Kept{from, mine, theirs} {
		if k.Record == nil {
			continue
		}
		if err := json.Unmarshal(k.Record, &records[i]); err != nil {
			return out, nil, err
		}
	}
	r, more := revision.MergeParts("record", records[0], records[1], records[2])
	for _, c := range more {
		clashes = append(clashes, "after the pour, "+c)
	}
	if err := r.Validate(); err != nil && len(more) == 0 {
		clashes = append(clashes, "after the pour, both together: "+err.Error())
	}
	if mine.Record == nil && theirs.Record == nil || len(clashes) > 0 {
		return out, clashes, nil
	}
	data, err := json.Marshal(r)
	out.Record = data
	return out, clashes, err
}

// beside keeps both states as revisions, and the job as others have it.
func (t *taken) beside(s storage.Standing, edits []edit, clashes []string) error {
	theirs := edits[len(edits)-1].kept
	var who []string
	for _, e := range edits {
		if !slices.Contains(who, e.author) {
			who = append(who, e.author)
		}
	}
	t.conflict = &Conflict{s.ID, s.Name, who, clashes}
	t.Now = theirs
	by := strings.Join(who, " and ")
	places := slices.Clone(clashes)
	for i := range places { // figures stay out of a note that everyone reads
		places[i], _, _ = strings.Cut(places[i], ":")
	}
	note := fmt.Sprintf("kept beside that of %s, who changed the same: %s", by, strings.Join(places, "; "))
	if s.Now.State != theirs.State {
		note += fmt.Sprintf("; it was %v", s.Now.State)
	}
	if s.Now.Record != nil && !bytes.Equal(s.Now.Record, theirs.Record) {
		open, _, err := partRecord(s.Now.Record)
		if err != nil {
			return err
		}
		note += "; after the pour it had " + string(open)
	}
	t.Own = append(t.Own, storage.Step{Label: note, Data: s.Now.Data}, storage.Step{Label: "as " + by + " left it", Data: theirs.Data})
	return nil
}

// revisions takes revisions of others. Own ones that the office has not yet go behind
// them; change orders that say between which of them they lie say it by their new numbers.
func (t *taken) revisions(s *storage.Standing, device string, in []rev, own []storage.Step) error {
	mine := s.Revisions
	for _, r := range in {
		switch {
		case r.number <= t.Shared.Revisions:
		case len(mine) > 0 && r.id == revisionName(device, t.Shared.Job, mine[0]):
			t.Shared.Revisions, mine = r.number, mine[1:]
		default:
			t.Shared.Revisions = r.number
			t.Revisions = append(t.Revisions, storage.Step{Number: uint64(r.number), Label: r.note + " (" + r.author + ")", Time: r.at, Data: r.data})
		}
	}
	if len(t.Revisions) == 0 || len(mine) == 0 {
		return nil
	}
	moved := map[int]int{}
	for i, r := range mine {
		moved[int(r.Number)] = t.Shared.Revisions + 1 + i
	}
	for i := range own {
		if _, err := renumber(&own[i].Data, moved); err != nil {
			return err
		}
	}
	changed, err := renumber(&s.Now.Data, moved)
	if changed {
		t.Now.Data = s.Now.Data
		t.Edits = append(t.Edits, storage.Step{Label: "Revisions have other numbers", Time: s.Changed, Data: s.Now.Data})
	}
	return err
}

// renumber has the change orders of a job say the new numbers of revisions.
func renumber(data *[]byte, moved map[int]int) (changed bool, err error) {
	j, err := readKept(*data)
	if err != nil || len(j.Account.Changes) == 0 {
		return false, err
	}
	for i := range j.Account.Changes {
		c := &j.Account.Changes[i]
		for _, n := range []*int{&c.From, &c.To} {
			if to, ok := moved[*n]; ok && to != *n {
				*n, changed = to, true
			}
		}
	}
	if changed {
		*data = j.Encode()
	}
	return changed, nil
}
