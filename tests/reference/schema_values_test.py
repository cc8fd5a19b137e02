# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Values in any spelling and unit: what the reader takes as one of a quantity, the schema takes for it."""
import random
import unittest

from schema_support import SCHEMA, VALIDATOR, read

COUNT = 40
NUMBERS = ["1", "20", "0.5", ".5", "5.", "-3", "+4", "1e2", "2.5E-1", "\u22125", "1²", "1,5", "1/2", "1 000", "0x1", "inf", "e3", ""]
UNITS = ["bar", "psi", "MPa", "N/mm2", "N/mm²", "kgf/cm^2", "L/min", "l/min", "m3 s-1", "m^3s", "cm3/(m bar)", "1/K", "1/(bar)",
         "mm", "µm", "um", "in", "inch", "km/h", "mm/s", "kN", "t", "kg m/s2", "kg·m/s²", "kg.m/s2", "N*m", "(N)(m)", "(N m)",
         "%", "% %", "bar %", "m/m", "°C", "degC", "℃", "°F", "°", "deg", "rad", "K", "rpm", "1/min", "rev/min", "Hz", "turns", "tµrns",
         "cSt", "mm2/s", "kg/m3", "cm3/rev", "cm3/stroke", "strokes/min", "J/(kg K)", "W/K", "kW", "hp", "J", "Nm", "N m", "kg m2",
         "rad/s", "s", "min", "ms", "h", "barg", "bar g", "ton", "mPa", "bars", "m3s", "bar2", "bar 2", "m/s/s", "J/kg/K", "/min", ""]


def one_property_of_each_quantity():
    """By quantity a kind and the name of a value of it that a part may have."""
    found = {}
    for name, definition in SCHEMA["$defs"].items():
        if not name.startswith("kind."):
            continue
        for key, value in definition["properties"].items():
            for each in value.get("anyOf", []):
                quantity = each.get("$ref", "").removeprefix("#/$defs/quantity.")
                if "$ref" in each and "quantity." in each["$ref"] and quantity not in found:
                    found[quantity] = (name.removeprefix("kind."), key)
    return found


class Values(unittest.TestCase):
    def test_what_the_reader_takes_for_a_quantity_the_schema_takes(self):
        chance = random.Random(20261127)
        taken = total = 0
        for quantity, (kind, key) in sorted(one_property_of_each_quantity().items()):
            values = [f"{number}{blank}{unit}" for unit in UNITS for number, blank in
                      [(chance.choice(NUMBERS[:10]), chance.choice(["", " ", "\u00a0", "  ", "·"]))]]
            values += [chance.choice([" ", ""]) + chance.choice(NUMBERS) + chance.choice([" ", ""]) + chance.choice(UNITS)
                       for _ in range(COUNT)]
            parts = "".join(f'[parts.X{i}]\nkind = "{kind}"\n{key} = "{value}"\n' for i, value in enumerate(values))
            [complaints] = read([parts])
            refused = {complaint["way"][1] for complaint in complaints
                       if complaint["way"][2:] == [key] and "it must be" not in complaint["sentence"]}
            checker = VALIDATOR.evolve(schema={"$ref": f"#/$defs/quantity.{quantity}"})
            for i, value in enumerate(values):
                total += 1
                if f"X{i}" in refused:
                    continue
                taken += 1
                with self.subTest(f"{quantity}: {value!r}"):
                    self.assertTrue(checker.is_valid(value))
        self.assertGreater(taken, total // 40)

    def test_a_usual_unit_of_one_quantity_is_refused_for_another(self):
        for value, quantity in [("5 mm", "pressure"), ("5 L/min", "pressure"), ("5 bar", "flow"), ("5", "pressure"), ("5 m", "force"),
                                ("5 kN", "mass"), ("5 s", "length"), ("5 degC", "pressure"), ("5 N m", "force"), ("5 bar", "none"),
                                ("35", "share"), ("5 mm ", "pressure"), (" 5\u00a0mm", "pressure"), ("5 K", "flow")]:
            quantity = {"none": "plain_number"}.get(quantity, quantity)
            with self.subTest(f"{quantity}: {value}"):
                self.assertFalse(VALIDATOR.evolve(schema={"$ref": f"#/$defs/quantity.{quantity}"}).is_valid(value))


if __name__ == "__main__":
    unittest.main()
