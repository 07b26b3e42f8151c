// Some screens of every kind, measured (look.mjs); all of them, in every light, size and language: screens.mjs.
import assert from "node:assert/strict";
import { test } from "node:test";
import { faultsOf } from "./look.mjs";
import { withPhone } from "./phone.mjs";
import { survey, table } from "./screens.mjs";

const SOME = new Set([
  "start.empty", "settings.card-words", "who.no-card", "hurt", "practice.told", "start.full", "resume", "steps", "ask.people_out", "ask.E03",
  "ask.place", "ask.danger_signs", "pair", "join", "ask.body_state", "ask.snow_depth", "ask.photos", "ask.jaw", "within.jaw.3",
  "ask.marrow_colour", "ask.sample_number", "no-answer/body_position", "no-answer.reasons", "leave-now", "stops.shot", "ask.L04", "custody",
  "hand-over", "journal", "sketch.way", "sketch.one", "readings", "reading.cause.of_death", "reading.death.window", "rumen.points",
  "winter-read.pad", "report.taken", "rescue", "crashed",
]);

for (const [language, looks] of [["en", [[320, "day", 100], [360, "dusk", 100]]], ["fr", [[360, "day", 200]]]]) {
  test(`screens of every kind hold what is promised: ${language}, ${looks.map((look) => look.join(" ")).join(", ")}`, { timeout: 600_000 }, async () => {
    const { screens, faults } = await survey({ language, looks, wanted: (name) => SOME.has(name), pictures: false });
    assert.deepEqual(table(faults), []);
    assert.deepEqual([...SOME].filter((name) => !screens.includes(name)), [], "every one of them was reached");
  });
}

test("the measures find what was spoilt", { timeout: 120_000 }, () => withPhone({ viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } }, async (phone, place) => {
  await phone.open(place.url);
  await phone.page.waitForSelector('main [data-tile="outing"]');
  assert.deepEqual(await faultsOf(phone.page), []);
  // Each spoils one thing.
  const SPOILT = {
    "too wide": "main { min-width: 600px; }",
    "low target": '[data-tile="outing"] { min-height: 0 !important; height: 50px; }',
    "narrow target": '[data-act="about"] { width: 30px; overflow: hidden; }',
    "out of reach": "main::after { content: ''; position: fixed; inset: 0; }",
    "text cut off": '[data-tile="outing"] .label { white-space: nowrap; letter-spacing: 2em; }',
    "text over text": "main li { height: 4px; }",
    "word broken": '[data-tile="outing"] { width: 90px; flex: none; } [data-tile="outing"] .label { overflow-wrap: anywhere; letter-spacing: 0.6em; }',
    contrast: "main li { color: #999999; }",
    "small type": "main li { font-size: 11px; }",
    "focus not seen": ":focus-visible { outline: none !important; }",
    headings: "main h1 { display: none; }",
    "no name": '[data-tile="outing"] .label { display: none; }',
    "left hand": ".bar-buttons { flex-direction: row !important; } .bar-button { max-width: none !important; }",
  };
  for (const [kind, rule] of Object.entries(SPOILT)) {
    // The first screen has one button in its bar; sides are looked at where there are two.
    await phone.page.evaluate((h) => { location.hash = h; }, kind === "left hand" ? "#about" : "#start");
    await phone.page.waitForFunction((s) => document.querySelector("[data-screen]")?.dataset.screen === s, kind === "left hand" ? "about" : "start");
    await phone.page.evaluate((css) => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(css);
      document.adoptedStyleSheets = [sheet];
    }, rule);
    const found = new Set((await faultsOf(phone.page)).map(([one]) => one));
    assert.ok(found.has(kind), `${kind}: found ${[...found]}`);
    await phone.page.evaluate(() => { document.adoptedStyleSheets = []; });
  }
}));
