"""The committed schemas with Python jsonschema: each is a schema of draft 2020-12, and the one of
findings takes an example and refuses what the program would set aside."""

import copy
import json
import pathlib
import unittest

import jsonschema

TESTS = pathlib.Path(__file__).parent.parent


def validator(name):
    schema = json.loads((TESTS / "schema" / f"{name}.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


class Schemas(unittest.TestCase):
    def test_each_is_a_schema_of_its_draft(self):
        paths = sorted((TESTS / "schema").glob("*.json"))
        self.assertGreaterEqual(len(paths), 4)
        for path in paths:
            with self.subTest(path.name):
                validator(path.stem)
                self.assertIn("2020-12", json.loads(path.read_text())["$schema"])

    def test_findings_example_fits_and_each_slip_shows(self):
        findings = validator("marrowbook-findings-1")
        example = json.loads((TESTS / "office" / "findings-example.json").read_text())
        self.assertEqual(list(findings.iter_errors(example)), [])
        for slip in [
            {"finding": "horn_mm", "value": 1},
            {"finding": "species", "value": "moose_or_so"},
            {"finding": "diastema_mm", "value": "71"},
            {"finding": "diastema_mm", "value": 710},
            {"finding": "diastema_mm", "value": 71, "tooth": "m1"},
            {"finding": "dentine", "value": "wider"},
            {"finding": "marrow_wet_g", "value": 5.1},
            {"finding": "tracks_by", "value": "fox"},
            {"finding": "drag_marks", "state": "perhaps"},
            {"finding": "drag_marks", "note": "x"},
        ]:
            with self.subTest(slip):
                spoilt = copy.deepcopy(example)
                spoilt["carcasses"][0]["examinations"][0]["findings"].append(slip)
                self.assertFalse(findings.is_valid(spoilt))


if __name__ == "__main__":
    unittest.main()
