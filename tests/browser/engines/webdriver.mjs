// A browser by the W3C's WebDriver protocol (https://www.w3.org/TR/webdriver2/), which Chromium, Firefox and WebKit all
// speak through drivers of their own. The page has those of playwright's names that form.mjs uses, so that one walk
// through the form serves every engine.
import { spawn } from "node:child_process";
import { createServer } from "node:net";
import { readFileSync, readdirSync } from "node:fs";

const ELEMENT = "element-6066-11e4-a52e-4f735466cecf"; // the protocol's own name for a reference to an element
const KEYS = { Tab: "\uE004", Enter: "\uE007" };
const sleep = (ms) => new Promise((done) => setTimeout(done, ms));

function freePort() {
  return new Promise((done, failed) => {
    const server = createServer().once("error", failed).listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });
}

/** All processes below `pid`, nearest first. */
export function below(pid) {
  const parents = new Map();
  for (const name of readdirSync("/proc").filter((one) => /^\d+$/.test(one))) {
    try {
      const parent = Number(readFileSync(`/proc/${name}/stat`, "utf8").replace(/^.*\) /, "").split(" ")[1]);
      parents.set(parent, [...(parents.get(parent) ?? []), Number(name)]);
    } catch { /* gone meanwhile */ }
  }
  const found = [];
  for (let next = parents.get(pid) ?? []; next.length > 0; next = next.flatMap((one) => parents.get(one) ?? [])) found.push(...next);
  return found;
}

/** A driver and one session of it. */
export class Session {
  /** Starts `program` with the arguments that `args(port)` gives, and asks it for a session. */
  static async begin({ program, args, env = {}, capabilities }) {
    const session = new Session();
    session.port = await freePort();
    session.driver = spawn(program, args(session.port), { env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe"] });
    session.said = "";
    for (const stream of [session.driver.stdout, session.driver.stderr]) stream.on("data", (text) => { session.said = (session.said + text).slice(-4000); });
    const failed = new Promise((_, reject) => {
      session.driver.once("error", reject);
      session.driver.once("exit", (code) => reject(new Error(`${program} ended (${code}): ${session.said}`)));
    });
    failed.catch(() => {});
    await Promise.race([failed, session.#answering()]);
    const { sessionId, capabilities: given } = await Promise.race([failed, session.ask("POST", "/session", { capabilities: { alwaysMatch: capabilities } })]);
    session.id = sessionId;
    session.browser = `${given.browserName} ${given.browserVersion}`;
    await session.do("POST", "/timeouts", { script: 60_000, pageLoad: 60_000 });
    return session;
  }

  async #answering() {
    for (let tries = 0; tries < 200; tries += 1) {
      const up = await fetch(`http://127.0.0.1:${this.port}/status`).then((answer) => answer.ok, () => false);
      if (up) return;
      await sleep(50);
    }
    throw new Error(`the driver does not answer: ${this.said}`);
  }

  async ask(method, path, body) {
    const answer = await fetch(`http://127.0.0.1:${this.port}${path}`, {
      method, ...(method === "POST" ? { body: JSON.stringify(body ?? {}), headers: { "content-type": "application/json" } } : {}),
    });
    const { value } = await answer.json();
    if (value?.error) throw Object.assign(new Error(`${value.error}: ${value.message}`), { code: value.error });
    return value;
  }

  do(method, path, body) { return this.ask(method, `/session/${this.id}${path}`, body); }

  /** Kills every process of the browser and its driver at once, as a phone dies. */
  kill() {
    const all = [...below(this.driver.pid), this.driver.pid];
    if (all.length < 2) throw new Error("no browser process found to kill");
    this.driver.removeAllListeners("exit");
    for (const pid of all) { try { process.kill(pid, "SIGKILL"); } catch { /* gone already */ } }
    return all.length - 1;
  }

  /** Ends the session in good order, and the driver. */
  async end() {
    this.driver.removeAllListeners("exit");
    await this.do("DELETE", "").catch(() => {});
    for (const pid of [...below(this.driver.pid), this.driver.pid]) { try { process.kill(pid, "SIGKILL"); } catch { /* gone already */ } }
  }
}

/** The page of a session. */
export class Page {
  constructor(session) {
    this.session = session;
    this.at = "about:blank";
    this.keyboard = { press: (key) => this.#keys([KEYS[key] ?? key]), type: (text) => this.#keys([...text]) };
  }

  #keys(keys) {
    const actions = keys.flatMap((value) => [{ type: "keyDown", value }, { type: "keyUp", value }]);
    return this.session.do("POST", "/actions", { actions: [{ type: "key", id: "keyboard", actions }] });
  }

  url() { return this.at; }
  async goto(url) {
    this.at = url;
    await this.session.do("POST", "/url", { url });
  }
  /** As a person reloads. The protocol's own refresh passes the service worker by in Firefox. */
  async reload() {
    // The mark is put on the page itself: scripts of the driver have globals of their own in Firefox.
    await this.evaluate(() => { document.documentElement.dataset.beforeReload = ""; setTimeout(() => location.reload(), 0); });
    await this.waitForFunction(() => document.documentElement.dataset.beforeReload === undefined && document.readyState === "complete");
  }
  title() { return this.session.do("GET", "/title"); }
  waitForTimeout(ms) { return sleep(ms); }

  /** Calls `fn` in the page, waits for what it promises, and gives that back. */
  async evaluate(fn, arg = null) {
    const script = `const [arg, done] = arguments; Promise.resolve().then(() => (${fn})(arg)).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
    const { value, error } = await this.session.do("POST", "/execute/async", { script, args: [arg] });
    if (error) throw new Error(error);
    return value;
  }

  async waitForFunction(fn, arg = null, { timeout = 60_000 } = {}) {
    const until = Date.now() + timeout;
    for (;;) {
      // A page that is just being loaded anew has no answer yet.
      const value = await this.evaluate(fn, arg).catch((error) => { if (Date.now() > until) throw error; return false; });
      if (value) return value;
      if (Date.now() > until) throw new Error(`waited ${timeout} ms for ${String(fn).replace(/\s+/g, " ").slice(0, 200)}`);
      await sleep(40);
    }
  }

  waitForSelector(selector, { timeout } = {}) {
    return this.waitForFunction((s) => [...document.querySelectorAll(s)].some((one) => one.getClientRects().length > 0), selector, { timeout });
  }

  inputValue(selector) { return this.evaluate((s) => document.querySelector(s).value, selector); }
  $$eval(selector, fn) { return this.evaluate(new Function("s", `return (${fn})([...document.querySelectorAll(s)])`), selector); }

  locator(selector) {
    const control = {
      first: () => control,
      waitFor: () => this.waitForSelector(selector),
      count: () => this.evaluate((s) => document.querySelectorAll(s).length, selector),
      tap: () => this.#click(selector),
      fill: async (text) => {
        await this.waitForSelector(selector);
        const found = await this.#find(selector);
        await this.session.do("POST", `/element/${found}/clear`);
        await this.session.do("POST", `/element/${found}/value`, { text });
      },
    };
    return control;
  }

  async #find(selector) {
    const found = await this.session.do("POST", "/element", { using: "css selector", value: selector });
    return found[ELEMENT];
  }

  async #click(selector) {
    for (let tries = 0; ; tries += 1) {
      try {
        await this.evaluate((s) => document.querySelector(s)?.scrollIntoView({ block: "center" }), selector);
        return await this.session.do("POST", `/element/${await this.#find(selector)}/click`);
      } catch (error) {
        // Drawn anew between finding and touching.
        if (tries > 20 || !["stale element reference", "no such element", "element click intercepted", "element not interactable"].includes(error.code)) throw error;
        await sleep(80);
      }
    }
  }
}
