# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A program that is killed while it writes: the old file is there whole, or the new one; and what it left half done is
cleared away by the next run.

Usage: killed.py PROGRAM DEATH; DEATH kills a program at the Nth call that changes a file (program/sudden_death.c).
POISE_DEATHS: at how many places of each command (a few by default; 0: at each).
"""
import asyncio
import os
import pathlib
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import unittest

from workbench import JOBS, Gone, Wire, Workbench

PROGRAM, DEATH = (pathlib.Path(sys.argv.pop(1)).resolve() for _ in range(2))
ROOT = JOBS.parent
DEATHS = int(os.environ.get("POISE_DEATHS", "8"))
LIMIT = 120  # s; ends a command that hangs, measures nothing


def run(words, folder, **environment):
    return subprocess.run([str(word) for word in (PROGRAM, *words)], cwd=folder, capture_output=True, text=True, timeout=LIMIT,
                          stdin=subprocess.DEVNULL, env=dict(os.environ, **{name: str(is_) for name, is_ in environment.items()}))


def files(folder):
    return {str(each.relative_to(folder)): each.read_bytes() for each in folder.rglob("*") if each.is_file()}


def some_of(calls):
    """Places among so many calls: all where they are few, else spread over them, the first and the last ones among them."""
    if DEATHS == 0 or calls <= DEATHS:
        return range(1, calls + 1)
    ends = {1, 2, 3, calls - 2, calls - 1, calls}
    between = random.Random(calls).sample(range(4, calls - 2), max(0, min(DEATHS - len(ends), calls - 6)))
    return sorted(ends.union(between))


class Killed(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="poise-killed-"))
        self.addCleanup(shutil.rmtree, self.folder)
        self.jack, self.open = self.folder / "jack.toml", self.folder / "open.toml"
        self.stand, self.day = self.folder / "stand.toml", self.folder / "day.csv"
        shutil.copy(ROOT / "tests/cluster/cap-jack.toml", self.jack)
        shutil.copy(ROOT / "tests/search/known/relief-between.toml", self.open)
        shutil.copy(JOBS / "drilling-stand.toml", self.stand)

    def killed_at_every_place(self, words, old=None, clears_by=None, may_be_new=lambda name, new: new, **environment):
        """`words(folder)` writes into a folder, where the files `old` stand. After each death the old or the new ones are
        there; after a run to the end the new ones and nothing else."""
        folder = self.folder / "work"

        def begin():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            for name, text in (old or {}).items():
                (folder / name).parent.mkdir(exist_ok=True)
                (folder / name).write_bytes(text)
            return files(folder)
        before = begin()
        counted = self.folder / "calls"
        whole = run(words(folder), folder, LD_PRELOAD=DEATH, POISE_CALLS=counted, **environment)
        self.assertIn(whole.returncode, (0, 1), whole.stderr)
        after = files(folder)
        self.assertNotEqual(before, after)
        places = some_of(int(counted.read_text()))
        died = 0
        for place in places:
            begin()
            done = run(words(folder), folder, LD_PRELOAD=DEATH, POISE_DIES_AT=place, **environment)
            died += done.returncode == -signal.SIGKILL
            for name, text in files(folder).items():
                if name in after and (pathlib.Path(name).name[0] != "."):
                    self.assertTrue(text in (before.get(name), after[name]),
                                    f"killed at call {place} of {places}, {name} is neither old nor new: {len(text)} bytes")
            for name in before:
                self.assertTrue((folder / name).exists(), f"killed at call {place}: {name} is lost")
            again = run((clears_by or words)(folder), folder, **environment)
            self.assertIn(again.returncode, (0, 1), again.stderr)
            self.assertEqual(files(folder).keys(), after.keys(), f"killed at call {place}: what is left is not cleared away")
            self.assertEqual(files(folder), after)
        self.assertGreater(died, 0)
        print(f"{' '.join(map(str, words(pathlib.Path('.'))[:1]))}: killed at {died} of {counted.read_text().strip()} calls",
              flush=True)

    def test_chart(self):
        self.killed_at_every_place(lambda folder: ["chart", self.jack, "-o", folder / "a.svg"], {"a.svg": b"old"})

    def test_drawing(self):
        self.killed_at_every_place(lambda folder: ["draw", self.jack, "-o", folder / "a.svg"], {"a.svg": b"old"})

    def test_trace(self):
        self.killed_at_every_place(lambda folder: ["prove", self.jack, "--trace", folder / "a.csv"], {"a.csv": b"old"})

    def test_rules(self):
        self.killed_at_every_place(lambda folder: ["rules", "--write", folder / "a.md"], {"a.md": b"old"})

    def test_reference(self):
        self.killed_at_every_place(lambda folder: ["parts", "--write", folder], {"README.md": b"old", "relief.svg": b"old"})

    def test_papers(self):
        self.killed_at_every_place(lambda folder: ["papers", self.jack, "--no-pdf", "-o", folder],
                                   {"jack-papers.html": b"old", "jack-parts.csv": b"old"})

    def test_papers_with_a_pdf(self):
        """A short script stands for WeasyPrint: it writes what it is given to the end, as slowly as it may."""
        tools = self.folder / "bin"
        tools.mkdir()
        (tools / "weasyprint").write_text('#!/bin/sh\nunset LD_PRELOAD\nfor last; do :; done\ncat >"$last"\n')
        (tools / "weasyprint").chmod(0o755)
        self.killed_at_every_place(lambda folder: ["papers", self.jack, "--only", "books", "-o", folder],
                                   {"jack-books.html": b"old", "jack-books.pdf": b"old"},
                                   PATH=f"{tools}:{os.environ['PATH']}")

    def test_found_values(self):
        old = self.open.read_bytes()
        self.killed_at_every_place(lambda folder: ["find", folder / "open.toml"], {"open.toml": old},
                                   clears_by=lambda folder: ["find", folder / "open.toml"]
                                   if (folder / "open.toml").read_bytes() == old else ["--version"])

    def test_merged_studies(self):
        parts = []
        for part in (1, 2):
            parts.append(self.folder / f"part-{part}.studies")
            run(["spread", self.jack, "-n", 4, "--shard", f"{part}/2", "--file", parts[-1]], self.folder)
        self.killed_at_every_place(lambda folder: ["merge", *parts, "-o", folder / "all.studies"],
                                   clears_by=lambda folder: ["merge", *parts, "-o", folder / "all.studies"]
                                   if not (folder / "all.studies").exists() else ["--version"])

    def test_a_table_of_a_spread(self):
        studies = self.folder / "whole.studies"
        run(["spread", self.jack, "-n", 4, "--file", studies], self.folder)
        self.killed_at_every_place(
            lambda folder: ["spread", self.jack, "-n", 4, "--file", studies, "--csv", folder / "a.csv"], {"a.csv": b"old"})

    def test_readings_that_are_kept(self):
        table = [line for line in run(["commission", self.stand, "--csv"], self.folder).stdout.splitlines() if line[0] != "#"]
        head = table[0].split(",")
        filled = [table[0]]
        for line in table[1:]:
            cells = line.split(",")
            if "bar" in cells:
                cells[head.index("value")] = "100"
                filled.append(",".join(cells))
                break
        self.day.write_text("\n".join(filled) + "\n")
        stand = self.stand.read_bytes()
        self.killed_at_every_place(
            lambda folder: ["commission", folder / "stand.toml", self.day, "--keep", "--anew", "--file", self.folder / "a.studies"],
            {"stand.toml": stand, "stand.baseline.toml": b"old"})

    def test_the_workbench_while_it_saves(self):
        """Killed in the middle of a change of a job: the text before it, or the one behind it."""
        before = self.jack.read_text()
        died = 0
        for place in range(1, 9):
            with self.subTest(call=place):
                folder = pathlib.Path(tempfile.mkdtemp(dir=self.folder))
                job = folder / "jack.toml"
                job.write_text(before)
                environment = dict(os.environ, LD_PRELOAD=str(DEATH), POISE_DIES_AT=str(place))
                after = before.replace('stroke = "25 mm"', 'stroke = "26 mm"')
                with Workbench(PROGRAM, folder, environment) as bench:
                    died += not asyncio.run(self.change(bench, after))
                    self.assertIn(job.read_text(), (before, after))
                    bench.process.kill()
                    bench.process.wait()
                    for name in files(folder):
                        self.assertTrue(name == "jack.toml" or name.startswith(".poise-draft-"), name)
                    # The next one that saves clears away what is left.
                    with Workbench(PROGRAM, folder) as next_one:
                        self.assertTrue(asyncio.run(self.change(next_one, after + "# again\n")))
                        self.assertEqual(sorted(files(folder)), ["jack.toml"])
        self.assertGreaterEqual(died, 4)  # new, written, flushed, put in its place

    async def change(self, bench, text):
        try:
            wire = await Wire.to(bench.port)
            page = (await wire.ask(bench.request("GET", "api/job/jack.toml"))).json()
            answer = await wire.ask(bench.request("POST", "api/job/jack.toml/text", {"revision": page["revision"], "text": text}))
            await wire.end()
            return answer.status == 200
        except (Gone, ConnectionError):
            return False


if __name__ == "__main__":
    unittest.main()
