# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The command `poise papers`: what can be asked for alone, how it ends, and what stays behind where something goes wrong.

Usage: command.py PROGRAM
"""
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import time
import unittest

from hand_over import Pdf, run, squeezed
from variants import PRESS, cut_short

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
DRAWING = ["job-schematic.dxf", "job-schematic.svg"]
LISTS = {"schematic": DRAWING, "parts": ["job-lines.csv", "job-parts.csv", "job-parts.xlsx"],
         "settings": ["job-settings.csv", "job-settings.xlsx"]}
PAPERS = ["job", "schematic", "parts", "settings", "motions", "requirements", "calculations", "points", "commissioning",
          "maintenance", "safety", "books"]
EVERYTHING = sorted(["job-papers.html", "job-traces.csv"] + [name for names in LISTS.values() for name in names])
# Stands where WeasyPrint stood: half a PDF, its own number, and no end.
HALF = '#!/bin/sh\nfor last; do :; done\nprintf half > "$last"\necho $$ >"$POISE_TEST_MARK"\nexec sleep 600\n'
FAILS = '#!/bin/sh\nfor last; do :; done\nprintf half > "$last"\nexit 3\n'


class Command(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="poise-papers-"))
        self.job, self.out = self.folder / "job.toml", self.folder / "out"
        self.job.write_text(PRESS.read_text())
        self.addCleanup(run, "rm", "-rf", self.folder)

    def papers(self, *options, path=None, out=None):
        environment = dict(os.environ, PATH=str(path)) if path else None
        return run(PROGRAM, "papers", self.job, "-o", out or self.out, *options, env=environment)

    def written(self):
        return sorted(each.name for each in self.out.iterdir())

    def instead_of_weasyprint(self, script):
        """A folder in which this script is what makes PDFs."""
        folder = self.folder / "bin"
        folder.mkdir()
        (folder / "weasyprint").write_text(script)
        (folder / "weasyprint").chmod(0o755)
        return folder


class Alone(Command):
    def test_each_paper_comes_with_its_own_lists(self):
        for name in PAPERS:
            with self.subTest(paper=name):
                done = self.papers("--only", name, "--no-pdf")
                self.assertEqual((done.returncode, done.stderr), (0, ""))
                self.assertEqual(self.written(), sorted([f"job-{name}.html", *LISTS.get(name, [])]))
                self.assertEqual(done.stdout.splitlines()[-1], "proven: all 4 requirements hold")
                self.assertEqual(sorted(done.stdout.splitlines()[:-1]), [str(self.out / each) for each in self.written()])
                run("rm", "-r", self.out)

    def test_the_drawing_says_in_its_title_block_what_it_is_worth_and_where_it_is_from(self):
        self.assertEqual(self.papers("--only", "schematic", "--no-pdf").returncode, 0)
        version = run(PROGRAM, "--version").stdout.strip()
        for name in DRAWING:
            text = (self.out / name).read_text()
            self.assertIn("proven: all 4 requirements hold", text)
            self.assertIn(f"Poise {version} from job.toml", text)
            self.assertNotIn("Poise Poise", text)

    def test_traces_alone(self):
        self.assertEqual(self.papers("--only", "traces").returncode, 0)
        self.assertEqual(self.written(), ["job-traces.csv"])

    def test_several_at_once(self):
        done = self.papers("--only", "settings", "--only", "books", "--only", "traces")
        self.assertEqual(done.returncode, 0)
        self.assertEqual(self.written(), sorted(["job-settings.html", "job-settings.pdf", "job-settings.csv", "job-settings.xlsx",
                                                 "job-books.html", "job-books.pdf", "job-traces.csv"]))
        self.assertEqual(len(Pdf(self.out / "job-settings.pdf").pages), 1)
        books = Pdf(self.out / "job-books.pdf")
        self.assertIn(squeezed("Where the heat is made"), books.text)
        self.assertNotIn(squeezed("Set in this order"), books.text)

    def test_one_that_is_not_known_gets_a_hint(self):
        done = self.papers("--only", "setings")
        self.assertEqual(done.returncode, 2)
        self.assertIn('did you mean "settings"?', done.stderr)
        for name in PAPERS + ["traces"]:
            self.assertIn(f'"{name}"', done.stderr)
        self.assertFalse(self.out.exists())


class Ends(Command):
    def test_with_1_where_something_is_broken(self):
        self.job.write_text(cut_short())
        done = self.papers("--no-pdf")
        self.assertEqual(done.returncode, 1)
        self.assertEqual(self.written(), EVERYTHING)
        self.assertEqual(done.stdout.splitlines()[-1], "NOT PROVEN: 1 of 4 requirements is broken")

    def test_with_2_where_the_job_cannot_be_read(self):
        self.job.write_text("title = 3")
        self.assertEqual(self.papers().returncode, 2)
        self.assertFalse(self.out.exists())

    def test_with_2_where_the_paper_is_not_known(self):
        done = self.papers("--paper", "A5")
        self.assertEqual(done.returncode, 2)
        self.assertIn('"A5"', done.stderr)

    def test_letter_may_be_asked_for(self):
        self.assertEqual(self.papers("--paper", "Letter", "--only", "books").returncode, 0)
        page = Pdf(self.out / "job-books.pdf").pages[0]
        self.assertEqual((page.width, page.height), (612, 792))


class Folders(Command):
    def test_that_is_a_file(self):
        self.out.write_text("mine")
        done = self.papers()
        self.assertEqual(done.returncode, 2)
        self.assertIn(str(self.out), done.stderr)
        self.assertEqual(self.out.read_text(), "mine")

    def test_that_nobody_can_make(self):
        done = self.papers(out="/proc/papers-of-a-press")
        self.assertEqual(done.returncode, 2)
        self.assertIn("/proc/papers-of-a-press", done.stderr)

    def test_in_which_a_name_is_taken_by_a_folder(self):
        (self.out / "job-parts.csv").mkdir(parents=True)
        done = self.papers("--no-pdf")
        self.assertEqual(done.returncode, 2)
        self.assertIn("job-parts.csv", done.stderr)

    def test_without_a_folder_papers_lie_beside_where_one_stands(self):
        done = run(PROGRAM, "papers", self.job, "--only", "books", "--no-pdf", cwd=self.folder)
        self.assertEqual(done.returncode, 0)
        self.assertTrue((self.folder / "job-papers" / "job-books.html").exists())


class NoPdf(Command):
    def test_where_weasyprint_is_missing_everything_else_is_there(self):
        done = self.papers(path="/nowhere")
        self.assertEqual(done.returncode, 2)
        self.assertEqual(self.written(), EVERYTHING)
        self.assertIn("WeasyPrint, which makes the PDF, is not installed", done.stderr)
        self.assertIn("apt install weasyprint", done.stderr)

    def test_where_it_fails_nothing_half_is_left_and_an_older_pdf_is_named(self):
        path = self.instead_of_weasyprint(FAILS)
        self.out.mkdir()
        (self.out / "job-papers.pdf").write_text("older")
        done = self.papers(path=f"{path}:{os.environ['PATH']}")
        self.assertEqual(done.returncode, 2)
        self.assertEqual(self.written(), sorted([*EVERYTHING, "job-papers.pdf"]))
        self.assertEqual((self.out / "job-papers.pdf").read_text(), "older")
        self.assertIn("exit status 3", done.stderr)
        self.assertIn("job-papers.pdf is from an earlier time and does not belong to these papers", done.stderr)

    def stopped(self, when):
        """Stopped by hand as soon as WeasyPrint is at work and `when` says so; what was complained of."""
        path, mark = self.instead_of_weasyprint(HALF), self.folder / "mark"
        environment = dict(os.environ, PATH=f"{path}:{os.environ['PATH']}", POISE_TEST_MARK=str(mark))
        with subprocess.Popen([PROGRAM, "papers", self.job, "-o", self.out], env=environment, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
            while running.poll() is None and not (mark.exists() and mark.read_text().endswith("\n") and when()):
                time.sleep(0.01)
            running.send_signal(signal.SIGINT)
            _, complaint = running.communicate()
        self.assertEqual(running.returncode, 2)
        self.assertIn("stopped by hand", complaint)
        self.assertFalse(alive(int(mark.read_text())), "what made the PDF still runs")
        self.assertFalse([name for name in self.written() if name.endswith(".pdf")])
        return complaint

    def test_stopped_by_hand_while_the_pdf_is_made_leaves_nothing_half(self):
        complaint = self.stopped(lambda: (self.out / "job-traces.csv").exists())
        self.assertIn("job-papers.pdf is not written", complaint)
        self.assertEqual(self.written(), EVERYTHING)

    def test_stopped_by_hand_while_the_job_runs_leaves_nothing(self):
        self.job.write_text(PRESS.read_text().replace('lasts = "40 s"', 'lasts = "40 min"'))
        self.stopped(lambda: True)
        self.assertEqual(self.written(), [])


class SameBytes(Command):
    def test_two_runs_that_are_seconds_apart_write_the_same(self):
        """Seconds are what files and archives keep of the time: the second run begins in another one."""
        self.assertEqual(self.papers().returncode, 0)
        done = int(time.time())
        while int(time.time()) <= done + 1:
            time.sleep(0.05)
        other = self.folder / "other"
        self.assertEqual(self.papers(out=other).returncode, 0)
        self.assertEqual(self.written(), sorted([*EVERYTHING, "job-papers.pdf"]))
        for name in self.written():
            self.assertEqual((self.out / name).read_bytes(), (other / name).read_bytes(), name)


def alive(process):
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True


if __name__ == "__main__":
    unittest.main()
