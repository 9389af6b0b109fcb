package trial_test

import (
	"context"
	"fmt"
	"testing"

	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// A test of what an estimator sees of an office book.
func Example() {
	_ = func(t *testing.T) {
		server := trial.Shared(t) // or the test is left out
		db := server.NewBook(t)
		c, err := office.Connect(context.Background(), server.Address(t, "ed", db), nil)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Println(c.Part)
	}
}
