package storage

import (
	"math/rand/v2"
	"slices"
	"testing"

	"haunchbook.example/app/actual"
)

// What is kept in mind of what changed is what the book says when it is looked through,
// whatever is done to it, also after it was made smaller and opened anew.
func TestTouched(t *testing.T) {
	path := newPath(t)
	b := open(t, path)
	random := rand.New(rand.NewPCG(4, 2))
	var ids []ID
	since := []uint64{0}
	for n := range 300 {
		var err error
		switch k := random.IntN(10); {
		case len(ids) < 5 || k == 0:
			ids = append(ids, must(b.Create(shop(n)))(t))
		case k == 1:
			i := random.IntN(len(ids))
			err = b.Delete(ids[i])
			ids = slices.Delete(ids, i, i+1)
		case k == 2:
			_, err = b.Revise(ids[random.IntN(len(ids))], "printed")
		case k == 3:
			err = b.SetRecord(ids[random.IntN(len(ids))], actual.Record{Trucks: n})
		case k == 4:
			err = b.Edit(0, "none", shop(n)) // fails, and changes nothing
			if err != nil {
				err = nil
			}
		case k == 5 && n%50 == 0:
			err = b.Compact()
		case k == 6 && n%40 == 0:
			if err = b.Close(); err == nil {
				b = open(t, path)
			}
		default:
			err = b.Edit(ids[random.IntN(len(ids))], "Edit", shop(n))
		}
		if err != nil {
			t.Fatal(err)
		}
		from := since[random.IntN(len(since))]
		got, now, err := b.Touched(from)
		var want []ID
		if err == nil {
			err = b.view(func(t *tx) error { want = t.touched(from); return nil })
		}
		slices.Sort(want)
		if err != nil || !slices.Equal(got, want) {
			t.Fatalf("step %d, since %d: %v, want %v, %v", n, from, got, want, err)
		}
		since = append(since, now)
	}
}
