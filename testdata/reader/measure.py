"""Lengths and numbers as documents print them."""

import re
from fractions import Fraction

MM = Fraction(10, 254)  # inches; international yard and pound agreement, 1959

# One length, printed in feet, inches and sixteenths or in millimeters.
LENGTH = r"""[-−+]?(?:\d+'(?:-\d+(?:\s\d+/\d+)?"|\s\d+(?:\s\d+/\d+)?"|\s?\d+/\d+")?|\d+(?:\s\d+/\d+)?"|\d+/\d+"|\d+(?:\.\d+)?\smm)"""
NUMBER = r"[-−+]?\d[\d,]*(?:\.\d+)?"

_feet = re.compile(r"(\d+)'")
_inch = re.compile(r"""^(?:(\d+)\s)?(\d+)/(\d+)"$|^(\d+)"$""")


class Amount:
    """A value with half of the step it is printed to; a length is in inches."""

    def __init__(self, value, half, text=""):
        self.value, self.half, self.text = value, half, text

    def same(self, other):
        if abs(self.value - other.value) <= max(self.half, other.half) * 2 and self.text and self.text == other.text:
            return True
        # Printed alike, both must print the same; else the coarser must be what the finer rounds to.
        if self.half == other.half and self.half > 0:
            return abs(self.value - other.value) < self.half
        return abs(self.value - other.value) <= max(self.half, other.half) * (1 + 1e-6) + 1e-9

    def __repr__(self):
        return self.text or "%g" % float(self.value)


def length(text):
    """The length that a text is, or None."""
    t = text.strip().replace("−", "-").replace(" ", " ").lstrip("+")
    sign = 1
    if t.startswith("-"):
        sign, t = -1, t[1:]
    m = re.fullmatch(r"(\d+(?:\.\d+)?)\smm", t)
    if m:
        digits = len(m[1].split(".")[1]) if "." in m[1] else 0
        return Amount(sign * Fraction(m[1]) * MM, Fraction(1, 2 * 10 ** digits) * MM, text.strip())
    inches = Fraction(0)
    m = _feet.match(t)
    if m:
        inches, t = Fraction(12 * int(m[1])), t[m.end():].lstrip("- ")
        if t == "":
            return Amount(sign * inches, Fraction(1, 32), text.strip())
    m = _inch.match(t)
    if not m:
        return None
    if m[4]:
        inches += int(m[4])
    else:
        if int(m[3]) == 0:
            return None
        inches += int(m[1] or 0) + Fraction(int(m[2]), int(m[3]))
    return Amount(sign * inches, Fraction(1, 32), text.strip())


def lengths(text):
    """Every length in a text, in order."""
    return [length(m) for m in re.findall(LENGTH, text)]


def number(text):
    """The number that a text is, with its printed precision, or None."""
    t = text.strip().replace("−", "-").replace(",", "").lstrip("+").lstrip("$")
    m = re.fullmatch(r"-?\d+(?:\.(\d+))?", t)
    if not m:
        return None
    return Amount(Fraction(t), Fraction(1, 2 * 10 ** len(m[1] or "")), text.strip())


MILLIMETERS = 1000


def bar(size):
    """A bar size as a number: 4 for No. 4, MILLIMETERS + 12 for 12 mm (Ø12)."""
    if isinstance(size, (int, float)):
        return int(size)
    m = re.fullmatch(r"(?:Ø\s*)?(\d+)(?:\s*mm)?", str(size).replace("No.", "").strip())
    if not m:
        return None
    return int(m[1]) + (MILLIMETERS if "Ø" in str(size) or "mm" in str(size) else 0)


def bar_fact(size):
    """A bar size as a fact to compare, or None."""
    n = bar(size)
    return None if n is None else Amount(Fraction(n), Fraction(1, 2), str(size))


def exact(value):
    """A value held in full, as a workbook or JSON holds it."""
    return Amount(Fraction(value), 0)


def job_length(text):
    """A length of the job file in inches."""
    t = text.strip()
    if t in ("0", ""):
        return Fraction(0)
    sign = 1
    if t.startswith("-"):
        sign, t = -1, t[1:].strip()
    m = re.fullmatch(r"([\d.]+)\s*(mm|cm|m|in|ft)", t)
    if m:
        unit = {"mm": MM, "cm": MM * 10, "m": MM * 1000, "in": 1, "ft": 12}[m[2]]
        return sign * Fraction(m[1]) * unit
    total = Fraction(0)
    m = re.match(r"([\d.]+)'\s*-?\s*", t)
    if m:
        total, t = Fraction(m[1]) * 12, t[m.end():]
    m = re.fullmatch(r"""(?:([\d.]+)(?:\s+(\d+)/(\d+))?|(\d+)/(\d+))?"?""", t)
    if not m:
        raise ValueError("length %r" % text)
    if m[1]:
        total += Fraction(m[1])
    if m[2]:
        total += Fraction(int(m[2]), int(m[3]))
    if m[4]:
        total += Fraction(int(m[4]), int(m[5]))
    return sign * total


def printed(value, metric):
    """How a document prints a length in inches: the value rounded to what is printed."""
    step = MM if metric else Fraction(1, 16)
    n = Fraction(value) / step
    return Amount(Fraction(value), step / 2)


def shown(value, metric):
    """A length in inches as a person writes it, for messages."""
    value = Fraction(value).limit_denominator(10 ** 6)
    if metric:
        return "%d mm" % round(value / MM)
    n = round(abs(value) * 16)
    feet, n = divmod(n, 192)
    inches, part = divmod(n, 16)
    text = ("%d'-" % feet if feet else "") + str(inches)
    if part:
        f = Fraction(part, 16)
        text += " %d/%d" % (f.numerator, f.denominator)
        if not feet and not inches:
            text = "%d/%d" % (f.numerator, f.denominator)
    return ("-" if value < 0 and (feet or n) else "") + text + '"'
