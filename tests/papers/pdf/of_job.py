# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The papers of one job read back: what they say against the verdict, their pages, where their words stand.

Usage: of_job.py PROGRAM JOB; the jobs are those of variants.py.
"""
import hashlib
import re
import sys
import tomllib
import unittest

import openpyxl

from hand_over import BOTTOM, LEFT, MM, RIGHT, SIZES, TOP, HandOver, pictures, raised, squeezed, three_figures
from variants import JOBS

JOB = sys.argv.pop(2)
PROGRAM = sys.argv.pop(1)
PAPERS = HandOver(PROGRAM, JOBS[JOB]())
VERDICT, PDF, HTML = PAPERS.verdict, PAPERS.pdf, PAPERS.html
HELD = VERDICT["answer"] == "held"


def told(value):
    return three_figures(value["value"], value["unit"])


def text_of(paper):
    return squeezed("".join("".join(page.body_lines()) for page in PAPERS.pages_of(paper)))


class Words(unittest.TestCase):
    """What stands on paper is what the verdict says."""

    def stands(self, words, text):
        self.assertIn(squeezed(words), text)

    def test_every_requirement_stands_with_what_was_found_and_its_margin(self):
        paper = text_of("requirements")
        self.assertGreaterEqual(len(VERDICT["findings"]), 3)
        for f in VERDICT["findings"]:
            answer = f["answer"] if f["answer"] == "held" else f["answer"].upper()
            name = f["name"] if f["name"] == f["promised"] else f"{f['name']}: {f['promised']}"
            margin = told(f["margin"]) if f["margin"] else "–"
            share = "–" if f["share"] is None else three_figures(100 * f["share"], "%")
            time = told(f["time"]) if f["time"] else ""
            decided = ", ".join(each for each in (f["part"], time, f["step"]) if each)
            self.stands(" ".join((answer, name, f["found"], margin, share, decided)), paper)

    def test_every_step_stands_with_how_long_it_took(self):
        paper = text_of("job")
        self.assertGreaterEqual(len(VERDICT["steps"]), 1)
        for step in VERDICT["steps"]:
            lasted = step["end"]["value"] - step["begin"]["value"]
            self.stands(f"{step['name']}, {three_figures(lasted, step['end']['unit'])}.", paper)
            self.assertEqual(step["finished"], squeezed("It was not finished.") not in paper or step is not VERDICT["steps"][-1])

    def test_books_are_those_of_the_verdict(self):
        paper, books = text_of("books"), VERDICT["books"]
        for words, value in (("without the reservoir", books["oil"]["at_start"]),
                             ("what came back not taken off", books["oil"]["drawn"]),
                             ("appeared or lost: must be nothing", books["oil"]["residual"]),
                             ("by warmth that swells trapped oil", books["energy"]["shaft"]),
                             ("and in pumps", books["energy"]["flow_heat"]),
                             ("of rubbing and of stops", books["energy"]["friction_heat"]),
                             ("given to outside forces", books["energy"]["delivered"]),
                             ("motion, springs, height", books["energy"]["stored_gain"]),
                             ("left over: must be nothing", books["energy"]["residual"])):
            self.stands(f"{words} {told(value)}", paper)

    def test_the_safety_file_has_people_cautions_and_rules(self):
        paper = text_of("safety")
        for sentence in VERDICT["people"] + VERDICT["cautions"] + [VERDICT["notice"]]:
            self.stands(sentence, paper)
        for rule in VERDICT["rules"]:
            is_said = rule["time"] is None or " " + told(rule["time"]) in rule["sentence"]
            when = "" if is_said else f" At {told(rule['time'])}"
            when += f" in {rule['step']}" if when and rule["step"] else ""
            to_do = f" Waived, because: {rule['waived']}" if rule["waived"] else f" To do: {rule['remedy']}."
            words = f"{rule['name']} ({rule['harm']}): {rule['sentence']}.{when}{'.' if when else ''}{to_do}"
            self.stands(words, paper)
            self.assertEqual(rule["waived"] is None, squeezed(words) in text_of("requirements"))
        if JOB in ("waived_with_revision", "drilling_stand", "signs"):  # so that the loop above is known to run
            self.assertTrue(VERDICT["rules"])
            self.assertEqual(JOB != "drilling_stand", any(rule["waived"] for rule in VERDICT["rules"]))

    def test_the_job_stands_in_its_own_words(self):
        cover, plan = squeezed("".join(PDF.pages[0].body_lines())), text_of("job")
        self.stands(VERDICT["title"], cover)
        job = tomllib.loads(PAPERS.text)
        for named in job["steps"] + job["require"]:
            self.stands(named["name"], plan)
        for part in [job, *job["parts"].values()]:
            self.stands(part.get("note", ""), plan)

    def test_the_pdf_says_all_that_the_html_says(self):
        self.assertGreater(len(HTML.blocks), 150)
        for section, tag, text in HTML.blocks:
            self.assertIn(squeezed(text), PDF.text, f"{tag} of {section}")


class Lists(unittest.TestCase):
    """Bill of materials and settings say the same on paper, as CSV and in the workbook."""

    def rows(self, paper, sheet):
        """The rows of the CSV, when the workbook has the same."""
        rows = PAPERS.list(paper)
        heads = [head for head in rows[0] if not head.endswith(", unit")][:-2]
        cells = list(openpyxl.load_workbook(PAPERS.out / f"{PAPERS.job.stem}-{paper}.xlsx")[sheet].iter_rows(values_only=True))
        at = next(i for i, row in enumerate(cells) if list(row[:len(heads)]) == heads)
        for row, in_book in zip(rows, cells[at + 1:], strict=True):
            for head, value in zip(heads, in_book):
                if isinstance(value, (int, float)):
                    self.assertAlmostEqual(float(row[head]), value, delta=1e-9 * abs(value))
                else:
                    self.assertEqual(row[head], value or "")
        return rows

    def stands_on_paper(self, row, heads, text):
        """The row's cells one after another, numbers as they read rounded."""
        number = r"(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)"
        pattern, told_numbers = "", []
        for head in heads:
            unit = row.get(head + ", unit")
            if unit == "turns" and float(row[head]) == 0:
                pattern += re.escape(squeezed("shut (0 turns)"))
            elif unit:
                sign = "±?" if head == "Tolerance" else ""
                after = r"(?:fromshut)?" if unit == "turns" else ""
                pattern += sign + number + re.escape(squeezed(raised(unit))) + after
                told_numbers.append(float(row[head]))
            else:
                pattern += re.escape(squeezed(row[head]))
        found = re.search(pattern, text)
        self.assertTrue(found, f"not on paper: {row}")
        for on_paper, exact in zip(found.groups(), told_numbers, strict=True):
            self.assertAlmostEqual(float(on_paper), exact, delta=0.00501 * abs(exact))

    def test_the_bill_of_materials(self):
        rows, heads = self.rows("parts", "Bill of materials"), HTML.tables_of("parts")[0].heads
        self.assertGreaterEqual(len(rows), 5)
        for row in rows:
            self.stands_on_paper(row, heads, text_of("parts"))

    def test_the_settings(self):
        """On the wall those that are alike stand in one row, with all their tags."""
        rows, table = self.rows("settings", "Settings"), HTML.tables_of("settings")[0]
        self.assertGreaterEqual(len(rows), 1)
        on_the_wall = [tag for line in table.rows for tag in line[table.heads.index("Tag")][0].split(", ")]
        self.assertEqual(sorted(on_the_wall), sorted(row["Tag"] for row in rows))
        heads = [head for head in table.heads if head in rows[0]]
        for line in table.rows:
            codes, tags = (line[table.heads.index(head)][0] for head in ("Code", "Tag"))
            alike = [row for row in rows if row["Tag"] in tags.split(", ") and row["Code"] in codes.split(", ")]
            self.assertEqual(len(alike), len(tags.split(", ")))
            for row in alike:
                self.stands_on_paper({**row, "Code": codes, "Tag": tags}, heads, text_of("settings"))

    def test_every_list_has_answer_and_fingerprint(self):
        for name in ("parts", "lines", "settings"):
            for row in PAPERS.list(name):
                self.assertEqual((row["Answer"], row["Fingerprint"]),
                                 (VERDICT["answer"], hashlib.sha256(PAPERS.job.read_bytes()).hexdigest()))


COUNTS = ("Quantity", "Cost each", "Cost")  # the currency is that of the parts list
WITH_UNIT = r"^(|–|on|off|shut \(0 turns\)|(± )?-?\d[\d.]*(e[-+]\d+)?( … \d[\d.]*)? [a-zA-Z%°][^ ]*( lbf| from shut)?)$"


class Units(unittest.TestCase):
    def test_every_number_in_a_measured_column_has_its_unit(self):
        seen = 0
        for table in HTML.tables:
            for row in table.rows:
                for head, (cell, measured) in zip(table.heads, row):
                    if measured and head not in COUNTS:
                        self.assertRegex(cell, WITH_UNIT, (table.section, head, row))
                        seen += any(c.isdigit() for c in cell)
        self.assertGreater(seen, 40)


class Pages(unittest.TestCase):
    def test_pages_are_counted(self):
        count = int(PDF.info["Pages"])
        self.assertEqual(count, len(PDF.pages))
        self.assertGreater(count, 12)
        for page in PDF.pages:
            self.assertTrue(page.said(page.foot).endswith(f"page{page.number}of{count}"), page.said(page.foot))

    def test_only_pages_of_a_job_that_does_not_hold_say_not_proven(self):
        for page in PDF.pages:
            self.assertEqual("NOTPROVEN:" in page.said(page.head), not HELD)
            self.assertEqual("proven:all" in page.said(page.head), HELD)
        self.assertEqual(squeezed("Nothing may be built, set or run by these papers.") in PDF.text, not HELD)
        self.assertEqual("NOTPROVEN" in PDF.text, not HELD)
        self.assertEqual(HELD, PAPERS.done.returncode == 0)

    def test_every_page_has_title_and_fingerprint(self):
        print_of_file = hashlib.sha256(PAPERS.job.read_bytes()).hexdigest()
        self.assertIn(print_of_file, squeezed("".join(PDF.pages[0].body_lines())))
        for page in PDF.pages:
            self.assertIn(squeezed(VERDICT["title"][:60]), page.said(page.head))
            if JOB != "long_names_without_blanks":  # which is broken where it has no blank
                words = VERDICT["title"][:60].split()
                width = page.width - LEFT - RIGHT
                on_the_left = [word[0] for word in page.head if word[1] < LEFT + 0.27 * width]
                self.assertEqual(on_the_left[:len(words) - 1], words[:-1])
            self.assertIn(print_of_file[:16], page.said(page.foot))

    def test_revision_date_and_author_stand_on_the_cover(self):
        cover = squeezed("".join(PDF.pages[0].body_lines()))
        words = tomllib.loads(PAPERS.text).get("drawing", {})
        for key in ("revision", "date", "author"):
            self.assertIn(key.capitalize() + squeezed(words.get(key, "")), cover)
        if "revision" in words:
            for page in PDF.pages:
                self.assertIn(squeezed("revision " + words["revision"][:31]), page.said(page.head))

    def test_the_cover_says_on_which_page_each_paper_begins(self):
        sections = PAPERS.sections()
        self.assertEqual(len(sections), 12)
        pages = [page for _, page in sections.values()]
        self.assertEqual(pages, sorted(set(pages)))
        mark = "" if HELD else ": NOT PROVEN"  # a page that has lost its head still says so
        for title, page in sections.values():
            self.assertEqual(PDF.pages[page - 1].body_lines()[0], title + mark)

    def test_pages_are_of_the_format_and_lie_where_they_are_wide(self):
        width, height = SIZES["Letter" if JOB == "us_units_on_letter" else "A4"]
        wide = {page.number for name in HTML.wide for page in PAPERS.pages_of(name)}
        self.assertTrue(wide)
        for page in PDF.pages:
            expected = (height, width) if page.number in wide else (width, height)
            self.assertAlmostEqual(page.width, expected[0], delta=0.5)
            self.assertAlmostEqual(page.height, expected[1], delta=0.5)

    def test_the_settings_are_one_page(self):
        self.assertEqual(len(PAPERS.pages_of("settings")), 1)


class Layout(unittest.TestCase):
    def test_no_word_stands_in_the_margins(self):
        for page in PDF.pages:
            for word, left, top, right, bottom in page.words:
                where = f"{word} on page {page.number}"
                self.assertGreaterEqual(left, LEFT - 1, where)
                self.assertLessEqual(right, page.width - RIGHT + 1, where)
            for word, _, top, _, bottom in page.body:
                self.assertGreaterEqual(top, TOP - 1, f"{word} on page {page.number}")
                self.assertLessEqual(bottom, page.height - BOTTOM + 1, f"{word} on page {page.number}")

    def test_no_two_words_lie_on_each_other(self):
        for page in PDF.pages:
            words = sorted((word for word in page.words if word[0].strip()), key=lambda word: word[2])
            for i, a in enumerate(words):
                for b in words[i + 1:]:
                    if b[2] >= a[4]:
                        break
                    self.assertLess(overlap(a, b), 0.15, f"{a[0]} and {b[0]} on page {page.number}")

    def test_what_stands_over_a_page_stands_apart(self):
        """Title, answer and revision do not run into each other: words of two of them are a letter apart at least."""
        answer = HTML.styles[0].split("@top-center")[1].split('"')[1].split()
        for page in PDF.pages:
            words = sorted(page.head, key=lambda word: word[1])
            first, last = (next(w for w in words if answer[end].startswith(w[0]) and w[0]) for end in (0, -1))
            for word in words:
                if word[2] < first[4] and first[2] < word[4]:
                    inside = first[1] <= word[1] and word[3] <= last[3]
                    self.assertTrue(inside or word[3] < first[1] - 4 or word[1] > last[3] + 4, (page.number, word, first, last))

    def test_every_word_of_the_schematic_can_be_read(self):
        """Letters of a millimetre and more; where the whole is drawn smaller, a piece of it has them."""
        least = 1.1 * MM * 1.1  # a word's box is a tenth higher than its letters' size
        whole, *pieces = PAPERS.pages_of("schematic")
        readable = [word[0] for page in (whole, *pieces) for word in page.body if word[4] - word[2] >= least]
        for word in whole.body:
            self.assertIn(word[0], readable)
        self.assertEqual(bool(pieces), JOB == "sixty_parts")

    def test_no_heading_is_the_last_on_its_page(self):
        headings = {squeezed(text) for _, text in HTML.headings}
        for table in HTML.tables:
            if table.heads:
                headings |= {squeezed(each) for each in ("".join(table.heads), table.title, table.title + "".join(table.heads))}
        headings.discard("")
        self.assertGreater(len(headings), 20)
        for page in PDF.pages:
            lines = [squeezed(line) for line in page.body_lines()]
            for count in range(1, len(lines) + 1):
                self.assertNotIn("".join(lines[-count:]), headings, f"page {page.number}")

    def test_no_page_is_empty(self):
        for page in PDF.pages:
            self.assertGreater(len(page.said(page.body)), 20, f"page {page.number}")


def overlap(a, b):
    """The area that both cover as a share of the smaller."""
    width, height = min(a[3], b[3]) - max(a[1], b[1]), min(a[4], b[4]) - max(a[2], b[2])
    if width <= 0 or height <= 0:
        return 0.0
    return width * height / min((a[3] - a[1]) * (a[4] - a[2]), (b[3] - b[1]) * (b[4] - b[2]))


class SelfContained(unittest.TestCase):
    def test_a_browser_fetches_nothing(self):
        self.assertEqual(HTML.foreign, [])
        self.assertTrue(HTML.styles)
        for style in HTML.styles:
            without_words = re.sub(r'"[^"]*"', '""', style)
            self.assertNotRegex(without_words, r"url\(|@import|@font-face|src:|://")


class Grey(unittest.TestCase):
    def test_nothing_is_lost_where_colours_are_not_printed(self):
        """Text is black; lines of charts have colours, each at least twice as dark as the paper (WCAG's contrast)."""
        coloured, colours = 0, set()
        for _, _, pixels in pictures(PDF.path, "-r", "50", "-aa", "no", "-aaVector", "no"):
            red, green, blue = pixels[0::3], pixels[1::3], pixels[2::3]
            if red != green or green != blue:
                coloured += 1
                colours |= {pixel for pixel in zip(red, green, blue) if len(set(pixel)) > 1}
        self.assertGreater(len(colours), 0)
        self.assertLessEqual(coloured, len(PAPERS.pages_of("motions")))
        for colour in colours:
            self.assertGreater(1.05 / (luminance(colour) + 0.05), 2.0, colour)


def luminance(colour):
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (part / 255 for part in colour)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def tearDownModule():
    PAPERS.remove()


if __name__ == "__main__":
    unittest.main()
