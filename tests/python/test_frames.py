"""Frames of the hand-over from phone to phone, read by two outside readers of QR codes (OpenCV, zxing-cpp) and put
together by a second decoder written from the layout alone; and our own reader on what a camera makes of them.
"""

import base64
import hashlib
import os
import pathlib
import subprocess
import tempfile
import unittest
import zlib

import cv2
import numpy as np
import zxingcpp

ROOT = pathlib.Path(__file__).parents[2]
SYMBOL = 340
SEED = 20270214


def pictures(*args, **more):
    """Runs the example that paints and reads frames."""
    ready = os.environ.get("MARROWBOOK_FRAME_PICTURES")
    command = [ready, *map(str, args)] if ready else ["cargo", "run", "--quiet", "--locked", "--features", "cli", "--example", "frame-pictures", "--", *map(str, args)]
    return subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True, env=os.environ, **more).stdout


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
        read, same = [], 0
        for file in files:
            picture = cv2.imread(str(file), cv2.IMREAD_GRAYSCALE)
            found = zxingcpp.read_barcodes(picture)
            self.assertEqual(len(found), 1, file.name)
            read.append(bytes(found[0].bytes))
            corners = cv2.QRCodeDetector().detect(picture)[0]
            self.assertTrue(corners, f"OpenCV finds {file.name}")
            # OpenCV hands on bytes where the text is not UTF-8; older ones hand on nothing.
            if hasattr(cv2.QRCodeDetector, "detectAndDecodeBytes"):
                same += bytes(cv2.QRCodeDetector().detectAndDecodeBytes(picture)[0]) == read[-1]
        self.assertEqual(together(read), data)
        print(f"\nframes read by zxing-cpp {len(read)}/{len(files)}, by OpenCV to the same bytes {same}/{len(files)}; symbols {symbols}")

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
                names.append(seen / file.name)
                (seen / file.name).write_bytes(b"P5\n%d %d\n255\n" % shot.shape[::-1] + shot.tobytes())
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


if __name__ == "__main__":
    unittest.main()
