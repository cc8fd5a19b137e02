# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The first circuit composed for a job without one: it holds, proves so again, and has the blocks that the job asks for."""
import subprocess
import sys
import tempfile
from pathlib import Path

# What each job asks for, and so which blocks a circuit for it must have.
BLOCKS = {
    "single-lift": {"hold", "meter", "relieve", "lock"},
    "frame-lift": {"hold", "level", "relieve", "lock"},
    "drilling-fixture": {"sequence", "relieve"},
    "milling-clamp": {"reduce", "relieve"},
    "bush-press": {"relieve"},
}


def run(*words):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False)


def main(program, wish):
    wishes = Path(__file__).resolve().parents[2] / "jobs" / "without-circuit"
    with tempfile.TemporaryDirectory() as folder:
        done = run(program, "propose", wishes / f"{wish}.toml", "-o", folder, "--try", "1", "--most", "1")
        print(done.stdout, done.stderr)
        assert done.returncode == 0, "no circuit holds everything"
        blocks = {line.split(":")[0].strip() for line in done.stdout.splitlines() if line.startswith("     ")}
        missing = BLOCKS[wish] - blocks
        assert not missing, f"no block {missing}"
        job = Path(folder) / f"{wish}-1.toml"
        proven = run(program, "prove", job)
        assert proven.returncode == 0, proven.stdout + proven.stderr
        assert "HELD" in proven.stdout.splitlines()[0], proven.stdout
        assert "can hurt someone" not in proven.stdout.splitlines()[1], proven.stdout
        given = (wishes / f"{wish}.toml").read_text()
        kept = [line for line in given.splitlines() if line.startswith("#") or line.startswith("mass")]
        for line in kept:
            assert line in job.read_text(), f"lost: {line}"
        assert "</svg>" in job.with_suffix(".svg").read_text()


main(*sys.argv[1:])
