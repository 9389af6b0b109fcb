"""What a job places, read from its job file and takeoff.json: all in inches."""

import json
import math
import os
import re

import measure
import names
from shapely.geometry import Polygon
from slab import BAR, Slab, length_of, setting

INCH = 25.4


class Bar:
    def __init__(self, d, k):
        self.mark, self.size, self.row = d["mark"], measure.bar(d["size"]), d["row"]
        self.path = [(x * k, y * k) for x, y in d["path"]]
        self.depths = [z * k for z in d["depths"]]
        self.cut = d["cut"] * k
        self.db = BAR[self.size]

    def points(self, step):
        """Points along the bar with their depth, ends and bends among them: the middles
        of balls as thick as the bar, which end where its flat ends are."""
        ends = len(self.path) - 2
        for i in range(len(self.path) - 1):
            (x0, y0), (x1, y1) = self.path[i], self.path[i + 1]
            z0, z1 = self.depths[i], self.depths[i + 1]
            l = math.dist((x0, y0), (x1, y1))
            n = max(1, math.ceil(l / step))
            off = min(self.db / 2 / l, 0.5) if l else 0
            for k in range(n + (i == ends)):
                t = max(k / n, off if i == 0 else 0)
                t = min(t, 1 - off) if i == ends else t
                yield (x0 + (x1 - x0) * t, y0 + (y1 - y0) * t), z0 + (z1 - z0) * t


class Wall:
    def __init__(self, d, k, drawn, plan):
        """drawn is a wall along a line of its own as the job file has it, None for one on an
        edge. Its running distances are from the one end, its bolts from the line."""
        self.drawn, self.line = drawn, None
        if drawn is not None:
            self.line = tuple(tuple(float(measure.job_length(v)) for v in drawn[end]) for end in ("from", "to"))
            self.doors = drawn.get("doors", [])
        elif d["loop"] == 0:
            at = plan.at
            self.line = at[d["edge"] - 1], at[d["edge"] % plan.n]
            self.doors = plan.edges[d["edge"] - 1].get("doors", [])
        self.name, self.loop, self.edge, self.plate = d["name"], d["loop"], d["edge"] - 1, d["plate"]
        self.length = d["length"] * k
        self.pieces = [(p["from"] * k, p["to"] * k, [(x * k, y * k) for x, y in p["outline"]]) for p in d["pieces"]]
        self.bolts = [Bolt(b, k) for b in d["bolts"]]


class Bolt:
    def __init__(self, d, k):
        self.mark, self.along, self.at = d["mark"], d["along"] * k, (d["at"][0] * k, d["at"][1] * k)
        self.builder, self.holddown = d.get("builder", False), d.get("holddown", False)
        self.rise = d.get("rise", 0) * k  # of the curb that it stands in


class Placed:
    """One slab with all that is placed on it."""

    def __init__(self, job, number, d, k):
        self.job, self.plan = job, Slab(job, number)
        self.number = number
        self.bars = [Bar(b, k) for b in d["bars"]]
        own = iter(self.plan.data.get("walls", []))
        self.walls = [Wall(w, k, next(own) if w["loop"] < 0 else None, self.plan) for w in d["walls"]]
        self.dowels = [{"edge": w["edge"] - 1, "along": w["along"] * k, "at": _p(w["at"], k), "outer": _p(w["outer"], k), "inner": _p(w["inner"], k), "depth": w["depth"] * k} for w in d["dowels"]]
        self.forms = [dict(f, edge=f["edge"] - 1, **{n: [v * k for v in f[n]] for n in ("boards", "stakes", "kickers")}, length=f["length"] * k, depth=f["depth"] * k, up=f.get("up", 0) * k, fall=f.get("fall", 0) * k, boardsat=[[_p(q, k) for q in r] for r in f["boardsat"]]) for f in d["forms"]]
        self.sawcuts = [(_p(c["a"], k), _p(c["b"], k), c["depth"] * k, c["why"]) for c in d["sawcuts"]]
        self.meetings = [dict(m, **{n: m[n] * k for n in ("from", "to")}) for m in d["meetings"]]
        self.mesh = [[_p(q, k) for q in ring] for ring in d["mesh"]]
        self.lines = [[[_p(q, k) for q in run] for run in l["runs"]] for l in d["lines"]]
        self.outs = [Polygon([_p(q, k) for q in o["ring"]]) for o in d.get("blockouts", [])]
        c = d.get("curbs")
        self.curbs = c and dict(c, levels=[dict(l, rings=[[_p(q, k) for q in r] for r in l["rings"]]) for l in c["levels"]])
        self.frost = [Polygon([_p(q, k) for q in ring]) for ring in (d.get("frost") or {}).get("lying", [])]
        self.joint_lines = [[(_p(a, k), _p(b, k)) for a, b in j["lines"]] for j in d["construction"]]
        self.joints = [(_p(a, k), _p(b, k)) for j in d["construction"] for a, b in j["lines"]]  # between pours


def _p(p, k):
    return p[0] * k, p[1] * k


class Finding:
    def __init__(self, d):
        self.rule, self.source, self.text = d["rule"], d["source"], d["text"]
        self.severe = d.get("severity") in ("severe", "limit")
        self.at = tuple(float(measure.job_length(v)) for v in d["at"])
        self.places = [self.at] + [tuple(float(measure.job_length(v)) for v in p) for p in d.get("also", [])]

    def says(self, words):
        return re.search(words, self.rule + ". " + self.text, re.I) is not None


class Job:
    def __init__(self, folder):
        with open(os.path.join(folder, "job.json"), encoding="utf-8") as f:
            self.job = names.spoken(json.load(f))
        with open(os.path.join(folder, "takeoff.json"), encoding="utf-8") as f:
            self.takeoff = json.load(f)
        with open(os.path.join(folder, "options.json"), encoding="utf-8") as f:
            self.must_tell = json.load(f).get("told")
        self.metric = self.job.get("units") == "mm"
        k = 1 / INCH if self.takeoff["lengthunit"] == "mm" else 1.0
        self.slabs = [Placed(self.job, i, d, k) for i, d in enumerate(self.takeoff["slabs"])]
        self.findings = [Finding(d) for d in self.takeoff["findings"]]
        self.cutting = [dict(c, bought=c["bought"] * k, bound=c["bound"] * k,
                             stock=[dict(s, length=s["length"] * k, pieces=[(p["mark"], p["length"] * k) for p in s["pieces"]]) for s in c["stock"]])
                        for c in self.takeoff["cutting"]]

    def told(self, words, at, reach):
        """Whether a finding speaks of it near the place."""
        return any(f.says(words) and math.dist(p, at) <= reach for f in self.findings for p in f.places)

    def of(self, path):
        return setting(self.job, path)

    def length(self, path):
        return length_of(self.job, path)
