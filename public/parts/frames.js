// Codes on the screen and codes before the camera: the border between the page and the wasm of this part. The build
// puts the wasm's name in, which changes when its bytes do, and a file of what is said here for each language.
import init, { Receiver, Sender, codes, text_modules } from "./FRAMES_FILE.js";

/** From code to code, in milliseconds: seven a second, so that a camera of thirty pictures a second has two sharp ones of each. */
const EACH_MS = 143;
/** Looks a second. */
const LOOKS = 8;
/** Side of the square that is read, in pixels: enough for a code that fills half of it. */
const SIDE = 720;
/** Light modules around a code (ISO/IEC 18004). */
const QUIET = 4;
/** Where the page leaves room for what this part draws; a screen that has gone takes it along. */
const BOX = "frames-box";

export async function ready() { await init(); }

/** Draws every code that the page has left room for: elements whose `data-code` is its text. */
export function draw() {
  for (const box of document.querySelectorAll("[data-code]:empty")) {
    const modules = text_modules(box.dataset.code);
    if (modules.length) box.append(picture(modules, box.className, box.dataset.label)[0]);
  }
}

/** Shows a file for the other phone's camera, until its room has gone. */
export async function show(language, bytes) {
  const say = await speaker(language), box = await room();
  if (!box) return;
  const sender = Sender.of(bytes);
  if (!sender) return box.replaceChildren(line(say("too_large", { kb: Math.ceil(bytes.length / 1000) }), { class: "alert", role: "alert", "data-frames": "failed" }));
  const all = sender.symbols(), far = line("", { "data-far": "" });
  const [svg, path] = picture(sender.modules(0), "frames", say("code"), { "data-frames": "shown", "data-round": all });
  const seconds = (n) => Math.ceil(n * EACH_MS / 1000);
  const tell = (n) => { far.textContent = say("passes", { pass: Math.floor(n / all) + 1, at: n % all + 1, n: all, s: seconds(n), all: seconds(all) }); };
  tell(0);
  box.replaceChildren(svg, far);
  let n = 0;
  const timer = setInterval(() => {
    if (!box.isConnected) { clearInterval(timer); sender.free(); return; }
    // On to the next while somebody can see it.
    if (document.hidden) return;
    n += 1;
    path.setAttribute("d", runs(sender.modules(n)));
    tell(n);
  }, EACH_MS);
}

/** Looks through the rear camera until a file is whole: its bytes. Fails with what to tell, or with nothing where the
 * person has gone on. */
export async function take(language) {
  const say = await speaker(language), box = await room();
  if (!box) throw undefined;
  const video = element("video", { class: "camera", playsinline: "", "aria-label": say("look") });
  video.muted = true;
  const bar = element("progress", { max: 1, value: 0, "aria-label": say("bar") });
  const word = line(say("opening"), { role: "status", "data-far": "0/0" });
  box.replaceChildren(video, bar, word, line(say("take_how")));
  const stream = await camera(say);
  try {
    video.srcObject = stream;
    await video.play().catch(() => {});
    word.textContent = say("search");
    return await looked(box, stream, video, bar, word, say);
  } finally {
    stream.getTracks().forEach((track) => track.stop());
    video.srcObject = null;
  }
}

/** Why there is no camera, and what next. Names as in Media Capture and Streams, section 10.2. */
async function camera(say) {
  try {
    return await navigator.mediaDevices.getUserMedia({
      audio: false, video: { facingMode: { ideal: "environment" }, width: { ideal: 1280 }, height: { ideal: 720 } },
    });
  } catch (error) {
    if (!navigator.mediaDevices || ["NotFoundError", "NotSupportedError", "OverconstrainedError"].includes(error.name)) throw say("no_camera");
    // What the browser says is for its maker; the name is enough to look it up.
    if (["NotAllowedError", "SecurityError"].includes(error.name)) throw say("denied");
    throw say("trouble", { reason: error.name });
  }
}

function looked(box, stream, video, bar, word, say) {
  const receiver = new Receiver();
  let pen = null;
  return new Promise((came, failed) => {
    const end = (then, value) => { clearInterval(timer); then(value); };
    for (const track of stream.getVideoTracks()) track.onended = () => end(failed, say("lost"));
    const hear = (said) => {
      const { have, need } = receiver;
      if (said === "whole") return end(came, receiver.whole());
      if (said === "more" || said === "same") {
        [bar.max, bar.value, word.dataset.far] = [need, have, `${have}/${need}`];
        word.textContent = say("progress", { have, need });
      } else if (said === "version" || said === "large" || said === "false") word.textContent = say(said);
      // What was read last stays on the screen while a look finds nothing.
      else if (need === 0) word.textContent = say(said === "foreign" ? "foreign" : "search");
    };
    const look = () => {
      if (!box.isConnected) return end(failed, undefined);
      const { videoWidth: wide, videoHeight: high } = video;
      if (document.hidden || !wide || !high) return;
      const from = Math.min(wide, high), side = Math.min(from, SIDE);
      if (pen?.canvas.width !== side) {
        const canvas = element("canvas", { width: side, height: side });
        pen = canvas.getContext("2d", { willReadFrequently: true });
      }
      pen.drawImage(video, (wide - from) / 2, (high - from) / 2, from, from, 0, 0, side, side);
      const read = codes(side, side, pen.getImageData(0, 0, side, side).data);
      if (read.length === 0) return hear("none");
      for (let at = 0; at + 2 <= read.length;) {
        const length = read[at] * 256 + read[at + 1];
        const said = receiver.take(read.subarray(at + 2, at + 2 + length));
        at += 2 + length;
        hear(said);
        if (said === "whole") return;
      }
    };
    const timer = setInterval(() => {
      try { look(); } catch (error) { end(failed, say("trouble", { reason: String(error) })); }
    }, 1000 / LOOKS);
  });
}

/** The page draws first. */
async function room() {
  await new Promise((then) => { setTimeout(then, 0); });
  return document.getElementById(BOX);
}

/** Lines of id, tab, text. */
async function speaker(language) {
  const texts = await (await fetch(new URL(`${language}.txt`, import.meta.url))).text();
  const known = new Map(texts.split("\n").map((row) => row.split("\t")));
  return (id, values = {}) => (known.get(id) ?? id).replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

function element(name, attributes, space) {
  const made = space ? document.createElementNS(space, name) : document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function line(text, attributes = {}) {
  const made = element("p", attributes);
  made.textContent = text;
  return made;
}

/** A code, black on white whatever the light, and its path. */
function picture(modules, name, label, more = {}) {
  const side = Math.sqrt(modules.length) + 2 * QUIET, space = "http://www.w3.org/2000/svg";
  const svg = element("svg", { class: name, viewBox: `0 0 ${side} ${side}`, role: "img", "aria-label": label, ...more }, space);
  const path = element("path", { d: runs(modules), fill: "#000000", "shape-rendering": "crispEdges" }, space);
  svg.append(element("path", { d: `M0 0h${side}v${side}h-${side}z`, fill: "#ffffff" }, space), path);
  return [svg, path];
}

/** Dark modules as runs of one path. */
function runs(modules) {
  const side = Math.sqrt(modules.length);
  let path = "";
  for (let at = 0; at < modules.length;) {
    let wide = 1;
    while ((at + wide) % side && modules[at + wide] === modules[at]) wide += 1;
    if (modules[at]) path += `M${at % side + QUIET} ${Math.floor(at / side) + QUIET}h${wide}v1h-${wide}z`;
    at += wide;
  }
  return path;
}
