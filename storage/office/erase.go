package office

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5/pgconn"

	"haunchbook.example/storage"
)

// codeErased says that a job was deleted for good.
const codeErased = "HB002"

// Erase deletes a job for good from the office book; only its owner may. From everyone's
// book it goes when that is next brought together with the office book, but for one with
// edits that were not sent. The job of this book stays; see storage.Book.Erase.
func (c *Conn) Erase(ctx context.Context, b *storage.Book, id storage.ID) error {
	if !c.Part.Owner {
		return &storage.Fault{Kind: storage.Forbidden, Text: "only an owner deletes a job for good", Way: "ask one, or delete it in your own book alone"}
	}
	our, ok, err := b.Office()
	if err != nil {
		return err
	}
	st, err := b.Standing(id, our.Since(), our.Prices)
	if err == nil && (!ok || !st.Known) {
		err = &storage.Fault{Kind: storage.Missing, Text: fmt.Sprintf("%v is not in the office book", id), Way: "delete it in your own book alone"}
	}
	if err != nil {
		return err
	}
	_, err = c.pg.Exec(ctx, `SELECT haunchbook.erase($1)`, st.Shared.Job)
	return explain(err)
}

// ErasePlan says what deleting for good through the office book does, and what it does not
// reach, a sentence each.
func ErasePlan() []string {
	return []string{
		"It is deleted in the office book with its history, revisions and pictures, and from everyone's book when that is next connected.",
		"Who has edits of it that were not sent keeps it, and is told.",
		"Not reached are: backups of the office book's server and what PostgreSQL has not cleared away yet, backups of others' books until newer ones take their place, books that left the office book, and what was exported or printed.",
	}
}

// erasures deletes here what an owner deleted for good.
func (s *syncing) erasures(ctx context.Context) error {
	rows, err := s.pg.Query(ctx, `SELECT job, author FROM haunchbook.erased ORDER BY change`)
	if err != nil {
		return err
	}
	who := map[storage.ID]string{}
	for rows.Next() {
		var name, author string
		if err = rows.Scan(&name, &author); err != nil {
			break
		}
		var id storage.ID
		if id, _, err = s.book.SharedJob(name); err != nil {
			break
		}
		if id != 0 {
			who[id] = author
		}
	}
	rows.Close()
	if err := errors.Join(err, rows.Err()); err != nil {
		return err
	}
	gone := 0
	for id, author := range who {
		done, err := s.erased(id, author)
		if err != nil {
			return err
		}
		if done {
			gone++
		}
	}
	if gone == 0 {
		return nil
	}
	s.Erased += gone
	return s.book.Compact()
}

const deletedBy = " was deleted for good in the office book by "

// erased deletes one of them, unless that would lose something or it is open.
func (s *syncing) erased(id storage.ID, author string) (done bool, err error) {
	st, err := s.standing(id)
	if err != nil || st.ID == 0 {
		return false, err
	}
	mine, err := messages(st, s.our.Device, s.Part)
	if err != nil {
		return false, err
	}
	told := titled(st.Summary) + deletedBy + author
	switch {
	case len(mine)+len(st.Revisions) > 0:
		s.Notes = append(s.Notes, told+"; it stays here, since it has edits that were not sent: delete it here too, or copy it to go on")
		return false, nil
	case s.o.Open != nil && s.o.Open(id):
		s.Notes = append(s.Notes, told+"; it goes from this book once another job is open: copy it to go on")
		return false, nil
	}
	if err := s.book.Delete(id); err != nil {
		return false, err
	}
	s.Notes = append(s.Notes, told+"; it is gone from this book, and from its backups as newer ones take their place")
	return true, nil
}

// erasedBy gives who deleted the job that an error says is deleted for good; "" for others.
func erasedBy(err error) string {
	var p *pgconn.PgError
	if errors.As(err, &p) && p.Code == codeErased {
		return p.Message
	}
	return ""
}
