# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The Debian packages that cpack makes hold what they should, belong to root, and ask for what the program loads."""
import re
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

BUILD = sys.argv.pop()
sys.argv[1:] = []


def output(*command):
    return subprocess.run(list(map(str, command)), check=True, capture_output=True, text=True).stdout


class Packages(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        folder = tempfile.TemporaryDirectory(prefix="poise-package-")
        cls.addClassCleanup(folder.cleanup)
        # Weakly packed: it is what is inside that counts here.
        output("cpack", "-G", "DEB", "--config", f"{BUILD}/CPackConfig.cmake", "-B", folder.name,
               "-D", "CPACK_DEBIAN_COMPRESSION_TYPE=gzip")
        debs = {path.name.split("_")[0]: path for path in Path(folder.name).glob("*.deb")}
        cls.names = set(debs)
        cls.contents = {name: output("dpkg-deb", "-c", path) for name, path in debs.items()}
        cls.control = {name: output("dpkg-deb", "-f", path) for name, path in debs.items()}
        cls.unpacked = Path(folder.name) / "unpacked"
        output("dpkg-deb", "-x", debs["poise"], cls.unpacked)

    def files(self, package):
        return set(re.findall(r" \./(\S+[^/\s])$", self.contents[package], re.MULTILINE))

    def field(self, package, name):
        return re.search(rf"^{name}: (.*)$", self.control[package], re.MULTILINE).group(1)

    def test_there_are_two(self):
        self.assertEqual(self.names, {"poise", "libpoise-dev"})

    def test_the_program_comes_with_examples_lists_schemas_documents_manual_and_completion(self):
        self.assertLessEqual({
            "usr/bin/poise", "usr/share/poise/jobs/drilling-stand.toml", "usr/share/poise/stock/pumps.csv",
            "usr/share/poise/schema/verdict.schema.json", "usr/share/doc/poise/copyright",
            "usr/share/doc/poise/changelog.Debian.gz", "usr/share/doc/poise/README.md", "usr/share/man/man1/poise.1.gz",
            "usr/share/bash-completion/completions/poise", "usr/share/zsh/vendor-completions/_poise",
            "usr/share/fish/vendor_completions.d/poise.fish"}, self.files("poise"))

    def test_headers_and_libraries_are_for_developers(self):
        self.assertLessEqual({"usr/include/poise/prove/prove.hpp", "usr/lib/libpoise_solve.a",
                              "usr/lib/cmake/poise/poiseConfig.cmake", "usr/share/doc/libpoise-dev/copyright",
                              "usr/share/doc/libpoise-dev/examples/prove_a_job/main.cpp"}, self.files("libpoise-dev"))
        for file in self.files("poise"):
            self.assertNotRegex(file, r"\.(hpp|a|cmake)$")
        self.assertFalse(self.files("poise") & self.files("libpoise-dev"))

    def test_everything_belongs_to_root_and_to_nobody_else(self):
        for contents in self.contents.values():
            for line in contents.splitlines():
                self.assertRegex(line, r"^[-dl]r[w-][x-]r-[x-]r-[x-] root/root ")

    def test_what_the_program_loads_is_asked_for(self):
        depends = self.field("poise", "Depends")
        for package in ("libc6", "libstdc++6", "libsundials-cvodes", "libudunits2-0", "libudunits2-data",
                        "libfmt9", "libsqlite3-0", "libnlopt0", "libxlsxwriter", "libssl3"):
            self.assertIn(package, depends)
        self.assertIn("weasyprint", self.field("poise", "Recommends"))
        self.assertIn("chromium", self.field("poise", "Suggests"))
        self.assertIn("libsundials-dev", self.field("libpoise-dev", "Depends"))

    def test_it_says_who_looks_after_it_and_what_it_is(self):
        for package in self.names:
            self.assertEqual(self.field(package, "Maintainer"), "The Poise founders <poise@example.invalid>")
            self.assertRegex(self.field(package, "Description"), "^design and prove oil-hydraulic circuits")

    def test_the_program_is_stripped(self):
        self.assertNotIn(".symtab", output("readelf", "-SW", self.unpacked / "usr/bin/poise"))


if __name__ == "__main__":
    unittest.main()
