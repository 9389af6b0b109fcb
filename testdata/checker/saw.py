"""Rules of saw cuts and the panels between them, and of the findings as such."""

import math
import re
from collections import Counter

from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

import curbs
import measure
from measure import job_length as J

SAW = []


def rule(f):
    SAW.append(f)
    return f


def faces(s):
    """The panels that cuts, joints between pours, holes, block-outs and edges make, slivers too."""
    p = s.plan
    holes = [[tuple(float(J(v)) for v in e["at"]) for e in h["edges"]] for h in p.data.get("holes", [])]
    shape = Polygon(p.rim().at, holes)
    if not shape.is_valid:
        shape = shape.buffer(0)
    shape = shape.difference(unary_union(s.outs)) if s.outs else shape
    slits, c = [], curbs.of(s)
    for a, b in [c[:2] for c in s.sawcuts] + s.joints:
        l = math.dist(a, b)
        if l > 0.01:
            # A hair longer, so that a cut that ends on an edge reaches it.
            ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
            # Under a curb, which is not sawn, the crack runs on.
            p, q = (1.5 * max(curbs.wide(e) for e in s.plan.edges) if c.levels and c.region.distance(Point(x)) < 0.1 else 0.02 for x in (a, b))
            slits.append(LineString([(a[0] - ux * p, a[1] - uy * p), (b[0] + ux * q, b[1] + uy * q)]).buffer(0.002, cap_style=2))
    rest = shape.difference(unary_union(slits)) if slits else shape
    return shape, [f for f in getattr(rest, "geoms", [rest]) if f.area > 0.5]


def sides(face):
    """Width and length of the smallest rectangle round a panel."""
    r = face.minimum_rotated_rectangle
    c = list(r.exterior.coords)
    a, b = math.dist(c[0], c[1]), math.dist(c[1], c[2])
    return min(a, b), max(a, b)


def through_curb(s, cut, corner):
    """Whether a cut that ends at the face of a curb would run into a corner, under that curb. How
    far from the corner that is hangs on how slant it meets the curb, and not on its width alone."""
    region = curbs.of(s).region
    if region.is_empty:
        return False
    p, q = cut.coords
    for e, o in ((p, q), (q, p)):
        l, far = math.dist(e, o), math.dist(e, corner)
        off = abs((e[0] - o[0]) * (corner[1] - o[1]) - (e[1] - o[1]) * (corner[0] - o[0])) / l
        on = (e[0] - o[0]) * (corner[0] - e[0]) + (e[1] - o[1]) * (corner[1] - e[1]) > 0
        if off < 1.0 and on and far < 72 and region.distance(Point(e)) < 0.1 and region.buffer(0.2).contains(LineString([e, corner])):
            return True
    return False


@rule
def panels(job):
    """ACI 302.1R: cuts 24 to 36 thicknesses apart, at most 18 ft (PCA); panels near
    square, the longer side at most 1.5 times the shorter; none L- or T-shaped; cuts
    from inside corners."""
    place = job.job.get("spec", {}).get("place", {}).get("sawcuts", {})
    ratio, aspect = place.get("ratio", 30), place.get("aspect", 1.5)
    spacing = float(J(place.get("spacing", "0")))
    if ratio == 0 and spacing == 0:
        return
    for s in job.slabs:
        limit = spacing or min(ratio * s.plan.field, 18 * 12)
        shape, found = faces(s)
        told = lambda f, words=r"\bpanel|\bsaw|\bcontrol joint|\bcuts?\b": any(x.says(words) and f.distance(Point(p)) < 24 for x in job.findings for p in x.places)
        for f in found:
            w, l = sides(f)
            c = f.representative_point()
            where = "slab %d, a panel of %.1f by %.1f in at (%.0f, %.0f)" % (s.number + 1, w, l, c.x, c.y)
            if told(f):
                continue
            if l > limit + 1 and f.area > 0.8 * w * l:
                yield "saw.long", "%s: %.0f at most" % (where, limit)
            if w < 24 and l > 3 * w:
                yield "saw.sliver", where
            elif l > aspect * w * 1.02 and f.area > 0.8 * w * l:
                yield "saw.aspect", "%s: %.2f times, %.2f at most" % (where, l / w, aspect)
            if f.area < 0.75 * w * l and len(f.exterior.coords) > 5:
                yield "saw.shape", "%s fills %.0f %% of its rectangle" % (where, 100 * f.area / (w * l))
        rim = s.plan.rim()
        for a, b, _, why in s.sawcuts:
            for i in range(rim.n):  # bowed edges as they run
                p, q = rim.at[i], rim.at[(i + 1) % rim.n]
                l = math.dist(p, q)
                u = ((q[0] - p[0]) / l, (q[1] - p[1]) / l)
                d = math.dist(a, b)
                if d < 12 or abs(u[0] * (b[1] - a[1]) - u[1] * (b[0] - a[0])) / d > 0.02:
                    continue
                off = [-(x[0] - p[0]) * u[1] + (x[1] - p[1]) * u[0] for x in (a, b)]
                t = sorted((x[0] - p[0]) * u[0] + (x[1] - p[1]) * u[1] for x in (a, b))
                if not (0 < max(off) < 6 and min(t[1], l) - max(t[0], 0) > 12):
                    continue
                # The strip that it leaves is told of where the panel is that it is part of.
                m, o = (max(t[0], 0) + min(t[1], l)) / 2, sum(off) / 4
                strip = Point(p[0] + u[0] * m - u[1] * o, p[1] + u[1] * m + u[0] * o)
                if not any(told(f) for f in found if f.distance(strip) < 0.1):
                    yield "saw.along-edge", "slab %d: a cut runs %.2f in inside edge %d for %.0f in" % (s.number + 1, max(off), getattr(rim, "of", range(rim.n))[i] + 1, min(t[1], l) - max(t[0], 0))
        cuts = [LineString([a, b]) for a, b, _, _ in s.sawcuts if math.dist(a, b) > 0.01]
        for k in range(s.plan.n):
            p = s.plan.at
            a, b, c = p[k - 1], p[k], p[(k + 1) % s.plan.n]
            if s.plan.turn(k) > -0.3 or min(math.dist(a, b), math.dist(b, c)) < 12:
                continue
            if not any(x.distance(Point(b)) < 1.0 or through_curb(s, x, b) for x in cuts) and not job.told(r"\bpanel|\bsaw|\bcuts?\b|\bcorner", b, 36):
                yield "saw.corner", "slab %d, inside corner %d has no cut" % (s.number + 1, k + 1)


@rule
def must_tell(job):
    """A job made to break a rule is told so, once for each place."""
    if job.must_tell:
        said = [f for f in job.findings if f.says(job.must_tell)]
        if not said:
            yield "told.not", "no finding says /%s/; there are: %s" % (job.must_tell, " | ".join(f.text for f in job.findings) or "none")


@rule
def findings(job):
    """Each is given once, and what it finds is not what it asks."""
    for (text, at), n in Counter((f.text, f.at) for f in job.findings).items():
        if n > 1:
            yield "finding.twice", "%d times: %s" % (n, text)
    for text, n in Counter(f.text for f in job.findings).items():
        if n > 1 and not any(f.text == text and list(x.text for x in job.findings if x.at == f.at).count(text) > 1 for f in job.findings):
            yield "finding.again", "%d times, at other places: %s" % (n, text)
    for f in job.findings:
        m = re.search(r"(?:has|have|is|are|found) (%s).*?(?:at least|at most|;)\s*(%s)(?: is asked| are asked|\.)" % (measure.LENGTH, measure.LENGTH), f.text)
        if m and m[1] == m[2]:
            yield ("metric.same" if job.metric else "finding.same"), f.text
    if job.metric:
        # Limits of the metric editions: 75, 50, 40 mm of cover (ACI 318M-19), 305 mm from a plate's end (IRC).
        for f in job.findings:
            m = re.search(r"(\d+) mm (?:is|are) asked|at most (\d+) mm|at least (\d+) mm", f.text)
            n = next((int(x) for x in m.groups() if x), 0) if m else 0
            if f.says(r"\bcover\b|concrete is left|to the bottom") and n in (76, 38, 51):
                yield "metric.limit", f.text


@rule
def along_breaks(job):
    """Common practice: where the top breaks to an apron or a ramp a cut or a joint between pours
    lies along the line, or it is told."""
    for s in job.slabs:
        if not s.sawcuts:
            continue
        shape, _ = faces(s)
        for (x0, y0), (x1, y1), _ in s.plan.breaks():
            l = math.hypot(x1 - x0, y1 - y0)
            u = ((x1 - x0) / l, (y1 - y0) / l)
            whole = LineString([(x0 - 9999 * u[0], y0 - 9999 * u[1]), (x1 + 9999 * u[0], y1 + 9999 * u[1])])
            on = shape.intersection(whole)
            for part in getattr(on, "geoms", [on]):
                lies = lambda a, b: math.dist(a, b) > 1 and LineString([a, b]).buffer(1.5).intersection(part).length > 0.9 * min(part.length, math.dist(a, b)) and LineString([a, b]).buffer(1.5).intersection(part).length > 12
                covered = sum(LineString([a, b]).buffer(1.5).intersection(part).length for a, b in [c[:2] for c in s.sawcuts] + s.joints if lies(a, b))
                told = any(f.says(r"along the break of the top") and part.distance(Point(q)) < 12 for f in job.findings for q in f.places)
                if part.length > 24 and covered < 0.5 * part.length and not told:
                    yield "saw.break", "slab %d: %.0f in of a break without a cut" % (s.number + 1, part.length)


@rule
def under_lips(job):
    """IRC R506.1: 3 1/2 in of slab; ACI 318-19 Table 20.5.1.3.1: 1 1/2 in over steel exposed to weather."""
    kind = job.of("spec.place.field.kind")
    depth, cover = job.length("spec.place.field.depth"), job.length("spec.place.field.cover")
    for s in job.slabs:
        for k, e in enumerate(s.plan.data["outline"]):
            for d in e.get("doors", []):
                lip = {n: float(J(v)) for n, v in d.get("lip", {}).items()}
                if lip.get("drop", 0) == 0:
                    continue
                a, b = s.plan.at[k], s.plan.at[(k + 1) % s.plan.n]
                t = (float(J(d["from"])) + float(J(d["width"])) / 2) / math.dist(a, b)
                mid = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
                told = lambda words: job.told(words, mid, 1)
                left = (depth or s.plan.field / 2) - lip["drop"]
                if kind in ("mesh", "grid") and lip["inset"] > cover and left < (1.57 if job.metric else 1.5) - 0.01 and not told(r"cover under the lip"):
                    yield "lip.cover", "slab %d, edge %d: %.2f in of cover" % (s.number + 1, k + 1, left)
                if not e.get("section") and not d.get("section") and s.plan.field - lip["drop"] < 3.49 and not told(r"of concrete are left"):
                    yield "lip.thin", "slab %d, edge %d: %.2f in left" % (s.number + 1, k + 1, s.plan.field - lip["drop"])
