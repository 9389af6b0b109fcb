package storage

import (
	"encoding/json"

	"haunchbook.example/app/actual"
)

// SetRecord stores what a job took, written down after the pour.
func (b *Book) SetRecord(id ID, r actual.Record) error {
	if err := r.Validate(); err != nil {
		return &Fault{Kind: Invalid, Path: b.path, Text: err.Error(), Err: err}
	}
	return b.change(id, func(t *tx, e *entry) error {
		e.Changed = b.o.Now().UTC()
		return t.putJSON(inRecords, key{uint64(id), 0}, r)
	})
}

// Record gives what a job took; false if nothing was written down.
func (b *Book) Record(id ID) (actual.Record, bool, error) {
	var r actual.Record
	err := b.view(func(t *tx) error { return t.getJSON(inRecords, key{uint64(id), 0}, &r) })
	if IsKind(err, Missing) {
		return actual.Record{}, false, nil
	}
	return r, err == nil, err
}

// Records gives the jobs that have anything written down, with it.
func (b *Book) Records() (map[ID]actual.Record, error) {
	var all map[ID]actual.Record
	err := b.view(func(t *tx) error {
		all = map[ID]actual.Record{}
		return t.each(inRecords, 0, func(k key, payload []byte, err error) error {
			if err != nil {
				return err
			}
			var r actual.Record
			if err := json.Unmarshal(payload, &r); err != nil {
				return err
			}
			all[ID(k.a)] = r
			return nil
		})
	})
	return all, err
}
