package order

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// quantile gives the value below which a share of the distribution lies.
func (l Law) quantile(p float64) float64 {
	s := slices.Sorted(slices.Values(l))
	at := p*float64(len(s)) - 0.5
	k := int(math.Floor(at))
	switch {
	case k < 0:
		return s[0]
	case k+1 >= len(s):
		return s[len(s)-1]
	}
	return s[k] + (s[k+1]-s[k])*(at-float64(k))
}

// Bound gives what the next of a series is expected to stay below with a chance, from what
// those before were; weights say how much each tells. It is the mean with what it is
// uncertain by, and what a single one strays: with the mean alone the next one lies above
// it half of the time (prediction interval of a normal law, as in W. Q. Meeker, G. J. Hahn
// and L. A. Escobar, Statistical Intervals, 2017). It takes two that differ.
func Bound(values, weights []float64, chance float64) (bound float64, ok bool) {
	var sum, squares, mean float64
	for i, w := range weights {
		sum, squares, mean = sum+w, squares+w*w, mean+w*values[i]
	}
	if sum <= 0 {
		return 0, false
	}
	mean /= sum
	count := sum * sum / squares // so many alike would tell as much
	spread := 0.0
	for i, w := range weights {
		spread += w * (values[i] - mean) * (values[i] - mean)
	}
	if count < 1.5 || spread == 0 {
		return 0, false
	}
	spread = spread / sum * count / (count - 1)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: count - 1}
	return mean + t.Quantile(chance)*math.Sqrt(spread*(1+1/count)), true
}
