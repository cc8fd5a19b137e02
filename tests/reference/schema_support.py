# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""What the tests of the schema share: the schema itself, the reader of jobs, where each finds fault."""
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

try:
    import jsonschema
except ImportError:
    sys.exit("python3-jsonschema is missing: install it, or run ./check, which does")

READER, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])
sys.argv[1:] = []
SCHEMA = json.loads((ROOT / "docs/schema/job.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
FOLDERS = ("jobs", "tests/drawings", "tests/independent", "tests/rules/jobs", "tests/search", "tests/judge", "tests/papers",
           "tests/cluster", "src/compose", "bench")


def job_files():
    """Every TOML file of the house that may be a job."""
    return [path for folder in FOLDERS for path in sorted((ROOT / folder).rglob("*.toml"))]


def press_job():
    """The complete small job of docs/job-file.md."""
    page = (ROOT / "docs/job-file.md").read_text(encoding="utf-8")
    return re.search(r"```toml\n(title = .*?)```", page, re.DOTALL).group(1)


def text_of(path):
    """A job's text, its parts lists named so that they are found from any folder."""
    def absolute(match):
        return f'stock = "{(path.parent / match.group(1)).resolve()}"'
    return re.sub(r'^stock = "([^"]*)"', absolute, path.read_text(encoding="utf-8"), flags=re.MULTILINE)


def read(texts):
    """What the reader complains about, text by text: dictionaries with `way` and `sentence`."""
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for i, text in enumerate(texts):
            paths.append(str(pathlib.Path(folder) / f"{i}.toml"))
            pathlib.Path(paths[-1]).write_bytes(text.encode("utf-8"))
        ran = subprocess.run([READER], input="\n".join(paths) + "\n", text=True, capture_output=True, check=True)
    return [json.loads(line) for line in ran.stdout.splitlines()]


def faults(text):
    """Where the schema says no: the ways to what is wrong, the key itself where it is unknown."""
    places = set()
    for error in VALIDATOR.iter_errors(tomllib.loads(text)):
        way = tuple(error.absolute_path)
        if error.validator == "additionalProperties":
            places |= {way + (key,) for key in error.instance if key not in error.schema.get("properties", {})}
        else:
            places.add(way)
    return places


def accepts(text):
    """Whether the schema has nothing against a text."""
    return VALIDATOR.is_valid(tomllib.loads(text))
