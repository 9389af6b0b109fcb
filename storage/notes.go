package storage

import (
	"bytes"
	"encoding/json"
	"hash/fnv"
)

// note is something a window wants remembered.
type note struct {
	Name  string          `json:"name"`
	Value json.RawMessage `json:"value"`
}

func noteKey(name string) key {
	h := fnv.New64a()
	h.Write([]byte(name))
	return key{h.Sum64(), 0}
}

// Remember keeps a value, as JSON, under a name: the job that was open, the size
// of a window.
func (b *Book) Remember(name string, value any) error {
	data, err := json.Marshal(value)
	if err != nil {
		return err
	}
	return b.update(func(t *tx) error {
		if old, err := t.get(inNotes, noteKey(name)); err == nil && bytes.Contains(old, data) {
			var n note
			if json.Unmarshal(old, &n) == nil && n.Name == name && bytes.Equal(n.Value, data) {
				return nil
			}
		}
		return t.putJSON(inNotes, noteKey(name), note{name, data})
	})
}

// Recall sets *value to what was remembered under the name and tells whether
// there was anything.
func (b *Book) Recall(name string, value any) (bool, error) {
	var n note
	err := b.view(func(t *tx) error { return t.getJSON(inNotes, noteKey(name), &n) })
	switch {
	case IsKind(err, Missing):
		return false, nil
	case err != nil:
		return false, err
	}
	return n.Name == name, json.Unmarshal(n.Value, value)
}
