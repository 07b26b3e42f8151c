"""Frames of the hand-over from phone to phone, read by two outside readers of QR codes (OpenCV, zxing-cpp) and put
together by a second decoder written from the layout alone; our own reader on codes that those two made and on what a
camera makes of ours; and the codes of printed labels, read by both.
"""

import base64
import hashlib
import html
import json
import os
import pathlib
import re
import subprocess
import tempfile
import unittest
import zlib

import cv2
import numpy as np
import segno
import zxingcpp

ROOT = pathlib.Path(__file__).parents[2]
SYMBOL = 340
SEED = 20270214


def pictures(*args, **more):
    """Runs the example that paints and reads frames."""
    ready = os.environ.get("MARROWBOOK_FRAME_PICTURES")
    command = [ready, *map(str, args)] if ready else ["cargo", "run", "--quiet", "--locked", "--features", "cli", "--example", "frame-pictures", "--", *map(str, args)]
    return subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True, env=os.environ, **more).stdout


def office(*args):
    """Runs the office's command line."""
    ready = os.environ.get("MARROWBOOK_OFFICE")
    command = [ready] if ready else ["cargo", "run", "--quiet", "--locked", "--features", "cli", "--bin", "office", "--"]
    return subprocess.run([*command, *map(str, args)], cwd=ROOT, check=True, capture_output=True, text=True).stdout


def pgm(path, picture):
    path.write_bytes(b"P5\n%d %d\n255\n" % picture.shape[::-1] + picture.tobytes())
    return path


def paint(data, folder, first, count, scale=6):
    (folder / "file").write_bytes(data)
    symbols = int(pictures("paint", folder / "file", folder, first, count, scale))
    return symbols, sorted(folder.glob("*.pgm"))


def splitmix64(state):
    """One output of SplitMix64 (Steele, Lea and Flood 2014)."""
    whole = (1 << 64) - 1
    z = (state + 0x9E3779B97F4A7C15) & whole
    z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & whole
    z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & whole
    return z ^ (z >> 31)


def together(frames):
    """The file from frames in any order: Gaussian elimination over GF(2), numbers of arbitrary size as rows."""
    rows, length, digest = {}, None, None
    for frame in frames:
        assert frame[:4] == b"MBF\x01" and len(frame) == 362
        assert int.from_bytes(frame[358:], "big") == zlib.crc32(frame[:358])
        digest, length = frame[4:12], int.from_bytes(frame[12:15], "big")
        number, symbols = int.from_bytes(frame[15:18], "big"), -(-length // SYMBOL)
        mask = 1 << number
        if number >= symbols:
            words = -(-symbols // 64)
            mask = sum(splitmix64(number * 4096 + w) << (64 * w) for w in range(words)) & ((1 << symbols) - 1)
        value = int.from_bytes(frame[18:358], "big")
        while mask:
            top = mask.bit_length() - 1
            if top not in rows:
                rows[top] = (mask, value)
                break
            mask, value = mask ^ rows[top][0], value ^ rows[top][1]
        if len(rows) == symbols:
            break
    else:
        return None
    solved = {}
    for place in range(symbols):
        mask, value = rows[place]
        for other in range(place):
            if mask >> other & 1:
                value ^= solved[other]
        solved[place] = value
    data = b"".join(solved[place].to_bytes(SYMBOL, "big") for place in range(symbols))[:length]
    assert hashlib.sha256(data).digest()[:8] == digest
    return data


def camera(picture, draw, blur, skew, side=720):
    """A picture of the screen: perspective, blur, grey ground, a little noise."""
    high, wide = picture.shape
    size = side * 0.72
    corners = np.float32([[0, 0], [wide, 0], [wide, high], [0, high]])
    middle = side / 2 + draw.uniform(-20, 20, 2)
    square = np.float32([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * size / 2
    shift = draw.uniform(-skew, skew, (4, 2)) * size
    warp = cv2.getPerspectiveTransform(corners, np.float32(square + middle + shift))
    seen = cv2.warpPerspective(picture, warp, (side, side), flags=cv2.INTER_AREA, borderValue=150)
    seen = cv2.GaussianBlur(seen, (0, 0), blur)
    return np.clip(seen * 0.8 + 20 + draw.normal(0, 4, seen.shape), 0, 255).astype(np.uint8)


class Frames(unittest.TestCase):
    def setUp(self):
        self.held = tempfile.TemporaryDirectory()
        self.folder = pathlib.Path(self.held.name)
        self.draw = np.random.default_rng(SEED)

    def tearDown(self):
        self.held.cleanup()

    def test_outside_readers_read_our_frames_and_a_second_decoder_puts_the_file_together(self):
        data = self.draw.bytes(9_000)
        symbols, files = paint(data, self.folder, 20, 30)
        read, seen = [], 0
        for file in files:
            picture = cv2.imread(str(file), cv2.IMREAD_GRAYSCALE)
            found = zxingcpp.read_barcodes(picture)
            self.assertEqual(len(found), 1, file.name)
            read.append(bytes(found[0].bytes))
            seen += bool(cv2.QRCodeDetector().detect(picture)[0])
        self.assertEqual(together(read), data)
        self.assertGreaterEqual(seen, 0.9 * len(files), "found by OpenCV")
        # What OpenCV 5.0 decodes of them it does not hand on: the bytes are no text.
        print(f"\nframes read by zxing-cpp {len(read)}/{len(files)}, found by OpenCV {seen}/{len(files)}; symbols {symbols}")

    def test_our_reader_reads_what_a_camera_sees_with_three_in_ten_dropped(self):
        data = self.draw.bytes(12_000)
        symbols, files = paint(data, self.folder, 0, 140)
        for blur, skew, at_least in ((0.8, 0.02, 0.95), (1.2, 0.05, 0.9), (1.6, 0.08, 0.6)):
            seen = self.folder / "seen"
            seen.mkdir(exist_ok=True)
            names = []
            for file in files:
                if self.draw.random() < 0.3:
                    continue
                shot = camera(cv2.imread(str(file), cv2.IMREAD_GRAYSCALE), self.draw, blur, skew)
                names.append(pgm(seen / file.name, shot))
            self.draw.shuffle(names)
            lines = pictures("read", input="".join(f"{name}\n" for name in names)).splitlines()
            seconds = float(lines.pop().split()[1])
            share = sum(not line.startswith(("none", "no ")) for line in lines) / len(lines)
            whole = [n for n, line in enumerate(lines, 1) if line.startswith("whole ")]
            print(f"\nblur {blur} px, skew {skew}: {share:.0%} of {len(lines)} read; file of {symbols} symbols whole after"
                  f" {whole[:1]} pictures; {len(lines) / seconds:.0f} pictures a second")
            self.assertGreaterEqual(share, at_least)
            self.assertTrue(whole, "the file came whole")
            digest = hashlib.sha256(data).hexdigest()
            told = lines[whole[0] - 1].split()
            self.assertEqual(int(told[1]), len(data))
            self.assertEqual(base64.urlsafe_b64decode(told[2] + "=").hex(), digest)


    def test_our_reader_reads_frames_that_another_program_made(self):
        data = self.draw.bytes(9_000)
        symbols, files = paint(data, self.folder, 0, 40)
        names = []
        for file in files:
            frame = bytes(zxingcpp.read_barcodes(cv2.imread(str(file), cv2.IMREAD_GRAYSCALE))[0].bytes)
            # zxing-cpp and OpenCV write no bare bytes: one marks them with an ECI, the other takes text only.
            made = np.array([list(row) for row in segno.make(frame, error="m", mode="byte", micro=False).matrix_iter(border=4)], np.uint8)
            picture = cv2.resize(255 * (1 - made), None, fx=5, fy=5, interpolation=cv2.INTER_NEAREST)
            names.append(pgm(file.with_suffix(".made"), picture))
        lines = pictures("read", input="".join(f"{name}\n" for name in names)).splitlines()
        whole = [line for line in lines if line.startswith("whole ")]
        self.assertTrue(whole, lines)
        self.assertEqual(base64.urlsafe_b64decode(whole[0].split()[2] + "=").hex(), hashlib.sha256(data).hexdigest())
        self.assertEqual(lines.index(whole[0]), symbols - 1, "whole with as many pictures as it has symbols")

    def test_our_reader_reads_other_codes_of_both_and_takes_none_for_a_frame(self):
        texts = ["KDRMWA-3T", "https://example.org/a?b=c", "1234567890", "A" * 400]
        for n, text in enumerate(texts):
            made = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.QRCode, ec_level="M")
            drawn = [np.array(zxingcpp.write_barcode_to_image(made, scale=4)), cv2.resize(cv2.QRCodeEncoder.create().encode(text), None, fx=5, fy=5, interpolation=cv2.INTER_NEAREST)]
            for which, picture in enumerate(drawn):
                padded = np.pad(picture, 20, constant_values=255)
                name = pgm(self.folder / f"{n}-{which}.pgm", np.ascontiguousarray(padded))
                with self.subTest(text=text, by=("zxing", "OpenCV")[which]):
                    self.assertEqual(bytes.fromhex(pictures("codes", input=f"{name}\n").split()[0]), text.encode())
                    self.assertIn("not one of our frames", pictures("read", input=f"{name}\n"))

    def test_both_read_the_codes_of_printed_labels(self):
        row = lambda finding, value, item=None: {"finding": finding, "value": value} | ({"item": item} if item else {})
        findings = [row("species", "white_tailed_deer"), row("jaw_taken", "whole_jaw"), row("sample_number", "ABC <14> é", 1), row("sample_kept", "paper_dry", 1), row("femur_taken", "whole")]
        exam = {"at": "2027-02-14T10:00:00-05:00", "observer": "K7", "findings": findings}
        table = self.folder / "deer.json"
        table.write_text(json.dumps({"format": "marrowbook-findings-1", "carcasses": [{"name": "doe", "examinations": [exam]}]}))
        page = self.folder / "labels.html"
        office("--archive", self.folder / "archive", "labels", table, "--out", page)
        labels = page.read_text().split("<section")[1:]
        self.assertEqual(len(labels), 2)
        for label in labels:
            side = int(re.search(r'viewBox="0 0 (\d+) ', label)[1])
            modules = np.full((side, side), 255, np.uint8)
            for x, y, wide in re.findall(r"M(\d+) (\d+)h(\d+)v1", label):
                modules[int(y), int(x):int(x) + int(wide)] = 0
            picture = cv2.resize(modules, None, fx=6, fy=6, interpolation=cv2.INTER_NEAREST)
            text = zxingcpp.read_barcodes(picture)[0].text
            self.assertEqual(cv2.QRCodeDetector().detectAndDecode(picture)[0], text)
            number, *lines = text.split("\n")
            self.assertEqual(html.unescape(re.search("<h2>(.*?)</h2>", label)[1]), number)
            printed = [f"{name}: {value}" for name, value in re.findall(r"<p>([^<]*): <b>([^<]*)</b>", label)]
            self.assertEqual([html.unescape(line) for line in printed], lines)


if __name__ == "__main__":
    unittest.main()
