package paint

import (
	"image"
	"runtime"
	"slices"
)

// tile is a part of the image.
type tile struct {
	Brush
	box   image.Rectangle
	drawn bool // in this frame
}

// About how large a tile is, pixels: wide, since what changes is mostly as long as the
// picture and lies along it.
const tileWidth, tileHeight = 256, 64

// cut divides an image into tiles.
func (r *recording) cut(w, h int) {
	columns, rows := max(1, w/tileWidth), max(1, h/tileHeight)
	if n := len(r.tiles); n == columns*rows && r.tiles[n-1].box.Max == image.Pt(w, h) {
		return
	}
	r.known = false
	r.tiles, r.columns, r.rows = r.tiles[:0], columns, rows
	for y := range rows {
		for x := range columns {
			r.tiles = append(r.tiles, tile{
				Brush: Brush{Img: &image.RGBA{}},
				box:   image.Rect(w*x/columns, h*y/rows, w*(x+1)/columns, h*(y+1)/rows),
			})
		}
	}
}

// start draws a part on the other processors.
func (r *recording) start(b *Brush, part int) {
	r.next.Store(0)
	for range min(runtime.GOMAXPROCS(0), 4, len(r.tiles)) - 1 {
		r.done.Go(func() { r.work(b, part) })
	}
}

// finish draws with them until it is done.
func (r *recording) finish(b *Brush, part int) {
	r.work(b, part)
	r.done.Wait()
}

// work draws one tile after the other, as long as there are any.
func (r *recording) work(b *Brush, part int) {
	for {
		k := int(r.next.Add(1)) - 1
		if k >= len(r.tiles) {
			return
		}
		t := &r.tiles[k]
		same := r.known && r.same(part, k)
		switch {
		case part == 0:
			if t.drawn = !same; t.drawn {
				b.begin(t)
				r.play(t, 0, k)
			}
		case t.drawn:
			r.play(t, 1, k)
		case !same:
			b.begin(t)
			r.play(t, 0, k)
			r.play(t, 1, k)
		}
	}
}

// same tells whether a part draws in a tile what it drew there last time.
func (r *recording) same(i, k int) bool {
	now, last := &r.now.parts[i], &r.last.parts[i]
	a, z := now.in[k], last.in[k]
	if len(a) != len(z) || i == 0 && !r.now.ground.same(&r.last.ground, r.tiles[k].box) {
		return false
	}
	for j := range a {
		if !now.same(a[j], last, z[j]) {
			return false
		}
	}
	return true
}

// same tells whether an op draws what one of another part does.
func (p *part) same(i int32, q *part, j int32) bool {
	a, z := p.ops[i], q.ops[j]
	if a.kind != fillOp {
		return a == z
	}
	if z.kind != fillOp || a.c != z.c || a.to-a.from != z.to-z.from {
		return false
	}
	for k := range a.to - a.from {
		if p.rings[a.from+k]-a.first != q.rings[z.from+k]-z.first {
			return false
		}
	}
	return slices.Equal(p.points[a.first:p.rings[a.to-1]], q.points[z.first:q.rings[z.to-1]])
}

// begin lays the ground of a tile.
func (b *Brush) begin(t *tile) {
	o := b.Img.PixOffset(t.box.Min.X, t.box.Min.Y)
	*t.Img = image.RGBA{Pix: b.Img.Pix[o : b.Img.PixOffset(t.box.Max.X-1, t.box.Max.Y-1)+4], Stride: b.Img.Stride, Rect: image.Rect(0, 0, t.box.Dx(), t.box.Dy())}
	b.record.now.ground.lay(b.Img, t.box)
}

// play draws what is noted in a tile.
func (r *recording) play(t *tile, part, k int) {
	n := &r.now.parts[part]
	dx, dy := float64(t.box.Min.X), float64(t.box.Min.Y)
	for _, i := range n.in[k] {
		o := &n.ops[i]
		p, q := Point{o.a.X - dx, o.a.Y - dy}, o.b
		switch o.kind {
		case strokeOp:
			t.strokeNow(p, Point{q.X - dx, q.Y - dy}, o.width, o.c, o.on, o.off, 0)
		case circleOp:
			t.Circle(p, q.X, o.width, o.c)
		case rectOp:
			t.Rect(p.X, p.Y, q.X-dx, q.Y-dy, o.c)
		case maskOp:
			t.stamp(o.mask, int(o.x)-t.box.Min.X, int(o.y)-t.box.Min.Y, o.c)
		case fillOp:
			t.fillNoted(n, o, dx, dy)
		}
	}
}

// fillNoted fills a noted area, moved by dx to the left and by dy up.
func (b *Brush) fillNoted(n *part, o *op, dx, dy float64) {
	k, at := 0, o.first
	for _, end := range n.rings[o.from:o.to] {
		if len(b.moved) <= k {
			b.moved = append(b.moved, nil)
		}
		ring := b.moved[k][:0]
		for _, p := range n.points[at:end] {
			ring = append(ring, Point{p.X - dx, p.Y - dy})
		}
		b.moved[k] = ring
		k, at = k+1, end
	}
	b.Fill(b.moved[:k], o.c)
}
