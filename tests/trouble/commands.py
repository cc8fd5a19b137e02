# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Every command that reads or writes files, beside every trouble a file, a disk, a stream or a machine can make: it ends
with 2 and a sentence that names what it is about and what to do, and nothing half is left behind.

Usage: commands.py PROGRAM [Inputs|Outputs|Streams|Settings]
"""
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import unittest

PROGRAM = pathlib.Path(sys.argv.pop(1)).resolve()
ROOT = pathlib.Path(__file__).resolve().parents[2]
JACK, STAND, OPEN = (ROOT / way for way in ("tests/cluster/cap-jack.toml", "jobs/drilling-stand.toml",
                                            "tests/search/known/relief-between.toml"))
LIMIT = 120  # s; ends a command that hangs, measures nothing
NOBODY = ["setpriv", "--reuid", "65534", "--regid", "65534", "--clear-groups"]
# What a sentence says when it says what to do.
REMEDY = re.compile(r"\b(name|use|look at|save|allow|make|keep|raise|choose|needs|write|put|try|let|leave|copy|start|move|run|"
                    r"is written in plain text|a job is a short text|must end)\b")


def is_root():
    return os.geteuid() == 0


def apart_works():
    """Whether this machine lets us mount a small disk that only one process sees."""
    with tempfile.TemporaryDirectory() as folder:
        return is_root() and run(["unshare", "-m", "mount", "-t", "tmpfs", "none", folder]).returncode == 0


def run(words, **more):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, errors="replace", timeout=LIMIT,
                          stdin=subprocess.DEVNULL, **more)


class Commands(unittest.TestCase):
    def setUp(self):
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="poise-trouble-"))
        self.addCleanup(lambda: run(["rm", "-rf", self.folder]))
        self.folder.chmod(0o755)
        self.program = PROGRAM
        if is_root():  # where others may not go to the built one
            self.program = self.folder / "poise"
            shutil.copy(PROGRAM, self.program)
            self.program.chmod(0o755)
        self.jobs, self.out = self.folder / "jobs", self.folder / "out"
        for made in (self.jobs, self.out):
            made.mkdir()
            made.chmod(0o777)
        self.jack, self.stand, self.open, self.readings = (self.jobs / name for name in (
            "jack.toml", "stand.toml", "open.toml", "readings.csv"))
        for source, copy in ((JACK, self.jack), (STAND, self.stand), (OPEN, self.open)):
            shutil.copy(source, copy)
            copy.chmod(0o644)
        self.readings.write_text("at,step,when,value,unit,accuracy\nG1,start,end,200,bar,6.4\n")

    def poise(self, *words, before=(), **more):
        return run([*before, self.program, *words], cwd=self.out, **more)

    def is_refused(self, done, *names):
        """It ended with 2, and one sentence says what it is about and what to do."""
        said = done.stderr
        self.assertEqual(done.returncode, 2, said + done.stdout)
        self.assertTrue(any(str(name) in said for name in names), (names, said))
        self.assertNotIn("fault in Poise", said)
        self.assertRegex(said, REMEDY)
        sentences = [line for line in said.splitlines() if not re.fullmatch(r"1 complaint|\s.*", line)]
        self.assertEqual(len(sentences), 1, said)


class Inputs(Commands):
    """Files that cannot be what is read."""

    # The workbench opens any small file of the right name, and shows there what is wrong with it.
    shown = ("that is empty", "of blanks", "with a NUL", "that is no UTF-8", "of noise")

    def readers(self, bad):
        studies = self.out / "new.studies"
        return {
            "prove": ["prove", bad], "prove --json": ["prove", bad, "--json"],
            "prove --trace": ["prove", bad, "--trace", self.out / "t.csv"], "rules": ["rules", "--job", bad],
            "point": ["point", bad, "--at", "down"], "warm": ["warm", bad], "chart": ["chart", bad], "draw": ["draw", bad],
            "papers": ["papers", bad, "--no-pdf"], "find": ["find", bad], "propose": ["propose", bad],
            "spread": ["spread", bad, "--file", studies, "-n", 3], "faults": ["faults", bad, "--file", studies],
            "commission": ["commission", bad, "--file", studies],
            "diagnose": ["diagnose", bad, self.readings, "--file", studies], "parts": ["parts", "relief", "--curve", bad],
            "open": ["open", bad, "--no-browser"], "merge": ["merge", "-o", studies, bad],
            "commission readings": ["commission", self.jack, bad, "--file", studies],
            "diagnose readings": ["diagnose", self.jack, bad, "--file", studies],
            "diagnose baseline": ["diagnose", self.stand, self.readings, "--baseline", bad, "--file", studies],
        }

    def bad_files(self):
        """By name: a file that is no job, no readings, no studies. All are called bad.toml."""
        places = {}

        def place(name):
            folder = self.folder / "bad" / name
            folder.mkdir(parents=True)
            places[name] = folder / "bad.toml"
            return places[name]
        place("that is not there")
        (self.folder / "bad" / "file").mkdir(parents=True)
        places["below a file"] = self.jack / "bad.toml"
        places["in no folder"] = self.folder / "none" / "bad.toml"
        place("that is a folder").mkdir()
        os.mkfifo(place("that is a pipe nobody writes into"))
        place("that leads to a device without end").symlink_to("/dev/zero")
        place("that leads nowhere").symlink_to("nowhere")
        ring = place("that leads to itself")
        ring.symlink_to(ring)
        with open(place("of 2 GB"), "wb") as large:
            large.truncate(2_000_000_000)
        place("that is empty").write_text("")
        place("of blanks").write_text(" \r\n\t\n")
        place("with a NUL").write_bytes(b'title = "a\0b"\n')
        place("that is no UTF-8").write_bytes(b'title = "B\xfcchse"\n')
        place("of noise").write_bytes(bytes(range(256)) * 40)
        return places

    def test_are_named_by_every_command_that_reads(self):
        count = 0
        for name, bad in self.bad_files().items():
            for turn, (command, words) in enumerate(self.readers(bad).items()):
                # What stands in a file is read by the same few functions: every third command, each time others.
                if name == "that is a folder" and command == "open":
                    continue  # the workbench opens folders of jobs, whatever they are called
                if name in self.shown and (command == "open" or (turn + self.shown.index(name)) % 3 != 0):
                    continue
                with self.subTest(file=name, command=command):
                    done = self.poise(*words)
                    self.is_refused(done, bad, "bad.toml", "/dev/zero")
                    self.assertEqual(done.stdout, "")
                    self.assertEqual(list(self.out.iterdir()), [])
                    count += 1
        print(f"{count} commands with files that cannot be read")

    def test_that_one_may_not_read_are_named(self):
        bad = self.jobs / "bad.toml"
        shutil.copy(JACK, bad)
        bad.chmod(0)
        for command, words in self.readers(bad).items():
            with self.subTest(command=command):
                self.is_refused(self.poise(*words, before=NOBODY if is_root() else ()), bad, "bad.toml")
        self.assertEqual(list(self.out.iterdir()), [])

    def test_with_a_byte_order_mark_and_other_line_ends_say_the_same(self):
        plain = JACK.read_bytes()
        for name, text in (("mark", b"\xef\xbb\xbf" + plain), ("ends", plain.replace(b"\n", b"\r\n")),
                           ("both", b"\xef\xbb\xbf" + plain.replace(b"\n", b"\r\n"))):
            other = self.jobs / f"{name}.toml"
            other.write_bytes(text)
            for words in (["prove"], ["prove", "--json"], ["point", "--at", "hold"], ["warm"], ["rules", "--job"]):
                with self.subTest(name, command=words):
                    here, there = (self.poise(*words, job) for job in (self.jack, other))
                    self.assertEqual((there.stdout, there.returncode), (here.stdout, here.returncode))

    def test_that_a_pipe_brings_are_read(self):
        with open(JACK) as job:
            cat = subprocess.Popen(["cat"], stdin=job, stdout=subprocess.PIPE)
            done = subprocess.run([self.program, "prove", "/dev/stdin"], stdin=cat.stdout, capture_output=True, text=True,
                                  timeout=LIMIT)
            cat.stdout.close()
            cat.wait()
        self.assertEqual(done.stdout, self.poise("prove", self.jack).stdout)


class Outputs(Commands):
    """Places where nothing can be written."""

    def writers(self, to, slow=True):
        """By name: the command that writes the file `to`."""
        words = {
            "trace": ["prove", self.jack, "--trace", to], "chart": ["chart", self.jack, "-o", to],
            "draw": ["draw", self.jack, "-o", to.with_suffix(".svg")], "dxf": ["draw", self.jack, "-o", to.with_suffix(".dxf")],
            "rules": ["rules", "--write", to], "studies": ["spread", self.jack, "-n", 2, "--file", to],
            "merge": ["merge", self.studies, "-o", to],
            "spread": ["spread", self.jack, "-n", 2, "--file", self.studies, "--csv", to],
        }
        if slow:
            words["faults"] = ["faults", self.jack, "--file", self.folder / "faults.studies", "--csv", to]
        return words

    def folder_writers(self, to):
        return {"papers": ["papers", self.jack, "--no-pdf", "-o", to], "parts": ["parts", "--write", to]}

    def setUp(self):
        super().setUp()
        self.studies = self.folder / "whole.studies"
        self.folder.chmod(0o777)
        self.assertIn(self.poise("spread", self.jack, "-n", 2, "--file", self.studies).returncode, (0, 1))
        self.studies.chmod(0o666)

    def everything(self, folder):
        return {str(each.relative_to(folder)): each.read_bytes() if each.is_file() else None
                for each in folder.rglob("*")}

    def all_refused(self, writers, place, **more):
        for command, words in writers.items():
            with self.subTest(command=command):
                before = self.everything(place)
                done = self.poise(*words, **more)
                self.is_refused(done, place, place.name, "to.csv", "to.svg", "to.dxf", "README.md", "jack-papers.html")
                self.assertEqual(self.everything(place), before)

    def test_a_folder_that_is_not_there(self):
        place = self.out / "none"
        self.all_refused(self.writers(place / "to.csv"), self.out)
        self.assertFalse(place.exists())

    def test_a_name_that_a_folder_has(self):
        for name in ("to.csv", "to.svg", "to.dxf"):
            (self.out / name).mkdir()
        self.all_refused(self.writers(self.out / "to.csv"), self.out)

    def test_a_name_of_a_folder_that_a_file_has(self):
        (self.out / "to.csv").write_text("mine")
        self.all_refused(self.folder_writers(self.out / "to.csv"), self.out)
        wish = ROOT / "jobs/without-circuit/bush-press.toml"
        self.all_refused({"propose": ["propose", wish, "-o", self.out / "to.csv"]}, self.out)

    def test_a_folder_that_one_may_not_write_in(self):
        place = self.folder / "theirs"
        place.mkdir()
        place.chmod(0o555)
        before = NOBODY if is_root() else ()
        wish = self.jobs / "press.toml"
        shutil.copy(ROOT / "jobs/without-circuit/bush-press.toml", wish)
        wish.chmod(0o644)
        self.all_refused(self.writers(place / "to.csv") | self.folder_writers(place / "more")
                         | {"propose": ["propose", wish, "-o", place / "more"]}, place, before=before)

    def test_a_file_that_is_write_protected(self):
        for name in ("to.csv", "to.svg", "to.dxf"):
            (self.out / name).write_text("mine")
            (self.out / name).chmod(0o444)
        writers = self.writers(self.out / "to.csv")
        del writers["merge"], writers["studies"]  # they write over nothing; tests/study has the record's own
        self.all_refused(writers, self.out, before=NOBODY if is_root() else ())

    def test_what_the_system_lets_grow_no_further(self):
        for name in ("to.csv", "to.svg", "to.dxf"):
            (self.out / name).write_text("mine")
        writers = self.writers(self.out / "to.csv", slow=False)
        del writers["merge"], writers["studies"], writers["spread"]
        writers |= self.folder_writers(self.out)

        def no_more():
            resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
        (self.out / "README.md").write_text("mine")
        self.all_refused(writers, self.out, preexec_fn=no_more)
        writers = self.writers(self.folder / "new" / "to.csv", slow=False)
        (self.folder / "new").mkdir()
        self.all_refused({name: writers[name] for name in ("merge", "studies")}, self.folder / "new", preexec_fn=no_more)

    def on_a_disk(self, options, prepare):
        """Every writer on a disk of its own."""
        if not apart_works():
            self.skipTest("this machine lets nobody mount a small disk")
        disk, seen = self.folder / "disk", self.folder / "seen"
        disk.mkdir()
        writers = self.writers(disk / "to.csv", slow=False) | self.folder_writers(disk / "more")
        del writers["spread"]
        writers["spread"] = ["spread", self.jack, "-n", 2, "--file", self.studies, "--csv", disk / "to.csv"]
        for command, words in writers.items():
            with self.subTest(command=command):
                kept = "" if command in ("merge", "studies") else "for each in to.csv to.svg to.dxf; do printf mine >$each; done;"
                script = (f'mount -t tmpfs -o {options} none "{disk}" || exit 99; cd "{disk}"; {kept} {prepare}; ls -AR >"{seen}.1"; '
                          f'"$@"; code=$?; ls -AR >"{seen}.2"; cat to.csv to.svg to.dxf >"{seen}.3" 2>/dev/null; exit $code')
                done = run(["unshare", "-m", "sh", "-c", script, "sh", self.program, *words])
                self.is_refused(done, disk, "to.csv", "to.svg", "to.dxf", "more", ".md", ".svg", "jack-papers.html")
                # A folder may have been made; nothing is in it.
                self.assertEqual(*(re.sub(r"(?m)^(more|./more:|)\n", "", pathlib.Path(f"{seen}.{i}").read_text()) for i in (1, 2)))
                self.assertEqual(pathlib.Path(f"{seen}.3").read_text(), "" if command in ("merge", "studies") else "mine" * 3)

    def test_a_full_disk(self):
        self.on_a_disk("size=64k", "dd if=/dev/zero of=filler bs=4k 2>/dev/null")

    def test_a_disk_that_is_read_only(self):
        self.on_a_disk("size=1m", f'mount -o remount,ro "{self.folder}/disk"')

    def test_a_job_whose_found_values_cannot_be_written_back(self):
        before = self.open.read_bytes()
        for name, mode, more in (("protected", 0o444, {"before": NOBODY if is_root() else ()}),
                                 ("limit", 0o666, {"preexec_fn": lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (9, 9))})):
            with self.subTest(name):
                self.open.chmod(mode)
                done = self.poise("find", self.open, **more)
                self.is_refused(done, "open.toml")
                self.assertIn("the found values stand above", done.stderr)
                self.assertIn("FOUND", done.stdout)
                self.assertEqual(self.open.read_bytes(), before)
                self.assertEqual(len(list(self.jobs.iterdir())), 4)


class Streams(Commands):
    """Where what is printed does not get out."""

    def printers(self):
        return [["--help"], ["--version"], ["prove", "--help"], ["prove", self.jack], ["prove", self.jack, "--json"],
                ["rules"], ["rules", "--job", self.jack], ["point", self.jack, "--at", "hold"], ["warm", self.jack], ["parts"],
                ["parts", "relief"], ["parts", "oil"], ["draw", self.jack, "-o", self.out / "a.svg"],
                ["chart", self.jack, "-o", self.out / "b.svg"], ["find", self.open, "--dry"],
                ["spread", self.jack, "-n", 2], ["spread", self.jack, "--sample", 1], ["commission", self.stand, "--csv"],
                ["papers", self.jack, "--no-pdf", "-o", self.out / "papers"], ["open", self.jack, "--no-browser"],
                ["rules", "--write", self.out / "rules.md"], ["parts", "--write", self.out / "parts"]]

    def all_told(self, why, **more):
        for words in self.printers():
            with self.subTest(command=words):
                done = subprocess.run([str(word) for word in (self.program, *words)], cwd=self.out, text=True,
                                      stderr=subprocess.PIPE, stdin=subprocess.DEVNULL, timeout=LIMIT,
                                      env=dict(os.environ, DISPLAY="", WAYLAND_DISPLAY=""), **more)
                self.assertEqual(done.returncode, 2, done.stderr)
                self.assertEqual(done.stderr, f"poise: what was to be printed is not complete: {why}\n")

    def test_a_full_disk_is_told(self):
        with open("/dev/full", "w") as full:
            self.all_told("the disk is full; make room and try again", stdout=full)

    def test_a_reader_that_has_gone_is_told(self):
        reader, writer = os.pipe()
        os.close(reader)
        self.all_told("whoever reads it has gone; let it be read to its end, or print into a file", stdout=writer)
        os.close(writer)

    def test_a_closed_output_is_told_and_no_file_takes_its_place(self):
        self.all_told("the output is closed; leave it open, or print into a file", preexec_fn=lambda: os.close(1))
        for written in self.out.rglob("*.svg"):
            self.assertTrue(written.read_text().startswith("<"), written)

    def test_closed_complaints_and_no_input_change_nothing(self):
        right = self.poise("prove", self.jack)
        for closed in ([0], [2], [0, 2]):
            done = subprocess.run([self.program, "prove", self.jack], stdout=subprocess.PIPE, text=True, timeout=LIMIT,
                                  preexec_fn=lambda: [os.close(each) for each in closed])
            self.assertEqual((done.returncode, done.stdout), (right.returncode, right.stdout))


class Settings(Commands):
    """Places, languages, zones and clocks that a machine may be set to."""

    right = None

    def printed_and_written(self, **more):
        """What commands say and write, byte for byte; paths as they stand from the folder of the files written."""
        shutil.rmtree(self.out)
        self.out.mkdir()
        jack, stand, open_job = (pathlib.Path("..") / "jobs" / job.name for job in (self.jack, self.stand, self.open))
        said = [self.poise(*words, **more).stdout for words in (
            ["prove", jack], ["prove", jack, "--json", "--trace", "trace.csv"], ["point", jack, "--at", "hold"], ["warm", jack],
            ["draw", jack, "-o", "a.svg"], ["draw", jack, "-o", "a.dxf"], ["chart", jack, "-o", "b.svg"],
            ["spread", jack, "-n", 3, "--json", "--file", "a.studies", "--csv", "a.csv"], ["commission", stand, "--csv"],
            ["parts", "relief"], ["papers", jack, "--no-pdf", "-o", "papers"], ["find", open_job, "--dry"])]
        return said, {str(each.relative_to(self.out)): each.read_bytes() for each in self.out.rglob("*") if each.is_file()}

    def same_under(self, environment):
        if Settings.right is None:
            Settings.right = self.printed_and_written()
        self.assertIn("FOUND", self.right[0][-1])
        said, written = self.printed_and_written(env=environment)
        self.assertEqual(said, self.right[0])
        self.assertEqual(written.keys(), self.right[1].keys())
        for name, text in written.items():
            self.assertTrue(text == self.right[1][name], name)

    def test_no_home_no_language_no_path_and_odd_zones_change_no_byte(self):
        self.same_under({})
        self.same_under(dict(os.environ, HOME="/nowhere", LC_ALL="xx_YY.nothing", LANG="tlh", TZ="Odd+27:59:59,M99.9.9",
                             TMPDIR="/nowhere", TERM=""))

    def test_a_language_with_a_decimal_comma_changes_no_byte(self):
        languages = self.folder / "languages"
        languages.mkdir()
        made = shutil.which("localedef") and run(["localedef", "-i", "de_DE", "-f", "UTF-8", languages / "de_DE.UTF-8"])
        if not made or not (languages / "de_DE.UTF-8" / "LC_NUMERIC").exists():
            self.skipTest("this machine has no language with a decimal comma to make (Debian: locales)")
        self.same_under(dict(os.environ, LOCPATH=str(languages), LC_ALL="de_DE.UTF-8", LANG="de_DE.UTF-8"))

    def test_a_clock_that_jumps_changes_no_byte(self):
        clock = os.environ.get("POISE_JUMPING_CLOCK")
        if not clock:
            self.skipTest("the clock that jumps is not built")
        self.same_under(dict(os.environ, LD_PRELOAD=clock))

    def test_a_missing_font_is_told_and_the_papers_are_made(self):
        settings, others = self.folder / "fonts.conf", self.folder / "fonts"
        others.mkdir()
        settings.write_text(f'<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>{others}</dir>'
                            f'<cachedir>{self.folder}/cache</cachedir></fontconfig>')
        # Without any font WeasyPrint may make no PDF at all; everything else is there, and the reason is told.
        told = self.poise("papers", self.jack, "--only", "books", "-o", self.out / "none",
                          env=dict(os.environ, FONTCONFIG_FILE=str(settings)))
        self.assertIn("the font Liberation Sans is not installed", told.stderr)
        self.assertIn("apt install fonts-liberation", told.stderr)
        self.assertTrue((self.out / "none" / "jack-books.html").exists())
        right = self.poise("papers", self.jack, "--only", "books", "-o", self.out / "with")
        self.assertEqual((right.stderr, right.returncode in (0, 1)), ("", True))
        # With another one it does.
        for each in pathlib.Path("/usr/share/fonts").rglob("LiberationMono-Regular.ttf"):
            shutil.copy(each, others)
        if list(others.iterdir()):
            told = self.poise("papers", self.jack, "--only", "books", "-o", self.out / "other",
                              env=dict(os.environ, FONTCONFIG_FILE=str(settings)))
            self.assertIn("the font Liberation Sans is not installed", told.stderr)
            self.assertEqual(told.returncode, right.returncode)
            self.assertTrue((self.out / "other" / "jack-books.pdf").exists())

    def test_a_folder_that_goes_while_one_stands_in_it_is_told(self):
        gone = self.folder / "gone"
        gone.mkdir()
        script = f'cd "{gone}" && rmdir "{gone}" && exec "$@"'
        for words in (["draw", self.jack], ["spread", self.jack, "-n", 2, "--file", "a.studies"], ["open", "--no-browser"],
                      ["prove", "jack.toml"], ["papers", self.jack, "--no-pdf"]):
            with self.subTest(command=words):
                gone.mkdir(exist_ok=True)
                done = run(["sh", "-c", script, "sh", self.program, *words])
                self.assertEqual(done.returncode, 2, done.stderr)
                self.assertNotIn("fault in Poise", done.stderr)
                self.assertRegex(done.stderr, REMEDY)


if __name__ == "__main__":
    unittest.main()
