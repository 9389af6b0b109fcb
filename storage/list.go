package storage

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"haunchbook.example/geometry"
)

// Summary is a job's line in the list.
type Summary struct {
	ID        ID        `json:"id"`
	Name      string    `json:"name"`
	Customer  string    `json:"customer,omitzero"`
	Site      string    `json:"site,omitzero"`
	Date      string    `json:"date,omitzero"`
	Revision  string    `json:"revision,omitzero"`
	State     State     `json:"state"`
	Archived  bool      `json:"archived,omitzero"`
	Created   time.Time `json:"created"`
	Changed   time.Time `json:"changed"`
	Thumbnail []Dot     `json:"thumbnail,omitzero"` // corners of the outline, for a small picture
}

// Dot is a corner of a thumbnail on a grid of 0 to 255, Y up, in the outline's
// proportions.
type Dot struct{ X, Y uint8 }

// MarshalJSON writes the dot as [x, y].
func (d Dot) MarshalJSON() ([]byte, error) { return fmt.Appendf(nil, "[%d,%d]", d.X, d.Y), nil }

// UnmarshalJSON reads what MarshalJSON writes.
func (d *Dot) UnmarshalJSON(b []byte) error {
	var xy [2]uint8
	err := json.Unmarshal(b, &xy)
	d.X, d.Y = xy[0], xy[1]
	return err
}

// Matches tells whether every word of query occurs in the job's number, name,
// customer, site, date or state, in any case.
func (s Summary) Matches(query string) bool {
	words := strings.Fields(strings.ToLower(query))
	if len(words) == 0 {
		return true
	}
	text := strings.ToLower(strings.Join([]string{s.ID.String(), s.Name, s.Customer, s.Site, s.Date, s.State.String()}, "\n"))
	return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) })
}

// thumbnailCorners is enough for a picture the size of a thumb.
const thumbnailCorners = 48

func thumbnail(r geometry.Ring) []Dot {
	if len(r) < 3 {
		return nil
	}
	lo, hi := r.Bounds()
	size := float64(max(hi.X-lo.X, hi.Y-lo.Y, 1))
	step := max(1, (len(r)+thumbnailCorners-1)/thumbnailCorners)
	var dots []Dot
	for i := 0; i < len(r); i += step {
		x, y := float64(r[i].X-lo.X)/size, float64(r[i].Y-lo.Y)/size
		dots = append(dots, Dot{uint8(x*255 + 0.5), uint8(y*255 + 0.5)})
	}
	return dots
}

// List gives the jobs, last changed first. If records are damaged, it gives the
// sound ones with a Fault.
func (b *Book) List() ([]Summary, error) {
	var list []Summary
	var fault error
	err := b.view(func(t *tx) error {
		var a about
		if err := t.getJSON(inMeta, aboutKey, &a); err != nil {
			return err
		}
		list, fault = b.listed.read(t, a.Jobs)
		if fault == nil && len(list) != a.Jobs {
			fault = damaged(b.path, fmt.Sprintf("the list has %d jobs of %d", len(list), a.Jobs), nil)
		}
		return nil
	})
	Sort(list, ByChanged)
	return list, errors.Join(err, fault)
}

// listCache keeps the entries as they were read, by the stamps of their records,
// so that of a long list only what changed is read again.
type listCache struct {
	sync.Mutex
	lines map[key]listed
}

type listed struct {
	stamp uint64
	Summary
}

// read gives the list, n entries or so, and of damaged ones the last fault.
func (c *listCache) read(t *tx, n int) (list []Summary, fault error) {
	c.Lock()
	defer c.Unlock()
	bk := t.Bucket(inEntries.name())
	if bk == nil {
		return nil, damaged(t.path, "the list is gone", nil)
	}
	old := c.lines
	c.lines = make(map[key]listed, n)
	list = make([]Summary, 0, n)
	cursor := bk.Cursor()
	for kb, v := cursor.First(); kb != nil; kb, v = cursor.Next() {
		k, ok := keyOf(kb)
		if !ok {
			fault = damaged(t.path, "a key in "+bucketNames[inEntries]+" is damaged", errRecord)
			continue
		}
		line, known := old[k]
		if !known || line.stamp != stampOf(v) {
			payload, err := t.open(inEntries, k, v)
			var e entry
			if err == nil {
				err = json.Unmarshal(payload, &e)
			}
			if err != nil {
				fault = err
				continue
			}
			line = listed{stampOf(v), e.Summary}
		}
		c.lines[k] = line
		list = append(list, line.Summary)
	}
	return list, fault
}

// SortBy is what a list is sorted by.
type SortBy uint8

const (
	ByChanged SortBy = iota // last changed first
	ByName
	ByCustomer
	BySite
	ByState // in draft first
	ByNumber
)

// Sort sorts a list; jobs that are equal stay last changed first.
func Sort(list []Summary, by SortBy) {
	fold := func(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) }
	slices.SortStableFunc(list, func(a, b Summary) int {
		c := 0
		switch by {
		case ByName:
			c = fold(a.Name, b.Name)
		case ByCustomer:
			c = fold(a.Customer, b.Customer)
		case BySite:
			c = fold(a.Site, b.Site)
		case ByState:
			c = cmp.Compare(a.State, b.State)
		case ByNumber:
			c = cmp.Compare(a.ID, b.ID)
		}
		return cmp.Or(c, b.Changed.Compare(a.Changed), cmp.Compare(b.ID, a.ID))
	})
}
