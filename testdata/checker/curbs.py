"""Rules of curbs: raised walls along the free edges of a slab, open at doors."""

import math
import re
from collections import defaultdict

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from measure import job_length as J
from slab import BAR
import measure

CURBS = []


def rule(f):
    CURBS.append(f)
    return f


def wide(e):
    """How wide an edge's curb is: 6 in where it is not given (common practice)."""
    return (float(J(e.get("curbwidth", "0"))) or 6.0) if high(e) else 0.0


def high(e):
    return float(J(e.get("curb", "0")))


def _areas(g):
    """What has an area of a shape: lines are left where bands only touch."""
    return g if g.geom_type in ("Polygon", "MultiPolygon") else unary_union([x for x in getattr(g, "geoms", []) if x.area > 0])


class Curbs:
    """Where a slab has curbs, from the job file: each edge's line grown by the curb's width, as a
    line with square ends and sharp corners is, as far as it lies on the slab."""

    def __init__(self, s):
        p = s.plan.rim()
        loops = [(p.at, p.edges, getattr(p, "of", range(p.n)), 0)]
        for n, h in enumerate(s.plan.data.get("holes", [])):
            at = [tuple(float(J(v)) for v in e["at"]) for e in h["edges"]]
            loops.append((at, h["edges"], range(len(at)), n + 1))
        self.slab = Polygon(p.at, [at for at, *_ in loops[1:]]).buffer(0)
        self.even = not any(s.plan.middle(i) for i in range(s.plan.n))
        self.runs, doors = [], []  # loop, edge, from, to, edge's fields
        parts = defaultdict(list)
        for at, edges, of, loop in loops:
            n = len(at)
            ends = {}
            for i, e in enumerate(edges):
                a, b = at[i], at[(i + 1) % n]
                l = math.dist(a, b)
                put = lambda t: (a[0] + (b[0] - a[0]) * t / l, a[1] + (b[1] - a[1]) * t / l)
                opened = [(float(J(d["from"])), float(J(d["from"])) + float(J(d["width"]))) for d in e.get("doors", [])]
                if e.get("middle") is None and opened:
                    doors += [LineString([put(f), put(t)]) for f, t in opened]
                if loop == 0:
                    opened += [(f, t) for f, t in self.own(s, i, a, b) if True]
                if not high(e) or e.get("joint"):
                    continue
                opened += [(m["from"], m["to"]) for m in s.meetings if m["loop"] == loop and m["edge"] - 1 == of[i]]
                at_ = 0.0
                for f, t in sorted(opened) + [(l, l)]:
                    if f - at_ >= 1.0:
                        self.runs.append((loop, of[i], at_, f, e))
                        parts[high(e)].append((LineString([put(at_), put(f)]), wide(e)))
                        if at_ == 0.0:
                            ends[(i, 0)] = put(f)
                        if f >= l - 1e-9:
                            ends[(i, 1)] = put(at_)
                    at_ = max(at_, t)
            for i in range(n):  # at corners between two of them
                k = (i + 1) % n
                if (i, 1) in ends and (k, 0) in ends and wide(edges[i]) == wide(edges[k]):
                    parts[max(high(edges[i]), high(edges[k]))].append((LineString([ends[(i, 1)], at[k], ends[(k, 0)]]), wide(edges[i])))
                elif (i, 1) in ends and (k, 0) in ends:
                    self.even = False
        most = max((w for ps in parts.values() for _, w in ps), default=0)
        self.open = unary_union([d.buffer(most, cap_style=2, single_sided=False) for d in doors]) if doors else Polygon()
        self.levels, so = [], []
        for h in sorted(parts, reverse=True):
            so += [l.buffer(w, cap_style=2, join_style=2, mitre_limit=4).intersection(self.slab) for l, w in parts[h]]
            self.levels.append((h, _areas(unary_union(so).difference(self.open))))

    @staticmethod
    def own(s, i, a, b):
        """Doors of walls along lines of their own that run along an edge."""
        l = math.dist(a, b)
        u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
        for w in s.plan.data.get("walls", []):
            p, q = (tuple(float(J(v)) for v in w[end]) for end in ("from", "to"))
            x, y = (((r[0] - a[0]) * u[0] + (r[1] - a[1]) * u[1], abs((r[1] - a[1]) * u[0] - (r[0] - a[0]) * u[1])) for r in (p, q))
            if max(x[1], y[1]) > 0.06 or min(x[0], y[0]) < -0.06 or max(x[0], y[0]) > l + 0.06:
                continue
            for d in w.get("doors", []):
                f, t = float(J(d["from"])), float(J(d["from"])) + float(J(d["width"]))
                yield (x[0] + f, x[0] + t) if y[0] > x[0] else (x[0] - t, x[0] - f)

    @property
    def region(self):
        return self.levels[-1][1] if self.levels else Polygon()

    def volume(self):
        """In cubic inches."""
        hs = [h for h, _ in self.levels] + [0]
        return sum(g.area * (h - low) for (h, g), low in zip(self.levels, hs[1:]))

    def rise(self, at):
        """How high the curb at a place is; 0 for none."""
        return next((h for h, g in self.levels if g.buffer(0.01).contains(Point(at))), 0.0)


def of(s):
    if not hasattr(s, "curbs_of"):
        s.curbs_of = Curbs(s)
    return s.curbs_of


@rule
def curbs(job):
    total = 0.0
    for s in job.slabs:
        own = of(s)
        placed = s.curbs
        name = "slab %d" % (s.number + 1)
        if not own.levels:
            if placed:
                yield "curb.none", "%s has curbs, drawn are none" % name
            for i, e in enumerate(s.plan.edges):
                if high(e) and not any(f.says(r"\bcurb\b") for f in job.findings):
                    yield "curb.left-out", "%s, edge %d: its curb is not built, and nothing tells so" % (name, i + 1)
            continue
        if not placed:
            yield "curb.none", "%s has no curbs" % name
            continue
        total += own.volume()
        if not own.even:
            continue
        rings = [Polygon(r) for r in placed["levels"][-1]["rings"]]
        drawn = Polygon()
        for r in rings:
            drawn = drawn.symmetric_difference(r.buffer(0))
        if drawn.symmetric_difference(own.region).area > 0.5 + 0.001 * own.region.area:
            yield "curb.place", "%s: %.1f in² of curbs lie elsewhere" % (name, drawn.symmetric_difference(own.region).area)
        inner = own.region.buffer(-0.1)
        for a, b, _, _ in s.sawcuts:
            if math.dist(a, b) > 0.01 and inner.intersection(LineString([a, b])).length > 0.3:
                yield "curb.sawn", "%s: a saw cut runs into a curb at (%.0f, %.0f)" % (name, *a)
        for loop, i, f, t, e in own.runs:  # boards on both faces, of each course
            made = [x for x in s.forms if x.get("of") == "curb, outer face" and x["loop"] == loop and x["edge"] == i and x.get("up", 0) == 0]
            if loop == 0 and not any(abs(x["length"] - (t - f)) < 3.8 for x in made):  # past an outside corner
                yield "curb.form", "%s, edge %d: no outer board from %.1f to %.1f" % (name, i + 1, f, t)
            high_ = sum({x.get("up", 0): x["depth"] for x in s.forms if x.get("of") == "curb, outer face" and x["loop"] == loop and x["edge"] == i}.values())
            if loop == 0 and abs(high_ - high(e)) > 0.01:
                yield "curb.form", "%s, edge %d: its boards are %.2f in high, the curb %.2f" % (name, i + 1, high_, high(e))
        within = own.region.exterior.length if own.region.geom_type == "Polygon" else sum(g.exterior.length for g in own.region.geoms)
        within += sum(r.length for g in getattr(own.region, "geoms", [own.region]) for r in g.interiors)
        within -= own.region.boundary.intersection(own.slab.boundary.buffer(0.01)).length
        boards = [x for x in s.forms if x.get("of") in ("curb, inner face", "curb, end") and x.get("up", 0) == 0]
        if abs(sum(x["length"] for x in boards) - within) > 1.6 * len(boards) + 0.5:
            yield "curb.form", "%s: %.1f in of boards within, %.1f in of faces" % (name, sum(x["length"] for x in boards), within)
    unit = 0.0254 ** 3 if job.metric else 1 / 46656
    listed = sum(l["value"] for l in job.takeoff["lines"] if l["what"]["kind"] == "concrete in curbs")
    if all(of(s).even for s in job.slabs) and abs(listed - total * unit) > 1e-4 * total * unit + 1e-6:
        yield "curb.volume", "%.6f taken off, %.6f by areas" % (listed, total * unit)


@rule
def steel(job):
    """Bars of curbs have 1 1/2 in to the top and the faces (ACI 318-19 table 20.5.1.3.1, formed;
    40 mm in metric jobs) and run along all of each; upright ones at most as far apart as the job
    asks, in curbs higher than it says."""
    place = job.job.get("spec", {}).get("place", {}).get("curbs", {})
    cover = float(J(place.get("cover", '1 1/2"')))
    count, spacing, above = place.get("count", 1), float(J(place.get("spacing", "4'"))), float(J(place.get("above", '12"')))
    up = place.get("upright", 4)
    for s in job.slabs:
        own, name = of(s), "slab %d" % (s.number + 1)
        for b in s.bars:
            if not re.match(r"curb bar|upright in curbs", b.row):
                continue
            for (p, q), (y, z) in zip(zip(b.path, b.path[1:]), zip(b.depths, b.depths[1:])):
                for x in (p, q) if b.row.startswith("upright") else [x for x, _ in b.points(6.0)]:
                    if not own.region.buffer(0.05).contains(Point(x)) and b.row.startswith("curb"):
                        yield "curb.bar", "%s: bar %s leaves the curb at (%.1f, %.1f)" % (name, b.mark, *x)
                    elif own.even and b.row.startswith("curb") and own.region.boundary.distance(Point(x)) < cover + (b.db / 2 - 0.05 if min(math.dist(x, b.path[0]), math.dist(x, b.path[-1])) > b.db else -0.05):  # its ends are flat
                        yield "curb.cover", "%s: bar %s is %.2f in from a face at (%.1f, %.1f)" % (name, b.mark, own.region.boundary.distance(Point(x)) - b.db / 2, *x)
            top = min(b.depths) - (b.db / 2 if b.row.startswith("curb") else 0) + own.rise(b.path[0])
            if top < cover - 0.05 and own.rise(b.path[0]):
                yield "curb.cover", "%s: bar %s has %.2f in to the top" % (name, b.mark, top)
        for loop, i, f, t, e in own.runs:
            if loop or not s.plan.middle(i) == 0:
                continue
            a, b = s.plan.at[i], s.plan.at[(i + 1) % s.plan.n]
            l = math.dist(a, b)
            u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
            along = lambda p: (p[0] - a[0]) * u[0] + (p[1] - a[1]) * u[1]
            off = lambda p: -(p[0] - a[0]) * u[1] + (p[1] - a[1]) * u[0]
            w = wide(e)
            room = w >= 2 * cover + 1 and high(e) > cover + 1
            spans = sorted(sorted((along(p), along(q))) for x in s.bars if x.row == "curb bar 1" for p, q in zip(x.path, x.path[1:]) if all(-0.1 < off(r) < w + 0.1 for r in (p, q)) and abs(along(p) - along(q)) > 0.5)
            at = f + max(3, w) + 1
            for x, y in spans:
                if x <= at + 0.3:
                    at = max(at, y)
            if count and room and t - f > 24 and at < t - max(3, w) - 1 and not job.told(r"curb", ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), l):
                yield "curb.bar", "%s, edge %d: no bar from %.1f to %.1f" % (name, i + 1, at, t)
            ups = sorted(along(x.path[0]) for x in s.bars if x.row == "upright in curbs" and 0 < off(x.path[0]) < w and f < along(x.path[0]) < t)
            if up and high(e) > above and w > 5:
                if not ups or max([y - x for x, y in zip(ups, ups[1:])] + [0]) > spacing + 0.07 or ups[0] - f > 12.1 or t - ups[-1] > 12.1:
                    if not job.told(r"curb", ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), l):
                        yield "curb.upright", "%s, edge %d: upright bars at %s" % (name, i + 1, ["%.1f" % x for x in ups])
            elif ups and high(e) <= above:
                yield "curb.upright", "%s, edge %d: upright bars in a curb of %.1f in" % (name, i + 1, high(e))


@rule
def bolts(job):
    """Bolts of a plate on a curb stand in it: their depth counts from its top; the plate is no
    wider than the curb, or it is told."""
    for s in job.slabs:
        own = of(s)
        for w in s.walls:
            if w.drawn is not None or w.loop != 0:
                continue
            e = s.plan.edges[w.edge]
            for b in w.bolts:
                if abs(b.rise - own.rise(b.at)) > 0.01 and high(e):
                    yield "curb.bolt", "slab %d, %s: bolt %s stands %.2f in over the slab, by the job file %.2f" % (s.number + 1, w.name, b.mark, b.rise, own.rise(b.at))
            from slab import DRESSED
            if high(e) and any(b.rise for b in w.bolts) and wide(e) < DRESSED.get(w.plate, 0) - 0.01 and not any(f.says(r"plate is .* wide, and the curb") for f in job.findings):
                yield "curb.plate", "slab %d, %s: its plate is wider than the curb, untold" % (s.number + 1, w.name)
