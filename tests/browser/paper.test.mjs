// The paper twin as a browser prints it: two sheets, both sides, on either size, every step on it once.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import test from "node:test";
import { pathToFileURL } from "node:url";
import { ROOT, plainBrowser } from "./phone.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");

for (const [name, args] of [["A4", []], ["letter", ["--letter"]]]) {
  test(`the protocol on ${name} takes two sheets`, async () => {
    const file = join(mkdtempSync(join(tmpdir(), "paper-")), "paper.html");
    const ran = spawnSync(OFFICE, ["paper", file, ...args], { encoding: "utf8" });
    assert.equal(ran.status, 0, ran.stderr);
    const browser = await plainBrowser();
    try {
      const page = await browser.newPage();
      await page.goto(pathToFileURL(file).href);
      const steps = await page.$$eval("[data-step]", (all) => all.map((one) => one.dataset.step));
      assert.equal(new Set(steps).size, steps.length);
      assert.ok(steps.length > 200, `${steps.length} steps`);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      const sides = (pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) ?? []).length;
      assert.ok(sides >= 2 && sides <= 4, `${sides} sides`);
    } finally {
      await browser.close();
    }
  });
}
