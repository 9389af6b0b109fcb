"""Rules of sill plates, anchor bolts and form boards."""

import math
from collections import defaultdict

import curbs
import depth
from measure import job_length as J
from slab import DRESSED

WOOD = []


def rule(f):
    WOOD.append(f)
    return f


# IRC R403.1.6: anchor bolts at most 6 ft apart; at least two in each plate piece,
# with one not more than 12 in and not less than seven bolt diameters from each end;
# at least 7 in into concrete. IRC in its metric figures: 1829, 305 mm, 178 mm.
SPACING, END, DIAMETERS, EMBED = 72.0, 12.0, 7, 7.0


def on_wall(s, w, t):
    """The place on a wall's edge at a running distance from its start."""
    if w.line is None:
        return None
    a, b = w.line
    l = math.dist(a, b)
    return a[0] + (b[0] - a[0]) * t / l, a[1] + (b[1] - a[1]) * t / l


@rule
def bolts(job):
    d = job.length("spec.place.bolts.diameter")
    up, long = job.length("spec.place.bolts.projection"), job.length("spec.place.bolts.length")
    tol = 0.03 if not job.metric else 0.021
    said = r"\bbolts?\b|\bplate\b"
    for s in job.slabs:
        under = depth.Underside(s.plan)
        level = s.plan.data.get("trench") != "board"
        for w in s.walls:
            if w.line is None:
                continue
            doors = [(float(J(x["from"])), float(J(x["from"])) + float(J(x["width"]))) for x in w.doors]
            name = "slab %d, %s" % (s.number + 1, w.name)
            for n, (a, b, _) in enumerate(w.pieces):
                mine = sorted(x.along for x in w.bolts if a - tol <= x.along <= b + tol and not x.holddown)
                mid = on_wall(s, w, (a + b) / 2)
                reach = (b - a) / 2 + 24
                if len(mine) < 2:
                    if not job.told(said, mid, reach):
                        yield "bolt.two", "%s, piece %d (%.1f to %.1f): %d bolts" % (name, n + 1, a, b, len(mine))
                    continue
                for gap, what in ((mine[0] - a, "start"), (b - mine[-1], "end")):
                    if (gap > END + tol or gap < DIAMETERS * d - tol) and not job.told(said, mid, reach):
                        yield "bolt.end", "%s, piece %d (%.1f to %.1f): %.3f in from its %s" % (name, n + 1, a, b, gap, what)
                for x, y in zip(mine, mine[1:]):
                    if y - x > SPACING + tol and not job.told(said, on_wall(s, w, (x + y) / 2), reach):
                        yield "bolt.spacing", "%s: %.2f in between bolts at %.1f and %.1f" % (name, y - x, x, y)
            for x in w.bolts:
                if any(p + 0.1 < x.along < q - 0.1 for p, q in doors) and not job.told(said, x.at, 48):
                    yield "bolt.door", "%s: bolt %s stands in a door opening" % (name, x.mark)
                if not s.plan.inside(x.at):
                    if not job.told(said, x.at, 48):
                        yield "bolt.off-slab", "%s: bolt %s at %.1f is not on the slab" % (name, x.mark, x.along)
                    continue
                deep = float(under.at([x.at[0]], [x.at[1]])[0])
                tip = long - up - curbs.of(s).rise(x.at)  # below the slab's top
                if level and tip > deep + 0.01 and not any(f.severe and f.says(r"\bbolt") and (any(math.dist(p, x.at) < 48 for p in f.places) or tells_of(s, w, f)) for f in job.findings):
                    yield "bolt.in-ground", "%s: bolt %s reaches %.2f in down where the slab is %.2f deep, and no severe finding tells so" % (name, x.mark, tip, deep)
                if long - up < EMBED - tol and not any(f.says(r"\bbolt") and f.says(r"embed|into concrete|in concrete|deep in") for f in job.findings):
                    yield "bolt.embed", "%s: bolt %s has %.2f in of concrete, 7 are asked" % (name, x.mark, tip)
                near = touch(s, x, d, tip)  # one finding may tell it of a wall's bolts together
                meets = r"\bbolt\b.*\bbars?\b|\bbar\b.*\bbolt"
                if near is not None and near <= 0.005 and not job.told(meets, x.at, 24) and not any(f.says(r"\d+ bolts.*\bbar\b") and tells_of(s, w, f) for f in job.findings):
                    yield ("bolt.touches" if near > -0.005 else "bolt.meets"), "%s: the shaft of bolt %s is %.3f in clear of a bar" % (name, x.mark, near)


def tells_of(s, w, f):
    """Whether a finding has a place on a wall: one may tell of the bolts of several."""
    a, b = on_wall(s, w, 0), on_wall(s, w, w.length)
    l = math.dist(a, b) or 1
    u = ((b[0] - a[0]) / l, (b[1] - a[1]) / l)
    for p in f.places:
        along = (p[0] - a[0]) * u[0] + (p[1] - a[1]) * u[1]
        if -1 < along < l + 1 and abs(-(p[0] - a[0]) * u[1] + (p[1] - a[1]) * u[0]) < 6:
            return True
    return False


def touch(s, bolt, d, tip):
    """Clear distance of a bolt's shaft from the nearest bar that is not below its tip."""
    best = None
    x, y = bolt.at
    for b in s.bars:
        for i in range(len(b.path) - 1):
            (x0, y0), (x1, y1) = b.path[i], b.path[i + 1]
            if min(x0, x1) - 2 > x or max(x0, x1) + 2 < x or min(y0, y1) - 2 > y or max(y0, y1) + 2 < y:
                continue
            l2 = (x1 - x0) ** 2 + (y1 - y0) ** 2
            if l2 == 0:
                continue
            t = min(max(((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / l2, 0), 1)
            z = b.depths[i] + (b.depths[i + 1] - b.depths[i]) * t
            if z - b.db / 2 > tip:
                continue
            c = math.dist((x, y), (x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)) - d / 2 - b.db / 2
            best = c if best is None else min(best, c)
    return best


@rule
def plates(job):
    for s in job.slabs:
        p = s.plan
        walls = {w.edge: w for w in s.walls if w.loop == 0}
        stock = float(J(job.job.get("spec", {}).get("place", {}).get("bolts", {}).get("stock", "16'")))
        jamb = float(J(job.job.get("spec", {}).get("place", {}).get("bolts", {}).get("jamb", "0")))
        for k in range(p.n):
            a, b = walls.get((k - 1) % p.n), walls.get(k)
            if a is None or b is None:
                continue
            c = p.at[k]
            u = _unit(c, p.at[k - 1])
            v = _unit(c, p.at[(k + 1) % p.n])
            turn = u[0] * v[1] - u[1] * v[0]
            if abs(turn) < 0.2 or -turn < 0:  # straight on, or an inside corner
                continue
            sharp = math.degrees(math.acos(max(-1, min(1, u[0] * v[0] + u[1] * v[1]))))
            if sharp < 60:
                continue
            at_corner = [x for x in p.edges[k].get("doors", []) if float(J(x["from"])) < 0.1] + \
                [x for x in p.edges[k - 1].get("doors", []) if float(J(x["from"])) + float(J(x["width"])) > p.length((k - 1) % p.n) - 0.1]
            # Beside the corner along either edge, a hair inside.
            points = [(c[0] + 0.5 * u[0] + 0.1 * u[1], c[1] + 0.5 * u[1] - 0.1 * u[0]), (c[0] + 0.5 * v[0] - 0.1 * v[1], c[1] + 0.5 * v[1] + 0.1 * v[0])]
            covered = all(any(_in(ring, q) for w in s.walls for _, _, ring in w.pieces) for q in points)
            if not at_corner and not covered and not job.told(r"\bplate\b", c, 36):
                yield "plate.corner", "slab %d, corner %d: no plate stands in it" % (s.number + 1, k + 1)
        for w in s.walls:
            for n, (a, b, ring) in enumerate(w.pieces):
                if b - a > stock + 0.07:
                    yield "plate.stock", "slab %d, %s, piece %d: %.2f in of stock %.1f" % (s.number + 1, w.name, n + 1, b - a, stock)
            if w.loop != 0:
                continue
            doors = sorted((float(J(x["from"])) - jamb, float(J(x["from"])) + float(J(x["width"])) + jamb) for x in p.edges[w.edge].get("doors", []))
            for n, (a, b, _) in enumerate(w.pieces):
                for f, t in doors:
                    if min(b, t - jamb) - max(a, f + jamb) > 0.05:
                        yield "plate.door", "slab %d, %s, piece %d runs into a door" % (s.number + 1, w.name, n + 1)
            # What no plate covers but doors and, at corners, the width of the other wall's plate.
            width = max([DRESSED.get(x.plate, 5.5) for x in s.walls])
            at = 0.0
            for f, t in sorted([(a, b) for a, b, _ in w.pieces] + doors):
                if f - at > 0.07 and not (at == 0.0 and f <= 3 * width) and not job.told(r"\bplate\b", on_wall(s, w, min(max((at + f) / 2, 0), w.length)), 36):
                    yield "plate.gap", "slab %d, %s: nothing from %.2f to %.2f" % (s.number + 1, w.name, at, f)
                at = max(at, t)
            if w.length - at > 3 * width and not job.told(r"\bplate\b", on_wall(s, w, (at + w.length) / 2), 36):
                yield "plate.gap", "slab %d, %s: nothing from %.2f to its end" % (s.number + 1, w.name, at)


def _unit(a, b):
    l = math.dist(a, b)
    return (b[0] - a[0]) / l, (b[1] - a[1]) / l


def _in(ring, p):
    c = False
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1]):
        if (y0 > p[1]) != (y1 > p[1]) and p[0] < (x1 - x0) * (p[1] - y0) / (y1 - y0) + x0:
            c = not c
    return c


@rule
def within(job):
    """Walls along lines of their own: plates in the middle of the line, or flush with the edge
    it runs along; nothing but doors, other plates and ground without them; bolts in the middle
    third; no saw cut at a bolt; a bearing wall on a strip 12 in deep. IRC R403.1.6; common
    practice."""
    place = job.job.get("spec", {}).get("place", {}).get("bolts", {})
    jamb = float(J(place.get("jamb", "0")))
    d = job.length("spec.place.bolts.diameter")
    for s in job.slabs:
        under = depth.Underside(s.plan)
        rings = [(w, ring) for w in s.walls for _, _, ring in w.pieces]
        for w in s.walls:
            if w.drawn is None:
                continue
            name = "slab %d, %s" % (s.number + 1, w.name)
            a, b = w.line
            u = _unit(a, b)
            long, width = math.dist(a, b), DRESSED.get(w.plate, 5.5)
            if abs(w.length - long) > 0.001:
                yield "wall.length", "%s is %.3f in long, drawn %.3f" % (name, w.length, long)
            off = lambda q: (q[1] - a[1]) * u[0] - (q[0] - a[0]) * u[1]  # to the left of the line
            flush = [k for k in range(s.plan.n) if all(_off_edge(s, k, p) < 0.06 for p in w.line)]
            lo, hi = -width / 2, width / 2
            if flush:
                same = u[0] * _unit(s.plan.at[flush[0]], s.plan.at[(flush[0] + 1) % s.plan.n])[0] + u[1] * _unit(s.plan.at[flush[0]], s.plan.at[(flush[0] + 1) % s.plan.n])[1] > 0
                lo, hi = (0, width) if same == s.plan.ccw else (-width, 0)
            for n, (f, t, ring) in enumerate(w.pieces):
                if any(not lo - 0.002 < off(q) < hi + 0.002 for q in ring):
                    yield "wall.plate", "%s, piece %d lies off its line" % (name, n + 1)
                for x in w.doors:
                    x0 = float(J(x["from"]))
                    if min(t, x0 + float(J(x["width"])) + jamb) - max(f, x0 - jamb) > 0.001:
                        yield "wall.door", "%s, piece %d runs into a door" % (name, n + 1)
                for i in range(1, 40):
                    for side in (0.02, 0.5, 0.98):
                        h = lo + (hi - lo) * side
                        t_ = f + (t - f) * i / 40
                        q = (a[0] + u[0] * t_ - u[1] * h, a[1] + u[1] * t_ + u[0] * h)
                        if not s.plan.inside(q):
                            yield "wall.off-slab", "%s, piece %d lies off the slab at %.1f" % (name, n + 1, t_)
                            break
                        if any(o is not ring and _in(o, q) for _, o in rings):
                            yield "wall.on-plate", "%s, piece %d lies on another plate at %.1f" % (name, n + 1, t_)
                            break
            mid = (lo + hi) / 2
            at = lambda t_, h: (a[0] + u[0] * t_ - u[1] * h, a[1] + u[1] * t_ + u[0] * h)
            spots = [long * (i + 0.5) / 400 for i in range(400)]
            for t_ in spots:
                if any(f - 0.05 <= t_ <= g + 0.05 for f, g, _ in w.pieces) or any(float(J(x["from"])) - jamb < t_ < float(J(x["from"])) + float(J(x["width"])) + jamb for x in w.doors):
                    continue
                # What is left bare: no concrete under all of the plate there, another plate, or an end
                # of no more than a plate's width beside one.
                if any(not s.plan.inside(at(t_ + e, lo + (hi - lo) * i / 8)) for i in range(9) for e in (-0.6, 0, 0.6)):
                    continue
                if any(_in(ring, at(t_ + e * width, lo + (hi - lo) * i / 8)) for o, ring in rings if o is not w for i in range(9) for e in (-1, -0.5, 0, 0.5, 1)):
                    continue
                if not job.told(r"\bplate\b", at(t_, mid), 36):
                    yield "wall.gap", "%s: no plate at %.1f" % (name, t_)
                    break
            cuts = [(p, q) for p, q, _, _ in s.sawcuts] + s.joints
            for x in w.bolts:
                h = off(x.at)
                if not (lo + width / 3 - 0.02 <= h <= hi - width / 3 + 0.02) and not job.told(r"middle third", at(long / 2, 0), long):
                    yield "wall.bolt", "%s: bolt %s stands %.2f in off the line, off the middle third" % (name, x.mark, h)
                if abs((x.at[0] - a[0]) * u[0] + (x.at[1] - a[1]) * u[1] - x.along) > 0.002:
                    yield "wall.bolt-along", "%s: bolt %s" % (name, x.mark)
                if any(_off(p, q, x.at) < 4 * d - 0.02 for p, q in cuts) and not any(f.says(r"\bbolts?\b.*(saw cut|joint)") and tells_of(s, w, f) for f in job.findings):
                    yield "wall.bolt-sawn", "%s: bolt %s stands in a saw cut" % (name, x.mark)
            if w.drawn["kind"] == "bearing":
                bare = sum(long / 400 for t_ in spots if s.plan.inside(at(t_, mid)) and float(under.at([at(t_, mid)[0]], [at(t_, mid)[1]])[0]) < 11.8)
                if bare > 15 and not any(f.says(r"bearing wall and stands on") and tells_of(s, w, f) for f in job.findings):
                    yield "wall.bare", "%s: %.0f in of it stand on less than 12 in of concrete" % (name, bare)


def _off(a, b, p):
    """How far p is from the segment a-b."""
    l2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    t = min(max(((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / l2, 0), 1) if l2 else 0
    return math.dist(p, (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t))


def _off_edge(s, k, p):
    return _off(s.plan.at[k], s.plan.at[(k + 1) % s.plan.n], p)


def against(job, s, k):
    """The stretches (from, to, doweled) of an edge at which a slab is poured against another:
    edges that lie on each other, within a sixteenth, and run opposite ways. The later of the
    list is poured against the earlier, or the one whose edge is marked as a joint."""
    out = []
    a, b = s.plan.at[k], s.plan.at[(k + 1) % s.plan.n]
    u, l = _unit(a, b), math.dist(a, b)
    e = s.plan.edges[k]
    for o in job.slabs:
        if o is s or e.get("joint"):
            continue
        for n in range(o.plan.n):
            p, q = o.plan.at[n], o.plan.at[(n + 1) % o.plan.n]
            if not s.plan.ccw or not o.plan.ccw or o.plan.edges[n].get("joint") or o.number > s.number:
                continue
            v = _unit(p, q)
            if u[0] * v[0] + u[1] * v[1] > -0.9999:
                continue
            x = [(w[0] - a[0]) * u[0] + (w[1] - a[1]) * u[1] for w in (q, p)]
            y = [abs((w[1] - a[1]) * u[0] - (w[0] - a[0]) * u[1]) for w in (q, p)]
            f, t = max(x[0], 0), min(x[1], l)
            if t - f >= 1 and max(y) < 0.0625:
                out.append((f, t, e.get("meets") == "doweled"))
    return sorted(out)


def _height(plan, p):
    """Of a slab's top at a place, over the job's: its lowest place is as high as it is drawn."""
    ends = [tuple(float(J(v)) for v in f["to"]) for f in plan.data.get("top", {}).get("falls", [])]
    lowest = min([plan.top(c) for c in plan.at] + [plan.top(q) for q in ends if plan.inside(q)])
    return float(J(plan.data.get("height", "0"))) + plan.top(p) - lowest


def shown(job, s, k, f, t, made):
    """(from, to, how much): what of the face of an edge at which a slab is poured against another stands
    free over that, or over the curb on its edge, by stretches with a curb and without."""
    if not made:
        return
    other = job.slabs[made[0]["other"] - 1]
    own = curbs.of(other)
    a, u = s.plan.at[k], _unit(s.plan.at[k], s.plan.at[(k + 1) % s.plan.n])
    last = None
    n = max(16, int((t - f) / 2))
    for i in range(n + 1):
        x = f + (t - f) * (0.001 + 0.998 * i / n)
        p = (a[0] + u[0] * x, a[1] + u[1] * x)
        rise = own.rise((p[0] + u[1], p[1] - u[0]))  # an inch beyond the edge
        free = max(0, min(_height(s.plan, p) - _height(other.plan, p) - rise, s.plan.edge_depth(k)))
        if last and last[0] == (rise > 0):
            last[2:] = [x, max(free, last[3])]
            continue
        if last:
            yield tuple(last[1:])
        last = [rise > 0, x, x, free]
    yield tuple(last[1:])


def _spans(form, a, u, x, y):
    """Whether the boards of a form lie along an edge from x to y, within 2 in."""
    along = [(q[0] - a[0]) * u[0] + (q[1] - a[1]) * u[1] for ring in form["boardsat"] for q in ring[:2]]
    return abs(min(along) - x) < 2.5 and abs(max(along) - y) < 2.5


@rule
def meetings(job):
    """Where slabs of a job lie against each other one form does for both, dowels hold them level
    or a strip of filler keeps them apart, one of them."""
    size = job.of("spec.place.dowels.size")
    for s in job.slabs:
        for k in range(s.plan.n):
            for f, t, doweled in against(job, s, k):
                name = "slab %d, edge %d, %.1f to %.1f" % (s.number + 1, k + 1, f, t)
                ds = sorted(d["along"] for d in s.dowels if d["edge"] == k and f <= d["along"] <= t)
                a, b = s.plan.at[k], s.plan.at[(k + 1) % s.plan.n]
                u = _unit(a, b)
                mid = (a[0] + u[0] * (f + t) / 2, a[1] + u[1] * (f + t) / 2)
                if doweled and size and not ds and not job.told(r"\bdowel", mid, (t - f) / 2 + 12):
                    yield "meeting.dowels", "%s has no dowels" % name
                if not doweled and ds:
                    yield "meeting.isolated", "%s has dowels" % name
                made = [m for m in s.meetings if m["edge"] == k + 1 and m["loop"] == 0 and m["later"] and abs(m["from"] - f) < 0.1 and abs(m["to"] - t) < 0.1]
                for x, y, deep in shown(job, s, k, f, t, made):
                    hung = sum(w["depth"] for w in s.forms if w.get("of") == "step" and w["loop"] == 0 and w["edge"] == k and _spans(w, a, u, x, y))
                    if abs(hung - deep) > 0.05:
                        yield "meeting.step", "%s: from %.1f to %.1f %.2f of its face stand free, boards hang %.2f over them" % (name, x, y, deep, hung)
                if len(made) != 1 or made[0]["doweled"] != doweled:
                    yield "meeting.told", "%s: %s" % (name, s.meetings)
                for form in s.forms:
                    if form.get("of"):
                        continue
                    for ring in form["boardsat"] if form["loop"] == 0 and form["edge"] == k else []:
                        x = sorted((q[0] - a[0]) * u[0] + (q[1] - a[1]) * u[1] for q in ring[:2])
                        if min(x[1], t) - max(x[0], f) > 0.01:
                            yield "meeting.form", "%s: a board lies from %.1f to %.1f" % (name, x[0], x[1])


@rule
def forms(job):
    """A form on every free edge, a stake at each end and at each joint of boards, none too far apart. Common practice."""
    place = job.job.get("spec", {}).get("place", {}).get("forms", {})
    apart, kick = float(J(place.get("stakes", "3'"))), float(J(place.get("kickers", "4'")))
    for s in job.slabs:
        of = defaultdict(list)
        for f in s.forms:
            if not f.get("of"):  # of the edge itself
                of[(f["loop"], f["edge"])].append(f)
        for k in range(s.plan.n):
            fs = of.get((0, k), [])
            if s.plan.edges[k].get("joint"):
                if fs:
                    yield "form.joint", "slab %d, edge %d: a form stands on the joint" % (s.number + 1, k + 1)
                continue
            total = sum(sum(f["boards"]) for f in fs)
            # At an inside corner a board ends against the other's.
            spare = sum(1.55 for c in (k, (k + 1) % s.plan.n) if s.plan.turn(c) < 0)
            free = s.plan.length(k) - sum(t - f for f, t, _ in against(job, s, k))
            if total < free - 0.1 - spare and not job.told(r"\bform|\bboard", s.plan.at[k], s.plan.length(k) + 12):
                yield "form.edge", "slab %d, edge %d: %.2f in of boards, %.2f of edge" % (s.number + 1, k + 1, total, s.plan.length(k))
        for f in s.forms:
            name = "slab %d, loop %d, edge %d" % (s.number + 1, f["loop"], f["edge"] + 1)
            st = sorted(f["stakes"])
            for a, b in zip(st, st[1:]):
                if b - a > apart + 0.07:
                    yield "form.stakes", "%s: %.2f in between stakes, %.1f at most" % (name, b - a, apart)
            at = 0.0
            for b in f["boards"][:-1]:
                at += b
                if st and min(abs(x - at) for x in st) > 1.6 and not job.told(r"\bstake", (0, 0), 1e9):
                    yield "form.joint-stake", "%s: no stake at the boards' joint at %.1f" % (name, at)
            if f.get("of"):
                continue
            end = s.plan.length(f["edge"]) if f["loop"] == 0 and not against(job, s, f["edge"]) else f["length"] - 3
            if st and (st[0] > 1.6 or end - st[-1] > 1.6):
                yield "form.end-stake", "%s: stakes from %.2f to %.2f of %.2f" % (name, st[0], st[-1], f["length"])
            ks = sorted(f["kickers"])
            for a, b in zip(ks, ks[1:]):
                if kick and b - a > kick + 0.07:
                    yield "form.kickers", "%s: %.2f in between kickers, %.1f at most" % (name, b - a, kick)
