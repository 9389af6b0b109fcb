package job

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
)

// A job is its two parts, and no field that holds money lies in the open one. The fields
// are taken from the table of fields, so that a new one cannot be forgotten.
func TestMoneyLiesApart(t *testing.T) {
	for _, g := range field.Groups("") {
		for _, r := range g.Rows {
			if r.Kind != field.Money {
				continue
			}
			switch {
			case strings.HasPrefix(r.Path, "price."), strings.HasPrefix(r.Path, "account."), r.Path == "ground.short", r.Path == "ground.left":
			default:
				t.Errorf("%s is money, and is left in the open part of a job", r.Path)
			}
		}
	}
	j := New()
	j.Name = "Shop"
	fill(reflect.ValueOf(&j.Price).Elem())
	j.Price.Prices = estimate.Starting(geometry.FeetInches)
	j.Price.Extras = []estimate.Extra{{Name: "Drain", Amount: decimal.NewFromInt(97531)}}
	j.Account.Contract.Amount = decimal.NewFromInt(97532)
	j.Account.Payments = []account.Payment{{Invoice: 1, Amount: decimal.NewFromInt(97533)}}
	j.Ground.Short, j.Ground.Left = decimal.NewFromInt(97534), decimal.NewFromInt(97535)
	open := j.WithMoney(NewIn(j.Units)).Encode()
	if bytes.Contains(open, []byte("9753")) || bytes.Contains(open, []byte("Drain")) {
		t.Errorf("the open part tells money:\n%s", open)
	}
	back := readSome(t, open).WithMoney(readSome(t, j.Money()))
	if !bytes.Equal(back.Encode(), j.Encode()) {
		t.Errorf("the parts put together are another job:\n%s\nwant\n%s", back.Encode(), j.Encode())
	}
}

// fill sets the numbers of a struct to what is found again.
func fill(v reflect.Value) {
	for i := range v.NumField() {
		if d, ok := v.Field(i).Interface().(decimal.Decimal); ok && d.IsZero() {
			v.Field(i).Set(reflect.ValueOf(decimal.NewFromInt(97536)))
		}
	}
}

// readSome reads a file whose plan may be at fault.
func readSome(t *testing.T, data []byte) Job {
	t.Helper()
	j, err := Read(bytes.NewReader(data))
	if j.Version == 0 {
		t.Fatal(err)
	}
	return j
}
