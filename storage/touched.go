package storage

import "slices"

// touching keeps in mind which jobs were changed since the book was first asked, so that a
// book of very many is not looked through for each edit. What it says is guarded by
// Book.write.
type touching struct {
	known bool
	since uint64        // the stamp after which it has all
	last  map[ID]uint64 // the stamp of each job's last change
}

// add takes what a transaction changed, once it is on disk.
func (c *touching) add(changed map[ID]uint64) {
	if !c.known {
		return
	}
	for id, stamp := range changed {
		c.last[id] = stamp
	}
}

// touches tells whether a record is one whose change concerns the office book.
func touches(in bucket) bool { return in == inEntries || in == inRevisions }

// Touched gives the jobs that were changed after a stamp, by their numbers, and the stamp
// up to which that is so.
func (b *Book) Touched(since uint64) (ids []ID, now uint64, err error) {
	b.write.Lock() // what is on disk is in mind too
	defer b.write.Unlock()
	err = b.view(func(t *tx) error {
		var a about
		if err := t.getJSON(inMeta, aboutKey, &a); err != nil {
			return err
		}
		if now = a.Stamp; now == since {
			return nil
		}
		if b.touched.known && since >= b.touched.since {
			for id, stamp := range b.touched.last {
				if stamp > since && t.has(inEntries, key{uint64(id), 0}) {
					ids = append(ids, id)
				}
			}
			return nil
		}
		ids = t.touched(since)
		return nil
	})
	if err == nil && !b.touched.known && !b.readOnly {
		b.touched = touching{true, now, map[ID]uint64{}}
	}
	slices.Sort(ids)
	return ids, now, err
}

// touched looks the whole book through.
func (t *tx) touched(since uint64) (ids []ID) {
	seen := map[ID]bool{}
	for _, in := range []bucket{inEntries, inRevisions} {
		bk := t.Bucket(in.name())
		if bk == nil {
			continue
		}
		c := bk.Cursor()
		for kb, v := c.First(); kb != nil; kb, v = c.Next() {
			k, ok := keyOf(kb)
			if id := ID(k.a); ok && stampOf(v) > since && !seen[id] && t.has(inEntries, key{k.a, 0}) {
				seen[id], ids = true, append(ids, id)
			}
		}
	}
	return ids
}
