# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Jobs with lines taken out, renamed, altered: whatever of them the reader accepts, the schema accepts.
POISE_CHANGES says how many (300)."""
import os
import random
import re
import unittest

from schema_support import accepts, faults, job_files, press_job, read, text_of

COUNT = int(os.environ.get("POISE_CHANGES", "300"))
SEED = 20261127
VALUE = re.compile(r'"([-+]?[0-9.]+)( ?)([^"]*)"')
# A unit and how others would write the same one; the factor stands before the other.
OTHER_UNITS = {
    "bar": [(14.5, "psi"), (0.1, "MPa"), (1e5, "N/m2"), (0.1, "N/mm²"), (1.0, "1e5 Pa")],
    "L/min": [(1.0, "l/min"), (1000.0, "cm³/min"), (1.0, "lpm"), (0.264, "gal / min"), (1.0, "L.min^-1")],
    "mm": [(0.001, "m"), (1000.0, "µm"), (0.1, "cm")],
    "degC": [(1.0, "°C"), (1.0, "℃")],
    "kN": [(1000.0, "N"), (0.10197, "t"), (1000.0, "kg m/s2"), (1000.0, "kg·m/s²")],
    "s": [(1000.0, "ms"), (1.0, "sec")],
    "%": [(1.0, " %"), (0.01, "")],
    "turns": [(1.0, "turn")],
}


def pick(chance, lines, pattern):
    """A line that the pattern is found in, or None."""
    fitting = [i for i, line in enumerate(lines) if re.search(pattern, line)]
    return chance.choice(fitting) if fitting else None


def replace_value(make):
    """A change of one value with its unit."""
    def change(chance, lines):
        i = pick(chance, lines, VALUE)
        if i is None:
            return
        values = list(VALUE.finditer(lines[i]))
        at = chance.choice(values)
        lines[i] = lines[i][:at.start()] + '"' + make(chance, at.group(1), at.group(3)) + '"' + lines[i][at.end():]
    return change


def other_unit(chance, number, unit):
    """The same value in another unit."""
    if unit not in OTHER_UNITS:
        return f"{number}{unit}"
    factor, other = chance.choice(OTHER_UNITS[unit])
    return f"{float(number) * factor:.9g} {other}"


def other_spelling(chance, number, unit):
    """The same value with other blanks or figures."""
    return chance.choice([f"{number}{unit}", f" {number}\u00a0{unit} ", f"{float(number):e} {unit}", f"{number}\t{unit}",
                          f"{number}.0 {unit}" if "." not in number else f"{number}0 {unit}",
                          number.replace("-", "\u2212") + " " + unit, f"+{number.lstrip('-+')} {unit}"])


def other_number(chance, number, unit):
    """Another number of about the same size."""
    return f"{float(number) * chance.uniform(0.9, 1.1):.4g} {unit}"


def open_value(chance, number, unit):
    """A value that is to be found."""
    return chance.choice(["find", " find "])


def drop(chance, lines):
    """Without one line."""
    del lines[chance.randrange(len(lines))]


def double(chance, lines):
    """One line once more, somewhere."""
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))


def rename(chance, lines):
    """A key with another letter."""
    i = pick(chance, lines, r"^[a-z_]+ = ")
    if i is not None:
        at = chance.randrange(lines[i].index(" ="))
        lines[i] = lines[i][:at] + chance.choice("abcdeforst_") + lines[i][at + chance.randint(0, 1):]


def exchange(chance, lines):
    """The value of one line behind the key of another."""
    i, j = pick(chance, lines, r"^[a-z_]+ = "), pick(chance, lines, r"^[a-z_]+ = ")
    if i is not None:
        lines[i] = lines[i].split(" = ", 1)[0] + " = " + lines[j].split(" = ", 1)[1]


def letter(chance, lines):
    """Another letter anywhere in a value."""
    i = pick(chance, lines, r'= "[^"]+"')
    if i is not None:
        at = lines[i].index('"') + 1 + chance.randrange(len(lines[i]) - lines[i].index('"') - 1)
        lines[i] = lines[i][:at] + chance.choice("0159abk.-< %>/µ²") + lines[i][at + 1:]


def word_as_list(chance, lines):
    """A single text as a list of one."""
    i = pick(chance, lines, r'^(to|until|when|during|plugged|part) = "')
    if i is not None:
        key, value = lines[i].split(" = ", 1)
        lines[i] = f"{key} = [{value.split('#')[0].strip()}]"


def condition(chance, lines):
    """A condition written in another way."""
    i = pick(chance, lines, " [<>] ")
    if i is not None:
        lines[i] = lines[i].replace(chance.choice([" > ", " < "]), chance.choice([">=", "<=", "  >   ", "<"]), 1)


def add(chance, lines):
    """A line more below one with a value."""
    i = pick(chance, lines, r'^[a-z_]+ = "[-+0-9.]+ ')
    if i is None:
        return
    key = lines[i].split(" = ", 1)[0]
    lines.insert(i + 1, chance.choice([
        f'{key}_tolerance = "3 %"', f'{key}_tolerance = ["-2 %", "+1 %"]', f'{key}_tolerance = [0, "1 %"]',
        f'{key}_tolerance = "0 %"', f'{key}_tolerance = 0', f'{key}_tolerance = "1 bar"', 'note = "näher am Tor\\n"',
        'drawn_at = [40, 25.5]', 'code = "2-H7.11"', 'assembly = "power unit"', 'harm = "can damage"', 'over = "0.1 s"',
        'rated_pressure = "5000 psi"']))


KINDLY = [replace_value(other_unit), replace_value(other_spelling), replace_value(other_number), replace_value(open_value),
          word_as_list, condition, add]
ROUGHLY = [drop, double, rename, exchange, letter]


def changed(chance, text):
    """A job with one to four changes."""
    lines = text.splitlines()
    for _ in range(chance.randint(1, 4)):
        chance.choice(KINDLY if chance.random() < 0.75 else ROUGHLY)(chance, lines)
    return "\n".join(lines) + "\n"


class Changes(unittest.TestCase):
    def test_what_the_reader_accepts_the_schema_accepts(self):
        chance = random.Random(SEED)
        jobs = [press_job()] + [text_of(path) for path in job_files()]
        jobs = [job for job, complaints in zip(jobs, read(jobs)) if not complaints and len(job) < 6000]
        texts = [changed(chance, chance.choice(jobs)) for _ in range(COUNT)]
        accepted = refused_by_both = 0
        for text, complaints in zip(texts, read(texts)):
            if complaints:
                refused_by_both += complaints[0]["toml"] and not accepts(text)
                continue
            accepted += 1
            with self.subTest(text):
                self.assertEqual(faults(text), set())
        self.assertGreater(accepted, COUNT // 4)
        self.assertGreater(refused_by_both, COUNT // 20)
        print(f"{accepted} of {COUNT} accepted; {refused_by_both} refused by both")


if __name__ == "__main__":
    unittest.main()
