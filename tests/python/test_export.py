"""What `office export` writes, read by other programs: frictionless, pyarrow, shapely, pyproj, python-dwca-reader.

The archive is the demo's invented season: only its form is looked at, none of its figures. tests/run has built both
programs before. The list of Darwin Core terms is dwc-terms.txt beside the reference tables.
"""

import csv
import json
import os
import pathlib
import shutil
import subprocess
import tempfile
import unittest
import zipfile
from xml.etree import ElementTree

import frictionless
import pyarrow.dataset
import pyproj
import shapely.geometry
from dwca.read import DwCAReader

TESTS = pathlib.Path(__file__).parent.parent
ROOT = TESTS.parent
DWC = "http://rs.tdwg.org/dwc/terms/"
TABLES = ["carcasses", "examinations", "findings", "readings", "reading_shares"]


def office():
    """The program: named by the surroundings, or where cargo puts it."""
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    return os.environ.get("MARROWBOOK_OFFICE", str(target / "debug" / "office"))


def run(*arguments, codes=(0,), archive=None):
    ahead = ["--archive", str(archive)] if archive else []
    ran = subprocess.run([office(), *ahead, *map(str, arguments)], capture_output=True, text=True)
    assert ran.returncode in codes, ran
    return ran.stdout


class Export(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(tempfile.mkdtemp(prefix="export-"))
        demo = pathlib.Path(office()).parent / "examples" / "demo-season"
        assert demo.exists(), f"{demo} is not there; cargo test --features cli builds it"
        subprocess.run([str(demo), str(cls.folder / "demo")], check=True, capture_output=True)
        cls.archive = cls.folder / "demo" / "archive"
        cls.blurred, cls.exact = cls.folder / "blurred", cls.folder / "exact"
        run("export", "--out", cls.blurred, "--cell", "3000", archive=cls.archive, codes=(3,))
        run("export", "--out", cls.exact, "--exact", archive=cls.archive, codes=(3,))

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder)

    def rows(self, folder, name):
        with open(folder / "csv" / f"{name}.csv", newline="", encoding="utf-8") as file:
            return list(csv.DictReader(file))

    def test_the_data_package_is_valid_and_so_is_every_table(self):
        for folder in (self.blurred, self.exact):
            report = frictionless.validate(str(folder / "csv" / "datapackage.json"))
            self.assertTrue(report.valid, report.to_summary())
            self.assertEqual(report.stats["tasks"], len(TABLES))
            self.assertGreaterEqual(len(self.rows(folder, "findings")), 1000)

    def test_a_spoilt_table_is_found(self):
        # A validator that finds nothing anywhere would pass for the other test.
        spoilt = self.folder / "spoilt"
        shutil.copytree(self.blurred / "csv", spoilt)
        path = spoilt / "examinations.csv"
        text = path.read_text(encoding="utf-8")
        other = self.rows(self.blurred, "carcasses")[0]["carcass_id"]
        path.write_text(text.replace(other, other.replace("-", "+")), encoding="utf-8", newline="")
        self.assertFalse(frictionless.validate(str(spoilt / "datapackage.json")).valid)

    def test_geojson_is_of_rfc_7946_and_the_blurring_is_in_the_radius(self):
        geod = pyproj.Geod(ellps="WGS84")
        places = {}
        for folder in (self.blurred, self.exact):
            collection = json.loads((folder / "carcasses.geojson").read_text(encoding="utf-8"))
            self.assertEqual(collection["type"], "FeatureCollection")
            self.assertNotIn("crs", collection)
            self.assertEqual(len(collection["features"]), len(self.rows(folder, "carcasses")))
            for feature in collection["features"]:
                self.assertEqual(feature["type"], "Feature")
                if feature["geometry"] is None:
                    continue
                point = shapely.geometry.shape(feature["geometry"])
                self.assertTrue(point.is_valid and -180 <= point.x <= 180 and -90 <= point.y <= 90)
                places.setdefault(feature["id"], []).append((point, feature["properties"]))
        self.assertGreaterEqual(len(places), 50)
        for (blurred, about), (exact, exactly) in places.values():
            _, _, apart = geod.inv(blurred.x, blurred.y, exact.x, exact.y)
            self.assertEqual((about["place_grid_m"], exactly["place_grid_m"]), (3000, None))
            if about["place_uncertainty_m"] is not None:
                self.assertLessEqual(apart + exactly["place_uncertainty_m"], about["place_uncertainty_m"])
            self.assertLessEqual(apart, 3000)

    def test_parquet_holds_what_the_tables_hold(self):
        for name in TABLES:
            data = pyarrow.dataset.dataset(self.blurred / "parquet" / name, partitioning="hive").to_table()
            rows = self.rows(self.blurred, name)
            self.assertEqual(data.num_rows, len(rows), name)
            columns = [column for column in rows[0]] if rows else []
            self.assertEqual(sorted(data.column_names), sorted(columns), name)
            for column in columns:
                ours = sorted(row[column].removeprefix("'") for row in rows)
                self.assertEqual(sorted(map(as_text, data[column].to_pylist())), sorted(map(plain, ours)), column)

    def test_every_line_is_one_carcass_with_all_that_is_its_own(self):
        lines = (self.blurred / "carcasses.ndjson").read_text(encoding="utf-8").splitlines()
        carcasses = [json.loads(line) for line in lines]
        ids = [row["carcass_id"] for row in self.rows(self.blurred, "carcasses")]
        self.assertEqual([one["carcass_id"] for one in carcasses], ids)
        for name in ["examinations", "findings", "readings", "reading_shares"]:
            own = [row for row in self.rows(self.blurred, name) if row["carcass_id"]]
            self.assertEqual(sum(len(one[name]) for one in carcasses), len(own), name)

    def test_the_darwin_core_archive_is_read_by_another_reader(self):
        terms = {line.strip() for line in (TESTS / "reference" / "dwc-terms.txt").read_text().splitlines()}
        meta = ElementTree.parse(self.blurred / "dwca" / "meta.xml")
        fields = meta.findall(".//{http://rs.tdwg.org/dwc/text/}field")
        named = [field.get("term") for field in fields]
        self.assertGreaterEqual(len(named), 30)
        self.assertEqual([term for term in named if term not in terms], [])
        packed = self.folder / "dwca.zip"
        with zipfile.ZipFile(packed, "w") as archive:
            for path in sorted((self.blurred / "dwca").iterdir()):
                archive.write(path, path.name)
        ours = {f"urn:uuid:{row['carcass_id']}": row for row in self.rows(self.blurred, "carcasses")}
        facts = causes = 0
        with DwCAReader(packed) as reader:
            self.assertEqual(reader.descriptor.core.type, f"{DWC}Occurrence")
            self.assertEqual(reader.descriptor.extensions_type, [f"{DWC}MeasurementOrFact"])
            for row in reader:
                carcass = ours.pop(row.id)
                self.assertEqual(row.data[f"{DWC}vitality"], "dead")
                self.assertEqual(row.data[f"{DWC}occurrenceStatus"], "detected")
                self.assertEqual(row.data[f"{DWC}decimalLatitude"], carcass["latitude"])
                self.assertEqual(row.data[f"{DWC}coordinateUncertaintyInMeters"], carcass["place_uncertainty_m"])
                self.assertNotEqual(row.data[f"{DWC}coordinateUncertaintyInMeters"], "0")
                self.assertIn("3000 m", row.data[f"{DWC}dataGeneralizations"])
                self.assertEqual(row.data[f"{DWC}recordedBy"], "")
                # A bare cause would be read as a finding: the word that says how sure goes with it.
                cause = row.data[f"{DWC}causeOfDeath"]
                self.assertRegex(cause, r"^$|^(Killed by .*: definite|Probably |Possibly )")
                causes += bool(cause)
                for fact in row.extensions:
                    if fact.data[f"{DWC}measurementValue"] == "refused":
                        self.assertNotEqual(fact.data[f"{DWC}measurementRemarks"], "")
                ids = [fact.data[f"{DWC}measurementID"] for fact in row.extensions]
                self.assertEqual(len(ids), len(set(ids)))
                self.assertTrue(all(fact.data[f"{DWC}measurementValue"] for fact in row.extensions))
                facts += len(ids)
        self.assertEqual(ours, {})
        self.assertGreaterEqual(facts, len(self.rows(self.blurred, "findings")) // 2)
        self.assertGreater(causes, 0)


def as_text(value):
    """A value of Parquet as the CSV has it: numbers as numbers."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    return plain(str(value))


def plain(text):
    """Numbers that are written differently and are the same."""
    try:
        return repr(float(text))
    except ValueError:
        return text


if __name__ == "__main__":
    unittest.main()
