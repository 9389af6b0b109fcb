package estimate

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Doubt asks about a price or a wage that is likely a slip of the hand: 0, or more than
// ten times that of the starting list; "" for nothing to ask. Common practice, no
// source.
func Doubt(price, starting decimal.Decimal) string {
	switch {
	case !starting.IsPositive():
		return ""
	case price.IsZero():
		return fmt.Sprintf("Nothing? The starting list, which is invented, has %s.", starting.StringFixed(2))
	case price.GreaterThan(starting.Mul(decimal.NewFromInt(10))):
		return fmt.Sprintf("%s? That is more than ten times the %s of the starting list, which is invented.", price.StringFixed(2), starting.StringFixed(2))
	}
	return ""
}
