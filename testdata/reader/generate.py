"""Writes job files for the checks: plain ones of the trade and awkward ones.

    generate.py DIR COUNT [SEED] [VERSION]

writes COUNT jobs, each the same for the same seed, and the hand-made ones. It
knows nothing of the program but its file."""

import json
import math
import os
import random
import sys

import names

FT = 12.0


class Job:
    """A job being written. Coordinates and sizes are in inches here."""

    def __init__(self, rng, name, metric=False):
        self.rng, self.metric = rng, metric
        self.spec = {"mix": {}, "order": {}, "base": {}, "place": {}}
        self.pour = {}
        self.price = {}
        self.survey = {}
        self.slabs = []
        self.head = {"name": name, "customer": "Sample customer", "site": "Sample Lane",
                     "date": "2027-03-01", "revision": "B"}

    def length(self, inches):
        """A length as the file writes it, to the sixteenth or the millimeter."""
        if self.metric:
            return "%d mm" % round(inches * 25.4)
        n = round(inches * 16)
        sign, n = ("-" if n < 0 else ""), abs(n)
        whole, part = divmod(n, 16)
        text = str(whole)
        if part:
            d = 16
            while part % 2 == 0:
                part, d = part // 2, d // 2
            text = ("%d " % whole if whole else "") + "%d/%d" % (part, d)
        return sign + text + '"'

    def at(self, p):
        return [self.length(p[0]), self.length(p[1])]

    def slab(self, corners, field=None, section=None, wall="2x6", **more):
        """A slab round corners given in inches."""
        r = self.rng
        field = field or r.choice([4, 4, 5, 6, 6, 8])
        sections = []
        if section != "":
            depth = r.choice([8, 10, 12, 12, 16, 18, 20, 24])
            depth = max(depth, field + 2)
            sections.append({"name": "Edge %d" % depth, "depth": self.length(depth),
                             "bottom": self.length(r.choice([6, 8, 10, 12, 14])),
                             "taper": self.length(r.choice([0, 4, 6, 8, 12]))})
        outline = []
        for c in corners:
            e = {"at": self.at(c)}
            if sections:
                e["section"] = sections[0]["name"]
            if wall:
                e["wall"] = wall
            outline.append(e)
        s = {"field": self.length(field), "sections": sections, "outline": outline}
        s.update(more)
        s["_size"] = [math.dist(corners[i], corners[(i + 1) % len(corners)]) for i in range(len(corners))]
        s["_corners"] = corners
        s["_field"], s["_depth"] = field, depth if sections else field
        self.slabs.append(s)
        return s

    def arc(self, slab, i, middle):
        """An edge as an arc, with its middle ordinate out of the slab; nothing stands on it."""
        e = slab["outline"][i]
        e.pop("wall", None)
        e.pop("doors", None)
        e["middle"] = self.length(abs(middle)) if middle > 0 else "-" + self.length(-middle)

    def joint(self, slab, i):
        e = slab["outline"][i]
        e.pop("wall", None)
        e.pop("doors", None)
        e["joint"] = True
        if self.rng.random() < 0.6:
            e.pop("section", None)

    def doors(self, slab, i, count, lip=False, deep=False):
        """Up to count doors on an edge, side by side."""
        r, e = self.rng, slab["outline"][i]
        if e.get("joint"):
            return
        at = r.choice([8, 12, 18, 30, 48, 63])
        for _ in range(count):
            kind, width = r.choice([("overhead", 96), ("overhead", 108), ("overhead", 120), ("overhead", 192),
                                    ("walk", 38.5), ("walk", 36), ("walk", 42)])
            if at + width > slab["_size"][i] - 8:
                break
            d = {"kind": kind, "from": self.length(at), "width": self.length(width)}
            if r.random() < 0.3:
                d["name"] = r.choice(["Big door", "Side door", "Rear door"]) + " %d" % (len(e.get("doors", [])) + 1)
            if lip and kind == "overhead":
                d["lip"] = {"inset": self.length(r.choice([5, 5.5, 8])), "drop": self.length(r.choice([0.5, 0.75, 1.5]))}
            if deep and kind == "overhead" and slab["sections"]:
                depth = slab["_depth"] + r.choice([2, 4, 8])
                name = "Door %d" % depth
                if name not in [s["name"] for s in slab["sections"]]:
                    slab["sections"].append({"name": name, "depth": self.length(depth),
                                             "bottom": self.length(r.choice([12, 14])), "taper": self.length(r.choice([8, 10]))})
                d["section"] = name
                if r.random() < 0.5 and at >= 12:
                    d["runout"] = self.length(r.choice([6, 12]))
            e.setdefault("doors", []).append(d)
            at += width + r.choice([12, 16, 36, 60])

    def hole(self, slab, x, y, w, h, name=""):
        if name and name in [o.get("name") for o in slab.get("holes", [])]:
            name = ""
        ring = [(x, y), (x, y + h), (x + w, y + h), (x + w, y)]
        o = {"edges": [{"at": self.at(p)} for p in ring]}
        if name:
            o["name"] = name
        slab.setdefault("holes", []).append(o)

    def pad(self, slab, x, y, name=""):
        r = self.rng
        p = {"center": [self.length(x), self.length(y)], "width": self.length(r.choice([18, 24, 30])),
             "length": self.length(r.choice([18, 24, 36])), "depth": self.length(slab["_field"] + r.choice([4, 6, 10])),
             "taper": self.length(r.choice([0, 4, 6]))}
        if r.random() < 0.3:
            p["turn"] = r.choice([15, 30, 45])
        if name:
            p["name"] = name
        slab.setdefault("pads", []).append(p)

    def bend(self, slab, a, b, drop, over=12):
        """The top breaks along a line: left of it, it drops by so much in each run of over."""
        top = slab.setdefault("top", {"falls": [], "meet": "valley"})
        top.setdefault("breaks", []).append({"from": self.at(a), "to": self.at(b), "drop": self.length(drop), "over": self.length(over)})

    def embed(self, slab, x, y, name=""):
        r = random.Random(int(7 * x + y))  # drawn by itself: the jobs are else as they were before embeds
        kind = r.choice(["sleeve", "stub-up", "floor drain", "post base", "plate"])
        e = {"kind": kind, "center": [self.length(x), self.length(y)], "width": self.length(r.choice([2, 4, 6]))}
        if kind in ("post base", "plate") or kind == "floor drain" and r.random() < 0.5:
            e["length"], e["turn"] = self.length(r.choice([4, 6, 10])), r.choice([0, 20, 45])
            e["deep"] = self.length(r.choice([2, 3]))
        if name:
            e["name"] = name
        slab.setdefault("embeds", []).append(e)

    def line(self, slab, kind, path, diameter, cover, **more):
        """What runs along or under the slab: a drain line, a trench drain, conduit, tubing."""
        l = {"kind": kind, "path": [self.at(q) for q in path], "diameter": self.length(diameter), "cover": self.length(cover)}
        l.update({k: v if k == "name" else self.length(v) for k, v in more.items()})
        slab.setdefault("lines", []).append(l)

    def pours(self, slab, a, b, **more):
        """A construction joint from one place to another: the slab is poured in parts."""
        c = {"kind": "keyed", "from": self.at(a), "to": self.at(b), "first": "left", "steel": "usual"}
        c.update(more)
        slab.setdefault("construction", []).append(c)

    def wall(self, slab, a, b, **more):
        """A wall along a line of its own, within the slab or along a part of an edge."""
        w = {"kind": "bearing", "plate": "2x4", "from": self.at(a), "to": self.at(b)}
        w.update(more)
        slab.setdefault("walls", []).append(w)

    def strip(self, slab, path, name=""):
        r = self.rng
        p = {"path": [self.at(q) for q in path], "bottom": self.length(r.choice([12, 16])),
             "depth": self.length(slab["_field"] + r.choice([4, 6])), "taper": self.length(r.choice([4, 6]))}
        if name:
            p["name"] = name
        slab.setdefault("strips", []).append(p)

    def fall(self, slab, a, b, drop):
        top = slab.setdefault("top", {"falls": [], "meet": "valley"})
        top["falls"].append({"from": self.at(a), "to": self.at(b), "drop": self.length(drop)})

    def done(self):
        for s in self.slabs:
            for k in [k for k in s if k.startswith("_")]:
                del s[k]
        j = dict(self.head, units="mm" if self.metric else "ft-in", slabs=self.slabs, spec=self.spec)
        for k, v in (("survey", self.survey), ("pour", self.pour), ("price", self.price)):
            if v:
                j[k] = v
        return j


# Specifications: each entry sets one field to one of its values. Values that
# depend on each other are set together.
def L(job, *inches):
    return [job.length(x) for x in inches]


def specify(job, bold):
    """Changes about a share `bold` of what is specified."""
    r = job.rng
    put = lambda path, values: _put(job, path, r.choice(values))
    chance = lambda: r.random() < bold
    # Bars as they are sold where the job is: by number, or by millimeters.
    sold = lambda *numbers: [{0: 0, 3: "10 mm", 4: "12 mm", 5: "16 mm"}[n] if job.metric else n for n in numbers]
    beside = random.Random()  # drawn aside, so that the other fields of a seed's jobs stay as they were
    beside.setstate(r.getstate())
    for path, other in (("dowels.kind", "sliding"), ("bolts.setting", "tied"), ("bars.setting", "wet"), ("dowels.kind", "plates")):
        if beside.random() < bold / 2:
            _put(job, "spec.place." + path, other)
    if chance(): put("spec.mix.strength", [2500, 3000, 3500, 4000, 5000])
    if chance(): put("spec.mix.slump", L(job, 4, 5, 6))
    if chance(): put("spec.mix.aggregate", L(job, 0.375, 0.75, 1))
    if chance(): put("spec.mix.air", [0, 3, 5, 6])
    if chance(): put("spec.mix.fiber", [0, 1, 1.5, 3])
    if chance(): put("spec.mix.reducer", [True, False])
    if chance(): put("spec.order.waste", ["0", "5", "7.5", "10"])
    if chance(): put("spec.order.step", ["0.25", "0.5", "1"])
    if chance(): put("spec.order.truck", ["8", "9", "10", "11"] if not job.metric else ["6", "7.5", "8"])
    if chance(): put("spec.base.above", L(job, -4, 0, 6, 8))
    if chance(): put("spec.base.gravel", L(job, 0, 2, 4, 6, 8))
    if chance(): put("spec.base.compaction", ["1.15", "1.2", "1.25"])
    if chance(): put("spec.base.foam", L(job, 0, 1, 2, 3, 4))
    if chance(): put("spec.base.under", ["field", "field and haunches"])
    if chance(): put("spec.base.retarder", [0, 6, 10, 15])
    if chance(): put("spec.base.lap", L(job, 6, 8, 12))
    if chance(): put("spec.base.turnup", L(job, 0, 4, 6))
    if chance(): put("spec.base.rollwidth", L(job, 10 * FT, 20 * FT))
    if chance(): put("spec.place.bars.size", sold(3, 4, 5))
    if chance(): put("spec.place.bars.grade", [40, 60] if not job.metric else [500, 60])
    if chance(): put("spec.place.bars.coated", [True, False])
    if chance():
        rule = r.choice(["aci", "diameters", "length"])
        _put(job, "spec.place.bars.lap.rule", rule)
        if rule == "length":
            put("spec.place.bars.lap.length", L(job, 20, 24, 30))
    if chance(): put("spec.place.bars.stagger", L(job, 0, 12, 24))
    if chance(): put("spec.place.bars.corner", ["bent", "wrapped", "crossed"])
    if chance(): put("spec.place.bars.joint", ["stop", "pass"])
    if chance(): put("spec.place.bars.stock", [L(job, 240), L(job, 480), L(job, 240, 480), L(job, 240, 360)])
    if chance(): put("spec.place.bars.kerf", L(job, 0, 0.125))
    if chance(): put("spec.place.pads.size", sold(0, 3, 4, 5))
    if chance(): put("spec.place.pads.spacing", L(job, 6, 9, 12))
    if chance(): put("spec.place.strips.count", [0, 2, 3])
    if chance():
        kind = r.choice(["none", "mesh", "mesh", "grid", "fiber"])
        _put(job, "spec.place.field.kind", kind)
        if kind == "fiber":
            put("spec.mix.fiber", [1.5, 3])
        if kind == "mesh":
            put("spec.place.field.style", ["6x6-W1.4xW1.4", "6x6-W2.0xW2.0", "6x6-W2.9xW2.9"])
            if r.random() < 0.4:
                _put(job, "spec.place.field.roll", True)
                _put(job, "spec.place.field.length", job.length(150 * FT))
        if kind == "grid":
            put("spec.place.field.spacing", L(job, 12, 16, 18, 24))
            put("spec.place.field.size", sold(3, 4))
    if chance(): put("spec.place.field.chairs", L(job, 0, 24, 36))
    if chance(): put("spec.place.dowels.size", sold(0, 3, 4, 5))
    if chance(): put("spec.place.dowels.spacing", L(job, 12, 18, 24))
    if chance(): put("spec.place.dowels.length", L(job, 12, 16, 18, 24))
    if chance(): put("spec.place.dowels.cleardoors", [True, False])
    if chance(): put("spec.place.dowels.oldslab", L(job, 4, 5, 6))
    if chance():
        shape = r.choice(["bent", "headed"])
        _put(job, "spec.place.bolts.shape", shape)
        if shape == "bent":
            put("spec.place.bolts.hook", L(job, 1.5, 2, 2.25, 3))
    if chance(): put("spec.place.bolts.length", L(job, 10, 12, 16))
    if chance(): put("spec.place.bolts.diameter", L(job, 0.5, 0.625, 0.75))
    if chance(): put("spec.place.bolts.spacing", L(job, 32, 48, 60, 72))
    if chance(): put("spec.place.bolts.end", L(job, 6, 8, 10))
    if chance(): put("spec.place.bolts.washer", L(job, 0, 2, 3))
    if chance(): put("spec.place.bolts.stock", L(job, 144, 192, 240))
    if chance(): put("spec.place.bolts.stud", L(job, 0, 16, 24))
    if chance(): put("spec.place.bolts.jamb", L(job, 0, 1.5))
    if chance(): put("spec.place.forms.rip", [True, False])
    if chance(): put("spec.place.forms.board", ["2x12", "2x10", ""])
    if chance(): put("spec.place.forms.stakes", L(job, 24, 36, 48))
    if chance(): put("spec.place.forms.kickers", L(job, 0, 48, 72))
    if chance(): put("spec.place.sawcuts.ratio", [0, 24, 30, 36])
    if chance(): put("spec.place.sawcuts.early", [True, False])
    if chance(): put("spec.place.sawcuts.spacing", L(job, 0, 96, 120, 144))
    if chance(): put("spec.place.sawcuts.aspect", [1.25, 1.5, 2])
    if chance(): put("spec.place.bars.yard", [[], L(job, 60, 90), L(job, 110)])
    if chance(): put("spec.place.pads.cover", L(job, 3, 4))
    if chance(): put("spec.place.strips.size", sold(4, 5))
    if chance(): put("spec.place.strips.cover", L(job, 3, 4))
    if chance(): put("spec.place.field.cover", L(job, 2, 3))
    if chance(): put("spec.place.field.depth", L(job, 0, 1.5, 2))
    if chance(): put("spec.place.dowels.end", L(job, 4, 6, 12))
    if chance(): put("spec.place.dowels.clearance", L(job, 0.125, 0.25))
    if chance(): put("spec.place.dowels.waste", [10, 20, 50])
    if chance(): put("spec.place.bolts.apart", L(job, 3, 4))
    if chance(): put("spec.place.bolts.shift", L(job, 0, 3, 6))
    if chance(): put("spec.place.bolts.offset", L(job, 0, 2.75))
    if chance(): put("spec.place.forms.stock", [L(job, 144, 192), L(job, 120, 144, 192), L(job, 192, 240)])
    if chance(): put("spec.base.foamwidth", L(job, 24, 48))
    if chance(): put("spec.base.rolllength", L(job, 600, 1200))
    if chance(): put("spec.base.density", ["1.35", "1.4", "1.5"])
    if chance(): put("pour.reach.overlap", L(job, 6, 12))
    if chance(): put("pour.reach.bay", L(job, 0, 144, 240))
    if chance(): put("pour.crew.rate", ["0", "18"])
    if chance(): put("pour.trucks.fleet", [0, 1, 2])
    if chance(): put("spec.place.stakeout.offset", L(job, 24, 36, 48))
    if chance(): put("spec.place.stakeout.benchmark", L(job, 0, 14.5, 28, -6))
    if chance(): put("pour.weathering", ["unstated", "negligible", "moderate", "severe"])
    if chance(): put("pour.use", ["garage", "interior"])
    if chance(): put("spec.order.loads", ["balanced", "full"])
    if chance(): put("pour.trucks.travel", [15, 25, 40])
    if chance(): put("pour.crew.people", [3, 4, 5, 6])
    if chance(): put("pour.reach.straightedge", L(job, 10 * FT, 12 * FT, 14 * FT, 16 * FT))
    if chance(): put("pour.reach.method", ["chute", "pump", "buggy"])
    if chance():
        _put(job, "pour.weather", [
            {"time": "08:00", "air": "58 °F", "concrete": "64 °F", "humidity": 62, "wind": "4 mph"},
            {"time": "13:00", "air": r.choice(["76 °F", "91 °F", "41 °F"]), "concrete": "72 °F", "humidity": 35, "wind": "14 mph"}])
    if chance(): put("price.overhead", ["0", "10", "12.5"])
    if chance(): put("price.profit", ["0", "10", "15"])
    if chance(): put("price.profitas", ["markup", "margin"])
    if chance(): put("price.tax", ["0", "6", "7.25"])
    if chance(): put("price.taxon", ["materials", "all", "none"])
    if chance(): put("price.mobilization", ["0", "250"])
    if chance(): put("price.others", [[], [{"kind": "sill plate"}], [{"kind": "gravel weight"}], [{"kind": "anchor bolt"}]])
    if chance():
        _put(job, "price.extras", [{"name": "Pump truck", "amount": r.choice(["600", "850.50"])},
                                   {"name": "Haul off", "amount": "120", "material": True}])
    if chance():
        _put(job, "price.options", [{"name": "Deeper", "edge": job.length(24)}, {"name": "Thin", "field": job.length(4)}])


def _put(job, path, value):
    parts = path.split(".")
    d = {"spec": job.spec, "pour": job.pour, "price": job.price, "survey": job.survey}[parts[0]]
    for p in parts[1:-1]:
        d = d.setdefault(p, {})
    d[parts[-1]] = value


def rect(w, h, x=0, y=0):
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


def turned(points, degrees, x=0, y=0):
    s, c = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return [(px * c - py * s + x, px * s + py * c + y) for px, py in points]


def feet(r, low, high, step=0.5):
    return FT * (low + step * r.randrange(int((high - low) / step) + 1))


def garage(j):
    r = j.rng
    w, h = feet(r, 18, 30), feet(r, 18, 30)
    s = j.slab(rect(w, h), wall=r.choice(["2x4", "2x6"]))
    if r.random() < 0.7:
        j.joint(s, 2)
    j.doors(s, 0, 2)
    j.doors(s, r.choice([1, 3]), 1)
    if r.random() < 0.6:
        _put(j, "spec.base.foam", j.length(r.choice([1, 2])))
    if r.random() < 0.6:
        _put(j, "spec.place.field.kind", "mesh")
    if r.random() < 0.5:
        j.fall(s, (w / 2, h), (w / 2, 0), r.choice([1.5, 2.5, 3]))
    beside = random.Random(int(w * h))  # drawn by itself: the jobs are else as they were before aprons
    if beside.random() < 0.5:
        y = FT * beside.choice([3, 4, 6])
        j.bend(s, (w, y), (0, y), beside.choice([3, 6, 12]), 12 * FT)


def shed(j):
    r = j.rng
    w, h = feet(r, 8, 14), feet(r, 8, 12)
    s = j.slab(rect(w, h), field=4, wall=r.choice(["", "2x4"]))
    j.doors(s, r.randrange(4), 1)
    beside = random.Random(int(w + h))
    if beside.random() < 0.5:
        j.bend(s, (w - 2 * FT, 0), (w - 2 * FT, h), *beside.choice([(-1, 12), (-1, 12), (1, 48)]))
        s["base"] = beside.choice(["graded", "level"])


def ell(j):
    r = j.rng
    w, h = feet(r, 24, 36), feet(r, 22, 30)
    a, b = w - feet(r, 8, 12), h - feet(r, 8, 12)
    cut = r.choice([18, 24, 36])
    s = j.slab([(0, 0), (w - cut, 0), (w, cut), (w, b), (a, b), (a, h), (0, h)])
    j.doors(s, 0, 1)
    if r.random() < 0.5:
        j.joint(s, 5)
    x, y = a / 2, b / 2
    j.hole(s, x - 6, y - 6, 12, 12, r.choice(["Drain", ""]))
    j.pad(s, a - 40, h - 60, r.choice(["Post", ""]))
    for k in range(int(w + h) % 3 * 2):
        j.embed(s, 50 + 13 * k, 45 + 4 * k, ["", "Water"][k % 2])
    j.fall(s, (0, y), (x, y), 1)
    if r.random() < 0.5:
        j.fall(s, (w, y), (x, y), 1.5)


def turn(j):
    r = j.rng
    w, h = feet(r, 16, 30), feet(r, 14, 24)
    shape = r.choice([rect(w, h), [(0, 0), (w, 0), (w, h / 2), (w / 2, h / 2), (w / 2, h), (0, h)]])
    s = j.slab(turned(shape, r.choice([10, 17, 30, 45, 63.4, 112]), feet(r, 0, 20), feet(r, 0, 20)))
    j.doors(s, 0, 2)
    if r.random() < 0.4:
        j.joint(s, len(shape) - 1)


def comb(j):
    r = j.rng
    n, tooth, gap = r.choice([3, 4, 5]), FT * r.choice([4, 5, 6]), FT * r.choice([3, 4])
    long, deep = FT * r.choice([6, 8]), FT * r.choice([12, 15])
    points = [(0, deep)]
    for i in range(n):
        x = i * (tooth + gap)
        points += [(x, 0), (x + tooth, 0)]
        if i < n - 1:
            points += [(x + tooth, long), (x + tooth + gap, long)]
    points.append((n * tooth + (n - 1) * gap, deep))
    j.slab(points)


def star(j):
    r = j.rng
    n = r.choice([5, 6, 8])
    R, q = feet(r, 14, 18), feet(r, 8, 10)
    j.slab([((R if i % 2 == 0 else q) * math.cos(math.pi * i / n), (R if i % 2 == 0 else q) * math.sin(math.pi * i / n))
            for i in range(2 * n)])


def polygon(j):
    r = j.rng
    n = r.choice([3, 5, 6, 8, 12])
    R = feet(r, 10, 16)
    a = r.random() * 3
    s = j.slab([(R * math.cos(a + 2 * math.pi * i / n), R * math.sin(a + 2 * math.pi * i / n)) for i in range(n)])
    j.doors(s, 0, 1)
    beside = random.Random(int(R) * n)  # drawn by itself: the jobs are else as they were before arcs
    for i in range(1, n):
        if beside.random() < 0.3:
            j.arc(s, i, round(s["_size"][i] * beside.choice([0.06, 0.12, 0.2]) * 16) / 16)


def several(j):
    r = j.rng
    w, h = feet(r, 20, 28), feet(r, 18, 24)
    s = j.slab(rect(w, h), name=r.choice(["Garage", ""]))
    j.doors(s, 0, 1)
    a = j.slab(rect(w * 0.5, FT * r.choice([4, 6]), w * 0.2, -FT * 6), field=4, wall="", name=r.choice(["Apron", ""]),
               height=j.length(r.choice([-0.5, -1, 0])))
    j.joint(a, 2)
    if r.random() < 0.6:
        t = j.slab(turned(rect(FT * 10, FT * 8), r.choice([0, 20, 45]), w + FT * 8, FT * 4), field=4,
                   name=r.choice(["Shed", ""]), height=j.length(r.choice([0, 4, 7.5])), wall="2x4")
        j.doors(t, 0, 1)
    if r.random() < 0.6:
        j.survey["benchmarks"] = [{"name": "BM 1, nail in the gate post", "at": j.at((-60, 100)), "height": j.length(r.choice([0, 14, -6]))}]
    beside = random.Random(int(w + h))  # drawn by itself: the jobs are else as they were before slabs met
    out = FT * beside.choice([-4, 3])
    t = j.slab(rect(FT * 12, FT * 9, FT * 6 + out, h), field=beside.choice([4, 5]), wall="", name=beside.choice(["Porch", ""]), section=beside.choice(["", None]),
               height=j.length(beside.choice([0, -2])))
    if beside.random() < 0.5:
        t["outline"][0]["meets"] = "doweled"


def drains(j):
    r = j.rng
    w, h = feet(r, 20, 32), feet(r, 18, 28)
    s = j.slab(rect(w, h))
    x, y = round(w * r.choice([0.4, 0.5, 0.6])), round(h * r.choice([0.4, 0.5]))
    j.hole(s, x - 6, y - 6, 12, 12, "Drain")
    for a in [(0, y), (w, y), (x, 0), (x, h)]:
        j.fall(s, a, (x, y), r.choice([1, 1.5, 2]))
    j.doors(s, 0, 1)
    if r.random() < 0.5:
        s["base"] = "level"


def holes(j):
    r = j.rng
    w, h = feet(r, 26, 34), feet(r, 18, 24)
    s = j.slab(rect(w, h))
    for i in range(r.choice([1, 2, 3])):
        j.hole(s, FT * (4 + 8 * i), FT * r.choice([5, 6, 7]), FT * r.choice([1, 2, 3]), FT * r.choice([1, 2]), r.choice(["Pit", "Pier", "Drain", ""]))
    j.doors(s, 0, 2)


def lips(j):
    r = j.rng
    w, h = feet(r, 24, 40), feet(r, 20, 28)
    s = j.slab(rect(w, h))
    j.doors(s, 0, r.choice([1, 2, 3]), lip=True, deep=True)
    j.doors(s, 1, 1, lip=True, deep=True)
    if r.random() < 0.5:
        j.joint(s, 2)
    if r.random() < 0.5:
        s["trench"] = "board"


def toprow(j):
    r = j.rng
    s = j.slab(rect(feet(r, 20, 30), feet(r, 16, 24)), field=r.choice([4, 6]))
    depth = r.choice([20, 24, 30])
    s["sections"][0].update(depth=j.length(depth))
    rows = [{"face": j.length(3), "bottom": j.length(3)}, {"face": j.length(8), "bottom": j.length(3)},
            {"face": j.length(3), "top": j.length(r.choice([2, 3]))}]
    _put(j, "spec.place.bars.rows", rows)
    j.doors(s, 0, 1)
    if r.random() < 0.4:
        j.joint(s, 2)


def shop(j):
    r = j.rng
    w, h = feet(r, 40, 80, 5), feet(r, 30, 50, 5)
    s = j.slab(rect(w, h))
    j.doors(s, 0, 3)
    j.doors(s, 1, 2)
    for i in range(r.choice([2, 3, 4])):
        j.pad(s, w * (i + 1) / 5, h / 2, r.choice(["Post %d" % (i + 1), ""]))
    columns = random.Random(int(w + h))  # drawn by itself, likewise
    for p in s["pads"]:
        p["isolation"] = columns.choice(["none", "none", "diamond", "square", "round"])
        if p["isolation"] == "none":
            del p["isolation"]
    j.strip(s, [(FT * 3, h * 0.75), (w - FT * 3, h * 0.75)], r.choice(["Bearing wall", ""]))
    beside = random.Random(int(w * h))  # drawn by itself: the jobs are else as they were before walls
    j.wall(s, (0, h * 0.75), (w, h * 0.75), kind=beside.choice(["bearing", "braced"]), name=beside.choice(["Office", ""]),
           doors=[{"from": j.length(FT * 6), "width": j.length(36)}, {"from": j.length(w - FT * 9), "width": j.length(FT * 5)}])
    x = w * beside.choice([0.3, 0.45, 0.62])
    j.wall(s, (x, h * 0.75), (x + beside.choice([0, 0, 40]), 0), plate=beside.choice(["2x4", "2x6"]))


def channel(j):
    r = j.rng
    w, h = feet(r, 20, 30), feet(r, 18, 24)
    s = j.slab([(0, 0), (w, 0), (w, h), (w - FT * 8, h), (w - FT * 8, FT * 6), (FT * 8, FT * 6), (FT * 8, h), (0, h)])
    j.doors(s, 0, 2)


def bolts(j):
    r = j.rng
    s = j.slab(rect(feet(r, 16, 24), feet(r, 14, 20)))
    for i in (0, 1):
        size = s["_size"][i]
        marks = sorted(r.sample(range(8, int(size) - 8, 4), r.choice([3, 4, 5])))
        s["outline"][i]["bolts"] = [{"along": j.length(m)} for m in marks]
    s["outline"][2]["bolts"] = [{"along": j.length(14), "holddown": True}]


def surveyed(j):
    r = j.rng
    garage(j)
    j.survey.update({"north": {"known": True, "turn": r.choice([0, 20, -140])},
                     "benchmarks": [{"name": "BM 1, nail in the power pole", "at": j.at((-60, -40)), "height": j.length(r.choice([0, 12, -7.5]))}],
                     "notes": [{"text": "Old drain: find it before you dig", "at": j.at((-80, 100)), "leader": True, "to": j.at((60, 60))}]})


def aitch(j):
    r = j.rng
    a, b, c, h = feet(r, 7, 10), feet(r, 7, 10), feet(r, 8, 12), feet(r, 20, 26)
    y0, y1, w = h * 0.35, h * 0.65, a + b + c
    j.slab(turned([(0, 0), (a, 0), (a, y0), (a + b, y0), (a + b, 0), (w, 0), (w, h), (a + b, h), (a + b, y1), (a, y1), (a, h), (0, h)],
                  r.choice([0, 13, 30, 45, 77])))


def jogs(j):
    r = j.rng
    w, h = feet(r, 24, 36), feet(r, 16, 24)
    d, e = r.choice([1.5, 3, 5, 8, 14]), r.choice([2, 6, 11])
    s = j.slab([(0, 0), (w * 0.4, 0), (w * 0.4, d), (w, d), (w, h), (w * 0.6, h), (w * 0.6, h + e), (0, h + e)])
    j.doors(s, 5, 1)


def sharp(j):
    r = j.rng
    w, h = feet(r, 20, 40), feet(r, 5, 14)
    x = w * r.choice([0.1, 0.5, 0.9, 1.05])
    s = j.slab([(0, 0), (w, 0), (x, h)])
    i = r.choice([0, 1, 2])
    if r.random() < 0.4:
        j.joint(s, i)
    else:
        j.doors(s, i, 1)


def everything(j):
    r = j.rng
    w, h = feet(r, 30, 40), feet(r, 26, 34)
    s = j.slab(rect(w, h), name="Main")
    j.doors(s, 0, 2, lip=True, deep=True)
    j.doors(s, 3, 1)
    j.joint(s, 2)
    x, y = round(w / 2), round(h * 0.4)
    j.hole(s, x - 6, y - 6, 12, 12, "Drain")
    for a in [(0, y), (w, y), (x, 0), (x, h)]:
        j.fall(s, a, (x, y), r.choice([1, 1.5]))
    j.pad(s, w * 0.2, h * 0.6, "Post")
    j.embed(s, w * 0.35, h * 0.25)
    j.embed(s, w * 0.85, h * 0.75, "Column")
    j.strip(s, [(w * 0.7, FT * 4), (w * 0.7, h - FT * 6)], "Wall")
    beside = random.Random(int(w + h))  # drawn by itself: the jobs are else as they were before joints
    j.pours(s, (0, y + 60), (w, y + 60), kind=beside.choice(["bulkhead", "keyed", "doweled"]), first=beside.choice(["left", "right"]),
            days=beside.choice([1, 3, 7]), steel=beside.choice(["usual", "through", "stops"]))
    j.wall(s, (w * 0.7, 0), (w * 0.7, h), bolts=[{"along": j.length(18), "holddown": True}])
    j.wall(s, (0, h * 0.3), (w, h * 0.3), kind="braced", doors=[{"from": j.length(w * 0.4), "width": j.length(36)}])
    _put(j, "spec.base.foam", j.length(2))
    _put(j, "spec.place.field.kind", "mesh")


def curbs(j):
    """Curbs on some of the edges, or all, of a job now and then; chosen by themselves: the jobs are
    else as they were before."""
    beside = random.Random(json.dumps([s["_size"] for s in j.slabs]))
    if beside.random() > 0.2:
        return
    for s in j.slabs:
        h, w = beside.choice([4, 6, 8, 12, 16]), beside.choice([6, 6, 8])
        every = beside.random() < 0.6
        for e in s["outline"]:
            if not e.get("joint") and (every or beside.random() < 0.5):
                e["curb"] = j.length(h)
                if w != 6 or j.metric:
                    e["curbwidth"] = j.length(w)
        if s.get("top") and random.Random(json.dumps(s["_size"])).random() < 0.5:
            s["top"]["curbs"] = "level"


KINDS = [garage, shed, ell, turn, comb, several, drains, holes, lips, toprow, star, shop, channel, bolts, surveyed,
         polygon, aitch, jogs, sharp, everything]


def generate(i, seed):
    rng = random.Random(seed * 1000003 + i)
    kind = KINDS[i % len(KINDS)]
    metric = (i // len(KINDS)) % 4 == 3
    j = Job(rng, "%s %d" % (kind.__name__.capitalize(), i), metric)
    kind(j)
    curbs(j)
    # A third plain, the others changed a little or a lot.
    specify(j, [0, 0.08, 0.3][(i // len(KINDS)) % 3])
    return "%04d-%s" % (i, kind.__name__), j.done()


def by_hand():
    """Jobs that are awkward on purpose."""
    def job(name, build, metric=False):
        j = Job(random.Random(7), name, metric)
        build(j)
        return "hand-" + name.replace(" ", "-"), j.done()

    def close(j):
        s = j.slab(rect(24 * FT, 20 * FT))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": '12"', "width": "16'"}, {"kind": "walk", "from": "19'", "width": '36"'}]

    def three(j):
        s = j.slab(rect(30 * FT, 24 * FT))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": "%d\"" % a, "width": "9'"} for a in (8, 126, 244)]

    def long_side(j):
        s = j.slab(rect(200 * FT, 80 * FT))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": "%d'" % a, "width": "14'"} for a in range(8, 180, 24)]

    def names_(j):
        s = j.slab(rect(26 * FT, 18 * FT))
        j.pad(s, 10 * FT, 9 * FT, "Post under the ridge beam of the old barn")
        j.strip(s, [(18 * FT, 3 * FT), (18 * FT, 15 * FT)], "Bearing wall A point load under the girder truss")

    def same(j):
        s = j.slab(rect(30 * FT, 22 * FT))
        for i in range(3):
            j.pad(s, FT * (6 + 8 * i), 11 * FT)
        j.hole(s, 14 * FT, 4 * FT, 18, 18)
        j.fall(s, (0, 11 * FT), (30 * FT, 11 * FT), 3)

    def piped(j):
        """A drain with its line, a trench drain, conduit and tubing in circuits."""
        s = j.slab(rect(40 * FT, 24 * FT), field=6)
        j.embed(s, 10 * FT, 12 * FT, "Sink")
        j.line(s, "drain line", [(10 * FT, 12 * FT), (10 * FT, -6 * FT), (2 * FT, -6 * FT)], 3, 12, endcover=16, name="Sewer")
        j.line(s, "trench drain", [(24 * FT, 3 * FT), (36 * FT, 3 * FT)], 6, 0, height=8)
        j.line(s, "conduit", [(0, 20 * FT), (20 * FT, 20 * FT), (20 * FT, 24 * FT)], 1, 2)
        j.line(s, "tubing", [(22 * FT, 6 * FT), (38 * FT, 22 * FT)], 0.5, 3, spacing=9, longest=250 * 12, lead=20 * 12)

    def columns(j):
        """Columns isolated in each way, one in a diamond that is smaller than its pad."""
        s = j.slab(rect(40 * FT, 30 * FT), field=5)
        put = lambda x, y, w, l, **more: s.setdefault("pads", []).append(dict({"center": j.at((x * FT, y * FT)), "width": j.length(w), "length": j.length(l), "depth": j.length(12)}, **more))
        put(10, 10, 24, 24, isolation="diamond", blockout=j.length(34))
        put(20, 10, 20, 20, isolation="round")
        put(30, 10, 24, 18, isolation="square", blockout=j.length(26), name="Steel post")
        put(10, 20, 30, 30, isolation="diamond", blockout=j.length(36))
        put(30, 20, 24, 24)
        _put(j, "spec.place.field.kind", "mesh")

    def raised(j):
        """A garage with curbs of 6 by 8 in and two doors; one edge has none."""
        s = j.slab(rect(24 * FT, 20 * FT), field=5)
        for e in s["outline"][:3]:
            e.update(curb=j.length(6), curbwidth=j.length(8))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": j.length(48), "width": j.length(108)}]
        s["outline"][1]["doors"] = [{"kind": "walk", "from": j.length(96), "width": j.length(38)}]

    def stem(j):
        """An L with a stem of 16 in, two heights of curb, a bowed edge and no haunch on one side."""
        s = j.slab([(0, 0), (30 * FT, 0), (30 * FT, 16 * FT), (18 * FT, 16 * FT), (18 * FT, 24 * FT), (0, 24 * FT)])
        for e in s["outline"]:
            e.update(curb=j.length(16), curbwidth=j.length(8))
        s["outline"][4].update(curb=j.length(4), curbwidth=j.length(6))
        s["outline"][1].pop("section")
        j.arc(s, 5, 12)
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": j.length(60), "width": j.length(120)}]
        j.fall(s, (0, 24 * FT), (0, 0), 2)

    def level_curbs(j):
        """A garage that falls to its door, its curbs level for the plates; one side is higher."""
        s = j.slab(rect(24 * FT, 22 * FT), field=5)
        for e in s["outline"]:
            e.update(curb=j.length(6), curbwidth=j.length(6))
        s["outline"][1].update(curb=j.length(10))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": j.length(48), "width": j.length(192)}]
        j.fall(s, (12 * FT, 22 * FT), (12 * FT, 0), 3)
        s["top"]["curbs"] = "level"

    def level_ridge(j):
        """Two falls that part at a ridge, with stems level over it, so high that boards stand over each
        other and upright bars hold them."""
        s = j.slab(rect(40 * FT, 24 * FT), field=6)
        for e in s["outline"]:
            e.update(curb=j.length(10), curbwidth=j.length(8))
        s["outline"][3].update(curb=j.length(16))
        j.fall(s, (20 * FT, 12 * FT), (0, 12 * FT), 4)
        j.fall(s, (20 * FT, 12 * FT), (40 * FT, 12 * FT), 5)
        s["top"].update(meet="ridge", curbs="level")

    def lower_apron(j):
        """A garage whose curbs stand over an apron that is poured after it, lower and as wide as its
        door and more, and beside a walk as high; a shed between two of them, which stands behind."""
        s = j.slab(rect(24 * FT, 20 * FT), field=5, name="Garage")
        t = j.slab(rect(16 * FT, 8 * FT, 2 * FT, -8 * FT), field=5, wall="", section="", name="Apron", height=j.length(-4))
        j.slab(rect(4 * FT, 20 * FT, 24 * FT, 0), field=4, wall="", section="", name="Walk")
        u = j.slab(rect(10 * FT, 12 * FT, 4 * FT, 20 * FT), field=5, name="Shed", height=j.length(-2))
        for e in s["outline"] + u["outline"] + t["outline"][2:3]:
            e.update(curb=j.length(6), curbwidth=j.length(8))
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": j.length(60), "width": j.length(108)}]
        s["outline"][2]["doors"] = [{"kind": "walk", "from": j.length(144), "width": j.length(38)}]

    def lower_level(j):
        lower_apron(j)
        j.fall(j.slabs[0], (12 * FT, 20 * FT), (12 * FT, 0), 3)
        j.slabs[0]["top"]["curbs"] = "level"

    def over_curb(j):
        """A garage that falls to its door, with curbs, and two slabs that are poured after it and higher:
        one against its curb alone, which stands higher, and one over it, with a door between them."""
        s = j.slab(rect(24 * FT, 20 * FT), field=5, name="Garage")
        j.slab(rect(16 * FT, 20 * FT, 24 * FT, 0), field=5, wall="", name="House", height=j.length(4))
        j.slab(rect(24 * FT, 12 * FT, 0, 20 * FT), field=5, wall="", name="Hall", height=j.length(11))
        for e in s["outline"]:
            e.update(curb=j.length(6), curbwidth=j.length(8))
        s["outline"][2]["doors"] = [{"kind": "walk", "from": j.length(144), "width": j.length(38)}]
        j.fall(s, (12 * FT, 20 * FT), (12 * FT, 0), 1)

    def over_level(j):
        over_curb(j)
        j.slabs[0]["top"]["curbs"] = "level"

    def columns_gridded(j):
        columns(j)
        _put(j, "spec.place.field.kind", "grid")

    def warm(j, corners=None, **more):
        """A heated building with insulated edges, a joint, and wings that are wider at corners."""
        s = j.slab(corners or rect(32 * FT, 22 * FT), field=5)
        j.joint(s, 2)
        for k, v in dict(dict(upright=2, uprightdeep=18, wing=3, wingwidth=24, wingdeep=10, cornerwidth=36, cornerlong=40), **more).items():
            _put(j, "spec.base." + k, j.length(v))
        _put(j, "spec.base.building", "heated")
        _put(j, "spec.base.frostfoam", "xps iv")

    def warm_ell(j):
        warm(j, [(0, 0), (30 * FT, 0), (30 * FT, 10 * FT), (15 * FT, 14 * FT), (15 * FT, 20 * FT), (0, 20 * FT)], wing=2, cornerwidth=0)
        j.slabs[0]["outline"][2].pop("joint")

    def warm_two(j):
        """Two slabs of a heated building that meet, the one insulated round both."""
        warm(j)
        j.slabs[0]["outline"][2].pop("joint")
        j.slab(rect(10 * FT, 12 * FT, 32 * FT, 5 * FT), field=4)

    def warm_porch(j):
        """A porch, unheated, that lies against a heated building."""
        warm_two(j)
        j.slabs[1]["unheated"] = True

    def cold(j):
        warm(j)
        _put(j, "spec.base.building", "other")

    def on_an_edge(j):
        """Two walls along parts of one edge, drawn either way, and one that meets a hole."""
        s = j.slab(rect(40 * FT, 24 * FT), field=12)
        s["outline"][2].pop("wall")
        j.wall(s, (34 * FT, 24 * FT), (22 * FT, 24 * FT), plate="2x6", kind="braced")
        j.wall(s, (2 * FT, 24 * FT), (16 * FT, 24 * FT), plate="2x6", name="Leeward")
        j.hole(s, 18 * FT, 9 * FT, 30, 30, "Pit")
        j.wall(s, (10 * FT, 10 * FT), (30 * FT, 10 * FT))
        j.wall(s, (12 * FT, 0), (16 * FT, 20 * FT))

    def rounded(j):
        """Corners rounded by about 4 ft, walls on two sides between them."""
        r, w, h = 48, 24 * FT, 20 * FT
        s = j.slab([(r, 0), (w - r, 0), (w, r), (w, h - r), (w - r, h), (r, h), (0, h - r), (0, r)], field=6)
        for i in (1, 3, 5, 7):
            j.arc(s, i, 14.0625)

    def bowed(j):
        """A side that bows out by 15 in on 7 1/2 ft, of a circle of 75 in; one that bows in."""
        s = j.slab([(0, 0), (24 * FT, 0), (24 * FT, 20 * FT), (189, 20 * FT), (99, 20 * FT), (0, 20 * FT)], field=6)
        j.arc(s, 3, 15)
        j.arc(s, 5, -12)

    def met(j):
        """Three slabs that lie against each other, one of them against two."""
        j.slab(rect(24 * FT, 20 * FT), field=6, name="Garage")
        s = j.slab(rect(16 * FT, 8 * FT, 4 * FT, -8 * FT), field=5, wall="", section="", name="Apron")
        s["outline"][2]["meets"] = "doweled"
        t = j.slab(rect(12 * FT, 30 * FT, 24 * FT, -4 * FT), field=4, name="Shop", height='-1"')
        t["outline"][3]["meets"] = "doweled"
        j.slab(rect(4 * FT, 8 * FT, 20 * FT, -8 * FT), field=4, wall="", section="", name="Walk")

    def stepped(j):
        """A garage that falls to its door, and slabs higher at its back, and beside it along its fall."""
        s = j.slab(rect(24 * FT, 20 * FT), field=6, name="Garage")
        j.fall(s, (12 * FT, 20 * FT), (12 * FT, 0), 3.25)
        j.slab(rect(24 * FT, 16 * FT, 0, 20 * FT), field=5, name="House", height='6"')
        t = j.slab(rect(6 * FT, 12 * FT, 24 * FT, 2 * FT), field=4, wall="", section="", name="Porch", height='2"')
        t["outline"][3]["meets"] = "doweled"

    def aprons(j):
        """Two aprons that meet in a hip at a corner, of a floor that is level."""
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        j.bend(s, (24 * FT, 4 * FT), (0, 4 * FT), 0.25)
        j.bend(s, (4 * FT, 0), (4 * FT, 20 * FT), 1, 4 * FT)
        s["base"] = "level"

    def slant(j):
        """An apron of a floor that falls, along a line that runs slant, and a door with a lip in it."""
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        j.fall(s, (12 * FT, 20 * FT), (12 * FT, 0), 2)
        j.bend(s, (24 * FT, 6 * FT), (0, 3 * FT), 1, 4 * FT)
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": "6'", "width": "9'", "lip": {"inset": '5 1/2"', "drop": '3/4"'}}]
        _put(j, "spec.place.field.kind", "mesh")

    def wheeled(j):
        """A ramp, in millimeters."""
        s = j.slab(rect(7200 / 25.4, 6000 / 25.4), field=100 / 25.4)
        j.bend(s, (0, 4800 / 25.4), (7200 / 25.4, 4800 / 25.4), -80 / 25.4, 1000 / 25.4)

    def pads24(j):
        j.slab(rect(24 * FT, 20 * FT), field=6)
        _put(j, "pour.reach.straightedge", "14'")

    def pads60(j):
        j.slab(rect(60 * FT, 40 * FT), field=6)
        _put(j, "pour.reach.straightedge", "14'")

    def metric(j):
        s = j.slab([(0, 0), (9000 / 25.4, 0), (9000 / 25.4, 4000 / 25.4), (5000 / 25.4, 4000 / 25.4), (5000 / 25.4, 7337 / 25.4), (0, 7337 / 25.4)])
        j.doors(s, 0, 2, lip=True, deep=True)
        j.hole(s, 60, 60, 300 / 25.4, 300 / 25.4, "Drain")

    def deep(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        s["sections"][0].update(depth='24"', bottom='12"', taper='8"')
        _put(j, "spec.place.bars.rows", [{"face": '3"', "bottom": '3"'}, {"face": '3"', "top": '3"'}])
        _put(j, "spec.base.above", '6"')
        _put(j, "spec.base.gravel", '8"')

    def steep(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        s["sections"][0].update(depth='22"', bottom='8"', taper='6"')

    def twoheights(j):
        s = j.slab(rect(24 * FT, 20 * FT), name="Garage")
        t = j.slab(rect(12 * FT, 10 * FT, 30 * FT, 0), name="Shed", height='-6"')
        _put(j, "spec.place.stakeout.benchmark", '28"')
        j.survey["benchmarks"] = [{"name": "BM 1, nail in the power pole", "at": j.at((-60, -40)), "height": '0"'}]

    def typed(j):
        j.slab(rect(24 * FT, 20 * FT), field=6)
        _put(j, "spec.place.bars.lap.rule", "length")
        _put(j, "spec.place.bars.lap.length", '6"')

    def shallow(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        j.joint(s, 2)
        _put(j, "spec.place.dowels.embed", '1"')

    def long(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=6)
        s["sections"][0].update(depth='12"', bottom='12"', taper='6"')
        _put(j, "spec.place.bolts.length", '18"')

    def touching(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=6, wall="2x6")
        s["sections"][0].update(depth='12"', bottom='12"', taper='6"')
        _put(j, "spec.place.bars.rows", [{"face": '3"', "bottom": '5"'}, {"face": '8"', "bottom": '3"'}])

    def metriccover(j):
        s = j.slab(rect(7200 / 25.4, 6000 / 25.4), field=150 / 25.4)
        s["sections"][0].update(depth="300 mm", bottom="300 mm", taper="150 mm")
        _put(j, "spec.place.bars.rows", [{"face": "75 mm", "bottom": "75 mm"}, {"face": "200 mm", "bottom": "75 mm"}])
        _put(j, "spec.place.bolts.end", "300 mm")

    def millimeters(*grade):
        """Bars that are sold by millimeters everywhere: rows of two sizes and one near the
        top of a deep edge, a grid, dowels or a strip."""
        def build(j):
            s = j.slab(rect(9000 / 25.4, 7000 / 25.4), field=150 / 25.4)
            s["sections"][0].update(depth="550 mm", bottom="300 mm", taper="200 mm")
            j.doors(s, 0, 1)
            if grade[0] == 500:
                j.joint(s, 2)
            else:
                j.strip(s, [(5000 / 25.4, 1500 / 25.4), (5000 / 25.4, 5500 / 25.4)], "Wall")
            _put(j, "spec.place.bars.rows", [{"face": "75 mm", "bottom": "75 mm"}, {"face": "200 mm", "bottom": "75 mm", "size": "16 mm"}, {"face": "75 mm", "top": "50 mm"}])
            for path, size in (("bars", "12 mm"), ("pads", "14 mm"), ("strips", "20 mm"), ("field", "8 mm"), ("dowels", "16 mm")):
                _put(j, "spec.place.%s.size" % path, size)
            _put(j, "spec.place.bars.grade", grade[0])
            _put(j, "spec.place.bars.coated", len(grade) > 1)
            _put(j, "spec.place.bars.stock", ["12 m"])
            _put(j, "spec.place.field.kind", "grid")
            _put(j, "spec.mix.strength", 4000)
        return build

    def twojoints(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=5)
        j.joint(s, 1)
        j.joint(s, 2)

    def neardoor(j):
        s = j.slab(rect(24 * FT, 20 * FT), field=5, wall="2x6")
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": '191 1/2"', "width": "8'"}]
        s["outline"][2]["doors"] = [{"kind": "walk", "from": '1/2"', "width": "3'"}]

    def sharp(j):
        s = j.slab([(0, 0), (40 * FT, 0), (38 * FT, 12 * FT)], field=5)
        j.joint(s, 2)
        t = j.slab([(0, 30 * FT), (40 * FT, 30 * FT), (2 * FT, 38 * FT)], field=5)
        t["outline"][0]["doors"] = [{"kind": "walk", "from": '6"', "width": "3'"}]

    def jambs(j):
        s = j.slab([(0, 0), (20 * FT, 0), (20 * FT, 20 * FT), (40 * FT, 20 * FT), (40 * FT, 40 * FT), (0, 40 * FT)], field=5)
        s["outline"][0]["doors"] = [{"kind": "overhead", "from": '7"', "width": "9'"}]
        s["outline"][4]["doors"] = [{"kind": "overhead", "from": "19'-5\"", "width": "9'"}]

    def slopes(j):
        for k, (depth, bottom, taper) in enumerate([(22, 8, 6), (24, 6, 4), (18, 8, 4), (30, 10, 12)]):
            s = j.slab(rect(20 * FT, 16 * FT, k * 26 * FT, 0), field=6)
            s["sections"][0].update(name="Edge %d" % depth, depth='%d"' % depth, bottom='%d"' % bottom, taper='%d"' % taper)
            for e in s["outline"]:
                e["section"] = "Edge %d" % depth

    def mainedge(j):
        for k, (w, h, depth) in enumerate([(20, 10, 12), (20, 15, 16), (20, 10, 12)]):
            s = j.slab(rect(w * FT, h * FT, k * 30 * FT, 0), field=5, name="Slab %s" % "ABC"[k])
            s["sections"][0].update(name="Edge %d" % depth, depth='%d"' % depth, bottom='12"', taper='6"')
            for e in s["outline"]:
                e["section"] = "Edge %d" % depth

    def ripples(j):
        points = [(0, 0), (30 * FT, 0)]
        for i in range(20):
            points.append((30 * FT + (6 if i % 2 else 0), FT * (i + 1)))
        j.slab(points + [(0, 20 * FT)])

    def keyed(j):
        s = j.slab(rect(60 * FT, 30 * FT), field=6)
        j.doors(s, 0, 2)
        j.pours(s, (30 * FT, 0), (30 * FT, 30 * FT), days=3)

    def twodays(j):
        """Two joints on slabs of two names, poured on three days."""
        s = j.slab(rect(70 * FT, 30 * FT), field=6, name="Shop")
        j.pours(s, (24 * FT, 0), (24 * FT, 30 * FT), kind="doweled", first="right", name="North joint")
        j.pours(s, (48 * FT, 0), (48 * FT, 30 * FT), kind="bulkhead", first="left", days=2, steel="stops")
        j.slab(rect(20 * FT, 10 * FT, 0, 36 * FT), field=4, name="Apron", wall="")

    def aroundpit(j):
        """One joint in two stretches, as a pit lies in it."""
        s = j.slab(rect(40 * FT, 24 * FT), field=6)
        j.hole(s, 18 * FT, 10 * FT, 4 * FT, 4 * FT, "Pit")
        j.pours(s, (20 * FT, 0), (20 * FT, 24 * FT), kind="bulkhead", first="right")

    def metricjoint(j):
        s = j.slab(rect(14000 / 25.4, 9000 / 25.4), field=150 / 25.4)
        j.pours(s, (7000 / 25.4, 0), (7000 / 25.4, 9000 / 25.4), kind="doweled", days=2)

    def small(j):
        j.slab(rect(6000 / 25.4, 5000 / 25.4))
        _put(j, "spec.place.bars.kerf", '1 1/16"')

    refused = job("metric digits", small, True)
    refused[1]["_found"] = ["26.9875 mm"]

    out = [("refused-metric-digits", refused[1]), job("close doors", close), job("three doors", three), job("long side", long_side), job("long names", names_),
           job("same things", same), job("walls on an edge", on_an_edge), job("lines", piped), job("warm", warm), job("columns", columns), job("raised", raised), job("raised metric", raised, True), job("stem", stem), job("level curbs", level_curbs), job("level curbs metric", level_curbs, True), job("level ridge", level_ridge), job("lower apron", lower_apron), job("lower apron level", lower_level), job("lower apron metric", lower_apron, True), job("over a curb", over_curb), job("over a level curb", over_level), job("columns metric", columns_gridded, True), job("warm metric", warm, True), job("warm ell", warm_ell), job("warm two", warm_two), job("warm porch", warm_porch), job("cold", cold), job("slabs that meet", met), job("steps of a floor that falls", stepped), job("rounded corners", rounded), job("bowed sides", bowed), job("two aprons", aprons), job("slant apron", slant), job("ramp metric", wheeled, True), job("one wet pad", pads24), job("wet pads", pads60), job("metric ell", metric, True),
           job("deep top row", deep), job("steep slope", steep), job("two heights", twoheights), job("main edge", mainedge), job("typed lap", typed), job("shallow dowels", shallow),
           job("long bolts", long), job("touching bolts", touching), job("metric cover", metriccover, True),
           job("metric bars", millimeters(500), True), job("metric coated", millimeters(60, "coated"), True),
           job("two joints", twojoints), job("near doors", neardoor), job("sharp corners", sharp), job("jambs", jambs),
           job("slopes", slopes), job("ripples", ripples), job("keyed joint", keyed), job("three pours", twodays),
           job("pours past a pit", aroundpit), job("metric pours", metricjoint, True)]
    return out


def breaking():
    """Jobs that each break one rule; _told is what a finding must say of it."""
    out = []

    def job(name, told, build):
        j = Job(random.Random(11), "breaks " + name)
        s = j.slab(rect(24 * FT, 20 * FT), field=6, wall="2x6")
        s["sections"][0].update(name="Edge", depth='16"', bottom='12"', taper='8"')
        for e in s["outline"]:
            e["section"] = "Edge"
        build(j, s)
        done = j.done()
        done["_told"] = told
        out.append(("breaks-" + name.replace(" ", "-"), done))

    def marks(edge, *inches):
        def build(j, s):
            s["outline"][edge]["bolts"] = [{"along": j.length(x)} for x in inches]
        return build

    def put(path, value):
        return lambda j, s: _put(j, path, value)

    def rows(**row):
        return lambda j, s: _put(j, "spec.place.bars.rows", [{k: j.length(v) for k, v in row.items()}])

    job("bolt spacing", r"\bbolts? .*apart|between the bolts|\bspacing\b", marks(0, 14, 60, 160, 190, 230, 280))
    job("bolt spacing just", r"\bbolts? .*apart|between the bolts|\bspacing\b", marks(0, 14, 60, 132.0625, 190, 230, 280))
    job("bolt far from an end", r"end of its plate", marks(0, 26, 60, 120, 190, 230, 280))
    job("bolt at an end", r"end of its plate", marks(0, 7, 60, 120, 190, 230, 280))
    job("one bolt in a plate", r"\b1 of the 2\b|two bolts|\bneeds\b", lambda j, s: (s["outline"][0].update(doors=[{"kind": "overhead", "from": '60"', "width": '192"'}]), marks(0, 14, 48, 270)(j, s)))
    job("bolts beside each other", r"apart", lambda j, s: s["outline"][0].update(bolts=[{"along": '60"', "holddown": True}, {"along": '61 1/2"', "holddown": True}]))
    job("cover to the ground", r"\bcover\b|to the bottom|to the ground", rows(face=3, bottom=2))
    job("cover to the ground just", r"\bcover\b|to the bottom|to the ground", rows(face=3, bottom=2.9375))
    job("cover to the face", r"\bcover\b|from the face|to the face", rows(face=1, bottom=3))
    job("cover to the top", r"\bcover\b|to the top", rows(face=3, top=0.5))
    job("row beyond the haunch", r"beyond section|lies .*from the face", rows(face=30, bottom=3))
    job("short hook", r"\bhook\b", put("spec.place.bolts.hook", '1"'))
    job("shallow bolt", r"\bembed|in concrete|into concrete|deep", put("spec.place.bolts.length", '8"'))
    job("bolt outside the plate", r"\bplate\b|\bface\b|\bedge\b", put("spec.place.bolts.offset", '1/2"'))
    job("dowel too long", r"\bdowel", lambda j, s: (j.joint(s, 2), _put(j, "spec.place.dowels.oldslab", '2"')))
    job("lap too short", r"\blaps?\b", lambda j, s: (_put(j, "spec.place.bars.lap.rule", "length"), _put(j, "spec.place.bars.lap.length", '11"')))
    job("wide panels", r"\bpanel|\bsaw", put("spec.place.sawcuts.spacing", '20\''))
    job("board too narrow", r"\bboard\b|2x8", put("spec.place.forms.board", "2x8"))
    return out


def everything_of(count, seed):
    """The hand-made jobs and count generated ones, each with its name."""
    return by_hand() + breaking() + [generate(i, seed) for i in range(count)]


def main(args):
    folder, count = args[0], int(args[1])
    seed = int(args[2]) if len(args) > 2 else 1
    version = int(args[3]) if len(args) > 3 else names.VERSION
    os.makedirs(folder, exist_ok=True)
    for name, job in everything_of(count, seed):
        with open(os.path.join(folder, name + ".json"), "w", encoding="utf-8") as f:
            json.dump(names.written(job, version), f, indent=1, ensure_ascii=False)


if __name__ == "__main__":
    main(sys.argv[1:])
