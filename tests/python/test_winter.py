"""The winter's reference figures are what their program makes from the invented logs beside them.

The figures are worked out in exact fractions, apart from the Rust; tests/winter compares the Rust with
them. Here they are made again, so that neither the logs nor the figures can drift alone.
"""

import importlib.util
import pathlib
import tempfile
import unittest

REFERENCE = pathlib.Path(__file__).parent.parent / "reference"


class Winter(unittest.TestCase):
    def test_the_committed_figures_are_made_again(self):
        spec = importlib.util.spec_from_file_location("make_winter", REFERENCE / "make_winter.py")
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            module.main(folder)
            names = sorted(path.name for path in folder.iterdir())
            self.assertEqual(len(names), 3)
            for name in names:
                self.assertEqual((folder / name).read_text(), (REFERENCE / name).read_text(), name)
            # The boundary is in it: without days at exactly zero the two rules could not be told apart.
            rows = [row.split(",") for row in (folder / "winter.csv").read_text().splitlines()[2:]]
            low = {(row[0], row[1]): row[2] for row in rows}
            self.assertNotEqual(low["Cedar flat", "wisconsin"], low["Cedar flat", "vermont"])


if __name__ == "__main__":
    unittest.main()
