package sheet

// clipChain gives the parts of a chain of lines inside r.
func clipChain(pts []Point, r rect) [][]Point {
	var out [][]Point
	var open []Point
	shut := func() {
		if len(open) > 1 {
			out = append(out, open)
		}
		open = nil
	}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		from, to, ok := clipSegment(a, b, r)
		if !ok {
			shut()
			continue
		}
		p, q := a.add(b.sub(a).times(from)), a.add(b.sub(a).times(to))
		if from > 0 || len(open) == 0 {
			shut()
			open = []Point{p}
		}
		open = append(open, q)
		if to < 1 {
			shut()
		}
	}
	shut()
	return out
}

// clipSegment gives the stretch of a-b inside r, as fractions.
func clipSegment(a, b Point, r rect) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, s := range [4][2]float64{
		{b.X - a.X, r.x1 - a.X}, {a.X - b.X, a.X - r.x0},
		{b.Y - a.Y, r.y1 - a.Y}, {a.Y - b.Y, a.Y - r.y0},
	} {
		d, room := s[0], s[1] // outward speed and distance to this side
		switch {
		case d == 0 && room < 0:
			return 0, 0, false
		case d > 0:
			to = min(to, room/d)
		case d < 0:
			from = max(from, room/d)
		}
	}
	return from, to, from < to
}

// clipShape gives the part of a polygon inside r, side by side of r. Where the
// part falls in pieces they hang together along r's rim, which a fill does not
// show.
func clipShape(pts []Point, r rect) []Point {
	for side := range 4 {
		depth := func(p Point) float64 {
			switch side {
			case 0:
				return p.X - r.x0
			case 1:
				return r.x1 - p.X
			case 2:
				return p.Y - r.y0
			}
			return r.y1 - p.Y
		}
		var out []Point
		for i, p := range pts {
			q := pts[(i+1)%len(pts)]
			dp, dq := depth(p), depth(q)
			if dp >= 0 {
				out = append(out, p)
			}
			if (dp >= 0) != (dq >= 0) {
				out = append(out, p.add(q.sub(p).times(dp/(dp-dq))))
			}
		}
		if pts = out; len(pts) == 0 {
			return nil
		}
	}
	return pts
}

func (r rect) meet(s rect) rect {
	return rect{max(r.x0, s.x0), max(r.y0, s.y0), min(r.x1, s.x1), min(r.y1, s.y1)}
}

func (r rect) has(p Point) bool {
	return p.X >= r.x0 && p.X <= r.x1 && p.Y >= r.y0 && p.Y <= r.y1
}
