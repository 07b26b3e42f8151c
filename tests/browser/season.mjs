// The invented season, made anew where the program that makes it may have changed since.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./phone.mjs";

export const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(process.env.CARGO_TARGET_DIR ?? join(ROOT, "target"), "debug/office");
const SEASON = join(ROOT, "demo/out/season");

/** Its folder: what crews handed over, and the office's archive. */
export function season() {
  const made = join(SEASON, "files.json");
  if (!existsSync(made) || statSync(made).mtimeMs < statSync(OFFICE).mtimeMs) {
    rmSync(SEASON, { recursive: true, force: true });
    execFileSync("cargo", ["run", "--quiet", "--locked", "--features", "cli", "--example", "demo-season", "--", SEASON], { cwd: ROOT, stdio: "inherit" });
  }
  return SEASON;
}

/** Files as crews hand them over. */
export const handedIn = () => JSON.parse(readFileSync(join(season(), "files.json"), "utf8")).files.map((name) => join(SEASON, name));
