# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The scripts of tools/slurm with what Slurm tells a task in its environment, but without Slurm: shards, files, ends, refusals.

Usage: scripts.py PROGRAM
"""
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import unittest

from records import content, rows, wait_for

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
TOOLS = REPOSITORY / "tools/slurm"
OPTIONS = ["-n", "12", "--seed", "7"]
# Stands where Slurm's own commands stand, or the program: it notes what it was asked for.
NOTES = '#!/bin/sh\necho "${0##*/} $*" >>"$NOTED"\necho 41\n'


class Scripts(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory(prefix="poise-cluster-")
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        (self.folder / "jack.toml").write_text((REPOSITORY / "tests/cluster/cap-jack.toml").read_text())
        (self.folder / "bin").mkdir()
        for name in ("scontrol", "sbatch", "poise"):
            (self.folder / "bin" / name).write_text(NOTES)
            (self.folder / "bin" / name).chmod(0o755)
        self.environment = {name: value for name, value in os.environ.items() if not name.startswith(("SLURM", "POISE"))}
        self.environment.update(POISE_PROGRAM=str(PROGRAM), NOTED=str(self.folder / "noted"),
                                PATH=f"{self.folder / 'bin'}:{os.environ['PATH']}")

    def start(self, script, *words, **environment):
        return subprocess.Popen([TOOLS / script, *words], cwd=self.folder, env=dict(self.environment, **environment), text=True,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def run_script(self, script, *words, **environment):
        running = self.start(script, *words, **environment)
        out, complaint = running.communicate()
        return running.returncode, out, complaint

    @staticmethod
    def task(number, least, most, count, **more):
        """What Slurm tells a task of an array."""
        return dict(SLURM_ARRAY_JOB_ID="40", SLURM_ARRAY_TASK_ID=str(number), SLURM_ARRAY_TASK_MIN=str(least),
                    SLURM_ARRAY_TASK_MAX=str(most), SLURM_ARRAY_TASK_COUNT=str(count), SLURM_CPUS_ON_NODE="4096", **more)

    def noted(self):
        return (self.folder / "noted").read_text().splitlines()

    def file(self, shard, shards):
        return self.folder / f"jack.spread.shard-{shard}-of-{shards}.studies"


class Shards(Scripts):
    def test_tasks_of_any_first_number_make_the_shards_of_one_study(self):
        for number in (4, 5, 6):
            end, out, complaint = self.run_script("study.sh", "spread", "jack.toml", *OPTIONS, **self.task(number, 4, 6, 3))
            self.assertEqual(end, 0, complaint)
            self.assertIn(f"shard {number - 3} of 3 is done", out)
        end, out, complaint = self.run_script("merge.sh", "spread", "jack.toml", *OPTIONS)
        self.assertEqual(end, 0, complaint)
        subprocess.run([PROGRAM, "spread", "jack.toml", *OPTIONS, "--file", "whole.studies"], cwd=self.folder, check=False,
                       stdout=subprocess.DEVNULL)
        self.assertEqual(content(self.folder / "jack.spread.studies"), content(self.folder / "whole.studies"))

    def test_one_task_alone_does_its_shard_where_it_is_told_of_how_many(self):
        end, _, complaint = self.run_script("study.sh", "spread", "jack.toml", *OPTIONS, POISE_SHARDS="3",
                                            **self.task(2, 2, 2, 1))
        self.assertEqual(end, 0, complaint)
        self.assertEqual(rows(self.file(2, 3)), 5)  # 1, 4, 7, 10, and the job as stated, which every shard runs

    def test_faults_have_files_of_their_own(self):
        poise = str(self.folder / "bin" / "poise")
        for number in (1, 2):
            end, _, complaint = self.run_script("study.sh", "faults", "jack.toml", "--pairs", POISE_PROGRAM=poise,
                                                **self.task(number, 1, 2, 2))
            self.assertEqual(end, 0, complaint)
        self.assertEqual(self.noted(), [f"poise faults jack.toml --pairs --shard {number}/2 "
                                        f"--file jack.faults.shard-{number}-of-2.studies --resume" for number in (1, 2)])

    def test_a_missing_shard_is_named(self):
        for number in (1, 3):
            self.run_script("study.sh", "spread", "jack.toml", *OPTIONS, **self.task(number, 1, 3, 3))
        end, _, complaint = self.run_script("merge.sh", "spread", "jack.toml", *OPTIONS)
        self.assertEqual(end, 2)
        self.assertIn("no file of shard 2 of 3", complaint)
        self.assertFalse((self.folder / "jack.spread.studies").exists())

    def test_files_of_different_numbers_of_shards_are_not_mixed(self):
        self.run_script("study.sh", "spread", "jack.toml", *OPTIONS, **self.task(1, 1, 3, 3))
        for number in (1, 2):
            self.run_script("study.sh", "spread", "jack.toml", *OPTIONS, **self.task(number, 1, 2, 2))
        end, _, complaint = self.run_script("merge.sh", "spread", "jack.toml", *OPTIONS)
        self.assertEqual(end, 2)
        self.assertIn("lie side by side", complaint)
        end, _, complaint = self.run_script("merge.sh", "spread", "jack.toml", *OPTIONS, POISE_SHARDS="2")
        self.assertEqual(end, 0, complaint)


class Stops(Scripts):
    many = ["-n", "100000", "--seed", "7"]  # more than can be done before it is told to stop

    def stopped(self, told, **more):
        running = self.start("study.sh", "spread", "jack.toml", *self.many, **self.task(1, 1, 2, 2, **more))
        wait_for("runs", lambda: rows(self.file(1, 2)) >= 2)
        running.send_signal(told)
        out, complaint = running.communicate()
        self.assertGreaterEqual(rows(self.file(1, 2)), 2)
        return running.returncode, out, complaint

    def test_a_task_whose_time_is_nearly_up_goes_back_into_the_queue(self):
        end, out, _ = self.stopped(signal.SIGUSR1)
        self.assertEqual(end, 143)
        self.assertIn("stopped since its time is nearly up", out)
        self.assertEqual(self.noted(), ["scontrol requeue 40_1"])

    def test_a_task_does_not_go_round_for_ever(self):
        end, _, complaint = self.stopped(signal.SIGUSR1, SLURM_RESTART_COUNT="50")
        self.assertEqual(end, 2)
        self.assertIn("started 51 times and not done", complaint)
        self.assertFalse((self.folder / "noted").exists())

    def test_a_task_that_is_cancelled_stays_out_of_the_queue(self):
        end, out, _ = self.stopped(signal.SIGTERM)
        self.assertEqual(end, 143)
        self.assertIn("stopped since it was told to", out)
        self.assertFalse((self.folder / "noted").exists())


class Refusals(Scripts):
    def refused(self, script, *words, **environment):
        end, _, complaint = self.run_script(script, *words, **environment)
        self.assertEqual(end, 2)
        return complaint

    def test_what_does_not_go_with_shards_is_refused(self):
        for option in ("--file=x", "--file", "--anew", "--shard=1/2", "--csv", "--sample=3"):
            with self.subTest(option=option):
                self.assertIn("does not go with shards",
                              self.refused("study.sh", "spread", "jack.toml", option, **self.task(1, 1, 2, 2)))

    def test_gaps_in_an_array_are_refused(self):
        self.assertIn("has gaps", self.refused("study.sh", "spread", "jack.toml", **self.task(1, 1, 3, 2)))

    def test_what_is_not_there_is_named(self):
        self.assertIn('no job file "press.toml"', self.refused("study.sh", "spread", "press.toml", **self.task(1, 1, 2, 2)))
        self.assertIn("for a job array", self.refused("study.sh", "spread", "jack.toml"))
        self.assertIn("no file jack.spread.shard-K-of-N.studies", self.refused("merge.sh", "spread", "jack.toml"))
        self.assertIn("begin with spread or faults", self.refused("merge.sh", "prove", "jack.toml"))

    def test_an_end_that_is_no_answer_is_a_lost_shard(self):
        (self.folder / "jack.toml").write_text("nonsense")
        end, out, _ = self.run_script("study.sh", "spread", "jack.toml", **self.task(1, 1, 2, 2))
        self.assertEqual(end, 2)
        self.assertIn("was lost", out)


class Submits(Scripts):
    def test_the_array_and_after_it_the_merge(self):
        end, out, complaint = self.run_script("submit", "8", "--partition=long", "spread", "jack.toml", "-n", "99")
        self.assertEqual(end, 0, complaint)
        self.assertEqual(self.noted(), [
            f"sbatch --parsable --partition=long --array=1-8 {TOOLS}/study.sh spread jack.toml -n 99",
            f"sbatch --parsable --partition=long --dependency=afterany:41 {TOOLS}/merge.sh spread jack.toml -n 99"])
        self.assertIn("poise-merge-41.log", out)

    def test_what_it_cannot_submit_is_said(self):
        for words, said in ((["spread", "jack.toml"], "number of shards"), (["8", "jack.toml"], "spread or faults"),
                            (["8", "spread", "press.toml"], 'no job file "press.toml"')):
            end, _, complaint = self.run_script("submit", *words)
            self.assertEqual(end, 2)
            self.assertIn(said, complaint)


if __name__ == "__main__":
    unittest.main(verbosity=2)
