"""The season's counts by SQL over the Parquet export, on DuckDB, equal row for row to what `office season` counted.

DuckDB knows nothing of the program: it reads the files and counts.
"""

import pathlib
import shutil
import tempfile
import unittest

import duckdb
import season_sql


class Sql(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(tempfile.mkdtemp(prefix="sql-"))
        season_sql.make(cls.folder)

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder)

    def ask(self, where="TRUE"):
        base = duckdb.connect()
        for table in season_sql.TABLES:
            files = self.folder / "export" / "parquet" / table / "*" / "*.parquet"
            base.execute(
                f"CREATE VIEW {table} AS SELECT * FROM read_parquet('{files}', hive_partitioning = true, "
                f"hive_types = {{'season': VARCHAR}}) WHERE {where}"
            )
        return lambda sql: base.execute(sql).fetchall()

    def test_every_row_is_the_offices_own(self):
        compared, differing = season_sql.compare(self.folder, self.ask())
        self.assertEqual(differing, {})
        self.assertGreater(compared, 40)

    def test_one_carcass_less_is_seen_in_every_table(self):
        # A comparison that finds nothing anywhere would pass for the other test.
        first = min(row[0] for row in self.ask()("SELECT carcass_id FROM carcasses WHERE counts"))
        _, differing = season_sql.compare(self.folder, self.ask(f"carcass_id <> '{first}'"))
        self.assertEqual(set(differing), set(season_sql.QUESTIONS))


if __name__ == "__main__":
    unittest.main()
