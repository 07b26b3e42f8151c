// What a phone holds, taken out of a browser as it lies there and put into another: so that the form of today is tried
// on journals that earlier forms wrote. The files are in tests/browser/released/; a key that signs nothing else is in them.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./phone.mjs";

export const FOLDER = join(ROOT, "tests/browser/released");

/** { name, version, stores: { store: [[key, value]] }, small } of each earlier form, oldest first. */
export function released() {
  return readdirSync(FOLDER).filter((name) => name.endsWith(".json")).sort().map((name) => ({ name, ...JSON.parse(readFileSync(join(FOLDER, name), "utf8")) }));
}

/** Everything of the form in this browser. Photos are left out: none is taken in these visits. */
export function takeOut(page) {
  return page.evaluate(() => new Promise((done, failed) => {
    const ask = indexedDB.open("marrowbook");
    ask.onerror = () => failed(ask.error);
    ask.onsuccess = () => {
      const database = ask.result;
      const names = [...database.objectStoreNames].filter((name) => name !== "photos");
      const out = { version: database.version, stores: {}, small: {} };
      const transaction = database.transaction(names);
      for (const name of names) {
        const rows = (out.stores[name] = []);
        transaction.objectStore(name).openCursor().onsuccess = ({ target: { result: cursor } }) => {
          if (!cursor) return;
          if (typeof cursor.value !== "string") failed(new Error(`${name} holds something that is no text`));
          rows.push([cursor.key, cursor.value]);
          cursor.continue();
        };
      }
      transaction.oncomplete = () => {
        database.close();
        for (const key of Object.keys(localStorage).filter((one) => /^marrowbook[.-]/.test(one))) out.small[key] = localStorage[key];
        done(out);
      };
    };
  }));
}

/** Makes the stores as that form made them, from a page of this address where the form does not run. */
export function putIn(page, { version, stores, small }) {
  return page.evaluate(({ version, stores, small }) => new Promise((done, failed) => {
    for (const [key, value] of Object.entries(small)) localStorage[key] = value;
    const ask = indexedDB.open("marrowbook", version);
    ask.onerror = () => failed(ask.error);
    ask.onupgradeneeded = () => {
      // Keys lie beside the values; seeds are numbered as they come.
      for (const name of [...Object.keys(stores), "photos"]) ask.result.createObjectStore(name, { autoIncrement: name === "seeds" });
    };
    ask.onsuccess = () => {
      const transaction = ask.result.transaction(Object.keys(stores), "readwrite");
      for (const [name, rows] of Object.entries(stores)) for (const [key, value] of rows) transaction.objectStore(name).put(value, key);
      transaction.oncomplete = () => { ask.result.close(); done(); };
      transaction.onabort = () => failed(transaction.error);
    };
  }), { version, stores, small });
}
