# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A program of its own finds what is installed, is built with it, and proves jobs: examples/prove_a_job."""
import subprocess
import sys
import unittest

from installed import Installed

Installed.build = sys.argv.pop()
sys.argv[1:] = []


class FromCpp(Installed):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        example = cls.prefix / "share/doc/libpoise-dev/examples/prove_a_job"
        built = cls.away / "build"
        # A stranger's strict warnings meet our headers as system headers do, and none of ours meet the stranger's code.
        for command in (["cmake", "-S", example, "-B", built, "-G", "Ninja", f"-DCMAKE_PREFIX_PATH={cls.prefix}",
                         "-DCMAKE_BUILD_TYPE=Release", "-DCMAKE_EXPORT_COMPILE_COMMANDS=ON"],
                        ["cmake", "--build", built]):
            ran = subprocess.run(command, capture_output=True, text=True)
            if ran.returncode != 0:
                raise AssertionError(ran.stdout + ran.stderr)
        cls.example = built / "prove_a_job"
        cls.compiled_with = (built / "compile_commands.json").read_text()
        cls.jobs = cls.prefix / "share/poise/jobs"

    def test_a_job_that_holds(self):
        ran = self.run_bare(self.example, self.jobs / "drilling-stand.toml")
        self.assertEqual(ran.returncode, 0, ran.stderr)
        self.assertIn("Drilling stand for bogie frames: all held\n", ran.stdout)
        self.assertRegex(ran.stdout, r"(?m)^  held    .*; margin \d")
        self.assertNotIn("broken", ran.stdout)

    def test_a_job_that_does_not(self):
        ran = self.run_bare(self.example, self.jobs / "drilling-stand-sequence-too-low.toml")
        self.assertEqual(ran.returncode, 1, ran.stderr)
        self.assertRegex(ran.stdout, r"(?m)^  broken  .*; margin -\d")

    def test_it_says_what_the_command_says(self):
        """The margins, in number and order, are those of "poise prove --json"."""
        job = self.jobs / "axle-box-lift-needle-too-far-open.toml"
        told = self.run_bare(self.prefix / "bin/poise", "prove", "--json", job).stdout
        example = self.run_bare(self.example, job).stdout
        self.assertEqual(example.count("  held    ") + example.count("  broken  "), told.count('"held":'))

    def test_a_file_that_is_no_job_is_complained_about(self):
        ran = self.run_bare(self.example, self.prefix / "share/doc/poise/README.md")
        self.assertEqual(ran.returncode, 2)
        self.assertRegex(ran.stderr, r"README\.md:\d+:\d+: ")

    def test_the_warnings_of_the_house_stay_in_the_house(self):
        for flag in ("-Werror", "-Wall", "-Wconversion", "-fsanitize", "-flto"):
            self.assertNotIn(flag, self.compiled_with)


if __name__ == "__main__":
    unittest.main()
