# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""What is installed works from anywhere, with nothing in the environment and without the repository."""
import gzip
import json
import sys
import unittest

from installed import Installed

Installed.build = sys.argv.pop()
sys.argv[1:] = []


class Program(Installed):
    def poise(self, *arguments):
        return self.run_bare(self.prefix / "bin/poise", *arguments)

    def test_example_jobs_are_proven(self):
        jobs = self.prefix / "share/poise/jobs"
        held = self.poise("prove", jobs / "drilling-stand.toml")
        self.assertEqual(held.returncode, 0, held.stderr)
        self.assertIn("Drilling stand for bogie frames", held.stdout)
        self.assertEqual(self.poise("prove", jobs / "drilling-stand-sequence-too-low.toml").returncode, 1)

    def test_a_job_finds_its_lists_by_their_relative_path(self):
        job = self.prefix / "share/poise/jobs/to-find/axle-box-lift.toml"
        self.assertIn('stock = "../../stock"', job.read_text())
        # Proving complains that values are open, and about nothing else: the lists were read.
        proven = self.poise("prove", job)
        self.assertEqual(proven.returncode, 2)
        self.assertIn("poise find", proven.stderr)
        self.assertNotIn("stock", proven.stderr)
        strayed = self.away / "strayed.toml"
        strayed.write_text(job.read_text())
        self.assertIn("stock", self.poise("prove", strayed).stderr)

    def test_schemas_documents_manual_and_completion_are_there(self):
        share = self.prefix / "share"
        schemas = list((share / "poise/schema").glob("*.json"))
        self.assertIn("verdict.schema.json", [schema.name for schema in schemas])
        for schema in schemas:
            self.assertIn("$schema", json.loads(schema.read_text()), schema.name)
        self.assertIn("Prove a job", (share / "doc/poise/README.md").read_text())
        self.assertTrue((share / "doc/poise/docs/job-file.md").is_file())
        self.assertEqual(gzip.open(share / "man/man1/poise.1.gz", "rt").read(), self.poise("manual").stdout)
        for shell, file in (("bash", "bash-completion/completions/poise"), ("zsh", "zsh/site-functions/_poise"),
                            ("fish", "fish/vendor_completions.d/poise.fish")):
            self.assertEqual((share / file).read_text(), self.poise("manual", "--completion", shell).stdout, file)

    def test_the_notices_of_what_is_inside_came_along(self):
        notices = (self.prefix / "share/doc/poise/copyright").read_text()
        for library in ("svelte", "uplot", "libtomlplusplus-dev", "nlohmann-json3-dev", "libcli11-dev"):
            self.assertIn(f"---- {library} ----", notices)

    def test_nothing_installed_knows_the_repository(self):
        repository = str(__file__).removesuffix("/tests/install/installed_test.py")
        for file in self.prefix.rglob("*"):
            if file.is_file() and file.suffix != ".a":
                self.assertNotIn(repository.encode(), file.read_bytes(), file)


if __name__ == "__main__":
    unittest.main()
