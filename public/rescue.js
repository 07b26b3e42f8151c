// Gathers what the form wrote on this phone into one text, without wasm and without changing anything.
// It knows no record format on purpose: whatever version wrote the records, this page can show them.
"use strict";

const PREFIX = "marrowbook.";
const DATABASE = "marrowbook";
// Whoever has the signing key can sign as this phone, so it never leaves by this way.
const SECRET = /secret|seed|key/i;
const INLINE_BYTES = 4096; // larger byte arrays are photos: offered one by one, named in the text
const LEFT_OUT = "(left out: signing key)";

const byId = (id) => document.getElementById(id);

function base64(bytes) {
  let binary = "";
  for (let at = 0; at < bytes.length; at += 32768) binary += String.fromCharCode(...bytes.subarray(at, at + 32768));
  return btoa(binary);
}

async function sha256(bytes) {
  if (!crypto.subtle) return null;
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function asBytes(value) {
  if (value instanceof Uint8Array) return value;
  if (value instanceof ArrayBuffer) return new Uint8Array(value);
  if (ArrayBuffer.isView(value)) return new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
  return null;
}

// A copy of `value` that JSON can hold; photos are put aside in `photos` under `name`.
async function printable(value, name, photos) {
  if (value instanceof Blob) return printable(new Uint8Array(await value.arrayBuffer()), name, photos);
  const bytes = asBytes(value);
  if (bytes && bytes.length <= INLINE_BYTES) return { bytes_base64: base64(bytes) };
  if (bytes) {
    photos.push({ name, bytes });
    return { photo: name, bytes: bytes.length, sha256: await sha256(bytes) };
  }
  if (Array.isArray(value)) return Promise.all(value.map((item, index) => printable(item, name + "-" + index, photos)));
  if (value instanceof Map) return printable(Object.fromEntries(value), name, photos);
  if (typeof value === "bigint") return value.toString();
  if (value && typeof value === "object" && !(value instanceof Date)) {
    const copy = {};
    for (const [key, inner] of Object.entries(value)) {
      // Words such as "key" also name answers; only a member that holds bytes or a long text is a secret.
      copy[key] = /^(secret|seed|secret_key|signing_key)$/i.test(key) ? LEFT_OUT : await printable(inner, name + "-" + key, photos);
    }
    return copy;
  }
  return value;
}

function readLocal(problems) {
  const found = {};
  try {
    for (let index = 0; index < localStorage.length; index += 1) {
      const key = localStorage.key(index);
      if (key.startsWith(PREFIX)) found[key] = SECRET.test(key) ? LEFT_OUT : localStorage.getItem(key);
    }
  } catch (error) {
    problems.push("The browser refused its small store: " + error);
  }
  return found;
}

function openWithoutMaking() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE);
    let fresh = false;
    // Asking for a database that is not there would make an empty one, and the form would then find
    // one without its stores. Taking the upgrade back leaves nothing behind.
    request.onupgradeneeded = () => { fresh = true; request.transaction.abort(); };
    request.onsuccess = () => resolve(request.result);
    request.onerror = (event) => { event.preventDefault(); if (fresh) resolve(null); else reject(request.error); };
    request.onblocked = () => reject(new Error("another tab holds the records; close it and open this page again"));
  });
}

function readStore(database, name) {
  return new Promise((resolve, reject) => {
    const rows = [];
    const request = database.transaction(name, "readonly").objectStore(name).openCursor();
    request.onsuccess = () => {
      const cursor = request.result;
      if (!cursor) { resolve(rows); return; }
      rows.push({ key: cursor.key, value: cursor.value });
      cursor.continue();
    };
    request.onerror = () => reject(request.error);
  });
}

async function readDatabase(problems, photos) {
  const found = {};
  let database = null;
  try {
    database = await openWithoutMaking();
  } catch (error) {
    problems.push("The browser refused its record store: " + error);
  }
  if (!database) return found;
  for (const store of Array.from(database.objectStoreNames)) {
    try {
      const rows = await readStore(database, store);
      if (SECRET.test(store)) { found[store] = rows.map((row) => ({ key: row.key, value: LEFT_OUT })); continue; }
      found[store] = [];
      for (const row of rows) {
        const secret = typeof row.key === "string" && SECRET.test(row.key);
        const value = secret ? LEFT_OUT : await printable(row.value, store + "-" + String(row.key), photos);
        found[store].push({ key: await printable(row.key, store, photos), value });
      }
    } catch (error) {
      problems.push("The part \"" + store + "\" could not be read: " + error);
    }
  }
  database.close();
  return found;
}

function line(list, text) {
  const item = document.createElement("li");
  item.textContent = text;
  byId(list).append(item);
  return item;
}

function offerPhotos(photos) {
  if (photos.length === 0) return;
  byId("photos").textContent = "";
  for (const photo of photos) {
    const jpeg = photo.bytes[0] === 0xff && photo.bytes[1] === 0xd8;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([photo.bytes], { type: jpeg ? "image/jpeg" : "application/octet-stream" }));
    link.download = photo.name.replace(/[^A-Za-z0-9._-]/g, "_") + (jpeg ? ".jpg" : ".bin");
    link.textContent = "Save " + link.download + " (" + Math.ceil(photo.bytes.length / 1024) + " kB)";
    line("photos", "").append(link);
  }
}

async function tellFacts() {
  const storage = navigator.storage;
  if (storage && storage.persisted) {
    line("facts", (await storage.persisted())
      ? "The browser has promised to keep the records until someone deletes them."
      : "The browser has not promised to keep the records. It may delete them when the phone is full or the form is not used for a while. Hand over soon.");
  } else {
    line("facts", "This browser does not say how long it keeps records. Hand over soon.");
  }
  if (storage && storage.estimate) {
    const { usage, quota } = await storage.estimate();
    line("facts", "Used here: " + Math.ceil((usage || 0) / 1e3) + " kB of about " + Math.floor((quota || 0) / 1e6) + " MB that the browser allows.");
  }
  line("facts", "Clearing the browser's site data, or removing the form from the home screen of an iPhone, deletes the records.");
}

function offerWays(text, name) {
  const file = new File([text], name, { type: "text/plain" });
  const done = (words) => { byId("done").textContent = words; };
  if (navigator.canShare && navigator.canShare({ files: [file] })) {
    byId("share").hidden = false;
    byId("share").addEventListener("click", async () => {
      try { await navigator.share({ files: [file], title: name }); done("Shared. Ask the office whether it has arrived."); }
      catch (error) { if (error.name !== "AbortError") done("Sharing did not work here. Use another button."); }
    });
  }
  byId("download").hidden = false;
  byId("download").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = name;
    link.click();
    done("Look for " + name + " among the downloads of this phone.");
  });
  byId("copy").hidden = false;
  byId("copy").addEventListener("click", async () => {
    try { await navigator.clipboard.writeText(text); done("Copied. Paste it into a message to the office."); }
    catch {
      byId("text").focus();
      byId("text").select();
      done("The browser did not allow copying. The text is selected below: copy it by hand.");
    }
  });
}

async function gather() {
  const problems = [];
  const photos = [];
  const small = readLocal(problems);
  const stores = await readDatabase(problems, photos);
  const made = new Date().toISOString();
  const text = JSON.stringify({ what: "raw records of a phone, unsigned", made, page: location.href, browser: navigator.userAgent, problems, small_store: small, record_store: stores }, null, 1);
  const rows = Object.values(stores).reduce((sum, list) => sum + list.length, 0);
  const keys = Object.keys(small).length;

  byId("found").textContent = rows + keys === 0
    ? "Nothing of the form was found in this browser. If you use the form from the home screen, open this page from there."
    : "Found " + (rows + keys) + " pieces of record and " + photos.length + " photos.";
  for (const [store, list] of Object.entries(stores)) line("stores", store + ": " + list.length);
  for (const key of Object.keys(small)) line("stores", key);
  for (const problem of problems) line("stores", problem);
  byId("text").value = text;
  offerPhotos(photos);
  offerWays(text, "marrowbook-raw-" + made.slice(0, 19).replace(/[:T]/g, "-") + ".txt");
  await tellFacts();
}

gather().catch((error) => {
  byId("found").textContent = "Reading the records failed: " + error + ". Nothing was changed. Close other tabs of the form and open this page again.";
});
