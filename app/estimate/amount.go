package estimate

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// Amount is a price that a list may not have: none is not zero.
type Amount struct {
	Set bool
	To  decimal.Decimal
}

// Costs is the amount d.
func Costs(d decimal.Decimal) Amount { return Amount{true, d} }

// Equal tells whether both are the same amount, or both none.
func (a Amount) Equal(b Amount) bool { return a.Set == b.Set && a.To.Equal(b.To) }

// String gives the amount to the cent, and what it has beyond; "no price" for none.
func (a Amount) String() string {
	if !a.Set {
		return "no price"
	}
	return a.To.StringFixed(max(moneyPlaces, -a.To.Exponent()))
}

// MarshalText gives the number; "" for none.
func (a Amount) MarshalText() ([]byte, error) {
	if !a.Set {
		return nil, nil
	}
	return []byte(a.To.String()), nil
}

// UnmarshalText reads what MarshalText gives.
func (a *Amount) UnmarshalText(text []byte) error {
	*a = Amount{}
	if len(bytes.TrimSpace(text)) == 0 {
		return nil
	}
	d, err := decimal.NewFromString(string(text))
	if err != nil {
		return fmt.Errorf("found %q; write an amount such as 12.50", text)
	}
	*a = Costs(d)
	return nil
}

// UnmarshalJSON reads a number, or one in quotes.
func (a *Amount) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		*a = Amount{}
		return nil
	}
	return a.UnmarshalText(bytes.Trim(data, `"`))
}

// Money prints an amount with its sign and with commas: "$12,345.60".
func Money(sign string, d decimal.Decimal) string {
	text := sign + Thousands(d.Abs().StringFixed(moneyPlaces))
	if d.IsNegative() {
		return "-" + text
	}
	return text
}

// Thousands puts a comma between the thousands of a number.
func Thousands(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	whole, rest, cut := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if cut {
		whole += "." + rest
	}
	return sign + whole
}
