"""What the documents say where: the one place to change when they say it otherwise.

A quantity is called by a tuple, its kind first. Groups of the patterns carry
its parts; LEN and NUM stand for a printed length and number."""

import measure

LEN = measure.LENGTH
NUM = measure.NUMBER

# Tables of the sheets: name, headings, and the text before them that says whose
# they are (searched in the last texts drawn before the headings).
TABLES = [
    ("bolt", [r"Bolt", r"from (?P<a>\d+|one end)", r"from (?P<b>\d+|the other)"], r"(?P<wall>Wall \w+), .*"),
    ("dowel", [r"Dowel", r"Mark"], r"(?:.*: )?(?:Dowels, )?tape from (?P<a>\d+) to \d+(?:, continued)?"),
    ("plate", [r"Plate", r"From", r"To", r"Length"], None),
    ("trench", [r"Where", r"Wide", r"Side", r"Concrete", r"Dig"], None),
    ("opening", [r"Opening", r"Side", r"From", r"Wide"], None),
    ("bar", [r"Mark", r"Pieces", r"(?:No\.|Size)", r"Cut", r"(?:Shape|Pin)"], None),
    ("form", [r"Side", r"Board", r"Long", r"Deep", r"Dig.*"], None),
    ("diagonal", [r"Corners", r"Length"], None),
    ("height", [r"Corner", r"Top", r"Dig to"], None),
    ("place", [r"What", r"Along .*", r"Square off"], None),
    ("offset", [r"Corner", r"Along .*", r"Square off"], None),
    ("bay", [r"Bay", r"(?:yd³|m³)", r"Used", r"Min", r"Done", r"Load"], None),
    ("wetpad", [r"Mark", r"(?:Over|Along .*)", r"(?:Up|Square off)", r"Height"], None),
    ("aside", [r"Mark", r"What", r"Text"], None),
    ("piece", [r"Width", r"Length", r"Pieces"], None),
]

# A bolt's mark: the builder's own are starred, hold-downs say so.
BOLT = r"A(\d+)(?: ?(?:HD|\*))*"

# What is of one pour, where construction joints divide a job into several: it begins the
# title of a block on the sheets, and names a row of the workbook.
POUR = r"Pour (?P<pour>\d+), day (?P<day>\d+)"

# The ends of a construction joint in the table of places.
JOINT_ENDS = r"(?P<mark>CJ\d+) (?:one end|other end|end \d+)"

# The ends of a wall along a line of its own in the table of places.
WALL_ENDS = r"(?P<mark>W\d+)(?: .*)? (?:one end|other end)"

# What a joint is made with, under its name on a plan.
JOINT_KEY = r"key (?P<high>%s) high × (?P<deep>%s) deep" % (LEN, LEN)
JOINT_DOWELS = r"dowels (?P<diameter>%s) × (?P<length>%s) at most (?P<spacing>%s) apart" % (LEN, LEN, LEN)

# The scale of a drawing, on its sheet.
SCALE = r"Scale (?:1:(?P<ratio>\d+)|(?P<paper>%s) = (?P<site>%s))" % (LEN, LEN)

# What a drawing says that goes on on another sheet.
MATCH_LINE = r"match(?:ing)? line"

# Single statements of the sheets, in running text.
STATEMENTS = [
    ("edge section", r"(?P<mark>[A-Z]{1,2}) (?P<name>[^,]+), (?P<depth>%s) deep" % LEN),
    ("section", r"(?:Section (?P<mark>[A-Z]{1,2})|Edge section): (?P<name>.+)"),
    ("lap", r"Lap, (?P<size>No\. \d+|Ø\d+)(?P<top>, top rows?)?"),
    ("to buy", r"(?P<stock>%s) to buy(?:, (?P<rest>%s) left over)?.*" % (LEN, LEN)),
    ("stick", r"(?P<count>\d+) × (?P<what>No\. \d+|Ø\d+|\dx\d+) (?P<length>%s)(?: from the yard)?: .*" % LEN),
    ("order", r"(?P<value>%s) (?P<unit>yd³|m³|ea|ton|t|lb|kg|ft|m|ft²|m²|fl oz|mL|L) (?P<name>[A-Z].+)" % NUM),
    ("load", r"Load (?P<n>\d+): (?P<value>%s) (?:yd³|m³), due .*" % NUM),
    ("loads", r"• (?P<order>%s) (?:yd³|m³); loads: (?P<n>\d+)" % NUM),
    ("pour", POUR + r": (?P<order>%s) (?:yd³|m³)(?:; truck loads: (?P<n>\d+))?" % NUM),
    ("slab volume", r"• Slab (?P<net>%s) (?:yd³|m³), with .* waste (?P<waste>%s) (?:yd³|m³), ordered (?P<order>%s) (?:yd³|m³).*" % (NUM, NUM, NUM)),
    ("slab top", r"• (?P<slab>.+): .* overall, .* thick, top (?P<top>%s)" % LEN),
    ("saw cuts", r"• (?:(?P<slab>.+): s|S)aw cuts: (?P<n>\d+), (?P<depth>%s) deep.*" % LEN),
    ("bend", r"Bend (?P<mark>\w+): (?P<count>\d+) × (?P<size>No\. \d+|Ø\d+)"),
    ("frost", r"• (?P<mark>[A-Z]{1,2}) (?P<name>[^,]+), (?P<depth>%s) deep,? (?P<verdict>reaches it|is (?P<short>%s) short of it)" % (LEN, LEN)),
    ("frost", r"• (?P<name>[^,•]+), (?P<depth>%s) deep,? (?P<verdict>reaches it|is (?P<short>%s) short of it)" % (LEN, LEN)),
    ("pieces drawn", r"(?P<what>foam sheets|foam|mesh|retarder), pieces: (?P<n>\d+)"),
    ("mesh", r"(?P<style>\d+x\d+-W\S+), (?P<n>\d+) (?:sheets|rolls?) of .*, in (?P<pieces>\d+) pieces? as drawn\..*"),
    ("bolt note", r"(?P<diameter>%s) × (?P<length>%s) bolt, (?P<deep>%s) in concrete, (?P<up>%s) up" % (LEN, LEN, LEN, LEN)),
    ("dowel note", r"(?:(?P<size>No\. \d+|Ø\d+)(?: smooth)?|plate %s × %s) × (?P<length>%s), (?P<embed>%s) in the (?:old|existing) slab, .* deep.*" % (LEN, LEN, LEN, LEN)),
]

# What documents say of the job as it was typed: the quantity, the field, and how
# it is said on the sheets, the bid and in the workbook.
TYPED = [
    ("gravel", "spec.base.gravel", r"(%s) of compacted gravel" % LEN),
    ("foam", "spec.base.foam", r"(%s) of foam|[Ff]oam insulation, (%s)" % (LEN, LEN)),
    ("strength", "spec.mix.strength", r"(\d{4,5}) psi(?:\))? at 28 days"),
    ("slump", "spec.mix.slump", r"[Ss]lump:? (%s)" % LEN),
    ("air", "spec.mix.air", r"[Aa]ir(?:-entrained,|:)? (\d+(?:\.\d+)?) %"),
    ("retarder lap", "spec.base.lap", r"vapor retarder [^,]*, laps (%s)" % LEN),
    ("stagger", "spec.place.bars.stagger", r"Laps of neighbou?ring rows (%s) clear of each other" % LEN),
    ("waste", "spec.order.waste", r"with (\d+(?:\.\d+)?) % waste"),
    ("straightedge overlap", "pour.reach.overlap", r"overlap (%s)" % LEN),
    ("stakes apart", "spec.place.forms.stakes", r"A stake each (%s) at most" % LEN),
    ("bolts apart", "spec.place.bolts.spacing", r"bolts at most (%s) apart" % LEN),
]

# Words that name one thing in several ways: name of the fault, the words, and
# where each is looked for. More than one in a set is a fault.
ONE_NAME = [
    ("saw cut", [r"saw cuts?\b", r"control joints?\b", r"sawing joints\b|saw joints\b"]),
    ("old slab", [r"existing slab", r"old slab", r"old floor"]),
    ("form board", [r"form boards?\b", r"\bforming lumber"]),
]

# A lap in the working of a figure; a top bar has more than 12 in of concrete cast below it.
WORKING_LAP = r"at least (?P<lap>%s) for (?P<size>No\. \d+|Ø\d+)(?P<top> with more than)?" % LEN

# Rows of the workbook: sheet, first cell, and what the row's numbers are; OF_POUR
# stands for the pour whose row is the last above, the first where there is none.
OF_POUR = object()
BOOK_ROWS = [
    ("Concrete", r"Concrete in place", ("line", "concrete in place"), "F"),
    ("Concrete", r"Concrete to order", ("line", "concrete"), "F"),
    ("Concrete", r"Trucks", ("line", "trucks"), "F"),
    ("Concrete", r"Concrete by length times section", ("line", "concrete by length times section"), "F"),
    ("Concrete", r"Slab area", ("line", "slab area"), "F"),
    ("Concrete", r"Perimeter", ("line", "slab perimeter"), "F"),
    ("Concrete", POUR, ("pour", OF_POUR, "net"), "F"),
    ("Concrete", r"To order for it", ("pour", OF_POUR, "order"), "F"),
    ("Concrete", r"Trucks for it", ("pour", OF_POUR, "trucks"), "F"),
    ("Concrete", r"Last truck's load", ("pour", OF_POUR, "last load"), "F"),
    ("Price", r"Price before tax", ("price before tax",), "F"),
    ("Price", r"Sales tax", ("tax",), "F"),
    ("Price", r"Bid", ("total",), "F"),
    ("Options", r"Concrete to order, .*", ("line", "concrete"), "B"),
    ("Options", r"Trucks", ("line", "trucks"), "B"),
    ("Options", r"Bid", ("total",), "B"),
    ("Labou?r", r"Labou?r total", ("labor hours",), "G"),
    ("Options", r"Labou?r hours", ("labor hours",), "B"),
]

# Amounts of the bid.
BID = [
    (r"Price", ("price before tax",)),
    (r"Sales tax", ("tax",)),
    (r"Total", ("total",)),
]

# What the bid may say of a line of the takeoff: kinds of the line, and the word
# that both must use.
BID_WORDS = [
    (r"form length|form board", r"\bforms?\b"),
    (r"gravel.*", r"\bgravel\b"),
    (r"foam.*", r"\bfoam\b"),
    (r"block-out", r"\bblock-outs\b"),
    (r"frost insulation", r"\bfrost insulation\b"),
    (r"vapor retarder.*", r"\bvapor retarder\b"),
    (r"bar|edge bar.*", r"\bbars?\b"),
    (r"mesh.*", r"\bmesh\b"),
    (r"dowel.*", r"\bdowels?\b"),
    (r"anchor bolt.*", r"\banchor bolts?\b"),
    (r"saw cut.*", r"\bsaw cuts?\b"),
    (r"hold-down", r"\bhold-down anchors?\b"),
    (r"isolation strip", r"\bisolation strip\b"),
    (r"fill", r"\bfill\b"),
    (r"fiber", r"\bfibers\b"),
    (r"digging", r"\bdig"),
    (r"sill plate.*", r"\bsill plates?\b"),
]

# Lines of the order that the takeoff does not have: what a mix costs beside the concrete.
MIX = r"Mix of .*|Entrained air|Water reducer"

# Marks: where each kind of mark stands on the sheets, for "no mark twice". A name
# that was typed may follow the mark.
MARK_WORDS = {
    "door": r"(?P<mark>[A-Z]+\d+)(?: .+)? (?:overhead|walk) door",
    "pad": r"(?P<mark>[A-Z]+\d+)(?: .+)? pad",
    "hole": r"(?P<mark>[A-Z]+\d+)(?: .+)? opening",
    "wall": r"Wall (?P<mark>[A-Z]+\d*)(?:, .*)?",
    "edge section": r"(?P<mark>[A-Z]{1,2}) .*, %s deep" % LEN,
    "wet pad": r"(?P<mark>[A-Za-z]+\d+) \+%s" % LEN,
}
