# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The manual page and the completion of each shell hold every command and option of --help; bash completes for real."""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

PROGRAM = sys.argv.pop()
sys.argv[1:] = []
SHELLS = ("bash", "zsh", "fish")


def poise(*arguments):
    return subprocess.run([PROGRAM, *arguments], check=True, capture_output=True, text=True).stdout


def commands_of(help_text):
    listed = help_text.split("Subcommands:\n")[1]
    return re.findall(r"^  ([a-z]+) ", listed, re.MULTILINE)


def options_of(help_text):
    """Every option's names, "-o" and "--output", as its command's help lists them."""
    listed = help_text.split("Options:\n")[1]
    lines = re.findall(r"^  (-\S+)", listed, re.MULTILINE)
    return [name for line in lines for name in line.split(",")]


HELP = {command: poise(command, "--help") for command in commands_of(poise("--help"))}
SCRIPTS = {shell: poise("manual", "--completion", shell) for shell in SHELLS}


def page_of(command, page):
    """What the page says below the command's own heading."""
    return page.split(f'.SS "poise {command}"\n')[1].split("\n.S")[0]


def part_of(command, script, shell):
    """The lines of a script that are about one command."""
    if shell == "zsh":
        return script.split(f"\n    {command})\n")[1].split(";;")[0]
    mark = f"{command}/" if shell == "bash" else f"__fish_seen_subcommand_from {command}'"
    return "\n".join(line for line in script.splitlines() if mark in line)


def has_option(name, text, shell):
    if shell == "fish":
        name = f"-l {name[2:]}" if name.startswith("--") else f"-s {name[1:]}"
        return re.search(rf" {name}(?= |$)", text, re.MULTILINE) is not None
    return re.search(rf"(?<![-\w]){name}(?![-\w])", text) is not None


class Manual(unittest.TestCase):
    page = poise("manual")

    def test_help_was_read(self):
        self.assertGreater(len(HELP), 10)
        self.assertIn("manual", HELP)
        self.assertLessEqual({"-h", "--help", "--trace", "--json"}, set(options_of(HELP["prove"])))

    def test_the_page_has_every_command_and_option(self):
        for command, text in HELP.items():
            body = page_of(command, self.page).replace("\\-", "-")
            for option in options_of(text):
                self.assertIn(f"\\fB{option}\\fR", body, command)

    def test_each_completion_has_every_command_and_option(self):
        for shell, script in SCRIPTS.items():
            for command, text in HELP.items():
                self.assertRegex(script, rf"(?m)\b{command}\b", shell)
                for option in options_of(text):
                    self.assertTrue(has_option(option, part_of(command, script, shell), shell),
                                    f"{shell}: {command} {option}")

    def test_words_of_an_option_stand_in_page_and_completions(self):
        self.assertIn("one of cycle, motion, way, valve", self.page.replace("\n", " "))
        for shell, script in SCRIPTS.items():
            self.assertIn("cycle motion way valve", part_of("chart", script, shell), shell)

    def test_the_page_says_how_commands_end_and_what_can_hurt(self):
        text = self.page.replace("\n", " ")
        self.assertRegex(text, r'\.SH "EXIT STATUS" Commands end with 0 .* 1 .* 2 ')
        self.assertRegex(text, r'\.SH "SAFETY" .*Loads held by oil can fall')

    def test_the_page_is_ascii_and_troff_finds_nothing_wrong(self):
        self.assertTrue(self.page.isascii())
        self.assertNotRegex(self.page, r"(?m)^\.(?!\\\"|TH|SH|SS|TP|PP|br)")
        for checker in (["groff", "-man", "-Tutf8", "-ww", "-z"], ["mandoc", "-T", "lint", "-W", "warning"]):
            if shutil.which(checker[0]):
                ran = subprocess.run(checker, input=self.page, capture_output=True, text=True)
                self.assertEqual((ran.returncode, ran.stderr + ran.stdout), (0, ""), checker[0])

    def test_written_files_are_what_is_printed(self):
        with tempfile.TemporaryDirectory() as folder:
            poise("manual", "--write", folder)
            texts = {file.name: file.read_text(encoding="utf-8") for file in Path(folder).iterdir()}
        self.assertEqual(texts, {"poise.1": self.page, "poise": SCRIPTS["bash"], "_poise": SCRIPTS["zsh"],
                                 "poise.fish": SCRIPTS["fish"]})


class Syntax(unittest.TestCase):
    def test_each_shell_that_is_here_reads_its_script(self):
        for shell, script in SCRIPTS.items():
            if not shutil.which(shell):
                continue
            with tempfile.NamedTemporaryFile("w", suffix=shell) as file:
                file.write(script)
                file.flush()
                ran = subprocess.run([shell, "-n", file.name], capture_output=True, text=True)
            self.assertEqual((ran.returncode, ran.stderr), (0, ""), shell)


class Bash(unittest.TestCase):
    """The function is called as bash calls it when Tab is pressed after the last word."""

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        for name in ("lift.toml", "two words.toml", "notes.txt", "day.csv"):
            open(os.path.join(self.folder.name, name), "w").close()
        os.mkdir(os.path.join(self.folder.name, "jobs"))

    def completed(self, *words):
        script = SCRIPTS["bash"] + """
COMP_WORDS=(poise "$@")
COMP_CWORD=$#
_poise
printf '%s\\n' "${COMPREPLY[@]}"
"""
        ran = subprocess.run(["bash", "--norc", "-c", script, "bash", *words], cwd=self.folder.name, check=True,
                             capture_output=True, text=True)
        self.assertEqual(ran.stderr, "")
        return sorted(ran.stdout.splitlines())

    def test_commands(self):
        self.assertEqual(self.completed(""), sorted(HELP))
        self.assertEqual(self.completed("pro"), ["propose", "prove"])
        self.assertEqual(self.completed("--v"), ["--version"])

    def test_options_of_the_command_alone(self):
        for command, text in HELP.items():
            self.assertEqual(self.completed(command, "-"), sorted(options_of(text)), command)
        self.assertEqual(self.completed("prove", "lift.toml", "--tr"), ["--trace"])

    def test_jobs_and_the_folders_on_the_way_to_them(self):
        self.assertEqual(self.completed("prove", ""), ["jobs", "lift.toml", "two words.toml"])
        self.assertEqual(self.completed("prove", "--json", "li"), ["lift.toml"])
        self.assertEqual(self.completed("rules", "--job", "l"), ["lift.toml"])

    def test_a_value_is_no_place(self):
        self.assertEqual(self.completed("prove", "--trace", "out.csv", "li"), ["lift.toml"])
        self.assertEqual(self.completed("prove", "--trace", "=", "out.csv", "li"), ["lift.toml"])

    def test_words_of_an_option(self):
        words = ["cycle", "motion", "valve", "way"]
        self.assertEqual(self.completed("chart", "lift.toml", "--show", ""), words)
        self.assertEqual(self.completed("chart", "lift.toml", "--show", "="), words)
        self.assertEqual(self.completed("chart", "lift.toml", "--show", "=", "va"), ["valve"])
        self.assertEqual(self.completed("manual", "--completion", ""), sorted(SHELLS))

    def test_files_by_their_ending_and_any_file(self):
        self.assertEqual(self.completed("prove", "lift.toml", "--trace", ""), ["day.csv", "jobs"])
        self.assertEqual(self.completed("diagnose", "lift.toml", ""),
                         ["day.csv", "jobs", "lift.toml", "notes.txt", "two words.toml"])

    def test_folders_alone(self):
        self.assertEqual(self.completed("papers", "lift.toml", "-o", ""), ["jobs"])

    def test_what_only_the_person_knows_is_left_to_them(self):
        self.assertEqual(self.completed("point", "lift.toml", "--at", ""), [""])


if __name__ == "__main__":
    unittest.main()
