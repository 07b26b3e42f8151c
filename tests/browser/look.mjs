// What a screen must hold, measured in the page: nothing wider than the screen, no text cut off or over another, no word
// broken, every target large enough and wholly within reach, ink that can be read, a name for each control, headings in
// order, a focus that is seen, and the way on under the other thumb when the left hand holds the phone.
// Heights in CSS pixels are the project's own (style/main.css); the contrast of 7 is WCAG 2.2, 1.4.6.

/** A tile that answers: 15 mm. */
const TILE = 96;
/** Every other target. */
const TARGET = 60;
/** The languages on the first screen stand three in a row. */
const LANGUAGE = 72;
/** WCAG 2.2, 1.4.6, for text of any size. */
const CONTRAST = 7;

/** Runs in the page. Faults as [kind, what]. */
function measure([TILE, TARGET, LANGUAGE, CONTRAST, WIDTH]) {
  // Not `innerWidth`: a phone zooms out over a page that is too wide, and then says that all is well.
  const faults = [];
  const fault = (kind, what) => faults.push([kind, what]);
  const root = document.documentElement;
  const page = document.querySelector(".page") ?? document.body;
  const said = (e) => (e.getAttribute("aria-label") ?? e.innerText ?? e.textContent ?? "").replace(/\s+/g, " ").trim().slice(0, 40);
  const name = (e) => {
    const own = ["tile", "act", "key", "field", "call", "step", "card"].find((k) => e.dataset?.[k] !== undefined);
    const by = own ? `[data-${own}=${e.dataset[own]}]` : e.id ? `#${e.id}` : e.classList?.length ? `.${[...e.classList].join(".")}` : "";
    return `${e.tagName.toLowerCase()}${by} "${said(e)}"`;
  };
  const box = (e) => e.getBoundingClientRect();
  // What is folded away (details) has boxes, and is not seen.
  const seen = (e) => e.getClientRects().length > 0 && e.checkVisibility({ visibilityProperty: true }) && !e.closest(".unseen, [hidden]");
  // The one text that ends after its second line on purpose: it says again what was just tapped, and is whole for a
  // screen reader. What could not be kept is never cut.
  const isCut = (e) => e.matches(".saved") && e.dataset.saved !== "failed";
  const scrolls = (e) => e.closest(".winter-plot") !== null;

  // No wider than the screen.
  if (root.scrollWidth > WIDTH) {
    const widest = [...page.querySelectorAll("*")].filter((e) => !scrolls(e)).reduce((a, b) => (box(b).right > box(a).right ? b : a));
    fault("too wide", `the page by ${root.scrollWidth - WIDTH} px: ${name(widest)}`);
  }

  // Every line of text with the box that should hold it.
  const lines = [];
  const walker = document.createTreeWalker(page, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const owner = node.parentElement;
    if (!node.data.trim() || !seen(owner) || getComputedStyle(owner).clipPath.startsWith("inset") || ["OPTION", "TITLE", "DESC"].includes(owner.tagName)) continue;
    // A textarea scrolls over its text.
    if (owner.tagName === "TEXTAREA") continue;
    if (isCut(owner)) { lines.push({ owner, r: box(owner) }); continue; }
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const r of range.getClientRects()) if (r.width > 0.5) lines.push({ owner, r });
  }
  for (const { owner, r } of lines) {
    if (scrolls(owner)) continue;
    if (r.left < -0.5 || r.right > WIDTH + 0.5) fault("text cut off", `${name(owner)} at the screen's edge`);
    const held = owner.closest("button, a, summary, .tile, .card, svg, td, th");
    if (held && held !== owner.closest("a")) {
      const b = box(held);
      if (r.left < b.left - 1.5 || r.right > b.right + 1.5 || r.top < b.top - Math.max(3, r.height * 0.2) || r.bottom > b.bottom + Math.max(3, r.height * 0.2)) {
        fault("text cut off", `${name(owner)} out of ${held.tagName.toLowerCase()} by ${Math.round(Math.max(b.left - r.left, r.right - b.right, b.top - r.top, r.bottom - b.bottom))} px`);
      }
    }
  }
  for (const e of page.querySelectorAll("*")) {
    const style = getComputedStyle(e);
    if (!seen(e) || isCut(e) || e.tagName === "TEXTAREA" || e.tagName === "INPUT" || style.clipPath.startsWith("inset")) continue;
    if (["hidden", "clip"].includes(style.overflowX) && e.scrollWidth > e.clientWidth + 1 && !(e instanceof SVGElement)) fault("text cut off", name(e));
  }
  // No line over another. The bar stays where it is while the page moves below it.
  const bar = document.querySelector(".bar");
  const inBar = (e) => bar?.contains(e) ?? false;
  for (let i = 0; i < lines.length; i += 1) {
    for (let j = i + 1; j < lines.length; j += 1) {
      const [a, b] = [lines[i].r, lines[j].r];
      if (inBar(lines[i].owner) !== inBar(lines[j].owner)) continue;
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 2 && high > 0.34 * Math.min(a.height, b.height)) fault("text over text", `${name(lines[i].owner)} and ${name(lines[j].owner)}`);
    }
  }

  // In letters of the usual size no word of a tile, a head or a table is broken in two.
  if (getComputedStyle(root).fontSize === "16px") {
    for (const owner of new Set(lines.map((line) => line.owner))) {
      if (scrolls(owner) || owner instanceof SVGElement || !owner.closest(".tile, .bar-button, .act, .key, h1, h2, h3, th, td")) continue;
      for (const node of owner.childNodes) {
        if (node.nodeType !== Node.TEXT_NODE) continue;
        for (const { 0: word, index } of node.data.matchAll(/[\p{L}\p{N}]{2,}/gu)) {
          const range = document.createRange();
          range.setStart(node, index);
          range.setEnd(node, index + word.length);
          const tops = [...range.getClientRects()].map((r) => r.top);
          if (Math.max(...tops) - Math.min(...tops) > 6) fault("word broken", `${word} in ${name(owner)}`);
        }
      }
    }
  }

  // Contrast of each line, also inside drawings; what has a backdrop of its own says so by a class.
  const colour = (text) => {
    const [r, g, b, a = 1] = text.match(/[\d.]+/g)?.map(Number) ?? [0, 0, 0, 0];
    return { r, g, b, a };
  };
  const light = ({ r, g, b }) => {
    const [x, y, z] = [r, g, b].map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * x + 0.7152 * y + 0.0722 * z;
  };
  const backdrop = (e) => {
    for (let at = e; at; at = at.parentElement) {
      const found = colour(getComputedStyle(at).backgroundColor);
      if (found.a > 0.99) return found;
    }
    return { r: 255, g: 255, b: 255 };
  };
  for (const owner of new Set(lines.map((line) => line.owner))) {
    const style = getComputedStyle(owner);
    const ink = light(colour(owner instanceof SVGElement ? style.fill : style.color));
    const ground = light(backdrop(owner));
    const ratio = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    if (ratio < CONTRAST) fault("contrast", `${name(owner)} ${ratio.toFixed(1)}`);
    if (parseFloat(style.fontSize) < 17.9 && !(owner instanceof SVGElement)) fault("small type", `${name(owner)} ${style.fontSize}`);
  }
  for (const e of page.querySelectorAll("svg text")) {
    const by = e.getScreenCTM()?.a ?? 1;
    const px = parseFloat(getComputedStyle(e).fontSize) * by;
    if (seen(e) && px < 12) fault("small type", `${name(e)} ${px.toFixed(1)} px in a drawing`);
  }

  // Targets.
  const controls = [...page.querySelectorAll("button, a[href], input, select, textarea, summary, [role=button]")].filter((e) => seen(e) || e.matches(".file-input"));
  const target = (e) => (e.matches(".file-input") ? e.closest(".file") : e.closest(".card")?.contains(e) && e.matches("h2 button") ? e.closest(".card") : e);
  for (const e of controls) {
    const t = target(e);
    if (!t || scrolls(t)) continue;
    const { width, height } = box(t);
    const need = t.closest(".languages") ? LANGUAGE : t.matches(".tile") ? TILE : TARGET;
    if (height < need - 0.5) fault("low target", `${name(t)} ${Math.round(height)} of ${need} px`);
    if (width < 44) fault("narrow target", `${name(t)} ${Math.round(width)} px`);
    // Wholly within reach: nothing lies over its middle or its corners when it is brought into view.
    t.scrollIntoView({ block: "center" });
    const b = box(t);
    const room = innerHeight - (getComputedStyle(bar ?? page).position === "sticky" ? box(bar).height : 0);
    // A card takes the tap wherever it is touched: it may be taller than the screen in large letters.
    if (b.height > room) { if (!t.matches(".card")) fault("out of reach", `${name(t)} is taller than the screen`); }
    else {
      for (const [x, y] of [[0.5, 0.5], [0.08, 0.12], [0.92, 0.12], [0.08, 0.88], [0.92, 0.88]]) {
        const [px, py] = [b.left + b.width * x, b.top + b.height * y];
        if (t.matches(".card") && (py < innerHeight - room || py > innerHeight)) continue;
        const hit = document.elementFromPoint(px, py);
        if (!hit || !(t.contains(hit) || hit.contains(t) && hit === t)) { fault("out of reach", `${name(t)} under ${hit ? name(hit) : "nothing"}`); break; }
      }
    }
    if (!(said(e) || e.getAttribute("aria-labelledby") || e.labels?.length || said(t))) fault("no name", name(e));
    // The focus is seen: an outline of at least 2 px, on it or on what stands for it.
    if (e.disabled) continue;
    e.focus({ preventScroll: true });
    const ring = [e, t].map((at) => getComputedStyle(at)).some((s) => s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2);
    if (document.activeElement === e && !ring) fault("focus not seen", name(e));
  }
  document.activeElement?.blur?.();
  // What has a scroll of its own goes back to its top as well: a picture may be taken next.
  for (const e of document.querySelectorAll("*")) if (e.scrollTop > 0) e.scrollTop = 0;
  scrollTo(0, 0);

  // Headings: one of the first rank, and down one rank at a time.
  const ranks = [...page.querySelectorAll("h1, h2, h3, h4")].filter((h) => h.getClientRects().length > 0).map((h) => Number(h.tagName[1]));
  if (ranks.filter((n) => n === 1).length !== 1) fault("headings", `${ranks.filter((n) => n === 1).length} of the first rank`);
  if (ranks.some((n, i) => n > (i === 0 ? 1 : ranks[i - 1] + 1))) fault("headings", `ranks ${ranks}`);
  return faults;
}

/** Runs in the page: what does not change sides when the left hand holds the phone. */
function unmirrored() {
  const page = document.querySelector(".page");
  if (!page) return [];
  const rows = () => [".bar-buttons > *", ".foot > *", ".tiles > .tile.main, .tiles > .tile[data-tile=no-answer]"].map((selector) =>
    [...page.querySelectorAll(selector)].filter((e) => e.getClientRects().length > 0).map((e) => {
      const { left, top } = e.getBoundingClientRect();
      return { id: e.dataset.act ?? e.dataset.tile, left, top };
    }));
  const was = page.hasAttribute("data-left-hand");
  page.toggleAttribute("data-left-hand", false);
  const right = rows();
  page.toggleAttribute("data-left-hand", true);
  const left = rows();
  page.toggleAttribute("data-left-hand", was);
  const faults = [];
  right.forEach((row, n) => row.forEach((a, i) => row.slice(i + 1).forEach((b, k) => {
    const [c, d] = [left[n][i], left[n][i + 1 + k]];
    const level = Math.abs(a.top - b.top) < 2 && c && d && Math.abs(c.top - d.top) < 2;
    if (level && a.left < b.left === c.left < d.left) faults.push(["left hand", `${a.id} and ${b.id} do not change sides`]);
  })));
  return faults;
}

/** All faults of the screen as it stands. */
export async function faultsOf(page) {
  // The focus is drawn only for somebody with a keyboard; what the key reaches first is of no matter.
  await page.keyboard.press("Tab");
  const found = await page.evaluate(measure, [TILE, TARGET, LANGUAGE, CONTRAST, page.viewportSize().width]);
  return [...found, ...(await page.evaluate(unmirrored))];
}

/** The accessibility tree in reading order, a line a thing: what a person hears who does not see the screen. */
export async function heard(phone) {
  const session = await phone.context.newCDPSession(phone.page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  await session.detach();
  const by = new Map(nodes.map((node) => [node.nodeId, node]));
  const lines = [];
  const tell = (node, depth) => {
    const role = node.role?.value ?? "";
    const text = node.name?.value ?? "";
    const quiet = node.ignored || ["InlineTextBox", "none", "generic", "RootWebArea", "paragraph", "list", "listitem", "ListMarker"].includes(role);
    const state = (node.properties ?? []).filter(({ name, value }) => ["pressed", "checked", "expanded", "level"].includes(name) && value.value !== "false")
      .map(({ name, value }) => `${name} ${value.value}`).join(", ");
    if (!quiet && !(role === "StaticText" && depth.inside)) lines.push(`${role}: ${text}${state ? ` (${state})` : ""}`);
    const inside = depth.inside || ["button", "heading", "link", "image", "switch"].includes(role);
    for (const id of node.childIds ?? []) if (by.has(id)) tell(by.get(id), { inside });
  };
  if (nodes[0]) tell(nodes[0], { inside: false });
  return lines;
}
