package storage

import (
	"slices"
	"time"

	"haunchbook.example/app/estimate"
	"haunchbook.example/geometry"
)

// PriceVersion is one state of a price list.
type PriceVersion struct {
	Number int // 1, 2, … for lists of its units
	Stored time.Time
	List   estimate.PriceList
}

// storedPrices is a version as it is stored.
type storedPrices struct {
	Stored time.Time          `json:"stored"`
	List   estimate.PriceList `json:"list"`
}

func pricesKey(u geometry.Units, number int) key { return key{uint64(u) + 1, uint64(number)} }

// Prices gives the current price list for jobs in u: the last one stored, or the
// built-in list of invented prices.
func (b *Book) Prices(u geometry.Units) (estimate.PriceList, error) {
	history, err := b.PriceHistory(u)
	if err != nil || len(history) == 0 {
		return estimate.Starting(u), err
	}
	return history[len(history)-1].List, nil
}

// PricesAt gives the price list for jobs in u that was current at a moment: the
// last one stored by then, or the built-in list of invented prices. A list was
// stored no later than the one after it, and none later than now, whatever a wrong
// clock said.
func (b *Book) PricesAt(u geometry.Units, at time.Time) (estimate.PriceList, error) {
	history, err := b.PriceHistory(u)
	latest := b.o.Now()
	if at.After(latest) {
		latest = at
	}
	for _, v := range slices.Backward(history) {
		if v.Stored.Before(latest) {
			latest = v.Stored
		}
		if !latest.After(at) {
			return v.List, err
		}
	}
	return estimate.Starting(u), err
}

// SetPrices stores a price list as the current one for its units. Earlier ones
// are kept.
func (b *Book) SetPrices(p estimate.PriceList) error {
	if err := p.Validate(); err != nil {
		return &Fault{Kind: Invalid, Path: b.path, Text: err.Error(), Err: err}
	}
	return b.update(func(t *tx) error {
		last := 0
		if err := t.each(inPrices, uint64(p.Units)+1, func(k key, _ []byte, _ error) error {
			last = int(k.b)
			return nil
		}); err != nil {
			return err
		}
		return t.putJSON(inPrices, pricesKey(p.Units, last+1), storedPrices{b.o.Now().UTC(), p})
	})
}

// PriceHistory gives every price list stored for jobs in u, oldest first.
func (b *Book) PriceHistory(u geometry.Units) ([]PriceVersion, error) {
	var list []PriceVersion
	err := b.view(func(t *tx) error {
		list = nil
		return t.each(inPrices, uint64(u)+1, func(k key, _ []byte, err error) error {
			if err != nil {
				return err
			}
			var s storedPrices
			if err := t.getJSON(inPrices, k, &s); err != nil {
				return err
			}
			list = append(list, PriceVersion{int(k.b), s.Stored, s.List})
			return nil
		})
	})
	return list, err
}
