package office

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/app/estimate"
	"haunchbook.example/app/job"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// batch is how many edits come down at once, and batchBytes about how many bytes of them:
// anybody with a part may put large ones there.
const (
	batch      = 400
	batchBytes = 16 << 20
)

// change is a row of the office book as it came.
type change struct {
	n int64 // its number

	edit *editRow
	rev  *revRow
	list *listRow
	set  *setRow
}

type editRow struct {
	job, id, author, label string
	made, at               time.Time
	number                 uint64
	version                int64
	open, record           []byte
	state                  string
	archived               bool
	form                   int
	moneyLabel             *string
	money, invoices        []byte
}

type revRow struct {
	job, id, author, note string
	at                    time.Time
	number, form          int
	open, money           []byte
	moneyNote             *string
}

type listRow struct {
	id, units, author string
	stored            time.Time
	list              []byte
	number, form      int
}

type setRow struct {
	id, author  string
	version     int64
	aside       bool
	open, money []byte
	form        int
}

// fetch gives the changes after a number, in order, and the number up to which these are
// all; done where there are no more. They are read at one instant.
func (c *Conn) fetch(ctx context.Context, cursor int64) (list []change, upTo int64, done bool, err error) {
	tx, err := c.pg.BeginTx(ctx, pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly})
	if err != nil {
		return nil, 0, false, err
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	if err := tx.QueryRow(ctx, `SELECT last, (SELECT coalesce(max(number), 0) FROM haunchbook.jobs) FROM haunchbook.clock`).Scan(&upTo, &c.lastJob); err != nil || upTo <= cursor {
		return nil, upTo, true, err
	}
	reads := []func(context.Context, pgx.Tx, int64) ([]change, bool, error){c.editRows, c.revRows, c.setRows}
	if c.Part.Prices {
		reads = append(reads, c.listRows)
	}
	done = true
	for _, read := range reads {
		rows, more, err := read(ctx, tx, cursor)
		if err != nil {
			return nil, 0, false, err
		}
		if more {
			done, upTo = false, min(upTo, rows[len(rows)-1].n)
		}
		list = append(list, rows...)
	}
	list = slices.DeleteFunc(list, func(c change) bool { return c.n > upTo })
	slices.SortFunc(list, func(a, b change) int { return int(a.n - b.n) })
	return list, upTo, done, nil
}

// rowsOf reads rows up to a batch; more tells that there may be others.
func rowsOf(rows pgx.Rows, err error, read pgx.RowToFunc[change]) (list []change, more bool, _ error) {
	if err != nil {
		return nil, false, err
	}
	defer rows.Close()
	for bytes := 0; rows.Next(); {
		ch, err := read(rows)
		if err != nil {
			return nil, false, err
		}
		list = append(list, ch)
		for _, v := range rows.RawValues() {
			bytes += len(v)
		}
		if bytes > batchBytes {
			return list, true, nil
		}
	}
	return list, len(list) == batch, rows.Err()
}

func (c *Conn) editRows(ctx context.Context, tx pgx.Tx, cursor int64) ([]change, bool, error) {
	more, with := `NULL::text, NULL::bytea, NULL::bytea`, ``
	if c.Part.Prices {
		more, with = `m.label, m.money, m.record`, `LEFT JOIN haunchbook.edit_money m ON m.job = e.job AND m.version = e.version`
	}
	rows, err := tx.Query(ctx, fmt.Sprintf(`SELECT e.change, e.job, e.id, e.author, e.label, j.made, j.number, e.at, e.version, e.open, e.record, e.state, e.archived, e.form, %s
		FROM haunchbook.edits e JOIN haunchbook.jobs j ON j.id = e.job %s WHERE e.change > $1 ORDER BY e.change LIMIT %d`, more, with, batch), cursor)
	return rowsOf(rows, err, func(row pgx.CollectableRow) (change, error) {
		ch := change{edit: &editRow{}}
		e := ch.edit
		return ch, row.Scan(&ch.n, &e.job, &e.id, &e.author, &e.label, &e.made, &e.number, &e.at, &e.version, &e.open, &e.record, &e.state, &e.archived, &e.form, &e.moneyLabel, &e.money, &e.invoices)
	})
}

func (c *Conn) revRows(ctx context.Context, tx pgx.Tx, cursor int64) ([]change, bool, error) {
	more, with := `NULL::bytea, NULL::text`, ``
	if c.Part.Prices {
		more, with = `m.money, m.note`, `LEFT JOIN haunchbook.revision_money m ON m.job = r.job AND m.number = r.number`
	}
	rows, err := tx.Query(ctx, fmt.Sprintf(`SELECT r.change, r.job, r.id, r.author, r.note, r.at, r.number, r.form, r.open, %s
		FROM haunchbook.revisions r %s WHERE r.change > $1 ORDER BY r.change LIMIT %d`, more, with, batch), cursor)
	return rowsOf(rows, err, func(row pgx.CollectableRow) (change, error) {
		ch := change{rev: &revRow{}}
		r := ch.rev
		return ch, row.Scan(&ch.n, &r.job, &r.id, &r.author, &r.note, &r.at, &r.number, &r.form, &r.open, &r.money, &r.moneyNote)
	})
}

func (c *Conn) setRows(ctx context.Context, tx pgx.Tx, cursor int64) ([]change, bool, error) {
	more, with := `NULL::bytea`, ``
	if c.Part.Prices {
		more, with = `m.money`, `LEFT JOIN haunchbook.settings_money m ON m.version = s.version`
	}
	rows, err := tx.Query(ctx, fmt.Sprintf(`SELECT s.change, s.id, s.author, s.version, s.aside, s.form, s.open, %s
		FROM haunchbook.settings s %s WHERE s.change > $1 ORDER BY s.change LIMIT %d`, more, with, batch), cursor)
	return rowsOf(rows, err, func(row pgx.CollectableRow) (change, error) {
		ch := change{set: &setRow{}}
		s := ch.set
		return ch, row.Scan(&ch.n, &s.id, &s.author, &s.version, &s.aside, &s.form, &s.open, &s.money)
	})
}

func (c *Conn) listRows(ctx context.Context, tx pgx.Tx, cursor int64) ([]change, bool, error) {
	rows, err := tx.Query(ctx, fmt.Sprintf(`SELECT change, id, units, number, author, stored, list, form FROM haunchbook.prices WHERE change > $1 ORDER BY change LIMIT %d`, batch), cursor)
	return rowsOf(rows, err, func(row pgx.CollectableRow) (change, error) {
		ch := change{list: &listRow{}}
		l := ch.list
		return ch, row.Scan(&ch.n, &l.id, &l.units, &l.number, &l.author, &l.stored, &l.list, &l.form)
	})
}

// tooNew refuses what a newer program wrote, before anything of it is taken.
func tooNew(form int, author string) error {
	if form <= job.Version {
		return nil
	}
	return &storage.Fault{Kind: storage.Newer, Text: fmt.Sprintf("%s works with a newer version of this program (job files of version %d; this one reads up to %d)", author, form, job.Version),
		Way: "update this program; your own book goes on as it is"}
}

// puts gives a row's parts put together on what is known of the job before. What does not
// read, as only a client that is not this program writes it, is told by its place.
func (e *editRow) put(c *course) (edit, error) {
	out := edit{id: e.id, version: e.version, author: e.author, at: e.at, label: e.label}
	if e.moneyLabel != nil {
		out.label = *e.moneyLabel
	}
	wrong := func(err error) (edit, error) {
		return out, &storage.Fault{Kind: storage.Invalid, Text: fmt.Sprintf("version %d of a job in the office book, by %s, does not read: %v", e.version, e.author, err), Way: "its owner may look into it; the job stays here as it is", Err: err}
	}
	if err := tooNew(e.form, e.author); err != nil {
		return out, err
	}
	var err error
	if out.kept.Data, err = c.join(e.open, e.money); err != nil {
		return wrong(err)
	}
	if out.kept.Record, err = joinRecord(e.record, e.invoices, c.kept.Record); err != nil {
		return wrong(err)
	}
	out.kept.Archived = e.archived
	if err := out.kept.State.UnmarshalText([]byte(e.state)); err != nil {
		return wrong(err)
	}
	c.kept = out.kept
	return out, nil
}

func (r *revRow) put() (rev, error) {
	out := rev{id: r.id, number: r.number, author: r.author, at: r.at, note: r.note}
	if r.moneyNote != nil {
		out.note = *r.moneyNote
	}
	if err := tooNew(r.form, r.author); err != nil {
		return out, err
	}
	var err error
	if out.data, err = joined(r.open, r.money, nil); err != nil {
		return out, &storage.Fault{Kind: storage.Invalid, Text: fmt.Sprintf("revision %d of a job in the office book, by %s, does not read: %v", r.number, r.author, err), Way: "its owner may look into it", Err: err}
	}
	return out, nil
}

func (l *listRow) put() (storage.PriceVersion, error) {
	v := storage.PriceVersion{Stored: l.stored}
	if err := tooNew(l.form, l.author); err != nil {
		return v, err
	}
	text, err := unpack(l.list)
	if err == nil {
		v.List, err = estimate.ReadPrices(text)
	}
	if err == nil && unitsName(v.List.Units) != l.units {
		err = errors.New("it is for other units")
	}
	if err != nil {
		return v, &storage.Fault{Kind: storage.Invalid, Text: fmt.Sprintf("a price list in the office book, by %s, does not read: %v", l.author, err), Way: "its owner may look into it", Err: err}
	}
	return v, nil
}

// unitsName gives what the office book calls units.
func unitsName(u geometry.Units) string { return u.String() }
