package account_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
)

// Of a progress invoice a tenth is kept back until it is asked for.
func ExampleOf() {
	s := account.Of(account.Account{
		Contract: account.Contract{Amount: decimal.NewFromInt(12000)},
		Changes:  []account.Change{{Number: 1, Amount: decimal.NewFromInt(500), State: account.Accepted}},
		Invoices: []account.Invoice{{Number: 7, Kind: account.Progress, Amount: decimal.NewFromInt(8000), Held: decimal.NewFromInt(800)}},
		Payments: []account.Payment{{Invoice: 7, Amount: decimal.NewFromInt(7000)}},
	})
	fmt.Println("contract", s.Sum, "billed", s.Billed, "asked", s.Asked, "open", s.Open, "left", s.Left)
	// Output:
	// contract 12500 billed 8000 asked 7200 open 200 left 4500
}
