"""Rules of bars and dowels."""

import math
import re
from collections import Counter, defaultdict

import depth
import measure
import slab as slabs
from measure import job_length as J
from slab import BAR, dowel

STEEL = []


def rule(f):
    STEEL.append(f)
    return f


# ---- cover

# ACI 318-19 table 20.5.1.3.1: cast against and permanently in contact with ground
# 3 in; exposed to weather or in contact with ground 1-1/2 in for No. 5 and smaller,
# 2 in for No. 6 and larger. ACI 318M-19: 75, 40 and 50 mm.
def ground_cover(metric):
    return 75 / 25.4 if metric else 3.0


def face_cover(size, metric):
    if metric:
        return (40 if BAR[size] <= 16 / 25.4 else 50) / 25.4
    return 1.5 if BAR[size] <= 16 / 25.4 else 2.0


EDGE_BARS = r"edge row|pad|strip"

# How a finding speaks of each.
WORDS = {
    "cover.ground": r"to the (ground|bottom|underside)|left to the|slope|beyond section",
    "cover.face": r"from the face|to the face|past the face",
    "cover.top": r"to the top|below the top|beyond section",
}


@rule
def cover(job):
    for s in job.slabs:
        if s.plan.data.get("trench") == "board" or s.plan.data.get("base") == "level":
            continue  # dug otherwise than to the sections' depth
        under = depth.Underside(s.plan)
        worst = {}  # kind, row, edge -> the least clear distance and where
        for b in s.bars:
            if not re.match(EDGE_BARS, b.row):
                continue
            points = [(p[0], p[1], z) for p, z in b.points(6.0)]
            clear = depth.clearance(under, points) - b.db / 2
            face, edge = depth.from_edges(s.plan, points)
            for (x, y, z), c, f, e in zip(points, clear, face - b.db / 2, edge):
                least = {"cover.ground": (c, ground_cover(job.metric) - 0.1), "cover.top": (z - b.db / 2, 0.73)}
                if not s.plan.edges[e].get("joint"):
                    least["cover.face"] = (f, face_cover(b.size, job.metric) - 0.05)
                for kind, (have, want) in least.items():
                    key = (kind, b.row, int(e))
                    if have < want and (key not in worst or have < worst[key][0]):
                        worst[key] = (have, want, x, y, z)
        for (kind, row, e), (have, want, x, y, z) in worst.items():
            # One finding may speak of a row all round.
            words = WORDS[kind]
            n = re.search(r"\d+$", row)
            round_ = n and any(f.says(words) and f.says(r"\brow %s\b" % n[0]) for f in job.findings)
            if not round_ and not job.told(words, (x, y), 240):
                yield kind, "slab %d, %s, edge %d: %.2f in of %.2f at (%.1f, %.1f), %.2f deep" % (s.number + 1, row, e + 1, have, want, x, y, z)


# ---- laps

class Run:
    """A straight piece of a bar."""

    def __init__(self, bar, a, b, za, zb):
        self.bar, self.a, self.b, self.za, self.zb = bar, a, b, za, zb
        self.l = math.dist(a, b)
        self.u = ((b[0] - a[0]) / self.l, (b[1] - a[1]) / self.l)


def runs(bar):
    for i in range(len(bar.path) - 1):
        if math.dist(bar.path[i], bar.path[i + 1]) > 0.002:  # along arcs a lap may end with a stretch so short
            yield Run(bar, bar.path[i], bar.path[i + 1], bar.depths[i], bar.depths[i + 1])


def beside(p, q):
    """The stretch of run p along which run q lies beside it, as two distances from p's start."""
    if abs(p.u[0] * q.u[1] - p.u[1] * q.u[0]) > 0.02:
        return None
    w = lambda r: ((r[0] - p.a[0]) * p.u[0] + (r[1] - p.a[1]) * p.u[1], -(r[0] - p.a[0]) * p.u[1] + (r[1] - p.a[1]) * p.u[0])
    (s0, d0), (s1, d1) = w(q.a), w(q.b)
    reach = 2 * max(p.bar.db, q.bar.db) + 0.3
    if abs(d0) > reach or abs(d1) > reach:
        return None
    lo, hi = max(0.0, min(s0, s1)), min(p.l, max(s0, s1))
    return (lo, hi) if hi > lo + 0.001 else None


class Lap:
    def __init__(self, row, size, run, lo, hi, depth_):
        self.row, self.size, self.run, self.lo, self.hi, self.depth = row, size, run, lo, hi, depth_
        at = lambda t: (run.a[0] + run.u[0] * t, run.a[1] + run.u[1] * t)
        self.a, self.b = at(lo), at(hi)
        self.mid = at((lo + hi) / 2)

    @property
    def length(self):
        return self.hi - self.lo


def laps(s):
    """Laps of the edge rows: two bars of a row that lie side by side, whole stretches together."""
    rows = defaultdict(list)
    for b in s.bars:
        m = re.match(r"edge row (\d+)", b.row)
        if m:
            rows[int(m[1])].append(b)
    out = []
    for n, bars in rows.items():
        cells = defaultdict(list)
        for k, b in enumerate(bars):
            for r in runs(b):
                r.bar_index = k
                for t in range(int(r.l // 24) + 2):
                    t = min(t * 24, r.l)
                    cells[(round((r.a[0] + r.u[0] * t) / 36), round((r.a[1] + r.u[1] * t) / 36))].append(r)
        pairs = set()
        for (cx, cy), here in cells.items():
            near = [r for dx in (-1, 0, 1) for dy in (-1, 0, 1) for r in cells.get((cx + dx, cy + dy), [])]
            for p in here:
                for q in near:
                    if p.bar_index < q.bar_index:
                        pairs.add((id(p), id(q), p, q))
        together = defaultdict(list)
        for _, _, p, q in sorted(pairs, key=lambda x: (x[2].bar_index, x[3].bar_index, x[2].a, x[3].a)):
            c = beside(p, q)
            if c:
                together[(p.bar_index, q.bar_index)].append((p, c))
        for (i, k), cs in together.items():
            # A lap may bend up or down with the haunch: stretches that touch are one.
            p, (lo, hi) = max(cs, key=lambda x: x[1][1] - x[1][0])
            total = sum(c[1] - c[0] for _, c in cs)
            z = min(p.za + (p.zb - p.za) * t / p.l for t in (lo, hi))
            l = Lap(n, bars[i].size, p, lo, hi, z)
            l.total, l.bars = total, (bars[i], bars[k])
            out.append(l)
    return out


@rule
def lap_length(job):
    """ACI 318-19 25.5.2.1 with 25.4.2.3, or the rule that the job asks for; never below 12 in."""
    for s in job.slabs:
        under = depth.Underside(s.plan)
        found = laps(s)
        long = defaultdict(set)
        for l in found:
            if l.total > 12:
                for x, y in (l.bars, l.bars[::-1]):
                    long[id(x)].add(id(y))
        for l in found:
            deep = float(under.at([l.mid[0]], [l.mid[1]])[0])
            top = deep - l.depth - BAR[l.size] / 2 > 12.0 + 0.01
            need = slabs.lap(job.job, l.size, top)
            # Two bars that a third joins may lie beside each other for less.
            if l.total < need - 2 and long[id(l.bars[0])] & long[id(l.bars[1])]:
                continue
            if l.total < need - 0.02 and not job.told(r"\blaps?\b", l.mid, 60):
                yield ("lap.short" if l.total > need - 2 else "lap.far-short"), "slab %d, row %d: %.3f in of %.3f at (%.1f, %.1f)" % (s.number + 1, l.row, l.total, need, *l.mid)
    if job.of("spec.place.bars.lap.rule") == "length" and job.length("spec.place.bars.lap.length") < 12 and \
            any(s.bars for s in job.slabs) and not any(f.says(r"\blaps?\b.*12 in|\blap\b.*least|25\.5\.2\.1") for f in job.findings):
        yield "lap.typed", "a lap of %.1f in is typed, 12 in are the least (25.5.2.1), and nothing tells so" % job.length("spec.place.bars.lap.length")


@rule
def lap_stagger(job):
    """Laps of neighboring rows stand clear of each other by what the sheet says. Common practice."""
    stagger = job.job.get("spec", {}).get("place", {}).get("bars", {}).get("stagger")
    stagger = float(J(stagger)) if stagger is not None else 12.0
    if stagger <= 0:
        return
    for s in job.slabs:
        found = laps(s)
        for i, a in enumerate(found):
            for b in found[i + 1:]:
                if abs(a.row - b.row) != 1 or abs(a.run.u[0] * b.run.u[1] - a.run.u[1] * b.run.u[0]) > 0.05:
                    continue
                along = lambda p: (p[0] - a.a[0]) * a.run.u[0] + (p[1] - a.a[1]) * a.run.u[1]
                off = lambda p: abs(-(p[0] - a.a[0]) * a.run.u[1] + (p[1] - a.a[1]) * a.run.u[0])
                if off(b.mid) > 24:
                    continue
                lo, hi = sorted((along(b.a), along(b.b)))
                gap = max(lo - a.length, -hi)
                if gap < stagger - 0.1 and not job.told(r"\blaps?\b", a.mid, 120) and not job.told(r"\blaps?\b", b.mid, 120):
                    yield "lap.beside", "slab %d, rows %d and %d: laps %.1f in clear of each other of %.1f at (%.1f, %.1f)" % (s.number + 1, a.row, b.row, gap, stagger, *a.mid)


def _jog(p, k):
    """Whether an edge is shorter than 7 in and the edges beside it run on alike, within 15 degrees."""
    a, b = p.at[k - 1], p.at[k]
    c, d = p.at[(k + 1) % p.n], p.at[(k + 2) % p.n]
    turn = math.atan2(d[1] - c[1], d[0] - c[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
    return math.dist(b, c) < 7 and abs(math.remainder(turn, 2 * math.pi)) <= math.radians(15)


def _past(b, c, u):
    """Whether a bar runs past a place, a foot on either side along a direction."""
    near = [q for q in b.path if abs((q[0] - c[0]) * u[1] - (q[1] - c[1]) * u[0]) < 36]
    along = [(q[0] - c[0]) * u[0] + (q[1] - c[1]) * u[1] for q in near]
    return bool(along) and min(along) < -12 and max(along) > 12


@rule
def corners(job):
    """Rows go on round every corner between two haunched edges: bent, lapped or crossed. Common practice."""
    for s in job.slabs:
        p = s.plan.rim()
        rows = sorted({int(re.match(r"edge row (\d+)", b.row)[1]) for b in s.bars if b.row.startswith("edge row")})
        for k in range(p.n):
            if not (p.edges[k].get("section") and p.edges[k - 1].get("section")):
                continue
            if p.edges[k].get("joint") or p.edges[k - 1].get("joint"):
                continue
            c = p.at[k]
            a, d = p.at[k - 1], p.at[(k + 1) % p.n]
            u = ((a[0] - c[0]) / math.dist(a, c), (a[1] - c[1]) / math.dist(a, c))
            v = ((d[0] - c[0]) / math.dist(d, c), (d[1] - c[1]) / math.dist(d, c))
            inner = math.degrees(math.acos(max(-1, min(1, u[0] * v[0] + u[1] * v[1]))))
            if inner > 175:
                continue
            reach = 60 / max(math.sin(math.radians(inner) / 2), 0.15)
            for n in rows:
                bars = [b for b in s.bars if b.row == "edge row %d" % n]
                bent = any(math.dist(q, c) < reach for b in bars for q in b.path[1:-1] if _turns(b, q, u, v))
                if bent:
                    continue
                # Or, where the job asks for it, two bars that cross, one along each edge.
                one = [r for b in bars for r in runs(b) if abs(r.u[0] * u[1] - r.u[1] * u[0]) < 0.05 and min(math.dist(r.a, c), math.dist(r.b, c)) < reach]
                two = [r for b in bars for r in runs(b) if abs(r.u[0] * v[1] - r.u[1] * v[0]) < 0.05 and min(math.dist(r.a, c), math.dist(r.b, c)) < reach]
                if job.job.get("spec", {}).get("place", {}).get("bars", {}).get("corner") == "crossed" and \
                        any(_meet(x, y) for x in one for y in two if x.bar is not y.bar):
                    continue
                # Or a row that runs past a jog too short for a plate with bolts, slanting.
                if any(_jog(p, e) for e in (k, (k - 1) % p.n)) and any(_past(b, c, w) for b in bars for w in (u, v)):
                    continue
                if not job.told(r"\bcorner\b|\bbent\b|\blap\b", c, 96):
                    yield "corner.open", "slab %d, corner %d of %.0f degrees: row %d is neither bent nor lapped" % (s.number + 1, p.of[k] + 1, inner, n)


def _turns(bar, q, u, v):
    i = bar.path.index(q)
    a, b = bar.path[i - 1], bar.path[i + 1]
    p = ((q[0] - a[0]), (q[1] - a[1]))
    r = ((b[0] - q[0]), (b[1] - q[1]))
    lp, lr = math.hypot(*p), math.hypot(*r)
    if lp < 0.05 or lr < 0.05:
        return False
    para = lambda x, l, y: abs(x[0] * y[1] - x[1] * y[0]) / l < 0.05
    return para(p, lp, u) and para(r, lr, v) or para(p, lp, v) and para(r, lr, u)


def _meet(x, y):
    """Whether two runs cross or end within a hand's width of each other."""
    d = x.u[0] * y.u[1] - x.u[1] * y.u[0]
    if abs(d) < 1e-6:
        return False
    w = (y.a[0] - x.a[0], y.a[1] - x.a[1])
    s, t = (w[0] * y.u[1] - w[1] * y.u[0]) / d, (w[0] * x.u[1] - w[1] * x.u[0]) / d
    return -4 <= s <= x.l + 4 and -4 <= t <= y.l + 4


# ---- dowels

@rule
def dowels(job):
    if not any(s.dowels for s in job.slabs):
        return
    length, embed, spacing = (job.length(dowel(job.job, what)) for what in ("length", "embed", "spacing"))
    plates = job.of("spec.place.dowels.kind") == "plates"
    size = measure.bar(job.of("spec.place.dowels.size"))
    wide = job.length("spec.place.dowels.width") if plates else 0
    # Common practice, no source: half on each side; less than 8 diameters, or 5 in of a plate, holds nothing.
    least = 5 if plates else 8 * BAR[size]
    if embed < least - 0.01 and not any(f.says(r"\bdowel") and f.says(r"embed|old slab|deep in|diameters") for f in job.findings):
        yield "dowel.embed", "dowels reach %.1f in into the old slab, %.1f are the least, and nothing tells so" % (embed, least)
    for s in job.slabs:
        by_edge = defaultdict(list)
        for d in s.dowels:
            by_edge[d["edge"]].append(d)
            if abs(math.dist(d["at"], d["outer"]) - embed) > 0.05 or abs(math.dist(d["outer"], d["inner"]) - length) > 0.05:
                yield "dowel.length", "slab %d, edge %d: %.2f in the old slab of %.2f, %.2f long of %.2f" % (
                    s.number + 1, d["edge"] + 1, math.dist(d["at"], d["outer"]), embed, math.dist(d["outer"], d["inner"]), length)
            f, e = depth.from_edges(s.plan, [(d["inner"][0], d["inner"][1], 0)])
            if not s.plan.inside(d["inner"]) and not job.told(r"\bdowel", d["at"], 60):
                yield "dowel.off-slab", "slab %d, edge %d: the dowel at %.1f in ends off the slab" % (s.number + 1, d["edge"] + 1, d["along"])
            elif e[0] != d["edge"] and f[0] < face_cover(size, job.metric) + wide / 2 - 0.05 and not job.told(r"\bdowel", d["at"], 60):
                yield "dowel.cover", "slab %d, edge %d: the dowel at %.1f in is %.2f in from edge %d" % (s.number + 1, d["edge"] + 1, d["along"], f[0], e[0] + 1)
        clear = job.job.get("spec", {}).get("place", {}).get("dowels", {}).get("cleardoors", False)
        for e, ds in by_edge.items():
            ds.sort(key=lambda d: d["along"])
            for a, b in zip(ds, ds[1:]):
                if any(a["along"] < x["to"] and b["along"] > x["to"] for x in s.meetings if x["loop"] == 0 and x["edge"] == e + 1):
                    continue  # of two stretches against other slabs
                if b["along"] - a["along"] > spacing + 0.07 and not (clear and s.plan.edges[e].get("doors")) and not job.told(r"\bdowel", b["at"], 60):
                    yield "dowel.spacing", "slab %d, edge %d: %.2f in between dowels, %.1f at most" % (s.number + 1, e + 1, b["along"] - a["along"], spacing)


@rule
def mesh_stops(job):
    """Mesh ends at a construction joint at which the steel of the field stops: by common practice
    one with dowels that slide."""
    for s in job.slabs:
        drawn = s.plan.data.get("construction", [])
        for c, lines in zip(drawn, s.joint_lines):
            how = c.get("steel", "usual")
            if how == "through" or how == "usual" and c["kind"] != "doweled":
                continue
            for a, b in lines:
                l = math.dist(a, b)
                u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
                for ring in s.mesh:
                    along = [(q[0] - a[0]) * u[0] + (q[1] - a[1]) * u[1] for q in ring]
                    off = [(q[1] - a[1]) * u[0] - (q[0] - a[0]) * u[1] for q in ring]
                    if min(along) < l - 1 and max(along) > 1 and min(off) < -0.1 and max(off) > 0.1:
                        yield "mesh.joint", "slab %d: a sheet lies over a joint that steel stops at" % (s.number + 1)
                        break


# ---- cutting

@rule
def cutting(job):
    """The cutting list is whole, and as little is bought as a plain search finds."""
    kerf = float(J(job.job.get("spec", {}).get("place", {}).get("bars", {}).get("kerf", "0")))
    stock = {
        "bars": [float(J(x)) for x in job.job.get("spec", {}).get("place", {}).get("bars", {}).get("stock", ["20'"])],
        "boards": [float(J(x)) for x in job.job.get("spec", {}).get("place", {}).get("forms", {}).get("stock", ["10'", "12'", "16'"])],
        "plates": [float(J(job.job.get("spec", {}).get("place", {}).get("bolts", {}).get("stock", "16'")))],
    }
    if job.job.get("spec", {}).get("place", {}).get("bars", {}).get("yard"):
        return
    for c in job.cutting:
        k = kerf if c["name"] == "bars" else 0.0
        names = defaultdict(list)
        for st in c["stock"]:
            used = sum(l for _, l in st["pieces"]) + k * max(len(st["pieces"]) - 1, 0)
            if used > st["length"] + 0.01:
                yield "cut.too-long", "%s: %.2f in from a stick of %.1f" % (st["name"], used, st["length"])
            names[st["name"]].append(st)
        for name, sticks in names.items():
            bought = sum(st["length"] for st in sticks)
            pieces = sorted((l for st in sticks for _, l in st["pieces"]), reverse=True)
            best = fewest(pieces, sorted(stock[c["name"]]), k)
            # A list that is not proven says how much less might do.
            if best < bought - 0.5 and (c["optimal"] or c["bound"] > total(c) - (bought - best) + 0.5):
                yield "cut.not-least", "%s: %.0f in bought, %.0f will do%s" % (name, bought, best, ", though the list says none less" if c["optimal"] else "")
        if c["name"] == "bars":
            placed = Counter(b.mark for s in job.slabs for b in s.bars)
            cut = Counter(m for st in c["stock"] for m, _ in st["pieces"])
            for mark, n in placed.items():
                if cut[mark] != n:
                    yield "cut.pieces", "%s: %d placed, %d cut" % (mark, n, cut[mark])
        have = {m: l for st in c["stock"] for m, l in st["pieces"]}
        as_printed = (0.5 / 25.4 if job.metric else 1 / 32) + 1e-6
        if c["name"] == "boards":
            for s in job.slabs:
                for f in s.forms:
                    for i, b in enumerate(f["boards"]):
                        l = have.get("%s.%d" % (f["mark"], i + 1))
                        if l is None:
                            yield "cut.pieces", "board %s.%d is placed and not cut" % (f["mark"], i + 1)
                        elif abs(l - b) > as_printed:
                            yield "cut.two-lengths", "board %s.%d is %.4f in long as placed, %.4f as cut" % (f["mark"], i + 1, b, l)
        if c["name"] == "plates":
            for s in job.slabs:
                for w in s.walls:
                    for i, (a, b, _) in enumerate(w.pieces):
                        l = have.get("%s.%d" % (w.name.split()[-1], i + 1))
                        if l is None:
                            yield "cut.pieces", "plate %s.%d is placed and not cut" % (w.name, i + 1)
                        elif abs(l - (b - a)) > as_printed:
                            yield "cut.two-lengths", "plate %s.%d is %.4f in long as placed, %.4f as cut" % (w.name, i + 1, b - a, l)


def total(c):
    """What a whole list buys."""
    return sum(st["length"] for st in c["stock"] if not st.get("yard"))


def fewest(pieces, stock, kerf):
    """Stock in inches that best fit, longest first, takes: the least of a few orders."""
    best = math.inf
    for sizes in [[s] for s in stock] + ([stock] if len(stock) > 1 else []):
        if not pieces or pieces[0] > max(sizes) + 1e-6:
            continue
        best = min(best, _best_fit(pieces, sizes, kerf), _fill(pieces, sizes, kerf))
    return best


def _best_fit(pieces, sizes, kerf):
    bins = []  # room left, used
    big = max(sizes)
    for p in pieces:
        fit = [i for i, b in enumerate(bins) if b + 1e-6 >= p]
        if fit:
            i = min(fit, key=lambda i: bins[i])
            bins[i] -= p + kerf
        else:
            bins.append(big - p - kerf)
    total = 0.0
    for b in bins:
        used = big - b - kerf
        total += min(s for s in sizes if s + 1e-6 >= used)
    return total


def _fill(pieces, sizes, kerf):
    """Each stick filled as full as can be, by what sums are reachable."""
    unit = 0.0005 / 25.4  # so fine that no length of the lists is rounded
    left = Counter(round(p / unit) for p in pieces)
    total = 0.0
    k = round(kerf / unit)
    while left:
        choice = None
        for s in sizes:
            room = round(s / unit) + k
            first = max(left)
            if first + k > room:
                continue
            reach = {first + k: (None, first)}
            order = sorted(left.elements(), reverse=True)
            order.remove(first)
            for p in order[:60]:
                for total_, _ in list(reach.items()):
                    n = total_ + p + k
                    if n <= room and n not in reach:
                        reach[n] = (total_, p)
                if room in reach or len(reach) > 4000:
                    break
            full = max(reach)
            waste = (room - full) / room
            if choice is None or waste < choice[0] - 1e-12:
                used, n = [], full
                while n is not None:
                    n, p = reach[n]
                    used.append(p)
                choice = (waste, s, used)
        _, s, used = choice
        total += s
        for p in used:
            left[p] -= 1
            if left[p] <= 0:
                del left[p]
    return total
