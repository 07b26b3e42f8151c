"""The second reader over tests/kit: it must take what the names call intact or unknown, and refuse
what they call damaged or newer.

Names are the program's expectations; here another implementation reaches the same verdicts. It is
not asked to repair what mail does, so the forms that only differ by that are left out and named.
"""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).parent))

from check_bundle import check  # noqa: E402

KIT = pathlib.Path(__file__).parent.parent / "kit"

# What mail does to a file is repaired by the program, not by this reader.
REPAIRED = {"intact--byte-order-mark.txt", "intact--wrapped-by-mail.txt"}


def verdict(path):
    """Whether every check passes, and what was said last."""
    said = "nothing"
    try:
        for said in check(path):
            pass
        return True, said
    except Exception as error:  # whatever a library raises is a refusal here
        return False, f"{type(error).__name__}: {error}"


class Kit(unittest.TestCase):
    def test_every_file_as_its_name_says(self):
        paths = sorted(path for path in KIT.glob("*.txt") if path.name not in REPAIRED)
        self.assertGreaterEqual(len(paths), 40)
        for path in paths:
            with self.subTest(path.name):
                passed, said = verdict(path)
                self.assertEqual(passed, path.name.split("-")[0] in ("intact", "unknown"), said)

    def test_the_damage_is_found_where_it_was_done(self):
        # a reader that refused everything would pass for the damaged half of the kit
        for name, words in [
            ("damaged-chain--entry-dropped.txt", "chain does not come out"),
            ("damaged-signature--payload-byte-changed.txt", "Verification failed"),
            ("damaged-content--not-canonical.txt", "not in canonical form"),
            ("damaged-key--name-of-another-key.txt", "not its thumbprint"),
        ]:
            passed, said = verdict(KIT / name)
            self.assertFalse(passed)
            self.assertIn(words, said)


if __name__ == "__main__":
    unittest.main()
