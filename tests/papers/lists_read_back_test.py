# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A job's lists read back by others: CSV by Python's own reader, the workbook by openpyxl, both against the job's text.

Usage: lists_read_back_test.py PROGRAM REPOSITORY; the program (tests/papers/program/lists.cpp) writes the lists of a job.
"""
import csv
import hashlib
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import textwrap
import tomllib
import unittest
import zipfile

try:
    import openpyxl
except ImportError:
    sys.exit("openpyxl is missing: install Debian's python3-openpyxl (tools/setup.sh lists it)")

REPOSITORY = pathlib.Path(sys.argv.pop(2))
PROGRAM = sys.argv.pop(1)
LOADS = {"mass", "force", "spring", "rigid_load"}
SHEETS = {"bill": "Bill of materials", "lines": "Lines", "settings": "Settings"}

# Units by hand: bar and Pa, litres; pound, inch and US gallon by definition.
PSI = 4.4482216152605 / 0.0254**2
SI = {"bar": 1e5, "psi": PSI, "MPa": 1e6, "mm": 1e-3, "m": 1.0, "in": 0.0254, "ft": 0.3048, "turns": 1.0, "turn": 1.0,
      "L/min": 1e-3 / 60, "in3/min": 0.0254**3 / 60, "gpm": 231 * 0.0254**3 / 60, "cm3/min": 1e-6 / 60, "%": 0.01}


def si(text):
    number, unit = text.split(" ", 1)
    return float(number) * SI[unit]


class Lists:
    """The lists of one job, as CSV and as a workbook."""

    def __init__(self, job, *format):
        self.job, self.text = pathlib.Path(job), pathlib.Path(job).read_bytes()
        self.toml = tomllib.loads(self.text.decode())
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([PROGRAM, job, folder, *format], check=True)
            folder = pathlib.Path(folder)
            self.raw = {name: (folder / f"{name}.csv").read_bytes().decode() for name in SHEETS}
            self.csv = {name: list(csv.reader(text.splitlines(keepends=True), strict=True))
                        for name, text in self.raw.items()}
            self.workbook = openpyxl.load_workbook(folder / "lists.xlsx")
            with zipfile.ZipFile(folder / "lists.xlsx") as archive:
                self.dates = {entry.date_time for entry in archive.infolist()}
                self.inside = {entry: archive.read(entry).decode() for entry in archive.namelist()}

    def sheet(self, name):
        return self.workbook[SHEETS[name]]

    def head_row(self, name):
        """The sheet's row that holds the heads, which also stands frozen and is repeated in print."""
        sheet = self.sheet(name)
        return int(re.fullmatch(r"A(\d+)", sheet.freeze_panes)[1]) - 1

    def heads(self, name):
        return [cell.value for cell in self.sheet(name)[self.head_row(name)]]

    def cells(self, name):
        return [list(row) for row in self.sheet(name).iter_rows(min_row=self.head_row(name) + 1)]

    def rows(self, name):
        """The rows of the CSV as dictionaries."""
        heads, *rows = self.csv[name]
        return [dict(zip(heads, row, strict=True)) for row in rows]

    def row_of(self, name, tag):
        return next(row for row in self.rows(name) if tag in row["Tag"].split(", "))


def in_folder(text, files={}):
    """Lists of a job's text, in a folder of its own with further files."""
    with tempfile.TemporaryDirectory() as folder:
        for name, content in {"job.toml": text, **files}.items():
            (pathlib.Path(folder) / name).write_text(content, encoding="utf-8")
        return Lists(pathlib.Path(folder) / "job.toml")


HELD = Lists(REPOSITORY / "jobs/drilling-stand.toml")
BROKEN = Lists(REPOSITORY / "jobs/drilling-stand-sequence-too-low.toml", "letter")
US = Lists(REPOSITORY / "tests/drawings/conditioned-unit.toml")
LIFT = Lists(REPOSITORY / "jobs/axle-box-lift.toml")
HOSES = Lists(REPOSITORY / "tests/independent/long_hose.toml")
SMALL = (REPOSITORY / "tests/papers/small_job.hpp").read_text().split('R"(')[1].split(')";')[0]

ODD = 'Title "quoted", <b>&amp; ß² 日本 =1+1 ' + "a very long name of a job " * 12
ODD_NOTE = '=HYPERLINK("http://x"), ß² 日本 <>&\nsecond line'
ODD_MODEL = '=1+1, "x" ß² 日本 <>&'
STOCK = ('model,kind,cost,rated_flow [L/min],rated_pressure [bar],setting_from [bar],setting_to [bar],range [bar]\n'
         '"=1+1, ""x"" ß² 日本 <>&",relief,60.25,10,350,10,300,\n'
         '-250 bar gauge,gauge,25,,,,,250\n'
         'dear nothing,gauge,0,,,,,400\n')


def odd_job():
    toml = lambda words: '"' + words.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
    text = SMALL.replace('"Flushing a bogie\'s brake line"', toml(ODD) + '\nstock = "stock.csv"')
    text = text.replace('"limits the pump line"', toml(ODD_NOTE) + "\nmodel = " + toml(ODD_MODEL))
    text = text.replace('rated_flow = "10 L/min"\nrated_pressure = "350 bar"\n', "")
    return text.replace('kind = "gauge"\nrange = "250 bar"', 'kind = "gauge"\nmodel = "-250 bar gauge"')


STOCKED = in_folder(odd_job(), {"stock.csv": STOCK})
ALL = {"held": HELD, "broken": BROKEN, "us": US, "lift": LIFT, "hoses": HOSES, "stocked": STOCKED}


def of_every_job(test):
    def run(self):
        for name, lists in ALL.items():
            with self.subTest(job=name):
                test(self, lists)
    return run


def without_raised(text):
    return text.replace("²", "2").replace("³", "3").replace("°", "deg")


class SameEverywhere(unittest.TestCase):
    @of_every_job
    def test_the_workbook_says_what_the_csv_says(self, lists):
        for name in SHEETS:
            rows = lists.rows(name)
            self.assertEqual(len(lists.cells(name)), len(rows))
            for row, cells in zip(rows, lists.cells(name), strict=True):
                for head, cell in zip(lists.heads(name), cells, strict=True):
                    self.same(row, head, cell)

    def same(self, row, head, cell):
        if cell.data_type == "n" and cell.value is not None:
            self.assertTrue(math.isclose(cell.value, float(row[head]), rel_tol=1e-11), (head, row[head], cell.value))
            unit = row.get(head + ", unit", "")
            self.assertIn(unit, without_raised(cell.number_format.replace('"', "")))
        else:
            self.assertEqual(cell.value or "", row[head])
            self.assertEqual(row.get(head + ", unit", ""), "")

    @of_every_job
    def test_every_line_of_the_csv_ends_with_answer_and_fingerprint(self, lists):
        for name in SHEETS:
            for row in lists.rows(name):
                self.assertEqual(row["Answer"], "broken" if lists is BROKEN else "held")
                self.assertEqual(row["Fingerprint"], hashlib.sha256(lists.text).hexdigest())
            self.assertNotIn("\r", lists.raw[name])

    @of_every_job
    def test_nothing_is_a_formula(self, lists):
        for entry, text in lists.inside.items():
            if entry.startswith("xl/worksheets/"):
                self.assertNotRegex(text, r"<f[ >]")
                self.assertNotIn("<hyperlink", text)


class AgainstTheJob(unittest.TestCase):
    @of_every_job
    def test_every_part_with_oil_is_bought_once(self, lists):
        bought = [tag for row in lists.rows("bill") if row["Tag"] != "Total" for tag in row["Tag"].split(", ")]
        parts = {tag for tag, part in lists.toml["parts"].items() if part["kind"] not in LOADS}
        lines = [line for line in lists.toml["lines"] if "hose" in line or "tube" in line]
        self.assertEqual(len(bought), len(set(bought)))
        self.assertLessEqual(parts, set(bought))
        self.assertEqual(len(bought), len(parts) + len(lines))
        for row in lists.rows("bill"):
            if row["Tag"] != "Total":
                self.assertEqual(int(row["Quantity"]), len(row["Tag"].split(", ")))

    @of_every_job
    def test_rated_pressures_are_those_of_the_job(self, lists):
        checked = 0
        for tag, part in lists.toml["parts"].items():
            rating = part.get("rated_pressure", part.get("range"))
            if part["kind"] in LOADS or rating is None:
                continue
            row = lists.row_of("bill", tag)
            told = float(row["Rated pressure"]) * SI[row["Rated pressure, unit"]]
            self.assertTrue(math.isclose(told, si(rating), rel_tol=1e-9), (tag, told, rating))
            checked += 1
        self.assertGreater(checked, 0)

    def test_lines_are_those_of_the_job(self):
        for lists in (HELD, LIFT, HOSES):
            rows = lists.rows("lines")
            lines = [line for line in lists.toml["lines"] if "hose" in line or "tube" in line]
            self.assertEqual(len(rows), len(lines))
            for line in lines:
                row = lists.row_of("lines", line["tag"])
                data = line.get("hose", line.get("tube"))
                self.assertEqual((row["From"], row["To"]), (line["from"], line["to"]))
                for head, name in (("Bore", "bore"), ("Length", "length"), ("Rated pressure", "rated_pressure")):
                    if name not in data:
                        self.assertEqual(row[head], "")
                        continue
                    told = float(row[head]) * SI[row[head + ", unit"]]
                    self.assertTrue(math.isclose(told, si(data[name]), rel_tol=1e-9), (head, row))
                self.assertGreater(float(row["Peak speed of the oil"]), 0)
                self.assertGreater(float(row["Greatest loss"]), 0)

    @of_every_job
    def test_settings_are_those_of_the_job(self, lists):
        checked = 0
        for tag, part in lists.toml["parts"].items():
            for name in ("setting", "turns", "precharge"):
                if name not in part:
                    continue
                row = lists.row_of("settings", tag)
                told = float(row["Set to"]) * SI[row["Set to, unit"]]
                self.assertTrue(math.isclose(told, si(part[name]), rel_tol=1e-9), (tag, row["Set to"]))
                self.assertEqual(row["Guards, does"], part.get("note", ""))
                checked += 1
        self.assertGreater(checked, 1)

    def test_units_are_those_of_the_job(self):
        units = {row["Set to, unit"] for row in US.rows("settings")}
        self.assertEqual(units, {"psi", "turns"})
        self.assertEqual({row["Set to, unit"] for row in HELD.rows("settings")}, {"bar", "turns"})


class Stock(unittest.TestCase):
    def test_models_and_costs_come_from_the_parts_list(self):
        relief, gauge = STOCKED.row_of("bill", "V1"), STOCKED.row_of("bill", "G1")
        self.assertEqual((relief["Model"], relief["Cost each"]), (ODD_MODEL, "60.25"))
        self.assertEqual((gauge["Model"], gauge["Cost"]), ("-250 bar gauge", "25"))
        self.assertEqual(relief["Rated pressure"], "350")

    def test_no_sum_stands_where_a_cost_is_missing(self):
        self.assertNotIn("Total", [row["Tag"] for row in STOCKED.rows("bill")])
        self.assertIn("4 of 6 parts without a cost", STOCKED.sheet("bill")["A1"].value)

    def test_a_sum_stands_under_costs_that_are_all_known(self):
        # Models for all six parts; the second gauge is of the same kind, so that a row counts two.
        stock = ("model,kind,cost,usable_oil [L],flow [L/min],volumetric_efficiency [%],rated_pressure [bar],bore [mm],"
                 "range [bar],rated_flow [L/min]\n"
                 "tank,reservoir,100,12,,,,,,\npump,pump,400.5,,4,100,250,,,\nrelief,relief,60,,,,350,,,10\n"
                 "needle,needle,30,,,,350,3,,\ngauge,gauge,25.25,,,,,,250,\nhose,hose,12,,,,100,10,,\n")
        text = SMALL.replace("[oil]", 'stock = "stock.csv"\n[oil]', 1)
        for kind in ("reservoir", "pump", "relief", "needle", "gauge"):
            model = "tank" if kind == "reservoir" else kind
            text = text.replace(f'kind = "{kind}"', f'kind = "{kind}"\nmodel = "{model}"')
        text = text.replace("hose = {", 'hose = { model = "hose",')
        text += '[parts.G2]\nkind = "gauge"\nmodel = "gauge"\n[[lines]]\nfrom = "P1.P"\nto = "G2.M"\n'
        lists = in_folder(text, {"stock.csv": stock})
        self.assertEqual(lists.row_of("bill", "G2")["Quantity"], "2")
        self.assertEqual(lists.row_of("bill", "G2")["Cost"], "50.5")
        total = lists.rows("bill")[-1]
        self.assertEqual((total["Tag"], total["Quantity"]), ("Total", "7"))
        self.assertAlmostEqual(float(total["Cost"]), 100 + 400.5 + 60 + 30 + 2 * 25.25 + 12)
        self.assertTrue(lists.sheet("bill")["A1"].value.endswith(": Bill of materials"))

    def test_a_cost_of_zero_is_none(self):
        text = odd_job().replace('"-250 bar gauge"', '"dear nothing"')
        lists = in_folder(text, {"stock.csv": STOCK})
        self.assertEqual(lists.row_of("bill", "G1")["Cost"], "")
        self.assertIn("5 of 6 parts without a cost", lists.sheet("bill")["A1"].value)


class OddWords(unittest.TestCase):
    def test_they_come_through_both_lists_as_they_are(self):
        self.assertEqual(STOCKED.row_of("settings", "V1")["Guards, does"], ODD_NOTE)
        cell = next(cell for row in STOCKED.cells("settings") for cell in row if cell.value == ODD_NOTE)
        self.assertEqual(cell.data_type, "s")
        cell = next(cell for row in STOCKED.cells("bill") for cell in row if cell.value == ODD_MODEL)
        self.assertEqual(cell.data_type, "s")
        self.assertTrue(STOCKED.sheet("bill")["A1"].value.startswith(ODD))

    def test_a_long_title_still_fits_over_the_printed_page(self):
        header = STOCKED.sheet("settings").oddHeader
        self.assertLess(sum(len(part.text or "") for part in (header.left, header.center, header.right)), 240)
        self.assertIn("Title", header.center.text)
        self.assertEqual(STOCKED.sheet("settings").oddHeader.right.text, "Settings")

    def test_a_cell_that_could_be_a_formula_stands_in_quotation_marks(self):
        self.assertIn('"=1+1, ""x"" ß² 日本 <>&"', STOCKED.raw["bill"])
        self.assertIn('"-250 bar gauge"', STOCKED.raw["bill"])


class Printed(unittest.TestCase):
    @of_every_job
    def test_sheets_print_on_one_width_with_heads_and_pages(self, lists):
        for name in SHEETS:
            sheet, head = lists.sheet(name), lists.head_row(name)
            self.assertEqual(sheet.page_setup.orientation, "landscape")
            self.assertEqual(sheet.page_setup.paperSize, 1 if lists is BROKEN else 9)  # 1 Letter, 9 A4
            self.assertTrue(sheet.sheet_properties.pageSetUpPr.fitToPage)
            self.assertEqual(sheet.page_setup.fitToHeight, 0)
            self.assertEqual(sheet.print_title_rows.replace("$", ""), f"{head}:{head}")
            self.assertIn("&P", sheet.oddFooter.center.text)
            self.assertIn("&N", sheet.oddFooter.center.text)

    @of_every_job
    def test_columns_and_rows_have_room_for_all_their_words(self, lists):
        for name in SHEETS:
            sheet = lists.sheet(name)
            for cells in lists.cells(name):
                height = sheet.row_dimensions[cells[0].row].height or 15  # none: a line
                for cell in cells:
                    self.assertTrue(cell.alignment.wrap_text)
                    self.assertEqual(cell.border.left.style, "thin")
                    if isinstance(cell.value, str):
                        width = sheet.column_dimensions[cell.column_letter].width
                        lines = sum(len(textwrap.wrap(line, int(width))) for line in cell.value.split("\n"))
                        self.assertGreaterEqual(height, min(15 * lines, 400), cell.value)

    @of_every_job
    def test_what_is_filled_in_by_hand_has_room_for_it(self, lists):
        sheet, heads = lists.sheet("settings"), lists.heads("settings")
        for head in ("Locked", "By", "Date"):
            letter = openpyxl.utils.get_column_letter(heads.index(head) + 1)
            self.assertGreaterEqual(sheet.column_dimensions[letter].width, 13)

    def test_a_job_that_does_not_hold_says_so_in_its_first_row_and_over_every_page(self):
        for name in SHEETS:
            sheet = BROKEN.sheet(name)
            self.assertEqual(sheet["A1"].value, "NOT PROVEN: 1 of 11 requirements is broken")
            self.assertTrue(sheet["A1"].font.bold)
            self.assertEqual(sheet.oddHeader.left.text, "&BNOT PROVEN")
            self.assertIn("Answer: broken", [row[0].value for row in sheet.iter_rows(max_row=7)])

    def test_a_job_that_holds_is_not_marked(self):
        for name in SHEETS:
            sheet = HELD.sheet(name)
            self.assertNotIn("NOT PROVEN", HELD.inside["xl/sharedStrings.xml"])
            self.assertEqual(sheet["A1"].value, f"Drilling stand for bogie frames: {title(HELD, name)}")
            self.assertFalse(sheet.oddHeader.left.text)
            self.assertIn("Answer: held", [row[0].value for row in sheet.iter_rows(max_row=7)])

    def test_title_revision_and_fingerprint_stand_above_the_columns(self):
        lists = in_folder(SMALL + '[drawing]\nrevision = "C"\ndate = "2026-11-26"\nauthor = "Workshop 2"\n')
        above = [row[0].value for row in lists.sheet("bill").iter_rows(max_row=lists.head_row("bill") - 1)]
        self.assertIn("Revision: C, 2026-11-26, Workshop 2", above)
        fingerprint = hashlib.sha256(lists.text).hexdigest()
        self.assertIn(f"Fingerprint: {fingerprint} of job.toml, Poise 0.1.0", above)

    @of_every_job
    def test_the_file_tells_no_time_of_its_making(self, lists):
        self.assertEqual({date[0] for date in lists.dates}, {1980})
        self.assertIn("1980-01-01T00:00:00Z", lists.inside["docProps/core.xml"])
        self.assertNotRegex(lists.inside["docProps/core.xml"], r"20[0-9]{2}-")


def title(lists, name):
    return "Bill of materials (no cost known)" if name == "bill" else SHEETS[name]


class Empty(unittest.TestCase):
    def test_a_table_without_rows_has_its_heads_in_both(self):
        lists = in_folder(SMALL.replace("hose = {", "# hose = {"))
        self.assertEqual(lists.rows("lines"), [])
        self.assertEqual(lists.cells("lines"), [])
        self.assertIn("Bore", lists.heads("lines"))
        self.assertIn("Bore, unit", lists.csv["lines"][0])


if __name__ == "__main__":
    unittest.main()
