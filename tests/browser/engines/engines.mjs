// How each engine is started, killed and started again on the same store: Chromium by chromedriver, Firefox by
// geckodriver, WebKit by WebKitGTK's driver under Xvfb.
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { SCREEN } from "../phone.mjs";
import { Page, Session } from "./webdriver.mjs";

const CHROMIUM_ARGS = ["--headless=new", "--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update",
  "--disable-sync", "--no-first-run", `--window-size=${SCREEN.width},${SCREEN.height}`];
const ENV = { TZ: "America/Toronto", LANG: "en_CA.UTF-8" };

export const ENGINES = {
  chromium: (profile) => ({
    program: process.env.CHROMEDRIVER ?? "/usr/bin/chromedriver",
    args: (port) => [`--port=${port}`],
    env: ENV,
    capabilities: {
      browserName: "chrome",
      "goog:chromeOptions": { binary: process.env.MARROWBOOK_CHROMIUM ?? "/usr/bin/chromium", args: [...CHROMIUM_ARGS, `--user-data-dir=${profile}`] },
    },
  }),
  firefox: (profile) => ({
    program: process.env.GECKODRIVER ?? "geckodriver",
    // Its own port for the browser, so that one that is still dying does not stand in the way of the next.
    args: (port) => ["--port", String(port), "--log", "fatal"],
    env: { ...ENV, MOZ_HEADLESS_WIDTH: String(SCREEN.width), MOZ_HEADLESS_HEIGHT: String(SCREEN.height) },
    capabilities: {
      browserName: "firefox",
      "moz:firefoxOptions": {
        binary: process.env.MARROWBOOK_FIREFOX ?? "firefox-esr",
        args: ["-headless", "-profile", profile],
        // Nothing of the network but the page; after a kill no question whether to restore the windows.
        prefs: {
          "browser.sessionstore.resume_from_crash": false, "toolkit.startup.max_resumed_crashes": -1, "app.normandy.enabled": false,
          "browser.safebrowsing.downloads.enabled": false, "network.captive-portal-service.enabled": false, "browser.shell.checkDefaultBrowser": false,
        },
      },
    },
  }),
  webkit: (profile) => ({
    program: process.env.WEBKITDRIVER ?? "WebKitWebDriver",
    args: (port) => ["-p", String(port)],
    env: {
      ...ENV, DISPLAY: process.env.DISPLAY, WEBKIT_DISABLE_COMPOSITING_MODE: "1", WEBKIT_DISABLE_DMABUF_RENDERER: "1", LIBGL_ALWAYS_SOFTWARE: "1", NO_AT_BRIDGE: "1",
      // As root WebKit's own sandbox cannot be set up.
      ...(process.getuid() === 0 ? { WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1" } : {}),
    },
    capabilities: {
      "webkitgtk:browserOptions": { binary: "/usr/bin/python3", args: [fileURLToPath(new URL("webkit.py", import.meta.url)), profile] },
    },
  }),
};

/** A phone with one of the engines, with what onTheWay() and the walks of form.mjs ask of a phone. */
export class EnginePhone {
  constructor(engine) {
    this.engine = engine;
    this.profile = mkdtempSync(join(tmpdir(), `marrowbook-${engine}-`));
  }

  async start() {
    mkdirSync(this.profile, { recursive: true });
    this.session = await Session.begin(ENGINES[this.engine](this.profile));
    this.page = new Page(this.session);
    if (this.engine !== "webkit") await this.session.do("POST", "/window/rect", SCREEN).catch(() => {});
    return this;
  }

  async open(url) {
    await this.page.goto(url);
    await this.page.waitForFunction(() => document.getElementById("opening")?.hidden === true && document.getElementById("crashed")?.hidden === true);
  }

  async offlineReady() {
    await this.page.waitForFunction(() => ["ready", "failed", "unsupported"].includes(document.documentElement.dataset.offline));
    const state = await this.page.evaluate(() => document.documentElement.dataset.offline);
    if (state !== "ready") throw new Error(`the form is not ready for use without signal: ${state}`);
  }

  /** Every process of the browser is killed at once, then the same store is opened again. */
  async dieAndStartAgain() {
    const killed = this.session.kill();
    await new Promise((done) => setTimeout(done, 500));
    for (const left of ["lock", ".parentlock", "SingletonLock", "SingletonCookie", "SingletonSocket"]) rmSync(join(this.profile, left), { force: true });
    await this.start();
    return killed;
  }

  async end() {
    await this.session?.end();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** A display for WebKit, which has no mode without one. Resolves to what ends it. */
export function display(engine) {
  if (engine !== "webkit") return Promise.resolve(() => {});
  return new Promise((done, failed) => {
    const server = spawn("Xvfb", ["-displayfd", "1", "-screen", "0", "1024x1200x24", "-nolisten", "tcp"], { stdio: ["ignore", "pipe", "ignore"] });
    server.once("error", failed);
    server.stdout.once("data", (number) => {
      process.env.DISPLAY = `:${String(number).trim()}`;
      done(() => server.kill());
    });
  });
}
