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
// Name, side, share of the mark, bits a pixel. Black on white needs no more than 16 greys; the large one is only ever
// shown made smaller, and needs none. Phones load these pictures.
const PICTURES = [["icon-192.png", 192, 1, 4], ["icon-maskable-512.png", 512, 0.72, 1]];

function png(greys, side, bits) {
  const stride = side * bits / 8;
  const plain = Buffer.alloc(stride * side);
  greys.forEach((grey, at) => {
    const [x, y] = [at % side, Math.floor(at / side)];
    const bit = x * bits;
    plain[y * stride + (bit >> 3)] |= Math.round(grey * (2 ** bits - 1) / 255) << (8 - bits - (bit & 7));
  });
  // Each row begins with its filter: none, or the difference to the row above (PNG specification, section 9), which is
  // the smaller one where there are no greys.
  const filter = bits === 1 ? 2 : 0;
  const rows = Buffer.alloc((stride + 1) * side);
  for (let y = 0; y < side; y += 1) {
    rows[y * (stride + 1)] = filter;
    const above = (i) => (filter === 0 || y === 0 ? 0 : plain[(y - 1) * stride + i]);
    for (let i = 0; i < stride; i += 1) rows[y * (stride + 1) + 1 + i] = plain[y * stride + i] - above(i);
  }
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
  head[8] = bits; // colour type 0 is grey
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
for (const [name, side, share, bits] of PICTURES) {
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
  writeFileSync(join(icons, name), png(greys, side, bits));
}
await browser.close();
