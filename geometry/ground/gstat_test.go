package ground

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"haunchbook.example/geometry/plane"
)

// table reads numbers from a file, without its first line and its names.
func table(t *testing.T, name string) (out [][]float64) {
	t.Helper()
	f, err := os.Open("../../testdata/kriging/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		var numbers []float64
		for _, cell := range row {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatal(err)
			}
			numbers = append(numbers, v)
		}
		out = append(out, numbers)
	}
	return out
}

// Estimates and their variances are those of gstat, under every kind of law, near samples
// and far from all of them.
func TestKrigingAgainstGstat(t *testing.T) {
	var at []plane.Vec
	var z []float64
	for _, row := range table(t, "shots.csv") {
		at, z = append(at, plane.Vec{X: row[0], Y: row[1]}), append(z, row[2])
	}
	looked := 0
	for _, row := range table(t, "gstat.csv") {
		law := Law{Range: row[1], Smooth: Smoothness(row[0]), Nugget: row[2]}
		s, ok := solve(law, at, z, law.between(apartOf(at)), 0)
		if !ok {
			t.Fatalf("%+v is not solved", law)
		}
		place := plane.Vec{X: row[3], Y: row[4]}
		mean, variance := s.over([]node{{place, 1e-12}}, 1)
		if math.Abs(mean-row[5]) > 1e-6 || math.Abs(variance-row[6]) > 1e-6 || math.Abs(s.value(place)-mean) > 1e-9 {
			t.Errorf("%+v at %v: %v with variance %v; gstat has %v and %v", law, place, mean, variance, row[5], row[6])
		}
		looked++
	}
	if looked != 90 {
		t.Errorf("%d estimates were looked at", looked)
	}
}
