"""Rules of curbs: raised walls along the edges of a slab that are free when it is poured, open at doors."""

import math
import re
from collections import defaultdict

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from measure import job_length as J
from slab import BAR, Slab
import measure
import tops

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


def cross(a, b, c):
    """Whether the way turns left at b, by its sign."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


class Curbs:
    """Where a slab has curbs, from the job file: each edge's line grown inward by the curb's width,
    as far as it lies on the slab, and at an inside corner both lines together, as a line with sharp
    corners is. Inward alone: where the slab turns back at less than a right angle, the outer side
    of a line lies on the slab beyond the corner, where no curb stands."""

    def __init__(self, s):
        p = s.plan.rim()
        loops = [(p.at, p.edges, getattr(p, "of", range(p.n)), 0)]
        for n, h in enumerate(s.plan.data.get("holes", [])):
            at = [tuple(float(J(v)) for v in e["at"]) for e in h["edges"]]
            loops.append((at, h["edges"], range(len(at)), n + 1))
        self.slab = Polygon(p.at, [at for at, *_ in loops[1:]]).buffer(0)
        self.even = not any(s.plan.middle(i) for i in range(s.plan.n))
        self.runs, doors = [], []  # loop, edge, from, to, edge's fields
        self.cuts = []  # edge, place: where a curb ends before another edge's door
        wide_ = max((wide(e) for _, edges, _, _ in loops for e in edges), default=0)
        openings = list(self.openings(loops, wide_))
        self.laid = []  # loop, edge, its middle, what lies against it
        before = [self.there(Slab(s.job, k)) for k in range(s.number)]
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
                laid = [] if e.get("middle") is not None or l == 0 or loop == 0 and s.plan.middle(of[i]) else list(self.against(before, a, b))
                self.laid += [(loop, of[i], put((f + t) / 2), t - f) for f, t in laid]
                opened += laid
                if e.get("middle") is None and l > 0:
                    cut = list(self.into(openings, (loop, i), put, l, wide(e), opened))
                    self.cuts += [(of[i], put((f + t) / 2)) for f, t in cut]
                    opened = opened + cut
                at_ = 0.0
                for f, t in sorted(opened) + [(l, l)]:
                    if f - at_ >= 1.0:
                        self.runs.append((loop, of[i], at_, f, e))
                        w, p, q = wide(e), put(at_), put(f)
                        v = (-(b[1] - a[1]) / l * w, (b[0] - a[0]) / l * w)
                        parts[high(e)].append((Polygon([p, q, (q[0] + v[0], q[1] + v[1]), (p[0] + v[0], p[1] + v[1])]), w))
                        bit = min(8 * w, (f - at_) / 2)
                        if at_ == 0.0:
                            ends[(i, 0)] = put(bit)
                        if f >= l - 1e-9:
                            ends[(i, 1)] = put(l - bit)
                    at_ = max(at_, t)
            for i in range(n):  # at corners between two of them
                k = (i + 1) % n
                if (i, 1) in ends and (k, 0) in ends and wide(edges[i]) == wide(edges[k]):
                    if cross(at[i], at[k], at[(k + 1) % n]) < 0:
                        line = LineString([ends[(i, 1)], at[k], ends[(k, 0)]])
                        parts[max(high(edges[i]), high(edges[k]))].append((line.buffer(wide(edges[i]), cap_style=2, join_style=2, mitre_limit=4), wide(edges[i])))
                elif (i, 1) in ends and (k, 0) in ends:
                    self.even = False
        most = max((w for ps in parts.values() for _, w in ps), default=0)
        self.open = unary_union([d.buffer(most, cap_style=2, single_sided=False) for d in doors]) if doors else Polygon()
        self.levels, so = [], []
        for h in sorted(parts, reverse=True):
            so += [g.intersection(self.slab) for g, _ in parts[h]]
            self.levels.append((h, _areas(unary_union(so).difference(self.open))))
        # A level top lies the curb's height over the highest place of the slab that falls.
        self.plan, top = s.plan, s.plan.data.get("top", {})
        self.level = top.get("curbs") == "level" and any(a or b for a, b, _ in tops.planes(s.plan))
        self.highest = tops.highest(s.plan, self.slab) if self.level else 0.0

    @staticmethod
    def openings(loops, deep):
        """What doors keep open, as far in as the widest curb: with the edge that each is of."""
        for at, edges, _, loop in loops:
            for i, e in enumerate(edges):
                a, b = at[i], at[(i + 1) % len(at)]
                l = math.dist(a, b)
                n = (-(b[1] - a[1]) / l * deep, (b[0] - a[0]) / l * deep)
                for d in e.get("doors", []) if e.get("middle") is None else []:
                    f, t = float(J(d["from"])), float(J(d["from"])) + float(J(d["width"]))
                    p, q = ((a[0] + (b[0] - a[0]) * x / l, a[1] + (b[1] - a[1]) * x / l) for x in (f, t))
                    yield (loop, i), Polygon([p, q, (q[0] + n[0], q[1] + n[1]), (p[0] + n[0], p[1] + n[1])])

    def into(self, openings, edge, put, l, w, opened):
        """Where a curb ends square since the door of another edge opens into it, as beside a sharp
        corner: from the first to the last place along it that the door keeps open."""
        a, b = put(0), put(l)
        n = (-(b[1] - a[1]) / l * w, (b[0] - a[0]) / l * w)
        at = 0.0
        for f, t in sorted(opened) + [(l, l)]:
            if f - at >= 1.0:
                p, q = put(at), put(f)
                band = Polygon([p, q, (q[0] + n[0], q[1] + n[1]), (p[0] + n[0], p[1] + n[1])])
                for of_, o in openings:
                    both = band.intersection(o).intersection(self.slab) if of_ != edge and band.intersects(o) else Polygon()
                    if both.area > 1e-6:
                        along = [((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / l for x, y in both.convex_hull.exterior.coords]
                        yield min(along), max(along)
            at = max(at, t)

    @staticmethod
    def there(plan):
        """What a slab that is poured before, as it stands before in the job file, covers, and the straight
        edges that another one is poured against: not those marked as joints, which wait for the other."""
        rings = [(plan.at, plan.edges)] + [([tuple(float(J(v)) for v in e["at"]) for e in h["edges"]], h["edges"]) for h in plan.data.get("holes", [])]
        lines = [LineString([at[i], at[(i + 1) % len(at)]]) for at, edges in rings for i, e in enumerate(edges) if not e.get("joint") and e.get("middle") is None]
        return Polygon(plan.rim().at, [at for at, _ in rings[1:]]).buffer(0), lines

    @staticmethod
    def against(before, a, b):
        """From where to where along an edge a slab is poured against such ones: their edges lie within a
        sixteenth of it, and they themselves beyond it."""
        line, l = LineString([a, b]), math.dist(a, b)
        for area, lines in before:
            for g in lines:
                on = line.intersection(g.buffer(1 / 16, cap_style=2))
                if on.length < 1:
                    continue
                mid = on.interpolate(0.5, normalized=True)
                if area.contains(Point(mid.x + (b[1] - a[1]) / l / 2, mid.y - (b[0] - a[0]) / l / 2)):
                    yield tuple(sorted(line.project(Point(p)) for p in (on.coords[0], on.coords[-1])))

    def over(self, at):
        """How much higher than its height a curb stands at a place, since the slab lies lower there."""
        return self.highest - self.plan.top(at) if self.level else 0.0

    def most(self, a, b):
        """The same, where it is most along a line."""
        return max(self.over((a[0] + (b[0] - a[0]) * t / 400, a[1] + (b[1] - a[1]) * t / 400)) for t in range(401)) if self.level else 0.0

    def slab_line(self, i):
        """The ends of an edge of the outline."""
        return self.plan.at[i], self.plan.at[(i + 1) % self.plan.n]

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
        out = sum(g.area * (h - low) for (h, g), low in zip(self.levels, hs[1:]))
        if self.level:  # what lies between the heights over the falling top and the level of its highest place
            for g, (a, b, c) in tops.cells(self.plan, self.region):
                out += g.area * (self.highest - a * g.centroid.x - b * g.centroid.y - c)
        return out

    def rise(self, at):
        """How high the curb at a place is; 0 for none."""
        return next((h + self.over(at) for h, g in self.levels if g.buffer(0.01).contains(Point(at))), 0.0)


def of(s):
    if not hasattr(s, "curbs_of"):
        s.curbs_of = Curbs(s)
    return s.curbs_of


def level_boards(s, own, loop, i, f, t, e):
    """The boards of a curb with a level top stand at every place of its outer face, and at the ends
    of each form as high together as the curb: level on top, and below as the slab falls."""
    if loop != 0:
        return
    a, b = own.slab_line(i)
    l = math.dist(a, b)
    u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
    name = "slab %d, edge %d" % (s.number + 1, i + 1)
    along = lambda p: (p[0] - a[0]) * u[0] + (p[1] - a[1]) * u[1]
    forms = [x for x in s.forms if x.get("of") == "curb, outer face" and x["loop"] == 0 and x["edge"] == i]
    reach = [(along(x["boardsat"][0][0]), along(x["boardsat"][-1][1]), x) for x in forms]
    for k in range(int((t - f - 1) / 6) + 1):
        x = f + 0.5 + 6 * k
        if not any(p - 0.1 <= x <= q + 0.1 for p, q, _ in reach):
            yield "curb.form", "%s: no outer board at %.1f" % (name, x)
            return
    for x in (f, t):
        asked = high(e) + own.over((a[0] + u[0] * x, a[1] + u[1] * x))
        stand = 0.0
        for p, q, form in reach:
            if abs(p - x) < 0.1:
                stand += form["depth"] + min(0, form.get("fall", 0))
            elif abs(q - x) < 3.8 and p < x - 0.1 and x == t:  # past an outside corner
                stand += form["depth"] - max(0, form.get("fall", 0))
        if abs(stand - asked) > 0.15:
            yield "curb.form", "%s: at %.1f its boards are %.2f in high, the curb %.2f" % (name, x, stand, asked)
    for x in s.forms:
        if x.get("of") not in ("curb, inner face", "curb, end") or x["loop"] != 0 or x["edge"] != i or x.get("up", 0) or x["depth"] > 11:
            continue
        first, last = x["boardsat"][0][0], x["boardsat"][-1][1]
        for at, stand in ((first, x["depth"] + min(0, x.get("fall", 0))), (last, x["depth"] - max(0, x.get("fall", 0)))):
            if f - 12 <= along(at) <= t + 12 and abs(stand - high(e) - own.over(at)) > 0.2:
                yield "curb.form", "%s: its inner boards are %.2f in high at (%.0f, %.0f), the curb %.2f" % (name, stand, *at, high(e) + own.over(at))


@rule
def curbs(job):
    total = 0.0
    for s in job.slabs:
        own = of(s)
        placed = s.curbs
        name = "slab %d" % (s.number + 1)
        for loop, i, mid, l in own.laid:
            if not job.told(r"has no curb from", mid, l / 2 + 1):
                yield "curb.left-out", "%s, edge %d: its curb stops at the slab before it, and nothing tells so" % (name, i + 1)
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
        for i, at in own.cuts:
            if not job.told(r"curb .* opens into it", at, 6):
                yield "curb.door", "%s, edge %d: its curb ends before a door, and nothing tells so" % (name, i + 1)
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
        for loop, i, f, t, e in own.runs if own.level else []:
            yield from level_boards(s, own, loop, i, f, t, e)
        for loop, i, f, t, e in [] if own.level else own.runs:  # boards on both faces, of each course
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
        if any(high(e) + own.most(*own.slab_line(i)) > 11 for loop, i, _, _, e in own.runs if loop == 0 and own.level):
            pass  # the lowest course of several ends where the slab has come up to the next
        elif abs(sum(x["length"] for x in boards) - within) > 1.6 * len(boards) + 0.5:
            yield "curb.form", "%s: %.1f in of boards within, %.1f in of faces" % (name, sum(x["length"] for x in boards), within)
    for f in job.findings:
        for at in f.places if f.says(r"has no curb from") else []:
            if not any(math.dist(at, mid) <= l / 2 + 1 for s in job.slabs for _, _, mid, l in of(s).laid):
                yield "curb.told", "none is said to stand at (%.0f, %.0f), where no slab is before this one" % at
    unit = 0.0254 ** 3 if job.metric else 1 / 46656
    listed = sum(l["value"] for l in job.takeoff["lines"] if l["what"]["kind"] == "concrete in curbs")
    if all(of(s).even for s in job.slabs) and abs(listed - total * unit) > 1e-4 * total * unit + 1e-6:
        yield "curb.volume", "%.6f taken off, %.6f by areas" % (listed, total * unit)


def room_from(s, own, i, at, way, w, cover, up):
    """How far from an end of a curb an upright bar by its inner face, one bar's breadth off its
    cover there, first has its cover to all faces of the slab: not at once where the corner is sharp."""
    a, b = own.slab_line(i)
    l = math.dist(a, b)
    u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
    db = BAR[measure.bar(up)]
    rim = own.slab.boundary
    for k in range(int(l)):
        x = at + way * k
        p = Point(a[0] + u[0] * x - u[1] * (w - cover - db / 2), a[1] + u[1] * x + u[0] * (w - cover - db / 2))
        if own.slab.contains(p) and rim.distance(p) >= cover + db / 2:
            return k
    return l


@rule
def steel(job):
    """Bars of curbs have 1 1/2 in to the top and the faces (ACI 318-19 table 20.5.1.3.1, formed;
    40 mm in metric jobs) and run along all of each; upright ones at most as far apart as the job
    asks, in curbs higher than it says."""
    place = job.job.get("spec", {}).get("place", {}).get("curbs", {})
    cover = float(J(place.get("cover", '1 1/2"')))
    count, spacing, above = place.get("count", 1), float(J(place.get("spacing", "4'"))), float(J(place.get("above", '12"')))
    up, size = place.get("upright", 4), place.get("size", 4)
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
            falls = [own.over(p) - own.over(b.path[0]) for p in b.path]
            top = min(z + o for z, o in zip(b.depths, falls)) - (b.db / 2 if b.row.startswith("curb") else 0) + own.rise(b.path[0])
            if own.level:
                # Along a level top a bar lies level; upright ones may be of few lengths, 2 in apart. One
                # that runs into a corner lies under the higher curb there: its own is the lowest on its way.
                under = min((own.rise(p) - own.over(p) for p, _ in b.points(12.0) if own.rise(p)), default=0.0) if b.row.startswith("curb") else own.rise(b.path[0]) - own.over(b.path[0])
                low = top - own.rise(b.path[0]) + own.over(b.path[0]) + under
                if under and low > cover + (2.05 if b.row.startswith("upright") else 0.05):
                    yield "curb.low", "%s: bar %s lies %.2f in under the top" % (name, b.mark, low)
            if own.level and b.row.startswith("curb") and max(z + o for z, o in zip(b.depths, falls)) - min(z + o for z, o in zip(b.depths, falls)) > 0.05:
                yield "curb.slant", "%s: bar %s is not level" % (name, b.mark)
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
            # Into a sharp corner no bar goes further than it has its cover to both faces.
            half = cover + BAR[measure.bar(size)] / 2
            ends = [max(3, w) + 1] * 2
            for n, (k, near) in enumerate(((i, f < 0.1), ((i + 1) % s.plan.n, t > l - 0.1))):
                corner = s.plan.at[k - 1], s.plan.at[k], s.plan.at[(k + 1) % s.plan.n]
                if near and cross(*corner) > 0 and not s.plan.middle(k - 1) and not s.plan.middle(k):
                    sides = math.dist(corner[0], corner[1]), math.dist(corner[1], corner[2])
                    turn = math.asin(min(1, cross(*corner) / sides[0] / sides[1]))
                    if sum((q - p) * (r - q) for p, q, r in zip(*corner)) < 0:
                        turn = math.pi - turn
                    ends[n] = max(ends[n], half / math.tan((math.pi - turn) / 2) + 1)
            at = f + ends[0]
            for x, y in spans:
                if x <= at + 0.3:
                    at = max(at, y)
            if count and room and t - f > 24 and at < t - ends[1] and not job.told(r"curb", ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), l):
                yield "curb.bar", "%s, edge %d: no bar from %.1f to %.1f" % (name, i + 1, at, t)
            ups = sorted(along(x.path[0]) for x in s.bars if x.row == "upright in curbs" and 0 < off(x.path[0]) < w and f < along(x.path[0]) < t)
            stands = high(e) + own.most(*(tuple(p + d * x for p, d in zip(a, u)) for x in (f, t)))
            if abs(stands - above) < 0.02 and own.level:
                continue
            if up and stands > above and w > 5:
                # Round a jog the curb runs on: the bars beside its ends, 12 in off, are near enough,
                # as where no place along a jog has its cover to the faces beside it.
                n = s.plan.n
                beside = any(r[:2] == (0, (i - 1) % n) and r[3] > math.dist(*own.slab_line((i - 1) % n)) - 0.1 for r in own.runs) and any(r[:2] == (0, (i + 1) % n) and r[2] < 0.1 for r in own.runs)
                if t - f <= 12 and (beside and f < 0.1 and t > l - 0.1 and t - f + 24 <= spacing or room_from(s, own, i, f, 1, w, cover, up) >= t - f):
                    continue
                if not ups or max([y - x for x, y in zip(ups, ups[1:])] + [0]) > spacing + 0.07 or ups[0] - f > max(12, room_from(s, own, i, f, 1, w, cover, up)) + 1.1 or t - ups[-1] > max(12, room_from(s, own, i, t, -1, w, cover, up)) + 1.1:
                    if not job.told(r"curb", ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), l):
                        yield "curb.upright", "%s, edge %d: upright bars at %s" % (name, i + 1, ["%.1f" % x for x in ups])
            elif ups and stands <= above:
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
