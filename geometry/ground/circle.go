package ground

import (
	"math"
	"math/big"

	"haunchbook.example/geometry"
)

// inCircle tells whether d lies inside the circle through a, b and c, which run
// counter-clockwise. It is exact: where the rounding of floating point could matter (J.
// R. Shewchuk, Adaptive precision floating-point arithmetic and fast robust geometric
// predicates, 1997), whole numbers decide.
func inCircle(a, b, c, d geometry.Point) bool {
	a, b, c = a.Sub(d), b.Sub(d), c.Sub(d)
	ax, ay, bx, by, cx, cy := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y), float64(c.X), float64(c.Y)
	la, lb, lc := ax*ax+ay*ay, bx*bx+by*by, cx*cx+cy*cy
	det := la*(bx*cy-by*cx) + lb*(cx*ay-cy*ax) + lc*(ax*by-ay*bx)
	size := la*(math.Abs(bx*cy)+math.Abs(by*cx)) + lb*(math.Abs(cx*ay)+math.Abs(cy*ax)) + lc*(math.Abs(ax*by)+math.Abs(ay*bx))
	if slack := 0x1p-49 * size; det > slack || det < -slack {
		return det > 0
	}
	sum := new(big.Int)
	add := func(p, q, r geometry.Point) { // |p|² (q × r)
		square := new(big.Int).Add(mul(p.X, p.X), mul(p.Y, p.Y))
		sum.Add(sum, square.Mul(square, new(big.Int).Sub(mul(q.X, r.Y), mul(q.Y, r.X))))
	}
	add(a, b, c)
	add(b, c, a)
	add(c, a, b)
	return sum.Sign() > 0
}

func mul(a, b geometry.Length) *big.Int {
	return new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(int64(b)))
}
