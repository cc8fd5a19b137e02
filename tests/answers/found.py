# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""An example job with values left open: found, written back word for word, and proven again with the margins promised."""
import re
import subprocess
import sys
import tempfile
from pathlib import Path

JOBS = Path(__file__).resolve().parents[2] / "jobs"
STOCK = JOBS.parent / "stock"

# Case: example, (part, key) of the values left open, parts whose model is left open with the keys that it states.
CASES = {
    "stand-settings": ("drilling-stand", [("V3", "setting"), ("V2", "setting"), ("V4", "setting"), ("V6", "turns")], {}),
    "lift-settings": ("axle-box-lift", [("V2", "setting"), ("V5", "turns"), ("V6", "turns")], {}),
    "lift-sizes-and-stock": (
        "axle-box-lift",
        [("V2", "setting"), ("V5", "turns"), ("V6", "turns"), ("C1", "bore"), ("C2", "bore")],
        {"P1": ["flow", "rated_pressure"], "V2": ["setting_flow", "rated_flow", "rated_pressure"]},
    ),
}


def block(text, part):
    begin = text.index(f"[parts.{part}]")
    return begin, text.index("\n\n", begin)


def opened(example, values, models):
    text = (JOBS / f"{example}.toml").read_text()
    for part, key in values:
        begin, end = block(text, part)
        inside, count = re.subn(rf'\n{key} = "[^"]*"', f'\n{key} = "find"', text[begin:end])
        assert count == 1, (part, key)
        text = text[:begin] + inside + text[end:]
    for part, keys in models.items():
        begin, end = block(text, part)
        inside = text[begin:end]
        for key in keys:
            inside = re.sub(rf"\n{key} = .*", "", inside)
        text = text[:begin] + inside + '\nmodel = "find"' + text[end:]
    if models:
        text = text.replace('units = "metric"', f'units = "metric"\nstock = "{STOCK}"', 1)
    return text


def run(*words):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False)


def margins(output):
    """Margins by requirement as `poise find` prints them: name -> share in percent."""
    return {m[1].strip(): float(m[2]) for m in re.finditer(r"^  held    (.+?)  +\S.*\(([-0-9.]+) %\)", output, re.M)}


def main(program, case):
    text = opened(*CASES[case])
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
