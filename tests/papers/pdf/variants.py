# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The jobs of which papers are read back: examples, a drawing of sixty parts, one in US units, and changed bush presses."""
from hand_over import REPOSITORY

PRESS = REPOSITORY / "tests/papers/pdf/bush-press.toml"
SIGNS = 'Bush "press" <b>&amp;</b> ß ² Ω µ é Ж ½ \\ back\\slash </style></title> {}%s @page \'x\' -- #1'
# Two hundred letters: in words of usual length, and in one piece.
WORDY = ("a very long name that somebody wrote into the job without a thought for those who print it " * 3)[:199] + "."
WHOLE = ("without-a-single-blank_" * 9)[:199] + "."


def quoted(words):
    """As TOML."""
    return '"' + words.replace("\\", "\\\\").replace('"', '\\"') + '"'


def replaced(text, *changes):
    for old, new in changes:
        if old not in text:
            raise AssertionError(f"the job does not say {old}")
        text = text.replace(old, new)
    return text


def named(words):
    """The press with these words wherever a job may say something of its own."""
    step = words[:-1] + "2"
    return replaced(PRESS.read_text(), ('"Bush press"', quoted(words)),
                    ('"Presses one bush into its seat and comes back."', quoted(words)),
                    ('"hand lever"', quoted(words)), ('"pushes the bush"', quoted(words)), ('"at the pump"', quoted(words)),
                    ('"set with the flow of the pump going over it"', quoted(words)), ('"the bush in its seat"', quoted(words)),
                    ('name = "start"', "name = " + quoted(words)), ('name = "press"', "name = " + quoted(step)),
                    ('during = "press"', "during = " + quoted(step)), ('"the pump is spared"', quoted(words)),
                    ('"the bush is home"', quoted(step))) + f"""
[drawing]
author = {quoted(words)}
date = {quoted(words)}
revision = {quoted(words)}

[[waive]]
rule = "relief valve is no control"
reason = {quoted(words)}
"""


def cut_short():
    """The bush is never met: the step that presses waits in vain. And nobody can read a pressure."""
    never = ('until = "C1.A.pressure > 150 bar"', 'until = "C1.A.pressure > 240 bar"')
    text = replaced(PRESS.read_text(), never, (', "G1.M"', ""))
    before, behind = text.split("[parts.G1]")
    return before + behind[behind.index("[[lines]]"):]


def waived():
    """Two rules not kept, one of them on purpose; with what a title block has."""
    return PRESS.read_text() + """
[drawing]
author = "workshop office"
date = "25 November 2026"
revision = "B"

[[waive]]
rule = "relief valve is no control"
reason = "The lever is let go after each bush, and then the pump idles."
"""


def many_settings(count):
    """The press with so many settings: beside it needle valves that let a little oil to bearings."""
    text, oil = PRESS.read_text(), "[[steps]]"
    parts = "".join(f"""[parts.N{i}]
kind = "needle"
note = "lubricates bearing number {i} of the press"
bore = "0.1 mm"
turns = "{i % 3 + 1} turns"
rated_pressure = "350 bar"

[[lines]]
from = "P1.P"
to = "N{i}.A"

[[lines]]
from = "N{i}.B"
to = "T1.T"

""" for i in range(1, count))
    before, behind = text.split(oil, 1)
    return before + parts + oil + behind


JOBS = {
    "drilling_stand": lambda: REPOSITORY / "jobs/drilling-stand.toml",
    "drilling_stand_broken": lambda: REPOSITORY / "jobs/drilling-stand-sequence-too-low.toml",
    "axle_box_lift": lambda: REPOSITORY / "jobs/axle-box-lift.toml",
    "axle_box_lift_broken": lambda: REPOSITORY / "jobs/axle-box-lift-needle-too-far-open.toml",
    "sixty_parts": lambda: REPOSITORY / "tests/drawings/wheel-set-bay.toml",
    "us_units_on_letter": lambda: REPOSITORY / "tests/drawings/conditioned-unit.toml",
    "signs": lambda: named(SIGNS),
    "long_names": lambda: named(WORDY),
    "long_names_without_blanks": lambda: named(WHOLE),
    "cut_short_without_gauges": cut_short,
    "waived_with_revision": waived,
}
