# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The workbench as a process of its own in a scratch folder, and a client that sends whatever bytes it is given."""
import asyncio
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import tempfile
import time

JOBS = pathlib.Path(__file__).resolve().parents[2] / "jobs"
PATIENCE = 60  # s; ends a test that hangs, measures nothing


class Workbench:
    """`poise open` in a folder of its own."""

    def __init__(self, program, folder=None, environment=None, before=None):
        self.folder = pathlib.Path(folder or tempfile.mkdtemp(prefix="poise-trouble-"))
        self.program, self.environment, self.before = program, environment, before
        self.process = None

    def __enter__(self):
        self.process = subprocess.Popen([self.program, "open", "--no-browser"], cwd=self.folder, text=True,
                                        env=self.environment, preexec_fn=self.before, stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE)
        line = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/([0-9a-f]+)/", line)
        assert found, line + self.process.stderr.read()
        self.port, self.token = int(found.group(1)), found.group(2)
        self.host = f"127.0.0.1:{self.port}"
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.process.kill()
        self.process.communicate()
        shutil.rmtree(self.folder, ignore_errors=True)

    def interrupt(self):
        """Ctrl-C; the exit code and what was complained of."""
        self.process.send_signal(signal.SIGINT)
        _, complaints = self.process.communicate(timeout=PATIENCE)
        return self.process.returncode, complaints

    def memory(self):
        """Resident now, and at most so far, kB."""
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return tuple(int(re.search(rf"{name}:\s+(\d+) kB", status).group(1)) for name in ("VmRSS", "VmHWM"))

    def descriptors(self):
        return len(os.listdir(f"/proc/{self.process.pid}/fd"))

    def descriptors_back_to(self, before):
        """Waits until connections that were left have been noticed; how many are open then."""
        end = time.monotonic() + PATIENCE
        while self.descriptors() > before and time.monotonic() < end:
            time.sleep(0.05)
        return self.descriptors()

    def request(self, method, way, body=None, fields=None):
        """As the page sends it; `way` stands behind the token. `fields` take the place of the page's own; None leaves
        one out."""
        sent = {"Host": self.host, "Accept-Encoding": "gzip"}
        if method == "POST":
            sent |= {"Origin": f"http://{self.host}", "Content-Type": "application/json"}
        data = b"" if body is None else body if isinstance(body, bytes) else json.dumps(body).encode()
        if body is not None:
            sent["Content-Length"] = str(len(data))
        sent |= fields or {}
        head = f"{method} /{self.token}/{way} HTTP/1.1\r\n"
        head += "".join(f"{name}: {value}\r\n" for name, value in sent.items() if value is not None)
        return head.encode() + b"\r\n" + data


class Gone(Exception):
    """The server closed without a whole answer."""


class Answer:
    def __init__(self, status, fields, body):
        self.status, self.fields, self.body = status, fields, body

    def json(self):
        return json.loads(self.body)


class Wire:
    """One connection."""

    def __init__(self, reader, writer):
        self.reader, self.writer = reader, writer

    @staticmethod
    async def to(port):
        return Wire(*await asyncio.open_connection("127.0.0.1", port, limit=1 << 26))

    async def send(self, data):
        self.writer.write(data)
        await self.writer.drain()

    async def hear(self, without_body=False):
        """The next answer; raises Gone where there is none."""
        try:
            head = (await asyncio.wait_for(self.reader.readuntil(b"\r\n\r\n"), PATIENCE)).decode("latin-1")
            lines = head.split("\r\n")
            fields = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in lines[1:-2])}
            status = int(lines[0].split(" ")[1])
            length = 0 if without_body or status == 304 else int(fields.get("content-length", 0))
            return Answer(status, fields, await asyncio.wait_for(self.reader.readexactly(length), PATIENCE))
        except (asyncio.IncompleteReadError, ConnectionError) as error:
            raise Gone from error

    async def ask(self, data, without_body=False):
        await self.send(data)
        return await self.hear(without_body)

    def leave(self):
        """Without a farewell: what is unread is thrown away, and the server hears of a reset."""
        self.writer.transport.abort()

    async def end(self):
        self.writer.close()
        try:
            await self.writer.wait_closed()
        except ConnectionError:
            pass


async def asked(workbench, data, without_body=False):
    """The answer on a connection of its own; None where the server closes without a word."""
    wire = await Wire.to(workbench.port)
    try:
        return await wire.ask(data, without_body)
    except (Gone, ConnectionError):
        return None
    finally:
        await wire.end()
