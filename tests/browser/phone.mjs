// A phone in the hands of a test: Chromium at 412 x 915 with touch and a profile of its own that
// outlives the browser, so that "the phone died" and "opened again" can be played for real.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { serve } from "../tools/serve.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
export const ROOT = resolve(here, "../..");
export const DIST = process.env.MARROWBOOK_DIST ?? join(ROOT, "dist");
export const OUT = join(ROOT, "tests/out");
const NPM = process.env.MARROWBOOK_NPM ?? join(process.env.HOME, ".cache/marrowbook/npm");
const require = createRequire(join(NPM, "package.json"));
const { chromium } = require("playwright-core");

export const FLAGS = [
  "--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update",
  "--disable-sync", "--no-first-run",
];
/** A phone of common size, in CSS pixels. */
export const SCREEN = { width: 412, height: 915 };

/** A browser for pages that are no phone's: what is printed. */
export function plainBrowser() {
  return chromium.launch({ executablePath: process.env.MARROWBOOK_CHROMIUM ?? "/usr/bin/chromium", headless: true, args: FLAGS });
}

/** Serves the built site (or `root`) under `base`; see tests/tools/serve.mjs. `seen` collects paths asked for. */
export async function site({ base = "/", root = DIST, also = {}, port = 0, compress = false } = {}) {
  const asked = [];
  const server = await serve({ root, base, also, port, compress, seen: (method, path) => asked.push(path) });
  return { ...server, asked };
}

/** Whether a process belongs to the browser on `profile`: it, or one of its helpers. */
function belongsTo(profile, pid) {
  try { return pid !== process.pid && readFileSync(`/proc/${pid}/cmdline`, "utf8").includes(profile); } catch { return false; }
}

function processesOf(profile) {
  return readdirSync("/proc").filter((name) => /^\d+$/.test(name)).map(Number).filter((pid) => belongsTo(profile, pid));
}

export class Phone {
  #options;
  constructor(options) {
    this.#options = options;
    this.profile = mkdtempSync(join(tmpdir(), "marrowbook-phone-"));
    /** Words of the browser about pages that did what the policy forbids, and faults in pages. */
    this.violations = [];
    this.faults = [];
  }

  /** Opens the browser on this phone's profile, for the first time or again. */
  async start() {
    for (const name of readdirSync(this.profile)) {
      if (name.startsWith("Singleton")) rmSync(join(this.profile, name), { force: true });
    }
    this.context = await chromium.launchPersistentContext(this.profile, {
      executablePath: process.env.MARROWBOOK_CHROMIUM ?? "/usr/bin/chromium",
      headless: true, args: FLAGS, viewport: SCREEN, screen: SCREEN, deviceScaleFactor: 2,
      hasTouch: true, isMobile: true, acceptDownloads: true, locale: "en-CA", timezoneId: "America/Toronto",
      ...this.#options,
    });
    this.context.setDefaultTimeout(15000);
    this.context.on("page", (page) => this.#listen(page));
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.#listen(this.page);
    return this;
  }

  #heard = new WeakSet();
  #listen(page) {
    if (this.#heard.has(page)) return;
    this.#heard.add(page);
    page.on("pageerror", (error) => this.faults.push(String(error)));
    page.on("console", (message) => {
      if (/Content.Security.Policy|Refused to/i.test(message.text())) this.violations.push(message.text());
    });
  }

  /** Opens `url` and waits until the form's wasm runs. */
  async open(url) {
    await this.page.goto(url);
    await this.formIsUp();
  }

  /** Waits until wasm has started and taken the opening line away. */
  async formIsUp() {
    await this.page.waitForFunction(() => document.getElementById("opening")?.hidden === true && document.getElementById("crashed")?.hidden === true);
  }

  /** Waits until the whole form is kept on the phone. */
  async offlineReady() {
    await this.page.waitForFunction(() => ["ready", "failed", "unsupported"].includes(document.documentElement.dataset.offline));
    const state = await this.page.evaluate(() => document.documentElement.dataset.offline);
    if (state !== "ready") throw new Error(`the form is not ready for use without signal: ${state}`);
  }

  /** Slows the processor of the current page, as cheap phones are: `factor` 4 is usual. */
  async slowDown(factor = 4) {
    const session = await this.context.newCDPSession(this.page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: factor });
  }

  /** Kills every process of the browser at once, without a chance to write anything. */
  kill() {
    if (processesOf(this.profile).length === 0) throw new Error("no browser process found to kill");
    this.killer()();
  }

  /** The same, with the search for the processes done beforehand, so that the kill itself takes no time. */
  killer() {
    const known = processesOf(this.profile);
    return () => {
      const kill = (pid) => { try { process.kill(pid, "SIGKILL"); } catch { /* gone already */ } };
      known.filter((pid) => belongsTo(this.profile, pid)).forEach(kill);
      processesOf(this.profile).forEach(kill);
      this.context = null;
    };
  }

  /** Crashes the page as a phone short of memory does: the browser lives on, and gives another page. */
  async crashPage() {
    const [page, faults] = [this.page, this.faults.length];
    const session = await this.context.newCDPSession(page);
    const crashed = page.waitForEvent("crash");
    session.send("Page.crash").catch(() => { /* it cannot answer any more */ });
    await crashed;
    this.page = await this.context.newPage();
    await page.close().catch(() => {});
    this.faults.length = faults;
  }

  /** `kill`, then the same profile again. */
  async dieAndStartAgain() {
    if (this.context && processesOf(this.profile).length > 0) this.kill();
    while (processesOf(this.profile).length > 0) execFileSync("sleep", ["0.05"]);
    return this.start();
  }

  /**
   * What the page checker finds on the screen as it stands: WCAG 2.2 A and AA and its best practices. With `strict`
   * also contrast as for AAA, which the form's own screens promise.
   */
  async axe({ strict = false } = {}) {
    const source = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
    // Evaluated by the browser's debugger, which the page's policy does not bind.
    await this.page.evaluate(source + "; undefined");
    const { violations } = await this.page.evaluate((contrast) => globalThis.axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice", ...(contrast ? ["wcag2aaa"] : [])],
      rules: { "color-contrast-enhanced": { enabled: contrast }, "identical-links-same-purpose": { enabled: false }, "meta-refresh-no-exceptions": { enabled: false } },
    }), strict);
    return violations.map((found) => `${found.id}: ${found.help}: ${found.nodes.map((node) => node.target.join(" ")).join(", ")}`);
  }

  /** A picture of the screen in tests/out (not kept in the repository). */
  async picture(name) {
    const path = join(OUT, `${name}.png`);
    mkdirSync(dirname(path), { recursive: true });
    await this.page.screenshot({ path });
    return path;
  }

  /** Closes the browser and forgets the phone. */
  async end() {
    await this.context?.close().catch(() => {});
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** Names of the caches that hold the program; the second copy of the records is another's. */
export const programCaches = (page) => page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith("marrowbook ")));

/** A new phone, switched on. `options` go to the browser (position, permissions, ...). */
export function phone(options = {}) {
  return new Phone(options).start();
}

/** Runs `act` with a phone and a site, and puts both away whatever happens. */
export async function withPhone(options, act) {
  const { base, root, also, ...browser } = options;
  const place = await site({ base, root, also });
  const hand = await phone(browser).catch(async (error) => { await place.stop(); throw error; });
  try { await act(hand, place); } finally { await hand.end(); await place.stop(); }
}
