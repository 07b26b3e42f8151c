// Every screen of the form, looked at: goes to each, takes pictures of it at several widths, by day and at dusk, in
// letters of normal and of twice the size, in three languages, and measures it (look.mjs). Prints a table of faults
// and lays the pictures out on sheets under tests/out/screens.
//   node screens.mjs [--languages en,fr,es] [--only NAME-PART,...] [--looks 412-day-100,...] [--no-pictures] [--heard]
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Hand, saved, standing, walk } from "./form.mjs";
import { faultsOf, heard } from "./look.mjs";
import { DIST, OUT, ROOT, phone, site } from "./phone.mjs";
import { demoFolder } from "./screens-deer.mjs";

const HIGH = 740;
/** No picture is taller. */
const TALL = 14_000;
/** How a screen is looked at: width in CSS pixels, light, size of letters in percent. */
const LOOKS = {
  en: [[320, "day", 100], [360, "day", 100], [412, "day", 100], [360, "dusk", 100], [360, "day", 200]],
  fr: [[320, "day", 100], [360, "day", 200], [412, "day", 100], [360, "dusk", 100]],
  es: [[320, "day", 100], [360, "day", 200], [412, "day", 100], [360, "dusk", 100]],
};
const lookName = ([width, light, letters]) => `${width}-${light}-${letters}`;

export class Survey {
  constructor({ language, looks, wanted, pictures, listen }) {
    Object.assign(this, { language, looks, wanted, pictures, listen, screens: [], faults: [], spoken: [] });
  }

  async begin(url) {
    this.url = url;
    this.phone = await phone({ viewport: { width: 360, height: HIGH }, screen: { width: 360, height: HIGH }, deviceScaleFactor: 1 });
    this.page = this.phone.page;
    this.hand = new Hand(this.page);
    this.session = await this.phone.context.newCDPSession(this.page);
    await this.phone.open(url);
    await this.phone.offlineReady();
    await this.page.waitForSelector('main [data-tile="outing"]');
  }

  /** As a person of the crew would see it: width, light, and the size of letters that the browser is set to. */
  async as([width, light, letters], height = HIGH) {
    await this.page.setViewportSize({ width, height });
    await this.session.send("Page.setFontSizes", { fontSizes: { standard: 16 * letters / 100, fixed: 13 * letters / 100 } });
    await this.page.evaluate((l) => {
      document.documentElement.setAttribute("data-light", l);
      // Where the switch is on the screen it says the same.
      const lit = document.querySelector('[data-act="dusk"]');
      if (lit && (lit.getAttribute("aria-checked") === "true") !== (l === "dusk")) lit.click();
    }, light);
    const size = await this.page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));
    if (size !== 16 * letters / 100) throw new Error(`letters of ${letters} % are ${size} px`);
  }

  /**
   * A picture of the whole screen. The screen is made as tall as the page for it: a picture that reaches beyond the
   * screen makes Chromium forget the size of letters and that there is a finger and no mouse.
   */
  async picture(look, name) {
    const height = await this.page.evaluate(() => { scrollTo(0, 0); return document.documentElement.scrollHeight; });
    await this.as(look, Math.min(Math.max(height, HIGH), TALL));
    await this.phone.picture(name);
  }

  /** True where the screen is to be looked at and was not yet. */
  takes(name) {
    return !this.screens.includes(name) && (this.wanted === null || this.wanted(name));
  }

  /** Looks at the screen that stands, in every way. */
  async shoot(name) {
    if (!this.takes(name)) return;
    this.screens.push(name);
    for (const look of this.looks) {
      await this.as(look);
      await this.page.evaluate(() => scrollTo(0, 0));
      const at = `${this.language}-${lookName(look)}`;
      for (const [kind, what] of await faultsOf(this.page)) this.faults.push({ kind, what, at, name });
      if (this.pictures) await this.picture(look, `screens/${at}/${String(this.screens.length).padStart(3, "0")}-${name.replace(/[^\w.-]/g, "_")}`);
      // What the checker says of a screen hangs on its colours, not on its width or language.
      if (look === this.looks[1] || look[1] === "dusk") {
        for (const fault of await this.phone.axe({ strict: true })) this.faults.push({ kind: "page checker", what: fault, at, name });
      }
    }
    if (this.listen) this.spoken.push(`# ${name}`, ...(await heard(this.phone)), "");
    await this.as([360, "day", 100]);
  }

  /** Goes to a screen by its address and looks at it. */
  async at(hash, { name = hash, ready = "main:not([hidden]) h1" } = {}) {
    if (!this.takes(name)) return;
    await this.to(hash, ready);
    await this.shoot(name);
  }

  async to(hash, ready = "main:not([hidden]) h1") {
    await this.page.evaluate((h) => { location.hash = `#${h}`; }, hash);
    await this.page.waitForFunction((h) => decodeURIComponent(location.hash) === `#${h}`, hash);
    await this.page.waitForFunction((h) => document.querySelector("[data-screen]")?.dataset.screen === h, hash.split("/")[0]);
    await this.page.waitForSelector(ready);
    await this.page.waitForTimeout(30);
  }

  async speak() {
    if (this.language === "en") return;
    await this.hand.tile(`language-${this.language}`);
    await this.page.waitForFunction((code) => document.documentElement.lang === code, this.language);
  }

  /** An empty phone: nothing recorded, no card. */
  async empty() {
    await this.shoot("start.languages");
    await this.speak();
    await this.at("start", { name: "start.empty" });
    await this.to("settings", '[data-field="card"]');
    await this.shoot("settings.no-card");
    await this.hand.type('[data-field="card"]', readFileSync(join(ROOT, "demo/card.txt"), "utf8"));
    await this.hand.tile("take-card");
    await this.page.waitForSelector('main [data-tile="same-words"]');
    await this.shoot("settings.card-words");
    await this.at("about");
    await this.at("who", { name: "who.no-card" });
    await this.at("hurt", { name: "hurt.no-outing" });
    await this.at("hand-over", { name: "hand-over.empty" });
    await this.to("practice", "[data-practice]");
    await this.shoot("practice");
    await this.hand.press('[data-call="3"]');
    await this.page.waitForSelector("[data-verdict]");
    await this.shoot("practice.told");
  }

  /** The invented outing, played into the empty phone. */
  async play() {
    await this.page.goto("about:blank");
    await this.phone.open(`${this.url}#demo`);
    await this.page.waitForSelector('[data-act^="readings-"]');
    await saved(this.page);
    this.session = await this.phone.context.newCDPSession(this.page);
  }

  async asks(prefix) {
    await this.to("steps", "[data-step]");
    await this.shoot(`${prefix}steps`);
    const names = await this.page.$$eval("[data-step]", (all) => all.map((e) => e.dataset.step));
    for (const ask of names) {
      // Looked at once, whichever side, bone or number it is asked of.
      await this.at(`visit/${ask}`, { name: `ask.${ask.replace(/\..*$/, "")}` });
    }
  }

  /** What only appears after a tap, on some of the questions. */
  async within() {
    for (const ask of ["danger_signs", "snow_signs"]) {
      await this.to(`visit/${ask}`, 'main [data-tile]');
      for (let i = 0; i < 4 && (await standing(this.page)).tiles.includes("more"); i += 1) {
        await this.hand.tile("more");
        await this.shoot(`within.${ask}.page-${i + 2}`);
      }
    }
    for (const ask of ["danger_signs", "body_position", "snow_depth"]) {
      await this.to(`no-answer/${ask}`, 'main [data-tile="not-looked"]');
      await this.shoot(`no-answer/${ask}`);
      if (ask !== "body_position") continue;
      await this.hand.tile("reason");
      await this.shoot("no-answer.reasons");
      await this.hand.tile("own-words");
      await this.shoot("no-answer.own-words");
    }
    await this.to("visit/arrived", "main [data-tile]");
    if ((await standing(this.page)).tiles.includes("other-time")) {
      await this.hand.tile("other-time");
      await this.shoot("within.arrived.pad");
    }
    await this.to("visit/jaw.left", "main .jaw-panel");
    for (let tap = 1; tap <= 3; tap += 1) {
      const tile = (await standing(this.page)).tiles.find((one) => ["in_wear", "wider", "blunt"].includes(one));
      if (!tile) break;
      await this.hand.tile(tile);
      await saved(this.page);
      await this.page.waitForTimeout(60);
      await this.shoot(`within.jaw.${tap}`);
    }
  }

  async sketch() {
    await this.to("pair", "[data-pair]");
    await this.shoot("pair");
    await this.to("sketch", 'main [data-tile="add"]');
    await this.shoot("sketch.empty");
    await this.hand.tile("add");
    await this.page.waitForSelector('main [data-stage="sketch.what"]');
    await this.shoot("sketch.what");
    await this.hand.tile("drag");
    await this.page.waitForSelector('main [data-stage="sketch.way"]');
    await this.shoot("sketch.way");
    await this.hand.tile("s");
    await this.page.waitForSelector('main [data-key="7"]');
    await this.shoot("sketch.pace");
    for (const keys of ["70", "12"]) {
      for (const digit of keys) await this.hand.press(`[data-key="${digit}"]`);
      if (keys === "12") await this.shoot("sketch.far");
      await this.hand.tile("save");
    }
    await this.page.waitForSelector('main [data-stage="sketch.head"]');
    await this.shoot("sketch.one");
  }

  /** Screens of the phone that holds the invented outing. */
  async full() {
    await this.to("join", 'main [data-tile="join"]');
    await this.shoot("join");
    await this.to("start", 'main [data-tile^="carry-on-"]');
    await this.shoot("start.full");
    await this.hand.press('main [data-tile^="carry-on-"]');
    await this.page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen === "resume");
    await this.shoot("resume");
    await this.asks("");
    await this.within();
    for (const hash of ["hurt", "leave-now", "stops", "who", "settings", "custody", "hand-over", "labels", "show", "take"]) await this.at(hash);
    const open = await this.openId();
    await this.at(`journal/${open}`, { name: "journal" });
    await this.at(`photos/${open}`, { name: "photos" });
    await this.sketch();
    // The shot one: hands off, an officer, stops.
    await this.to("start");
    const others = await this.page.$$eval('main [data-tile^="carry-on-"]', (all) => all.map((e) => e.dataset.tile));
    for (const tile of others) {
      await this.to("start", `main [data-tile="${tile}"]`);
      await this.hand.tile(tile);
      await this.page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen === "resume");
      if (await this.page.locator(".stop.small").count()) await this.shoot("resume.stopped");
      await this.asks("shot.");
      await this.at("stops", { name: "stops.shot" });
    }
    // The bench opens the record again, and an open record names no cause: readings first.
    await this.readings();
    await this.bench();
    await this.winter();
    await this.report();
  }

  async openId() {
    await this.to("steps", '[data-act="journal"]');
    await this.hand.act("journal");
    await this.page.waitForFunction(() => location.hash.startsWith("#journal/"));
    return this.page.evaluate(() => location.hash.split("/")[1]);
  }

  async bench() {
    await this.to("start", 'main [data-tile="bench"]');
    await this.hand.tile("bench");
    await this.page.waitForSelector('main [data-tile^="bench-"]');
    await this.shoot("bench");
    await this.hand.press('main [data-tile^="bench-"]');
    await this.page.waitForSelector("main [data-ask]");
    await this.asks("bench.");
    await this.to("visit/bench_rumen_method", 'main [data-tile="point_count"]');
    await this.hand.tile("point_count");
    await this.to("visit/bench_rumen_points", 'main [data-tile="conifer"]');
    await this.shoot("rumen.groups");
    await this.hand.tile("conifer");
    await this.page.waitForSelector('main [data-tile="white_cedar"]');
    await this.shoot("rumen.plants");
    await this.hand.tile("white_cedar");
    await this.page.waitForSelector('main [data-tile="another"]');
    await this.shoot("rumen.points");
  }

  async readings() {
    await this.to("start", '[data-act^="readings-"]');
    await this.hand.press('[data-act^="readings-"]');
    await this.page.waitForSelector("[data-card]");
    await this.page.waitForSelector('[data-card="cause.of_death"]', { timeout: 60_000 });
    await this.shoot("readings");
    const id = await this.page.evaluate(() => location.hash.split("/")[1]);
    const methods = await this.page.$$eval("[data-card]", (all) => all.map((e) => e.dataset.card));
    for (const method of methods) await this.at(`reading/${id}/${method}`, { name: `reading.${method}`, ready: `[data-reading="${method}"]` });
  }

  async winter() {
    await this.to("winter", '[data-field="place"]');
    await this.shoot("winter");
    await this.hand.type('[data-field="place"]', "Ridge cabin");
    await this.hand.tile("begin-log");
    await this.page.waitForFunction(() => location.hash.startsWith("#winter-log/"));
    await this.shoot("winter-log");
    const id = await this.page.evaluate(() => location.hash.split("/")[1]);
    const day = new Date(Date.now() - 2 * 86_400_000).toLocaleDateString("sv-SE", { timeZone: "America/Toronto" });
    await this.at(`winter-day/${id}/${day}`, { name: "winter-day" });
    await this.at(`winter-read/${id}/${day}/day_minimum_c`, { name: "winter-read.pad", ready: "[data-key]" });
    await this.at(`winter-read/${id}/${day}/day_crust`, { name: "winter-read.crust", ready: "main [data-tile]" });
  }

  async report() {
    await this.to("start", 'main [data-tile="report"]');
    await this.hand.tile("report");
    await this.page.waitForSelector("main [data-ask]");
    await this.asks("report.");
    await this.to("visit", "main [data-ask]");
    await walk(this.hand, {}, { until: ({ ask }) => ask === "none" });
    await this.shoot("report.taken");
    await this.to("start", '[data-act^="report-"]');
    await this.shoot("start.reports");
  }

  /** The pages that stand in where the form itself does not work. */
  async apart() {
    await this.page.goto(`${this.url}rescue.html`);
    await this.page.waitForFunction(() => document.querySelectorAll("#facts li").length >= 2);
    await this.shoot("rescue");
    await this.phone.context.route("**/*_bg.wasm", (route) => route.abort());
    await this.page.evaluate(async () => { for (const r of await navigator.serviceWorker.getRegistrations()) await r.unregister(); });
    await this.page.goto("about:blank");
    await this.page.goto(this.url);
    await this.page.waitForSelector("#crashed", { state: "visible" });
    const said = await this.page.$$eval("#crashed h1 .said", (all) => all.filter((one) => one.getClientRects().length > 0).map((one) => one.lang));
    if (said.join() !== this.language) this.faults.push({ kind: "language", what: `the stopped form speaks ${said}`, at: this.language, name: "crashed" });
    await this.shoot("crashed");
  }
}

/**
 * Looks at the screens whose names `wanted` takes, in one language.
 * Resolves to { screens, faults: [{ kind, what, at, name }], spoken }.
 */
export async function survey({ language = "en", looks = LOOKS[language], wanted = null, pictures = true, listen = false } = {}) {
  const demo = demoFolder();
  const place = await site({ root: DIST, also: { demo } });
  const all = new Survey({ language, looks, wanted, pictures, listen });
  try {
    await all.begin(place.url);
    await all.empty();
    await all.play();
    await all.full();
    // Beyond this the form is kept from starting: what it then says in the console is no fault of a screen.
    for (const fault of all.phone.faults) all.faults.push({ kind: "fault in the page", what: fault, at: language, name: "" });
    await all.apart();
  } catch (error) {
    // What was found so far is told all the same.
    const here = all.page ? await standing(all.page).catch(() => ({})) : {};
    all.faults.push({ kind: "the way stopped", what: `${error.message.replace(/\s+/g, " ").slice(0, 900)} ${String(error.stack).match(/screens\.mjs:\d+/g)?.join(" ")}`, at: language, name: JSON.stringify(here) });
  } finally {
    await all.phone?.end();
    await place.stop();
    rmSync(demo, { recursive: true, force: true });
  }
  return all;
}

/** One line for faults of one kind about one thing, with where they were seen. */
export function table(faults) {
  const rows = new Map();
  for (const { kind, what, at, name } of faults) {
    const key = `${kind}: ${what}`;
    if (!rows.has(key)) rows.set(key, new Set());
    rows.get(key).add(`${name} (${at})`);
  }
  return [...rows].sort(([a], [b]) => a.localeCompare(b)).map(([key, where]) => `${key}  [${where.size}: ${[...where].slice(0, 3).join(", ")}]`);
}

async function fromArguments(words) {
  const value = (name) => { const at = words.indexOf(name); return at < 0 ? null : words[at + 1]; };
  const languages = (value("--languages") ?? "en,fr,es").split(",");
  const only = value("--only")?.split(",");
  const wantedLooks = value("--looks")?.split(",");
  const pictures = !words.includes("--no-pictures");
  let count = 0;
  let bad = 0;
  for (const language of languages) {
    const looks = LOOKS[language].filter((look) => wantedLooks?.includes(lookName(look)) ?? true);
    const found = await survey({
      language, looks, pictures, listen: words.includes("--heard"), wanted: only ? (name) => only.some((part) => name.includes(part)) : null,
    });
    count += found.screens.length;
    bad += found.faults.length;
    console.log(`${language}: ${found.screens.length} screens, ${found.faults.length} faults`);
    for (const line of table(found.faults)) console.log(`  ${line}`);
    if (found.spoken.length) writeFileSync(join(OUT, `screens-heard-${language}.txt`), found.spoken.join("\n"));
  }
  if (pictures) {
    const { sheets } = await import("./sheets.mjs");
    const made = await sheets(join(OUT, "screens"));
    console.log(`${made.length} sheets: ${made.join(" ")}`);
  }
  console.log(`${count} screens, ${bad} faults`);
  process.exit(bad === 0 && count > 0 ? 0 : 1);
}

if (process.argv[1]?.endsWith("screens.mjs")) await fromArguments(process.argv.slice(2));
