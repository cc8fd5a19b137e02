# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The list of deliberate faults (tools/deliberate_faults) has not rotted: each can still be made. Whether the tests notice
them is for `./check --faults`."""
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(sys.argv.pop(1)).resolve() if len(sys.argv) > 1 else Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tools" / "deliberate_faults"))

from faults import EQUATIONS, LEAST, Call, Fault, complaints_about, read_faults  # noqa: E402
from trial import read_ctest, read_gtest  # noqa: E402

FAULTS = read_faults()


def a_fault(**other):
    return Fault(**{"name": "a", "file": "a.cpp", "stands": "p_A - p_B", "becomes": "p_B - p_A", "wrong": "The sign.",
                    "tests": ("test_oil:oil.*", "test_parts")} | other)


class TheList(unittest.TestCase):
    def test_what_each_fault_replaces_stands_exactly_once(self):
        self.assertEqual(list(complaints_about(FAULTS, ROOT)), [])

    def test_has_thirty_faults_at_least_half_of_them_in_equations_and_eight_in_rules(self):
        self.assertGreaterEqual(len(FAULTS), LEAST)
        self.assertGreaterEqual(2 * sum(fault.file.startswith(EQUATIONS) for fault in FAULTS), len(FAULTS))
        self.assertGreaterEqual(sum(fault.file.startswith("src/rules/") for fault in FAULTS), 8)

    def test_every_executable_that_is_named_has_its_folder(self):
        for fault in FAULTS:
            for call in fault.calls():
                if not call.by_ctest:
                    self.assertTrue((ROOT / "tests" / call.target.removeprefix("test_")).is_dir(), f"{fault.name}: {call}")


class Rot(unittest.TestCase):
    def complaints(self, text, *faults):
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "a.cpp").write_text(text)
            return list(complaints_about(faults, Path(folder)))

    def test_text_that_is_gone_or_there_twice_is_named(self):
        self.assertEqual(self.complaints("p_A - p_B", a_fault()), [])
        self.assertIn("0 times", self.complaints("p_A - p_C", a_fault())[0])
        self.assertIn("2 times", self.complaints("p_A - p_B, p_A - p_B", a_fault())[0])

    def test_a_file_that_is_gone_and_a_name_that_is_there_twice_are_named(self):
        self.assertIn("there is no b.cpp", self.complaints("", a_fault(file="b.cpp"))[0])
        self.assertIn("twice", self.complaints("p_A - p_B", a_fault(), a_fault())[0])


class Calls(unittest.TestCase):
    def test_what_is_named_comes_before_whole_executables(self):
        self.assertEqual(a_fault().calls(), [Call("test_oil", "oil.*"), Call("test_oil", ""), Call("test_parts", "")])
        self.assertEqual(a_fault(tests=("ctest/sheet:draw.*",)).calls(), [Call("sheet", "draw.*", True)])


class Answers(unittest.TestCase):
    def test_the_first_test_that_failed_is_read(self):
        text = ("[==========] Running 2 tests from 1 test suite.\n[ RUN      ] oil.a\n[       OK ] oil.a (0 ms)\n"
                "[ RUN      ] oil.b/line\n[  FAILED  ] oil.b/line, where GetParam() = 1 (3 ms)\n[  FAILED  ] oil.b/line\n")
        ran = read_gtest(text, True)
        self.assertEqual((ran.failed, ran.tests), ("oil.b/line", 2))
        self.assertEqual(read_gtest("[  FAILED  ] oil.b (3 ms)\n", True).failed, "oil.b")

    def test_one_that_ended_the_program_is_the_last_that_was_begun(self):
        self.assertEqual(read_gtest("[==========] Running 9 tests from 1 t\n[ RUN      ] oil.c\n", True).failed, "oil.c")

    def test_a_filter_that_meets_nothing_is_seen(self):
        self.assertEqual(read_gtest("[==========] Running 0 tests from 0 test suites.\n", False).tests, 0)

    def test_ctest_is_read(self):
        text = "1/2 Test #7: draw.one .......   Passed    0.10 sec\n2/2 Test #8: draw.two .......***Failed    0.10 sec\n"
        ran = read_ctest(text, True)
        self.assertEqual((ran.failed, ran.tests), ("draw.two", 2))


if __name__ == "__main__":
    unittest.main()
