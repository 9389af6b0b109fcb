package storage

import "fmt"

// migrations bring a book from the schema of their index plus one to the next,
// within one transaction.
var migrations = []func(*tx) error{picturesOnce}

// migrate brings the book to the schema of this program, with a backup first.
func (b *Book) migrate() error { return b.migrateTo(schema, migrations) }

func (b *Book) migrateTo(version int, steps []func(*tx) error) error {
	var a about
	if err := b.view(func(t *tx) error { return t.getJSON(inMeta, aboutKey, &a) }); err != nil {
		return err
	}
	if a.Schema == version {
		return nil
	}
	if a.Schema < 1 || version-1 > len(steps) {
		return damaged(b.path, fmt.Sprintf("the book says it has form %d", a.Schema), nil)
	}
	if _, err := b.backup(fmt.Sprintf("form%d", a.Schema), verifyPages); err != nil {
		return fmt.Errorf("no backup before bringing the book to the new form, so it is left as it was: %w", err)
	}
	return b.update(func(t *tx) error {
		for in := range bucketNames {
			if _, err := t.CreateBucketIfNotExists(in.name()); err != nil {
				return err
			}
		}
		for v := a.Schema; v < version; v++ {
			if err := steps[v-1](t); err != nil {
				return fmt.Errorf("bringing the book from form %d to %d: %w", v, v+1, err)
			}
			t.about.Schema = v + 1
		}
		return nil
	})
}
