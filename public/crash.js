// Runs before anything else, without wasm. If the form dies or never starts, this says so in plain
// words that are already in the page, and leaves a note for the next start.
"use strict";
(() => {
  const KEY = "marrowbook.crash";
  // The language chosen on this phone, before the form itself can say it.
  // It is kept as a JSON text, quotes and all; so is the light, which nobody wants white at dusk.
  for (const [name, own, usual] of [["language", "lang", "en"], ["light", "data-light", "day"]]) {
    try { document.documentElement.setAttribute(own, JSON.parse(localStorage.getItem("marrowbook-" + name)) ?? usual); } catch { /* as the page has it */ }
  }
  let started = false;
  let stopped = false;

  function leaveNote(what) {
    const note = { at: new Date().toISOString(), started, what: String(what).slice(0, 2000) };
    try { localStorage.setItem(KEY, JSON.stringify(note)); } catch { /* storage refused: the words on screen must do */ }
  }

  function whenPageIsThere(act) {
    if (document.body && document.getElementById("crashed")) act();
    else document.addEventListener("DOMContentLoaded", act, { once: true });
  }

  function stop(what) {
    // A panic is told first and followed by its trap; the first message is the one worth keeping.
    if (stopped) return;
    stopped = true;
    leaveNote(what);
    whenPageIsThere(() => {
      const words = document.getElementById("crashed");
      const opening = document.getElementById("opening");
      if (opening) opening.hidden = true;
      if (words && words.hidden) {
        words.hidden = false;
        // What was on the screen stays readable, but a tap on it would no longer be saved.
        for (const other of document.body.children) if (other !== words) other.inert = true;
        // A heading that takes the focus is read out and brought into view.
        const head = words.querySelector("h1");
        head.tabIndex = -1;
        head.focus();
      }
    });
  }

  // The panic hook in wasm calls this with the message and the place in the source.
  window.marrowbookCrash = stop;

  // After a trap the wasm's memory may be half written, so the form is over. Any other fault after
  // the start (a refused share, say) is only noted: the form still stands and must not cry wolf.
  function fault(error, text) {
    const trap = error instanceof WebAssembly.RuntimeError;
    if (trap || !started) stop(text); else if (!stopped) leaveNote(text);
  }

  if (typeof WebAssembly !== "object") {
    stop("this browser has no WebAssembly");
    return;
  }
  addEventListener("error", (event) => {
    // A picture or style that fails to load is an Event, not an ErrorEvent; a script is worth a word.
    if (event instanceof ErrorEvent) fault(event.error, event.message + " (" + event.filename + ":" + event.lineno + ")");
    else if (event.target instanceof HTMLScriptElement) fault(null, "a part of the form did not load: " + event.target.src);
  }, true);
  addEventListener("unhandledrejection", (event) => fault(event.reason, "promise: " + event.reason));
  addEventListener("TrunkApplicationStarted", () => {
    started = true;
    const opening = document.getElementById("opening");
    if (opening) opening.hidden = true;
  });
})();
