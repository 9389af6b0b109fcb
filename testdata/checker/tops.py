"""How the finished top of a slab falls: its planes, and what lies under each."""

import math
from itertools import combinations

from shapely.geometry import Polygon

from measure import job_length as J


def planes(plan):
    """Each plane of the top as (a, b, c): its height is a x + b y + c; none for a level top.

    A fall drops evenly on the way from its high to its low end, where it is at 0; beyond a line at
    which the top breaks lies the plane before it, dropped by so much for each inch off the line."""
    out = []
    for f in plan.data.get("top", {}).get("falls", []):
        (x0, y0), (x1, y1) = (tuple(float(J(v)) for v in f[k]) for k in ("from", "to"))
        l2 = (x1 - x0) ** 2 + (y1 - y0) ** 2
        d = float(J(f["drop"]))
        a, b = -d * (x1 - x0) / l2, -d * (y1 - y0) / l2
        out.append((a, b, -a * x1 - b * y1))
    if not out and plan.breaks():
        out.append((0.0, 0.0, 0.0))
    for (x0, y0), (x1, y1), slope in plan.breaks():
        l = math.dist((x0, y0), (x1, y1))
        u, v = -(y1 - y0) / l, (x1 - x0) / l  # to the left of the line
        first = out[0]
        out.append((first[0] - slope * u, first[1] - slope * v, first[2] + slope * (u * x0 + v * y0)))
    return out


def cells(plan, region):
    """The parts of a region within which the top is one plane, with that plane."""
    far = 1e6
    parts = [region]
    all_ = planes(plan)
    for p, q in combinations(all_, 2):
        a, b, c = (m - n for m, n in zip(p, q))
        g = math.hypot(a, b)
        if g < 1e-12:
            continue
        x, y = -a * c / g / g, -b * c / g / g  # on the line where they meet
        u, v = a / g, b / g
        half = Polygon([(x - v * far, y + u * far), (x + v * far, y - u * far), (x + v * far + u * far, y - u * far + v * far), (x - v * far + u * far, y + u * far + v * far)])
        parts = [s for t in parts for s in (t.intersection(half), t.difference(half)) if s.area > 1e-9]
    for t in parts:
        for g in getattr(t, "geoms", [t]):
            if g.area > 1e-9:
                at = g.representative_point().coords[0]
                h = plan.top(at)
                yield g, min(all_, key=lambda p: abs(p[0] * at[0] + p[1] * at[1] + p[2] - h))


def highest(plan, region):
    """The highest place of the top in a region: at a corner of it, or of the part of a plane."""
    return max(p[0] * x + p[1] * y + p[2] for g, p in cells(plan, region) for x, y in g.exterior.coords)
