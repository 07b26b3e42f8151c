// Many pictures on few sheets, to be looked at by a person: a page of pictures with their names, itself pictured.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { plainBrowser } from "./phone.mjs";

/** Pictures side by side, and on one sheet. */
const ACROSS = 8;
const A_SHEET = 24;
/** Width of one on the sheet, and the height of a part, in pixels. What is longer goes on upon sheets of its own. */
const WIDE = 240;
const HIGH = 620;

/** Width and height of a PNG (W3C PNG, 11.2.1: in its first chunk). */
function size(path) {
  const head = readFileSync(path);
  return [head.readUInt32BE(16), head.readUInt32BE(20)];
}

/** The pictures of a folder as parts: all first parts, then all parts that lie below them. */
function parts(root, folder) {
  const files = readdirSync(join(root, folder)).filter((name) => name.endsWith(".png")).sort();
  const below = files.flatMap((name) => {
    const [width, height] = size(join(root, folder, name));
    const count = Math.ceil((height * WIDE) / width / HIGH - 0.05);
    return Array.from({ length: Math.max(0, count - 1) }, (_, n) => ({ name, part: n + 1 }));
  });
  return [["top", files.map((name) => ({ name, part: 0 }))], ["below", below]];
}

/** Makes sheets of all pictures of each folder below `root`; the names of the sheets. */
export async function sheets(root) {
  const made = [];
  const browser = await plainBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: ACROSS * (WIDE + 8) + 8, height: 800 } });
    for (const folder of readdirSync(root, { withFileTypes: true }).filter((one) => one.isDirectory()).map((one) => one.name).sort()) {
      for (const [kind, cut] of parts(root, folder)) {
        for (let from = 0; from < cut.length; from += A_SHEET) {
          const cells = cut.slice(from, from + A_SHEET).map(({ name, part }) => `<figure><figcaption>${name.replace(".png", "")}${part ? ` +${part}` : ""}</figcaption><div><img src="${encodeURI(`${folder}/${name}`)}" style="margin-top:${-part * HIGH}px"></div></figure>`);
          const html = `<!doctype html><meta charset="utf-8"><style>body{margin:4px;background:#888;font:12px sans-serif;display:flex;flex-wrap:wrap;gap:6px}
figure{margin:0;width:${WIDE}px}div{max-height:${HIGH}px;overflow:hidden}img{width:100%;display:block}figcaption{background:#ffc;white-space:nowrap;overflow:hidden}</style>${cells.join("")}`;
          const path = join(root, `${folder}.html`);
          writeFileSync(path, html);
          await page.goto(pathToFileURL(path).href);
          await page.waitForFunction(() => [...document.images].every((image) => image.complete));
          const sheet = join(root, `sheet-${folder}-${kind}-${String(from / A_SHEET + 1).padStart(2, "0")}.png`);
          await page.screenshot({ path: sheet, fullPage: true });
          made.push(sheet);
        }
      }
    }
  } finally {
    await browser.close();
  }
  return made;
}
