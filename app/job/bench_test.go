package job

import (
	"bytes"
	"testing"

	"haunchbook.example/app/estimate"
	"haunchbook.example/assets"
	"haunchbook.example/geometry"
)

// A job is checked at every move of the pointer.
func BenchmarkValidate(b *testing.B) {
	j, err := Read(bytes.NewReader(assets.Demo()))
	if err != nil {
		b.Fatal(err)
	}
	j.Price.Prices = estimate.Starting(geometry.FeetInches)
	for b.Loop() {
		if faults := j.Validate(); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}
