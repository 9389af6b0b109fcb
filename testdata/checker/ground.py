"""Rules of what runs along or under a slab, and of the insulation of its edges."""

import math

from shapely.affinity import rotate
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from measure import job_length as J

GROUND = []


def rule(f):
    GROUND.append(f)
    return f


def flat(line, by):
    """All within a distance of a line, square at its ends."""
    return line.buffer(max(by, 0.001), cap_style=2, join_style=2)


@rule
def lines(job):
    """ACI 318-11 6.3.5.1: at most a third of the slab thick; IPC Table 704.1: drains of at most
    2 1/2 in fall 1 in 48, others 1 in 96; saw cuts stay 1 in over them, bolts 4 of their
    diameters off them (common practice); bars of edges are not run into."""
    bolt = job.length("spec.place.bolts.diameter")
    into = job.length("spec.place.bolts.length") - job.length("spec.place.bolts.projection")
    for s in job.slabs:
        for n, (drawn, runs) in enumerate(zip(s.plan.data.get("lines", []), s.lines)):
            where = "slab %d, line %d" % (s.number + 1, n + 1)
            wide, top = float(J(drawn["diameter"])), float(J(drawn["cover"]))
            end = float(J(drawn.get("endcover", "0"))) or top
            channel = drawn["kind"] == "trench drain"
            thick = float(J(drawn["height"])) if channel else wide
            told = lambda words, at, reach=30: job.told(words, at, reach) or job.told(words, runs[0][0], 1)
            if not channel and min(top, end) < s.plan.field and wide > s.plan.field / 3 + 0.01 and not told(r"a third of", runs[0][0]):
                yield "line.thick", "%s: %.2f in %.2f" % (where, wide, s.plan.field)
            for run in runs:
                path = LineString(run)
                deep = lambda p: top + (end - top) * path.project(Point(p)) / path.length
                for a, b, saw, _ in s.sawcuts:
                    if math.dist(a, b) < 0.01:
                        continue
                    over = flat(path, wide / 2).intersection(LineString([a, b]))
                    if not over.is_empty and over.length > 0.1:
                        p = over.centroid.coords[0]
                        # One finding for a line tells of all cuts over it.
                        if deep(p) < saw + 0.95 and not any(f.says(r"saw cuts? .*over|over it") and path.distance(Point(q)) < wide + 1 for f in job.findings for q in f.places):
                            yield "line.sawn", "%s: a cut %.2f deep runs over it at (%.0f, %.0f), %.2f down" % (where, saw, *p, deep(p))
                for w in s.walls:
                    for b in w.bolts:
                        if path.distance(Point(b.at)) - wide / 2 < 4 * bolt - 0.05 and deep(b.at) < into - 0.05 and not told(r"\bbolt.*\bline\b", b.at, 1):
                            yield "line.bolt", "%s: bolt %s is %.2f off" % (where, b.mark, path.distance(Point(b.at)) - wide / 2)
                if drawn["kind"] == "tubing":  # which is tied to them
                    continue
                for bar in s.bars:
                    for (p, q), (y, z) in zip(zip(bar.path, bar.path[1:]), zip(bar.depths, bar.depths[1:])):
                        m = path.intersection(LineString([p, q])) if math.dist(p, q) > 0.01 else None
                        if m is None or m.is_empty:
                            continue
                        at = m.centroid.coords[0]
                        z = y + (z - y) * math.dist(p, at) / math.dist(p, q)
                        if z + bar.db / 2 > deep(at) + 0.1 and z - bar.db / 2 < deep(at) + thick - 0.1 and not any(f.says(r"bars run into the line") and path.distance(Point(x)) < wide + 1 for f in job.findings for x in f.places):
                            yield "line.bar", "%s: bar %s runs into it at (%.0f, %.0f)" % (where, bar.mark, *at)
            if drawn["kind"] == "drain line":
                long = sum(math.dist(p, q) for p, q in zip(runs[0], runs[0][1:]))
                if abs(end - top) < long / (48 if wide <= 2.5 else 96) - 0.1 and not told(r"falls", runs[0][0]):
                    yield "line.fall", "%s: %.2f over %.0f" % (where, end - top, long)


def chains(s):
    """The free stretches of the outline as chains round its corners; one that is closed is told."""
    n, at = s.plan.n, s.plan.at
    free = []
    for i in range(n):
        a, b = at[i], at[(i + 1) % n]
        l = math.dist(a, b)
        stretches = [] if s.plan.edges[i].get("joint") else [(0.0, l)]
        for m in s.meetings:
            if m["loop"] == 0 and m["edge"] - 1 == i:
                stretches = [x for f, t in stretches for x in ((f, min(t, m["from"])), (max(f, m["to"]), t)) if x[1] - x[0] > 0.5]
        free += [(i, f, t, l) for f, t in stretches]
    point = lambda i, d, l: (at[i][0] + (at[(i + 1) % n][0] - at[i][0]) * d / l, at[i][1] + (at[(i + 1) % n][1] - at[i][1]) * d / l)
    if len(free) == n and all(f < 0.5 and t > l - 0.5 for _, f, t, l in free):
        return [list(at)], True
    out = []
    for i, f, t, l in free:
        if f < 0.5 and out and out[-1][1] == i - 1:
            out[-1] = (out[-1][0] + [point(i, t, l)], i if t > l - 0.5 else None)
        else:
            out.append(([point(i, f, l), point(i, t, l)], i if t > l - 0.5 else None))
    paths = [p for p, _ in out]
    if len(out) > 1 and out[-1][1] == n - 1 and free[0][0] == 0 and free[0][1] < 0.5:
        paths[0] = paths.pop() + paths[0][1:]
    return paths, False


def outside(paths, closed, by):
    """What lies right of the chains, so far out, with corners drawn to their points."""
    if closed:
        p = Polygon(paths[0])
        return p.buffer(by, join_style=2, mitre_limit=2.3).difference(p)
    return unary_union([LineString(p).buffer(-by, single_sided=True, join_style=2, mitre_limit=2.3) for p in paths])


@rule
def frost_insulation(job):
    """IRC R403.3: upright foam on the free edges of heated buildings, wings out from it, wider
    for some way at corners that stand out; none for other buildings. Areas by offsetting the
    outlines, with square joins."""
    base = lambda k: job.length("spec.base." + k)
    heated = job.of("spec.base.building") == "heated" and base("upright") > 0 and base("uprightdeep") > 0
    lines = {l["what"]["kind"]: l["value"] for l in job.takeoff["lines"]}
    if not heated:
        if any(k.startswith("frost insulation") for k in lines):
            yield "frost.unheated", "insulation is taken off, and no heated building stated"
        if base("upright") > 0 and not any(f.says(r"none is taken off") for f in job.findings):
            yield "frost.untold", "insulation is asked for and none is taken off"
        return
    unit = 0.0254 ** 2 if job.metric else 1 / 144
    up, wide = base("upright"), base("wingwidth") if base("wing") > 0 else 0
    corner, long = base("cornerwidth"), base("cornerlong")
    solid = unary_union([Polygon(s.plan.at) for s in job.slabs])
    faces, wings, free = [], [], 0.0
    for s in job.slabs:
        if s.plan.data.get("unheated"):  # a porch beside the building
            continue
        paths, closed = chains(s)
        free += sum(math.dist(p, q) for x in paths for p, q in zip(x, x[1:] + (x[:1] if closed else [])))
        if not paths:
            continue
        faces.append(outside(paths, closed, up))
        if wide:
            wings.append(outside(paths, closed, up + wide))
        if wide and corner > wide and long > 0:
            for x in paths:
                for k in range(0 if closed else 1, len(x) if closed else len(x) - 1):
                    a, b, c = x[k - 1], x[k], x[(k + 1) % len(x)]
                    l, m = math.dist(a, b), math.dist(b, c)
                    if (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < 1e-4 * l * m:
                        continue
                    t, u = min(1, long / l), min(1, long / m)
                    bit = [(b[0] + (a[0] - b[0]) * t, b[1] + (a[1] - b[1]) * t), b, (b[0] + (c[0] - b[0]) * u, b[1] + (c[1] - b[1]) * u)]
                    wings.append(outside([bit], False, up + corner))
    face = unary_union(faces).difference(solid)
    wing = unary_union(wings).difference(solid).difference(face)
    for kind, want in (("frost insulation upright", free * base("uprightdeep") * unit), ("frost insulation lying", wing.area * unit)):
        if abs(lines.get(kind, 0) - want) > 0.002 * want + 0.05:
            yield "frost.area", "%s: %.3f, by offsetting %.3f" % (kind, lines.get(kind, 0), want)
    placed = [Polygon()] + [p for s in job.slabs for p in s.frost]
    drawn = Polygon()
    for p in placed:  # rings by the even-odd rule
        drawn = drawn.symmetric_difference(p.buffer(0))
    if len(job.slabs) == 1 and drawn.symmetric_difference(wing).area > 0.01 * wing.area + 10:
        yield "frost.place", "%.0f in² of the wings lie elsewhere" % drawn.symmetric_difference(wing).area


def block_out(pad):
    """The shape that is left open round the column on a pad of the job file; None for none."""
    kind = pad.get("isolation", "none")
    if kind == "none":
        return None
    x, y = (float(J(v)) for v in pad["center"])
    w, l = (float(J(pad[k])) + 2 * float(J(pad.get("taper", "0"))) for k in ("width", "length"))
    size = float(J(pad.get("blockout", "0"))) or math.ceil({"square": max(w, l), "diamond": (w + l) / math.sqrt(2), "round": math.hypot(w, l)}[kind] - 1e-9)
    if kind == "round":
        return Point(x, y).buffer(size / 2, 64)
    h = size / 2
    square = Polygon([(x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)])
    return rotate(square, pad.get("turn", 0) + (45 if kind == "diamond" else 0), origin=(x, y))


@rule
def block_outs(job):
    """ACI 302.1R, from memory: the slab is isolated from columns by square, turned or round
    block-outs; saw cuts run to the points of the turned ones; nothing else runs through. What
    fills one is its area times the field's thickness, and the pad's below it."""
    fill = around = n = 0
    simple = True
    for s in job.slabs:
        shapes = [(i, p, block_out(p)) for i, p in enumerate(s.plan.data.get("pads", [])) if block_out(p) is not None]
        if len(shapes) != len(s.outs):
            yield "out.count", "slab %d: %d block-outs, %d placed" % (s.number + 1, len(shapes), len(s.outs))
            continue
        for (i, pad, shape), placed in zip(shapes, s.outs):
            where, c = "slab %d, pad %d" % (s.number + 1, i + 1), shape.centroid.coords[0]
            n, around = n + 1, around + shape.length
            if placed.symmetric_difference(shape).area > 0.01 * shape.area:
                yield "out.place", "%s: %.1f in² lie elsewhere" % (where, placed.symmetric_difference(shape).area)
            w, l, deep = (float(J(pad[k])) for k in ("width", "length", "depth"))
            rect = rotate(Polygon([(c[0] - w / 2, c[1] - l / 2), (c[0] + w / 2, c[1] - l / 2), (c[0] + w / 2, c[1] + l / 2), (c[0] - w / 2, c[1] + l / 2)]), pad.get("turn", 0))
            simple = simple and float(J(pad.get("taper", "0"))) == 0 and Polygon(s.plan.at).exterior.distance(shape) > 24
            fill += shape.area * s.plan.field + rect.intersection(shape).area * (deep - s.plan.field)
            if not shape.buffer(0.05).contains(rect) and not job.told(r"reaches beyond the block-out", c, 1):
                yield "out.pad", "%s sticks out from under it, untold" % where
            inner = shape.buffer(-0.25)
            for a, b, _, _ in s.sawcuts:
                if math.dist(a, b) > 0.01 and inner.intersection(LineString([a, b])).length > 0.5:
                    yield "out.sawn", "%s: a saw cut runs through" % where
            if pad["isolation"] == "diamond" and s.sawcuts:
                for p in list(shape.exterior.coords)[:-1]:
                    if not any(LineString([a, b]).distance(Point(p)) < 1 for a, b, _, _ in s.sawcuts if math.dist(a, b) > 0.01) and not any(f.says(r"no saw cut runs to") and shape.distance(Point(q)) < 1 for f in job.findings for q in f.places):
                        yield "out.point", "%s: no cut runs to its point at (%.0f, %.0f)" % (where, *p)
            for bar in s.bars:
                if bar.row.lower().startswith("pad"):
                    continue
                if inner.intersects(LineString(bar.path)) and not job.told(r"run into the block-out", c, 1):
                    yield "out.bar", "%s: bar %s runs through" % (where, bar.mark)
    lines = {}
    for l in job.takeoff["lines"]:
        lines[l["what"]["kind"]] = lines.get(l["what"]["kind"], 0) + l["value"]
    if lines.get("block-out", 0) != n:
        yield "out.count", "%d taken off, %d drawn" % (lines.get("block-out", 0), n)
    unit = 0.0254 ** 3 if job.metric else 1 / 46656
    if n and simple and abs(lines.get("block-out fill", 0) - fill * unit) > 0.005 * fill * unit:
        yield "out.fill", "%.4f taken off, %.4f by areas" % (lines.get("block-out fill", 0), fill * unit)
    if n and lines.get("isolation strip", 0) < 0.995 * around * (0.0254 if job.metric else 1 / 12):
        yield "out.filler", "%.2f of filler, %.2f round them" % (lines.get("isolation strip", 0), around * (0.0254 if job.metric else 1 / 12))
