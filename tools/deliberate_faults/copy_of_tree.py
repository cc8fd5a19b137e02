# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A copy of the tracked files with a build tree of its own, in which faults are made."""
import os
import shutil
import signal
import subprocess
from pathlib import Path

COMPILE = """#!/bin/sh
# Starts the compiler, by ccache where there is one. What hangs on a fault is not optimised: it is compiled for a few tests.
# A test keeps its flags: precompiled headers are taken with those alone that they were made with.
case "$*" in *cmake_pch*) POISE_FAULT_MADE= ;; esac
exec {ccache}"$@" ${{POISE_FAULT_MADE:+-O0}}
"""


class CopyOfTree:
    def __init__(self, root, folder):
        self.root, self.folder = root, folder
        self.tree = folder / "tree"
        self.build_folder = self.tree / "build" / "plain"
        self.log = folder / "build.log"
        self.sound = None  # path and content of the file that a fault is made in

    def refresh(self):
        """Brings the copy to what the working tree has, faults undone; what is as it was keeps its time."""
        listed = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"], cwd=self.root,
                                check=True, capture_output=True).stdout.decode()
        wanted = {name for name in listed.split("\0") if name and (self.root / name).is_file()}
        for name in wanted:
            write_if_new(self.tree / name, (self.root / name).read_bytes(), (self.root / name).stat().st_mode)
        for path in [path for path in self.tree.rglob("*") if path.is_file() or path.is_symlink()]:
            name = path.relative_to(self.tree).as_posix()
            if name not in wanted and not name.startswith("build/"):
                path.unlink()

    def configure(self):
        """With the flags of the preset `plain`, so that what ccache knows of it need not be compiled."""
        compiler = self.folder / "compile"
        ccache = shutil.which("ccache")
        write_if_new(compiler, COMPILE.format(ccache=f"{ccache} " if ccache else "").encode(), 0o755)
        if not (self.build_folder / "build.ninja").exists():
            self.run(["cmake", "--preset", "plain", f"-DCCACHE_PROGRAM={compiler}"])

    def build(self, target, faulty=False):
        """Whether the target could be built."""
        return self.run(["cmake", "--build", "build/plain", "--target", target, "-j", str(os.cpu_count() or 1)],
                        {"POISE_FAULT_MADE": "1"} if faulty else {})

    def run(self, command, settings=None):
        with open(self.log, "wb") as log:
            return run_all_of(command, self.tree, settings or {}, log)[0] == 0

    def make(self, fault):
        path = self.tree / fault.file
        text = path.read_text(encoding="utf-8")
        self.sound = path, text
        path.write_text(fault.made_in(text), encoding="utf-8")

    def undo(self):
        if self.sound:
            path, text = self.sound
            path.write_text(text, encoding="utf-8")
        self.sound = None

    def last_of_log(self):
        """The line in which the build says why it failed."""
        lines = self.log.read_text(errors="replace").splitlines()
        told = [line for line in lines if "error:" in line or "Error" in line]
        return (told or lines or [""])[0].strip()


def run_all_of(command, folder, settings, output=subprocess.PIPE, limit=None):
    """Exit code (None: it took longer than the limit) and what was printed. Whatever it has started ends with it."""
    process = subprocess.Popen(["nice", "-n", "5", *command], cwd=folder, env={**os.environ, **settings}, stdout=output,
                               stderr=subprocess.STDOUT, start_new_session=True)
    try:
        printed = process.communicate(timeout=limit)[0] or b""
        return process.returncode, printed.decode(errors="replace")
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        return None, (process.communicate()[0] or b"").decode(errors="replace")
    except BaseException:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        raise


def write_if_new(path, content, mode):
    if path.is_file() and path.read_bytes() == content:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    Path(path).chmod(mode & 0o777)
