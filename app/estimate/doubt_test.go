package estimate_test

import (
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/estimate"
)

func TestDoubt(t *testing.T) {
	for _, c := range []struct {
		price, starting, want string
	}{
		{"168", "168", ""},
		{"1680", "168", ""},
		{"1680.01", "168", "1680.01? That is more than ten times the 168.00 of the starting list, which is invented."},
		{"0", "54", "Nothing? The starting list, which is invented, has 54.00."},
		{"0", "0", ""}, // of what it has no price for
		{"900", "0", ""},
	} {
		if got := estimate.Doubt(decimal.RequireFromString(c.price), decimal.RequireFromString(c.starting)); got != c.want {
			t.Errorf("%s beside %s: %q, want %q", c.price, c.starting, got, c.want)
		}
	}
}
