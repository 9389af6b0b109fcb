package estimate

import (
	"slices"

	"github.com/shopspring/decimal"

	"haunchbook.example/app/takeoff"
)

// Figure is how much this job takes of what no drawing shows, in place of what the rule
// gives; 0 for none of it.
type Figure struct {
	Kind   takeoff.Kind    `json:"kind"`
	Amount decimal.Decimal `json:"amount"`
	Of     takeoff.Unit    `json:"of"`
}

// line gives the line that a figure is for, where the job has one.
func (f Figure) line(besides []takeoff.Line) (takeoff.Line, bool) {
	i := slices.IndexFunc(besides, func(l takeoff.Line) bool { return l.ID.Kind == f.Kind })
	if i < 0 {
		return takeoff.Line{}, false
	}
	return besides[i], true
}

// own gives what no drawing shows with the job's own figures; one in another unit than
// the job counts in is left, and a draft tells it.
func (s Spec) own(besides []takeoff.Line) []takeoff.Line {
	out := slices.Clone(besides)
	for i, l := range out {
		k := slices.IndexFunc(s.Figures, func(f Figure) bool { return f.Kind == l.ID.Kind && f.Of == l.Unit })
		if k < 0 {
			continue
		}
		amount := s.Figures[k].Amount
		out[i].Value = amount.InexactFloat64()
		out[i].Working = append(slices.Clone(l.Working), takeoff.Step{Text: "Own figure of this job", Result: quantity(amount, string(l.Unit))})
	}
	return out
}

// SetFigure sets the own figure for a line of what no drawing shows, or takes it away.
func (s *Spec) SetFigure(l takeoff.Line, amount decimal.Decimal, set bool) {
	s.Figures = slices.DeleteFunc(slices.Clone(s.Figures), func(f Figure) bool { return f.Kind == l.ID.Kind })
	if set {
		s.Figures = append(s.Figures, Figure{l.ID.Kind, amount, l.Unit})
	}
}

// OwnFigure gives the own figure for a kind.
func (s Spec) OwnFigure(k takeoff.Kind) (Figure, bool) {
	i := slices.IndexFunc(s.Figures, func(f Figure) bool { return f.Kind == k })
	if i < 0 {
		return Figure{}, false
	}
	return s.Figures[i], true
}
