package office_test

import (
	"context"
	"testing"

	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// connect connects somebody.
func connect(t testing.TB, s *trial.Server, user, db string) *office.Conn {
	t.Helper()
	c, err := office.Connect(context.Background(), s.Address(t, user, db), nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = c.Close() })
	return c
}
