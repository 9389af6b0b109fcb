module haunchbook

go 1.26.8

require github.com/shopspring/decimal v1.6.0
