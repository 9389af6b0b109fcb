package office

import (
	"context"
	"encoding/hex"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
)

// message is an edit on its way to the office book.
type message struct {
	id     string
	number uint64 // of the edit here whose outcome it is
	label  string
	kept   storage.Kept
}

// Labels of what is no edit of a history.
const (
	backLabel   = "Back to an earlier state"
	besideLabel = "State and records"
	moneyLabel  = "Prices and money" // of edits that changed money, for who may not see it
)

// messages gives the edits that the office book does not have yet, for one with a part.
func messages(s storage.Standing, device string, p Part) ([]message, error) {
	before, any := s.Shared.Base, s.Shared.Version > 0
	beside := before // what stands beside the edits before the last
	if !any {
		beside = s.Now
	}
	steps := s.Edits
	if len(steps) == 0 {
		if any {
			if same, err := p.same(s.Now, before); same || err != nil {
				return nil, err
			}
		}
		label := besideLabel
		if string(s.Now.Data) != string(before.Data) {
			label = backLabel
		}
		id := named(device, s.Shared.Job, s.Seq, s.Changed, label, s.Now.Data, s.Now.State, s.Now.Archived, s.Now.Record)
		return []message{{id, s.Seq, label, s.Now}}, nil
	}
	var out []message
	for i, e := range steps {
		k := beside
		k.Data = e.Data
		if i == len(steps)-1 {
			k = s.Now
		}
		if any {
			same, err := p.same(k, before)
			if err != nil {
				return nil, err
			}
			if same {
				continue
			}
		}
		before, any = k, true
		out = append(out, message{named(device, s.Shared.Job, e.Number, e.Time, e.Label, e.Data), e.Number, e.Label, k})
	}
	return out, nil
}

func revisionName(device, job string, r storage.Step) string {
	return named(device, job, "revision", r.Time, r.Label, r.Data)
}

// jobName names a job in the office book by the book that it was made in.
func jobName(device string, s storage.Summary) string { return named(device, uint64(s.ID), s.Created) }

// pushed is what went up of one job.
type pushed struct {
	shared storage.Shared
	edits  int
	any    bool
}

// push sends what the office book has not of a job. An error that is isStale says that
// another came first: then nothing was taken.
func (c *Conn) push(ctx context.Context, b *storage.Book, s storage.Standing, device string) (pushed, error) {
	out := pushed{shared: s.Shared}
	mine, err := messages(s, device, c.Part)
	if err != nil || len(mine)+len(s.Revisions) == 0 {
		return out, err
	}
	tx, err := c.pg.Begin(ctx)
	if err != nil {
		return out, err
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	if _, err := tx.Exec(ctx, `INSERT INTO haunchbook.jobs (id, made, number) VALUES ($1, $2, $3::int) ON CONFLICT DO NOTHING`, s.Shared.Job, s.Created.UTC(), int64(min(s.ID, 1<<30))); err != nil {
		return out, err
	}
	if out.shared.Number == 0 {
		if err := tx.QueryRow(ctx, `SELECT number FROM haunchbook.jobs WHERE id = $1`, s.Shared.Job).Scan(&out.shared.Number); err != nil {
			return out, err
		}
	}
	if err := c.pushPictures(ctx, tx, b, s, mine); err != nil {
		return out, err
	}
	version, was := s.Shared.Version, s.Shared.Base
	for _, m := range mine {
		if err := c.pushEdit(ctx, tx, s.Shared.Job, version+1, device, m, was); err != nil {
			return out, err
		}
		version, was = version+1, m.kept
	}
	if err := c.bill(ctx, tx, s); err != nil {
		return out, err
	}
	for _, r := range s.Revisions {
		if err := c.pushRevision(ctx, tx, s.Shared.Job, device, r); err != nil {
			return out, err
		}
		out.shared.Revisions = int(r.Number)
	}
	if err := tx.Commit(ctx); err != nil {
		return out, err
	}
	out.edits, out.any = len(mine), true
	out.shared.Prices = c.Part.Prices
	if len(mine) > 0 {
		out.shared.Version, out.shared.Base, out.shared.Seq = version, s.Now, s.Seq
	}
	return out, nil
}

func (c *Conn) pushEdit(ctx context.Context, tx pgx.Tx, name string, version int64, device string, m message, was storage.Kept) error {
	j, err := readKept(m.kept.Data)
	if err != nil {
		return err
	}
	record, invoices, err := partRecord(m.kept.Record)
	if err != nil {
		return err
	}
	label, changed := m.label, true
	if was.Data != nil {
		old, err := readKept(was.Data)
		if err != nil {
			return err
		}
		_, oldInvoices, err := partRecord(was.Record)
		if err != nil {
			return err
		}
		changed = string(old.Money()) != string(j.Money()) || string(oldInvoices) != string(invoices)
	}
	withMoney := c.Part.Prices && changed
	if withMoney && (was.Data != nil || m.number > 1) {
		label = moneyLabel
	}
	tag, err := tx.Exec(ctx, `INSERT INTO haunchbook.edits (id, job, version, device, label, open, state, archived, record, form)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		m.id, name, version, device, clipped(label), pack(withoutMoney(j).Encode()), m.kept.State.String(), m.kept.Archived, record, job.Version)
	if err != nil || !withMoney || tag.RowsAffected() == 0 {
		return err
	}
	_, err = tx.Exec(ctx, `INSERT INTO haunchbook.edit_money (job, version, label, money, record) VALUES ($1, $2, $3, $4, $5)`,
		name, version, clipped(m.label), pack(j.Money()), invoices)
	return err
}

func (c *Conn) pushRevision(ctx context.Context, tx pgx.Tx, name, device string, r storage.Step) error {
	j, err := readKept(r.Data)
	if err != nil {
		return err
	}
	note, whole := r.Label, (*string)(nil)
	if c.Part.Prices && figured(note) {
		note, whole = withheld, &r.Label
	}
	tag, err := tx.Exec(ctx, `INSERT INTO haunchbook.revisions (id, job, number, at, note, open, form) VALUES ($1, $2, $3, $4, $5, $6, $7)`,
		revisionName(device, name, r), name, int(r.Number), r.Time.UTC(), note, pack(withoutMoney(j).Encode()), job.Version)
	if err != nil || !c.Part.Prices || tag.RowsAffected() == 0 {
		return err
	}
	_, err = tx.Exec(ctx, `INSERT INTO haunchbook.revision_money (job, number, money, note) VALUES ($1, $2, $3, $4)`, name, int(r.Number), pack(j.Money()), whole)
	return err
}

// clipped keeps a label within what the office book takes.
func clipped(label string) string {
	if r := []rune(label); len(r) > 900 {
		return string(r[:900]) + "…"
	}
	return label
}

// pushPictures sends the pictures that the states refer to, each once.
func (c *Conn) pushPictures(ctx context.Context, tx pgx.Tx, b *storage.Book, s storage.Standing, mine []message) error {
	var states [][]byte
	for _, m := range mine {
		states = append(states, m.kept.Data)
	}
	for _, r := range s.Revisions {
		states = append(states, r.Data)
	}
	seen := map[string]bool{}
	for _, data := range states {
		for _, hash := range storage.PictureHashes(data) {
			if seen[hash] {
				continue
			}
			seen[hash] = true
			file, ok, err := b.PictureOf(s.ID, hash)
			if err != nil {
				return err
			}
			if ok { // else the job says that it is damaged
				if err := putPicture(ctx, tx, s.Shared.Job, hash, file); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// putPicture puts a picture there, and which job shows it.
func putPicture(ctx context.Context, tx pgx.Tx, job, hash string, file []byte) error {
	sum, err := hex.DecodeString(hash)
	if err != nil {
		return err
	}
	var there bool
	if err := tx.QueryRow(ctx, `SELECT EXISTS (SELECT 1 FROM haunchbook.pictures WHERE hash = $1)`, sum).Scan(&there); err != nil {
		return err
	}
	if !there {
		if _, err = tx.Exec(ctx, `INSERT INTO haunchbook.pictures (hash, file) VALUES ($1, $2) ON CONFLICT DO NOTHING`, sum, file); err != nil {
			return err
		}
	}
	_, err = tx.Exec(ctx, `INSERT INTO haunchbook.shown (job, hash) VALUES ($1, $2) ON CONFLICT DO NOTHING`, job, sum)
	return err
}

// picture gets a picture of the office book.
func (c *Conn) picture(ctx context.Context, hash string) (file []byte, err error) {
	sum, err := hex.DecodeString(hash)
	if err != nil {
		return nil, err
	}
	err = c.pg.QueryRow(ctx, `SELECT file FROM haunchbook.pictures WHERE hash = $1`, sum).Scan(&file)
	return file, err
}
