# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The sample sheet read back by others: its SVG by an XML parser, its DXF by ezdxf.

Usage: read_back_test.py PROGRAM, which prints the sheet (tests/draw/program/sample_sheet.cpp).
"""
import io
import subprocess
import sys
import unittest
import xml.etree.ElementTree as ElementTree

try:
    import ezdxf
    import ezdxf.bbox
    from ezdxf import colors, recover
except ImportError:
    sys.exit("ezdxf is missing: install Debian's python3-ezdxf (tools/setup.sh lists it)")

PROGRAM = sys.argv.pop(1)
PAPERS = {"a4": (297.0, 210.0), "a3": (420.0, 297.0), "letter": (279.4, 215.9)}
LAYERS = {"symbols", "working", "pilot", "mechanical", "enclosures", "flow", "labels", "frame", "chart"}
SVG = "{http://www.w3.org/2000/svg}"


def printed(what, paper):
    return subprocess.run([PROGRAM, what, paper], check=True, capture_output=True).stdout


def texts_of_sheet(paper):
    return printed("texts", paper).decode().splitlines()


def on_every_paper(test):
    def run(self):
        for paper in PAPERS:
            with self.subTest(paper=paper):
                test(self, paper)
    return run


class Svg(unittest.TestCase):
    @on_every_paper
    def test_is_xml_and_holds_every_text_as_it_is(self, paper):
        root = ElementTree.fromstring(printed("svg", paper))
        self.assertEqual(root.tag, SVG + "svg")
        self.assertEqual([t.text for t in root.iter(SVG + "text")], texts_of_sheet(paper))

    @on_every_paper
    def test_is_as_large_as_its_paper(self, paper):
        root = ElementTree.fromstring(printed("svg", paper))
        width, height = PAPERS[paper]
        self.assertEqual(root.get("width"), f"{width:g}mm")
        self.assertEqual(root.get("height"), f"{height:g}mm")
        self.assertEqual(root.get("viewBox"), f"0 0 {width:g} {height:g}")

    def test_groups_are_found_by_kind_and_name_and_layers_by_class(self):
        root = ElementTree.fromstring(printed("svg", "a4"))
        groups = [(g.get("class"), g.get("data-name")) for g in root.findall(SVG + "g")]
        self.assertEqual(groups, [("part", 'V1 & "V2"'), ("line", None), ("part", "words"), ("frame", None)])
        self.assertEqual(root.find(SVG + "g").find(SVG + "title").text, "Relief valve <V1>")
        self.assertEqual(root.find(SVG + "title").text, 'Sample <of> a "sheet" & more')
        classes = {e.get("class") for group in root.findall(SVG + "g") for e in group if e.tag != SVG + "title"}
        self.assertEqual(classes, LAYERS)


class Dxf(unittest.TestCase):
    def read(self, paper):
        document, auditor = recover.read(io.BytesIO(printed("dxf", paper)))
        self.assertFalse(auditor.has_errors, [e.message for e in auditor.errors])
        self.assertFalse(auditor.has_fixes, [f.message for f in auditor.fixes])
        return document

    @on_every_paper
    def test_is_release_12_without_errors_and_read_strictly_too(self, paper):
        strict = ezdxf.read(io.StringIO(printed("dxf", paper).decode("ascii")))
        self.assertEqual(strict.dxfversion, "AC1009")
        auditor = strict.audit()
        self.assertFalse(auditor.errors + auditor.fixes)
        self.read(paper)

    @on_every_paper
    def test_is_as_large_as_its_paper_and_nothing_lies_outside(self, paper):
        document = self.read(paper)
        self.assertEqual(tuple(document.header["$EXTMIN"])[:2], (0.0, 0.0))
        self.assertEqual(tuple(document.header["$EXTMAX"])[:2], PAPERS[paper])
        self.assertEqual(tuple(document.header["$LIMMAX"])[:2], PAPERS[paper])
        # The frame is the outermost mark: 20 mm from the left edge, 10 mm from the others.
        width, height = PAPERS[paper]
        shapes = [e for e in document.modelspace() if e.dxftype() != "TEXT"]
        extents = ezdxf.bbox.extents(shapes)
        for measured, expected in zip((*extents.extmin, *extents.extmax), (20, 10, 0, width - 10, height - 10, 0)):
            self.assertAlmostEqual(measured, expected, delta=1e-4)  # four decimals are written

    @on_every_paper
    def test_texts_read_back_as_they_were(self, paper):
        document = self.read(paper)
        read = [t.plain_text() for t in document.modelspace().query("TEXT")]
        self.assertEqual(read, texts_of_sheet(paper))

    def test_every_layer_is_declared_and_used(self):
        document = self.read("a4")
        used = {e.dxf.layer for e in document.modelspace()}
        self.assertEqual(used, LAYERS)
        self.assertLessEqual(used, {layer.dxf.name for layer in document.layers})

    def test_kinds_of_entities_by_layer(self):
        space = self.read("a4").modelspace()

        def kinds(layer):
            return {e.dxftype() for e in space if e.dxf.layer == layer}
        self.assertEqual(kinds("symbols"), {"LINE", "POLYLINE", "CIRCLE", "ARC", "SOLID"})
        self.assertEqual(kinds("pilot"), {"LINE"})
        self.assertEqual(kinds("flow"), {"SOLID"})
        self.assertEqual(kinds("labels"), {"TEXT"})
        self.assertEqual(kinds("chart"), {"POLYLINE", "CIRCLE", "ARC"})
        self.assertEqual({e.dxf.linetype for e in space if e.dxf.layer == "pilot"}, {"DASHED"})
        self.assertEqual({e.dxf.linetype for e in space if e.dxf.layer == "enclosures"}, {"DASHDOT"})

    def test_a_filled_circle_is_a_ring_without_a_hole(self):
        space = self.read("a4").modelspace()
        [ring] = [e for e in space.query("POLYLINE") if e.dxf.layer == "chart"]
        left, right = ring.vertices
        # Radius 4: two half circles of radius 2 about the middle, 4 wide, cover 0 to 4.
        self.assertTrue(ring.is_closed)
        self.assertEqual((left.dxf.bulge, right.dxf.bulge), (1.0, 1.0))
        self.assertEqual(ring.dxf.default_start_width, 4.0)
        self.assertAlmostEqual(right.dxf.location.x - left.dxf.location.x, 4.0)

    def test_an_arc_keeps_its_angles_and_a_turned_text_its_place(self):
        space = self.read("a4").modelspace()
        [arc] = [e for e in space.query("ARC") if e.dxf.layer == "chart"]
        self.assertEqual((arc.dxf.radius, arc.dxf.start_angle, arc.dxf.end_angle), (8.0, 300.0, 60.0))
        texts = {t.plain_text(): t for t in space.query("TEXT")}
        self.assertEqual(texts["upright"].dxf.rotation, 90.0)
        # 1 stands about its middle, 2 ends at its place; then that place is the second point.
        self.assertEqual(texts["ends here"].dxf.halign, 2)
        self.assertEqual(texts["in the middle"].dxf.halign, 1)
        # Capitals are 0.716 of the size of an Arial-like font, which is what DXF counts.
        self.assertAlmostEqual(texts["ends here"].dxf.height, 3.5 * 0.716, delta=1e-4)

    def test_a_colour_is_the_nearest_of_the_255(self):
        space = self.read("a4").modelspace()
        # ezdxf's own table; neighbours on the wheel lie some 60 of 255 apart, half of that on each axis.
        for layer, colour in (("working", (30, 90, 160)), ("flow", (200, 60, 30))):
            for entity in (e for e in space if e.dxf.layer == layer):
                shown = colors.int2rgb(colors.DXF_DEFAULT_COLORS[entity.dxf.color])
                for seen, wanted in zip(shown, colour):
                    self.assertLessEqual(abs(seen - wanted), 45, (layer, tuple(shown)))


if __name__ == "__main__":
    unittest.main()
