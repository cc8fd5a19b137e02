# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Nothing outside the opened folder's jobs is served or written, by whatever route and name; and without the token there
is nothing at all.

Usage: door.py PROGRAM
"""
import asyncio
import os
import pathlib
import shutil
import sys
import tempfile
import unittest

from workbench import JOBS, Workbench, asked

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
SECRET = "SECRET OF SOMEBODY"
AT_ONCE = 40  # requests under way
METHODS = ("GET", "HEAD", "POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE")

# Every route that takes a job's name: method, what stands behind the name, body.
EDIT = {"revision": 1, "says": "x", "edits": [{"do": "set", "at": ["title"], "value": "broken into"}]}
ROUTES = [("GET", way, None) for way in (
    "", "/revision", "/progress?tab=a", "/drawing", "/drawing?run=1&frame=0", "/legend?run=1", "/sides?line=a&x=1&y=1",
    "/part?tag=V1", "/study?kind=spread&known=0", "/study?kind=faults&known=0", "/readings")] + [
    ("POST", "/edit", EDIT), ("POST", "/text", {"revision": 1, "text": "title = \"broken into\"\n"}),
    ("POST", "/circuit", {"revision": 1, "change": {"what": "first", "kind": "reservoir"}}),
    ("POST", "/undo", {"revision": 1}), ("POST", "/redo", {"revision": 1}), ("POST", "/prove", {"tab": "a"}),
    ("POST", "/stop", {"tab": "a"}), ("POST", "/study", {"kind": "spread", "wanted": 3}),
    ("POST", "/study/stop", {"kind": "spread"}), ("POST", "/readings", {"readings": []})]


def names(folder):
    """Names that are none of this folder's jobs, as they stand in an address."""
    outside = f"{folder.parent}/secret.toml"
    return [
        "../secret.toml", "..%2fsecret.toml", "..%2Fsecret.toml", "%2e%2e/secret.toml", "%2e%2e%2fsecret.toml",
        "%2E%2E%2Fsecret.toml", "..%252fsecret.toml", "%252e%252e%252fsecret.toml", "%25%32%65%25%32%65/secret.toml",
        "./secret.toml", "./../secret.toml", "stand.toml/../../secret.toml", "stand.toml%2f..%2f..%2fsecret.toml",
        "..\\secret.toml", "..%5csecret.toml", "..%5Csecret.toml", "%2e%2e%5csecret.toml", "..%c0%afsecret.toml",
        "..%e0%80%afsecret.toml", "%c0%ae%c0%ae/secret.toml", "..%u2215secret.toml", "..;/secret.toml",
        ".../secret.toml", "....//secret.toml", outside, outside.replace("/", "%2f"), "/" + outside,
        f"file:{outside}", f"file:%2f%2f{outside}".replace("/", "%2f"), "~/secret.toml", "$HOME/secret.toml",
        "%00", "stand.toml%00", "stand.toml%00.toml", "%00stand.toml", "stand.toml%0a", "stand%0d%0a.toml",
        "stand.toml%20", "stand.toml.", "stand.toml%2f", "stand.toml::$DATA", "STAND.TOML", "stand",
        "notes.txt", "stand.studies", "stand.studies.toml", ".hidden.toml", "%2ehidden.toml", ".notes.tmp",
        "sub/inner.toml", "sub%2finner.toml", "sub", ".", "..", "*.toml", "%3f.toml", "link.toml", "chain.toml",
        "into/secret.toml", "folder.toml", "pipe.toml", "absolute.toml", "dangling.toml", "ring.toml",
        "/etc/passwd", "..%2f..%2f..%2f..%2fetc%2fpasswd", "etc%2fpasswd", "proc%2fself%2fenviron", "%ff.toml",
        "a" * 300 + ".toml", "a" * 9_000 + ".toml", "%61" * 3_000 + ".toml", "../" * 500 + "etc/passwd",
    ]


async def all_of(requests):
    """Each (what, coroutine) with its answer, some at a time."""
    turn = asyncio.Semaphore(AT_ONCE)

    async def one(what, coroutine):
        async with turn:
            return what, await coroutine
    return await asyncio.gather(*(one(*each) for each in requests))


class Door(unittest.TestCase):
    def setUp(self):
        around = pathlib.Path(tempfile.mkdtemp(prefix="poise-door-"))
        self.addCleanup(shutil.rmtree, around)
        self.folder = around / "jobs"
        self.folder.mkdir()
        self.secrets = [around / "secret.toml", *(self.folder / name for name in (
            "notes.txt", ".hidden.toml", "stand.studies", "sub/inner.toml", ".notes.tmp"))]
        (self.folder / "sub").mkdir()
        for secret in self.secrets:
            secret.write_text(f'title = "{SECRET}"\n')
        shutil.copy(JOBS / "drilling-stand.toml", self.folder / "stand.toml")
        (self.folder / "folder.toml").mkdir()
        for link, to in (("link.toml", "../secret.toml"), ("chain.toml", "link.toml"), ("into", ".."),
                         ("absolute.toml", str(around / "secret.toml")), ("dangling.toml", "nowhere.toml"),
                         ("ring.toml", "ring.toml")):
            (self.folder / link).symlink_to(to)
        os.mkfifo(self.folder / "pipe.toml")
        self.bench = Workbench(PROGRAM, self.folder)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.entries = self.everything()

    def everything(self):
        return sorted(str(each.relative_to(self.folder)) for each in self.folder.rglob("*") if "into" not in each.parts)

    def nothing_came_of_it(self):
        for secret in self.secrets:
            self.assertEqual(secret.read_text(), f'title = "{SECRET}"\n', secret)
        self.assertEqual((self.folder / "stand.toml").read_text(), (JOBS / "drilling-stand.toml").read_text())
        self.assertEqual(self.everything(), self.entries)

    def test_no_name_leads_out_of_the_folder_by_any_route(self):
        tries = names(self.folder)
        self.assertGreaterEqual(len(tries), 40)
        bench = self.bench
        requests = [((method, name[:80], behind), asked(bench, bench.request(method, f"api/job/{name}{behind}", body)))
                    for name in tries for method, behind, body in ROUTES]
        requests += [(("page", name[:80]), asked(bench, bench.request("GET", name))) for name in tries]
        answers = asyncio.run(all_of(requests))
        for what, answer in answers:
            self.assertIsNotNone(answer, what)
            self.assertTrue(400 <= answer.status < 500, (what, answer.status, answer.body[:200]))
            self.assertNotIn(SECRET.encode(), answer.body, what)
            self.assertNotIn(b"root:", answer.body, what)
        print(f"{len(tries)} names by {len(ROUTES) + 1} routes: {len(answers)} refusals")
        self.nothing_came_of_it()

    def test_no_new_job_comes_to_stand_elsewhere_or_over_anything(self):
        bench = self.bench
        bodies = [name for name in names(self.folder)] + [
            "../new.toml", "/tmp/new.toml", "sub/new.toml", "into/new.toml", ".new.toml", "new.txt", "", "\0.toml", "a\nb.toml",
            "folder.toml", "stand.toml", "link.toml", "dangling.toml", "a" * 251 + ".toml"]
        # What is no way out as it is written, decoded by nobody, is a job's name like any other.
        bodies = [name for name in bodies if "/" in name or "\\" in name or not name.endswith(".toml")
                  or name.startswith(".") or len(name) > 255 or (self.folder / name).is_symlink()
                  or "\0" in name or "\n" in name or name in ("folder.toml", "stand.toml", "pipe.toml")]
        self.assertGreaterEqual(len(bodies), 40)
        for name, answer in asyncio.run(all_of(
                (name, asked(bench, bench.request("POST", "api/jobs", {"start": "empty", "name": name, "units": "metric"})))
                for name in bodies)):
            self.assertIn(answer.status, (400, 409, 422), (name[:80], answer.body))
        self.nothing_came_of_it()

    def tokens(self, other):
        """Addresses without the token where it belongs, and fields and bodies that have it elsewhere."""
        token = self.bench.token
        wrong = token[:-1] + ("0" if token[-1] != "0" else "1")
        elsewhere = {"Authorization": f"Bearer {token}", "Cookie": f"token={token}", "X-Token": token,
                     "Referer": f"http://{self.bench.host}/{token}/"}
        firsts = ["", wrong, token[:-1], token + "0", token.upper() + "x", token[::-1] + "x", "0" * len(token), other, "%" + token,
                  "%3" + token, "." + token, token + ";", "..", "%2e%2e"]
        return [(f"/{first}", elsewhere) for first in firsts] + [(f"/?token={token}&x=", {}), (f"/x/../{token}", {}),
                                                                 (f"//{token}", {}), (f"/.//{token}", {}), ("*", {})]

    def test_without_the_token_there_is_nothing_by_any_route_and_method(self):
        bench = self.bench
        doors = [{}, {"Host": None}, {"Host": "rebound.example"}, {"Host": f"rebound.example:{bench.port}"},
                 {"Origin": None}, {"Origin": "http://rebound.example"}, {"Origin": "null"},
                 {"Sec-Fetch-Site": "cross-site"}, {"Content-Type": "text/plain"}]
        routes = ["/", "/index.html", "/api/words", "/api/jobs"] + [f"/api/job/stand.toml{way}" for _, way, _ in ROUTES]
        requests = []
        with Workbench(PROGRAM) as another:
            for first, elsewhere in self.tokens(another.token):
                for place, route in enumerate(routes):
                    for number in range(3):
                        # Over all routes each token meets every method at every door.
                        turn = 3 * place + number
                        method, door = METHODS[turn % len(METHODS)], doors[turn % len(doors)]
                        body = EDIT if method == "POST" else None
                        data = bench.request(method, "", body, elsewhere | door).replace(f"/{bench.token}/".encode(),
                                                                                         (first + route).encode(), 1)
                        requests.append(((method, first, route, door), asked(bench, data, method == "HEAD")))
            answers = asyncio.run(all_of(requests))
        for what, answer in answers:
            self.assertIsNotNone(answer, what)
            self.assertEqual((answer.status, answer.body, answer.fields["content-length"]), (404, b"", "0"), what)
        print(f"{len(answers)} requests without the token: nothing here")
        self.nothing_came_of_it()

    def test_with_the_token_at_the_wrong_door_nothing_is_told_or_changed(self):
        bench = self.bench
        doors = [{"Host": None}, {"Host": "rebound.example"}, {"Host": f"rebound.example:{bench.port}"},
                 {"Host": f"{bench.host}.rebound.example"}, {"Host": "127.0.0.1"}, {"Host": f"127.0.0.1:{bench.port + 1}"},
                 {"Origin": "http://rebound.example"}, {"Origin": "null"}, {"Origin": f"https://{bench.host}"},
                 {"Origin": "http://127.0.0.1"}, {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"}]
        posts = [{"Origin": None}, {"Content-Type": "text/plain"}, {"Content-Type": None}]
        requests = [((method, way, door), asked(bench, bench.request(method, f"api/job/stand.toml{way}", body, door)))
                    for method, way, body in ROUTES for door in (doors + posts if method == "POST" else doors)]
        for what, answer in asyncio.run(all_of(requests)):
            self.assertIn(answer.status, (403, 415), what)
            self.assertNotIn(b"Drilling", answer.body, what)
            self.assertNotIn("access-control-allow-origin", answer.fields, what)
        self.nothing_came_of_it()


if __name__ == "__main__":
    unittest.main()
