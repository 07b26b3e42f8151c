// Where a page's wasm has its bytes: by section, by crate, by room of ours, by function.
//   node size-report.mjs FILE.wasm [HOW-MANY-ROWS [ONLY-NAMES-WITH]]
// FILE must still have its names: `target/wasm32-unknown-unknown/web/web.wasm`, or better the file after
// wasm-bindgen and `wasm-opt -g`. `alone` is what the group would weigh if brotli had nothing else to lean on;
// `share` is its part of the section's brotli by raw bytes. Truth lies between the two.
import { readFileSync } from "node:fs";
import { brotliCompressSync, constants } from "node:zlib";

const [file, rows = "40", only = ""] = process.argv.slice(2);
const bytes = readFileSync(file);

const brotli = (data) =>
  data.length ? brotliCompressSync(data, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: data.length } }).length : 0;

let at = 0;
function leb() {
  let value = 0, shift = 1;
  for (;;) {
    const byte = bytes[at++];
    value += (byte & 127) * shift;
    if (byte < 128) return value;
    shift *= 128;
  }
}
const text = () => { const n = leb(); at += n; return bytes.toString("utf8", at - n, at); };

const NAMES = ["custom", "type", "import", "function", "table", "memory", "global", "export", "start", "element", "code", "data", "count", "tag"];
const sections = [];
at = 8;
while (at < bytes.length) {
  const id = bytes[at++];
  const size = leb();
  const from = at;
  const name = id === 0 ? `custom ${text()}` : NAMES[id];
  sections.push({ id, name, from, body: at, to: from + size });
  at = from + size;
}
const section = (name) => sections.find((s) => s.name === name);

function importedFunctions() {
  const s = section("import");
  if (!s) return 0;
  at = s.from;
  let functions = 0;
  for (let n = leb(); n > 0; n--) {
    text(); text();
    const kind = bytes[at++];
    if (kind === 0) { leb(); functions++; }
    else if (kind === 1) { at++; const more = bytes[at++]; leb(); if (more & 1) leb(); }
    else if (kind === 2) { const more = bytes[at++]; leb(); if (more & 1) leb(); }
    else if (kind === 3) at += 2;
    else { at++; leb(); }
  }
  return functions;
}

function functionNames() {
  const s = section("custom name");
  const names = new Map();
  if (!s) return names;
  at = s.body;
  while (at < s.to) {
    const kind = bytes[at++];
    const size = leb();
    const end = at + size;
    if (kind === 1) for (let n = leb(); n > 0; n--) { const index = leb(); names.set(index, text()); }
    at = end;
  }
  return names;
}

function functions() {
  const first = importedFunctions();
  const names = functionNames();
  const s = section("code");
  at = s.from;
  const all = [];
  const count = leb();
  for (let n = 0; n < count; n++) {
    const start = at;
    const size = leb();
    at += size;
    all.push({ name: names.get(first + n) ?? `#${first + n}`, start, end: at, size: at - start });
  }
  return all;
}

/** `core::ptr::drop_in_place<...>` is drop glue; else the first path segment, ours with its first two. */
function groupOf(name) {
  const plain = name.replace(/\[[0-9a-f]{8,}\]/g, "").replace(/^&?(mut )?/, "");
  if (/drop_in_place|drop_glue/.test(plain)) return "drop glue";
  const ours = plain.match(/marrowbook::(?:web::(?:[a-z_]+))|marrowbook::[a-z_]+/);
  const first = plain.match(/[A-Za-z_][A-Za-z0-9_]*(?=::)/)?.[0] ?? "?";
  if (ours && (first === "marrowbook" || /^(core|alloc|std)$/.test(first))) return first === "marrowbook" ? ours[0] : `${first} for ours`;
  if (ours) return `${first} for ours`;
  return first;
}

const pad = (n, width = 9) => String(Math.round(n)).padStart(width);
function table(title, list, of, whole) {
  console.log(`\n${title}\n${"raw".padStart(9)}${"share".padStart(9)}${"alone".padStart(9)}  n`);
  const groups = new Map();
  for (const one of list) {
    const key = of(one);
    const group = groups.get(key) ?? { raw: 0, n: 0, parts: [] };
    group.raw += one.size; group.n++; group.parts.push(bytes.subarray(one.start, one.end));
    groups.set(key, group);
  }
  const sorted = [...groups].sort((a, b) => b[1].raw - a[1].raw).slice(0, Number(rows));
  for (const [key, { raw, n, parts }] of sorted) {
    console.log(`${pad(raw)}${pad(raw * whole)}${pad(brotli(Buffer.concat(parts)))}  ${n}  ${key.slice(0, 150)}`);
  }
}

console.log(`${pad(bytes.length)} ${pad(brotli(bytes))} brotli  the file`);
let ratio = 0;
for (const s of sections) {
  const body = bytes.subarray(s.from, s.to);
  const small = s.name === "custom name" ? 0 : brotli(body);
  if (s.name === "code") ratio = small / body.length;
  console.log(`${pad(body.length)} ${pad(small)}  ${s.name}`);
}
const all = functions().filter((f) => f.name.includes(only));
table("by crate and room", all, (f) => groupOf(f.name), ratio);
table("by function", all, (f) => f.name.replace(/\[[0-9a-f]{8,}\]/g, ""), ratio);
