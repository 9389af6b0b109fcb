package office_test

import (
	"context"
	"testing"

	"github.com/jackc/pgx/v5"

	"haunchbook.example/storage/office/trial"
)

// Who stays on a job is told to nobody: else each word of it would bring the next about.
func TestStayingIsNoNews(t *testing.T) {
	s := trial.Shared(t)
	db := s.NewBook(t)
	c := connect(t, s, "ed", db)
	ear, err := pgx.Connect(t.Context(), s.URL("eve", db))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = ear.Close(context.Background()) })
	if _, err := ear.Exec(t.Context(), `LISTEN haunchbook`); err != nil {
		t.Fatal(err)
	}
	const device, one, other = "00000000000000000000000000000001", "0000000000000000000000000000000a", "0000000000000000000000000000000b"
	for range 3 {
		if _, err := c.Present(t.Context(), device, one); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := c.Present(t.Context(), device, other); err != nil {
		t.Fatal(err)
	}
	if _, err := ear.Exec(t.Context(), `SELECT pg_notify('haunchbook', 'end')`); err != nil {
		t.Fatal(err)
	}
	told := 0
	for {
		n, err := ear.WaitForNotification(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if n.Payload == "end" {
			break
		}
		told++
	}
	if told != 2 {
		t.Errorf("coming and going to another job are told %d times, want 2", told)
	}
}
