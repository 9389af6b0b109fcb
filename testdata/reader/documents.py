"""The documents of a job as data: what each of them shows, without judging it."""

import html
import html.parser
import json
import os
import re
from fractions import Fraction

import ezdxf
import openpyxl

import measure
import names
import paper
import patterns
import slab

# Decimal places that a double carries beyond doubt.
FLOAT = Fraction(1, 10 ** 6)


class Documents:
    def __init__(self, folder):
        self.folder = folder
        path = lambda name: os.path.join(folder, name)
        with open(path("job.json"), encoding="utf-8") as f:
            self.job = names.spoken(json.load(f))
        with open(path("takeoff.json"), encoding="utf-8") as f:
            self.takeoff = json.load(f)
        self.metric = self.job.get("units") == "mm"
        self.pages = paper.read(path("layout.pdf"))
        self.bid = paper.read(path("bid.pdf"))
        self.book = _book(path("materials.xlsx"))
        self.dxf_texts, self.dxf_layers, self.dxf = _dxf(path("layout.dxf"))
        with open(path("layout.svg"), encoding="utf-8") as f:
            svg = f.read()
        self.svg_texts = [html.unescape(t) for t in re.findall(r"<text[^>]*>([^<]*)</text>", svg)]
        self.svg_arcs = len(re.findall(r'<path d="M[^"]*A', svg))
        self.phone = _phone(path("phone.html"))
        self.out = ""
        if os.path.exists(path("out.txt")):
            with open(path("out.txt"), encoding="utf-8") as f:
                self.out = f.read()
        self.options = {}
        if os.path.exists(path("options.json")):
            with open(path("options.json"), encoding="utf-8") as f:
                self.options = json.load(f)
        self.lines = [Line(l) for l in self.takeoff["lines"]]
        lines = {(l.name, l.unit) for l in self.lines}
        for p in self.pages:
            p.paragraphs = paper.paragraphs(p.pieces)
            p.slab = self._slab_of(p)
            p.tables = list(_tables(p))
            for t in p.tables:
                t.slab = self._slab_of_table(p, t)
            p.statements = list(_statements(p.paragraphs, lines))
            p.pours = _pours(p)
            p.in_tables = set()
            for t in p.tables:
                for q in p.pieces:
                    if q.turn == 0 and t.x0 - 4 <= q.x0 and q.x1 <= t.x1 + 4 and t.y0 - 1 <= q.y <= t.y1 + 1:
                        p.in_tables.add(id(q))

    def slab_names(self):
        slabs = self.job["slabs"] if "slabs" in self.job else [self.job["slab"]]
        return [s.get("name") or "Slab %d" % (i + 1) for i, s in enumerate(slabs)]

    def slabs(self):
        return self.job["slabs"] if "slabs" in self.job else [self.job["slab"]]

    def _slab_of(self, page):
        """The slab that a page is of: 0 for the only one, its number, or None."""
        called = self.slab_names()
        if len(called) == 1:
            return 0
        # The title block is drawn last.
        for p in reversed(page.pieces):
            if p.y > page.height - 85 and p.text in called:  # points: the block is 30 mm tall with its margin
                return called.index(p.text)
        return None


    def _slab_of_table(self, page, table):
        """The slab that a table's title names; else the page's."""
        best = None
        for p in page.pieces:
            near = p.turn == 0 and 0 < table.head[0].y - p.y < 3.2 * table.head[0].em
            if near and -60 < p.x0 - table.head[0].x0 < table.head[0].em and (best is None or p.x0 > best.x0):
                best = p
        for i, name in enumerate(self.slab_names()):
            if best is not None and of_slab(best.text, name):
                return i
        return page.slab


def of_slab(title, name):
    """Whether a title names a slab; that of a pour stands before it."""
    return re.sub("^%s: " % patterns.POUR, "", title).startswith((name + ": ", name + " from "))


def _pours(page):
    """The pour that each piece of a page is of, by the piece's id: that of the last title
    drawn before it. What is drawn before any is of the only one."""
    out, pour = {}, 1
    for p in page.pieces:
        m = re.match(patterns.POUR + ": ", p.text)
        pour = int(m["pour"]) if m else pour
        out[id(p)] = pour
    return out


class Line:
    """A line of the takeoff: what it is, and how much."""

    def __init__(self, d):
        self.what, self.name, self.value, self.unit = d["what"], d["name"], d["value"], d["unit"]
        self.kind = d["what"]["kind"]
        self.key = ("line", self.kind) + tuple("%s %s" % kv for kv in sorted(d["what"].items()) if kv[0] != "kind")
        self.working = d.get("working") or d.get("trace") or []


class Phone(html.parser.HTMLParser):
    """The page for the telephone: its tables, each with the heading over it, and its texts."""

    def __init__(self):
        super().__init__()
        self.tables, self.texts, self.refused, self.open = [], [], [], []
        self.caption, self.cell, self.text = "", None, None

    def handle_starttag(self, tag, attrs):
        if tag in ("script", "iframe", "object", "link"):
            self.refused.append(tag)
        if tag not in ("meta", "input", "br") and not (self.open and self.open[0] == "svg"):
            self.open.append(tag) if tag != "svg" else self.open.insert(0, tag)
        if tag == "table":
            self.tables.append((self.caption, []))
        elif tag == "tr":
            self.tables[-1][1].append([])
        elif tag in ("td", "th", "h1", "h2", "h3", "p", "pre"):
            self.text = ""

    def handle_endtag(self, tag):
        if self.open and self.open[0] == "svg":
            if tag == "svg":
                self.open.pop(0)
            return
        if not self.open or self.open.pop() != tag:
            self.refused.append("/" + tag)
        if tag in ("td", "th"):
            self.tables[-1][1][-1].append(self.text)
        elif tag in ("h1", "h2", "h3", "p", "pre"):
            self.texts.append(" ".join(self.text.split()))  # as HTML shows them
            if tag == "h3":
                self.caption = self.text
        self.text = None

    def handle_data(self, data):
        if self.text is not None and not (self.open and self.open[0] == "svg"):
            self.text += data


def _phone(file):
    p = Phone()
    with open(file, encoding="utf-8") as f:
        p.feed(f.read())
    p.close()
    p.refused += p.open
    return p


class Table:
    def __init__(self, kind, head, rows, caption):
        self.kind, self.head, self.rows, self.caption = kind, head, rows, caption
        self.x0, self.x1 = head[0].x0 - 20, head[-1].x1 + 2
        self.y0 = head[0].y0
        self.y1 = self.y0 + 2 * head[0].em + len(rows) * 1.5 * head[0].em


def _statements(paragraphs, lines):
    """What the running texts state: each line alone or with some that follow it."""
    for block in paragraphs:
        for i in range(len(block.lines)):
            text, found = "", {}
            for k in range(i, min(i + 6, len(block.lines))):
                text = (text + " " + block.lines[k].text).strip()
                for n, (kind, pattern) in enumerate(patterns.STATEMENTS):
                    m = re.fullmatch(pattern, text)
                    # A name that runs on over lines is whole when it is a line of the takeoff.
                    if m and (n not in found or kind == "order" and (m["name"], m["unit"]) in lines):
                        found[n] = (kind, m, block.lines[i])
            seen = set()
            for kind, m, piece in found.values():
                if kind not in seen:
                    seen.add(kind)
                    yield kind, m, piece


def _tables(page):
    for kind, columns, caption in patterns.TABLES:
        for head, rows in paper.table(page, columns):
            groups = {}
            for h, c in zip(head, columns):
                groups.update(re.fullmatch(c, h.text).groupdict())
            if caption:
                # The text above that says whose table it is; of one set in columns
                # side by side, over the first of them.
                best = None
                for p in page.pieces:
                    m = p.turn == 0 and re.fullmatch(caption, p.text)
                    if m and 0 < head[0].y - p.y < 3 * head[0].em and p.x0 < head[0].x0 + head[0].em:
                        if best is None or p.x0 > best[0]:
                            best = (p.x0, m)
                if best is None:
                    continue
                groups.update(best[1].groupdict())
            t = Table(kind, head, rows, groups)
            bottom = head[0].y1
            for p in page.pieces:
                for r in rows:
                    if p.turn == 0 and p.text in r and t.x0 <= p.x0 and p.x1 <= t.x1 + 4 and p.y > head[0].y:
                        if p.y < t.y1 + 60:
                            bottom = max(bottom, p.y1)
            t.y1 = bottom
            yield t


def _book(file):
    """Sheets of the workbook: name -> list of {column: value}, rows from 1."""
    wb = openpyxl.load_workbook(file, data_only=True)
    out = {}
    for ws in wb:
        rows = []
        for row in ws.iter_rows():
            rows.append({c.column_letter: c.value for c in row if c.value is not None})
        out[ws.title] = rows
    return out


def _dxf(file):
    doc = ezdxf.readfile(file)
    texts, layers, things = [], {}, []
    for e in doc.modelspace():
        layers.setdefault(e.dxf.layer, []).append(e)
        if e.dxftype() in ("TEXT", "MTEXT"):
            texts.append((e.dxf.layer, e.dxf.text if e.dxftype() == "TEXT" else e.plain_text(), e.dxf.insert[0], e.dxf.insert[1]))
        if e.dxftype() == "DIMENSION" and e.dxf.text not in ("", "<>"):
            texts.append((e.dxf.layer, e.dxf.text, e.dxf.text_midpoint[0], e.dxf.text_midpoint[1]))
    return texts, layers, doc


class Facts:
    """What the documents say of each quantity."""

    def __init__(self):
        self.of = {}
        self.pieces_drawn = {}  # of foam, mesh, retarder as the sheets count them, by slab
        self.pieces = {}  # of bars, by mark, of each slab's schedule

    def say(self, key, amount, where):
        if amount is not None:
            self.of.setdefault(key, []).append((amount, where))

    def text(self, key, text, where):
        self.of.setdefault(key, []).append((text, where))

    def get(self, key, where=None):
        for a, w in self.of.get(key, []):
            if where is None or w.startswith(where):
                return a
        return None


def facts(d):
    """Everything that a set of documents says, by quantity."""
    f = Facts()
    _takeoff(d, f)
    _out(d, f)
    _book_facts(d, f)
    _sheets(d, f)
    _phone_facts(d, f)
    _bid(d, f)
    _typed(d, f)
    return f


def _takeoff(d, f):
    for l in d.lines:
        f.say(l.key, measure.exact(l.value), "takeoff.json")
        for s in l.working:
            m = re.fullmatch(r"(\d+) of (\w+), (No\. \d+|Ø\d+), cut (.*)", s.get("text", ""))
            if m:
                f.say(("bar", m[2], "pieces"), measure.number(m[1]), "takeoff.json")
                f.say(("bar", m[2], "size"), measure.bar_fact(m[3]), "takeoff.json")
                f.say(("bar", m[2], "cut"), measure.length(m[4]), "takeoff.json")
                for i, x in enumerate(measure.lengths(s.get("work", ""))):
                    f.say(("bar", m[2], "leg %d" % (i + 1)), x, "takeoff.json")
            for m in re.finditer(patterns.WORKING_LAP, s.get("work", "")):
                f.say(("lap", measure.bar(m["size"]), "top" if m["top"] else "bottom"), measure.length(m["lap"]), "takeoff.json")
    for p in d.takeoff["pours"]:
        say = lambda what, v: f.say(("pour", p["number"], what), measure.exact(v), "takeoff.json")
        say("day", p["day"])
        say("net", p["net"])
        say("order", p["order"])
        if p["loads"]:
            say("trucks", len(p["loads"]))
            say("last load", p["loads"][-1])
        for i, v in enumerate(p["loads"]):
            f.say(("load", p["number"], i + 1), measure.exact(v), "takeoff.json")


def _out(d, f):
    """The short takeoff that the program prints."""
    by_name = {(l.name, l.unit): l.key for l in d.lines}
    for line in d.out.splitlines():
        m = re.fullmatch(r"\s*(%s)\s+(\S+(?: oz)?)\s{2,}(.+)" % patterns.NUM, line)
        if not m:
            continue
        key = by_name.get((m[3], m[2]))
        if key is None:
            f.text(("stray line", m[3]), m[3], "printed takeoff")
        else:
            f.say(key, measure.number(m[1]), "printed takeoff")


def _value(v):
    if isinstance(v, bool) or v is None:
        return None
    if isinstance(v, (int, float)):
        return measure.Amount(Fraction(v), FLOAT / 2)
    return measure.length(str(v)) or measure.number(str(v))


def _book_facts(d, f):
    lines = {}
    for l in d.lines:
        lines.setdefault(l.name, l)
    for title, rows in d.book.items():
        where = "workbook, " + title
        bars = {}
        of, part, wall, started, pour = 0, 0, None, {}, 1
        for i, row in enumerate(rows):
            a = row.get("A")
            m = re.fullmatch(patterns.POUR, a) if isinstance(a, str) else None
            if m:
                pour = int(m["pour"])
                f.say(("pour", pour, "day"), measure.number(m["day"]), where)
            for sheet, first, key, column in patterns.BOOK_ROWS:
                if isinstance(a, str) and re.fullmatch(sheet, title) and re.fullmatch(first, a) and isinstance(row.get(column), (int, float)):
                    f.say(tuple(pour if k is patterns.OF_POUR else k for k in key), _value(row[column]), where)
            if not isinstance(a, str):
                continue
            if title == "Order" and "B" in row and a in lines:
                # Quantities of the order are held to millionths.
                f.say(lines[a].key, measure.Amount(Fraction(row["B"]), Fraction(1, 10 ** 6)), where)
            if title == "Steel" and re.fullmatch(r"[A-Z]{1,2}\d+", a) and isinstance(row.get("D"), (int, float)):
                b = bars.setdefault(a, {"pieces": 0, "size": row.get("C"), "cut": row.get("E"), "shape": row.get("J", "")})
                b["pieces"] += row["D"]
            m = re.match(r"(?:(.+?): )?(Wall \w+), (?:edge \d+|on the slab)", a)
            if title == "Bolts and dowels" and m:
                wall = m[2]
            m = re.match(r"(?:(.+?): )?Dowels, edge (\d+)|Dowels, (.+?),? edge (\d+)", a)
            if title == "Bolts and dowels" and m:
                called = (m[1] or m[3] or "").strip(", ")
                slab = d.slab_names().index(called) if called in d.slab_names() else 0
                wall = ("dowel", slab, int(m[2] or m[4]))
            n = re.fullmatch(patterns.BOLT, str(row.get("B", "")))
            if title == "Bolts and dowels" and n and isinstance(wall, str):
                n = int(n[1])
                f.say(("bolt", n, "from"), _value(row.get("C")), where)
                f.say(("bolt", n, "to"), _value(row.get("E")), where)
                f.text(("bolt", n, "wall"), wall, where)
            if title == "Bolts and dowels" and a == "Dowel" and isinstance(wall, tuple):
                k = started.setdefault(wall, [0])
                k[0] += 1
                f.say(wall + (k[0], "at"), _value(row.get("C")), where)
                f.say(wall + (k[0], "number"), _value(row.get("B")), where)
            m = re.fullmatch(r"Plate piece W\d+\.(\d+)", a)
            if title == "Bolts and dowels" and m and isinstance(wall, str):
                n = re.findall(patterns.LEN, row.get("F", ""))
                f.say(("plate", wall, int(m[1]), "from"), _value(row.get("C")), where)
                if len(n) >= 2:
                    f.say(("plate", wall, int(m[1]), "to"), measure.length(n[0]), where)
                    f.say(("plate", wall, int(m[1]), "length"), measure.length(n[1]), where)
            m = re.fullmatch(r"(?:(.+?): )?[Ee]dge (\d+)", a)
            if title == "Forms" and m and "J" in row:
                slab = d.slab_names().index(m[1]) if m[1] in d.slab_names() else 0
                key = ("form", slab, int(m[2]))
                f.say(key + (str(row.get("C", "")).split(" ")[0], "length"), _value(row.get("E")), where)  # an edge may have two
                n = [measure.length(x) for x in re.findall(patterns.LEN, row["J"])]
                if n:
                    f.say(key + ("deep",), n[0], where)
            m = re.fullmatch(r"(.+?): Diagonals between corners", a)
            if m:
                part = d.slab_names().index(m[1]) if m[1] in d.slab_names() else 0
            m = re.fullmatch(r"(\d+) to (\d+)", a)
            if title == "Forms" and m:
                f.say(("diagonal", part, int(m[1]), int(m[2])), _value(row.get("E")), where)
        for mark, b in bars.items():
            f.say(("bar", mark, "pieces"), _value(b["pieces"]), where)
            f.say(("bar", mark, "size"), measure.bar_fact(b["size"]), where)
            f.say(("bar", mark, "cut"), _value(b["cut"]), where)
            if str(b["shape"]).startswith("bent"):
                for k, x in enumerate(measure.lengths(b["shape"])):
                    f.say(("bar", mark, "leg %d" % (k + 1)), x, where)


def whole(t):
    """The rows of a table; a name of a place may run on in a line of its own."""
    rows = []
    for row in t.rows:
        if t.kind == "place" and rows and row[0] and not any(row[1:]):
            rows[-1][0] += " " + row[0]
        else:
            rows.append(list(row))
    return rows


def _sheets(d, f):
    plates, numbers = {}, {}
    for p in d.pages:
        where = "sheet %d" % p.number
        for t in p.tables:
            for row in whole(t):
                _row(d, f, p, t, row, where, plates, numbers)
        for kind, m, piece in p.statements:
            _statement(d, f, p, kind, m, piece, where, p.pours[id(piece)])
    for mark, pieces in plates.items():
        wall, n = mark.split(".")
        for a, b, c, where in pieces:
            for what, v in (("from", a), ("to", b), ("length", c)):
                if v is not None:
                    f.say(("plate", "Wall " + wall, int(n), what), v, where)
    for mark, counts in f.pieces.items():
        f.say(("bar", mark, "pieces"), measure.exact(sum(counts)), "sheets")


class Listed:
    """A table of the page for the telephone, as those of the sheets are read."""

    def __init__(self, kind, slab, caption):
        self.kind, self.slab, self.caption = kind, slab, caption


def _phone_facts(d, f):
    plates, numbers, pieces = {}, {}, f.pieces
    f.pieces = {}  # the sheets list each piece too
    called = d.slab_names()
    for caption, rows in d.phone.tables:
        for kind, columns, said in patterns.TABLES:
            heads = [re.fullmatch(c, h) for c, h in zip(columns, rows[0])]
            over = re.fullmatch(said, caption) if said else None
            if len(rows[0]) < len(columns) or not all(heads) or said and not over:
                continue
            groups = {k: v for m in heads + ([over] if over else []) for k, v in m.groupdict().items()}
            slab = next((i for i, n in enumerate(called) if of_slab(caption, n)), 0)
            for row in rows[1:]:
                _row(d, f, None, Listed(kind, slab, groups), row, "phone", plates, numbers)
            break
    for mark, all_of in plates.items():
        wall, n = mark.split(".")
        for a, b, c, where in all_of:
            for what, v in (("from", a), ("to", b), ("length", c)):
                if v is not None:
                    f.say(("plate", "Wall " + wall, int(n), what), v, where)
    for mark, counts in f.pieces.items():
        f.say(("bar", mark, "pieces"), measure.exact(sum(counts)), "phone")
    f.pieces = pieces
    orders = {(l.name, l.unit): l.key for l in d.lines}
    pour = 1
    for text in d.phone.texts:
        m = re.match(patterns.POUR + ": ", text)
        pour = int(m["pour"]) if m else pour
        for kind, pattern in patterns.STATEMENTS:
            m = re.fullmatch(pattern, text) or re.fullmatch(pattern, "• " + text)
            if not m or kind not in ("edge section", "load", "loads", "pour", "saw cuts", "slab volume", "slab top", "order"):
                continue
            if kind == "order":
                key = orders.get((m["name"], m["unit"]))
                if key:
                    f.say(("line", key), measure.number(m["value"]), "phone")
            else:
                _statement(d, f, None, kind, m, None, "phone", pour)


def _row(d, f, p, t, row, where, plates, numbers):
    L = measure.length
    slab = t.slab or 0
    if t.kind == "bolt" and re.fullmatch(patterns.BOLT, row[0] or ""):
        n = int(re.fullmatch(patterns.BOLT, row[0])[1])
        f.say(("bolt", n, "from"), L(row[1] or ""), where)
        f.say(("bolt", n, "to"), L(row[2] or ""), where)
        f.text(("bolt", n, "wall"), t.caption["wall"], where)
    elif t.kind == "dowel" and row[0] and row[0].isdigit():
        key = ("dowel", slab, int(t.caption["a"]))
        numbers.setdefault(key, []).append((int(row[0]), L(row[1] or ""), where))
        n = int(row[0]) - min(x[0] for x in numbers[key]) + 1
        f.say(key + (n, "at"), L(row[1] or ""), where)
        f.say(key + (n, "number"), measure.number(row[0]), where)
    elif t.kind == "plate" and re.fullmatch(r"W\d+\.\d+", row[0] or ""):
        plates.setdefault(row[0], []).append((L(row[1] or ""), L(row[2] or ""), L(row[3] or ""), where))
    elif t.kind == "bar" and row[0]:
        n = measure.number(row[1] or "")
        if n:
            f.pieces.setdefault(row[0], []).append(n.value)
        f.say(("bar", row[0], "size"), measure.bar_fact(row[2] or ""), where)
        f.say(("bar", row[0], "cut"), L(row[3] or ""), where)
    elif t.kind == "form" and row[0]:
        m = re.fullmatch(r"(\d+)–(\d+)", row[0])
        if m:
            key = ("form", slab, int(m[1]))
            f.say(key + (row[1].split(" ", 1)[0], "length"), L(row[2] or ""), where)
            f.say(key + ("deep",), L(row[3] or ""), where)
            f.say(key + ("dig below",), L(row[4] or ""), where)
            f.text(key + ("board",), row[1].split(" ", 1)[-1], where)
    elif t.kind == "diagonal" and row[0]:
        m = re.fullmatch(r"(\d+)–(\d+)", row[0])
        if m:
            f.say(("diagonal", slab, int(m[1]), int(m[2])), L(row[1] or ""), where)
    elif t.kind == "height" and row[0] and row[0].isdigit():
        f.say(("height", slab, int(row[0]), "top"), L(row[1] or ""), where)
        f.say(("height", slab, int(row[0]), "dig to"), L(row[2] or ""), where)
    elif t.kind == "height" and row[0] and re.fullmatch(r"curb \d+–\d+", row[0]) and slab is not None and d.slabs()[slab].get("top", {}).get("curbs") == "level":
        f.say(("height", slab, row[0]), L(row[1] or ""), where)
    elif t.kind == "height" and row[0] and re.match(r"(break,|lip of) ", row[0]):
        f.say(("top at", slab, row[0]), L(row[1] or ""), where)
    elif t.kind == "place" and row[0] and "…" not in row[0]:
        f.say(("place", slab, row[0], "along"), L(row[1] or ""), where)
        f.say(("place", slab, row[0], "off"), L(row[2] or ""), where)
    elif t.kind == "bay" and row[0]:
        f.say(("bay", slab, row[0], "volume"), measure.number(row[1] or ""), where)
    elif t.kind == "wetpad" and row[0]:
        f.say(("wetpad", slab, row[0], "over"), L(row[1] or ""), where)
        f.say(("wetpad", slab, row[0], "up"), L(row[2] or ""), where)
        f.say(("wetpad", slab, row[0], "height"), L(row[3] or ""), where)


def _statement(d, f, p, kind, m, piece, where, pour):
    L = measure.length
    g = m.groupdict()
    if kind == "edge section":
        f.say(("edge section", g["mark"], "depth"), L(g["depth"]), where)
        f.text(("edge section", g["mark"], "name"), g["name"], where)
    elif kind == "section" and not g["mark"]:
        f.text(("only section", g["name"], "name"), g["name"], where)
    elif kind == "lap":
        for q in p.pieces:
            if q.turn == 0 and L(q.text) and 0 < q.y - piece.y < 6 * piece.em and piece.x0 + 20 <= q.x0 < piece.x0 + 170:  # over the dimension, within the detail
                f.say(("lap", measure.bar(g["size"]), "top" if g["top"] else "bottom"), L(q.text), where)
                break
    elif kind == "load":
        f.say(("load", pour, int(g["n"])), measure.number(g["value"]), where)
    elif kind == "loads":
        f.say(("pour", pour, "order"), measure.number(g["order"]), where)
        f.say(("pour", pour, "trucks"), measure.number(g["n"]), where)
    elif kind == "pour":
        f.say(("pour", int(g["pour"]), "day"), measure.number(g["day"]), where)
        f.say(("pour", int(g["pour"]), "order"), measure.number(g["order"]), where)
        if g["n"]:
            f.say(("pour", int(g["pour"]), "trucks"), measure.number(g["n"]), where)
    elif kind == "slab volume":
        f.say(("pour", pour, "net"), measure.number(g["net"]), where)
        f.say(("pour", pour, "order"), measure.number(g["order"]), where)
    elif kind == "saw cuts":
        slab = d.slab_names().index(g["slab"]) if g["slab"] in d.slab_names() else 0
        f.say(("saw cuts", pour, slab), measure.number(g["n"]), where)
    elif kind == "slab top":
        f.say(("slab top", g["slab"]), L(g["top"]), where + ", list")
    elif kind == "pieces drawn":
        what = {"foam sheets": "foam"}.get(g["what"], g["what"])
        f.pieces_drawn[(what, p.slab)] = f.pieces_drawn.get((what, p.slab), 0) + int(g["n"])
    elif kind == "mesh":
        f.say(("mesh bought",), measure.number(g["n"]), where)
    elif kind == "bolt note":
        for what in ("diameter", "length", "deep", "up"):
            f.say(("bolt as drawn", what), L(g[what]), where)
    elif kind == "dowel note":
        f.say(("dowel as drawn", "length"), L(g["length"]), where)
        f.say(("dowel as drawn", "embed"), L(g["embed"]), where)
    elif kind == "frost":
        called = "%s %s" % (g.get("mark") or "", g["name"])  # sections of several slabs may have one name
        f.say(("frost", called.strip(), "depth"), L(g["depth"]), where)
        f.text(("frost", called.strip(), "verdict"), "short by " + g["short"] if g["short"] else "reaches it", where)
    elif kind == "order":
        by_name = {(l.name, l.unit): l.key for l in d.lines}
        key = by_name.get((g["name"], g["unit"]))
        if key:
            f.say(("line", key), measure.number(g["value"]), where)
        elif not re.match(r"(to|in|of|with|ordered|by|waste)\b", g["name"]):
            f.text(("order text", g["name"]), g["name"], where)


def _typed(d, f):
    """What documents repeat of what was typed."""
    said = [("sheet %d" % p.number, t.text) for p in d.pages for t in p.paragraphs]
    said += [("bid", " ".join(t.text for t in paper.paragraphs(p.pieces))) for p in d.bid]
    said += [("workbook, " + title, str(v)) for title, rows in d.book.items() for r in rows for v in r.values() if isinstance(v, str)]
    for what, path, pattern in patterns.TYPED:
        value = slab.setting(d.job, path)
        key = ("typed", what)
        for where, text in said:
            for m in re.finditer(pattern, text):
                v = next(x for x in m.groups() if x is not None)
                f.say(key, measure.length(v) or measure.number(v), where)
        if key in f.of:
            typed = measure.job_length(value) if isinstance(value, str) and not re.fullmatch(r"[\d.]+", value) else Fraction(value)
            f.of[key].insert(0, (measure.exact(typed), "the job file"))
    for what, path in (("length", "length"), ("diameter", "diameter"), ("up", "projection")):
        if ("bolt as drawn", what) in f.of:
            f.say(("bolt as drawn", what), measure.exact(measure.job_length(slab.setting(d.job, "spec.place.bolts." + path))), "the job file")
    if ("bolt as drawn", "deep") in f.of:
        b = [measure.job_length(slab.setting(d.job, "spec.place.bolts." + k)) for k in ("length", "projection")]
        f.say(("bolt as drawn", "deep"), measure.exact(b[0] - b[1]), "the job file")
    for what in ("length", "embed"):
        if ("dowel as drawn", what) in f.of:
            f.say(("dowel as drawn", what), measure.exact(measure.job_length(slab.setting(d.job, slab.dowel(d.job, what)))), "the job file")
    for l in d.lines:
        if l.kind == "mesh":
            f.say(("mesh bought",), measure.exact(l.value), "takeoff.json")


def _bid(d, f):
    for p in d.bid:
        for q in p.pieces:
            for pattern, key in patterns.BID:
                if re.fullmatch(pattern, q.text):
                    for r in p.pieces:
                        if r.text.startswith("$") and abs(r.y - q.y) < 0.6 * q.em + 2 and r.x0 > q.x0:
                            f.say(key, measure.number(r.text), "bid")
        text = " ".join(t.text for t in paper.paragraphs(p.pieces))
        m = re.search(r"(%s) (?:ft²|m²) in area" % patterns.NUM, text)
        if m:
            f.say(("line", "slab area"), measure.number(m[1]), "bid")
