# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""An example job with values left open: found, written back word for word, and proven again with the margins promised."""
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def text_of(case):
    """The job, with its stock named by a path that holds anywhere."""
    text = (ROOT / "jobs" / "to-find" / f"{case}.toml").read_text()
    return text.replace('stock = "../../stock"', f'stock = "{ROOT / "stock"}"')


def run(*words):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False)


def margins(output):
    """Margins by requirement as `poise find` prints them: name -> share in percent."""
    return {m[1].strip(): float(m[2]) for m in re.finditer(r"^  held    (.+?)  +\S.*\(([-0-9.]+) %\)", output, re.M)}


def main(program, case):
    text = text_of(case)
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "job.toml"
        job.write_text(text)
        done = run(program, "find", job)
        print(done.stdout, done.stderr)
        assert done.returncode == 0, "not found"
        after = job.read_text()
        pattern = "(.*?)".join(re.escape(piece) for piece in text.split('"find"'))
        assert re.fullmatch(pattern, after, re.S), "something else than the open words has changed"
        assert '"find"' not in after
        proven = run(program, "prove", job)
        assert proven.returncode == 0, proven.stdout + proven.stderr
        promised = margins(done.stdout)
        assert len(promised) >= 6, promised
        for name, share in promised.items():
            line = next(line for line in proven.stdout.splitlines() if line.startswith("held") and name in line)
            again = float(re.search(r"([-0-9.]+) %$", line.strip())[1])
            assert abs(again - share) <= 0.06 + 0.005 * abs(share), (name, share, again)
        once_more = run(program, "find", job)
        assert once_more.returncode == 2 and "leaves nothing open" in once_more.stderr, once_more.stderr


main(*sys.argv[1:])
