# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""One fault tried: made, built, tested, undone, and what caught it held against the sound tree."""
import re
from dataclasses import dataclass

from copy_of_tree import run_all_of
from faults import Call

# As ctest runs them (cmake/tests.cmake).
CASES = {"test_draw": " max_success=25", "test_compose": " max_success=40"}
SEED = "seed=20261125"
NAMED_LIMIT, WHOLE_LIMIT = 180, 1200  # s: a test that never comes to its end has noticed something too

CAUGHT, SURVIVED, NOT_COMPILED, UNSOUND = "caught", "NOT CAUGHT", "does not compile", "fails without the fault too"


@dataclass(frozen=True)
class Outcome:
    verdict: str
    by: str  # which test, or why there is none
    again: Call | None = None  # what failed, to be run on the sound tree


@dataclass
class Ran:
    failed: str = ""  # the first test that did
    tests: int = 0    # how many there were


def run_call(copy, call):
    limit = NAMED_LIMIT if call.pattern else WHOLE_LIMIT
    if call.by_ctest:
        command = ["ctest", "--test-dir", "build/plain", "-R", call.pattern, "--output-on-failure", "--timeout", str(limit)]
    else:
        command = [f"build/plain/{call.target}", f"--gtest_filter={call.pattern or '*'}", "--gtest_fail_fast"]
    settings = {"RC_PARAMS": SEED + CASES.get(call.target, ""), "GTEST_COLOR": "no"}
    code, text = run_all_of(command, copy.tree, settings, limit=limit)
    return read_ctest(text, code != 0) if call.by_ctest else read_gtest(text, code != 0)


def read_gtest(text, bad):
    count = re.search(r"^\[==========\] Running (\d+) test", text, re.MULTILINE)
    failed = re.search(r"^\[  FAILED  \] (\S+?),? ", text, re.MULTILINE)
    begun = re.findall(r"^\[ RUN      \] (\S+)", text, re.MULTILINE)
    name = failed.group(1) if failed else begun[-1] if begun else "?"  # one that ended the program never said so
    return Ran(name if bad else "", int(count.group(1)) if count else 0)


def read_ctest(text, bad):
    tests = re.findall(r"^\s*\d+/\d+ Test\s+#\d+: (\S+) \.*(.*)", text, re.MULTILINE)
    failed = [name for name, end in tests if "Passed" not in end]
    return Ran((failed or ["?"])[0] if bad else "", len(tests))


def try_fault(copy, fault):
    for call in fault.calls():
        copy.undo()
        if not copy.build(call.target):
            return Outcome(UNSOUND, f"{call.target} cannot be built: {copy.last_of_log()}")
        copy.make(fault)
        if not copy.build(call.target, faulty=True):
            return Outcome(NOT_COMPILED, copy.last_of_log())
        ran = run_call(copy, call)
        if ran.tests == 0 and not ran.failed:
            return Outcome(UNSOUND, f"there is no test {call}")
        if ran.failed:
            return Outcome(CAUGHT, ran.failed if call.by_ctest else f"{call.target} {ran.failed}", again(call, ran.failed))
    return Outcome(SURVIVED, "tried " + ", ".join(str(call) for call in fault.calls()))


def again(call, failed):
    if failed == "?":
        return call
    return Call(call.target, f"^{re.escape(failed)}$" if call.by_ctest else failed, call.by_ctest)


def confirmed(copy, outcome):
    """A test that fails on the sound tree as well has caught nothing. The fault is undone by this."""
    copy.undo()
    if outcome.again is None:
        return outcome
    if copy.build(outcome.again.target) and not run_call(copy, outcome.again).failed:
        return outcome
    return Outcome(UNSOUND, outcome.by)
