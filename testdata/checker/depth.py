"""Depth of a slab's underside at points, worked out anew from the job file.

Each edge's haunch is the strip swept inward from the edge by its section's reach,
deep by the distance from the edge's line. At an outside corner the strip ends on
the perpendicular at the corner; at an inside corner with both edges haunched it
runs on to the miter. The deeper of what overlaps counts. Common practice, as the
shape is dug."""

import math

import numpy as np

from measure import job_length as J


def profile(section, field):
    """Points (inset, depth) of a section's underside, from the face inward."""
    if section is None:
        return None
    if "profile" in section:
        p = [(float(J(q["inset"])), float(J(q["depth"]))) for q in section["profile"]]
    else:
        d, b, t = float(J(section["depth"])), float(J(section["bottom"])), float(J(section.get("taper", "0")))
        p = [(0.0, d), (b, d), (b + t, field)]
    return p


def across(p, inset, field):
    """Depth of a profile at insets; the field's beyond it."""
    xs, ds = [q[0] for q in p], [q[1] for q in p]
    # A step in the profile: two depths at one inset.
    for i in range(1, len(xs)):
        if xs[i] <= xs[i - 1]:
            xs[i] = xs[i - 1] + 1e-9
    out = np.interp(inset, xs, ds)
    return np.where(inset > xs[-1] + 1e-9, field, out)


class Underside:
    def __init__(self, plan):
        plan = plan.rim()
        self.plan, self.field = plan, plan.field
        self.spans = []
        n = plan.n
        for i in range(n):
            a, b = plan.at[i], plan.at[(i + 1) % n]
            l = math.dist(a, b)
            e = plan.edges[i]
            own = profile(plan.sections.get(e.get("section", "")), self.field)
            at = 0.0
            for d in sorted(e.get("doors", []), key=lambda d: J(d["from"])):
                f, w = float(J(d["from"])), float(J(d["width"]))
                if not d.get("section"):
                    continue
                under = profile(plan.sections[d["section"]], self.field)
                run = float(J(d.get("runout", "0")))
                self._span(i, a, b, l, at, f, own, own)
                self._span(i, a, b, l, f, f + w, under, under)
                if run:
                    self._span(i, a, b, l, max(f - run, 0), f, own, under)
                    self._span(i, a, b, l, f + w, min(f + w + run, l), under, own)
                at = f + w
            self._span(i, a, b, l, at, l, own, own)

    def _span(self, i, a, b, l, s0, s1, p0, p1):
        if s1 <= s0 + 1e-9 or p0 is None and p1 is None:
            return
        flat = [(0.0, self.field)]
        self.spans.append((i, a, b, l, s0, s1, p0 or flat, p1 or flat))

    def at(self, x, y):
        """Depth at arrays of points, the field's where nothing is deeper."""
        x, y = np.asarray(x, float), np.asarray(y, float)
        out = np.full(x.shape, self.field)
        n = self.plan.n
        for i, a, b, l, s0, s1, p0, p1 in self.spans:
            ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
            s = (x - a[0]) * ux + (y - a[1]) * uy
            d = -(x - a[0]) * uy + (y - a[1]) * ux
            lo, hi = np.full(x.shape, s0), np.full(x.shape, s1)
            # Beyond an inside corner the strip runs on to the miter.
            if s0 <= 1e-9 and self.plan.turn(i) < 0 and self.plan.edges[i - 1].get("section"):
                lo = lo - d * self._miter(i)
            if s1 >= l - 1e-9 and self.plan.turn((i + 1) % n) < 0 and self.plan.edges[(i + 1) % n].get("section"):
                hi = hi + d * self._miter((i + 1) % n)
            t = np.clip((s - s0) / (s1 - s0), 0, 1)
            deep = across(p0, d, self.field) * (1 - t) + across(p1, d, self.field) * t
            on = (d >= -1e-6) & (s >= lo - 1e-6) & (s <= hi + 1e-6)
            out = np.maximum(out, np.where(on, deep, self.field))
        for p in self.plan.data.get("pads", []):
            cx, cy = (float(J(v)) for v in p["center"])
            w, h, dep, tap = (float(J(p[k])) if k in p else 0.0 for k in ("width", "length", "depth", "taper"))
            t = math.radians(p.get("turn", 0))
            u = (x - cx) * math.cos(t) + (y - cy) * math.sin(t)
            v = -(x - cx) * math.sin(t) + (y - cy) * math.cos(t)
            away = np.maximum(np.abs(u) - w / 2, np.abs(v) - h / 2)
            out = np.maximum(out, _side(away, dep, tap, self.field))
        for p in self.plan.data.get("strips", []):
            w, dep, tap = (float(J(p[k])) if k in p else 0.0 for k in ("bottom", "depth", "taper"))
            path = [tuple(float(J(v)) for v in q) for q in p["path"]]
            for a, b in zip(path, path[1:]):
                l = math.dist(a, b)
                ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
                s = (x - a[0]) * ux + (y - a[1]) * uy
                d = np.abs(-(x - a[0]) * uy + (y - a[1]) * ux)
                away = np.where((s >= 0) & (s <= l), d - w / 2, 1e9)
                out = np.maximum(out, _side(away, dep, tap, self.field))
        return out

    def _miter(self, k):
        """How far along an edge the miter of corner k goes for each inch inward."""
        p, n = self.plan.at, self.plan.n
        a, b, c = p[k - 1], p[k], p[(k + 1) % n]
        t = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
        t = (t + math.pi) % (2 * math.pi) - math.pi
        return math.tan(abs(t) / 2)


def _side(away, depth, taper, field):
    if taper <= 0:
        return np.where(away <= 1e-6, depth, field)
    return np.where(away <= 0, depth, np.where(away <= taper, depth + (field - depth) * away / taper, field))


# Offsets at which the underside is looked at round a point of a bar: a disc.
_R = np.arange(0.0, 4.3, 0.2)
_A = np.arange(0, 2 * math.pi, math.pi / 12)
DX = np.concatenate([[0.0], np.outer(_R[1:], np.cos(_A)).ravel()])
DY = np.concatenate([[0.0], np.outer(_R[1:], np.sin(_A)).ravel()])
DR = np.hypot(DX, DY)


def clearance(under, points):
    """True distance from points (x, y, depth) to the underside, up to 4 in sideways."""
    p = np.asarray(points, float)
    x = p[:, 0:1] + DX[None, :]
    y = p[:, 1:2] + DY[None, :]
    deep = under.at(x, y)
    off = ~_inside(under.plan, x, y)
    down = deep - p[:, 2:3]
    d = np.where(down >= 0, np.hypot(DR[None, :], down), DR[None, :])
    d = np.where(off, 1e9, d)
    return d.min(axis=1)


def _inside(plan, x, y):
    out = np.zeros(x.shape, bool)
    for (x0, y0), (x1, y1) in zip(plan.at, plan.at[1:] + plan.at[:1]):
        if y0 == y1:
            continue
        c = (y0 > y) != (y1 > y)
        out ^= c & (x < (x1 - x0) * (y - y0) / (y1 - y0) + x0)
    return out


def from_edges(plan, points):
    """Distance of points from the outline's nearest edge, and which."""
    plan = plan.rim()
    p = np.asarray(points, float)
    best, which = np.full(len(p), 1e9), np.zeros(len(p), int)
    for i in range(plan.n):
        a, b = plan.at[i], plan.at[(i + 1) % plan.n]
        l2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
        t = np.clip(((p[:, 0] - a[0]) * (b[0] - a[0]) + (p[:, 1] - a[1]) * (b[1] - a[1])) / l2, 0, 1)
        d = np.hypot(p[:, 0] - a[0] - t * (b[0] - a[0]), p[:, 1] - a[1] - t * (b[1] - a[1]))
        which = np.where(d < best, plan.of[i], which)
        best = np.minimum(best, d)
    return best, which
