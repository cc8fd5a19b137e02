# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Files of studies as SQLite itself reads them, and waiting for what others do."""
import sqlite3
import time


def rows(file):
    """How many machines of a spread a file has; it may be written at the moment, and need not be there yet."""
    try:
        record = sqlite3.connect(f"file:{file}?mode=ro", uri=True)
        try:
            return record.execute("SELECT count(*) FROM run JOIN study ON study.id = run.study WHERE study.kind = 'spread'").fetchone()[0]
        finally:
            record.close()
    except sqlite3.OperationalError:
        return 0


def content(file):
    """All of its tables as text, numbers to their last digit."""
    record = sqlite3.connect(f"file:{file}?mode=ro", uri=True)
    try:
        return list(record.iterdump())
    finally:
        record.close()


def wait_for(what, condition, seconds=90):
    """What the condition answers once that is true in Python's sense; the limit only ends a test that hangs."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        answer = condition()
        if answer:
            return answer
        time.sleep(0.1)
    raise AssertionError(f"waited {seconds} s for {what}")
