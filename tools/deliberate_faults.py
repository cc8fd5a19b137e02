#!/usr/bin/env python3
# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Makes deliberate faults in a copy of the tree, one after the other, and looks whether the tests notice.

  tools/deliberate_faults.py                 every fault of tools/deliberate_faults/*.toml
  tools/deliberate_faults.py --resume        goes on where it was stopped; what was not caught is tried again
  tools/deliberate_faults.py --only NAME     one of them (or all with these letters in their names)
  tools/deliberate_faults.py --list          what there is
  tools/deliberate_faults.py --table         what came out so far

Copy, build tree and results are in build/deliberate_faults. Ends with 0 when every fault was caught, with 1 when one was
not, does not compile or could not be judged, with 2 when it was called wrongly, with 130 when it was interrupted.
"""
import argparse
import json
import signal
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tools" / "deliberate_faults"))

from copy_of_tree import CopyOfTree  # noqa: E402
from faults import complaints_about, read_faults  # noqa: E402
from trial import CAUGHT, confirmed, try_fault  # noqa: E402

FOLDER = ROOT / "build" / "deliberate_faults"
RESULTS = FOLDER / "results.json"


def arguments():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--only", metavar="NAME", help="faults with these letters in their names")
    parser.add_argument("--list", action="store_true", help="say what there is and stop")
    parser.add_argument("--table", action="store_true", help="say what came out so far and stop")
    parser.add_argument("--resume", action="store_true", help="keep what was caught the last time")
    return parser.parse_args()


def key_of(fault):
    return fault.key((ROOT / fault.file).read_text(encoding="utf-8"))


def known_results():
    return json.loads(RESULTS.read_text(encoding="utf-8")) if RESULTS.exists() else {}


def keep(results):
    unfinished = RESULTS.with_suffix(".new")
    unfinished.write_text(json.dumps(results, indent=1, ensure_ascii=False), encoding="utf-8")
    unfinished.replace(RESULTS)


def in_minutes(seconds):
    return f"{seconds / 60:.0f} min" if seconds >= 90 else f"{seconds:.0f} s"


def print_table(faults, results):
    """Whether every fault was caught."""
    rows = [(fault, results.get(fault.name)) for fault in faults]
    rows = [(fault, result if result and result["key"] == key_of(fault) else None) for fault, result in rows]
    width = max(len(fault.name) for fault in faults)
    for fault, result in rows:
        print(f"{fault.name:{width}}  {result['verdict']}: {result['by']}" if result else f"{fault.name:{width}}  not tried")
    caught = sum(1 for _, result in rows if result and result["verdict"] == CAUGHT)
    print(f"{caught} of {len(rows)} caught")
    return caught == len(rows)


def try_all(faults, results):
    copy = CopyOfTree(ROOT, FOLDER)
    FOLDER.mkdir(parents=True, exist_ok=True)
    print("copying and configuring", flush=True)
    copy.refresh()
    copy.configure()
    began = time.monotonic()
    for done, fault in enumerate(faults):
        spent = time.monotonic() - began
        left = f", about {in_minutes(spent / done * (len(faults) - done))} left" if done else ""
        print(f"[{done + 1}/{len(faults)}] {100 * done // len(faults)} % done{left}: {fault.name}", flush=True)
        start = time.monotonic()
        try:
            outcome = confirmed(copy, try_fault(copy, fault))
        finally:
            copy.undo()
        seconds = time.monotonic() - start
        results[fault.name] = {"key": key_of(fault), "verdict": outcome.verdict, "by": outcome.by, "seconds": round(seconds)}
        keep(results)
        print(f"    {outcome.verdict} in {in_minutes(seconds)}: {outcome.by}", flush=True)


def main():
    wish = arguments()
    faults = read_faults()
    rotten = list(complaints_about(faults, ROOT))
    if rotten:
        print("\n".join(rotten), file=sys.stderr)
        return 2
    if wish.only:
        faults = [fault for fault in faults if wish.only in fault.name]
    if not faults:
        print(f'No fault has "{wish.only}" in its name; --list says what there is.', file=sys.stderr)
        return 2
    if wish.list:
        for fault in faults:
            print(f"{fault.name}\n    {fault.file}: {fault.wrong}")
        return 0
    results = known_results()
    if not wish.table:
        todo = faults
        if wish.resume:
            kept = {name for name, result in results.items() if result["verdict"] == CAUGHT}
            todo = [f for f in faults if f.name not in kept or results[f.name]["key"] != key_of(f)]
        elif not wish.only:
            results = {}
        # Interrupted by hand or told to end, in the background too: the copy is sound again and nothing goes on.
        for sign in (signal.SIGINT, signal.SIGTERM):
            signal.signal(sign, signal.default_int_handler)
        try:
            try_all(todo, results)
        except KeyboardInterrupt:
            print("\ninterrupted; --resume goes on", file=sys.stderr)
            return 130
    return 0 if print_table(faults, results) else 1


if __name__ == "__main__":
    sys.exit(main())
