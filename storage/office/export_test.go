package office

import (
	"context"
	"fmt"
	"strings"

	"haunchbook.example/storage"
)

// Resent is what somebody was about to send of a job, at some time.
type Resent struct {
	By string
	storage.Standing
	device string
}

// Sending gives what would be sent of a job now; false for nothing.
func Sending(b *storage.Book, id storage.ID, prices bool) (Resent, bool) {
	our, ok, err := b.Office()
	if err != nil || !ok {
		return Resent{}, false
	}
	s := &syncing{Conn: &Conn{Part: Part{Prices: prices}}, book: b, our: our}
	st, err := s.standing(id)
	return Resent{Standing: st, device: our.Device}, err == nil && st.ID != 0
}

// Resend sends it again; nil where it was taken, or refused as stale.
func (c *Conn) Resend(ctx context.Context, b *storage.Book, r Resent) error {
	_, err := c.push(ctx, b, r.Standing, r.device)
	if isStale(err) {
		return nil
	}
	return err
}

// Texts gives all edits and revisions of the office book, unpacked.
func Texts(c *Conn) (out []string) {
	rows, err := c.pg.Query(context.Background(), `SELECT open FROM haunchbook.edits UNION ALL SELECT open FROM haunchbook.revisions`)
	if err != nil {
		return nil
	}
	defer rows.Close()
	for rows.Next() {
		var open []byte
		if rows.Scan(&open) == nil {
			out = append(out, Unpacked(open))
		}
	}
	return out
}

// Parts are the roles of an office book.
var Parts = parts

// Form is the form that this program knows.
var Form = form

// FirstSchema gives the SQL of the first form.
func FirstSchema(database string) string { return schemaOf(1, database) }

// Unpacked gives what a column holds as text, unpacked where it is packed.
func Unpacked(v any) string {
	if b, ok := v.([]byte); ok {
		if text, err := unpack(b); err == nil && len(text) > 0 {
			return string(text)
		}
		return string(b)
	}
	return strings.TrimSpace(fmt.Sprint(v))
}

// Push sends an edit of a job that nobody else edits, as a book does.
func (c *Conn) Push(ctx context.Context, job string, version int64, was, is []byte) error {
	s := storage.Standing{
		Summary: storage.Summary{ID: 1}, Known: true, Seq: uint64(version) + 2, Now: storage.Kept{Data: is, State: storage.Won},
		Shared: storage.Shared{Job: job, Version: version, Base: storage.Kept{Data: was, State: storage.Won}},
		Edits:  []storage.Step{{Number: uint64(version) + 2, Label: "Move corner 3", Data: is}},
	}
	_, err := c.push(ctx, nil, s, strings.Repeat("5", 32))
	return explain(err)
}

// Packed gives a job file as the office book has it.
func Packed(data []byte) (open, money []byte) {
	j, err := readKept(data)
	if err != nil {
		panic(err)
	}
	return pack(withoutMoney(j).Encode()), pack(j.Money())
}

// Pack gives a text as the office book has it.
func Pack(text []byte) string { return string(pack(text)) }
