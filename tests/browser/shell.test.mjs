// The form as a thing that is opened once at home and then works without signal.
import assert from "node:assert/strict";
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { DIST, ROOT, withPhone, programCaches } from "./phone.mjs";
import { copyOfSite, publishChange } from "./publish.mjs";

for (const base of ["/", "/a/b/"]) {
  test(`under ${base}: loaded once, it opens with the server gone`, () => withPhone({ base }, async (hand, place) => {
    await hand.open(place.url);
    await hand.offlineReady();
    await place.stop();
    await hand.page.reload();
    await hand.formIsUp();
    // Started from the home screen, by the full name, and with a query that a mail program added.
    for (const address of ["", "index.html", "?from=mail", "#start"]) {
      await hand.page.goto("about:blank");
      await hand.open(place.url + address);
    }
    assert.deepEqual(hand.violations, []);
    assert.deepEqual(hand.faults, []);
  }));
}

test("a browser process killed after the load still opens the form without the server", () => withPhone({}, async (hand, place) => {
  await hand.open(place.url);
  await hand.offlineReady();
  await place.stop();
  await hand.dieAndStartAgain();
  await hand.open(place.url);
}));

test("nothing of the office's page is loaded or kept by a phone", () => withPhone({}, async (hand, place) => {
  await hand.open(place.url);
  await hand.offlineReady();
  assert.deepEqual(place.asked.filter((path) => path.includes("office")), []);
  const kept = await hand.page.evaluate(async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith("marrowbook "));
    const lists = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).map((request) => request.url)));
    return lists.flat();
  });
  assert.ok(kept.some((url) => url.endsWith("_bg.wasm")) && kept.some((url) => url.endsWith("/rescue.html")));
  assert.deepEqual(kept.filter((url) => url.includes("office")), []);
  // And every published file of the form is kept, so that no part can be missing in the snow.
  const published = readdirSync(DIST, { recursive: true, withFileTypes: true })
    .filter((item) => item.isFile()).map((item) => join(item.parentPath ?? item.path, item.name).slice(DIST.length + 1))
    .filter((name) => !name.startsWith("office/") && !name.startsWith("words/") && name !== "sw.js").sort();
  assert.deepEqual(kept.map((url) => url.slice(place.url.length)).sort(), published);
}));

test("the office's page opens, under a folder too, and breaks no policy", () => withPhone({ base: "/a/b/" }, async (hand, place) => {
  await hand.open(place.url);
  await hand.offlineReady();
  await hand.page.goto(place.url + "office/");
  await hand.formIsUp();
  assert.equal(await hand.page.evaluate(() => document.title), "Marrowbook office");
  assert.deepEqual(hand.violations, []);
  assert.deepEqual(hand.faults, []);
}));

test("the policy is there and blocks a script that is not ours", () => withPhone({}, async (hand, place) => {
  await hand.open(place.url);
  const ran = await hand.page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "window.slippedIn = true";
    document.head.append(script);
    return window.slippedIn === true;
  });
  assert.equal(ran, false);
  await hand.page.waitForTimeout(100);
  assert.ok(hand.violations.length > 0, "the browser said nothing");
}));

test("a new version waits until the user asks for it", async () => {
  const folder = copyOfSite();
  try {
    await withPhone({ root: folder }, async (hand, place) => {
      await hand.open(place.url);
      await hand.offlineReady();
      const shell = () => hand.page.evaluate(() => ({ ...document.documentElement.dataset }));
      await hand.page.waitForFunction(() => document.documentElement.dataset.build);
      const { version, next } = publishChange(folder, "index.html", "<title>Marrowbook</title>", "<title>Marrowbook, newer</title>");
      await hand.page.reload();
      await hand.page.waitForFunction(() => document.documentElement.dataset.update === "ready");
      await hand.page.reload();
      await hand.formIsUp();
      assert.equal(await hand.page.title(), "Marrowbook", "the old version still runs after reloads");
      assert.equal((await shell()).build, version);
      await hand.page.waitForFunction(() => document.documentElement.dataset.update === "ready");
      await Promise.all([
        hand.page.waitForEvent("load"),
        hand.page.evaluate(() => { dispatchEvent(new Event("marrowbook-update-now")); }),
      ]);
      await hand.formIsUp();
      assert.equal(await hand.page.title(), "Marrowbook, newer");
      await hand.page.waitForFunction((build) => document.documentElement.dataset.build === build, next);
      const names = await programCaches(hand.page);
      assert.deepEqual(names, [`marrowbook / ${next}`], "only the new version's files are kept");
      await place.stop();
      await hand.page.reload();
      await hand.formIsUp();
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("a half-published new version is not taken, and the old one goes on", async () => {
  const folder = copyOfSite();
  try {
    await withPhone({ root: folder }, async (hand, place) => {
      await hand.open(place.url);
      await hand.offlineReady();
      publishChange(folder, "index.html", "<title>Marrowbook</title>", "<title>Marrowbook, newer</title>");
      // The file that the new worker names is not there with these bytes: a log-in page answers instead.
      writeFileSync(join(folder, "index.html"), "<title>Log in to the network</title>");
      const outcome = await hand.page.evaluate(async () => {
        const registration = await navigator.serviceWorker.getRegistration();
        const found = new Promise((resolve) => registration.addEventListener("updatefound", () => {
          const worker = registration.installing;
          worker.addEventListener("statechange", () => { if (worker.state !== "installing") resolve(worker.state); });
        }));
        await registration.update().catch(() => {});
        return found;
      });
      assert.equal(outcome, "redundant");
      await hand.page.reload();
      await hand.formIsUp();
      assert.equal(await hand.page.title(), "Marrowbook");
      assert.equal((await programCaches(hand.page)).length, 1);
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("a first load that was cut off says so, keeps nothing half, and is tried again with the network", async () => {
  const folder = copyOfSite();
  const part = readFileSync(join(folder, "rescue.js"));
  try {
    rmSync(join(folder, "rescue.js"));
    await withPhone({ root: folder }, async (hand, place) => {
      await hand.open(place.url);
      await hand.page.waitForFunction(() => document.documentElement.dataset.offline === "failed");
      assert.deepEqual(await programCaches(hand.page), []);
      writeFileSync(join(folder, "rescue.js"), part);
      await hand.page.evaluate(() => { dispatchEvent(new Event("online")); });
      await hand.page.waitForFunction(() => document.documentElement.dataset.offline === "ready");
      await place.stop();
      await hand.page.reload();
      await hand.formIsUp();
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("two copies of the form under one address leave each other's files alone", async () => {
  const root = mkdtempSync(join(tmpdir(), "marrowbook-two-"));
  cpSync(DIST, join(root, "one"), { recursive: true });
  cpSync(DIST, join(root, "one/two"), { recursive: true });
  try {
    await withPhone({ root }, async (hand, both) => {
      await hand.open(both.url + "one/");
      await hand.offlineReady();
      await hand.open(both.url + "one/two/");
      await hand.offlineReady();
      publishChange(join(root, "one/two"), "index.html", "<title>Marrowbook</title>", "<title>Marrowbook, newer</title>");
      await hand.page.reload();
      await hand.page.waitForFunction(() => document.documentElement.dataset.update === "ready");
      await Promise.all([hand.page.waitForEvent("load"), hand.page.evaluate(() => { dispatchEvent(new Event("marrowbook-update-now")); })]);
      await hand.formIsUp();
      await both.stop();
      await hand.open(both.url + "one/");
      assert.equal(await hand.page.title(), "Marrowbook");
      await hand.open(both.url + "one/two/");
      assert.equal(await hand.page.title(), "Marrowbook, newer");
    });
  } finally { rmSync(root, { recursive: true, force: true }); }
});

test("the kill switch takes the program off the phone and leaves the records", async () => {
  const folder = copyOfSite();
  try {
    await withPhone({ root: folder }, async (hand, place) => {
      await hand.open(place.url);
      await hand.offlineReady();
      await hand.page.evaluate(() => localStorage.setItem("marrowbook.test", "kept"));
      cpSync(join(ROOT, "public/sw.kill.js"), join(folder, "sw.js"));
      await hand.page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration()).update(); });
      await hand.page.waitForFunction(async () => (await caches.keys()).every((name) => !name.startsWith("marrowbook ")) && !(await navigator.serviceWorker.getRegistration()));
      assert.equal(await hand.page.evaluate(() => localStorage.getItem("marrowbook.test")), "kept");
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("it can be put on the home screen: manifest and pictures are whole", () => withPhone({ base: "/a/b/" }, async (hand, place) => {
  await hand.open(place.url);
  const session = await hand.context.newCDPSession(hand.page);
  const { url, errors } = await session.send("Page.getAppManifest");
  assert.equal(url, place.url + "manifest.webmanifest");
  assert.deepEqual(errors, []);
  const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
  // Chromium's own judgement, but for its remark that a window without profile cannot install.
  assert.deepEqual(installabilityErrors.filter((error) => error.errorId !== "in-incognito"), []);
}));

test("the page checker finds nothing on the opened form", () => withPhone({}, async (hand, place) => {
  await hand.open(place.url);
  assert.deepEqual(await hand.axe(), []);
}));
