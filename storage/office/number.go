package office

import (
	"context"
	"fmt"
	"slices"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage"
)

// Numbers run through all books. A job has the number of the book that it was made in,
// wherever no other has that; invoices have numbers that the office book gives out, of
// which each book that writes invoices holds some for when there is no network. What is
// there twice after all, since it was typed or was so before, is told.

// held is how many numbers for invoices a book holds.
const held = 3

// holdInvoices has the book hold numbers for invoices, where its user may write them.
func (s *syncing) holdInvoices(ctx context.Context) error {
	if !s.Part.Prices || !s.Part.settles() || len(s.our.Invoices) >= held {
		return nil
	}
	last, err := s.book.LastInvoice()
	if err != nil {
		return err
	}
	many, first := held-len(s.our.Invoices), 0
	if err := s.pg.QueryRow(ctx, `SELECT haunchbook.draw_invoices($1::int, $2::int)`, last, many).Scan(&first); err != nil {
		return err
	}
	numbers := make([]int, many)
	for i := range numbers {
		numbers[i] = first + i
	}
	if err := s.book.HoldInvoices(numbers); err != nil {
		return err
	}
	s.our, _, err = s.book.Office()
	return err
}

// bill says which numbers the invoices of a job have, where that changed.
func (c *Conn) bill(ctx context.Context, tx pgx.Tx, s storage.Standing) error {
	if !c.Part.Prices {
		return nil
	}
	numbers, err := invoices(s.Now.Data)
	if err != nil {
		return err
	}
	var was []int32
	if s.Shared.Version > 0 {
		if was, err = invoices(s.Shared.Base.Data); err != nil {
			return err
		}
	}
	if slices.Equal(numbers, was) {
		return nil
	}
	_, err = tx.Exec(ctx, `SELECT haunchbook.bill($1, $2)`, s.Shared.Job, numbers)
	return err
}

// invoices gives the numbers of the invoices of a job as it is kept.
func invoices(data []byte) ([]int32, error) {
	j, err := readKept(data)
	numbers := []int32{}
	for _, i := range j.Account.Invoices {
		numbers = append(numbers, int32(min(i.Number, mostInvoice)))
	}
	return numbers, err
}

// mostInvoice bounds the numbers that the office book knows.
const mostInvoice = 1 << 30

const twiceText = "invoice %d is there twice: of %s, and of %s; give the one that was not sent yet another number"

// twice tells of invoices of two jobs that have one number.
func (s *syncing) twice(ctx context.Context) error {
	if !s.Part.Prices {
		return nil
	}
	rows, err := s.pg.Query(ctx, `SELECT number, min(job), max(job) FROM haunchbook.invoices GROUP BY number HAVING count(*) > 1 ORDER BY number LIMIT 20`)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var n int
		var one, other string
		if err := rows.Scan(&n, &one, &other); err != nil {
			return err
		}
		s.Notes = append(s.Notes, fmt.Sprintf(twiceText, n, called(s.book, one), called(s.book, other)))
	}
	return rows.Err()
}

// called gives the number and the name of a job of a book, by its name in the office book.
func called(b *storage.Book, name string) string {
	if id, ok, err := b.SharedJob(name); err == nil && ok && id != 0 {
		if sum, err := b.Summary(id); err == nil {
			return titled(sum)
		}
	}
	return "a job that is not here"
}

// titled gives the number of a job, and its name if it has one.
func titled(s storage.Summary) string {
	if s.Name == "" {
		return s.ID.String()
	}
	return s.ID.String() + ", " + s.Name
}

// otherNumber tells that a job has another number here than in the office book; "" where it
// has not.
func otherNumber(id storage.ID, number uint64) string {
	if number == 0 || uint64(id) == number {
		return ""
	}
	return fmt.Sprintf("%v is %v in the office book, since another job had its number", id, storage.ID(number))
}
