# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The numbers of a job file, in SI. The circuit's wiring is written by hand in each model."""
import tomllib

UNITS = {
    "bar": 1e5, "MPa": 1e6, "L/min": 1e-3 / 60, "cm3/min": 1e-6 / 60, "L": 1e-3, "cm3": 1e-6, "cm3/rev": 1e-6,
    "rpm": 1 / 60, "m": 1.0, "mm": 1e-3, "cm2": 1e-4, "s": 1.0, "ms": 1e-3, "kg": 1.0, "t": 1e3, "N": 1.0, "kN": 1e3,
    "N/mm": 1e3, "kN/mm": 1e6, "N s/m": 1.0, "mm/s": 1e-3, "m/s": 1.0, "mm2/s": 1e-6, "kg/m3": 1.0, "1/K": 1.0,
    "%": 1e-2, "turns": 1.0, "cm3/stroke": 1e-6, "strokes/min": 1 / 60, "deg": 1.0, "cm3/(m bar)": 1e-11, "kW": 1e3, "W": 1.0,
}


def si(text):
    """"210 bar" → 21e6; words and plain numbers stay what they are."""
    if isinstance(text, list):
        return [si(entry) for entry in text]
    if not isinstance(text, str):
        return text
    number, _, unit = text.partition(" ")
    try:
        value = float(number)
    except ValueError:
        return text
    if unit == "degC":
        return value + 273.15
    return value * UNITS[unit]


def numbers(table):
    return {key: si(value) for key, value in table.items() if key not in ("note", "kind")}


class Job:
    def __init__(self, path):
        with open(path, "rb") as file:
            self.text = tomllib.load(file)
        self.oil = numbers(self.text["oil"])
        self.steps = self.text["steps"]

    def part(self, tag):
        return numbers(self.text["parts"][tag])

    def line(self, tag):
        """A hose or tube that is written in a line."""
        for line in self.text["lines"]:
            if line.get("tag") == tag:
                return numbers(line.get("hose") or line.get("tube"))
        raise KeyError(tag)


def condition(text):
    """"C1.position > 99 mm" → signal, +1 or −1, level."""
    signal, sign, level = text.split(" ", 2)
    return signal, (1.0 if sign == ">" else -1.0), si(level)
