// A disk that can be filled to the last byte (needs root: a small file system of its own is mounted).
import { execFileSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** In MB: a browser's profile needs some 40. */
const DISK_MB = 160;

/** A disk of its own: `fill` leaves no byte of it, `free` gives them back. */
export function smallDisk() {
  const at = mkdtempSync(join(tmpdir(), "marrowbook-disk-"));
  execFileSync("mount", ["-t", "tmpfs", "-o", `size=${DISK_MB}m`, "tmpfs", at]);
  process.env.TMPDIR = at;
  const ballast = join(at, "ballast");
  return {
    fill() {
      const file = openSync(ballast, "w");
      try { for (let size = 1 << 20; size >= 1;) { try { writeSync(file, Buffer.alloc(size)); } catch { size >>= 1; } } } finally { closeSync(file); }
    },
    free() { rmSync(ballast, { force: true }); },
    remove() { execFileSync("umount", ["-l", at]); rmSync(at, { recursive: true, force: true }); },
  };
}
