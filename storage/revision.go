package storage

import (
	"fmt"
	"time"

	"haunchbook.example/app/job"
)

// Revision is a job set aside as it was: when a sheet was printed, or when
// someone asked for it.
type Revision struct {
	Number int       // 1, 2, … within the job
	Name   string    // the job's own revision mark at the time
	Note   string    // why: "printed", "before moving the door"
	Time   time.Time // when
}

// Revise sets the job as it is now aside and gives the number of the revision.
// A job that is the same as its last revision makes a revision all the same: it
// was printed again.
func (b *Book) Revise(id ID, note string) (int, error) {
	var number int
	err := b.update(func(t *tx) error {
		data, err := t.get(inJobs, key{uint64(id), 0})
		if err != nil {
			return t.noJob(id, err)
		}
		if number = t.lastRevision(id) + 1; number > maxRevision {
			return &Fault{Kind: Invalid, Path: t.path, Text: fmt.Sprintf("job %v has revision %d", id, maxRevision), Way: "no number is left; copy the job"}
		}
		return t.putRevision(id, number, edit{Label: note, Time: b.o.Now().UTC(), data: data})
	})
	return number, err
}

// maxRevision bounds the numbers of revisions, far beyond what anybody prints: a
// file from elsewhere may say anything.
const maxRevision = 1_000_000

// lastRevision gives the highest number of a job's revisions, 0 for none.
func (t *tx) lastRevision(id ID) int {
	bk := t.Bucket(inRevisions.name())
	if bk == nil {
		return 0
	}
	c := bk.Cursor()
	kb, _ := c.Seek(key{uint64(id), maxRevision + 1}.bytes())
	if kb == nil {
		kb, _ = c.Last()
	} else {
		kb, _ = c.Prev()
	}
	if k, ok := keyOf(kb); ok && k.a == uint64(id) {
		return int(k.b)
	}
	return 0
}

func (t *tx) putRevision(id ID, number int, e edit) error {
	return t.putState(inRevisions, key{uint64(id), uint64(number)}, e)
}

// Revisions lists the revisions of a job, oldest first.
func (b *Book) Revisions(id ID) ([]Revision, error) {
	var list []Revision
	err := b.view(func(t *tx) error {
		list = nil
		return t.each(inRevisions, uint64(id), func(k key, payload []byte, err error) error {
			if err != nil {
				return err
			}
			e, err := parseEdit(payload)
			if err != nil {
				return err
			}
			j, err := readJob(e.data)
			list = append(list, Revision{int(k.b), j.Revision, e.Label, e.Time})
			return err
		})
	})
	return list, err
}

// Revision gives the job as it was at a revision.
func (b *Book) Revision(id ID, number int) (job.Job, error) {
	var j job.Job
	err := b.view(func(t *tx) error {
		payload, err := t.get(inRevisions, key{uint64(id), uint64(number)})
		if err != nil {
			return err
		}
		e, err := parseEdit(payload)
		if err != nil {
			return err
		}
		j, err = t.decode(id, e.data)
		return err
	})
	return j, err
}
