# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The list of deliberate faults: tables of TOML in this folder, one for each room or two.

Each entry says where the fault is made (`file`), the text that stands there exactly once (`stands`), what the careless one
writes instead (`becomes`), what is wrong with it (`wrong`) and which tests ought to notice, those first that ought to do so
first (`tests`):
  "test_oil:oil.*"                 a test executable and a filter of GoogleTest; without a filter all of it
  "ctest/sample_sheet:draw.*"      tests that ctest finds by this pattern, and the target they need
They were chosen without looking at the tests.
"""
import hashlib
import tomllib
from dataclasses import dataclass
from pathlib import Path

FOLDER = Path(__file__).resolve().parent
FIELDS = {"name", "file", "stands", "becomes", "wrong", "tests"}
LEAST = 30
# Half of the list is in what the machine does, the rest in what is made of it.
EQUATIONS = ("src/oil/", "src/parts/", "src/circuit/", "src/solve/")


@dataclass(frozen=True)
class Call:
    """Tests that are run together."""
    target: str
    pattern: str
    by_ctest: bool = False

    def __str__(self):
        return ("ctest/" if self.by_ctest else "") + self.target + (":" + self.pattern if self.pattern else "")

    def whole(self):
        return self if self.by_ctest else Call(self.target, "")


@dataclass(frozen=True)
class Fault:
    name: str
    file: str
    stands: str
    becomes: str
    wrong: str
    tests: tuple

    def calls(self):
        """What to run, one after the other until something fails: what is named, then the whole of each executable."""
        named = [call_of(text) for text in self.tests]
        return list(dict.fromkeys([call for call in named if call.pattern] + [call.whole() for call in named]))

    def made_in(self, text):
        return text.replace(self.stands, self.becomes)

    def key(self, text):
        """Changes with the fault and with the file it is made in."""
        parts = (self.file, self.stands, self.becomes, text)
        return hashlib.sha256("\0".join(parts).encode()).hexdigest()[:16]


def call_of(text):
    target, _, pattern = text.partition(":")
    return Call(target.removeprefix("ctest/"), pattern, target.startswith("ctest/"))


def read_faults(folder=FOLDER):
    faults = []
    for path in sorted(folder.glob("*.toml")):
        for entry in tomllib.loads(path.read_text(encoding="utf-8")).get("fault", []):
            if set(entry) != FIELDS:
                raise ValueError(f"{path.name}: {entry.get('name', entry)} has not just {', '.join(sorted(FIELDS))}")
            faults.append(Fault(**{**entry, "tests": tuple(entry["tests"])}))
    # Faults in one file follow each other, so that what hangs on it is built once less; the sort keeps their order.
    return sorted(faults, key=lambda fault: fault.file)


def complaints_about(faults, root):
    """What has rotted since the list was written."""
    names = set()
    for fault in faults:
        if fault.name in names:
            yield f'"{fault.name}" is there twice'
        names.add(fault.name)
        path = root / fault.file
        if not path.is_file():
            yield f'"{fault.name}": there is no {fault.file}'
            continue
        count = path.read_text(encoding="utf-8").count(fault.stands)
        if count != 1:
            yield f'"{fault.name}": in {fault.file} this stands {count} times, not once: {fault.stands}'
        if fault.stands == fault.becomes:
            yield f'"{fault.name}" changes nothing'
        if not fault.wrong.endswith("."):
            yield f'"{fault.name}" does not say what is wrong in a sentence'
        if not fault.tests:
            yield f'"{fault.name}" names no tests'
