// Nothing is told by colour alone, and what is read can be read without it. Colours are computed as a person without
// one kind of cone sees them: Machado, Oliveira and Fernandes 2009, doi 10.1109/TVCG.2009.113, severity 1.0. The
// matrices are those that colour-science 0.4.7 (PyPI) gives:
//   colour.blindness.matrix_cvd_Machado2009("Protanomaly", 1.0), and so on
// They act on linear sRGB (IEC 61966-2-1). Contrast as in WCAG 2.2: 7 for text (1.4.6), 3 for a shape (1.4.11).
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { test } from "node:test";
import { Hand } from "./form.mjs";
import { phone, site } from "./phone.mjs";
import { demoFolder } from "./screens-deer.mjs";

const EYES = {
  "all cones": [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
  protan: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deutan: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritan: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};

const rgb = (text) => {
  const hex = text.trim().match(/^#([0-9a-f]{6})$/i);
  return hex ? [0, 2, 4].map((i) => parseInt(hex[1].slice(i, i + 2), 16)) : text.match(/[\d.]+/g).slice(0, 3).map(Number);
};
const linear = (v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
/** Relative luminance of a colour as such an eye sees it. */
const light = (colour, eye) => {
  const lin = rgb(colour).map(linear);
  const [r, g, b] = eye.map((row) => Math.min(1, Math.max(0, row.reduce((sum, k, i) => sum + k * lin[i], 0))));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a, b, eye) => {
  const [x, y] = [light(a, eye), light(b, eye)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
};

/** Text on its ground, and shapes that have to be told from each other, by the names in style/. */
const TEXT = [["--ink", "--paper"], ["--on-accent", "--accent"], ["--paper", "--ink"]];
const SHAPES = [["--accent", "--paper"], ["--d-enamel", "--d-dentine"], ["--d-edge", "--d-marrow"], ["--d-accent", "--d-paper"]];

async function withOuting(act) {
  const demo = demoFolder();
  const place = await site({ also: { demo } });
  const hands = await phone({ viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 }, deviceScaleFactor: 1 });
  try {
    await hands.open(`${place.url}#demo`);
    await hands.page.waitForSelector('[data-act^="readings-"]');
    await act(hands.page, hands);
  } finally {
    await hands.end();
    await place.stop();
    rmSync(demo, { recursive: true, force: true });
  }
}

test("letters and shapes stand out for every kind of eye, by day and at dusk", { timeout: 120_000 }, () => withOuting(async (page) => {
  for (const lit of ["day", "dusk"]) {
    await page.evaluate((l) => document.documentElement.setAttribute("data-light", l), lit);
    const names = [...new Set([...TEXT, ...SHAPES].flat())];
    // Read back as the browser works them out, through a colour of an element.
    const colours = Object.fromEntries(await page.evaluate((all) => all.map((name) => {
      const probe = document.body.appendChild(document.createElement("i"));
      probe.style.color = `var(${name})`;
      const { color } = getComputedStyle(probe);
      probe.remove();
      return [name, color];
    }), names));
    for (const [eye, matrix] of Object.entries(EYES)) {
      for (const [pairs, least] of [[TEXT, 7], [SHAPES, 3]]) {
        for (const [a, b] of pairs) {
          const ratio = contrast(colours[a], colours[b], matrix);
          assert.ok(ratio >= least, `${lit}, ${eye}: ${a} on ${b} is ${ratio.toFixed(2)}`);
        }
      }
    }
  }
}));

/** Runs in the page: of each picture its shapes without any colour; of each tile its words. */
function pictures() {
  const KEEP = ["d", "cx", "cy", "r", "x", "y", "x1", "y1", "x2", "y2", "points", "width", "height", "transform"];
  const dashes = (shape) => { const { strokeWidth, strokeDasharray } = getComputedStyle(shape); return `${strokeWidth} ${strokeDasharray}`; };
  return [...document.querySelectorAll("main .tile.pictured")].map((tile) => ({
    name: tile.dataset.tile,
    words: tile.querySelector(".label")?.innerText.trim() ?? "",
    shapes: [...tile.querySelectorAll("svg *")].map((shape) => [shape.tagName, ...KEEP.map((k) => shape.getAttribute(k)), dashes(shape)].join(" ")).join("\n"),
  }));
}

test("every picture is told from the next by its lines, and has words", { timeout: 240_000 }, () => withOuting(async (page) => {
  await new Hand(page).press('main [data-tile^="carry-on-"]');
  await page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen === "resume");
  await page.evaluate(() => { location.hash = "#steps"; });
  await page.waitForSelector("[data-step]");
  const steps = await page.$$eval("[data-step]", (all) => all.map((row) => row.dataset.step));
  let looked = 0;
  for (const step of steps) {
    await page.evaluate((name) => { location.hash = `#visit/${name}`; }, step);
    await page.waitForFunction((name) => document.querySelector("main [data-ask]")?.dataset.ask === name, step);
    const all = await page.evaluate(pictures);
    if (all.length > 1) looked += 1;
    assert.equal(new Set(all.map(({ words }) => words)).size, all.length, `${step}: words of their own`);
    assert.ok(all.every(({ words }) => words.length > 0), `${step}: a picture without words`);
    const drawn = all.filter(({ shapes }) => shapes !== "");
    assert.equal(new Set(drawn.map(({ shapes }) => shapes)).size, drawn.length, `${step}: two pictures differ by colour only`);
  }
  assert.ok(looked >= 10, `only ${looked} questions with pictures were reached`);
}));

test("plots of the readings are drawn in ink alone", { timeout: 240_000 }, () => withOuting(async (page) => {
  await new Hand(page).press('[data-act^="readings-"]');
  await page.waitForSelector('[data-card="cause.of_death"]', { timeout: 60_000 });
  const id = await page.evaluate(() => location.hash.split("/")[1]);
  const methods = await page.$$eval("[data-card]", (all) => all.map((card) => card.dataset.card));
  let marks = 0;
  for (const method of methods) {
    await page.evaluate((to) => { location.hash = `#reading/${to}`; }, `${id}/${method}`);
    await page.waitForSelector(`[data-reading="${method}"]`);
    for (const lit of ["day", "dusk"]) {
      await page.evaluate((l) => document.documentElement.setAttribute("data-light", l), lit);
      const found = await page.evaluate(() => {
        const { color, backgroundColor } = getComputedStyle(document.body);
        const used = [...document.querySelectorAll("main svg.plot *, main .plot svg *, main .range svg *, main .bar-cell svg *")].filter((e) => e.children.length === 0 && e.getClientRects().length > 0)
          .flatMap((e) => { const s = getComputedStyle(e); return [s.fill, s.stroke]; }).filter((c) => c !== "none");
        return { used, own: [color, backgroundColor] };
      });
      marks += found.used.length;
      const strange = [...new Set(found.used)].filter((c) => !found.own.includes(c));
      assert.deepEqual(strange, [], `${method}, ${lit}: a plot in other colours than its ink and paper`);
    }
  }
  assert.ok(marks > 40, `${marks} marks looked at in the plots of ${methods}`);
}));
