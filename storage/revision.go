package storage

import (
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
		last := uint64(0)
		if err := t.each(inRevisions, uint64(id), func(k key, _ []byte, _ error) error {
			last = k.b
			return nil
		}); err != nil {
			return err
		}
		number = int(last) + 1
		return t.putRevision(id, number, edit{Label: note, Time: b.o.Now().UTC(), data: data})
	})
	return number, err
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
