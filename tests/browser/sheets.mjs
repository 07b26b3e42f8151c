// Many pictures on few sheets, to be looked at by a person: a page of pictures with their names, itself pictured.
import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { plainBrowser } from "./phone.mjs";

/** Pictures side by side, and on one sheet. */
const ACROSS = 8;
const A_SHEET = 24;
/** Width of one on the sheet, and the height after which it is cut, in pixels. */
const WIDE = 240;
const HIGH = 620;

/** Makes sheets of all pictures of each folder below `root`; the names of the sheets. */
export async function sheets(root) {
  const made = [];
  const browser = await plainBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: ACROSS * (WIDE + 8) + 8, height: 800 } });
    for (const folder of readdirSync(root, { withFileTypes: true }).filter((one) => one.isDirectory()).map((one) => one.name).sort()) {
      const files = readdirSync(join(root, folder)).filter((name) => name.endsWith(".png")).sort();
      for (let from = 0; from < files.length; from += A_SHEET) {
        const cells = files.slice(from, from + A_SHEET).map((name) => `<figure><figcaption>${name.replace(".png", "")}</figcaption><img src="${encodeURI(`${folder}/${name}`)}"></figure>`);
        const html = `<!doctype html><meta charset="utf-8"><style>body{margin:4px;background:#888;font:12px sans-serif;display:flex;flex-wrap:wrap;gap:6px}
figure{margin:0;width:${WIDE}px;max-height:${HIGH}px;overflow:hidden}img{width:100%;display:block}figcaption{background:#ffc;white-space:nowrap;overflow:hidden}</style>${cells.join("")}`;
        const path = join(root, `${folder}.html`);
        writeFileSync(path, html);
        await page.goto(pathToFileURL(path).href);
        await page.waitForFunction(() => [...document.images].every((image) => image.complete));
        const sheet = join(root, `sheet-${folder}-${String(from / A_SHEET + 1).padStart(2, "0")}.png`);
        await page.screenshot({ path: sheet, fullPage: true });
        made.push(sheet);
      }
    }
  } finally {
    await browser.close();
  }
  return made;
}
