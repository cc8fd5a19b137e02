# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The rules of the house that a compiler does not know: data flows one way, files stay small, the licence stands first.

The rooms and what each sees are read from CMakeLists.txt, so there is one list of them only.
"""
import re
import sys
import unittest
from pathlib import Path

ROOT = Path(sys.argv.pop(1)).resolve() if len(sys.argv) > 1 else Path(__file__).resolve().parents[2]
LICENCE = "// Copyright 2026 The Poise founders. Licence: Apache-2.0."
LONGEST_FILE = 400


def rooms_seen(cmake_text):
    """Room -> every room it may include, itself among them, in the order the rooms are declared."""
    seen = {}
    for call in re.finditer(r"^add_room\(([^)]*)\)", cmake_text, re.MULTILINE):
        words = call.group(1).split()
        named = words[words.index("ROOMS") + 1:] if "ROOMS" in words else []
        named = named[:named.index("LIBRARIES")] if "LIBRARIES" in named else named
        # A room named before it is declared raises KeyError here: the order itself would run backwards.
        seen[words[0]] = {words[0]}.union(*(seen[room] for room in named))
    return seen


def complaints_about_includes(room, name, text, seen):
    for number, line in enumerate(text.splitlines(), 1):
        include = re.match(r'\s*#\s*include\s*"([^"]*)"', line)
        if not include:
            continue
        target = include.group(1).split("/")[0]
        if "/" not in include.group(1) or target not in seen:
            yield f'{name}:{number}: "{include.group(1)}" does not start with a room; write "room/file.hpp"'
        elif target not in seen[room]:
            yield f"{name}:{number}: {room} does not see {target}; it sees {', '.join(sorted(seen[room]))}"


def source_files(*folders):
    return [path for folder in folders for path in sorted((ROOT / folder).rglob("*"))
            if path.suffix in (".cpp", ".hpp")]


class RulesOfTheHouse(unittest.TestCase):
    seen = rooms_seen((ROOT / "CMakeLists.txt").read_text())

    def holds(self, complaints):
        complaints = list(complaints)
        self.assertFalse(complaints, "\n" + "\n".join(complaints))

    def test_there_are_sources_to_look_at(self):
        self.assertGreater(len(source_files("src")), 0)
        self.assertIn("quantity", self.seen["parts"])

    def test_every_folder_under_src_is_a_declared_room(self):
        rooms = {path.relative_to(ROOT / "src").parts[0] for path in source_files("src")}
        self.holds(f"src/{room} is not declared by add_room in CMakeLists.txt" for room in rooms - set(self.seen))

    def test_no_room_reaches_back(self):
        for path in source_files("src"):
            name = path.relative_to(ROOT)
            if name.parts[1] in self.seen:
                self.holds(complaints_about_includes(name.parts[1], name, path.read_text(), self.seen))

    def test_no_source_file_is_longer_than_400_lines(self):
        lengths = ((path, len(path.read_text().splitlines())) for path in source_files("src"))
        self.holds(f"{path.relative_to(ROOT)} has {length} lines; split it by what it does"
                   for path, length in lengths if length > LONGEST_FILE)

    def test_every_source_file_starts_with_the_licence(self):
        self.holds(f"{path.relative_to(ROOT)} does not start with: {LICENCE}"
                   for path in source_files("src", "tests", "bench")
                   if path.read_text().split("\n", 1)[0] != LICENCE)

    def test_an_include_that_reaches_back_would_be_found(self):
        seen = rooms_seen("add_room(oil)\nadd_room(parts ROOMS oil\n  LIBRARIES fmt::fmt)\n")
        back = list(complaints_about_includes("oil", "oil.hpp", '#include "oil/x.hpp"\n#include "parts/y.hpp"\n', seen))
        self.assertEqual(back, ["oil.hpp:2: oil does not see parts; it sees oil"])
        self.assertEqual(list(complaints_about_includes("parts", "y.hpp", '#include "oil/x.hpp"\n', seen)), [])


if __name__ == "__main__":
    unittest.main()
