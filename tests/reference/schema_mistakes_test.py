# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Where the reader complains about a slip of the pen in one line, the schema says no at the same place."""
import unittest

from schema_support import accepts, faults, press_job, read

# What stands in the job of docs/job-file.md, what is written instead, and the way to what is wrong.
V1, C1, HOSE = ("parts", "V1"), ("parts", "C1"), ("lines", 2, "hose")
MISTAKES = [
    ('kind = "relief"', 'kind = "releif"', V1 + ("kind",)),
    ('kind = "relief"', 'kind = 4', V1 + ("kind",)),
    ('kind = "relief"\n', '', V1),
    ('setting = "180 bar"', 'seting = "180 bar"\nsetting = "180 bar"', V1 + ("seting",)),
    ('setting = "180 bar"\n', '', V1),
    ('setting = "180 bar"', 'setting = "180"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = 180', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = true', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = ["180 bar"]', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180 bra"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180 mm"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180 L/min"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180 bar g"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180,5 bar"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "1 800 bar"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "bar 180"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = ""', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "finds"', V1 + ("setting",)),
    ('setting = "180 bar"', 'setting = "180 bar"\nbore = "8 mm"', V1 + ("bore",)),
    ('setting = "180 bar"', 'setting = "180 bar"\nsetting_tolerance = "5"', V1 + ("setting_tolerance",)),
    ('setting = "180 bar"', 'setting = "180 bar"\nsetting_tolerance = ["-5 %"]', V1 + ("setting_tolerance",)),
    ('setting = "180 bar"', 'setting = "180 bar"\nsetting_tolerance = 3', V1 + ("setting_tolerance",)),
    ('setting = "180 bar"', 'setting = "180 bar"\ndrawn_at = [40]', V1 + ("drawn_at",)),
    ('setting = "180 bar"', 'setting = "180 bar"\ncode = "X2.3"', V1 + ("code",)),
    ('setting = "180 bar"', 'setting = "180 bar"\nmodel = 7', V1 + ("model",)),
    ('centre = "tandem"', 'centre = "tandam"', ("parts", "V2", "centre")),
    ('overlap = "-30 %" ', 'overlap = "-30 bar"', ("parts", "V2", "overlap")),
    ('overlap = "-30 %" ', 'overlap = -0.3', ("parts", "V2", "overlap")),
    ('bore = "40 mm"', 'bore = "40 kN"', C1 + ("bore",)),
    ('bore = "40 mm"', 'boar = "40 mm"\nbore = "40 mm"', C1 + ("boar",)),
    ('grade = "ISO VG 46"', 'grade = "ISO VG 45"', ("oil", "grade")),
    ('grade = "ISO VG 46"', 'grade = "ISO VG 46"\nfluid = "mineral"', ("oil", "fluid")),
    ('temperature = "40 degC"', 'temperature = "40"', ("oil", "temperature")),
    ('temperature = "40 degC"', 'temperature = "find"', ("oil", "temperature")),
    ('temperature = "40 degC"', 'temperatur = "40 degC"', ("oil", "temperatur")),
    ('temperature = "40 degC"', 'temperature_range = ["10 degC"]', ("oil", "temperature_range")),
    ('[oil]', '[oils]', ("oils",)),
    ('title = "Bush press"', 'title = 5', ("title",)),
    ('title = "Bush press"', 'units = "imperial"', ("units",)),
    ('title = "Bush press"', 'units = { pressure = "mm" }', ("units", "pressure")),
    ('title = "Bush press"', 'units = { presure = "bar" }', ("units", "presure")),
    ('title = "Bush press"', 'joined = [["V1.P"]]', ("joined", 0)),
    ('title = "Bush press"', 'plugged = []', ("plugged",)),
    ('title = "Bush press"', 'drawing = { paper = "A2" }', ("drawing", "paper")),
    ('title = "Bush press"', 'drawing = { codes = "no" }', ("drawing", "codes")),
    ('title = "Bush press"', 'drawing = { date = 2026-11-25 }', ("drawing", "date")),
    ('title = "Bush press"', 'waive = [{ rule = "relief at each pump", reason = "Tried on the stand" }]', ("waive", 0, "rule")),
    ('title = "Bush press"', 'waive = [{ rule = "relief at every pump", reason = "ok" }]', ("waive", 0, "reason")),
    ('title = "Bush press"', 'waive = [{ rule = "relief at every pump" }]', ("waive", 0)),
    ('title = "Bush press"', 'controls = [{ set = { P1 = "off" } }]', ("controls", 0)),
    ('from = "T1.T"', 'from = "T1.Q"', ("lines", 0, "from")),
    ('from = "T1.T"', 'from = "T1"', ("lines", 0, "from")),
    ('from = "T1.T"', 'form = "T1.T"\nfrom = "T1.T"', ("lines", 0, "form")),
    ('to = ["P1.S", "V1.T", "V2.T"]', 'to = []', ("lines", 0, "to")),
    ('to = ["P1.S", "V1.T", "V2.T"]', 'to = ["P1.S", "V1.T", "V2.T", 3]', ("lines", 0, "to", 3)),
    ('to = ["V1.P", "V2.P"]', 'to = ["V1.P", "V2.P"]\ntag = "H9"', ("lines", 1, "tag")),
    ('tag = "H1"', 'tag = "H 1"', ("lines", 2, "tag")),
    ('length = "2 m"', 'length = "2"', HOSE + ("length",)),
    ('length = "2 m"', 'lenght = "2 m", length = "2 m"', HOSE + ("lenght",)),
    ('length = "2 m"', 'length = "2 m", kind = "hose"', HOSE + ("kind",)),
    ('to = "C1.A"', 'to = ["C1.A", "C1.B"]', ("lines", 2, "to")),
    ('lasts = "1 s"', 'lasts = "1 bar"', ("steps", 0, "lasts")),
    ('lasts = "1 s"', 'lasts = 1', ("steps", 0, "lasts")),
    ('lasts = "1 s"\n', '', ("steps", 0)),
    ('lasts = "1 s"', 'lasts = "1 s"\nover = "find"', ("steps", 0, "over")),
    ('set = { V2 = "a" }', 'set = { V2 = "c" }', ("steps", 1, "set", "V2")),
    ('set = { V2 = "a" }', 'set = { V2 = "3" }', ("steps", 1, "set", "V2")),
    ('set = { V2 = "a" }', 'sets = { V2 = "a" }', ("steps", 1, "sets")),
    ('set = { V2 = "a" }', 'move = { C1 = "up" }', ("steps", 1, "move", "C1")),
    ('until = "C1.A.pressure > 150 bar"', 'until = "C1.A.pressure 150 bar"', ("steps", 1, "until")),
    ('until = "C1.A.pressure > 150 bar"', 'until = "C1.A.presure > 150 bar"', ("steps", 1, "until")),
    ('until = "C1.A.pressure > 150 bar"', 'until = "C1.A.pressure > 150"', ("steps", 1, "until")),
    ('until = "C1.A.pressure > 150 bar"', 'until = "C1.A.pressure > 150 mm"', ("steps", 1, "until")),
    ('until = "C1.A.pressure > 150 bar"', 'until = []', ("steps", 1, "until")),
    ('name = "press"', 'name = ""', ("steps", 1, "name")),
    ('name = "press"\n', '', ("steps", 1)),
    ('limit = "200 bar"', 'limit = "200 mm"', ("require", 0, "limit")),
    ('limit = "200 bar"', 'limit = 200', ("require", 0, "limit")),
    ('limit = "200 bar"\n', '', ("require", 0)),
    ('limit = "200 bar"', 'limit = "200 bar"\nharm = "hurts"', ("require", 0, "harm")),
    ('limit = "200 bar"', 'limit = "200 bar"\nwithin = "5 s"', ("require", 0, "within")),
    ('never_above = "P1.P.pressure"', 'never_over = "P1.P.pressure"', ("require", 0)),
    ('never_above = "P1.P.pressure"', 'never_above = "P1.P.press"', ("require", 0, "never_above")),
    ('within = "5 s"', 'within = "5"', ("require", 1, "within")),
]


class Mistakes(unittest.TestCase):
    def test_each_is_seen_by_reader_and_schema_at_one_place(self):
        good = press_job()
        self.assertTrue(accepts(good))
        for old, _, _ in MISTAKES:
            self.assertIn(old, good)
        texts = [good.replace(old, new, 1) for old, new, _ in MISTAKES]
        for (old, new, way), text, complaints in zip(MISTAKES, texts, read(texts)):
            with self.subTest(f"{new or 'without ' + old}"):
                self.assertIn(way, [tuple(complaint["way"]) for complaint in complaints], complaints)
                self.assertIn(way, faults(text))

    def test_the_schema_says_nothing_of_any_other_place(self):
        good = press_job()
        for old, new, way in MISTAKES:
            with self.subTest(f"{new or 'without ' + old}"):
                others = faults(good.replace(old, new, 1)) - {way}
                self.assertEqual({place for place in others if place[:2] != way[:2]}, set())


if __name__ == "__main__":
    unittest.main()
