#!/usr/bin/env python3
"""Prices three jobs by hand, line by line, and writes a table of each.

Nothing here is the program's: every quantity is worked out from the sizes that the
job's drawing shows, by the rules as README and the guides say them, and the words
beside it say how. Prices, packs and rates are read from the lists beside this file,
and multiplied as with a pocket calculator: every amount to the cent, halves up.

    python3 price.py            writes patio.csv, garage.csv and addition.csv
"""
import csv, json, math, os
from decimal import Decimal as D, ROUND_HALF_UP, ROUND_CEILING
from fractions import Fraction as F

HERE = os.path.dirname(os.path.abspath(__file__))
CENT = D("0.01")
YARD = F(764554857984, 10**12)  # m³ in a yd³, NIST SP 811
POUND = F(45359237, 10**8)      # kg


def cent(v): return dec(v).quantize(CENT, ROUND_HALF_UP)


def dec(v):
    """A fraction as a decimal with more digits than any amount asks for."""
    return v if isinstance(v, D) else D(F(v).numerator) / D(F(v).denominator)


def up(v): return math.ceil(F(v))


class Job:
    def __init__(self, name, prices):
        self.name = name
        with open(os.path.join(HERE, prices)) as f:
            self.list = json.load(f)
        self.rows, self.sums = [], {"Material": D(0), "Labor": D(0), "Fee": D(0)}

    def put(self, kind, line, need, bought, amount, how):
        self.rows.append([kind, line, "%.6f" % float(need), str(bought), str(amount), how])
        if kind in self.sums: self.sums[kind] += amount

    def buy(self, name, need, how, price=None, called=None, others=False):
        """A material: whole packs, or hundredths of what is sold loose, shared by its uses."""
        it = next(i for i in self.list["items"] if i["name"] == name)
        need = F(need).limit_denominator(10**12)
        packs = dec(round(need, 6)) / D(it.get("pack", "1"))
        n = packs.quantize(CENT if it.get("loose") else D(1), ROUND_CEILING)
        each = D(it["price"]) if price is None else cent(price(D(it["price"])))
        amount = D(0) if others else cent(n * each / it.get("uses", 1))
        self.put("Material", called or name, need, n, amount, how)

    def work(self, name, need, how):
        t = next(i for i in self.list["tasks"] if i["name"] == name)
        hours = D(t.get("each", "0"))
        if "rate" in t:
            hours += cent(dec(round(F(need), 6)) / D(t["rate"]))
        self.put("Labor", name, need, hours, cent(hours * D(self.list["wage"])), how)

    def fee(self, name, times, how):
        f = next(i for i in self.list["fees"] if i["name"] == name)
        n = dec(round(F(times), 6))
        self.put("Fee", name, times, n, cent(n * D(f["amount"])), how)

    def once(self, kind, name, amount, how):
        self.put(kind, name, 1, 1, D(amount), how)

    def bid(self, overhead=10, profit=15, margin=False, labor=0, least=0, round_to=0, tax=6, on_all=False):
        """From cost to bid; the defaults are those of a job that says nothing of it."""
        cost = sum(self.sums.values())
        over = cent(cost * overhead / 100)
        marked = cent(self.sums["Labor"] * labor / 100)
        burdened = cost + over + marked
        gain = cent(burdened * profit / (100 - profit)) if margin else cent(burdened * profit / 100)
        price = max(burdened + gain, D(least))
        taxes = lambda p: cent((p if on_all else self.sums["Material"]) * tax / 100)
        if round_to:
            total = price if on_all else price + taxes(price)
            price += (total / round_to).quantize(D(1), ROUND_CEILING) * round_to - total
        for label, v, how in (("Cost", cost, "materials %s + labor %s + fees %s" % tuple(self.sums.values())), ("Overhead", over, "%s %% of cost" % overhead),
                              ("Markup", marked, "%s %% of labor" % labor), ("Profit", gain, "%s %% of %s" % (profit, "the price" if margin else "cost, overhead and markup")),
                              ("Price", price, "with what brings it up to the least charge and to a round bid"), ("Tax", taxes(price), "%s %% of %s" % (tax, "the price" if on_all else "materials")),
                              ("Bid", price + taxes(price), "price and tax")):
            self.put("Sum", label, 0, 0, cent(v), how)
        with open(os.path.join(HERE, self.name + ".csv"), "w", newline="") as f:
            w = csv.writer(f, lineterminator="\n")
            w.writerow(["kind", "line", "needed", "bought or hours", "amount", "how it is found"])
            w.writerows(self.rows)


def per_foot(feet): return lambda p: p * feet


def patio():
    """15 by 12 ft, 4 in thick, no haunch, no steel, no retarder; 4 in of gravel; its top
    6 in above the ground."""
    j = Job("patio", "feet.json")
    area, around = 15 * 12, 2 * (15 + 12)
    concrete = F(5, 2)  # 180 × 1/3 = 60 ft³ = 2.222 yd³; 5 % more 2.333; up to quarters
    boards = around + 4 * F(3, 24)  # each runs past one corner by its thickness of 1-1/2 in
    stakes, kickers = 2 * (5 + 1 + 4 + 1), 2 * (4 + 3)
    dug = F(area, 27) * F(2, 12)  # 4 + 4 in down from a top 6 in up
    gravel = F(area, 27) * F(4, 12) * F(12, 10) * F(14, 10)
    j.buy("Concrete to order", concrete, "180 ft² × 4 in = 2.222 yd³, 5 % waste, up to a quarter yard")
    j.buy("Water reducer", concrete, "for the concrete ordered")
    j.buy("Form board 2x4", 4, "two of 15 ft 1-1/2 in and two of 12 ft 1-1/2 in, each from a board of 16 ft: no two from one", per_foot(16), "Form board 2x4 × 16'-0\"")
    j.buy("Stakes", stakes, "15 ft at most 3 ft apart are 5 spaces and 6 stakes; 12 ft are 4 and 5; twice")
    j.buy("Kickers", kickers, "15 ft at most 4 ft apart are 4, 12 ft are 3; twice")
    j.buy("Form release", boards * F(7, 24), "54 ft 6 in of boards 3-1/2 in wide")
    j.buy("Stakes for kickers", kickers, "one each")
    j.buy("Duplex nails", 2 * stakes + 3 * kickers, "2 a stake, 3 a kicker; no boards are joined")
    j.buy("String and paint", around, "once around")
    j.buy("Gravel, weight", gravel, "180 ft² × 4 in, 1.2 loose, 1.4 ton/yd³")
    j.buy("Curing compound", area, "the top")
    j.work("Lay out and set up", 0, "once")
    j.work("Dig to grade", dug, "8 in of slab and gravel, of which 6 in stand above the ground: 2 in of 180 ft²")
    j.work("Grade and compact base", area, "180 ft²")
    j.work("Set forms", boards, "54 ft and four times 1-1/2 in past a corner")
    j.work("Place and finish", area, "180 ft² and 2 h")
    j.work("Make saw cuts", 12 + 15, "panels at most 10 ft: one cut each way")
    j.work("Cure", area, "180 ft²")
    j.work("Strip and clean forms", boards, "as set")
    j.fee("Truck fee", 1, "2.5 yd³ on one truck")
    j.fee("Short load", 4 - concrete, "1.5 yd³ short of the plant's 4")
    j.fee("Excavator", dug, "as dug")
    j.fee("Power trowel", 1, "once")
    j.fee("Saw and blade", 27, "27 ft")
    j.fee("Hauling off", dug * F(5, 4), "as dug, a quarter more when loose")
    j.fee("Compactor", 1, "once, for the base")
    j.fee("Laser", 1, "once")
    j.fee("Fuel and environmental fee", 1, "one truck")
    j.fee("Wash-out", 1, "one truck")
    j.bid()


def garage():
    """18 by 14 ft, field 6 in, edges 12 in deep, 12 in flat and 12 in taper; walls of 2x6
    all round; 4 in of gravel and 2 in of foam under the field alone; 10 mil retarder; its
    top 8 in above the ground. Labor is marked up by 10 %, the bid goes up to 25."""
    j = Job("garage", "feet.json")
    area, around = 18 * 14, 64
    # Concrete. Round a rectangle, what is d ft from the nearest edge is 64 - 8d ft long.
    # Beyond the field of 6 in it is 6 in deeper to d = 1, and then tapers off to d = 2; by u = 2 - d
    # that is u/2 ft over 48 + 8u ft:
    #   1/2 × (64 - 4) + integral over u of u/2 × (48 + 8u) = 30 + 12 + 4/3 = 43-1/3 ft³.
    concrete = F(27, 4)  # (126 + 43.333) ft³ = 6.272 yd³; 5 % more 6.585; up to quarters
    # Digging: under the field 6 + 6 in are 4 in below the ground, on 14 by 10 ft; the flat 4 in, on 60 ft²;
    # the taper 6u - 2 in from u = 1/3 on: integral of (u/2 - 1/6) × (48 + 8u) = [34/3 u² + 4/3 u³ - 8u].
    taper = lambda u: F(34, 3) * u**2 + F(4, 3) * u**3 - 8 * u
    dug = (F(140 + 60, 3) + taper(1) - taper(F(1, 3))) / 27
    filled = -taper(F(1, 3)) / 27  # where the taper stays above the ground
    bars = 2 * (2 * (18 - F(1, 2)) + 2 * (14 - F(1, 2)))
    boards = around + 4 * F(3, 24)
    stakes, kickers = 2 * (7 + 1 + 5 + 1), 2 * (5 + 4)
    beside = boards * (F(45, 4) - 8) / 12 / 27
    gravel = F(140, 27) * F(4, 12) * F(12, 10) * F(14, 10)
    bolts = 2 * (4 + 2) + 2 * 4
    j.buy("Concrete to order", concrete, "126 ft³ of field and 43-1/3 ft³ of edges = 6.272 yd³, 5 % waste, up to a quarter yard")
    j.buy("Water reducer", concrete, "for the concrete ordered")
    j.buy("Bar No. 4", 8, "two rows of 17 ft 6 in and 13 ft 6 in, crossed at corners, 3 in short of both ends: one from a bar of 20 ft", per_foot(20), "Bar No. 4 × 20'-0\"")
    j.buy("Supports for edge bars", up(bars / 4), "124 ft of bars, one every 4 ft")
    j.buy("Tie wire", bars * F(668, 1000) * F(6, 1000), "124 ft × 0.668 lb, 0.6 % of it")
    j.buy("Sill plate 2x6, treated", 5, "by others: four of 13 ft 6-1/2 in and two of 4 ft; of a board of 16 ft no two long ones, and the two short ones from one", per_foot(16), "Sill plate 2x6 × 16'-0\", treated", others=True)
    j.buy("Form board 2x12", 4, "two of 16 ft for 18 ft 1-1/2 in, two for 14 ft 1-1/2 in", per_foot(16), "Form board 2x12 × 16'-0\"")
    j.buy("Form board 2x12", 1, "the two rests of 2 ft 1-1/2 in", per_foot(10), "Form board 2x12 × 10'-0\"")
    j.buy("Stakes", stakes, "18 ft: 6 spaces to the joint at 16 ft, one beyond, 8 stakes; 14 ft: 5 spaces, 6 stakes; twice")
    j.buy("Kickers", kickers, "18 ft at most 4 ft apart are 5, 14 ft are 4; twice")
    j.buy("Form release", boards * F(45, 48), "64 ft 6 in of boards 11-1/4 in wide")
    j.buy("Stakes for kickers", kickers, "one each")
    j.buy("Scabs where boards meet", 2, "one on each long side")
    j.buy("Duplex nails", 2 * stakes + 3 * kickers + 8 * 2, "2 a stake, 3 a kicker, 8 a joint")
    j.buy("String and paint", around, "once around")
    j.buy("Gravel, weight", gravel, "14 by 10 ft × 4 in, 1.2 loose, 1.4 ton/yd³")
    j.buy("Foam", 5, "14 by 10 ft: two whole sheets, two of 6 ft, and the last 2 ft of both from a fifth", lambda p: p * 2 * 32, "Foam 2\", 4'-0\" × 8'-0\" sheets")
    j.buy("Vapor retarder 10 mil", 1, "15 ft 3 in of a roll 20 ft wide and 100 ft long", lambda p: p * 2000, "Vapor retarder 10 mil, 20'-0\" × 100'-0\" rolls")
    j.buy("Fill, loose", filled * F(12, 10), "under the upper third of the taper, 1.2 loose")
    j.buy("Anchor bolts 1/2\" × 10\", bent", bolts, "plates of 17 ft 6-1/2 in cut in two, of 13 ft 6-1/2 in whole; 8 in from ends and at most 5 ft apart: 4 and 2, and 4; twice")
    j.buy("Washers with nuts", bolts, "one each", called="Washers with nuts, 3\" wide")
    j.buy("Curing compound", area, "the top")
    j.buy("Caps for bars and bolts", bolts, "one a bolt")
    j.work("Lay out and set up", 0, "once")
    j.work("Dig to grade", dug, "field 46.667, flats 20, tapers 6.025 ft³")
    j.work("Grade and compact base", 140, "14 by 10 ft")
    j.work("Set forms", boards, "64 ft and four times 1-1/2 in past a corner")
    j.work("Lay foam", 140, "14 by 10 ft")
    drape = F(math.sqrt(180) - 12)  # a slope of 12 in across and 6 in down, longer than in plan, in
    j.work("Lay vapor retarder", (18 + (12 + 2 * drape) / 12) * (14 + (12 + 2 * drape) / 12), "turned up 6 in and 1.416 in longer on the slope, at both ends, both ways")
    j.work("Tie edge bars", bars, "124 ft")
    j.work("Place and finish", area, "252 ft² and 2 h")
    j.work("Set anchor bolts", bolts, "20")
    j.work("Make saw cuts", 14 + 18, "panels at most 15 ft, the longer side at most 1.5 times the shorter: one cut each way")
    j.work("Cure", area, "252 ft²")
    j.work("Strip and clean forms", boards, "as set")
    j.work("Dig beside the boards", beside, "1 ft wide, from 8 in up to the boards' bottom at 11-1/4 in")
    j.work("Place and compact fill", filled, "1.358 ft³")
    j.work("Backfill", beside, "as dug beside the boards")
    j.fee("Truck fee", 1, "6.75 yd³ on one truck")
    j.fee("Excavator", dug, "as dug")
    j.fee("Power trowel", 1, "once")
    j.fee("Saw and blade", 32, "32 ft")
    j.fee("Excavator, beside the boards", beside, "as dug beside the boards")
    j.fee("Hauling off", dug * F(5, 4), "as dug, a quarter more when loose")
    j.fee("Compactor", 1, "once, for the base")
    j.fee("Laser", 1, "once")
    j.fee("Fuel and environmental fee", 1, "one truck")
    j.fee("Wash-out", 1, "one truck")
    j.once("Fee", "Mobilization", "150", "as the job says")
    j.once("Material", "Trench drain", "240", "as the job says, taxed as material")
    j.bid(labor=10, round_to=25)


def addition():
    """6 by 4 m, 150 mm thick, edges 300 mm deep and wide on three sides, doweled to an
    old slab on the fourth; no edge bars; 100 mm of gravel following the haunches; pumped.
    The profit is a margin, tax is on the whole price, and no job is done for less than 5500."""
    j = Job("addition", "metric.json")
    area, around = 24, 20
    concrete = F(9, 2)  # 24 × 0.15 + (6 × 0.3 + 2 × 3.7 × 0.3) × 0.15 = 4.203 m³; 5 % more 4.413; up to quarters
    dug = F(24, 10) + F(402, 100) * F(15, 100)
    board = F(381, 10000)
    boards = 14 + 2 * board
    stakes, kickers = 9 + 6 + 6, 5 + 4 + 4
    beside = boards * (F(28575, 100000) - F(15, 100)) * F(3048, 10000)
    gravel = F(288, 100) / YARD * F(14, 10) * 2000 * POUND / 1000
    dowels = 1 + up(F(6000 - 300, 450))
    hole = F(math.pi) / 4 * (F(157, 10)**2 - F(127, 10)**2) * 200 / 1000  # ml
    j.buy("Concrete to order", concrete, "3.6 m³ of field, 4.02 m² of edges 150 mm deeper, 5 % waste, up to a quarter")
    j.buy("Water reducer", concrete, "for the concrete ordered")
    j.buy("Bar No. 4", 1, "14 dowels of 400 mm, 5.6 m, from a bar of 6096 mm", lambda p: p * D("6.096"), "Bar No. 4 × 6096 mm")
    j.buy("Form board 2x12", 3, "5 m of 6.04 m, and two sides of 4 m", lambda p: p * 5, "Form board 2x12 × 5000 mm")
    j.buy("Form board 2x12", 1, "the rest of 1.04 m", lambda p: p * 3, "Form board 2x12 × 3000 mm")
    j.buy("Stakes", stakes, "6 m: 6 spaces to the joint at 5 m, 2 beyond, 9 stakes; 4 m: 5 spaces, 6 stakes, twice")
    j.buy("Kickers", kickers, "at most 1.2 m apart: 5, 4 and 4")
    j.buy("Form release", boards * F(28575, 100000), "14.076 m of boards 285.75 mm wide")
    j.buy("Stakes for kickers", kickers, "one each")
    j.buy("Scabs where boards meet", 1, "on the long side")
    j.buy("Duplex nails", 2 * stakes + 3 * kickers + 8, "2 a stake, 3 a kicker, 8 a joint")
    j.buy("String and paint", around, "once around")
    j.buy("Gravel, weight", gravel, "24 m² × 100 mm, 1.2 loose = 2.88 m³, 1.4 short tons a yd³")
    j.buy("Adhesive for dowels", hole * dowels * F(12, 10), "hole 3 mm over a bar of 12.7 mm, 200 mm deep, 20 % waste")
    j.buy("Curing compound", area, "the top")
    j.buy("Caps for bars and bolts", dowels, "one a dowel")
    j.work("Lay out and set up", 0, "once")
    j.work("Dig to grade", dug, "100 mm under the field, 150 mm more under 4.02 m² of edges")
    j.work("Grade and compact base", area, "24 m²: the haunches' sides are steps")
    j.work("Set forms", boards, "three sides, twice 38.1 mm past a corner")
    j.work("Drill and set dowels", dowels, "6 m less 150 mm at both ends, at most 450 mm apart")
    j.work("Place and finish", area, "24 m² and 2 h")
    j.work("Make saw cuts", 4, "panels at most 4.5 m: one cut across")
    j.work("Cure", area, "24 m²")
    j.work("Strip and clean forms", boards, "as set")
    j.work("Dig beside the boards", beside, "0.3048 m wide, from 150 mm to the boards' bottom at 285.75 mm")
    j.work("Backfill", beside, "as dug beside the boards")
    j.fee("Truck fee", 1, "4.5 m³ on one truck")
    j.fee("Excavator", dug, "as dug")
    j.fee("Power trowel", 1, "once")
    j.fee("Saw and blade", 4, "4 m")
    j.fee("Drill and bits", dowels, "each hole")
    j.fee("Excavator, beside the boards", beside, "as dug beside the boards")
    j.fee("Hauling off", dug * F(5, 4), "as dug, a quarter more when loose")
    j.fee("Compactor", 1, "once, for the base")
    j.fee("Laser", 1, "once")
    j.fee("Fuel and environmental fee", 1, "one truck")
    j.fee("Wash-out", 1, "one truck")
    j.fee("Pump, coming and set-up", 1, "it is pumped")
    j.fee("Pump", concrete, "for the concrete ordered")
    j.fee("Hose and priming", 1, "it is pumped")
    j.bid(margin=True, least=5500, tax=7, on_all=True)


if __name__ == "__main__":
    patio()
    garage()
    addition()
