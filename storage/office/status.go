package office

import (
	"context"

	"haunchbook.example/storage"
)

// Standing is how a book stands with its office book, as the office book tells.
type Standing struct {
	Jobs    int   // in the office book
	Behind  int64 // its changes that are not here yet
	Present []Presence
}

// Presence is somebody on a job.
type Presence struct{ Who, Job string }

// Standing asks how a book stands.
func (c *Conn) Standing(ctx context.Context, b *storage.Book) (Standing, error) {
	var s Standing
	our, _, err := b.Office()
	if err != nil {
		return s, err
	}
	err = c.pg.QueryRow(ctx, `SELECT (SELECT count(*) FROM haunchbook.jobs), (SELECT last FROM haunchbook.clock) - $1`, our.Cursor).Scan(&s.Jobs, &s.Behind)
	if err != nil {
		return s, explain(err)
	}
	rows, err := c.pg.Query(ctx, `SELECT DISTINCT who, job FROM haunchbook.presence WHERE device <> $1 AND seen > clock_timestamp() - make_interval(secs => $2) ORDER BY who, job`, our.Device, gone.Seconds())
	if err != nil {
		return s, explain(err)
	}
	defer rows.Close()
	for rows.Next() {
		var who, name string
		if err := rows.Scan(&who, &name); err != nil {
			return s, explain(err)
		}
		s.Present = append(s.Present, Presence{who, called(b, name)})
	}
	return s, explain(rows.Err())
}
