# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Whatever the reader takes for a job the schema takes too: every job of the house."""
import unittest

from schema_support import SCHEMA, VALIDATOR, faults, job_files, press_job, read, text_of


def references(value):
    """All that a schema refers to."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if key == "$ref":
                yield inner
            else:
                yield from references(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from references(inner)


class Jobs(unittest.TestCase):
    def test_it_is_a_schema_of_the_draft_it_names(self):
        VALIDATOR.check_schema(SCHEMA)

    def test_it_defines_what_it_refers_to_and_nothing_else(self):
        self.assertEqual(set(references(SCHEMA)), {f"#/$defs/{name}" for name in SCHEMA["$defs"]})

    def test_every_job_that_the_reader_accepts_validates(self):
        paths = job_files()
        texts = [press_job()] + [text_of(path) for path in paths]
        names = ["docs/job-file.md"] + [str(path) for path in paths]
        accepted = 0
        for name, text, complaints in zip(names, texts, read(texts)):
            if complaints:
                continue
            accepted += 1
            with self.subTest(name):
                self.assertEqual(faults(text), set())
        self.assertGreater(accepted, 110)


if __name__ == "__main__":
    unittest.main()
