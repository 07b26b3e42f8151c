// Draws public/icons/*.png from mark.svg. Run by hand when the mark changes; the pictures are committed.
//   MARROWBOOK_NPM=~/.cache/marrowbook/npm MARROWBOOK_CHROMIUM=/usr/bin/chromium node tests/tools/draw-icons.mjs
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import { fileURLToPath } from "node:url";

const require = createRequire(join(process.env.MARROWBOOK_NPM, "package.json"));
const { chromium } = require("playwright-core");
const icons = fileURLToPath(new URL("../../public/icons/", import.meta.url));
const svg = readFileSync(join(icons, "mark.svg"), "utf8");

// A maskable icon may be cut to a circle of 80 % of its width, so the mark is drawn smaller inside it.
const PICTURES = [["icon-192.png", 192, 1], ["icon-maskable-512.png", 512, 0.72]];

// Black on white needs no more than 16 greys, and phones load these pictures: a fifth of the browser's own.
function png(greys, side) {
  const stride = side / 2;
  const rows = Buffer.alloc((stride + 1) * side); // each row begins with its filter, 0: none
  greys.forEach((grey, at) => {
    const [x, y] = [at % side, Math.floor(at / side)];
    rows[y * (stride + 1) + 1 + (x >> 1)] |= Math.round(grey / 17) << (x % 2 === 0 ? 4 : 0);
  });
  const chunk = (name, data) => {
    const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  head[8] = 4; // bits a pixel; colour type 0 is grey
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, chunk("IHDR", head), chunk("IDAT", deflateSync(rows, { level: 9 })), chunk("IEND", Buffer.alloc(0))]);
}

function crc32(bytes) { // ISO 3309, as the PNG specification has it in annex D
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const browser = await chromium.launch({ executablePath: process.env.MARROWBOOK_CHROMIUM, args: ["--no-sandbox"] });
const page = await browser.newPage();
for (const [name, side, share] of PICTURES) {
  const greys = await page.evaluate(async ([source, size, part]) => {
    const mark = new Image();
    mark.src = source;
    await mark.decode();
    const pen = Object.assign(document.createElement("canvas"), { width: size, height: size }).getContext("2d");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, size, size);
    const edge = (size * (1 - part)) / 2;
    pen.drawImage(mark, edge, edge, size * part, size * part);
    return Array.from(pen.getImageData(0, 0, size, size).data.filter((_, at) => at % 4 === 0));
  }, [`data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}`, side, share]);
  writeFileSync(join(icons, name), png(greys, side));
}
await browser.close();
