// Draws public/icons/*.png from mark.svg. Run by hand when the mark changes; the pictures are committed.
//   MARROWBOOK_NPM=~/.cache/marrowbook/npm MARROWBOOK_CHROMIUM=/usr/bin/chromium node tests/tools/draw-icons.mjs
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const require = createRequire(join(process.env.MARROWBOOK_NPM, "package.json"));
const { chromium } = require("playwright-core");
const icons = fileURLToPath(new URL("../../public/icons/", import.meta.url));
const svg = readFileSync(join(icons, "mark.svg"), "utf8");

// A maskable icon may be cut to a circle of 80 % of its width, so the mark is drawn smaller inside it.
const PICTURES = [["icon-192.png", 192, 1], ["icon-512.png", 512, 1], ["icon-maskable-512.png", 512, 0.72]];

const browser = await chromium.launch({ executablePath: process.env.MARROWBOOK_CHROMIUM, args: ["--no-sandbox"] });
for (const [name, side, share] of PICTURES) {
  const page = await browser.newPage({ viewport: { width: side, height: side } });
  const mark = `data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}`;
  await page.setContent(`<body style="margin:0;background:#fff;display:grid;place-items:center;height:${side}px"><img src="${mark}" width="${side * share}" height="${side * share}">`);
  await page.waitForFunction(() => document.images[0].complete);
  writeFileSync(join(icons, name), await page.screenshot({ clip: { x: 0, y: 0, width: side, height: side } }));
}
await browser.close();
