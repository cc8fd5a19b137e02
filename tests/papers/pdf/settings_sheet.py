# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The settings sheet with few and with many settings: one page as long as there is room, and nothing lost beyond.

Usage: settings_sheet.py PROGRAM
"""
import csv
import pathlib
import sys
import tempfile
import unittest

from hand_over import Html, Pdf, run, squeezed
from variants import many_settings

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
READINGS = squeezed("What the gauges read at the end of each step")


class Sheet:
    def __init__(self, count, *options):
        with tempfile.TemporaryDirectory(prefix="poise-papers-") as folder:
            folder = pathlib.Path(folder)
            (folder / "job.toml").write_text(many_settings(count))
            done = run(PROGRAM, "papers", folder / "job.toml", "-o", folder, "--only", "settings", *options)
            if done.returncode != 0:
                raise AssertionError(done.stderr)
            self.pdf = Pdf(folder / "job-settings.pdf")
            self.html = Html((folder / "job-settings.html").read_text())
            with open(folder / "job-settings.csv", newline="", encoding="utf-8") as file:
                self.rows = list(csv.DictReader(file))

    def size(self):
        """The height of the letters in the first row."""
        return next(bottom - top for word, _, top, _, bottom in self.pdf.pages[0].body if word == "V1")


class Settings(unittest.TestCase):
    def complete(self, sheet):
        for row in sheet.rows:
            self.assertIn(squeezed(row["Code"] + row["Tag"] + row["Valve"]), sheet.pdf.text)
        self.assertIn(squeezed("zero read at each gauge."), sheet.pdf.text)

    def test_letters_are_as_large_as_one_page_has_room_for(self):
        few, more = Sheet(3), Sheet(8)
        for sheet, count in ((few, 3), (more, 8)):
            self.assertEqual((len(sheet.rows), len(sheet.pdf.pages)), (count, 1))
            self.assertIn(READINGS, sheet.pdf.text)
            self.complete(sheet)
        self.assertGreater(few.size(), 1.2 * more.size())

    def test_a_dozen_that_differ_are_one_page_of_either_format(self):
        for sheet in (Sheet(12), Sheet(12, "--paper", "Letter")):
            self.assertEqual((len(sheet.rows), len(sheet.pdf.pages)), (12, 1))
            self.complete(sheet)

    def test_what_has_no_room_on_one_page_goes_on_under_the_same_heads(self):
        sheet = Sheet(30)
        self.assertEqual(len(sheet.rows), 30)
        self.assertGreater(len(sheet.pdf.pages), 1)
        self.complete(sheet)
        heads = squeezed("".join(sheet.html.tables[0].heads))
        for page in sheet.pdf.pages:
            self.assertIn(heads, squeezed("".join(page.body_lines())))


if __name__ == "__main__":
    unittest.main()
