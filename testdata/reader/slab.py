"""A slab worked out from the job file alone: lengths, places, depths, heights."""

import copy
import math
from fractions import Fraction

import measure

J = measure.job_length

# Dressed widths and thickness of lumber in inches, NIST Voluntary Product
# Standard PS 20 (dry).
DRESSED = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}

# Nominal diameters in inches, ASTM A615/A615M Table 1.
BAR = {3: 0.375, 4: 0.5, 5: 0.625, 6: 0.75, 7: 0.875, 8: 1.0}
# Bars of ISO 6935-2 and EN 10080 are called by their nominal diameters in millimeters.
BAR.update({measure.MILLIMETERS + n: n / 25.4 for n in (6, 8, 10, 12, 14, 16, 20, 25)})

# What a job file may leave out, as the program's description of the file says.
LEFT_OUT = {
    "spec.mix.strength": 3000, "spec.mix.slump": '5"', "spec.mix.air": 6, "spec.mix.fiber": 0,
    "spec.order.waste": "5", "spec.order.step": "0.25", "spec.order.truck": "10",
    "spec.base.building": "unstated", "spec.base.upright": "0", "spec.base.uprightdeep": "0", "spec.base.wing": "0", "spec.base.wingwidth": "0", "spec.base.wingdeep": "0", "spec.base.cornerwidth": "0", "spec.base.cornerlong": "0", "spec.base.shallow": "0",
    "spec.base.above": '6"', "spec.base.gravel": '4"', "spec.base.foam": "0", "spec.base.retarder": 10, "spec.base.under": "field and haunches",
    "spec.place.bars.size": 4, "spec.place.bars.grade": 60, "spec.place.bars.coated": False,
    "spec.place.bars.lap.rule": "aci", "spec.place.bars.lap.length": '24"',
    "spec.place.bars.rows": [{"face": '3"', "bottom": '3"'}, {"face": '8"', "bottom": '3"'}],
    "spec.place.field.kind": "none", "spec.place.field.depth": "0", "spec.place.field.cover": '2"', "spec.place.dowels.size": 4, "spec.place.dowels.length": '16"',
    "spec.place.dowels.embed": '8"', "spec.place.dowels.spacing": '18"', "spec.place.dowels.kind": "tied", "spec.place.dowels.width": '2"',
    "spec.place.dowels.platelength": '12"', "spec.place.dowels.plateembed": '6"', "spec.place.dowels.platespacing": '18"',
    "spec.place.bolts.length": '10"', "spec.place.bolts.projection": '2 1/2"',
    "spec.place.bolts.diameter": '1/2"', "spec.place.bolts.spacing": '72"', "spec.place.stakeout.benchmark": "0",
    "spec.place.sawcuts.ratio": 30, "spec.order.loads": "balanced", "pour.reach.straightedge": "14'", "pour.reach.overlap": "1'",
    "spec.place.forms.rip": False, "spec.base.lap": '6"', "spec.place.bars.stagger": '12"', "spec.place.forms.stakes": '36"',
}


def dowel(job, what):
    """The path of a length of the dowels: plates have their own."""
    plates = setting(job, "spec.place.dowels.kind") == "plates"
    return "spec.place.dowels." + ("plate" if plates else "") + what


def setting(job, path):
    d = job
    for part in path.split("."):
        if not isinstance(d, dict) or part not in d:
            return LEFT_OUT[path]
        d = d[part]
    return d


def length_of(job, path):
    return float(J(setting(job, path)))


class Slab:
    def __init__(self, job, number):
        self.job, self.number = job, number
        self.data = (job["slabs"] if "slabs" in job else [job["slab"]])[number]
        self.edges = self.data["outline"]
        self.at = [(float(J(e["at"][0])), float(J(e["at"][1]))) for e in self.edges]
        self.n = len(self.at)
        self.field = float(J(self.data["field"]))
        self.sections = {s["name"]: s for s in self.data.get("sections", [])}
        self.ccw = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(self.at, self.at[1:] + self.at[:1])) > 0

    def length(self, i):
        """The length of a side, along it where it is an arc."""
        a, b = self.at[i], self.at[(i + 1) % self.n]
        arc = self.arc(i)
        return arc[1] * abs(arc[3]) if arc else math.dist(a, b)

    def middle(self, i):
        return float(J(self.edges[i].get("middle", "0")))

    def arc(self, i):
        """Center, radius, angle of its start and sweep of a side that is an arc; None of a straight one.

        From three points, the ends and the middle, by the circle through them."""
        m = self.middle(i)
        if not m:
            return None
        (ax, ay), (bx, by) = self.at[i], self.at[(i + 1) % self.n]
        l = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / l, (by - ay) / l
        mx, my = (ax + bx) / 2 + m * uy, (ay + by) / 2 - m * ux  # to the right of the way
        d = 2 * (ax * (my - by) + mx * (by - ay) + bx * (ay - my))
        sq = lambda x, y: x * x + y * y
        cx = (sq(ax, ay) * (my - by) + sq(mx, my) * (by - ay) + sq(bx, by) * (ay - my)) / d
        cy = (sq(ax, ay) * (bx - mx) + sq(mx, my) * (ax - bx) + sq(bx, by) * (mx - ax)) / d
        r = math.dist((cx, cy), (ax, ay))
        start, mid = math.atan2(ay - cy, ax - cx), math.atan2(my - cy, mx - cx)
        return (cx, cy), r, start, 2 * math.remainder(mid - start, 2 * math.pi)

    def rim(self):
        """The slab with its arcs as chords of at most 3 degrees, within 0.004 in; `of` is the side of each."""
        out = copy.copy(self)
        out.at, out.edges, out.of = [], [], []
        for i, e in enumerate(self.edges):
            arc = self.arc(i)
            n = math.ceil(abs(arc[3]) / min(math.radians(3), math.sqrt(0.032 / arc[1]))) if arc else 1
            for k in range(n):
                out.at.append(self.at[i] if k == 0 else (arc[0][0] + arc[1] * math.cos(arc[2] + arc[3] * k / n), arc[0][1] + arc[1] * math.sin(arc[2] + arc[3] * k / n)))
                out.edges.append({a: b for a, b in e.items() if a != "middle"})
                out.of.append(i)
        out.n = len(out.at)
        return out

    def turn(self, k):
        """Sine of the turn of the outline at a corner: negative where it turns inward."""
        r = self.rim() if self.middle(k) or self.middle(k - 1) else self
        if r is not self:
            k = r.of.index(k)
        a, b, c = r.at[k - 1], r.at[k], r.at[(k + 1) % r.n]
        return ((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) / (math.dist(a, b) * math.dist(b, c))

    def depth(self, name):
        """Depth of an edge section; the field's where there is none."""
        s = self.sections.get(name)
        if not s:
            return self.field
        if "profile" in s:
            return max(float(J(p["depth"])) for p in s["profile"])
        return float(J(s["depth"]))

    def edge_depth(self, i):
        return self.depth(self.edges[i].get("section", ""))

    def deepest(self, i):
        """The deepest section along an edge, doors and all."""
        e = self.edges[i]
        return max([self.edge_depth(i)] + [self.depth(x.get("section", "")) for x in e.get("doors", []) if x.get("section")])

    def corner_depth(self, i):
        return max(self.edge_depth(i), self.edge_depth(i - 1))

    def along(self, p):
        """A place by its distance along the first edge and square off it."""
        a, b = self.at[0], self.at[1]
        l = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
        dx, dy = p[0] - a[0], p[1] - a[1]
        return dx * ux + dy * uy, -dx * uy + dy * ux

    def top(self, p):
        """Height of the top at a point over the low ends of its falls, or over the floor before
        the lines at which it breaks."""
        falls = self.data.get("top", {}).get("falls", [])
        before = self.before(p, falls)
        beyond = [0.0]
        for (x0, y0), (x1, y1), slope in self.breaks():
            off = ((x1 - x0) * (p[1] - y0) - (y1 - y0) * (p[0] - x0)) / math.hypot(x1 - x0, y1 - y0)
            if off > 0:
                beyond.append(-slope * off)
        return before + (min(beyond) if min(beyond) < 0 else max(beyond))

    def breaks(self):
        """The lines at which the top breaks, with what it drops left of each over a run of one."""
        out = []
        for b in self.data.get("top", {}).get("breaks", []):
            at = [tuple(float(J(v)) for v in b[k]) for k in ("from", "to")]
            out.append((*at, float(J(b["drop"])) / float(J(b["over"]))))
        return out

    def before(self, p, falls):
        """Height of the falls alone, over their low ends."""
        hs = []
        for f in falls:
            x0, y0 = (float(J(v)) for v in f["from"])
            x1, y1 = (float(J(v)) for v in f["to"])
            l2 = (x1 - x0) ** 2 + (y1 - y0) ** 2
            t = ((p[0] - x0) * (x1 - x0) + (p[1] - y0) * (y1 - y0)) / l2
            hs.append(float(J(f["drop"])) * (1 - t))
        if not hs:
            return 0.0
        return max(hs) if self.data["top"].get("meet", "valley") == "valley" else min(hs)

    def inside(self, p):
        """Whether a point is in the slab: outline less holes."""
        def within(ring):
            c = False
            for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1]):
                if (y0 > p[1]) != (y1 > p[1]) and p[0] < (x1 - x0) * (p[1] - y0) / (y1 - y0) + x0:
                    c = not c
            return c
        holes = [[(float(J(e["at"][0])), float(J(e["at"][1]))) for e in h["edges"]] for h in self.data.get("holes", [])]
        return within(self.rim().at) and not any(within(h) for h in holes)

    def straight(self):
        """The sides of a rectangle, or None."""
        if self.n != 4 or any(self.middle(i) for i in range(self.n)) or self.data.get("holes"):
            return None
        a, b, c, d = self.at
        dot = (b[0] - a[0]) * (d[0] - a[0]) + (b[1] - a[1]) * (d[1] - a[1])
        if abs(dot) > 1e-6 * self.length(0) * self.length(3) or math.dist((a[0] + c[0], a[1] + c[1]), (b[0] + d[0], b[1] + d[1])) > 1e-6:
            return None
        return self.length(0), self.length(3)


def row_size(job, row):
    return measure.bar(row.get("size") or setting(job, "spec.place.bars.size"))


def lap(job, size, top):
    """How long bars of a size lie side by side, in inches.

    ACI 318-19 25.4.2.3 with the factors of table 25.4.2.5 (top 1.3 for more than
    12 in of concrete below the bar, epoxy 1.5, their product at most 1.7, grade 80
    1.15), 25.4.1.4 (root of f'c at most 100 psi); 25.5.2.1, Class B: 1.3 ld, at
    least 12 in. B500 of EN 10080 is 500 MPa, 145.0377 psi each; the table's factor for
    the grade is that of the next it has, 80, and a No. 6 is 19 mm thick."""
    rule = setting(job, "spec.place.bars.lap.rule")
    if rule == "diameters":
        return 40 * BAR[size]
    if rule == "length":
        return length_of(job, "spec.place.bars.lap.length")
    grade, fc = setting(job, "spec.place.bars.grade"), setting(job, "spec.mix.strength")
    t = 1.3 if top else 1.0
    e = 1.5 if setting(job, "spec.place.bars.coated") else 1.0
    fy = 145.0377 * grade if grade >= 200 else 1000 * grade
    g = 1.15 if grade > 60 else 1.0
    ld = fy * min(t * e, 1.7) * g / ((25 if BAR[size] <= BAR[6] else 20) * min(math.sqrt(fc), 100)) * BAR[size]
    return max(12.0, 1.3 * ld)


def below(row, depth, size):
    """Concrete cast below a bar of a row in an edge so deep."""
    top, bottom = float(J(row.get("top", "0"))), float(J(row.get("bottom", "0")))
    return depth - top - BAR[size] if top > 0 else bottom
