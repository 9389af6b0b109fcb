"""Where two slabs of a job lie against each other, by GEOS through shapely: the boundary that
the two polygons share, edge by edge. Shares nothing with the program. All lengths are whole
sixteenths of an inch, turned slabs by Pythagorean triples, so that what lies on each other does
so exactly. Prints the rows of meetings.csv:

    first slab; second slab; shared stretches of the first as edge:from:to

a slab as its corners "x y" in sixteenths, counter-clockwise, with commas between.

    python3 testdata/meetings/meetings.py > testdata/meetings/meetings.csv
"""
import random

from shapely.geometry import LineString, Point, Polygon

R = random.Random(18)


def rect(x, y, w, h):
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


def ell(x, y, w, h, a, b):
    return [(x, y), (x + w, y), (x + w, y + h - b), (x + w - a, y + h - b), (x + w - a, y + h), (x, y + h)]


def turned(ring, triple):
    """The ring turned and made larger by a Pythagorean triple: whole numbers stay whole."""
    a, b, _ = triple
    return [(a * x - b * y, b * x + a * y) for x, y in ring]


def moved(ring, dx, dy):
    return [(x + dx, y + dy) for x, y in ring]


def shared(one, other):
    out = []
    p = Polygon(other)
    if Polygon(one).intersection(p).area > 0:
        return None
    for i, a in enumerate(one):
        b = one[(i + 1) % len(one)]
        line = LineString([a, b])
        parts = line.intersection(p.boundary)
        for g in getattr(parts, "geoms", [parts]):
            if g.geom_type == "LineString" and g.length > 16:
                ends = sorted(line.project(Point(q)) for q in g.coords)
                if out and out[-1][0] == i and abs(out[-1][2] - ends[0]) < 1e-6:
                    out[-1] = (i, out[-1][1], ends[-1])
                else:
                    out.append((i, ends[0], ends[-1]))
    return out


def main():
    print("# first slab; second slab; stretches of the first that they share, edge:from:to, in sixteenths of an inch: testdata/meetings/meetings.py, shapely")
    n = 0
    while n < 120:
        w, h = 192 * R.randint(8, 30), 192 * R.randint(8, 30)
        one = rect(0, 0, w, h) if R.random() < 0.6 else ell(0, 0, w, h, 192 * R.randint(2, 5), 192 * R.randint(2, 5))
        u, v = 16 * R.randint(48, 400), 16 * R.randint(48, 400)
        x = 16 * R.randint(-u // 16 - 30, w // 16 + 30)
        side = R.randint(0, 4)
        other = rect(*[(x, -v), (w, 16 * R.randint(-200, 200)), (x, h), (-u, 16 * R.randint(-200, 200)), (w - 192 * 3, h - 192 * 2)][side], u, v)
        if R.random() < 0.4:
            t = R.choice([(3, 4, 5), (5, 12, 13), (8, 15, 17), (-4, 3, 5)])
            one, other = turned(one, t), turned(other, t)
        by = R.randint(-5000, 5000), R.randint(-5000, 5000)
        one, other = moved(one, *by), moved(other, *by)
        s = shared(one, other)
        if s is None:
            continue
        say = lambda ring: ",".join("%d %d" % p for p in ring)
        print("%s; %s; %s" % (say(one), say(other), ",".join("%d:%.6f:%.6f" % p for p in s)))
        n += 1


main()
