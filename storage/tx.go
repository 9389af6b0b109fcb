package storage

import (
	"encoding/json"
	"errors"
	"fmt"

	bolt "go.etcd.io/bbolt"
)

// tx is a transaction that speaks in records.
type tx struct {
	*bolt.Tx
	path     string
	about    about // of an update
	pictures *pictureCache
	changed  map[ID]uint64 // the jobs that an update changed, by the stamp of the last change
}

// get gives a payload; a Fault of kind Missing if there is no such record. The
// payload is valid within the transaction.
func (t *tx) get(in bucket, k key) ([]byte, error) {
	bk := t.Bucket(in.name())
	if bk == nil {
		return nil, &Fault{Kind: Missing, Path: t.path, Text: "no " + bucketNames[in] + " in this book"}
	}
	v := bk.Get(k.bytes())
	if v == nil {
		return nil, &Fault{Kind: Missing, Path: t.path, Text: fmt.Sprintf("nothing stored under %s %d.%d", bucketNames[in], k.a, k.b)}
	}
	return t.open(in, k, v)
}

// has tells whether there is a record, sound or not.
func (t *tx) has(in bucket, k key) bool {
	bk := t.Bucket(in.name())
	return bk != nil && bk.Get(k.bytes()) != nil
}

// open unseals a value and sees that it is the one asked for.
func (t *tx) open(in bucket, k key, v []byte) ([]byte, error) {
	r, n, err := unseal(v)
	if err == nil && (n != len(v) || r.in != in || r.key != k) {
		err = errRecord
	}
	if err != nil {
		return nil, damaged(t.path, fmt.Sprintf("the record %s %d.%d is damaged", bucketNames[in], k.a, k.b), err)
	}
	return r.payload, nil
}

func (t *tx) put(in bucket, k key, payload []byte) error {
	if len(payload) > maxPayload {
		return &Fault{Kind: Invalid, Path: t.path, Text: fmt.Sprintf("a record of %d MB", len(payload)>>20), Way: "64 MB is the most"}
	}
	t.about.Stamp++
	if t.changed != nil && touches(in) {
		t.changed[ID(k.a)] = t.about.Stamp
	}
	packed := (in == inEdits || in == inRevisions) && !isFolded(payload)
	r := record{in: in, packed: packed, stamp: t.about.Stamp, key: k, payload: payload}
	return t.Bucket(in.name()).Put(k.bytes(), r.seal())
}

func (t *tx) delete(in bucket, k key) error { return t.Bucket(in.name()).Delete(k.bytes()) }

func (t *tx) getJSON(in bucket, k key, v any) error {
	data, err := t.get(in, k)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return damaged(t.path, fmt.Sprintf("the record %s %d.%d does not read", bucketNames[in], k.a, k.b), err)
	}
	return nil
}

func (t *tx) putJSON(in bucket, k key, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return t.put(in, k, data)
}

// each visits the records of a bucket whose key starts with a, or all for 0, in
// order of their keys. A damaged record is passed with an error.
func (t *tx) each(in bucket, a uint64, visit func(k key, payload []byte, err error) error) error {
	bk := t.Bucket(in.name())
	if bk == nil {
		return nil
	}
	c := bk.Cursor()
	for kb, v := c.Seek((key{a, 0}).bytes()); kb != nil; kb, v = c.Next() {
		k, ok := keyOf(kb)
		if !ok {
			if err := visit(key{}, nil, damaged(t.path, "a key in "+bucketNames[in]+" is damaged", errRecord)); err != nil {
				return err
			}
			continue
		}
		if a != 0 && k.a != a {
			return nil
		}
		payload, err := t.open(in, k, v)
		if err := visit(k, payload, err); err != nil {
			return err
		}
	}
	return nil
}

// deleteAll removes the records of a bucket whose key starts with a.
func (t *tx) deleteAll(in bucket, a uint64) error {
	var keys []key
	err := t.each(in, a, func(k key, _ []byte, _ error) error {
		keys = append(keys, k)
		return nil
	})
	for _, k := range keys {
		err = errors.Join(err, t.delete(in, k))
	}
	return err
}

// eachOf visits every record of the book, damaged ones with an error.
func (t *tx) eachOf(visit func(in bucket, k key, err error) error) error {
	for in := inMeta; in <= lastBucket; in++ {
		if err := t.each(in, 0, func(k key, _ []byte, err error) error { return visit(in, k, err) }); err != nil {
			return err
		}
	}
	return nil
}
