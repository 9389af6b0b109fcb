"""Tests of what the reader makes of the places of texts and lines."""

import math
import os
import sys
import types
import unittest

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))

import checks
import measure
import paper


def piece(text, x, y):
    return paper.Piece(text, x - 10, y - 4, x + 10, y + 4, 0, 8)


class Leaders(unittest.TestCase):
    def test_lines_of_a_page(self):
        line = '<path style="fill:none;stroke-width:0.2;" d="%s" transform="matrix(2,0,0,-2,10,100)"/>'
        full = '<path style=" stroke:none;fill:rgb(0%%,0%%,0%%);" d="%s"/>'
        svg = line % "M 1 2 L 3 -4 " + line % "M 1 2 L 3 4 L 5 6 " + full % "M 1 2 L 3 4 L 5 6.5 " + full % "M 1 2 L 3 4 L 5 6 L 7 8 " + full % "M 1 2 C 3 4 5 6 7 8 "
        self.assertEqual(paper.drawn(svg), ([((12, 96), (16, 108))], [((1, 2), (3, 4), (5, 6.5))]))

    def faults(self, *strokes):
        """What is found of "top 3"", which stands 100 points over the middle of a slab that
        falls from 4" to 0"; 3" high is its break, at the left 300 points up."""
        page = paper.Page(1, 800, 800)
        page.pieces, page._drawn = [piece('top 3"', 300, 400)], (list(strokes), [((100, 300), (106, 298), (106, 302))])
        edges = [{"at": ['%d"' % v for v in at]} for at in ((0, 0), (400, 0), (400, 400), (0, 400))]
        edges.insert(4, {"at": ['0"', '300"']})
        job = {"slabs": [{"outline": edges, "field": '4"', "top": {"falls": [{"from": ['200"', '400"'], "to": ['200"', '0"'], "drop": '4"'}]}}]}
        d = types.SimpleNamespace(job=job, slabs=lambda: job["slabs"], metric=False, pages=[page], plans=[types.SimpleNamespace(page=page, slab=0, scale=1.0, x=100.0, y=600.0)])
        return list(checks.tops(d, {("height", 0, 1, "top"): measure.length('0"')}))

    def test_a_label_far_from_its_place(self):
        place = (100, 300)  # the corner at 300" up
        self.assertEqual(self.faults((place, (287, 398))), [])
        self.assertEqual(self.faults(((287, 398), place)), [])
        for strokes in ((), (((287, 398), (100, 600)),), ((place, (250, 380)),), (((287, 398), (105, 310)),)):
            # No leader, one to another corner, one of another text, a line without an arrow.
            self.assertEqual([kind for kind, _ in self.faults(*strokes)], ["wrong.top-label"], strokes)


class Places(unittest.TestCase):
    def test_a_slab_that_is_turned(self):
        at = [(200, 0), (400, 200), (200, 400), (0, 200)]
        for off, found in ((20.3, 1), (60, 0)):  # marks straight out from the corners
            page = paper.Page(1, 800, 800)
            page.pieces = [piece(str(k + 1), 100 + x + off * (x - 200) / 200, 600 - y - off * (y - 200) / 200) for k, (x, y) in enumerate(at)]
            where = paper.plans(page, [(0, at)], 1.0)
            self.assertEqual(len(where), found, off)
            for _, _, x, y in where:
                self.assertLess(math.dist((x, y), (100, 600)), 1)

    def test_a_slab_beside_one_nearly_as_large(self):
        at = [(0, 0), (216, 0), (216, 162), (0, 162)]
        other = [(500, 0), (690, 0), (690, 150), (500, 150)]
        page = paper.Page(1, 1000, 800)
        for ring in (other, at):  # the other's marks come first, and are as many
            page.pieces += [piece(str(k + 1), 100 + x + 11 * math.copysign(1, x - ring[0][0] - 1), 600 - y - 11 * math.copysign(1, y - 1)) for k, (x, y) in enumerate(ring)]
        (_, _, x, y), = paper.plans(page, [(0, at)], 1.0)
        self.assertLess(math.dist((x, y), (100, 600)), 1)


class Valleys(unittest.TestCase):
    def test_a_line_under_texts(self):
        t = math.radians(40)
        on = lambda u, v=0.0: (u * math.cos(t) - v * math.sin(t), u * math.sin(t) + v * math.cos(t))
        p = on(100)
        for lines, there in (
            ([(on(10), on(200))], True),
            ([(on(10), on(75))], True),
            ([(on(10), on(65)), (on(200), on(135))], True),
            ([(on(10), on(65))], False),
            ([(on(135), on(200))], False),
            ([(on(10), on(45)), (on(135), on(200))], False),
            ([(on(10), on(65)), (on(135, 5), on(200, 5))], False),
            ([(on(100, -50), on(100, 50))], False),
            ([(p, p)], False),
        ):
            self.assertEqual(checks.runs_there(lines, p, t, 100), there, lines)


class Overlaps(unittest.TestCase):
    def test_letters_beside_and_over_each_other(self):
        level = lambda y: paper.Piece("76 mm", 100, y, 130, y + 11, 0, 11)
        upright = lambda x: paper.Piece("76 mm", x, 100, x + 11, 130, 90, 11)
        for pair, over in (([level(100), level(109)], 0), ([level(100), level(105)], 1), ([upright(100), upright(109)], 0), ([upright(100), upright(105)], 1)):
            page = paper.Page(1, 800, 800)
            page.pieces = pair
            found = [kind for kind, _ in checks.on_the_page(types.SimpleNamespace(pages=[page], bid=[]), None)]
            self.assertEqual(found, ["paper.overlap"] * over, pair)


if __name__ == "__main__":
    unittest.main()
