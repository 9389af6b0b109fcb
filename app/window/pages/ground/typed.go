package ground

import (
	"errors"

	"haunchbook.example/app/handover"
	"haunchbook.example/app/shoot"
	"haunchbook.example/geometry"
)

// What may be typed of a place.
const (
	rodReadings = "readings of the rod"
	overDatum   = "heights over the datum"
	overMark    = "heights over "
)

// kinds lists what may be typed.
func (p *Panel) kinds() []string {
	out := []string{rodReadings, overDatum}
	for _, b := range p.frame.Base().Survey.Benchmarks {
		out = append(out, overMark+b.Name)
	}
	return out
}

// height gives the height of the ground by what is typed of a place; the error says what is
// missing.
func (p *Panel) height(typed geometry.Length) (geometry.Length, error) {
	j := p.frame.Base()
	switch {
	case p.typed == overDatum:
		return typed, nil
	case p.typed != rodReadings:
		for _, b := range j.Survey.Benchmarks {
			if overMark+b.Name == p.typed {
				return b.Height + typed, nil
			}
		}
		return 0, errors.New("that benchmark is there no more; choose again what is typed")
	case j.Ground.Instrument == 0:
		return 0, errors.New("say first how high the instrument stands, or what the rod reads on a known height")
	}
	return shoot.Level{Height: j.Ground.Instrument}.Ground(typed), nil
}

// wants gives what is to be typed where the ground lies as it is planned.
func (p *Panel) wants(w handover.WantedShot) (geometry.Length, bool) {
	at, err := p.height(0)
	if err != nil {
		return 0, false
	}
	if p.typed == rodReadings {
		return at - w.Height, true
	}
	return w.Height - at, true
}
