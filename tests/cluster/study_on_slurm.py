# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A study as a job array of a real Slurm on this host: with a task killed and a task out of time, the same to the last bit.

Usage: study_on_slurm.py PROGRAM; ends with 77 where Slurm is not installed or does not start.
"""
import os
import pathlib
import re
import signal
import sys
import unittest

from records import content, rows, wait_for
from slurm import CannotStart, Slurm

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
SHARDS, MACHINES = 3, 600
SPREAD = ["spread", "jack.toml", "-n", str(MACHINES), "--seed", "7"]
slurm = None


def file(shard):
    return slurm.folder / f"jack.spread.shard-{shard}-of-{SHARDS}.studies"


def log(name):
    return (slurm.folder / name).read_text()


def submit():
    """The numbers of the array and of the job that merges."""
    said = slurm.ask(REPOSITORY / "tools/slurm/submit", SHARDS, "--cpus-per-task=1", *SPREAD, POISE_PROGRAM=str(PROGRAM))
    return re.search(r"job (\d+), logs", said)[1], re.search(r"merge: +job (\d+)", said)[1]


def program_of(shard):
    """The process number of the program that works on a shard."""
    for each in pathlib.Path("/proc").glob("[0-9]*"):
        try:
            words = (each / "cmdline").read_bytes().decode(errors="replace").split("\0")
            ours = f"SLURM_CONF={slurm.folder}/".encode() in (each / "environ").read_bytes()
        except OSError:
            continue  # it has ended, or is not ours
        if ours and str(PROGRAM) in words and f"{shard}/{SHARDS}" in words:
            return int(each.name)
    raise AssertionError(f"nothing works on shard {shard}: is the study too short to be interrupted?")


class StudyOnSlurm(unittest.TestCase):
    def ends(self, job, state):
        known = slurm.until_ended(job)
        logs = "\n".join(f"-- {each.name}\n{each.read_text()}" for each in sorted(slurm.folder.glob("poise-*.log")))
        self.assertEqual(known["JobState"], state, f"job {job}; what the jobs said:\n{logs}")
        return known

    def test_lost_and_stopped_tasks_go_on_and_the_study_is_the_same_to_the_last_bit(self):
        (slurm.folder / "jack.toml").write_text((REPOSITORY / "tests/cluster/cap-jack.toml").read_text())
        array, merge = submit()
        first, second, third = (f"{array}_{shard}" for shard in (1, 2, 3))

        # Shards 1 and 2 begin. Shard 2 is killed on its way, shard 1 is told what Slurm tells it when its time is nearly up.
        wait_for("runs of shard 2", lambda: rows(file(2)) >= 5)
        os.kill(program_of(2), signal.SIGKILL)
        wait_for("runs of shard 1", lambda: rows(file(1)) >= 5)
        program_of(1)
        slurm.ask("scancel", "--batch", "--signal=USR1", first)
        slurm.soon(first)
        self.assertEqual(self.ends(second, "FAILED")["ExitCode"], f"{128 + signal.SIGKILL}:0")
        kept = rows(file(2))
        self.assertTrue(5 <= kept < MACHINES // SHARDS, kept)
        self.assertEqual(self.ends(first, "COMPLETED")["Restarts"], "1")
        self.assertIn("back into the queue", log(f"poise-study-{first}.log"))
        self.ends(third, "COMPLETED")

        # The merge comes when all have ended, and says what is lacking instead of an answer.
        self.ends(merge, "FAILED")
        self.assertIn("Submit the same study again", log(f"poise-merge-{merge}.log"))

        # What was lost goes on where it was killed; then the merge has everything.
        slurm.requeue(second)
        self.ends(second, "COMPLETED")
        slurm.requeue(merge)
        self.ends(merge, "COMPLETED")

        # In one piece, on this machine.
        whole, merged = slurm.folder / "whole.studies", slurm.folder / "jack.spread.studies"
        slurm.run(PROGRAM, *SPREAD, "--file", whole)
        self.assertEqual(rows(whole), MACHINES + 1)  # and the job as stated
        self.assertEqual(content(merged), content(whole))
        self.assertEqual(merged.read_bytes(), whole.read_bytes())
        # Their answers are computed from the same runs; to ask for them runs nothing.
        answers = [slurm.run(PROGRAM, *SPREAD, "--file", each, "--resume", "--json").stdout for each in (merged, whole)]
        self.assertIn('"spread"', answers[0])
        self.assertEqual(*answers)

        # Slurm counts two cores here and binds nobody: each task kept to its own.
        if {0, 1} <= os.sched_getaffinity(0):
            begun = [re.search(r"on cores (\d)", log(f"poise-study-{each}.log"))[1] for each in (first, second)]
            self.assertEqual(sorted(begun), ["0", "1"])


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
