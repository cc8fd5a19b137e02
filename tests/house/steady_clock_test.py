# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Deadlines and progress go by the steady clock, and numbers are read and written the same in every language.

The system's clock may be set while a study runs, and a language may put a comma where we put a point. So no source looks
at that clock, and none takes over the language of whoever starts it, but for the places named here with their reason.
"""
import re
import sys
import unittest
from pathlib import Path

ROOT = Path(sys.argv.pop(1)).resolve() if len(sys.argv) > 1 else Path(__file__).resolve().parents[2]
SYSTEM_CLOCK = re.compile(r"\b(system_clock|high_resolution_clock|utc_clock|file_clock|gettimeofday|CLOCK_REALTIME\w*|timespec_get"
                          r"|localtime\w*|gmtime\w*|mktime|strftime|last_write_time|st_[mac]tim\w*|wait_until|sleep_until"
                          r"|julianday|CURRENT_TIMESTAMP)\b|\bstd::time\(|(?<!\w)::time\(|\btime\((nullptr|NULL|0)\)")
LANGUAGE = re.compile(r"\b(setlocale|newlocale|uselocale|imbue|std::locale|LC_ALL|LC_NUMERIC)\b")
# File: why a look at the system's clock does no harm there.
MAY_LOOK = {
    "src/serve/visit.cpp": "the field Date of an answer, which the page does not read (RFC 9110, 6.6.1 wants it)",
    "src/desk/study.cpp": "the stamp of a record is only compared for being the same, together with its size",
}


def found(pattern, text):
    """Numbers of the lines with it, comments left out."""
    return [number for number, line in enumerate(text.splitlines(), 1) if pattern.search(line.split("//")[0])]


class Steady(unittest.TestCase):
    sources = {path.relative_to(ROOT).as_posix(): path.read_text() for path in sorted((ROOT / "src").rglob("*"))
               if path.suffix in (".cpp", ".hpp")}

    def test_no_source_looks_at_the_systems_clock_but_those_named(self):
        looking = {name: lines for name, text in self.sources.items() if (lines := found(SYSTEM_CLOCK, text))}
        self.assertEqual(sorted(looking), sorted(MAY_LOOK), looking)

    def test_no_source_takes_over_a_language(self):
        self.assertEqual({name: lines for name, text in self.sources.items() if (lines := found(LANGUAGE, text))}, {})

    def test_a_look_at_the_clock_would_be_found(self):
        for line in ("auto t = std::chrono::system_clock::now();", "std::time(nullptr)", "::time(&now)", "gettimeofday(&t, 0)",
                     "condition.wait_until(lock, then)", "time(NULL)", "clock_gettime(CLOCK_REALTIME, &t)"):
            self.assertEqual(found(SYSTEM_CLOCK, line), [1], line)
        for line in ("steady_clock::now()", "condition.wait_for(lock, 20ms)", "double time(int row);", "// system_clock"):
            self.assertEqual(found(SYSTEM_CLOCK, line), [], line)
        self.assertEqual(found(LANGUAGE, 'std::setlocale(LC_ALL, "");'), [1])


if __name__ == "__main__":
    unittest.main()
