"""The text of a PDF as poppler's pdftotext reads it: what stands where.

Words come in the order in which they are drawn, so that a text that runs
slantwise, of which pdftotext gives letter by letter, is put together again."""

import html
import math
import re
import subprocess

_word = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')
_page = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
_path = re.compile(r'<path style="([^"]*)" d="([^"]*)"(?: transform="matrix\(([^)]*)\)")?')


class Piece:
    """A text as it was drawn, with its box in points from the page's upper left corner."""

    def __init__(self, text, x0, y0, x1, y1, turn, em):
        self.text, self.x0, self.y0, self.x1, self.y1, self.turn, self.em = text, x0, y0, x1, y1, turn, em
        self.last = (x0, y0, x1, y1)

    @property
    def y(self):
        return (self.y0 + self.y1) / 2

    @property
    def x(self):
        return (self.x0 + self.x1) / 2

    def __repr__(self):
        return "%r@%.0f,%.0f" % (self.text, self.x0, self.y0)


class Page:
    def __init__(self, number, width, height):
        self.number, self.width, self.height = number, width, height
        self.pieces = []
        self.words = []
        self.file = None

    @property
    def drawn(self):
        """The lines and triangles drawn on the page, as poppler's pdftocairo reads them, when
        first asked for."""
        if not hasattr(self, "_drawn"):
            n = str(self.number)
            self._drawn = drawn(subprocess.run(["pdftocairo", "-svg", "-f", n, "-l", n, self.file, "-"], capture_output=True, text=True, check=True).stdout)
        return self._drawn

    def led(self, p):
        """Where the leaders of a piece of text end: lines from beside its box to an arrow's tip."""
        lines, triangles = self.drawn
        by = lambda q: p.x0 - LEADER <= q[0] <= p.x1 + LEADER and p.y0 - LEADER <= q[1] <= p.y1 + LEADER
        return [b for ends in lines for a, b in (ends, ends[::-1])
                if by(a) and not by(b) and any(math.dist(b, v) < 1.5 for t in triangles for v in t)]


# How far off the box of a text its leader begins, at most, in points: somewhat more than a
# millimeter.
LEADER = 4.0


def drawn(svg):
    """The lines of two ends and the full triangles that an SVG of pdftocairo draws, in points
    from the upper left corner."""
    lines, triangles = [], []
    for style, way, matrix in _path.findall(svg):
        v = re.fullmatch(r"M ([-\d.]+) ([-\d.]+) L ([-\d.]+) ([-\d.]+)(?: L ([-\d.]+) ([-\d.]+))?(?: Z)?[ \d.M-]*", way)
        if v:
            a, b, c, e, u, w = (float(n) for n in matrix.split(",")) if matrix else (1, 0, 0, 1, 0, 0)
            n = [float(n) for n in v.groups() if n]
            at = tuple((a * x + c * y + u, b * x + e * y + w) for x, y in zip(n[::2], n[1::2]))
            if len(at) == 2 and "fill:none" in style:
                lines.append(at)
            elif len(at) == 3 and "fill:none" not in style:
                triangles.append(at)
    return lines, triangles


def _continues(p, w):
    """How word w goes on after piece p: None if not, else the text between."""
    x0, y0, x1, y1, _ = w
    a = p.last
    h, hw = a[3] - a[1], y1 - y0
    v, vw = a[2] - a[0], x1 - x0
    em = p.em
    if p.turn in (None, 0) and abs(hw - em) < 0.02 * em:  # level
        gap, shift = x0 - a[2], y0 - a[1]
        if abs(shift) < 0.02 * em and p.turn != "slant" and -0.05 * em <= gap < 0.3 * em:
            return (" " if gap > 0.1 * em else ""), 0
    if p.turn in (None, 90) and abs(vw - em) < 0.02 * em and abs(v - em) < 0.02 * em and abs(x0 - a[0]) < 0.02 * em:  # upright, both words
        for gap in (a[1] - y1, y0 - a[3]):
            if -0.05 * em <= gap < 0.3 * em:
                return (" " if gap > 0.1 * em else ""), 90
    letters = len(w[4]) == 1 and (p.turn == "slant" or len(p.text) == 1)
    flat = all(re.fullmatch(r"[\d'\"/-]{1,5}|mm|m", t) for t in (w[4], p.text.split(" ")[-1][-5:]))  # a length that runs nearly level
    if p.turn in (None, "slant") and (letters or flat):
        # Slantwise: the boxes follow one another along one axis and shift along the other.
        for along, across, size, other in (((x0 - a[2], a[0] - x1), y0 - a[1], hw, h), ((y0 - a[3], a[1] - y1), x0 - a[0], vw, v)):
            if abs(size - em) > 0.02 * em or abs(other - em) > 0.02 * em:
                continue
            for gap in along:
                if -0.05 * em <= gap < 0.35 * em and 0.02 * em < abs(across) < (1.2 if letters else 0.6) * em:
                    return (" " if gap > 0.1 * em else ""), "slant"
    return None


def _pieces(words):
    out = []
    p = None
    for w in words:
        x0, y0, x1, y1, text = w
        if p is not None:
            for em in ([p.em] if p.turn is not None else _ems(p.last)):
                p.em = em
                c = _continues(p, w)
                if c:
                    break
            if c:
                p.text += c[0] + text
                p.turn = c[1]
                p.x0, p.y0, p.x1, p.y1 = min(p.x0, x0), min(p.y0, y0), max(p.x1, x1), max(p.y1, y1)
                p.last = (x0, y0, x1, y1)
                continue
            _settle(p)
        p = Piece(text, x0, y0, x1, y1, None, 0)
        out.append(p)
    if p is not None:
        _settle(p)
    return out


def _ems(box):
    """The heights of letters that a word's box may have: its height or, upright, its width."""
    return box[3] - box[1], box[2] - box[0]


def _settle(p):
    if p.turn is None:
        w, h = p.x1 - p.x0, p.y1 - p.y0
        p.turn = 90 if len(p.text) > 1 and h > w * 1.2 else 0
        p.em = w if p.turn == 90 else h


def read(file):
    """The pages of a PDF."""
    out = subprocess.run(["pdftotext", "-raw", "-bbox", file, "-"], capture_output=True, text=True, check=True).stdout
    pages = []
    for line in out.splitlines():
        m = _page.search(line)
        if m:
            pages.append(Page(len(pages) + 1, float(m[1]), float(m[2])))
            continue
        m = _word.search(line)
        if m:
            pages[-1].words.append(tuple(float(m[i]) for i in range(1, 5)) + (html.unescape(m[5]),))
    for p in pages:
        p.pieces = _pieces(p.words)
        p.file = file
    return pages


class Paragraph:
    """Level pieces that run on over lines."""

    def __init__(self, first):
        self.lines, self.text = [first], first.text

    def add(self, piece):
        self.lines.append(piece)
        self.text += " " + piece.text


def paragraphs(pieces):
    """Level pieces joined where a text runs on over lines."""
    out = []
    for p in pieces:
        if p.turn != 0:
            continue
        if out:
            first, last = out[-1].lines[0], out[-1].lines[-1]
            step = p.y0 - last.y0
            new = re.match(r"[•!]|\d+ × (No\.|Ø\d+|\d+x\d+) ", p.text)
            if not new and abs(p.em - last.em) < 0.02 * p.em and 0.9 * p.em < step < 1.35 * p.em and -1.0 * p.em < p.x0 - first.x0 < 1.8 * p.em:
                out[-1].add(p)
                continue
        out.append(Paragraph(p))
    return out


def table(page, columns, start=0):
    """Tables on a page under a row of headings, given as regular expressions.

    Yields for each: the pieces of the headings, and rows of cells (a text or
    None for each column). Headings repeated side by side are tables of their own."""
    n = len(columns)
    ps = page.pieces
    i = start
    while i + n <= len(ps):
        head = ps[i:i + n]
        if all(h.turn == 0 and re.fullmatch(c, h.text) for h, c in zip(head, columns)) and \
                all(abs(h.y - head[0].y) < 0.3 * head[0].em for h in head) and all(head[k].x0 < head[k + 1].x0 for k in range(n - 1)):
            yield head, _rows(page, head, i + n)
            i += n
        else:
            i += 1


def _rows(page, head, after):
    em = head[0].em
    n = len(head)
    below = [p for p in page.pieces[after:] if p.turn == 0 and p.y > head[0].y + 0.5 * em and
             p.x1 > head[0].x0 - 0.45 * em and p.x0 < head[-1].x1 + 0.45 * em]
    rows, y = [], head[0].y
    lines = {}
    for p in below:
        for k in lines:
            if abs(k - p.y) < 0.3 * em:
                lines[k].append(p)
                break
        else:
            lines[p.y] = [p]
    step = None
    for k in sorted(lines):
        gap = k - y
        if gap > (2.2 * em if step is None else 1.35 * step):
            break
        cells = [None] * n
        fits = True
        for p in sorted(lines[k], key=lambda p: p.x0):
            c = _column(p, head, em)
            if c is None:
                fits = False
                break
            cells[c] = p.text if cells[c] is None else cells[c] + " " + p.text
        if not fits or cells[0] is None and all(c is None for c in cells[1:]):
            break
        if step is None:
            step = max(gap, em)
        rows.append(cells)
        y = k
    return rows


def _column(p, head, em):
    """The column that a cell belongs to: aligned with a heading's left or right, or over it."""
    best, found = 2.0 * em, None
    for c, h in enumerate(head):
        for d in (abs(p.x0 - h.x0), abs(p.x1 - h.x1)):
            if d < best and d < 0.6 * em:
                best, found = d, c
    if found is not None:
        return found
    for c, h in enumerate(head):
        over = min(p.x1, h.x1) - max(p.x0, h.x0)
        if over > 0.3 * min(p.x1 - p.x0, h.x1 - h.x0):
            return c
    return None


# How far out from its corner a mark stands, about, and how far apart the places lie, at most, at
# which the marks of two corners let a slab be, in points: some give way to what stands there.
OUT, MARKS = 18.0, 40.0


def outward(corners, k):
    """Which way a corner's mark stands from it: outside, between the two sides."""
    n = len(corners)
    area = sum(corners[i][0] * corners[(i + 1) % n][1] - corners[(i + 1) % n][0] * corners[i][1] for i in range(n))
    x = y = 0.0
    for i in (k - 1, k):
        dx, dy = corners[(i + 1) % n][0] - corners[i][0], corners[(i + 1) % n][1] - corners[i][1]
        l = math.copysign(math.hypot(dx, dy) or 1.0, area)
        x, y = x + dy / l, y - dx / l
    l = math.hypot(x, y) or 1.0
    return x / l, y / l


def plans(page, slabs, scale):
    """Where slabs lie on a page: (slab's number, points for an inch, x, y of the site's origin).

    slabs gives the corners of each in inches. The marks of the corners stand outside
    near them: the place that most of them agree on is the slab's, and best where as many
    do, as beside a slab that is nearly as large."""
    out = []
    for i, corners in slabs:
        votes = []
        for k, (x, y) in enumerate(corners):
            ox, oy = outward(corners, k)
            for p in page.pieces:
                if p.text == str(k + 1) and p.turn == 0:
                    votes.append((k, p.x - x * scale - OUT * ox, p.y + y * scale + OUT * oy))
        best, spread = [], 0
        for k, x, y in votes:
            near = {}
            for l, u, v in votes:
                d = math.hypot(u - x, v - y)
                if d < MARKS and (l not in near or d < near[l][0]):
                    near[l] = (d, u, v)
            apart = sum(n[0] for n in near.values())
            if (len(near), -apart) > (len(best), -spread):
                best, spread = list(near.values()), apart
        if len(best) >= 2:
            out.append((i, scale, sum(b[1] for b in best) / len(best), sum(b[2] for b in best) / len(best)))
    return out
