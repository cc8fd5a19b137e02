# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Two hundred clients at the workbench at once, most of them bad ones: the good are answered rightly all the same, and
nothing is left of the others.

Usage: load.py PROGRAM
POISE_ROUNDS: how many rounds of two hundred clients (a few by default).
"""
import asyncio
import gzip
import itertools
import os
import pathlib
import random
import shutil
import sys
import unittest

from workbench import Gone, JOBS, Wire, Workbench, asked

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
CLIENTS, GOOD = 200, 40
ROUNDS = int(os.environ.get("POISE_ROUNDS", "6"))
# What memory may differ by from the end of the third round to the end of the last, kB. The allocator keeps what was freed, more or
# less of it; a round that left 100 connections with what they may hold (64 kB) would be beyond it after five.
SETTLED, MAY_DIFFER = 3, 30_000
# At most, however many come: what the allocator keeps for sixteen workers with a whole proof each, kB.
MOST = 400_000
BUSY = 503
PROVE_EACH = 4
JACK = (JOBS.parent / "tests/cluster/cap-jack.toml").read_text()


async def visit(bench, number, rounds, heard):
    """A page: looks, draws, edits its own job, proves it; each answer is right, or says that Poise is busy."""
    wire = await Wire.to(bench.port)

    async def ask(*request):
        """Again where Poise is busy, as the page's sentence asks for."""
        for again in range(100):
            answer = await wire.ask(bench.request(*request))
            heard[answer.status] = heard.get(answer.status, 0) + 1
            if answer.status != BUSY:
                return answer
            assert "busy" in answer.json()["sentence"], answer.body
            await asyncio.sleep(0.02 * (again + 1))
        raise AssertionError("busy without end")

    job = f"job-{number}.toml"
    page = await ask("GET", "")
    assert page.status == 200 and b"<html" in gzip.decompress(page.body), page.status
    listed = await ask("GET", "api/jobs")
    assert listed.status == 200 and job in [each["name"] for each in listed.json()["jobs"]], listed.body
    drawing = await ask("GET", f"api/job/{job}/drawing")
    assert drawing.status == 200 and drawing.body.startswith(b"<svg"), drawing.body
    revision = (await ask("GET", f"api/job/{job}/revision")).json()["revision"]
    strokes = ["25 mm", f"{26 + rounds} mm", f"{27 + rounds} mm"]
    for how, stroke in (("edit", strokes[1]), ("edit", strokes[2]), ("undo", strokes[1]), ("undo", strokes[0])):
        change = {"says": "stroke", "edits": [{"do": "set", "at": ["parts", "C1", "stroke"], "value": stroke}]}
        changed = await ask("POST", f"api/job/{job}/{how}", {"revision": revision} | (change if how == "edit" else {}))
        assert changed.status == 200, changed.body
        revision = changed.json()["revision"]
        assert (bench.folder / job).read_text() == JACK.replace(f'"{strokes[0]}"', f'"{stroke}"', 1), stroke
    # Every fourth, of one job: a run is the dearest question, the machine has few cores, and six proofs of a job are kept.
    if number % PROVE_EACH == 0:
        trial = [{"do": "set", "at": ["parts", "V3", "setting"], "value": f"{190 + number / 10 + rounds / 100:.2f} bar"}]
        proof = await ask("POST", "api/job/proven.toml/prove", {"tab": f"tab-{number}", "trial": trial})
        assert proof.status == 200 and proof.json()["outcome"] in ("held", "broken"), proof.body
    await wire.end()


def malformed(bench, chance):
    """Requests that cannot be read, by name."""
    get, post = bench.request("GET", "api/jobs"), bench.request("POST", "api/x")[:-2]
    return {
        "no method": b"\r\n\r\n\r\n",
        "bad method line": b"GE T / HTTP/1.1\r\n\r\n",
        "no such version": get.replace(b"HTTP/1.1", b"HTTP/7.1"),
        "two lengths": post + b"Content-Length: 2\r\nContent-Length: 3\r\n\r\n{} ",
        "length and chunks": post + b"Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
        "negative length": post + b"Content-Length: -5\r\n\r\n",
        "length beyond counting": post + b"Content-Length: 99999999999999999999999\r\n\r\n",
        "wrong chunk": post + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n",
        "chunk longer than it says": post + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}}}\r\n0\r\n\r\n",
        "chunk without end": post + b"Transfer-Encoding: chunked\r\n\r\n1;" + b"x" * 100_000,
        "NUL in the head": get.replace(b"Accept", b"Acc\0ept"),
        "NUL in the address": get.replace(b"api/jobs", b"api/\0jobs"),
        "NUL in the body": bench.request("POST", "api/jobs", b'{"a":"\0"}'),
        "head without end": get[:-2] + b"X: " + b"a" * 100_000,
        "heads without end": get[:-2] + b"".join(b"X-%d: 1\r\n" % i for i in range(5_000)),
        "noise": chance.randbytes(3_000),
        "greeting of TLS": b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + chance.randbytes(200),
        "oversized by its length": bench.request("POST", "api/jobs", b"", {"Content-Length": "50000000"}),
        "no JSON": bench.request("POST", "api/jobs", b"{]"),
        "deep JSON": bench.request("POST", "api/jobs", b"[" * 50_000),
        "of a stranger": b"GET / HTTP/1.1\r\nHost: " + bench.host.encode() + b"\r\n\r\n",
    }


async def is_refused(bench, name, data):
    """Answered with a refusal or closed, never with a job."""
    wire = await Wire.to(bench.port)
    try:
        answer = await wire.ask(data)
        assert answer.status >= 400, (name, answer.status)
        assert b"job-" not in answer.body, (name, answer.body)
    except (Gone, ConnectionError):
        pass
    await wire.end()


async def a_byte_at_a_time(bench, over):
    wire = await Wire.to(bench.port)
    try:
        for byte in bench.request("GET", "api/jobs"):
            if over.is_set():
                break
            await wire.send(bytes([byte]))
            await asyncio.sleep(0.1)
    except ConnectionError:
        pass
    wire.leave()


async def falls_silent(bench, data, over):
    wire = await Wire.to(bench.port)
    try:
        await wire.send(data)
        await over.wait()
    except ConnectionError:
        pass
    wire.leave()


async def sends_too_much(bench):
    """Chunks that sum up to more than a body may have."""
    wire = await Wire.to(bench.port)
    chunk = b"30d40\r\n" + b" " * 200_000 + b"\r\n"
    try:
        await wire.send(bench.request("POST", "api/jobs", None, {"Transfer-Encoding": "chunked"}))
        for _ in range(26):
            await wire.send(chunk)
        assert (await wire.hear()).status == 413
    except (Gone, ConnectionError):
        pass
    await wire.end()


async def goes_away(bench, number):
    """In the middle of a question, an answer, or a run."""
    wire = await Wire.to(bench.port)
    try:
        if number % 3 == 0:
            await wire.send(bench.request("POST", "api/job/proven.toml/prove", {"tab": f"gone-{number % 2}"}))
        elif number % 3 == 1:
            await wire.send(bench.request("GET", "api/words"))
        else:
            await wire.send(bench.request("POST", "api/job/job-0.toml/edit", {"revision": 0, "edits": []})[:-4])
        await asyncio.sleep(0.01 * (number % 5))
    except ConnectionError:
        pass
    wire.leave()


async def all_at_once(bench):
    """One behind the other without waiting; the answers come in the order of the questions."""
    wire = await Wire.to(bench.port)
    ways = ["api/jobs", "api/job/job-0.toml/revision", "api/none", "api/job/none.toml"] * 5
    await wire.send(b"".join(bench.request("GET", way) for way in ways))
    for way in ways:
        answer = await wire.hear()
        right = {"api/jobs": b'"folder"', "api/job/job-0.toml/revision": b'"revision"'}.get(way, b'"sentence"')
        assert answer.status == BUSY or right in answer.body, (way, answer.status, answer.body)
    await wire.end()


async def a_round(bench, rounds, heard):
    chance = random.Random(rounds)
    over = asyncio.Event()
    refused = itertools.cycle(malformed(bench, chance).items())
    post = bench.request("POST", "api/job/job-0.toml/text", {"revision": 1, "text": "x" * 1000})
    kinds = itertools.cycle([
        lambda i: is_refused(bench, *next(refused)),
        lambda i: is_refused(bench, *next(refused)),
        lambda i: a_byte_at_a_time(bench, over),
        lambda i: falls_silent(bench, bench.request("GET", "api/jobs")[:20 + i % 50], over),
        lambda i: falls_silent(bench, post[:-500 + i], over),
        lambda i: goes_away(bench, i),
        lambda i: all_at_once(bench),
        lambda i: sends_too_much(bench) if i % 5 == 0 else goes_away(bench, i),
    ])
    bad = [asyncio.create_task(next(kinds)(i)) for i in range(CLIENTS - GOOD)]
    await asyncio.gather(*(visit(bench, number, rounds, heard) for number in range(GOOD)))
    over.set()
    await asyncio.gather(*bad)


class Load(unittest.TestCase):
    def test_the_good_are_answered_and_nothing_is_left_of_the_bad(self):
        with Workbench(PROGRAM, environment=dict(os.environ)) as bench:
            for number in range(GOOD):
                (bench.folder / f"job-{number}.toml").write_text(JACK)
            shutil.copy(JOBS / "drilling-stand.toml", bench.folder / "proven.toml")
            entries = sorted(each.name for each in bench.folder.iterdir())
            asyncio.run(asked(bench, bench.request("GET", "api/jobs")))
            descriptors, memory, heard = bench.descriptors(), [], {}
            for rounds in range(1, ROUNDS + 1):
                asyncio.run(a_round(bench, rounds, heard))
                open_now = bench.descriptors_back_to(descriptors)
                memory.append(bench.memory())
                print(f"round {rounds}: VmRSS {memory[-1][0]} kB, VmHWM {memory[-1][1]} kB, "
                      f"{open_now} descriptors, answers {dict(sorted(heard.items()))}", flush=True)
                self.assertLessEqual(open_now, descriptors)
            after = asyncio.run(asked(bench, bench.request("GET", "api/jobs")))
            self.assertEqual((after.status, len(after.json()["jobs"])), (200, GOOD + 1))
            self.assertEqual(sorted(each.name for each in bench.folder.iterdir()), entries)
            self.assertLess(memory[-1][1], MOST)
            if ROUNDS > SETTLED:
                self.assertLess(memory[-1][0] - memory[SETTLED - 1][0], MAY_DIFFER)
            self.assertEqual(bench.interrupt(), (0, ""))


if __name__ == "__main__":
    unittest.main()
