# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The built program loads only the libraries whose licences docs/dependencies.md has weighed; no GPL, no MPI."""
import re
import subprocess
import sys
import unittest

PROGRAM = sys.argv.pop() if len(sys.argv) > 2 else "build/release/poise"
sys.argv[1:] = []

WEIGHED = {
    "sundials_cvodes", "sundials_nvecserial", "sundials_sunmatrixsparse", "sundials_sunlinsolklu",
    "klu", "btf", "amd", "colamd", "suitesparseconfig",
    "udunits2", "expat", "fmt", "nlopt", "xlsxwriter", "minizip", "z", "crypto", "sqlite3",
    "stdc++", "gcc_s", "c", "m",
}
# Present only in the sanitize build, which is never handed over; asan brings dl, rt and pthread of the C library.
WATCHERS = {"asan", "ubsan", "dl", "rt", "pthread"}


def loaded_libraries(program):
    """Names such as 'klu' of every shared library the program loads, directly or through another."""
    listing = subprocess.run(["ldd", program], check=True, capture_output=True, text=True).stdout
    return set(re.findall(r"^\s*lib(\S+?)\.so", listing, re.MULTILINE))


class LinkedLibraries(unittest.TestCase):
    def test_the_program_loads_only_weighed_libraries(self):
        loaded = loaded_libraries(PROGRAM)
        self.assertIn("stdc++", loaded)
        allowed = WEIGHED | (WATCHERS if "asan" in loaded else set())
        self.assertEqual(loaded - allowed, set(), "weigh the licence in docs/dependencies.md first")


if __name__ == "__main__":
    unittest.main()
