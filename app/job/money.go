package job

import (
	"reflect"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/account"
	"haunchbook.example/app/estimate"
	"haunchbook.example/app/field"
	"haunchbook.example/geometry"
)

// moneyFile is what of a job is money, as a job file that says nothing else.
type moneyFile struct {
	Schema  string          `json:"$schema,omitzero"`
	Version int             `json:"haunchbook"`
	Units   geometry.Units  `json:"units"`
	Price   estimate.Spec   `json:"price"`
	Account account.Account `json:"account,omitzero"`
	Ground  moneyOfGround   `json:"ground,omitzero"`
}

type moneyOfGround struct {
	Short decimal.Decimal `json:"short,omitzero"`
	Left  decimal.Decimal `json:"left,omitzero"`
}

// Money gives what of a job is money, as a job file that says nothing else: prices, wages,
// percentages, extras and options, the account, and what a wrong order costs. Whoever may
// not see prices is given a job without it; see WithMoney.
func (j Job) Money() []byte {
	m := moneyFile{field.SchemaName(Version), Version, j.Units, j.Price, j.Account, moneyOfGround{j.Ground.Short, j.Ground.Left}}
	return append(encode(nil, reflect.ValueOf(m), j.Units, ""), '\n')
}

// WithMoney gives the job with the money of another in place of its own. WithMoney(NewIn(u))
// is a job that tells nobody a price.
func (j Job) WithMoney(of Job) Job {
	of = of.Clone()
	j.Price, j.Account = of.Price, of.Account
	j.Ground.Short, j.Ground.Left = of.Ground.Short, of.Ground.Left
	return j
}
