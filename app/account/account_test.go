package account

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/estimate"
)

func cents(n int64) decimal.Decimal { return decimal.New(n, -2) }

// By hand: a contract of 10,000.01 with 6.5 % retainage, paid in three steps; a change of
// 333.33 is accepted after the deposit, one of 999.99 declined, one left open.
//
//	deposit  30 % of 10,000.01           = 3,000.003 → 3,000.00, nothing kept back
//	progress 50 % of 10,333.34           = 5,166.67, kept back 335.83355 → 335.83, asked 4,830.84
//	final    10,333.34 − 8,166.67        = 2,166.67, kept back 140.83355 → 140.83, asked 2,025.84
//	retainage 335.83 + 140.83            = 476.66
func TestOneJobFromDepositToRetainage(t *testing.T) {
	steps := estimate.Terms{Steps: []estimate.Step{{When: "on signing", Percent: decimal.NewFromInt(30)}, {When: "on the pour", Percent: decimal.NewFromInt(50)}, {When: "when done", Percent: decimal.NewFromInt(20)}}}
	a := Account{Contract: Contract{Amount: cents(1_000_001)}, Retainage: decimal.RequireFromString("6.5")}
	var got []string
	for n := 1; n < 9; n++ {
		i, ok := Of(a).Next(steps)
		if !ok {
			break
		}
		i.Number = n
		a.Invoices = append(a.Invoices, i)
		got = append(got, i.Kind.String()+" "+i.Amount.StringFixed(2)+" "+i.Held.StringFixed(2))
		if n == 1 {
			a.Changes = []Change{{Number: 1, Amount: cents(33_333), State: Accepted, Days: 2}, {Number: 2, Amount: cents(99_999), State: Declined}, {Number: 3, Amount: cents(5)}}
		}
	}
	want := []string{"deposit 3000.00 0.00", "progress 5166.67 335.83", "final 2166.67 140.83", "retainage 0.00 -476.66"}
	if !slices.Equal(got, want) {
		t.Errorf("invoices %q, want %q", got, want)
	}
	a.Payments = []Payment{{Invoice: 1, Amount: cents(300_000)}, {Invoice: 2, Amount: cents(400_000)}}
	s := Of(a)
	if !s.Sum.Equal(cents(1_033_334)) || !s.Billed.Equal(s.Sum) || !s.Left.IsZero() || !s.Held.IsZero() || !s.Asked.Equal(s.Sum) || !s.Open.Equal(cents(333_334)) || s.Days != 2 || len(s.Findings) > 0 {
		t.Errorf("%+v", s)
	}
	if p := s.NextPayment(); p.Invoice != 2 || !p.Amount.Equal(cents(83_084)) {
		t.Errorf("the next payment is %+v", p)
	}
	a.Payments = append(a.Payments, Payment{Invoice: 1, Amount: cents(1)}, Payment{Invoice: 9, Amount: cents(1)})
	a.Changes[0].State = Declined
	if s := Of(a); len(s.Findings) != 3 {
		t.Errorf("overpaid, an unknown invoice and more than the contract: %v", s.Findings)
	}
}

// Whatever is agreed, billed and paid, in whole cents: what is asked is what is billed less
// what is kept back, what is open is what is asked less what is paid, in sum and of each;
// and the invoices that the program offers bill the contract exactly, whatever changes
// between them.
func TestSumsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		contract := rapid.Int64Range(0, 1e11).Draw(t, "contract")
		a := Account{Contract: Contract{Amount: cents(contract)}, Retainage: cents(rapid.Int64Range(0, 2000).Draw(t, "retainage"))}
		var terms estimate.Terms
		for left := int64(100); left > 0 && len(terms.Steps) < 5; {
			p := rapid.Int64Range(1, left).Draw(t, "percent")
			terms.Steps, left = append(terms.Steps, estimate.Step{When: "then", Percent: decimal.NewFromInt(p)}), left-p
		}
		sum := contract
		var paid int64
		for n := 1; n < 20; n++ {
			if c := rapid.Int64Range(-1e4, 1e6).Draw(t, "change"); c%3 == 0 && n < 10 && sum+c > 0 {
				a.Changes, sum = append(a.Changes, Change{Number: n, Amount: cents(c), State: Accepted}), sum+c
			}
			i, ok := Of(a).Next(terms)
			if !ok {
				break
			}
			i.Number = n
			a.Invoices = append(a.Invoices, i)
			p := rapid.Int64Range(0, 1e6).Draw(t, "paid")
			a.Payments, paid = append(a.Payments, Payment{Invoice: n, Amount: cents(p)}), paid+p
		}
		s := Of(a)
		var billed, held, asked, open int64
		for _, b := range s.Bills {
			billed, held = billed+b.Amount.Shift(2).IntPart(), held+b.Held.Shift(2).IntPart()
			asked, open = asked+b.Asked.Shift(2).IntPart(), open+b.Open.Shift(2).IntPart()
			if b.Amount.Exponent() < -2 && !b.Amount.Equal(b.Amount.Round(2)) || !b.Held.Equal(b.Held.Round(2)) {
				t.Fatalf("%+v is not in cents", b)
			}
		}
		if !s.Sum.Equal(cents(sum)) || !s.Billed.Equal(cents(billed)) || !s.Asked.Equal(cents(billed-held)) || asked != billed-held || !s.Open.Equal(cents(asked-paid)) || open != asked-paid {
			t.Fatalf("billed %d, held %d, asked %d, paid %d, open %d: %+v", billed, held, asked, paid, open, s)
		}
		if _, more := s.Next(terms); !more && sum > 0 && billed < sum {
			t.Fatalf("%d of %d is billed and nothing is left to ask for", billed, sum)
		}
	})
}

// What is kept back of an invoice follows its amount and its kind, until it is typed itself.
func TestKeptBackFollows(t *testing.T) {
	a := Account{Contract: Contract{Amount: cents(1000000)}, Retainage: cents(500)}
	i, _ := Of(a).Next(estimate.Terms{})
	a.Invoices = []Invoice{i}
	for _, c := range []struct {
		what   string
		change func(*Invoice)
		want   int64
	}{
		{"all of it", func(*Invoice) {}, 50000},
		{"an amount", func(i *Invoice) { i.Amount = cents(400000) }, 20000},
		{"a deposit", func(i *Invoice) { i.Kind = Deposit }, 0},
		{"progress again", func(i *Invoice) { i.Kind = Progress }, 20000},
		{"typed", func(i *Invoice) { i.Held = cents(12345) }, 12345},
		{"and it stays", func(i *Invoice) { i.Amount = cents(500000) }, 12345},
	} {
		were := slices.Clone(a.Invoices)
		c.change(&a.Invoices[0])
		a.Follow(were)
		if got := a.Invoices[0].Held; !got.Equal(cents(c.want)) {
			t.Errorf("%s: %s is kept back, want %s", c.what, got, cents(c.want))
		}
	}
}
