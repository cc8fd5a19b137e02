# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A study as a job array of a real Slurm on this host: with a task killed and a task out of time, the same to the last bit.

Usage: study_test.py PROGRAM; ends with 77 where Slurm is not installed or does not start.
"""
import os
import pathlib
import re
import signal
import sqlite3
import subprocess
import sys
import unittest

from slurm import CannotStart, Slurm, wait_for

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
TOOLS = REPOSITORY / "tools/slurm"
JOB = REPOSITORY / "jobs/axle-box-lift.toml"
SHARDS, MACHINES, SEED = 3, 300, 7
OPTIONS = ["-n", str(MACHINES), "--seed", str(SEED)]
slurm = None


def rows(file):
    """How many runs a file of studies has; it may be written at the moment."""
    try:
        with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as record:
            return record.execute("SELECT count(*) FROM run").fetchone()[0]
    except sqlite3.OperationalError:
        return 0  # not there, or nothing in it yet


def content(file):
    with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as record:
        return list(record.iterdump())


def program_of_shard(shard):
    """The process number of the program that works on a shard."""
    for each in pathlib.Path("/proc").glob("[0-9]*"):
        try:
            words = (each / "cmdline").read_bytes().decode(errors="replace").split("\0")
        except OSError:
            continue  # it has ended
        if "spread" in words and f"{shard}/{SHARDS}" in words and not any(word.endswith("study.sh") for word in words):
            return int(each.name)
    return None


class Study(unittest.TestCase):
    def setUp(self):
        self.study = slurm.folder / "lift"
        (slurm.folder / "lift.toml").write_text(JOB.read_text())

    def file(self, shard):
        return slurm.folder / f"lift.spread.shard-{shard}-of-{SHARDS}.studies"

    def log(self, name):
        return (slurm.folder / name).read_text()

    def submit(self):
        said = slurm.ask(TOOLS / "submit", SHARDS, "--cpus-per-task=1", "spread", "lift.toml", *OPTIONS,
                         POISE_PROGRAM=str(PROGRAM))
        return re.search(r"job (\d+), logs", said)[1], re.search(r"merge: +job (\d+)", said)[1]

    def test_lost_and_stopped_tasks_go_on_and_the_study_is_the_same_to_the_last_bit(self):
        array, merge = self.submit()
        first, second = f"{array}_1", f"{array}_2"

        # Shard 2 is killed on its way, shard 1 is told that its time is nearly up.
        wait_for("runs of shard 2", lambda: rows(self.file(2)) >= 5)
        os.kill(program_of_shard(2), signal.SIGKILL)
        wait_for("runs of shard 1", lambda: rows(self.file(1)) >= 5)
        slurm.ask("scancel", "--batch", "--signal=USR1", first)
        slurm.soon(first)
        lost = slurm.until(second, "FAILED", "COMPLETED")
        self.assertEqual((lost["JobState"], lost["ExitCode"]), ("FAILED", f"{128 + signal.SIGKILL}:0"))
        done_before = rows(self.file(2))
        self.assertLess(done_before, MACHINES // SHARDS)
        self.assertEqual(slurm.until(first, "FAILED", "COMPLETED")["Restarts"], "1")
        self.assertEqual(slurm.job(first)["JobState"], "COMPLETED", self.log(f"poise-study-{first}.log"))

        # The merge comes after all have ended, says what is lacking, and gives no answer.
        self.assertEqual(slurm.until(merge, "FAILED", "COMPLETED")["JobState"], "FAILED")
        print(self.log(f"poise-merge-{merge}.log"))

        # What was lost goes on where it was killed; then the merge has everything.
        slurm.requeue(second)
        self.assertEqual(slurm.until(second, "FAILED", "COMPLETED")["JobState"], "COMPLETED")
        slurm.requeue(merge)
        self.assertEqual(slurm.until(merge, "FAILED", "COMPLETED")["JobState"], "COMPLETED",
                         self.log(f"poise-merge-{merge}.log"))
        for each in sorted(slurm.folder.glob("poise-*.log")): print(each.name + "\n" + each.read_text())

        whole = slurm.folder / "whole.studies"
        slurm.run(PROGRAM, "spread", "lift.toml", *OPTIONS, "--file", whole)
        self.assertEqual(content(slurm.folder / "lift.spread.studies"), content(whole))


def stop_in_order(*_):
    raise KeyboardInterrupt


if __name__ == "__main__":
    for ending in (signal.SIGTERM, signal.SIGHUP):
        signal.signal(ending, stop_in_order)
    try:
        with Slurm() as slurm:
            tests = unittest.main(exit=False, verbosity=2)
    except CannotStart as reason:
        print(f"SKIPPED: {reason}")
        sys.exit(77)
    sys.exit(not tests.result.wasSuccessful())
