# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A job that is deleted, replaced or taken away while it lies open in the workbench, and a clock that jumps meanwhile:
nobody's file is lost, and a sentence says what to do.

Usage: changed.py PROGRAM
"""
import asyncio
import os
import pathlib
import resource
import sys
import time
import unittest

from workbench import JOBS, PATIENCE, Wire, Workbench

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
STAND = (JOBS / "drilling-stand.toml").read_text()
NEW = STAND.replace('setting = "210 bar"', 'setting = "205 bar"', 1)


class Changed(unittest.TestCase):
    def setUp(self):
        self.begin(None)

    def begin(self, environment, before=None):
        self.bench = Workbench(PROGRAM, environment=environment, before=before)
        self.job = self.bench.folder / "stand.toml"
        self.job.write_text(STAND)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.page = self.get("api/job/stand.toml").json()

    def get(self, way):
        return asyncio.run(self.ask("GET", way))

    def post(self, way, body):
        return asyncio.run(self.ask("POST", way, body))

    async def ask(self, method, way, body=None):
        wire = await Wire.to(self.bench.port)
        answer = await wire.ask(self.bench.request(method, way, body))
        await wire.end()
        return answer

    def save(self):
        return self.post("api/job/stand.toml/text", {"revision": self.page["revision"], "text": NEW})

    def still_shown(self):
        self.assertEqual(self.get("api/job/stand.toml").json()["text"], STAND)
        self.assertEqual(self.get("api/job/stand.toml/revision").json()["revision"], self.page["revision"])

    def is_refused(self, answer):
        self.assertEqual(answer.status, 422)
        self.assertIn('"stand.toml" was replaced by something that cannot be read as a job', answer.json()["sentence"])
        self.assertIn("move it away, then save again", answer.json()["sentence"])

    def test_a_deleted_job_stays_open_and_is_there_again_with_the_next_change(self):
        self.job.unlink()
        self.still_shown()
        self.assertEqual(self.save().status, 200)
        self.assertEqual(self.job.read_text(), NEW)

    def test_what_took_its_place_and_is_no_job_is_left_alone(self):
        outside = self.bench.folder.parent / f"{self.bench.folder.name}-theirs"
        outside.write_text("theirs")
        self.addCleanup(outside.unlink)
        large = "# " + "x" * 4_100_000
        for name, replace, holds in (
                ("a folder", lambda: self.job.mkdir(), lambda: self.job.is_dir()),
                ("a pipe", lambda: os.mkfifo(self.job), lambda: self.job.is_fifo()),
                ("a link out of the folder", lambda: self.job.symlink_to(outside), lambda: outside.read_text() == "theirs"),
                ("a link to nowhere", lambda: self.job.symlink_to("nowhere.toml"), lambda: self.job.is_symlink()),
                ("something large", lambda: self.job.write_text(large), lambda: self.job.read_text() == large)):
            with self.subTest(name):
                if self.job.is_dir():
                    self.job.rmdir()
                else:
                    self.job.unlink()
                replace()
                self.still_shown()
                self.is_refused(self.save())
                self.is_refused(self.post("api/job/stand.toml/edit", {
                    "revision": self.page["revision"], "says": "x",
                    "edits": [{"do": "set", "at": ["title"], "value": "Mine"}]}))
                self.assertTrue(holds())
        self.job.unlink()
        self.assertEqual(self.save().status, 200)
        self.assertEqual(self.job.read_text(), NEW)

    def test_a_folder_that_is_gone_is_told_and_the_job_is_kept_until_it_is_there_again(self):
        away = self.bench.folder.with_name(self.bench.folder.name + "-away")
        self.bench.folder.rename(away)
        self.still_shown()
        answer = self.save()
        self.assertEqual(answer.status, 422)
        self.assertIn("is no longer there; make it again, or use another one", answer.json()["sentence"])
        away.rename(self.bench.folder)
        self.assertEqual(self.save().status, 200)

    def test_bytes_that_are_no_text_are_shown_as_a_complaint_and_can_be_undone(self):
        broken = b'title = "\xff\xfe\0"\n'
        self.job.write_bytes(broken)
        page = self.get("api/job/stand.toml").json()
        self.assertFalse(page["runnable"])
        self.assertTrue(any("plain text" in each["sentence"] for each in page["complaints"]), page["complaints"])
        undone = self.post("api/job/stand.toml/undo", {"revision": page["revision"]})
        self.assertEqual((undone.status, self.job.read_text()), (200, STAND))
        again = self.post("api/job/stand.toml/redo", {"revision": undone.json()["revision"]})
        self.assertEqual((again.status, self.job.read_bytes()), (200, broken))

    def test_a_crowd_leaves_the_desk_the_descriptors_that_it_needs(self):
        """Where the system gives a program few of them, more connections than half of those are not kept open."""
        self.begin(None, lambda: resource.setrlimit(resource.RLIMIT_NOFILE, (64, 64)))

        async def crowd():
            page = await Wire.to(self.bench.port)
            idle = []
            for _ in range(200):
                idle.append(await Wire.to(self.bench.port))
                answer = await page.ask(self.bench.request("GET", "api/job/stand.toml"))
                self.assertEqual((answer.status, answer.json()["text"]), (200, STAND))
            changed = await page.ask(self.bench.request("POST", "api/job/stand.toml/text",
                                                        {"revision": self.page["revision"], "text": NEW}))
            self.assertEqual(changed.status, 200)
            for each in [page, *idle]:
                each.leave()
        asyncio.run(crowd())
        self.assertEqual(self.job.read_text(), NEW)

    def test_a_clock_that_jumps_delays_no_answer_and_ends_no_study(self):
        clock = os.environ.get("POISE_JUMPING_CLOCK")
        if not clock:
            self.skipTest("the clock that jumps is not built")
        self.begin(dict(os.environ, LD_PRELOAD=clock))
        proof = self.post("api/job/stand.toml/prove", {"tab": "a"})
        self.assertEqual(proof.json()["outcome"], "held")
        self.assertEqual(self.post("api/job/stand.toml/study", {"kind": "spread", "wanted": 6}).status, 200)
        end = time.monotonic() + PATIENCE
        while (state := self.get("api/job/stand.toml/study?kind=spread&known=0").json())["running"]:
            self.assertTrue(0.0 <= state["share"] <= 1.0 and (state["left"] is None or state["left"] >= 0.0), state)
            self.assertLess(time.monotonic(), end)
            time.sleep(0.05)
        self.assertEqual(state["trouble"], "")
        self.assertIsNotNone(state["answer"])
        # Both sides of a change within one second of a file's stamp.
        for number in range(5):
            text = STAND.replace('setting = "210 bar"', f'setting = "20{number} bar"', 1)
            self.job.write_text(text)
            os.utime(self.job, (number * 1e6, number * 1e6))
            self.assertEqual(self.get("api/job/stand.toml").json()["text"], text)
        self.assertEqual(self.bench.interrupt(), (0, ""))


if __name__ == "__main__":
    unittest.main()
