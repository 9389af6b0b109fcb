package words_test

import (
	"testing"
	"time"

	"haunchbook.example/app/window/words"
)

func TestAge(t *testing.T) {
	now := time.Date(2026, 3, 4, 5, 6, 7, 0, time.UTC)
	for before, want := range map[time.Duration]string{
		-time.Hour: "of a time yet to come: a clock was wrong", 10 * time.Second: "new", -10 * time.Second: "new", 90 * time.Second: "1 minute old",
		47 * time.Hour: "47 hours old", 48 * time.Hour: "2 days old", 400 * 24 * time.Hour: "400 days old",
	} {
		if got := words.Age(now.Add(-before), now); got != want {
			t.Errorf("%v before: %q, want %q", before, got, want)
		}
	}
}
