// Gathers what the form wrote on this phone into one text, without wasm and without changing anything.
// It knows no record format on purpose: whatever version wrote the records, this page can show them.
"use strict";

const PREFIX = "marrowbook.";
const DATABASE = "marrowbook";
const SPARE = "marrowbook.spare"; // the second copy, a cache: one piece under each address
// Whoever has the signing key can sign as this phone, so it never leaves by this way.
const SECRET = /secret|seed|key/i;
const INLINE_BYTES = 4096; // larger byte arrays are photos: offered one by one, named in the text
const LEFT_OUT = "(left out: signing key)";

const byId = (id) => document.getElementById(id);

// The page speaks and shines as the form did last (kept as JSON texts); English stands in the page itself.
const noted = (name) => { try { return JSON.parse(localStorage.getItem("marrowbook-" + name)); } catch { return null; } };
const WORDS = {
  en: {
    nothing: "Nothing of the form was found in this browser. If you use the form from the home screen, open this page from there.",
    found: "Pieces of record found: {n}. Photos: {m}.",
    journal: "Answers and notes", chain: "Chain of the journal", photos: "Photos", settings: "Settings", small: "Waiting to be written, half typed", copy_kept: "Second copy",
    save_photo: "Save", kept: "The browser has promised to keep the records until someone deletes them.",
    not_kept: "The browser has not promised to keep the records. It may delete them when the phone is full or the form is not used for a while. Hand over soon.",
    used: "Used here: {n} kB of about {m} MB that the browser allows.",
    clearing: "Clearing the browser's site data, or removing the form from the home screen of an iPhone, deletes the records.",
    shared: "Shared. Ask the office whether it has arrived.", not_shared: "Sharing did not work here. Use another button.",
    saved: "Look for {n} among the downloads of this phone.",
    copied: "Copied. Paste it into a message to the office.",
    by_hand: "The browser did not allow copying. The text is selected below: copy it by hand.",
    refused: "The browser refused to show a part of the records: {n}",
    failed: "Reading the records failed: {n}. Nothing was changed. Close other tabs of the form and open this page again.",
  },
  fr: {
    head: "Les données brutes",
    what: "Cette page fonctionne même si le formulaire ne fonctionne pas. Elle réunit en un fichier texte tout ce que le formulaire a écrit sur ce téléphone. Elle ne change et n'efface rien.",
    looking: "Recherche des données …", share: "Partager le fichier", save: "Enregistrer le fichier", copy: "Copier le texte",
    send: "Envoyez le fichier à votre bureau, qui peut y lire chaque réponse. La clé de signature du téléphone n'y est pas : ce fichier n'est pas un envoi signé.",
    photos: "Photos", none: "Aucune.", here: "Ce qui est sur ce téléphone", safe: "Est-ce en sûreté ici?", text: "Les données en texte", back: "Retour au formulaire",
    nothing: "Rien du formulaire n'a été trouvé dans ce navigateur. Si vous ouvrez le formulaire depuis l'écran d'accueil, ouvrez cette page de là.",
    found: "Éléments trouvés : {n}. Photos : {m}.",
    journal: "Réponses et notes", chain: "Chaîne du journal", settings: "Réglages", small: "En attente d'écriture, à moitié tapé", copy_kept: "Deuxième copie",
    save_photo: "Enregistrer", kept: "Le navigateur a promis de garder les données jusqu'à ce que quelqu'un les efface.",
    not_kept: "Le navigateur n'a pas promis de garder les données. Il peut les effacer si le téléphone est plein ou si le formulaire ne sert pas pendant un temps. Remettez-les bientôt.",
    used: "Occupé ici : {n} ko sur environ {m} Mo que le navigateur permet.",
    clearing: "Effacer les données du site, ou ôter le formulaire de l'écran d'accueil d'un iPhone, efface les données.",
    shared: "Partagé. Demandez au bureau si c'est arrivé.", not_shared: "Le partage n'a pas marché ici. Prenez un autre bouton.",
    saved: "Cherchez {n} dans les téléchargements de ce téléphone.",
    copied: "Copié. Collez le texte dans un message au bureau.",
    by_hand: "Le navigateur n'a pas permis de copier. Le texte est sélectionné plus bas : copiez-le à la main.",
    refused: "Le navigateur a refusé de montrer une partie des données : {n}",
    failed: "La lecture des données a échoué : {n}. Rien n'a changé. Fermez les autres onglets du formulaire et rouvrez cette page.",
  },
  es: {
    head: "Guardar los registros sin procesar",
    what: "Esta página funciona aunque el formulario no funcione. Reúne en un archivo de texto todo lo que el formulario escribió en este teléfono. No cambia ni borra nada.",
    looking: "Buscando registros …", share: "Compartir el archivo", save: "Guardar el archivo", copy: "Copiar como texto",
    send: "Enviar el archivo a la oficina, que puede leer en él cada respuesta. La clave de firma del teléfono no va incluida: este archivo no es un envío firmado.",
    photos: "Fotos", none: "Ninguna.", here: "Lo que hay en este teléfono", safe: "¿Qué tan seguro está aquí?", text: "Los registros como texto", back: "Volver al formulario",
    nothing: "No se encontró nada del formulario en este navegador. Si el formulario se abre desde la pantalla de inicio, abrir esta página desde ahí.",
    found: "Elementos encontrados: {n}. Fotos: {m}.",
    journal: "Respuestas y notas", chain: "Cadena del diario", settings: "Ajustes", small: "Por escribir, a medio teclear", copy_kept: "Segunda copia",
    save_photo: "Guardar", kept: "El navegador prometió conservar los registros hasta que alguien los borre.",
    not_kept: "El navegador no prometió conservar los registros. Puede borrarlos si el teléfono se llena o el formulario no se usa por un tiempo. Entregarlos pronto.",
    used: "Ocupado aquí: {n} kB de unos {m} MB que el navegador permite.",
    clearing: "Borrar los datos del sitio, o quitar el formulario de la pantalla de inicio de un iPhone, borra los registros.",
    shared: "Compartido. Preguntar a la oficina si llegó.", not_shared: "Aquí no se pudo compartir. Usar otro botón.",
    saved: "Buscar {n} entre las descargas de este teléfono.",
    copied: "Copiado. Pegarlo en un mensaje a la oficina.",
    by_hand: "El navegador no permitió copiar. El texto está seleccionado abajo: copiarlo a mano.",
    refused: "El navegador no dejó ver una parte de los registros: {n}",
    failed: "No se pudieron leer los registros: {n}. Nada cambió. Cerrar las otras pestañas del formulario y abrir esta página otra vez.",
  },
};
const STORES = { entries: "journal", heads: "chain", photos: "photos", settings: "settings", [SPARE]: "copy_kept" };
const root = document.documentElement;
const language = WORDS[noted("language")] ? noted("language") : "en";
root.lang = language;
root.dataset.light = noted("light") ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dusk" : "day");
// French sets a space before a colon.
const COLON = language === "fr" ? "\u00a0: " : ": ";
const say = (id, n, m) => WORDS[language][id].replace("{n}", n).replace("{m}", m);
for (const part of document.querySelectorAll("[data-say]")) {
  const words = WORDS[language][part.dataset.say];
  if (words) part.textContent = words;
}

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
    problems.push(say("refused", error));
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
    problems.push(say("refused", error));
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
      problems.push(say("refused", store + COLON + error));
    }
  }
  database.close();
  return found;
}

// A browser that threw the record store away may still hold this one. Photos that were found already are not offered twice.
async function readSpare(problems, photos) {
  const found = [];
  try {
    if (!globalThis.caches || !(await caches.has(SPARE))) return found;
    const cache = await caches.open(SPARE);
    for (const request of await cache.keys()) {
      const key = new URL(request.url).pathname.split("/").pop();
      const bytes = new Uint8Array(await (await cache.match(request)).arrayBuffer());
      const again = photos.some((photo) => photo.bytes.length === bytes.length && photo.bytes.every((byte, at) => byte === bytes[at]));
      if (SECRET.test(key)) found.push({ key, value: LEFT_OUT });
      else if (key.startsWith("photo.") && again) found.push({ key, bytes: bytes.length });
      else found.push({ key, value: key.startsWith("photo.") ? await printable(bytes, key, photos) : new TextDecoder().decode(bytes) });
    }
  } catch (error) {
    problems.push(say("refused", SPARE + COLON + error));
  }
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
    link.textContent = say("save_photo") + " " + link.download + " (" + Math.ceil(photo.bytes.length / 1000) + " kB)";
    line("photos", "").append(link);
  }
}

async function tellFacts() {
  const storage = navigator.storage;
  // A browser that does not say how long it keeps records has promised nothing.
  const kept = storage && storage.persisted && await storage.persisted();
  line("facts", say(kept ? "kept" : "not_kept"));
  if (storage && storage.estimate) {
    const { usage, quota } = await storage.estimate();
    line("facts", say("used", Math.ceil((usage || 0) / 1e3), Math.floor((quota || 0) / 1e6)));
  }
  line("facts", say("clearing"));
}

function offerWays(text, name) {
  const file = new File([text], name, { type: "text/plain" });
  const done = (words) => { byId("done").textContent = words; };
  if (navigator.canShare && navigator.canShare({ files: [file] })) {
    byId("share").hidden = false;
    byId("share").addEventListener("click", async () => {
      try { await navigator.share({ files: [file], title: name }); done(say("shared")); }
      catch (error) { if (error.name !== "AbortError") done(say("not_shared")); }
    });
  }
  byId("download").hidden = false;
  byId("download").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = name;
    link.click();
    done(say("saved", name));
  });
  byId("copy").hidden = false;
  byId("copy").addEventListener("click", async () => {
    try { await navigator.clipboard.writeText(text); done(say("copied")); }
    catch {
      byId("text").focus();
      byId("text").select();
      done(say("by_hand"));
    }
  });
}

async function gather() {
  const problems = [];
  const photos = [];
  const small = readLocal(problems);
  const stores = await readDatabase(problems, photos);
  const copy = await readSpare(problems, photos);
  if (copy.length > 0) stores[SPARE] = copy;
  const made = new Date().toISOString();
  const text = JSON.stringify({ what: "raw records of a phone, unsigned", made, page: location.href, browser: navigator.userAgent, problems, small_store: small, record_store: stores }, null, 1);
  const rows = Object.values(stores).reduce((sum, list) => sum + list.length, 0);
  const keys = Object.keys(small).length;

  byId("found").textContent = rows + keys === 0 ? say("nothing") : say("found", rows + keys, photos.length);
  // A part of another version stands under its own name.
  for (const [store, list] of Object.entries(stores)) {
    if (list.length > 0 && !SECRET.test(store)) line("stores", (STORES[store] ? say(STORES[store]) : store) + COLON + list.length);
  }
  if (keys > 0) line("stores", say("small") + COLON + keys);
  for (const problem of problems) line("stores", problem);
  byId("text").value = text;
  offerPhotos(photos);
  offerWays(text, "marrowbook-raw-" + made.slice(0, 19).replace(/[:T]/g, "-") + ".txt");
  await tellFacts();
}

gather().catch((error) => {
  byId("found").textContent = say("failed", error);
});
