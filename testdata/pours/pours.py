"""Volumes of the two pours of a rectangular slab with a haunch all round, divided by a
straight line, worked out in whole fractions: the rectangle is cut into cells on each of
which the underside is one plane, and a plane over a polygon is a fan of prisms with
slanted ends, each its area times the mean of its three depths.

Shares nothing with the program. Prints the rows of pours.csv:
    width, length, field, depth, bottom, taper, x1, y1, x2, y2, left, right
all lengths in inches, volumes in cubic inches, left and right of the line from (x1, y1) to
(x2, y2).

    python3 testdata/pours/pours.py > testdata/pours/pours.csv
"""
from fractions import Fraction as F


def cut(poly, line):
    """The part of a convex polygon where line(p) >= 0."""
    out = []
    for p, q in zip(poly, poly[1:] + poly[:1]):
        a, b = line(p), line(q)
        if a >= 0:
            out.append(p)
        if a > 0 > b or a < 0 < b:
            s = a / (a - b)
            out.append((p[0] + s * (q[0] - p[0]), p[1] + s * (q[1] - p[1])))
    return out


def prism(poly, depth):
    total = F(0)
    for p, q in zip(poly[1:], poly[2:]):
        o = poly[0]
        area = ((p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0])) / 2
        total += area * (depth(o) + depth(p) + depth(q)) / 3
    return total


def volume(w, h, t, d, b, r, poly):
    def haunch(away):
        if away <= b:
            return d
        return d - (d - t) * (away - b) / r if away < b + r else t

    sides = [lambda p: p[0], lambda p: w - p[0], lambda p: p[1], lambda p: h - p[1]]
    depth = lambda p: max(haunch(s(p)) for s in sides)
    lines = [lambda p, s=s, k=k: s(p) - k for s in sides for k in (b, b + r)]
    lines += [lambda p, s=s, u=u: s(p) - u(p) for i, s in enumerate(sides) for u in sides[:i]]
    cells = [poly]
    for line in lines:
        cells = [c for p in cells for c in (cut(p, line), cut(p, lambda q: -line(q))) if len(c) > 2]
    return sum(prism(c, depth) for c in cells)


def main():
    print("# width, length, field, depth, bottom, taper, x1, y1, x2, y2, left, right: testdata/pours/pours.py, in whole fractions; inches and cubic inches")
    for w, h, t, d, b, r in ((288, 240, 6, 12, 12, 12), (480, 360, 4, 16, 12, 18), (144, 900, 5, 20, 10, 4), (600, 250, 6, 6, 12, 6)):
        for x1, y1, x2, y2 in ((w / 2, 0, w / 2, h), (w / 4, h, w / 4, 0), (0, h / 3, w, h / 2), (w / 5, 0, 3 * w / 4, h), (6, 0, 6, h), (0, h / 2, w / 2, 0)):
            x1, y1, x2, y2 = (F(round(v * 16), 16) for v in (x1, y1, x2, y2))
            rect = [(F(0), F(0)), (F(w), F(0)), (F(w), F(h)), (F(0), F(h))]
            side = lambda p: (x2 - x1) * (p[1] - y1) - (y2 - y1) * (p[0] - x1)
            args = [F(v) for v in (w, h, t, d, b, r)]
            left, right = volume(*args, cut(rect, side)), volume(*args, cut(rect, lambda p: -side(p)))
            whole = volume(*args, rect)
            assert left + right == whole
            print(",".join("%.12g" % float(v) for v in (w, h, t, d, b, r, x1, y1, x2, y2, left, right)))


main()
