// Publishing a newer form, as an office does: files of a copied site are changed and the worker is stamped anew.
import { createHash } from "node:crypto";
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DIST } from "./phone.mjs";

/** A copy of the built site that one test may change. */
export function copyOfSite() {
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-site-"));
  cpSync(DIST, folder, { recursive: true });
  return folder;
}

/** Changes one word of a published file and puts the new digest and version into the worker. */
export function publishChange(folder, name, from, to) {
  const sha = (bytes) => createHash("sha256").update(bytes).digest("hex");
  const path = join(folder, name);
  const before = readFileSync(path);
  const after = Buffer.from(before.toString("utf8").replace(from, to));
  if (before.equals(after)) throw new Error(`${from} was not in ${name}`);
  writeFileSync(path, after);
  const worker = readFileSync(join(folder, "sw.js"), "utf8");
  const version = /const VERSION = "([0-9a-f]{16})"/.exec(worker)[1];
  const next = createHash("sha256").update(version + to).digest("hex").slice(0, 16);
  writeFileSync(join(folder, "sw.js"), worker.replace(version, next).replace(sha(before), sha(after)));
  return { version, next };
}
