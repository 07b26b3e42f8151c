// The crew's form as a person works it: what is asked, the tile that answers, the way on.
// Nothing here knows a rule of the form: it reads names from the page and taps.

/** What stands on the screen: the ask's name, its grade, its tiles. */
export async function standing(page) {
  return page.evaluate(() => {
    const ask = document.querySelector("main [data-ask]");
    return {
      screen: document.querySelector("[data-screen]")?.dataset.screen ?? "",
      ask: ask?.dataset.ask ?? "",
      grade: ask?.dataset.grade ?? "",
      pad: document.querySelector("main [data-key]") !== null,
      field: document.querySelector("main [data-field]")?.dataset.field ?? "",
      tiles: [...document.querySelectorAll("main [data-tile]")].map((tile) => tile.dataset.tile),
    };
  });
}

/** Texts of all entries on disk. */
export function bodies(page) {
  return page.evaluate(() => new Promise((done, failed) => {
    const ask = indexedDB.open("marrowbook");
    ask.onerror = () => failed(ask.error);
    ask.onsuccess = () => {
      const all = ask.result.transaction("entries").objectStore("entries").getAll();
      all.onsuccess = () => { ask.result.close(); done(all.result.map((entry) => JSON.stringify(entry))); };
      all.onerror = () => failed(all.error);
    };
  }));
}

/** How many entries the journal holds. */
export const entries = (page) => page.evaluate(() => new Promise((done, failed) => {
  const ask = indexedDB.open("marrowbook");
  ask.onerror = () => failed(ask.error);
  ask.onsuccess = () => {
    const count = ask.result.transaction("entries").objectStore("entries").count();
    count.onsuccess = () => { ask.result.close(); done(count.result); };
    count.onerror = () => failed(count.error);
  };
}));

/** How a tap or a key press reaches a control: by touch, or by keyboard alone. */
export class Hand {
  constructor(page, keyboardOnly = false) {
    this.page = page;
    this.keyboardOnly = keyboardOnly;
  }

  async press(selector) {
    const control = this.page.locator(selector).first();
    await control.waitFor();
    if (!this.keyboardOnly) {
      // A question that has just appeared ignores taps for a moment: a bounce must not answer it.
      await this.page.waitForTimeout(270);
      return this.fingerMs ? this.touch(control) : control.tap();
    }
    await this.reach(selector);
    return this.page.keyboard.press("Enter");
  }

  /** From now on a finger stays on the glass, as a finger does; without this it is down and up in the same moment. */
  async withFinger(ms) {
    this.session = await this.page.context().newCDPSession(this.page);
    this.fingerMs = ms;
  }

  async touch(control) {
    await control.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await control.boundingBox();
    await this.session.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [{ x: x + width / 2, y: y + height / 2 }] });
    await this.page.waitForTimeout(this.fingerMs);
    await this.session.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  }

  /** Tab, as a person without a screen to touch would, until the control has the focus. */
  async reach(selector) {
    for (let i = 0; i < 200; i += 1) {
      if (await this.page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
      await this.page.keyboard.press("Tab");
    }
    throw new Error(`the keyboard does not reach ${selector}`);
  }

  tile(name) { return this.press(`main [data-tile="${name}"]`); }
  act(name) { return this.press(`[data-act="${name}"]`); }

  async type(selector, text) {
    if (this.keyboardOnly) {
      await this.reach(selector);
      await this.page.keyboard.press("Control+A");
      return this.page.keyboard.type(text);
    }
    return this.page.locator(selector).first().fill(text);
  }

  /** A tile that may stand on a later page of tiles. */
  async tilePaged(name) {
    for (let page = 0; page < 6; page += 1) {
      const { tiles } = await standing(this.page);
      if (tiles.includes(name)) return this.tile(name);
      if (!tiles.includes("more")) break;
      await this.tile("more");
    }
    throw new Error(`no tile ${name} at ${JSON.stringify(await standing(this.page))}`);
  }
}

/** Gives no answer, with this state and the reason that the form proposes. */
export async function noAnswer(hand, state = "not-looked") {
  await hand.tile("no-answer");
  // Not `waitForSelector`: what it gives back holds the page's old questions in memory.
  await hand.page.locator('main [data-tile="not-looked"]').first().waitFor();
  await hand.tile(state);
}

/**
 * Answers what is on the screen from `plan`: a function or a table from ask name to
 * an option, {many: [...]}, {number}, {text}, {seen: [...]} for panels, {none: state}, or "done".
 * What the plan does not name is answered `not looked`; facts that guard a step are stated.
 */
export async function answerOne(hand, plan) {
  const { page } = hand;
  const here = await standing(page);
  const said = plan[here.ask] ?? plan[here.ask.replace(/\..*$/, "")];
  if (here.grade === "stop") { await hand.tile("done"); return here; }
  if (here.grade === "confirm") { await hand.tile(said === "cannot" ? "cannot" : "done"); return here; }
  // What was taken has a number: its label may wait, the number may not.
  if (said === undefined && here.tiles.includes("not-yet")) { await hand.tile("not-yet"); return here; }
  if (said === undefined) { await noAnswer(hand); return here; }
  if (said.each) {
    // The drawn jaw asks tooth by tooth under one name: the first of these that is a tile answers.
    for (let i = 0; i < 40; i += 1) {
      const now = await standing(page);
      if (now.ask !== here.ask) return here;
      const tile = said.each.find((name) => now.tiles.includes(name));
      if (tile === undefined) throw new Error(`none of ${said.each} at ${JSON.stringify(now)}`);
      const entries = await page.evaluate(() => document.querySelector("main")?.parentElement?.innerText ?? "");
      await hand.tile(tile);
      await page.waitForFunction((before) => (document.querySelector("main")?.parentElement?.innerText ?? "") !== before, entries);
    }
    return here;
  }
  if (typeof said === "string") {
    await hand.tilePaged(said);
  } else if (said.none) {
    await noAnswer(hand, said.none);
  } else if (said.many) {
    for (const one of said.many) await hand.tilePaged(one);
    await hand.tilePaged("save");
  } else if (said.seen) {
    // A single sign is answered by one tap.
    const alone = here.tiles.filter((tile) => !["done", "no-answer"].includes(tile)).length === 1;
    for (const sign of said.seen) await hand.tilePaged(sign);
    if (!alone || said.seen.length === 0) await hand.tilePaged("done");
  } else if (said.number !== undefined) {
    for (const digit of String(said.number)) await hand.press(`[data-key="${digit === "-" ? "minus" : digit}"]`);
    await hand.tile("save");
  } else if (said.text !== undefined) {
    await hand.type("main [data-field]", said.text);
    await hand.tile("save");
  } else {
    throw new Error(`the plan for ${here.ask} says nothing usable`);
  }
  return here;
}

/** Waits until every tick is on disk. */
export function saved(page) {
  return page.waitForFunction(() => ["saved", "none"].includes(document.querySelector("[data-saved]")?.dataset.saved ?? "none"));
}

/** Walks on until nothing is asked any more; the names of all that was asked, in order. */
export async function walk(hand, plan, { until = () => false, most = 260, each = async () => {} } = {}) {
  const asked = [];
  for (let i = 0; i < most; i += 1) {
    const here = await standing(hand.page);
    if (here.tiles.includes("close") || here.ask === "") return asked;
    if (until(here)) return asked;
    await each(here);
    await answerOne(hand, plan);
    await hand.page.waitForFunction((before) => {
      const ask = document.querySelector("main [data-ask]")?.dataset.ask ?? "";
      return ask !== before || document.querySelector('main [data-tile="close"]') !== null;
    }, here.ask, { timeout: 5000 }).catch(async () => {
      const notice = await hand.page.evaluate(() => document.querySelector("[data-notice]")?.textContent ?? "");
      throw new Error(`${here.ask} asks again after its answer: ${notice} ${JSON.stringify(await standing(hand.page))}`);
    });
    asked.push(here.ask);
  }
  throw new Error(`still asking after ${most} questions: ${asked.slice(-8)}`);
}

/** Loads the card that lies beside the demo, comparing its words as a person would. */
export async function loadCard(hand, text) {
  await hand.page.goto(`${hand.page.url().split("#")[0]}#settings`);
  await hand.page.waitForSelector('[data-field="card"]');
  await hand.type('[data-field="card"]', text);
  await hand.tile("take-card");
  await hand.tile("same-words");
}
