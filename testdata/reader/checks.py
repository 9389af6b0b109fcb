"""What must hold between the documents of a job, and between them and the job.

Each check yields (kind, text): the kind names the fault, the text says where."""

import math
import re
from collections import Counter
from fractions import Fraction

import documents
import measure
import paper
import patterns
import slab as slabs
from slab import J, Slab, length_of, setting

CHECKS = []


def check(f):
    CHECKS.append(f)
    return f


# ---- (a) what two documents show must be equal in both

@check
def same_everywhere(d, f):
    for key, said in sorted(f.of.items(), key=lambda kv: str(kv[0])):
        said = [(a, w) for a, w in said if a is not None]
        if len(said) < 2:
            continue
        first = said[0]
        for a, w in said[1:]:
            if isinstance(a, str) or isinstance(first[0], str):
                if a != first[0]:
                    yield "differs." + kind_of(key), "%s: %r in %s, %r in %s" % (name_of(key), first[0], first[1], a, w)
                    break
            elif not a.same(first[0]):
                yield "differs." + kind_of(key), "%s: %r in %s, %r in %s" % (name_of(key), first[0], first[1], a, w)
                break


def kind_of(key):
    kind = key[0].replace(" ", "-")
    if key[0] == "line":
        return "line"
    last = key[-1] if len(key) > 1 and isinstance(key[-1], str) else ""
    if key[0] in ("bar", "bolt", "plate", "dowel", "form", "height", "pour") and last:
        return kind + "-" + re.sub(r" \d+$", "", last).replace(" ", "-")
    return kind


def name_of(key):
    return " ".join(str(k) for k in key)


@check
def one_name(d, f):
    """The same name for the same line, everywhere."""
    names = {l.name for l in d.lines}
    for key, said in f.of.items():
        if key[0] in ("order text", "stray line"):
            yield "name.line", "%r in %s is no line of the takeoff" % (key[1], said[0][1])
    for row in d.book.get("Order", []):
        if isinstance(row.get("B"), (int, float)) and isinstance(row.get("E"), (int, float)) and row.get("A") not in names and not re.fullmatch(patterns.MIX, str(row.get("A"))):
            yield "name.book", "%r in the workbook, Order, is no line of the takeoff" % row.get("A")
    # Rows of the other sheets that hold a line's value, and none of them its name. Two
    # lines may be equal, and a part of the concrete, above its sum, be so by chance.
    exact = {}
    for l in d.lines:
        if abs(l.value - round(l.value)) > 1e-9:
            exact.setdefault((round(l.value, 6), l.unit), []).append(l.name)
    for title in ("Concrete", "Steel", "Forms", "Bolts and dowels"):
        other, named = {}, set()
        rows = d.book.get(title, [])
        total = next((i for i, r in enumerate(rows) if r.get("A") == "Concrete in place"), 0)
        for row in rows[total:]:
            texts = [v for v in row.values() if isinstance(v, str)]
            for v in row.values():
                for key in {(round(v, 6), u) for u in texts} & exact.keys() if isinstance(v, float) else ():
                    if any(name in t for name in exact[key] for t in texts):
                        named.add(key)
                    elif isinstance(row.get("A"), str):
                        other.setdefault(key, row["A"])
        for key in other.keys() - named:
            yield "name.book", "%r of the takeoff is %r in the workbook, %s" % (exact[key][0], other[key], title)
    text = all_text(d)
    for thing, words in patterns.ONE_NAME:
        used = [w for w in words if re.search(w, text, re.I)]
        if len(used) > 1:
            yield "name." + thing.replace(" ", "-"), "called in %d ways: %s" % (len(used), ", ".join(re.search(w, text, re.I)[0] for w in used))
    bid = "\n".join(t.text for p in d.bid for t in paper.paragraphs(p.pieces)).lower()
    for k, word in patterns.BID_WORDS:
        used = [l for l in d.lines if re.fullmatch(k, l.kind) and l.value > 0]
        if used and not re.search(word, bid):
            yield "name.bid", "the bid has no item that is called as %r is" % used[0].name


def all_text(d):
    return "\n".join([t.text for p in d.pages + d.bid for t in paper.paragraphs(p.pieces)] + [l.name for l in d.lines] +
                     [str(v) for rows in d.book.values() for r in rows for v in r.values() if isinstance(v, str)])


@check
def heights_of_slabs(d, f):
    """A slab's top in the list of slabs and on the drawing."""
    for i, called in enumerate(d.slab_names()):
        listed = f.get(("slab top", called))
        if listed is None:
            continue
        for p in d.pages:
            name = next((q for q in p.pieces if q.text == called and q.y < p.height * 0.8 and q.turn == 0), None)
            if name is None:
                continue
            for q in p.pieces:
                m = re.fullmatch(r"top (.*)", q.text)
                if m and abs(q.x - name.x) < 40 and 0 < q.y - name.y < 5 * q.em:
                    a = measure.length(m[1])
                    if a and not a.same(listed):
                        yield "differs.slab-height", "%s: %r in the list, %r on the drawing of sheet %d" % (called, listed, a, p.number)


# ---- (b) drawings against lists

@check
def drawn_as_listed(d, f):
    bolts = {k[1] for k in f.of if k[0] == "bolt"}
    bought = amount(d, "anchor bolt", "hold-down", "hold-down bolt")
    if bolts and len(bolts) != bought:
        yield "listed.bolts", "%d bolts in the tables, %g bought" % (len(bolts), bought)
    for layer, count, what in (("BOLT", len(bolts), "bolts"), ("PLATE", len({k for k in f.of if k[0] == "plate" and k[-1] == "length"}), "plates"),
                               ("STEEL", sum(int(f.get(k).value) for k in f.of if k[0] == "bar" and k[-1] == "pieces" and not k[1].startswith("DW")), "bars"),
                               ("FORM", len({k for k in f.of if k[0] == "form" and k[-1] == "length"}), "form boards"),
                               ("SAWCUT", 1 if amount(d, "saw cut") > 0 else 0, "saw cuts")):
        entities = d.dxf_layers.get(layer, [])
        if count and not entities:
            yield "drawn.dxf-" + what.replace(" ", "-"), "layer %s is empty, the lists have %d" % (layer, count)
        elif layer == "BOLT" and count:
            # A hold-down has a second ring about the same middle.
            drawn = len({(round(e.dxf.center.x, 4), round(e.dxf.center.y, 4)) for e in entities if e.dxftype() == "CIRCLE"})
            if drawn != count:
                yield "drawn.dxf-bolts", "%d drawn, %d listed" % (drawn, count)
    # Bars by mark: pieces of the schedule = pieces cut, in the sheets and in the workbook.
    cut, stock = cut_pieces(d)
    for source, pieces in cut.items():
        for key in [k for k in f.of if k[0] == "bar" and k[-1] == "pieces"]:
            want = f.get(key).value
            if pieces.get(key[1], 0) != want:
                yield "listed.bars-cut", "%s: %d in the schedule, %d in the cutting of the %s" % (key[1], want, pieces.get(key[1], 0), source)
    for l in d.lines:
        if l.kind in ("bar", "form board", "sill plate") and l.what.get("length"):
            name = shown_bar(l.what["bar"]) if l.kind == "bar" else l.what["size"]
            n = measure.length(l.what["length"])
            for source, sticks in stock.items():
                have = sum(c for (what, x), c in sticks.items() if what == name and x.same(n))
                if l.kind == "bar" and have != l.value:
                    yield "listed.stock", "%s: %g bought, %d cut in the %s" % (l.name, l.value, have, source)
    marks = {k[1] for k in f.of if k[0] == "bar" and not k[1].startswith("DW")}
    drawn = set()
    for p in d.pages:
        for q in p.pieces:
            if id(q) not in p.in_tables:
                for t in re.split(r",\s*|\s+", q.text):
                    drawn.add(t)
    for m in sorted(marks - drawn):
        yield "missing.bar-mark", "bar %s is in the schedule and on no drawing" % m


@check
def covers_drawn(d, f):
    """Pieces of foam, mesh and retarder drawn are those placed."""
    split = any(re.search(patterns.MATCH_LINE, q.text) for p in d.pages for q in p.pieces)
    for (what, i), n in f.pieces_drawn.items():
        of = d.takeoff["slabs"] if i is None else [d.takeoff["slabs"][i]]
        have = sum(len(s.get(what, [])) for s in of)
        if not split and n != have:
            yield "drawn." + what, "slab %d: %d pieces drawn, %d placed" % ((i or 0) + 1, n, have)


def shown_bar(size):
    """A bar as the documents call it: "No. 4", "Ø12"."""
    n = measure.bar(size) if isinstance(size, str) else size
    return "Ø%d" % (n - measure.MILLIMETERS) if n > measure.MILLIMETERS else "No. %d" % n


def cut_pieces(d):
    """Pieces by mark, and sticks, of the cutting lists: of the sheets and of the workbook."""
    pieces, sticks = {"sheets": Counter(), "workbook": Counter()}, {"sheets": Counter(), "workbook": Counter()}
    for p in d.pages:
        for t in p.paragraphs:
            text = t.text
            m = re.match(r"(\d+) × (No\. \d+|Ø\d+|\dx\d+) (%s)(?: from the yard)?: " % patterns.LEN, text)
            if m:
                number = int(m[1])
                sticks["sheets"][(m[2], _Key(measure.length(m[3])))] += number
                for q in re.finditer(r"(?:(\d+) × )?([A-Z]{1,2}\d+) %s" % patterns.LEN, text[m.end():]):
                    pieces["sheets"][q[2]] += number * int(q[1] or 1)
    for row in d.book.get("Steel", []):
        if isinstance(row.get("A"), str) and row["A"].startswith("Cut ") and isinstance(row.get("D"), (int, float)):
            n = int(row["D"])
            sticks["workbook"][(row.get("C"), _Key(measure.length(str(row.get("E")))))] += n
            for m in re.finditer(r"(?:(\d+) × )?([A-Z]{1,2}\d+) %s" % patterns.LEN, row.get("B", "")):
                pieces["workbook"][m[2]] += n * int(m[1] or 1)
    if not pieces["sheets"]:
        del pieces["sheets"], sticks["sheets"]
    return pieces, sticks


class _Key:
    """A printed length as a key of a count."""

    def __init__(self, a):
        self.a = a

    def __eq__(self, o):
        return self.a.value == o.a.value

    def __hash__(self):
        return hash(self.a.value)

    def same(self, o):
        return self.a.same(o)


@check
def drawings_alike(d, f):
    """The DXF and the SVG are the same drawing."""
    plain = lambda t: re.sub(r"[^\w'\"/ .,:]", "-", t.strip())
    a, b = Counter(plain(t) for _, t, _, _ in d.dxf_texts), Counter(plain(t) for t in d.svg_texts)
    for t in sorted((b - a)):
        yield "differs.drawing-text", "%r is in the SVG and not in the DXF" % t
    for t in sorted((a - b)):
        yield "differs.drawing-text", "%r is in the DXF and not in the SVG" % t


@check
def outline_drawn(d, f):
    """The DXF's outline is the job's, in true size."""
    unit = 25.4 if d.metric else 1.0
    points = set()
    for e in d.dxf_layers.get("SLAB", []):
        if e.dxftype() == "LINE":
            points |= {(e.dxf.start[0], e.dxf.start[1]), (e.dxf.end[0], e.dxf.end[1])}
        elif e.dxftype() == "POLYLINE":
            points |= {(v.dxf.location[0], v.dxf.location[1]) for v in e.vertices}
        elif e.dxftype() == "LWPOLYLINE":
            points |= {(p[0], p[1]) for p in e.get_points()}
    for e in d.dxf_layers.get("JOINT", []):
        if e.dxftype() == "LINE":
            points |= {(e.dxf.start[0], e.dxf.start[1]), (e.dxf.end[0], e.dxf.end[1])}
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        for k, (x, y) in enumerate(s.at):
            if not any(math.hypot(px - x * unit, py - y * unit) < 0.01 for px, py in points):
                yield "drawn.dxf-outline", "corner %d of slab %d is not in the DXF" % (k + 1, i + 1)
    if "$INSUNITS" not in d.dxf.header or not d.dxf.header.get("$INSUNITS"):
        yield "drawn.dxf-units", "the DXF declares no units"


@check
def arcs_drawn(d, f):
    """Each arc of an outline is one in the DXF, by its bulge, the tangent of a quarter of its
    sweep; in the SVG there is one for each; and its radius, chord and middle ordinate stand on paper."""
    bulges = Counter()
    for e in d.dxf_layers.get("SLAB", []):
        if e.dxftype() == "POLYLINE":
            bulges.update(round(abs(v.dxf.bulge), 6) for v in e.vertices if v.dxf.bulge)
    text = printed(d)
    arcs = 0
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        for k in range(s.n):
            if not s.middle(k):
                continue
            arcs += 1
            chord, m = math.dist(s.at[k], s.at[(k + 1) % s.n]), abs(s.middle(k))
            if bulges[round(2 * m / chord, 6)] < 1:
                yield "drawn.arc", "slab %d, edge %d: no arc of bulge %.6f in the DXF" % (i + 1, k + 1, 2 * m / chord)
            bulges[round(2 * m / chord, 6)] -= 1
            for what, v in (("radius", s.arc(k)[1]), ("chord", chord), ("middle ordinate", m), ("length along it", s.length(k))):
                if not has(text, v, d.metric):
                    yield "missing.arc", "slab %d, edge %d: its %s %s is on no sheet" % (i + 1, k + 1, what, measure.shown(v, d.metric))
    if arcs and d.svg_arcs < arcs:
        yield "drawn.svg-arc", "%d arcs in the SVG, %d in the job" % (d.svg_arcs, arcs)


def embed_signs(e, close):
    """What an embed is drawn by: its rim, and the sign of its kind within it."""
    (x, y), w = e["at"], e["width"] / 2
    if e["length"]:
        turn = math.radians(e["turn"])
        corners = [(x + a * math.cos(turn) - b * math.sin(turn), y + a * math.sin(turn) + b * math.cos(turn))
                   for a, b in ((-w, -e["length"] / 2), (w, -e["length"] / 2), (w, e["length"] / 2), (-w, e["length"] / 2))]
        yield tuple(map(close, corners))
    else:
        corners = [(x - w, y), (x, y - w), (x + w, y), (x, y + w)]
        yield close((x, y))
    if e["kind"] == "stub-up":
        yield close((x, y))
    if e["kind"] in ("floor drain", "post base"):
        yield close(corners[0]), close(corners[2])
    if e["kind"] == "floor drain":
        yield close(corners[1]), close(corners[3])


@check
def placed_in_both(d, f):
    """What takeoff.json places stands on its layer of the DXF, at the same place, and nothing else does."""
    close = lambda p: (round(p[0], 2), round(p[1], 2))
    for layer in ("BOLT", "PLATE", "DOWEL", "STEEL", "SAWCUT", "FORM", "EMBED", "LINE", "FROST", "BLOCKOUT", "CURB", "CONSTRUCTION"):
        want, have = Counter(), Counter()
        for s in d.takeoff["slabs"]:
            if layer == "BOLT":
                want.update(close(b["at"]) for w in s["walls"] for b in w["bolts"] for _ in range(2 if b.get("holddown") else 1))
            if layer == "PLATE":
                want.update(tuple(map(close, p["outline"])) for w in s["walls"] for p in w["pieces"])
            if layer == "DOWEL":
                want.update((close(w["outer"]), close(w["inner"])) for w in s["dowels"])
            if layer == "STEEL":
                want.update(tuple(map(close, b["path"])) for b in s["bars"])
            if layer == "SAWCUT":
                want.update((close(c["a"]), close(c["b"])) for c in s["sawcuts"])
            if layer == "CONSTRUCTION":
                want.update(tuple(map(close, l)) for j in s["construction"] for l in j["lines"] + j["dowels"])
            if layer == "LINE":
                want.update(tuple(map(close, run)) for l in s["lines"] for run in l["runs"])
            if layer == "BLOCKOUT":
                want.update(close(o["at"]) if o["shape"] == "round" else tuple(map(close, o["ring"])) for o in s.get("blockouts", []))
            if layer == "CURB":
                want.update((close(x["a"]), close(x["b"])) for x in (s.get("curbs") or {}).get("faces", []))
            if layer == "FROST":
                want.update(tuple(map(close, ring)) for of in (s.get("frost") or {}).values() for ring in of)
            if layer == "EMBED":
                want.update(x for e in s["embeds"] for x in embed_signs(e, close))
            if layer == "FORM":
                want.update(tuple(map(close, b)) for m in s["forms"] for b in m["boardsat"])
                want.update(close(p) for m in s["forms"] for p in m["stakesat"] + m["kickersat"])
        for e in d.dxf_layers.get(layer, []):
            if e.dxftype() == "CIRCLE":
                have[close(e.dxf.center)] += 1
            elif e.dxftype() == "POLYLINE" and e.dxf.linetype == "CONTINUOUS":
                have[tuple(close(v.dxf.location) for v in e.vertices)] += 1
        near = lambda a, b: len(a) == len(b) and (isinstance(a[0], float) and math.dist(a, b) < 0.03 or not isinstance(a[0], float) and all(math.dist(p, q) < 0.03 for p, q in zip(a, b)))
        for what in (want - have):
            if not any(near(what, x) for x in have):
                yield "differs.placed", "layer %s of the DXF has nothing at %s" % (layer, what)
        for what in (have - want):
            if not any(near(what, x) for x in want):
                yield "differs.placed", "layer %s of the DXF has %s, takeoff.json nothing there" % (layer, what)
        if sum(want.values()) != sum(have.values()):
            yield "differs.placed", "layer %s of the DXF has %d things, takeoff.json %d" % (layer, sum(have.values()), sum(want.values()))


# ---- (c) what must stand on paper

def printed(d):
    """Every length that stands on the sheets, with how often."""
    if not hasattr(d, "printed"):
        d.printed = Counter(a.value for p in d.pages for q in p.pieces for a in measure.lengths(q.text))
    return d.printed


def has(counts, value, metric):
    want = measure.printed(Fraction(value).limit_denominator(10 ** 9), metric)
    return any(abs(v - want.value) <= want.half * Fraction(1000001, 1000000) and n > 0 for v, n in counts.items())


class Plan:
    """A slab as drawn on a page, to ask what stands near a place."""

    def __init__(self, page, slab, scale, x, y):
        self.page, self.slab, self.scale, self.x, self.y = page, slab, scale, x, y
        self.lengths = [(q, a) for q in page.pieces if id(q) not in page.in_tables for a in measure.lengths(q.text)]

    def near(self, a, b, value, metric, reach=130, ends=18, out=0):
        """Whether a length stands beside the stretch of the plan from a to b: so far off it, and
        out inches of the plan farther on its right."""
        half = float(measure.MM / 2 if metric else Fraction(1, 32)) * 1.000001
        ax, ay = self.x + a[0] * self.scale, self.y - a[1] * self.scale
        bx, by = self.x + b[0] * self.scale, self.y - b[1] * self.scale
        l = math.hypot(bx - ax, by - ay) or 1.0
        ux, uy = (bx - ax) / l, (by - ay) / l
        for q, v in self.lengths:
            if abs(float(v.value) - value) <= half:
                along = (q.x - ax) * ux + (q.y - ay) * uy
                off = -(q.x - ax) * uy + (q.y - ay) * ux
                if -ends <= along <= l + ends and -reach <= off <= reach + out * self.scale:
                    return True
        return False


def plans(d):
    if not hasattr(d, "plans"):
        d.plans = []
        for p in d.pages:
            scale = None
            for q in p.pieces:
                m = re.match(patterns.SCALE, q.text)
                if m:
                    if m["ratio"]:
                        scale = 72.0 / float(m["ratio"])
                    else:
                        scale = 72.0 * float(measure.length(m["paper"]).value / measure.length(m["site"]).value)
            if scale:
                where = range(len(d.slabs())) if p.slab is None else [p.slab]
                for i, k, x, y in paper.plans(p, [(i, Slab(d.job, i).at) for i in where], scale):
                    d.plans.append(Plan(p, i, k, x, y))
    return d.plans


def mouth(s, k):
    """How far the sides beside an edge run out square from it, as those of a bay or a notch do:
    what is measured there from one of them to the other, or past the edge's end, is its length."""
    a, b, c, e = (s.at[(k + i) % s.n] for i in (-1, 0, 1, 2))
    u = (c[0] - b[0], c[1] - b[1])
    out = lambda v: math.hypot(*v) if abs(v[0] * u[0] + v[1] * u[1]) <= 2e-3 * math.hypot(*u) * math.hypot(*v) and u[0] * v[1] - u[1] * v[0] < 0 else 0
    return max(out((a[0] - b[0], a[1] - b[1])), out((e[0] - c[0], e[1] - c[1])))


@check
def dimensions(d, f):
    show = lambda v: measure.shown(v, d.metric)
    everything = "\n".join(t.text for p in d.pages for t in p.paragraphs)
    rows = "\n".join(("door " if t.kind == "opening" else "") + " | ".join(c or "" for c in r) for p in d.pages for t in p.tables for r in t.rows)
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        drawn = [p for p in plans(d) if p.slab == i]
        split = any(re.search(patterns.MATCH_LINE, q.text) for p in d.pages for q in p.pieces)
        if not drawn and not split:
            yield "unread.plan", "slab %d is found on no sheet" % (i + 1)
            continue
        on = lambda k, t: (s.at[k][0] + (s.at[(k + 1) % s.n][0] - s.at[k][0]) * t / s.length(k), s.at[k][1] + (s.at[(k + 1) % s.n][1] - s.at[k][1]) * t / s.length(k))
        stands = lambda k, u, v, value, out=0: any(p.near(on(k, u), on(k, v), value, d.metric, out=out) for p in drawn) or not drawn and has(printed(d), value, d.metric)
        for k in range(s.n):
            if s.middle(k):
                continue  # see arcs_drawn
            if not stands(k, 0, s.length(k), s.length(k), mouth(s, k)):
                side = "%d–%d" % (k + 1, (k + 1) % s.n + 1)
                if not any(side in line and together(line, [s.length(k)], d.metric) for line in rows.split("\n")):
                    yield "missing.edge-length", "slab %d, edge %d: %s does not stand along it" % (i + 1, k + 1, show(s.length(k)))
            doors = sorted(s.edges[k].get("doors", []), key=lambda x: J(x["from"]))
            at = 0.0
            for n, door in enumerate(doors):
                a, w = float(J(door["from"])), float(J(door["width"]))
                nxt = float(J(doors[n + 1]["from"])) if n + 1 < len(doors) else s.length(k)
                called = door.get("name") or ""
                in_row = lambda v: any((called and called in line or re.search(r"\bdoors?\b", line)) and together(line, [v], d.metric) for line in rows.split("\n"))
                if not stands(k, a, a + w, w) and not in_row(w) and not any(re.search(r"\bopening\b|\bdoor\b", line) and together(line, [w], d.metric) for line in everything.split("\n")):
                    yield "missing.door-width", "slab %d, edge %d, door %d: %s" % (i + 1, k + 1, n + 1, show(w))
                # Its place: from the corner, from what is before it, or from what is after it.
                ways = [(0, a, a), (at, a, a - at), (a + w, nxt, nxt - a - w), (a + w, s.length(k), s.length(k) - a - w)]
                if a > 0.05 and not any(v > 0.05 and stands(k, u, t, v) for u, t, v in ways) and not in_row(a):
                    yield "missing.door-place", "slab %d, edge %d, door %d: %s from the corner" % (i + 1, k + 1, n + 1, show(a))
                at = a + w
        for kind, things in (("pad", s.data.get("pads", [])), ("strip", s.data.get("strips", [])), ("embed", s.data.get("embeds", [])), ("line", s.data.get("lines", [])), ("hole", s.data.get("holes", []))):
            for n, x in enumerate(things):
                yield from thing(d, f, s, i, kind, n, x, everything)


def together(text, values, metric):
    """Whether one paragraph of a text holds all the lengths."""
    for line in text.split("\n"):
        c = Counter(a.value for a in measure.lengths(line))
        if all(has(c, v, metric) for v in values):
            return True
    return False


def thing(d, f, s, i, kind, n, x, text):
    where = "slab %d, %s %d%s" % (i + 1, kind, n + 1, " (%s)" % x["name"] if x.get("name") else "")
    rows = "\n".join(" ".join(c or "" for c in r) for p in d.pages for t in p.tables if t.kind == "place" for r in t.rows)
    if kind == "pad":
        size = [float(J(x["width"])), float(J(x["length"])), float(J(x["depth"]))]
        points = [tuple(float(J(v)) for v in x["center"])]
    elif kind == "embed":
        size = [float(J(x[k])) for k in ("width", "length", "deep") if k in x]
        points = [tuple(float(J(v)) for v in x["center"])]
    elif kind == "line":
        size = [float(J(x[k])) for k in ("diameter", "height") if k in x]
        points = [tuple(float(J(v)) for v in p) for p in x["path"]]
        covers = [float(J(x[k])) for k in ("cover", "endcover", "spacing") if k in x]
        if not all(has(printed(d), v, d.metric) for v in covers):  # of several kinds, in lines of their own
            yield "missing.line-depth", "%s: %s down" % (where, ", ".join(measure.shown(v, d.metric) for v in covers))
        long = sum(math.dist(p, q) for p, q in zip(points, points[1:]))
        if x["kind"] == "tubing":  # by two corners: rows along the longer side, half a spacing off the rim
            w, h = sorted((abs(points[0][0] - points[1][0]), abs(points[0][1] - points[1][1])), reverse=True)
            spacing, lead, most = (float(J(x[k])) for k in ("spacing", "lead", "longest"))
            n = math.floor(h / spacing + 1e-6)
            laid = n * (w - spacing) + (n - 1) * spacing
            long = laid + math.ceil(laid / (most - lead) - 1e-9) * lead
            points = []  # its corners are set out, of which two are typed
        mine = [l["length"] for l in d.takeoff["slabs"][i]["lines"] if l["kind"] == x["kind"]]
        if not any(abs(v - long) < 0.1 for v in mine):
            yield "differs.line-length", "%s: %s are laid, by hand %.2f" % (where, mine, long)
    elif kind == "strip":
        size = [float(J(x["bottom"])), float(J(x["depth"]))]
        points = [tuple(float(J(v)) for v in p) for p in x["path"]]
    else:
        ring = [tuple(float(J(v)) for v in e["at"]) for e in x["edges"]]
        size = [math.dist(ring[0], ring[1]), math.dist(ring[1], ring[2])]
        points = ring
    if not together(text, size, d.metric) and not together(rows, size, d.metric):
        yield "missing.%s-size" % kind, "%s: %s" % (where, " × ".join(measure.shown(v, d.metric) for v in size))
    for p in points:
        a, b = s.along(p)
        if not together(rows, [a, b], d.metric) and not together(text, [a, b], d.metric):
            yield "missing.%s-place" % kind, "%s: %s along the first edge and %s off it" % (where, measure.shown(a, d.metric), measure.shown(b, d.metric))
            break


@check
def section_depths(d, f):
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        used = {e.get("section") for e in s.edges} | {x.get("section") for e in s.edges for x in e.get("doors", [])}
        for name in used & set(s.sections):
            if not has(printed(d), s.depth(name), d.metric):
                yield "missing.section-depth", "slab %d, %s: %s" % (i + 1, name, measure.shown(s.depth(name), d.metric))
            listed = [k for k in f.of if k[0] == "edge section" and k[2] == "name" and f.get(k) == name]
            if s.data.get("trench") != "board" and listed and not any(abs(float(f.get(("edge section", k[1], "depth")).value) - s.depth(name)) < 0.04 for k in listed):
                yield "wrong.section-depth", "slab %d, %s is listed as %r deep" % (i + 1, name, f.get(("edge section", listed[0][1], "depth")))


@check
def heights(d, f):
    """Tops at the corners follow the falls; digging goes under the base."""
    base = length_of(d.job, "spec.base.gravel") + length_of(d.job, "spec.base.foam")
    under = lambda s, deep: base if base_under_haunches(d) or deep <= s.field + 1e-6 else 0.0
    step = 0.04 if not d.metric else 0.025
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        first = f.get(("height", i, 1, "top"))
        for k in range(s.n):
            top, dig = f.get(("height", i, k + 1, "top")), f.get(("height", i, k + 1, "dig to"))
            if top is not None and first is not None:
                want = s.top(s.at[k]) - s.top(s.at[0])
                if abs(float(top.value - first.value) - want) > 2 * step:
                    yield "wrong.height", "slab %d, corner %d: %r, and %r at corner 1; the falls give %s between them" % (i + 1, k + 1, top, first, measure.shown(want, d.metric))
            if top is not None and dig is not None and s.data.get("trench") != "board":
                want = s.corner_depth(k) + under(s, s.corner_depth(k))
                if s.data.get("base") == "level":
                    want += s.top(s.at[k]) - (min(map(s.top, s.at)) if s.breaks() else 0)
                if abs(float(top.value - dig.value) - want) > 2 * step:
                    yield "wrong.dig-to", "slab %d, corner %d: dug %s below its top, %s with what lies under it" % (
                        i + 1, k + 1, measure.shown(top.value - dig.value, d.metric), measure.shown(want, d.metric))
        yield from bends(d, f, s, i, first, step)
        yield from level_curbs(d, f, s, i, first, step)
        for k in range(s.n):
            key = ("form", i, k + 1)
            dig, board = f.get(key + ("dig below",)), f.get(key + ("board",))
            deep = f.get(key + ("deep",))
            if dig is None or board not in slabs.DRESSED or deep is None or s.data.get("trench") == "board" or setting(d.job, "spec.place.forms.rip"):
                continue
            want = max(float(deep.value) + under(s, float(deep.value)) - slabs.DRESSED[board], 0)
            if abs(float(dig.value) - want) > 2 * step:
                yield "wrong.dig-below", "slab %d, edge %d: %r below a %s, %s with what lies under an edge %r deep" % (
                    i + 1, k + 1, dig, board, measure.shown(want, d.metric), deep)


@check
def trenches(d, f):
    """Each edge section is dug to its depth and what lies under it, the field likewise."""
    base = length_of(d.job, "spec.base.gravel") + length_of(d.job, "spec.base.foam")
    step = 0.04 if not d.metric else 0.025
    tables = [t for p in d.pages for t in p.tables if t.kind == "trench"]
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        rows = [r for t in tables if t.slab in (i, None) for r in t.rows if r[0] and r[4]]
        want = {"field": s.field + base}
        for name in {e.get("section") for e in s.edges} & set(s.sections):
            if s.data.get("trench") != "board":
                want[name] = s.depth(name) + (base if base_under_haunches(d) or s.depth(name) <= s.field + 1e-6 else 0.0)
        for name, deep in want.items():
            got = [measure.length(r[4]) for r in rows if re.fullmatch(r"(?:[A-Z]{1,2} )?" + re.escape(name), r[0])]
            if not any(a and abs(float(a.value) - deep) < step for a in got):
                yield "wrong.trench", "slab %d, %s: dug %s, %s expected" % (i + 1, name, got, measure.shown(deep, d.metric))


def base_under_haunches(d):
    """Whether the base is bought under the haunches too."""
    return "haunch" in setting(d.job, "spec.base.under")


def amount(d, *kinds):
    """How much the takeoff has of some kinds in all."""
    return sum(l.value for l in d.lines if l.kind in kinds)


@check
def base_bought(d, f):
    """Base is bought where it lies: under haunches its area follows their slopes."""
    area, slab_area = amount(d, "base area"), amount(d, "slab area")
    if not area:
        return
    sloped = any(float(J(x.get("taper", "0"))) > 0 for i in range(len(d.slabs())) for x in Slab(d.job, i).sections.values() if x["name"] in
                 {e.get("section") for e in Slab(d.job, i).edges})
    if base_under_haunches(d) and sloped and area <= slab_area * (1 + 1e-9):
        yield "wrong.base-area", "%.2f under a slab of %.2f: the slopes of the haunches are not in it" % (area, slab_area)
    if not base_under_haunches(d) and area > slab_area * (1 + 1e-9):
        yield "wrong.base-area", "%.2f under a slab of %.2f, of which only the field has a base" % (area, slab_area)


@check
def block_outs(d, f):
    """Each block-out round a column is told by its shape and size, and bags to fill them are bought."""
    n = 0
    for i in range(len(d.slabs())):
        for k, p in enumerate(Slab(d.job, i).data.get("pads", [])):
            if p.get("isolation", "none") == "none":
                continue
            n += 1
            said = [measure.length(m) for m in re.findall(r"block-out %s, (%s)" % (p["isolation"], measure.LENGTH), all_text(d))]
            if "blockout" in p and not any(a and abs(float(a.value) - float(J(p["blockout"]))) < 0.04 for a in said):
                yield "missing.block-out", "slab %d, pad %d: %s %s" % (i + 1, k + 1, p["isolation"], p["blockout"])
    if bool(n) != bool(amount(d, "bagged concrete")):
        yield "listed.block-outs", "%d block-outs, %g bags" % (n, amount(d, "bagged concrete"))


def level_curbs(d, f, s, i, first, step):
    """Level tops of curbs are listed as one height each: that of the edge over the highest place of
    the top, which of an outline of straight edges whose falls meet in a valley is a corner."""
    top = s.data.get("top", {})
    if top.get("curbs") != "level" or first is None or s.breaks() or top.get("meet", "valley") != "valley" or any(s.middle(k) for k in range(s.n)):
        return
    high = max(s.top(p) for p in s.at) - s.top(s.at[0]) + float(first.value)
    for k, e in enumerate(s.edges):
        h, listed = float(J(e.get("curb", "0"))), f.get(("height", i, "curb %d–%d" % (k + 1, (k + 1) % s.n + 1)))
        if h and listed is not None and abs(float(listed.value) - high - h) > 2 * step:
            yield "wrong.curb-top", "slab %d, edge %d: %r, %.2f over %.2f in" % (i + 1, k + 1, listed, h, high)


@check
def curbs(d, f):
    """Each height and width of a curb is told on the sheets with its section; concrete of curbs is
    taken off where an edge has one, and what hangs their boards is bought."""
    n = 0
    text = all_text(d)
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        joined = [m for m in d.takeoff["slabs"][i]["meetings"] if m["other"] <= i]  # those after it meet its curb as it stands
        for k, e in enumerate(s.edges):
            h = float(J(e.get("curb", "0")))
            if not h or e.get("joint") or any(m["loop"] == 0 and m["edge"] == k + 1 for m in joined):
                continue
            n += 1
            w = float(J(e.get("curbwidth", "0"))) or 6.0
            level = s.data.get("top", {}).get("curbs") == "level" and (s.breaks() or any(float(J(x["drop"])) for x in s.data["top"].get("falls", [])))
            # A level curb is so high over the highest place of a top that falls, another over the top beside it.
            over, lead = ("the highest place of the top", r"(?:on [^:;]*: |level, )") if level else ("the top", r"(?:on [^:;]*: )?")
            said = [(measure.length(a), measure.length(b)) for a, b in re.findall(r"curb %s(%s) above %s, (%s) wide" % (lead, measure.LENGTH, over, measure.LENGTH), text)]
            if not any(a and b and abs(float(a.value) - h) < 0.04 and abs(float(b.value) - w) < 0.04 for a, b in said):
                yield "missing.curb", "slab %d, edge %d: %.2f by %.2f in; there are %s" % (i + 1, k + 1, h, w, said)
    if n and not (amount(d, "concrete in curbs") and amount(d, "form hanger")):
        yield "listed.curbs", "%d edges with a curb, %g of concrete, %g hangers" % (n, amount(d, "concrete in curbs"), amount(d, "form hanger"))
    bid = " ".join(t.text for p in d.bid for t in paper.paragraphs(p.pieces))
    long = [float(measure.length(x).value) for x in re.findall(r"\bcurb [^;]*? wide, (%s) long" % measure.LENGTH, bid)]
    listed = amount(d, "curb length") * (1 / 0.0254 if d.metric else 12)
    if d.bid and abs(sum(long) - listed) > 0.1 * len(long) + 0.07:
        yield "wrong.curb-length", "the bid says %s, listed are %.2f in" % (long, listed)


@check
def frost_foam(d, f):
    """Insulated edges of a heated building are told on the sheets: thickness and height, and
    how thick, wide and deep the wings lie; of other buildings none is."""
    base = lambda k: length_of(d.job, "spec.base." + k)
    heated = setting(d.job, "spec.base.building") == "heated" and base("upright") > 0 and base("uprightdeep") > 0
    text = "\n".join(t.text for p in d.pages for t in p.paragraphs)
    if not heated:
        if re.search(r"frost foam", text):
            yield "paper.frost-foam", "the sheets tell of frost foam and none is laid"
        return
    wants = [(r"frost foam (%s) upright", "upright"), (r"frost foam %s upright, (%s) high" % (measure.LENGTH, "%s"), "uprightdeep")]
    if base("wing") > 0 and base("wingwidth") > 0:
        wants += [(r"(%s) lying, ", "wing"), (r"lying, (%s) out", "wingwidth"), (r"out, (%s) below the ground", "wingdeep")]
    for pattern, k in wants:
        said = [measure.length(m) for m in re.findall(pattern % measure.LENGTH, text)]
        if not any(a and abs(float(a.value) - base(k)) < 0.04 for a in said):
            yield "missing.frost-foam", "%s is %s; the sheets say %s" % (k, measure.shown(base(k), d.metric), said)


@check
def frost(d, f):
    """Frost depth counts from the ground outside: IRC R403.1.4."""
    depth = d.options.get("frost")
    if not depth:
        return
    want = float(J(depth))
    above = length_of(d.job, "spec.base.above")
    verdicts = {}
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        high = above + float(J(s.data.get("height", "0")))
        for name in {e.get("section") for e in s.edges} & set(s.sections):
            reach, asked = s.depth(name) - high, want
            if setting(d.job, "spec.base.building") == "heated" and length_of(d.job, "spec.base.upright") > 0 and length_of(d.job, "spec.base.uprightdeep") > 0 and not s.data.get("unheated") and not any(
                    x["kind"] == "overhead" for e in s.edges for x in e.get("doors", [])):
                asked = min(want, max(12, length_of(d.job, "spec.base.shallow")))  # IRC R403.3, R403.1.4
            falls = s.data.get("top", {}).get("falls", [])
            parted = len(falls) > 1 and s.data["top"].get("meet") == "ridge"  # the lowest place is a corner, the highest of an edge may lie on it
            if (s.breaks() or len(falls) == 1 or parted) and s.data.get("base") != "level":  # the edges rise with the top
                low, parts = min(map(s.top, s.at)), 480 if parted else 1
                on = lambda k, n: tuple(p + (q - p) * n / parts for p, q in zip(s.at[k], s.at[(k + 1) % s.n]))
                reach -= max([s.top(on(k, n)) - low for k, e in enumerate(s.edges) for n in range(parts + 1) if e.get("section") == name])
            verdicts.setdefault(name, set()).add(reach >= asked - 1e-9)
    for name, oks in verdicts.items():
        said = [a for k, v in f.of.items() if k[0] == "frost" and k[2] == "verdict" and re.fullmatch(r"(?:[A-Z]{1,2} )?" + re.escape(name), k[1])
                for a, w in v if w.startswith("sheet")]
        for v in said:
            if oks == {False} and v == "reaches it":
                yield "wrong.frost", "%s: the sheet says it reaches %s; from the ground outside it does not" % (name, depth)
            if oks == {True} and v != "reaches it":
                yield "wrong.frost", "%s: the sheet says %s; from the ground outside it reaches %s" % (name, v, depth)
    # The options of the workbook speak of the main edge.
    for row in d.book.get("Options", []):
        if row.get("A") == "Frost depth" and isinstance(row.get("B"), str):
            ok = not re.search(r"not reached|short", row["B"])
            sheet = {v == "reaches it" for k in f.of if k[0] == "frost" and k[2] == "verdict" for v, w in f.of[k]}
            if sheet and ok not in sheet:
                yield "differs.frost", "options: %r; sheet: %s" % (row["B"], "reached" if True in sheet else "not reached")


@check
def laps(d, f):
    """The lap printed is what the bars need, top bars too."""
    rows = setting(d.job, "spec.place.bars.rows")
    need = {}
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        for k in range(s.n):
            if s.edge_depth(k) <= s.field and not s.edges[k].get("section"):
                continue
            for r in rows:
                size = slabs.row_size(d.job, r)
                top = slabs.below(r, s.deepest(k), size) > 12
                need[(size, "top" if top else "bottom")] = slabs.lap(d.job, size, top)
    for (size, casting), v in sorted(need.items()):
        # Where both need the same, one line says it for both.
        said = [a for c in (casting, "bottom") for a, w in f.of.get(("lap", size, c), []) if w.startswith("sheet")]
        if said and abs(float(said[0].value) - v) > float(said[0].half) * 2 + 0.001:
            yield "wrong.lap", "%s, %s: %r is printed, %s is needed" % (shown_bar(size), casting, said[0], measure.shown(v, d.metric))
        elif not said and any(k[0] == "lap" for k in f.of):
            yield "missing.lap", "%s, %s: %s" % (shown_bar(size), casting, measure.shown(v, d.metric))


@check
def pours(d, f):
    """What each pour orders comes of its own part, its loads bring it, and all of them are
    the job's; every document tells of every pour."""
    of = lambda p, what: f.get(("pour", p, what))
    numbers = sorted({k[1] for k in f.of if k[0] == "pour"})
    for what, kind in (("net", "concrete in place"), ("order", "concrete"), ("trucks", "trucks")):
        parts, whole = [of(p, what) for p in numbers], f.get(("line", kind))
        if whole is not None and None not in parts:
            total = sum(float(a.value) for a in parts)
            if abs(total - float(whole.value)) > 1e-6 * max(1, total):
                yield "sum.pours", "%s of %d pours add up to %g, the job has %r" % (what, len(parts), total, whole)
    step, waste = Fraction(setting(d.job, "spec.order.step")), Fraction(setting(d.job, "spec.order.waste"))
    for p in numbers:
        net, order = of(p, "net"), of(p, "order")
        want = math.ceil(float(net.value) * float(1 + waste / 100) / float(step) - 1e-9) * float(step)
        if abs(float(order.value) - want) > 1e-9:
            yield "wrong.pour-order", "pour %d: %r for %r with %s %% of waste, by steps of %s it is %g" % (p, order, net, waste, step, want)
        for place in ("sheet", "workbook", "phone") if len(numbers) > 1 else ():
            for what in ("order", "day") if place != "phone" else ("order",):
                if f.get(("pour", p, what), place) is None:
                    yield "unread.pour-" + what, "pour %d: the %s does not tell it" % (p, place)
        for where in ("takeoff.json", "sheet", "phone"):
            loads = {k[2]: f.get(k, where) for k in f.of if k[0] == "load" and k[1] == p and f.get(k, where) is not None}
            if not loads:
                continue
            total = sum(float(a.value) for a in loads.values())
            if abs(total - float(order.value)) > 0.005 * len(loads) + 1e-6:
                yield "sum.loads", "pour %d: loads in %s add up to %g, ordered %r" % (p, where, total, order)
            trucks = of(p, "trucks")
            if trucks is not None and trucks.value != len(loads):
                yield "differs.trucks", "pour %d: %d loads in %s, %d trucks" % (p, len(loads), where, trucks.value)
    # A joint parts the first pour from one as many days later as it says, a day at least.
    joints = [c for s in d.slabs() for c in s.get("construction", [])]
    days = [int(of(p, "day").value) for p in numbers]
    if days[0] != 1 or any(a >= b for a, b in zip(days, days[1:])) or len(joints) == 1 and days[1:] != [1 + max(1, joints[0].get("days", 0))] or not joints and days[1:]:
        yield "wrong.pour-day", "pours on the days %s; joints: %d" % (days, len(joints))
    loads = [a for k in f.of if k[0] == "load" for a in [f.get(k)]]
    for row in d.book.get("Price", []):
        if isinstance(row.get("A"), str) and re.fullmatch(r"Short load.*", row["A"]) and isinstance(row.get("E"), (int, float)) and loads:
            short = sum(max(0.0, float(row["E"]) - float(a.value)) for a in loads)
            if abs(short - float(row.get("B", 0))) > 0.02:
                yield "wrong.short-load", "charged for %g short of %g, the loads ordered are %s" % (row["B"], row["E"], ", ".join(repr(a) for a in loads))


@check
def sawn(d, f):
    """Each pour is told of the saw cuts that run on it: one across a joint is sawn in both."""
    for key in [k for k in f.of if k[0] == "saw cuts"]:
        s, on = d.takeoff["slabs"][key[2]], next(p["day"] for p in d.takeoff["pours"] if p["number"] == key[1])
        rings = [r for part in s["parts"] if part["day"] == on for r in part["rings"]]
        within = lambda x, y: sum((a[1] > y) != (b[1] > y) and x < (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]) + a[0]
                                  for r in rings for a, b in zip(r, r[1:] + r[:1])) % 2 == 1
        runs = lambda c: any(within(*(c["a"][k] + (c["b"][k] - c["a"][k]) * (n + 0.37) / 200 for k in (0, 1))) for n in range(200))
        want = sum(runs(c) for c in s["sawcuts"]) if rings else len(s["sawcuts"])
        if f.get(key).value != want:
            yield "wrong.saw-cuts", "slab %d, pour %d: %r are told of, %d run on it" % (key[2] + 1, key[1], f.get(key), want)


@check
def pours_apart(d, f):
    """No table lists what of a slab is placed in a pour where none of it is."""
    for p in d.pages:
        for q, nxt in zip(p.pieces, p.pieces[1:]):
            if re.match(patterns.POUR + ": .*", q.text) and nxt.text == "Bay" and not any(t.kind == "bay" and t.head[0] is nxt and t.rows for t in p.tables):
                yield "paper.empty-table", "sheet %d: nothing stands under %r" % (p.number, q.text)


@check
def walls_on_the_slab(d, f):
    """Each wall along a line of its own is found on the site: both ends measured, from which
    its bolts are, and its name told."""
    rows = [r for p in d.pages for t in p.tables if t.kind == "place" for r in documents.whole(t)]
    text = all_text(d)
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        made = [w for w in d.takeoff["slabs"][i]["walls"] if w["loop"] < 0]
        for n, w in enumerate(s.data.get("walls", [])):
            where = "slab %d, wall on the slab %d" % (i + 1, n + 1)
            ends = [r for r in rows if r[0] and re.fullmatch(patterns.WALL_ENDS, r[0])]
            for end in ("from", "to"):
                a, b = s.along(tuple(float(J(v)) for v in w[end]))
                if not any(together(" ".join(x or "" for x in r[1:]), [a, b], d.metric) for r in ends):
                    yield "missing.wall-place", "%s: %s along the first edge and %s off it" % (where, measure.shown(a, d.metric), measure.shown(b, d.metric))
            if w.get("name") and w["name"] not in text:
                yield "missing.wall-name", "%s: %r" % (where, w["name"])
            if n >= len(made) or made[n]["plate"] != w["plate"]:
                yield "differs.wall-plate", where


@check
def construction_joints(d, f):
    """Each joint between pours is found on the site: both ends measured, its name told."""
    rows = [r for p in d.pages for t in p.tables if t.kind == "place" for r in documents.whole(t)]
    text = all_text(d)
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        for n, c in enumerate(s.data.get("construction", [])):
            where = "slab %d, construction joint %d" % (i + 1, n + 1)
            ends = [r for r in rows if r[0] and re.fullmatch(patterns.JOINT_ENDS, r[0])]
            for end in ("from", "to"):
                a, b = s.along(tuple(float(J(v)) for v in c[end]))
                if not any(together(" ".join(x or "" for x in r[1:]), [a, b], d.metric) for r in ends):
                    yield "missing.joint-place", "%s: %s along the first edge and %s off it" % (where, measure.shown(a, d.metric), measure.shown(b, d.metric))
            k = 25.4 if d.takeoff["lengthunit"] == "mm" else 1.0
            made = d.takeoff["slabs"][i]["construction"][n]
            if c["kind"] == "keyed":
                # In the middle of the face, a quarter of the slab high: it leaves two lips of more.
                if not any(0.15 * s.field < float(measure.length(m["high"]).value) < 0.4 * s.field for m in re.finditer(patterns.JOINT_KEY, text)):
                    yield "missing.joint-key", where
            elif made["dowels"]:
                said = [[measure.length(m[x]) for x in ("diameter", "length", "spacing")] for m in re.finditer(patterns.JOINT_DOWELS, text)]
                if not any(all(abs(float(a.value) - b / k) < 0.04 for a, b in zip(x, made["bar"])) for x in said):
                    yield "differs.joint-dowels", "%s: %s in takeoff.json, %s on paper" % (where, made["bar"], said)
            if c.get("name") and c["name"] not in text:
                yield "missing.joint-name", "%s: %r" % (where, c["name"])


@check
def wet_pads(d, f):
    """Wet pads stand so that the straightedge reaches from pad to pad and to the forms."""
    span = length_of(d.job, "pour.reach.straightedge") - length_of(d.job, "pour.reach.overlap")
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        keys = {k[2] for k in f.of if k[0] == "wetpad" and k[1] == i}
        sides = s.straight()
        if sides and keys and span > 0:
            want = 1
            for side in sides:
                want *= max(math.ceil(side / span - 1e-9) - 1, 0)
            if len(keys) > want:
                yield "wrong.wet-pads", "slab %d, %s by %s: %d pads, %d serve a straightedge that spans %s" % (
                    i + 1, measure.shown(sides[0], d.metric), measure.shown(sides[1], d.metric), len(keys), want, measure.shown(span, d.metric))
        for k in sorted(keys):
            over, up = f.get(("wetpad", i, k, "over")), f.get(("wetpad", i, k, "up"))
            if over is None or up is None:
                continue
            a, b = s.at[0], s.at[1]
            l = math.dist(a, b)
            ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
            x, y = float(over.value), float(up.value)
            if not s.inside((a[0] + x * ux - y * uy, a[1] + x * uy + y * ux)):
                yield "wrong.wet-pad-place", "slab %d, %s: %r along the first edge and %r off it is not on the slab" % (i + 1, k, over, up)
                break
        # Their heights differ as the top's do.
        if keys and (s.data.get("top", {}).get("falls") or s.breaks()) and abs(s.at[0][1] - s.at[1][1]) < 1e-9 and s.at[1][0] > s.at[0][0]:
            k0 = min(keys)
            where = lambda k: (s.at[0][0] + float(f.get(("wetpad", i, k, "over")).value), s.at[0][1] + float(f.get(("wetpad", i, k, "up")).value))
            for k in sorted(keys):
                h, h0 = f.get(("wetpad", i, k, "height")), f.get(("wetpad", i, k0, "height"))
                if h and h0 and abs(float(h.value - h0.value) - (s.top(where(k)) - s.top(where(k0)))) > 0.13:
                    yield "wrong.wet-pad-height", "slab %d, %s: %r against %r at %s; the falls give %s between them" % (
                        i + 1, k, h, h0, k0, measure.shown(s.top(where(k)) - s.top(where(k0)), d.metric))


@check
def arrows(d, f):
    """Arrows of the falls stand on the slab and point the way that water runs."""
    unit = 25.4 if d.metric else 1.0
    notes = d.dxf_layers.get("NOTE", []) + d.dxf_layers.get("FALL", [])
    texts = [(t, x / unit, y / unit) for _, t, x, y in d.dxf_texts if t.startswith("falls ")]
    starts = Counter()
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        falls = s.data.get("top", {}).get("falls", [])
        if not falls and not s.breaks():
            continue
        tips = []
        for e in notes:
            if e.dxftype() == "SOLID":
                p = [(e.dxf.vtx0[0] / unit, e.dxf.vtx0[1] / unit), (e.dxf.vtx1[0] / unit, e.dxf.vtx1[1] / unit), (e.dxf.vtx2[0] / unit, e.dxf.vtx2[1] / unit)]
                tips.append((p[0], ((p[1][0] + p[2][0]) / 2, (p[1][1] + p[2][1]) / 2)))
        for e in notes:
            if e.dxftype() != "LINE":
                continue
            a = (e.dxf.start[0] / unit, e.dxf.start[1] / unit)
            b = (e.dxf.end[0] / unit, e.dxf.end[1] / unit)
            for tip, back in tips:
                # The head of this line, near a text that speaks of a fall.
                if math.dist(b, back) > 0.9 * math.dist(tip, back) or math.dist(b, tip) > math.dist(a, tip):
                    continue
                if not any(math.dist((x, y), tip) < 200 or math.dist((x, y), a) < 200 for _, x, y in texts):
                    continue
                if abs(math.dist(a, tip)) < 4:
                    continue
                mid = ((a[0] + tip[0]) / 2, (a[1] + tip[1]) / 2)
                down = [s.top((mid[0] - q[0], mid[1] - q[1])) - s.top((mid[0] + q[0], mid[1] + q[1])) for q in ((1, 0), (0, 1))]
                if not any(abs(cross(direction(fl), (tip[0] - a[0], tip[1] - a[1]))) < 0.02 for fl in falls) and not (
                        s.breaks() and math.hypot(*down) > 1e-9 and abs(cross((down[0] / math.hypot(*down), down[1] / math.hypot(*down)), (tip[0] - a[0], tip[1] - a[1]))) < 0.02):
                    continue  # a leader of a note
                if s.top(a) <= s.top(tip) - 1e-6:
                    yield "wrong.fall-arrow", "slab %d: an arrow from (%.0f, %.0f) to (%.0f, %.0f) in points uphill" % (i + 1, *a, *tip)
                if not (s.inside(a) and s.inside(tip)):
                    yield "wrong.fall-arrow-place", "slab %d: an arrow from (%.0f, %.0f) to (%.0f, %.0f) in stands off the slab" % (i + 1, *a, *tip)


def direction(fall):
    x0, y0 = (float(J(v)) for v in fall["from"])
    x1, y1 = (float(J(v)) for v in fall["to"])
    l = math.hypot(x1 - x0, y1 - y0)
    return (x1 - x0) / l, (y1 - y0) / l


def cross(u, v):
    l = math.hypot(*v) or 1
    return (u[0] * v[1] - u[1] * v[0]) / l


def break_ends(s):
    """Where breaks of the top meet edges, between their corners, with the edge's number from 0."""
    for (x0, y0), (x1, y1), _ in s.breaks():
        off = lambda p: ((x1 - x0) * (p[1] - y0) - (y1 - y0) * (p[0] - x0)) / math.hypot(x1 - x0, y1 - y0)
        for k in range(s.n):
            a, b = s.at[k], s.at[(k + 1) % s.n]
            da, db = off(a), off(b)
            if da * db >= 0 or min(abs(da), abs(db)) < 0.1:
                continue
            t = da / (da - db)
            p = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
            if abs(s.top(p) - s.before(p, s.data["top"].get("falls", []))) < 0.01:  # else another is the top there
                yield k, p


def bends(d, f, s, i, first, step):
    """Where a break of the top meets an edge, the list says how high the top is, and where; so it
    does of the lowered strip at a door."""
    said = {k[2]: f.get(k) for k in f.of if k[0] == "top at" and k[1] == i}
    high = lambda p: float(first.value) + s.top(p) - s.top(s.at[0])
    if first is None or s.rim().at != s.at:
        return
    for k, p in break_ends(s):
        a = s.at[k]
        rows = {n: v for n, v in said.items() if re.match(r"break, %d–%d at " % (k + 1, (k + 1) % s.n + 1), n)}
        at = [(measure.length(n.split(" at ")[1]), v) for n, v in rows.items()]
        ok = [v for along, v in at if along is not None and abs(float(along.value) - math.dist(a, p)) < 0.1]
        if not ok:
            yield "missing.break", "slab %d: no height where the top breaks %s along edge %d" % (i + 1, measure.shown(math.dist(a, p), d.metric), k + 1)
        elif abs(float(ok[0].value) - high(p)) > 2 * step:
            yield "wrong.break", "slab %d, edge %d: %r, the top is at %s" % (i + 1, k + 1, ok[0], measure.shown(high(p), d.metric))
    for k, e in enumerate(s.data["outline"]):
        for door in e.get("doors", []):
            if "lip" not in door or float(J(door["lip"]["drop"])) == 0:
                continue
            a, b = s.at[k], s.at[(k + 1) % s.n]
            jambs = []
            for along in (float(J(door["from"])), float(J(door["from"])) + float(J(door["width"]))):
                t = along / math.dist(a, b)
                jambs.append(high((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))) - float(J(door["lip"]["drop"])))
            for want in jambs:
                if not any(n.startswith("lip of ") and v is not None and abs(float(v.value) - want) < 2 * step for n, v in said.items()):
                    yield "missing.lip-height", "slab %d, edge %d: no lip at %s" % (i + 1, k + 1, measure.shown(want, d.metric))


@check
def steps(d, f):
    """Where one slab is poured against another, the plans say how far down or up that lies: from the
    heights of both tops along the two edges, wherever either falls."""
    all = [Slab(d.job, i) for i in range(len(d.slabs()))]
    first = [f.get(("height", i, 1, "top")) for i in range(len(all))]
    text = " ".join(q.text for pg in d.pages for q in pg.pieces)
    for later, s in enumerate(all):
        for earlier, t in enumerate(all[:later]):
            if first[later] is None or first[earlier] is None or not t.data.get("name"):
                continue
            high = lambda i, p: float(first[i].value) + all[i].top(p) - all[i].top(all[i].at[0])
            spans = []
            for i, e in enumerate(s.edges):
                for k, g in enumerate(t.edges):
                    if any(x.get("joint") or x.get("middle") for x in (e, g)):
                        continue
                    (a, b), (p, q) = (s.at[i], s.at[(i + 1) % s.n]), (t.at[k], t.at[(k + 1) % t.n])
                    l = math.dist(a, b)
                    ux, uy = (b[0] - a[0]) / l, (b[1] - a[1]) / l
                    on = [((c[0] - a[0]) * ux + (c[1] - a[1]) * uy, (c[0] - a[0]) * -uy + (c[1] - a[1]) * ux) for c in (q, p)]
                    lo, hi = max(0, on[0][0]), min(l, on[1][0])
                    if any(abs(y) > 1 / 17 for _, y in on) or hi - lo < 2:
                        continue
                    at = [lo + (hi - lo) * n / 16 for n in range(17)]
                    down = [high(later, c) - high(earlier, c) for c in ((a[0] + x * ux, a[1] + x * uy) for x in at)]
                    spans.append((min(down), max(down)))
            said = []
            for m in re.finditer(r"against %s(?:, ([^–]*?) (down|up))? –" % re.escape(t.data["name"]), text):
                found = [float(measure.length(x).value) for x in re.findall(patterns.LEN, m[1] or "")] or [0.0]
                if " up to " in (m[1] or ""):
                    found[0] = -found[0]
                elif m[2] == "up":
                    found = [-x for x in found]
                said.append((min(found), max(found)))
            for lo, hi in spans:
                if not any(abs(lo - x) < 0.1 and abs(hi - y) < 0.1 for x, y in said):
                    yield "wrong.step", "slab %d against %r: it lies %s to %s down, the plans say %s" % (
                        later + 1, t.data["name"], measure.shown(lo, d.metric), measure.shown(hi, d.metric), said)


@check
def tops(d, f):
    """Heights of a falling top stand where the top is so high, at the drain too, and valleys are drawn."""
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        first = f.get(("height", i, 1, "top"))
        if not (s.data.get("top", {}).get("falls") or s.breaks()) or first is None:
            continue
        holes = [[tuple(float(J(v)) for v in e["at"]) for e in h["edges"]] for h in s.data.get("holes", [])]
        points = s.at + [p for h in holes for p in h] + [p for _, p in break_ends(s)]
        high = lambda p: float(first.value) + s.top(p) - s.top(s.at[0])
        near_hole = set()
        for p in plans(d):
            if p.slab != i:
                continue
            for q in p.page.pieces:
                m = re.fullmatch(r"top (%s)" % patterns.LEN, q.text)
                if not m or q.y > p.page.height * 0.9:
                    continue
                a = measure.length(m[1])
                at = lambda c: (p.x + c[0] * p.scale, p.y - c[1] * p.scale)
                ok = [c for c in points if math.dist(at(c), (q.x, q.y)) < 60 and abs(high(c) - float(a.value)) < 0.07]
                here = ((q.x - p.x) / p.scale, (p.y - q.y) / p.scale)
                if not ok and s.inside(here):  # it stands elsewhere, or its leader tells where the top is meant
                    tips = p.page.led(q)
                    ok = [c for c in points if abs(high(c) - float(a.value)) < 0.07 and any(math.dist(at(c), tip) < 15 for tip in tips)]
                if not ok and s.inside(here) and abs(high(here) - float(a.value)) > 0.25:
                    yield "wrong.top-label", "slab %d: %r stands where the top is at %s" % (i + 1, q.text, measure.shown(high(here), d.metric))
                for n, h in enumerate(holes):
                    if any(c in h for c in ok):
                        near_hole.add(n)
        for n, h in enumerate(holes):
            low = min(high(p) for p in h)
            if abs(low - min(high(p) for p in points)) < 0.01 and n not in near_hole:
                rows = [r for pg in d.pages for t in pg.tables if t.kind == "height" for r in t.rows if r[0] and not r[0].isdigit()]
                if not rows:
                    yield "missing.drain-height", "slab %d, hole %d: the top's lowest place has no height" % (i + 1, n + 1)
        yield from valleys(d, s, i, holes)


def valleys(d, s, i, holes):
    """Lines where two falls meet, halfway from each corner to the lowest hole."""
    falls = s.data["top"].get("falls", [])
    if len(falls) < 4 or not holes:
        return
    unit = 25.4 if d.metric else 1.0
    lines = []
    for layer, es in d.dxf_layers.items():
        if layer != "FALL":
            continue  # a diagonal may lie along a valley, and is none
        for e in es:
            if e.dxftype() == "LINE":
                lines.append(((e.dxf.start[0] / unit, e.dxf.start[1] / unit), (e.dxf.end[0] / unit, e.dxf.end[1] / unit)))
            elif e.dxftype() == "POLYLINE":
                v = [(x.dxf.location[0] / unit, x.dxf.location[1] / unit) for x in e.vertices]
                lines += list(zip(v, v[1:]))
            elif e.dxftype() == "LWPOLYLINE":
                v = [(x[0] / unit, x[1] / unit) for x in e.get_points()]
                lines += list(zip(v, v[1:]))
    heights = lambda p: sorted((plane(f, p) for f in falls), reverse=True)
    # Points on a ring about halfway out where the two highest planes change places.
    c = [sum(p[k] for p in holes[0]) / len(holes[0]) for k in (0, 1)]
    r = 0.5 * min(math.dist(c, p) for p in s.at)
    last, found, drawn = None, 0, 0
    for k in range(721):
        t = math.radians(k / 2)
        p = (c[0] + r * math.cos(t), c[1] + r * math.sin(t))
        best = max(range(len(falls)), key=lambda n: plane(falls[n], p))
        if last is not None and best != last and s.inside(p):
            found += 1
            drawn += runs_there(lines, p, t, r)
        last = best
    if found and drawn < found:
        yield "missing.valley", "slab %d: %d lines where falls meet, %d drawn" % (i + 1, found, drawn)


def runs_there(lines, p, t, r):
    """Whether a line from a middle runs through p, r from it in the direction t. Texts may stand
    on the line there, one after another: it goes on beyond them, near on one side or not far on both."""
    ux, uy = math.cos(t), math.sin(t)
    near, on, out = False, False, False
    for a, b in lines:
        l = math.dist(a, b)
        if l == 0 or abs((b[0] - a[0]) * ux + (b[1] - a[1]) * uy) <= 0.97 * l:
            continue
        if abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / l >= r * 0.02 + 1:
            continue
        off = distance(p, a, b)
        near = near or off < 0.3 * r
        if off < 0.5 * r:
            along = [(q[0] - p[0]) * ux + (q[1] - p[1]) * uy for q in (a, b)]
            on, out = on or max(along) <= 0, out or min(along) >= 0
    return near or on and out


def plane(f, p):
    x0, y0 = (float(J(v)) for v in f["from"])
    x1, y1 = (float(J(v)) for v in f["to"])
    return float(J(f["drop"])) * (1 - ((p[0] - x0) * (x1 - x0) + (p[1] - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2))


def distance(p, a, b):
    l2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    t = min(max(((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / l2, 0), 1)
    return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))


@check
def main_edge(d, f):
    """The options' edge depth is that of the haunch used along most of the job."""
    along = Counter()
    for i in range(len(d.slabs())):
        s = Slab(d.job, i)
        for k in range(s.n):
            e = s.edges[k]
            rest = s.length(k)
            for x in e.get("doors", []):
                if x.get("section"):
                    rest -= float(J(x["width"]))
                    along[s.depth(x["section"])] += float(J(x["width"]))
            if e.get("section"):
                along[s.depth(e["section"])] += rest
    if len(along) < 1:
        return
    best = along.most_common(2)
    if len(best) == 2 and best[0][1] < best[1][1] * 1.02:
        return
    for row in d.book.get("Options", []):
        if row.get("A") == "Edge depth" and isinstance(row.get("B"), str):
            a = measure.length(row["B"])
            if a and abs(float(a.value) - best[0][0]) > 0.04:
                yield "wrong.main-edge", "options take %r for the main edge; most is %s" % (a, measure.shown(best[0][0], d.metric))


@check
def limits_said(d, f):
    """The options count every finding, and none reads as approval."""
    rows = d.book.get("Options", [])
    if not rows:
        return
    said = [str(r.get("B")) for r in rows if r.get("A") == "Findings"]
    counts = [int(n) for n in re.findall(r"\d+", said[0])] if said else []
    broken = sum(f["severity"] in ("limit", "severe") for f in d.takeoff["findings"])
    if counts != [broken, len(d.takeoff["findings"]) - broken]:
        yield "wrong.findings", "options say %r, the takeoff has %d findings, %d of them broken limits" % (said, len(d.takeoff["findings"]), broken)
    text = "".join(str(r.get("A")) for r in rows)
    if not re.search(r"Not checked: .*no approval", text):
        yield "wrong.limits-none", "the options do not say what is not checked"


@check
def on_the_page(d, f):
    """Nothing cut off, beyond the page, or over another text."""
    for name, pages in (("sheet", d.pages), ("bid", d.bid)):
        for p in pages:
            for q in p.pieces:
                if "…" in q.text or "..." in q.text:
                    yield "paper.cut-off", "%s %d: %r" % (name, p.number, q.text)
                if q.x0 < -0.5 or q.y0 < -0.5 or q.x1 > p.width + 0.5 or q.y1 > p.height + 0.5:
                    yield "paper.beyond", "%s %d: %r" % (name, p.number, q.text)
            level = sorted((q for q in p.pieces if q.turn == 0 or q.turn == 90), key=lambda q: q.x0)
            for i, a in enumerate(level):
                for b in level[i + 1:]:
                    if b.x0 >= a.x1:
                        break
                    # Boxes hold room above and below the letters: take the letters only.
                    room = lambda q, turn: 0.2 * q.em * (q.turn == turn)
                    w = min(a.x1 - room(a, 90), b.x1 - room(b, 90)) - max(a.x0 + room(a, 90), b.x0 + room(b, 90))
                    h = min(a.y1 - room(a, 0), b.y1 - room(b, 0)) - max(a.y0 + room(a, 0), b.y0 + room(b, 0))
                    if w > 0.8 and h > 0.8:
                        yield "paper.overlap", "%s %d: %r over %r" % (name, p.number, a.text, b.text)


@check
def marks(d, f):
    """No mark stands for two kinds of thing in a set."""
    uses = {}
    for p in d.pages:
        for text in [q.text for q in p.pieces] + [t.text for t in p.paragraphs]:
            for kind, pattern in patterns.MARK_WORDS.items():
                m = re.fullmatch(pattern, text)
                if m:
                    uses.setdefault(m["mark"], set()).add(kind)
    for k in f.of:
        if k[0] == "bar":
            uses.setdefault(k[1], set()).add("bar")
        if k[0] == "edge section":
            uses.setdefault(k[1], set()).add("edge section")
    for mark, kinds in sorted(uses.items()):
        if len(kinds) > 1:
            yield "paper.mark-twice", "%s is %s" % (mark, " and ".join("a " + k for k in sorted(kinds)))
    # One hole, one name.
    names = set()
    text = "\n".join(t.text for p in d.pages for t in p.paragraphs)
    for pattern in (r"\b(H\d+): ", r"(hole \d+\.\d+)", r"\b[Ee]dge \d+ of (\S+?)[,:.\n]", r"^(\S+)(?: .+)? opening$", r"^(?!Set out|Wet pads|Pour \d)(\S+)(?: .+)? corner \d+$"):
        names.update(x for x in re.findall(pattern, text, re.M) if x not in ("rough", "the"))
    holes = sum(len(Slab(d.job, i).data.get("holes", [])) for i in range(len(d.slabs())))
    if holes == 1 and len(names) > 1:
        yield "name.hole", "one hole is called " + ", ".join(repr(n) for n in sorted(names))
    if re.search(r"\bedge \d+\.\d+ ", text):
        yield "name.board", "a form board is called as a side: %r" % re.search(r"\bedge \d+\.\d+", text)[0]


# ---- (d) sums of money

@check
def money(d, f):
    def num(row, c):
        v = row.get(c)
        return float(v) if isinstance(v, (int, float)) and not isinstance(v, bool) else None

    cents = lambda v: math.floor(v * 100 + 0.5 + 1e-7) / 100
    rows = d.book.get("Order", [])
    # What is paid now is in "Total"; what lasts serves so many jobs as "Uses" says, and
    # this one pays its share, in "For this job".
    total, group, unpriced = [0.0, 0.0], [0.0, 0.0], 0
    for row in rows:
        a = row.get("A")
        order, price, uses, pack, needed = (num(row, c) for c in "EGHDB")
        both = [num(row, "I"), num(row, "J")]
        if both[0] is not None and order is not None:
            paid = order * price if price is not None else 0.0
            for ext, want, what in zip(both, [cents(paid), cents(paid / (uses or 1))], ["", ", for this job"]):
                if ext is not None and abs(ext - want) > 0.0051:
                    yield "sum.order", "%s%s: %g at %s is %.2f, not %.2f" % (a, what, order, row.get("G"), want, ext)
            if needed is not None and pack:
                whole = needed / pack
                if not (order >= whole - 1e-6 and order < whole + 1 + 1e-6):
                    yield "sum.packs", "%s: %g ordered in packs of %g for %g" % (a, order, pack, needed)
            group = [g + (e or 0.0) for g, e in zip(group, both)]
            unpriced += order > 0 and row.get("G") in (None, "")
        elif isinstance(a, str) and a.startswith("Lines without a price"):
            if num(row, "B") is not None and abs(num(row, "B") - unpriced) > 1e-9:
                yield "sum.unpriced", "%s: %g, and %d are found" % (a, num(row, "B"), unpriced)
        elif isinstance(a, str) and both[0] is not None:
            want = {"Total, to be paid": total[0], "Materials of this job": total[1]}.get(a)
            if a.startswith("Of it what serves other jobs"):
                want = total[0] - total[1]
            if want is not None:
                if abs(want - both[0]) > 0.0051:
                    yield "sum.order-total", "%s: groups add up to %.2f, not %.2f" % (a, want, both[0])
                continue
            for g, ext in zip(group, both):
                if ext is not None and abs(g - ext) > 0.0051:
                    yield "sum.group", "%s: lines add up to %.2f, not %.2f" % (a, g, ext)
            total = [t + (e or 0.0) for t, e in zip(total, both)]
            group = [0.0, 0.0]
    price = {}
    for row in d.book.get("Price", []):
        if isinstance(row.get("A"), str):
            price[row["A"].split(",")[0].split(":")[0]] = (num(row, "D"), num(row, "F"), row.get("D"))
    get = lambda k: (price.get(k) or (None, None, None))
    cost = get("Cost")[1]
    parts = [get(k)[1] for k in ("Materials", "Fees and equipment", "Extras")] + [get("Labor")[1] if "Labor" in price else get("Labor")[1]]
    if cost is not None and None not in parts and abs(sum(parts) - cost) > 0.0051:
        yield "sum.cost", "parts add up to %.2f, not %.2f" % (sum(parts), cost)
    rate, over, _ = get("Overhead")
    if rate is not None and over is not None and cost is not None and abs(cents(cost * rate / 100) - over) > 0.0051:
        yield "sum.overhead", "%g %% of %.2f is not %.2f" % (rate, cost, over)
    _, before, _ = get("Price before tax")
    tax, bid = get("Sales tax"), get("Bid")[1]
    on, taxed = None, get("Sales tax on")[2]
    for row in d.book.get("Price", []):
        if isinstance(row.get("A"), str) and row["A"].startswith("Sales tax") and isinstance(row.get("F"), (int, float)):
            tax = (num(row, "D"), num(row, "F"), None)
    profit = next(((num(r, "D"), num(r, "F")) for r in d.book.get("Price", []) if r.get("A") == "Profit"), None)
    way = next((r.get("D") for r in d.book.get("Price", []) if isinstance(r.get("A"), str) and r["A"].startswith("Profit: ")), None)
    if profit and None not in (profit[0], profit[1], cost, over):
        base = cost + over
        want = base * profit[0] / 100 if way == "markup" else base / (1 - profit[0] / 100) - base
        if abs(cents(want) - profit[1]) > 0.0101:
            yield "sum.profit", "%g %% as %s on %.2f is %.2f, not %.2f" % (profit[0], way, base, want, profit[1])
        if before is not None and abs(base + profit[1] - before) > 0.0051:
            yield "sum.price", "%.2f and %.2f are not %.2f" % (base, profit[1], before)
    if None not in (before, bid, tax[1]) and abs(before + tax[1] - bid) > 0.0051:
        yield "sum.bid", "%.2f and tax %.2f are not %.2f" % (before, tax[1], bid)
    for title, (amount, parts) in {"Labor": ("H", "G"), "Labor": ("H", "G")}.items():
        wage = next((num(r, "E") for r in d.book.get(title, []) if str(r.get("A", "")).startswith("Wage")), None)
        hours, cost = 0.0, 0.0
        for row in d.book.get(title, []):
            h, c = num(row, parts), num(row, amount)
            if h is None or c is None or wage is None:
                continue
            if str(row.get("A")).endswith(" total"):
                if abs(hours - h) > 0.006 or abs(cost - c) > 0.0051:
                    yield "sum.labor-total", "%.2f h and %.2f add up to %.2f and %.2f" % (h, c, hours, cost)
                continue
            hours, cost = hours + h, cost + c
            want = (num(row, "C") / num(row, "E") if num(row, "C") is not None and num(row, "E") else 0) + (num(row, "F") or 0)
            if abs(cents(want) - h) > 0.0101 or abs(cents(h * wage) - c) > 0.0051:
                yield "sum.labor", "%s: %g h at %g is not %g; %g h asked" % (row.get("A"), h, wage, c, want)
    for row in d.book.get("Price", []):
        q, r, a = num(row, "B"), num(row, "D"), num(row, "F")
        if None not in (q, r, a) and abs(cents(q * r) - a) > 0.0051:
            yield "sum.fee", "%s: %g at %g is not %.2f" % (row.get("A"), q, r, a)
    paid = {k: f.get((k,), "bid") for k in ("price before tax", "tax", "total")}
    if paid["total"] is not None and paid["price before tax"] is not None:
        t = float(paid["tax"].value) if paid["tax"] is not None else 0.0
        if abs(float(paid["price before tax"].value) + t - float(paid["total"].value)) > 0.0051:
            yield "sum.bid", "the bid's own lines do not add up"
    elif paid["total"] is None and paid["price before tax"] is None:
        yield "unread.bid", "no total found on the bid"


# ---- what the reader itself must have found, so that it is not blind

@check
def not_blind(d, f):
    kinds = Counter(k[0] for k in f.of)
    want = {
        "bolt": amount(d, "anchor bolt") > 0, "plate": amount(d, "sill plate piece") > 0, "bar": amount(d, "edge bar length") > 0,
        "form": amount(d, "form length") > 0, "dowel": amount(d, "dowel hole") > 0, "load": amount(d, "concrete") > 0,
        "edge section": any(s.get("sections") and any(e.get("section") for e in s["outline"]) for s in d.slabs()),
        "lap": any(k[0] == "lap" for k in f.of),
        "height": any(s.get("top", {}).get("falls") or s.get("top", {}).get("breaks") for s in d.slabs()),
    }
    for kind, expected in want.items():
        kinds_too = (kind, "only section") if kind == "edge section" else (kind,)  # the only one has no letter: it is drawn
        on_paper = any(w.startswith("sheet") for k in f.of if k[0] in kinds_too for _, w in f.of[k])
        if expected and not on_paper:
            yield "unread." + kind.replace(" ", "-"), "the sheets show none"
    for kind in ("bolt", "plate", "bar", "form", "dowel"):
        if want[kind] and not any(w.startswith("workbook") for k in f.of if k[0] == kind for _, w in f.of[k]):
            yield "unread.workbook-" + kind, "the workbook shows none"
    for kind in ("bolt", "plate", "bar", "form", "dowel", "load", "height"):
        if want[kind] and not any(w == "phone" for k in f.of if k[0] == kind for _, w in f.of[k]):
            yield "unread.phone-" + kind, "the page for the telephone shows none"


@check
def phone_whole(d, f):
    for tag in d.phone.refused:
        yield "phone.tag", "found <%s> where it has no place" % tag
