package office

import (
	"context"
	"fmt"

	"haunchbook.example/storage"
)

// up sends what was done here; again tells that others came first.
func (s *syncing) up(ctx context.Context) (again bool, err error) {
	ids, stamp, err := s.book.Touched(s.our.Scanned)
	if err != nil {
		return false, err
	}
	for _, id := range ids {
		if err := ctx.Err(); err != nil {
			return false, err
		}
		stale, err := s.upJob(ctx, id)
		if err != nil {
			return false, err
		}
		again = again || stale
	}
	stale, err := s.upRest(ctx)
	if err != nil || again || stale {
		return true, err
	}
	if len(ids) > 0 || !s.our.Settled {
		if err := s.book.SetScanned(stamp); err != nil {
			return false, err
		}
	}
	return false, nil
}

func (s *syncing) upJob(ctx context.Context, id storage.ID) (stale bool, err error) {
	st, err := s.standing(id)
	if err != nil || st.ID == 0 {
		return false, err
	}
	p, err := s.push(ctx, s.book, st, s.our.Device)
	switch {
	case isStale(err):
		return true, nil
	case erasedBy(err) != "": // which was told
		return false, nil
	case err != nil && codeOf(err) == codeDenied:
		s.Notes = append(s.Notes, fmt.Sprintf("%v stays here: %s", id, Sentence(explain(err))))
		return false, nil
	case err != nil || !p.any:
		return false, err
	}
	s.Up += p.edits
	s.tell()
	if told := otherNumber(id, p.shared.Number); told != "" && st.Shared.Number == 0 {
		s.Notes = append(s.Notes, told)
	}
	return false, s.book.SetShared(id, p.shared)
}

// standing gives how a job stands, with its name in the office book; none of one that was
// deleted this moment.
func (s *syncing) standing(id storage.ID) (storage.Standing, error) {
	return standing(s.book, s.our, id, s.Part.Prices)
}

func standing(b *storage.Book, our storage.Office, id storage.ID, prices bool) (storage.Standing, error) {
	st, err := b.Standing(id, our.Since(), prices)
	if storage.IsKind(err, storage.Missing) {
		return storage.Standing{}, nil
	}
	st.Shared.Epoch = our.Since()
	if st.Shared.Job == "" {
		st.Shared.Job = jobName(our.Device, st.Summary)
	}
	return st, err
}

// Waiting gives how many edits of a book its office book does not have, without asking it;
// 0 for a book that has none.
func Waiting(b *storage.Book) (int, error) {
	our, ok, err := b.Office()
	if err != nil || !ok || our.Left {
		return 0, err
	}
	ids, _, err := b.Touched(our.Scanned)
	n := 0
	for _, id := range ids {
		st, err := standing(b, our, id, our.Prices)
		if err != nil {
			return n, err
		}
		if st.ID == 0 {
			continue
		}
		mine, err := messages(st, our.Device, Part{Prices: our.Prices})
		if err != nil {
			return n, err
		}
		n += len(mine) + len(st.Revisions)
	}
	return n, err
}
