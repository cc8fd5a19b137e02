# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Papers of a job as others see them: the PDF by poppler's programs, the HTML by Python's own reader, the verdict as JSON."""
import csv
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
from html.parser import HTMLParser
from xml.etree import ElementTree

for each in ("pdftotext", "pdfinfo", "pdftoppm", "weasyprint"):
    if not shutil.which(each):
        sys.exit(f"{each} is missing: install Debian's poppler-utils and weasyprint (tools/setup.sh lists them)")

REPOSITORY = pathlib.Path(__file__).resolve().parents[3]
MM = 72 / 25.4
LEFT, RIGHT, TOP, BOTTOM = 20 * MM, 15 * MM, 22 * MM, 18 * MM
# The pages of each format by its name, points.
SIZES = {"A4": (210 * MM, 297 * MM), "Letter": (8.5 * 72, 11 * 72)}
VOID = {"meta", "col", "br", "link", "img", "input", "base"}


def run(*words, **options):
    """A program's end, with what it said."""
    words = [str(word) for word in words]
    return subprocess.run(words, capture_output=True, text=True, check=False, **options)


def output(*words, text=True):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=text, check=False)
    if done.returncode != 0:
        raise AssertionError(f"{words[0]} ended with {done.returncode}: {done.stderr}")
    return done.stdout


def pictures(pdf, *options):
    """Pages as width, height and the bytes of their pixels, red, green and blue in turn."""
    data = output("pdftoppm", *options, pdf, text=False)
    while data:
        kind, size, most, data = data.split(b"\n", 3)
        width, height = (int(number) for number in size.split())
        if (kind, most) != (b"P6", b"255"):
            raise AssertionError("pdftoppm writes something else than it used to")
        yield width, height, data[:3 * width * height]
        data = data[3 * width * height:]


def squeezed(text):
    """Without blanks and line ends: where a text is broken into lines is the layout's affair."""
    return "".join(text.split())


def three_figures(number, unit=""):
    """As results stand on paper: three significant figures, powers of ten only below 1e-4 and from 1e7 on."""
    if number == 0:
        text = "0"
    else:
        rounded = f"{number:.2e}"
        power = int(rounded.split("e")[1])
        text = rounded if power < -4 or power > 6 else f"{float(rounded):.{max(0, 2 - power)}f}"
    return f"{text} {raised(unit)}".strip()


def raised(unit):
    """A unit as paper shows it: cm³ for cm3."""
    unit = unit.replace("deg", "°") if unit in ("degC", "degF") else unit
    return re.sub(r"(?<=[a-z])([23])", lambda m: "²³"[int(m[1]) - 2], unit)


class Table:
    """Title, heads and rows of a table; a row holds cells, each a text and whether it stands in a measured column."""

    def __init__(self, section):
        self.section, self.title, self.heads, self.rows = section, "", [], []


class Html(HTMLParser):
    """What the HTML says in its order: blocks of text, headings, tables; and what a browser would fetch."""

    BLOCKS = {"h1", "h2", "h3", "p", "li", "th", "td", "title", "style", "div"}

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.open, self.section, self.wide = [], "", set()
        self.blocks, self.headings, self.tables, self.foreign, self.styles = [], [], [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if tag in ("link", "script", "img", "image", "iframe", "object", "embed", "base", "audio", "video", "source"):
            self.foreign.append(tag)
        for name, value in attributes:
            inside = value is None or name.startswith("xmlns") or (name.endswith("href") and value.startswith("#"))
            if not inside and (name.split(":")[-1] in ("src", "href", "srcset", "data", "action", "poster", "background")
                               or "url(" in value.replace("url(#", "") or (name != "content" and "://" in value)):
                self.foreign.append(f"{tag} {name}={value}")
        if tag == "section":
            self.section = given["id"]
            if given.get("class") == "wide":
                self.wide.add(self.section)
        if tag == "table":
            self.tables.append(Table(self.section))
        if tag == "tr":
            self.row = []
        if tag not in VOID:
            self.open.append((tag, given.get("class") or ""))
        if tag in self.BLOCKS:
            self.text = ""

    def handle_endtag(self, tag):
        classes = ""
        while self.open:
            name, classes = self.open.pop()
            if name == tag:
                break
        if tag == "tr":
            self.end_of_row()
        if tag not in self.BLOCKS or self.inside("svg"):
            return
        if tag == "style":
            self.styles.append(self.text)
        elif not self.inside("head") and not self.inside_class("screen"):
            self.blocks.append((self.section, tag, self.text))
            if tag in ("h2", "h3"):
                self.headings.append((self.section, self.text))
            if tag in ("td", "th"):
                self.row.append((self.text, "measured" in classes.split()))
        self.text = ""

    def end_of_row(self):
        if self.inside("thead") and len(self.row) == 1:
            self.tables[-1].title = self.row[0][0]
        elif self.inside("thead"):
            self.tables[-1].heads = [text for text, _ in self.row]
        else:
            self.tables[-1].rows.append(self.row)

    def tables_of(self, section):
        return [table for table in self.tables if table.section == section]

    def inside(self, tag):
        return any(name == tag for name, _ in self.open)

    def inside_class(self, name):
        return any(name in classes.split() for _, classes in self.open)

    def handle_data(self, data):
        if not self.inside("svg"):
            self.text = getattr(self, "text", "") + data


class Page:
    """A page of a PDF: its words with their boxes, and its lines in the order in which they were written."""

    def __init__(self, number, width, height, words, raw):
        self.number, self.width, self.height, self.words = number, width, height, words
        self.lines = [line for line in raw.splitlines() if line.strip()]
        self.head = [w for w in words if w[4] <= TOP]
        self.foot = [w for w in words if w[2] >= height - BOTTOM]
        self.body = [w for w in words if w not in self.head and w not in self.foot]

    def said(self, words):
        return squeezed("".join(word[0] for word in words))

    def body_lines(self):
        """Without head and foot, which are written last."""
        rest = self.said(self.head) + self.said(self.foot)
        lines = list(self.lines)
        while rest and lines and rest.endswith(squeezed(lines[-1])):
            rest = rest[:-len(squeezed(lines.pop()))]
        return lines


class Pdf:
    def __init__(self, path):
        self.path = path
        self.info = dict(re.findall(r"^([^:]+): +(.*)$", output("pdfinfo", path), re.M))
        raw = output("pdftotext", "-raw", path, "-").split("\f")
        tree = ElementTree.fromstring(output("pdftotext", "-bbox", path, "-"))
        tag = "{http://www.w3.org/1999/xhtml}"
        self.pages = []
        for number, page in enumerate(tree.iter(tag + "page"), 1):
            words = [(w.text or "", *(float(w.get(key)) for key in ("xMin", "yMin", "xMax", "yMax")))
                     for w in page.iter(tag + "word")]
            self.pages.append(Page(number, float(page.get("width")), float(page.get("height")), words, raw[number - 1]))
        self.text = squeezed("".join("".join(page.body_lines()) for page in self.pages))


class HandOver:
    """`poise papers` run on a job's file or text, and all that it wrote."""

    def __init__(self, program, job, *options, files=("html", "pdf")):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="poise-papers-"))
        self.job = pathlib.Path(job) if os.path.exists(job) else self.folder / "job.toml"
        if not self.job.exists():
            self.job.write_text(job, encoding="utf-8")
        self.text, self.out = self.job.read_text(encoding="utf-8"), self.folder / "papers"
        self.done = run(program, "papers", self.job, "-o", self.out, *options)
        self.verdict = json.loads(run(program, "prove", self.job, "--json").stdout)
        stem = self.job.stem + "-papers"
        if not (self.out / f"{stem}.{files[-1]}").exists():
            raise AssertionError(f"poise papers ended with {self.done.returncode}: {self.done.stderr}")
        self.html_text = (self.out / f"{stem}.html").read_text(encoding="utf-8")
        self.html = Html(self.html_text)
        self.pdf = Pdf(self.out / f"{stem}.pdf")

    def list(self, name):
        """The rows of a list as dictionaries."""
        with open(self.out / f"{self.job.stem}-{name}.csv", encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    def sections(self):
        """The page on which each paper begins, by the cover's own list."""
        listed = [[cell for cell, _ in row] for row in self.html.tables_of("cover")[-1].rows]
        names = [section for section in dict(self.html.headings) if section != "cover"]
        text = squeezed("".join(self.pdf.pages[0].body_lines()))
        behind = [row[0] for row in listed[1:]] + [self.verdict["notice"]]
        found = {}
        for name, (title, what, _), then in zip(names, listed, behind, strict=True):
            match = re.search(re.escape(squeezed(title + what)) + r"(\d+)" + re.escape(squeezed(then)), text)
            if not match:
                raise AssertionError(f"the cover does not list {title} with its page")
            found[name] = (title, int(match[1]))
        return found

    def pages_of(self, name):
        """The pages of one paper."""
        begins = [page for _, page in self.sections().values()] + [len(self.pdf.pages) + 1]
        begin = self.sections()[name][1]
        return self.pdf.pages[begin - 1:min(page for page in begins if page > begin) - 1]

    def remove(self):
        shutil.rmtree(self.folder)
