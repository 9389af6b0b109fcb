package office

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/app/job"
	"haunchbook.example/app/revision"
	"haunchbook.example/geometry"
	"haunchbook.example/storage"
)

// Price lists and settings are of the whole book. Of lists every one is kept, and the last
// that came to the office book is the current one. Settings have versions as jobs have.

func isNoRows(err error) bool { return errors.Is(err, pgx.ErrNoRows) }

func listName(device string, v storage.PriceVersion) string {
	return named(device, "prices", unitsName(v.List.Units), v.Number, v.Stored, v.List.Encode())
}

var units = []geometry.Units{geometry.FeetInches, geometry.Millimeters}

// takeList takes a price list of another, or learns that an own one had arrived.
func (s *syncing) takeList(row listRow) error {
	v, err := row.put()
	if storage.IsKind(err, storage.Newer) {
		return err
	}
	if err != nil {
		s.Notes = append(s.Notes, Sentence(err))
		return nil
	}
	u := v.List.Units
	there := s.our.Lists[u]
	if row.number <= there {
		return nil
	}
	history, err := s.book.PriceHistory(u)
	if err != nil {
		return err
	}
	if len(history) > there && row.id == listName(s.our.Device, history[there]) {
		return s.listsThere(u, row.number)
	}
	if err := s.book.ReceivePrices(u, there, []storage.PriceVersion{v}); err != nil {
		return err
	}
	s.Lists++
	s.our, _, err = s.book.Office()
	return err
}

func (s *syncing) listsThere(u geometry.Units, n int) (err error) {
	if err := s.book.SetListsThere(u, n); err != nil {
		return err
	}
	s.our, _, err = s.book.Office()
	return err
}

// settingsWire is how settings go over the wire: the job that new ones start as in two
// parts, and the logo by its hash.
type settingsWire struct {
	Name  string          `json:"name,omitzero"`
	Lines []string        `json:"lines,omitzero"`
	Logo  string          `json:"logo,omitzero"`
	Start json.RawMessage `json:"start"`
	Frost string          `json:"frost"`
	Paper string          `json:"paper,omitzero"`
}

// takeSettings takes settings of another, with what was changed here besides.
func (s *syncing) takeSettings(ctx context.Context, row setRow) error {
	if err := tooNew(row.form, row.author); err != nil {
		return err
	}
	if row.version <= s.our.SettingsVersion {
		return nil
	}
	if row.aside {
		s.our.SettingsVersion = row.version
		return s.book.SetSettingsThere(nil, row.version)
	}
	mine, err := s.book.Settings()
	if err != nil {
		return err
	}
	base := storage.Settings{Start: job.New()}
	known := s.our.Settings != nil
	if known {
		if err := base.UnmarshalJSON(s.our.Settings); err != nil {
			return err
		}
	}
	theirs, err := s.readSettings(ctx, row, base)
	if err != nil {
		if storage.IsKind(explain(err), storage.Offline) {
			return err
		}
		s.Notes = append(s.Notes, fmt.Sprintf("the settings in the office book, by %s, do not read: %v", row.author, err))
		return nil
	}
	if !s.Part.Prices {
		theirs.Start = theirs.Start.WithMoney(mine.Start)
	}
	now := theirs
	if mine.Stored {
		var clashes []string
		if !known {
			clashes = []string{"all"}
		} else {
			now, clashes = revision.MergeParts("", base, mine, theirs)
		}
		if len(clashes) > 0 && !s.Part.settles() { // who can send none keeps his own
			now, _ = revision.MergeParts("", base, theirs, mine)
		} else if len(clashes) > 0 {
			now = theirs
			if err := s.aside(ctx, mine, theirs); err != nil {
				return err
			}
		}
	}
	now.Stored = true
	if err := s.book.ReceiveSettings(now, theirs, row.version); err != nil {
		return err
	}
	s.Settings = true
	s.our, _, err = s.book.Office()
	return err
}

// aside keeps one's own settings in the office book beside those that hold.
func (s *syncing) aside(ctx context.Context, mine, theirs storage.Settings) error {
	if same(mine, theirs) {
		return nil
	}
	for range rounds {
		var version int64
		if err := s.pg.QueryRow(ctx, `SELECT max(version) FROM haunchbook.settings`).Scan(&version); err != nil {
			return err
		}
		if stale, err := s.pushSettings(ctx, mine, version+1, true); err != nil || !stale {
			s.Notes = append(s.Notes, "the settings of the book were changed here and in the office book: the office's hold, and yours are kept there beside them")
			return err
		}
	}
	return &storage.Fault{Kind: storage.Offline, Text: "others change the settings without pause", Way: safe}
}

func same(a, b storage.Settings) bool {
	x, err := a.MarshalJSON()
	y, err2 := b.MarshalJSON()
	return err == nil && err2 == nil && bytes.Equal(x, y)
}

// readSettings puts settings together; money that did not come is as it was.
func (s *syncing) readSettings(ctx context.Context, row setRow, was storage.Settings) (storage.Settings, error) {
	var out storage.Settings
	text, err := unpack(row.open)
	if err != nil {
		return out, err
	}
	var w settingsWire
	if err := json.Unmarshal(text, &w); err != nil {
		return out, err
	}
	start, err := joined(pack(w.Start), row.money, was.Start.Money())
	if err != nil {
		return out, err
	}
	if out.Start, err = readKept(start); err != nil {
		return out, err
	}
	if out.Frost, err = geometry.ParseWritten(w.Frost); err != nil {
		return out, err
	}
	out.Paper, out.Company, out.Stored = w.Paper, storage.Company{Name: w.Name, Lines: w.Lines}, true
	if w.Logo != "" {
		if out.Company.Logo, err = s.picture(ctx, w.Logo); err != nil {
			return out, err
		}
	}
	return out, out.Check()
}

// pushSettings sends settings, in one transaction.
func (s *syncing) pushSettings(ctx context.Context, set storage.Settings, version int64, aside bool) (stale bool, err error) {
	tx, err := s.pg.Begin(ctx)
	if err != nil {
		return false, err
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	w := settingsWire{Name: set.Company.Name, Lines: set.Company.Lines, Start: withoutMoney(set.Start).Encode(), Frost: set.Frost.Exact(set.Start.Units), Paper: set.Paper}
	if len(set.Company.Logo) > 0 {
		sum := sha256.Sum256(set.Company.Logo)
		w.Logo = hex.EncodeToString(sum[:])
		if err := putPicture(ctx, tx, "settings", w.Logo, set.Company.Logo); err != nil {
			return false, err
		}
	}
	text, err := json.Marshal(w)
	if err != nil {
		return false, err
	}
	money := set.Start.Money()
	tag, err := tx.Exec(ctx, `INSERT INTO haunchbook.settings (id, version, aside, open, form) VALUES ($1, $2, $3, $4, $5)`,
		named(s.our.Device, "settings", text, money, version, aside), version, aside, pack(text), job.Version)
	if isStale(err) {
		return true, nil
	}
	if err == nil && tag.RowsAffected() > 0 {
		_, err = tx.Exec(ctx, `INSERT INTO haunchbook.settings_money (version, money) VALUES ($1, $2)`, version, pack(money))
	}
	if err != nil {
		return false, err
	}
	return false, tx.Commit(ctx)
}

// upRest sends price lists and settings, for who may write them.
func (s *syncing) upRest(ctx context.Context) (stale bool, err error) {
	if !s.Part.settles() {
		return false, nil
	}
	for _, u := range units {
		if stale, err := s.upLists(ctx, u); err != nil || stale {
			return stale, err
		}
	}
	set, err := s.book.Settings()
	if err != nil || !set.Stored {
		return false, err
	}
	data, err := set.MarshalJSON()
	if err != nil || bytes.Equal(data, s.our.Settings) {
		return false, err
	}
	if stale, err := s.pushSettings(ctx, set, s.our.SettingsVersion+1, false); err != nil || stale {
		return stale, err
	}
	if err := s.book.SetSettingsThere(&set, s.our.SettingsVersion+1); err != nil {
		return false, err
	}
	s.our, _, err = s.book.Office()
	return false, err
}

// upLists sends price lists. To an office book that has some already, a book that joins
// brings its own as earlier ones: the office's stays the current one.
func (s *syncing) upLists(ctx context.Context, u geometry.Units) (stale bool, err error) {
	history, err := s.book.PriceHistory(u)
	if err != nil {
		return false, err
	}
	there := s.our.Lists[u]
	if len(history) <= there {
		return false, nil
	}
	tx, err := s.pg.Begin(ctx)
	if err != nil {
		return false, err
	}
	defer func() { _ = tx.Rollback(context.WithoutCancel(ctx)) }()
	joins := !s.our.Settled && there > 0
	add := history[there:]
	if joins {
		current := history[there-1]
		current.Number = len(history) + 1
		add = append(slices.Clone(add), current)
	}
	for _, v := range add {
		_, err := tx.Exec(ctx, `INSERT INTO haunchbook.prices (id, units, number, stored, list, form) VALUES ($1, $2, $3, $4, $5, $6)`,
			listName(s.our.Device, v), unitsName(u), v.Number, v.Stored.UTC(), pack(v.List.Encode()), job.Version)
		if isStale(err) {
			return true, nil
		}
		if err != nil {
			return false, err
		}
	}
	if err := tx.Commit(ctx); err != nil {
		return false, err
	}
	if joins {
		s.Notes = append(s.Notes, "this book's own price lists went up as earlier ones; the office's is the current one")
	}
	return joins, s.listsThere(u, len(history)) // what was added to the end comes down again
}
