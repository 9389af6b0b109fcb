package ground

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/stat/distuv"

	"haunchbook.example/geometry/plane"
)

// Law says how alike the ground is at two places: the covariance of the heights there, in
// units of the sill.
type Law struct {
	Range  float64    // m; how far likeness reaches
	Smooth Smoothness // of the ground between places
	Nugget float64    // of what is not alike however near, over the sill: stones, the rod
}

// Smoothness is the order of Matérn's law: 1/2, which is the exponential one, 3/2, or 5/2.
type Smoothness uint8

// The orders.
const (
	Rough Smoothness = iota
	Smooth
	Smoother
)

var sqrt3, sqrt5 = math.Sqrt(3), math.Sqrt(5)

// At gives the likeness at a distance in m, without the nugget: 1 at none.
func (l Law) At(h float64) float64 {
	r := h / l.Range
	switch l.Smooth {
	case Smooth:
		r *= sqrt3
		return (1 + r) * math.Exp(-r)
	case Smoother:
		r *= sqrt5
		return (1 + r + r*r/3) * math.Exp(-r)
	}
	return math.Exp(-r)
}

// Guess is what is known of a figure: where it lies, and how far off it may be.
type Guess struct {
	Mean  float64
	Error float64 // standard error
}

// Within gives how far from the mean, to both sides, 90 % lie.
func (g Guess) Within() float64 { return 1.645 * g.Error }

// Before anything is shot, the ground is taken to lie within the 3/4 in of ACI 117-10,
// 4.4.5, for fine grading, of which this takes two standard deviations; that knowledge
// weighs as much as two shots. The ground of a class as a whole, which is set by one string
// or dug in one go, keeps within them somewhat less often, 87 times in 100: own figures.
const (
	usual     = 0.75 * 0.0254 / 2   // m
	level     = 0.75 * 0.0254 / 1.5 // m
	weight    = 2.0
	manyShots = 64 // from more, laws are chosen by so many that lie apart
)

// laws are those that shots choose from.
var laws = func() (out []Law) {
	for _, r := range []float64{0.3, 0.5, 1, 2, 4, 8} {
		for _, n := range []float64{0.01, 0.05, 0.3} {
			out = append(out, Law{r, Rough, n}, Law{r, Smooth, n}, Law{r, Smoother, n})
		}
	}
	return out
}()

// before gives how likely a law is before anything is shot, over a grid of ranges that are
// alike far apart by their logarithms: short ranges, with which shots tell least, are more
// likely than long ones, by the prior of G.-A. Fuglstad, D. Simpson, F. Lindgren and H. Rue,
// Constructing priors that penalize the complexity of Gaussian random fields, Journal of the
// American Statistical Association 114, 2019, by which a range is below shortest with 5 %.
func (l Law) before() float64 {
	rate := -math.Log(0.05) * shortest
	return math.Exp(-rate/l.Range) / l.Range
}

// shortest is a range in m that is hardly ever fallen short of: own figure.
const shortest = 0.1

// field is a kriged surface: what shots say of all places about them.
type field struct {
	law  Law
	at   []plane.Vec
	mean float64
	pull []float64 // of each shot
}

// value gives the surface at a place.
func (f *field) value(v plane.Vec) float64 {
	z := f.mean
	for i, p := range f.at {
		z += f.pull[i] * f.law.At(v.Sub(p).Length())
	}
	return z
}

// solved is a law with shots under it.
type solved struct {
	field
	root  blas64.Triangular // the Cholesky factor of how alike the shots are
	ones  []float64         // what gives 1 at each shot
	sum   float64
	rest  float64 // of squares
	loose float64 // degrees of freedom
	sill  float64 // m²
	like  float64 // logarithm of how likely the law is
}

// apartOf gives how far apart every two of some places lie, those before each in turn.
func apartOf(at []plane.Vec) []float64 {
	out := make([]float64, 0, len(at)*len(at)/2)
	for i, a := range at {
		for _, b := range at[:i] {
			out = append(out, a.Sub(b).Length())
		}
	}
	return out
}

// between gives how alike places are that lie so far apart.
func (l Law) between(apart []float64) []float64 {
	out := make([]float64, len(apart))
	for i, h := range apart {
		out[i] = l.At(h)
	}
	return out
}

// solve takes shots under a law with an unknown mean and an unknown sill; alike is how alike
// every two of them are, as between gives it. What is known before weighs as much as so many
// shots; for 0 nothing is. Shots may lie anywhere: a nugget makes any of them sound.
func solve(law Law, at []plane.Vec, z []float64, alike []float64, known float64) (*solved, bool) {
	n := len(at)
	data, k := make([]float64, n*n), 0
	for i := range n {
		for j := range i {
			data[j*n+i] = alike[k] // of a symmetric matrix the upper half counts
			k++
		}
		data[i*n+i] = 1 + law.Nugget
	}
	s := &solved{field: field{law: law, at: at}}
	var ok bool
	if s.root, ok = lapack64.Potrf(blas64.Symmetric{N: n, Stride: n, Data: data, Uplo: blas.Upper}); !ok {
		return nil, false
	}
	s.ones = make([]float64, n)
	for i := range s.ones {
		s.ones[i] = 1
	}
	s.under(s.ones)
	s.sum = floats.Sum(s.ones)
	s.pull = slices.Clone(z)
	s.under(s.pull)
	s.mean = floats.Dot(s.ones, z) / s.sum
	s.rest = math.Max(0, floats.Dot(s.pull, z)-s.mean*s.mean*s.sum)
	logs := 0.0 // half the logarithm of the determinant
	for i := range n {
		logs += math.Log(data[i*n+i])
	}
	before := known * usual * usual / (1 + law.Nugget)
	s.loose = float64(n) - 1 + known
	s.sill = (before + s.rest) / s.loose
	s.like = -logs - math.Log(s.sum)/2 - s.loose/2*math.Log(before+s.rest)
	if known > 0 {
		s.like += known / 2 * math.Log(before)
		// What is known of the mean before counts for more, the less the shots tell of it.
		s.mean *= s.sum / (s.sum + s.sill/(level*level))
		s.sum += s.sill / (level * level)
	}
	floats.AddScaled(s.pull, -s.mean, s.ones)
	return s, true
}

// over gives the mean of the surface over nodes, and its variance in units of the sill.
func (s *solved) over(ns []node, within float64) (mean, variance float64) {
	area := areaOf(ns)
	c := make([]float64, len(s.at))
	for i, p := range s.at {
		sum := 0.0
		for _, n := range ns {
			sum += n.m2 * s.law.At(p.Sub(n.at).Length())
		}
		c[i] = sum / area
	}
	w := slices.Clone(c)
	s.under(w)
	miss := 1 - floats.Dot(s.ones, c)
	return s.mean + floats.Dot(c, s.pull), math.Max(within-floats.Dot(c, w)+miss*miss/s.sum, 0)
}

// under makes of values at the shots what gives them there under the law.
func (s *solved) under(values []float64) {
	lapack64.Potrs(s.root, blas64.General{Rows: len(values), Cols: 1, Stride: 1, Data: values})
}

// ways are how far apart nodes lie, each two once, with how often a way is that long.
type ways struct{ h, share []float64 }

func waysOf(ns []node) (w ways) {
	area, pairs := areaOf(ns), len(ns)*(len(ns)+1)/2
	w.h, w.share = make([]float64, 0, pairs), make([]float64, 0, pairs)
	for i, a := range ns {
		for _, b := range ns[:i] {
			w.h, w.share = append(w.h, a.at.Sub(b.at).Length()), append(w.share, 2*a.m2*b.m2/(area*area))
		}
		// A node is not a point: the mean way within it is about half its width.
		w.h, w.share = append(w.h, 0.5*math.Sqrt(a.m2)), append(w.share, a.m2*a.m2/(area*area))
	}
	return w
}

// alike gives the mean likeness of two places of nodes.
func (w ways) alike(l Law) float64 {
	sum := 0.0
	for i, h := range w.h {
		sum += w.share[i] * l.At(h)
	}
	return sum
}

// sample is what was shot on the ground of a class, and what of the area hangs on it.
type sample struct {
	at   []plane.Vec
	z    []float64
	over []node
}

// held is a law with all samples under it.
type held struct {
	law  Law
	of   []*solved // a sample each
	like float64
}

// fit takes samples under a law; alike is how alike every two places of each are.
func fit(law Law, all []sample, alike [][]float64) (held, bool) {
	out := held{law: law}
	for k, s := range all {
		one, ok := solve(law, s.at, s.z, alike[k], weight)
		if !ok {
			return out, false
		}
		out.of, out.like = append(out.of, one), out.like+one.like
	}
	return out, true
}

// krige says what shots tell of the ground above the plan, in m³, and gives the surface of
// each sample by the law that is most likely. Which law holds is not known: each of several
// is weighed by how likely it makes the shots, so that the error holds what that leaves open
// (M. S. Handcock and M. L. Stein, A Bayesian analysis of kriging, Technometrics 35, 1993;
// P. J. Diggle and P. J. Ribeiro, Model-based Geostatistics, 2007, chapter 7). It is the
// same law for all samples, as the same crew digs in the same soil; how uneven the ground
// is, each tells for itself.
func krige(all []sample) (Guess, []*field) {
	some, far, many := make([]sample, len(all)), make([][]float64, len(all)), false
	for k, s := range all {
		at, z := apart(s.at, s.z, manyShots)
		some[k], far[k], many = sample{at, z, s.over}, apartOf(at), many || len(at) < len(s.at)
	}
	likeness := func(law Law) [][]float64 {
		out := make([][]float64, len(far))
		for k := range far {
			out[k] = law.between(far[k])
		}
		return out
	}
	var known []held
	top := -1                      // the most likely
	alike := map[Law][][]float64{} // which does not hang on the nugget
	bare := func(l Law) Law { return Law{l.Range, l.Smooth, 0} }
	for _, l := range laws {
		if alike[bare(l)] == nil {
			alike[bare(l)] = likeness(l)
		}
		if h, ok := fit(l, some, alike[bare(l)]); ok {
			if known = append(known, h); top < 0 || h.like >= known[top].like {
				top = len(known) - 1
			}
		}
	}
	fields := make([]*field, len(all))
	if top < 0 {
		m2 := 0.0
		for k, s := range all {
			fields[k], m2 = &field{law: laws[0]}, m2+areaOf(s.over)
		}
		return Guess{0, usual * m2}, fields
	}
	if many {
		for k, s := range all {
			far[k] = apartOf(s.at)
		}
		if h, ok := fit(known[top].law, all, likeness(known[top].law)); ok {
			known, top = []held{h}, 0
		}
	}
	var sum, mean, square float64
	own := make([]map[Law]float64, len(all))
	within := make([]ways, len(all))
	for k, s := range all {
		fields[k], own[k], within[k] = &known[top].of[k].field, map[Law]float64{}, waysOf(s.over)
	}
	for _, h := range known {
		w := math.Exp(h.like-known[top].like) * h.law.before() / known[top].law.before()
		if w < 1e-3 {
			continue
		}
		var m, v float64
		for k, s := range h.of {
			inside, ok := own[k][bare(h.law)]
			if !ok {
				inside = within[k].alike(bare(h.law))
				own[k][bare(h.law)] = inside
			}
			off, variance := s.over(all[k].over, inside)
			// The sill is known by so few shots only: as wide as Student's t, of which 90 % count.
			wide := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: s.loose}.Quantile(0.95) / distuv.UnitNormal.Quantile(0.95)
			m2 := areaOf(all[k].over)
			m, v = m+m2*off, v+m2*m2*wide*wide*s.sill*variance
		}
		sum, mean, square = sum+w, mean+w*m, square+w*(m*m+v)
	}
	mean /= sum
	return Guess{mean, math.Sqrt(math.Max(0, square/sum-mean*mean))}, fields
}

// apart gives at most so many of some places, with their heights: each next one lies
// farthest from those before (T. F. Gonzalez, Clustering to minimize the maximum
// intercluster distance, 1985), but for a quarter, which lie nearest to these.
func apart(at []plane.Vec, z []float64, most int) ([]plane.Vec, []float64) {
	if len(at) <= most {
		return at, z
	}
	away, taken := make([]float64, len(at)), make([]bool, len(at))
	for i := range away {
		away[i] = math.Inf(1)
	}
	var ps []plane.Vec
	var hs []float64
	for k := 0; len(ps) < most; {
		taken[k] = true
		ps, hs = append(ps, at[k]), append(hs, z[k])
		next := -1
		for i, p := range at {
			away[i] = math.Min(away[i], p.Sub(at[k]).Length())
			far := len(ps) < most*3/4
			if !taken[i] && (next < 0 || far && away[i] > away[next] || !far && away[i] < away[next]) {
				next = i
			}
		}
		k = next
	}
	return ps, hs
}
