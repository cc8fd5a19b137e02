# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Poise as cmake --install puts it, in a folder that goes with the test."""
import subprocess
import tempfile
import unittest
from pathlib import Path


class Installed(unittest.TestCase):
    build = None  # the folder that is installed from

    @classmethod
    def setUpClass(cls):
        folder = tempfile.TemporaryDirectory(prefix="poise-installed-")
        cls.addClassCleanup(folder.cleanup)
        cls.away = Path(folder.name) / "away"  # a folder that is nobody's
        cls.away.mkdir()
        cls.prefix = Path(folder.name) / "prefix"
        subprocess.run(["cmake", "--install", cls.build, "--prefix", cls.prefix], check=True, capture_output=True)

    def run_bare(self, *command):
        """Runs a command with nothing in its environment, from a folder that is nobody's."""
        return subprocess.run(["env", "-i", *map(str, command)], cwd=self.away, capture_output=True, text=True)
