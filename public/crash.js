// Runs before anything else, without wasm. If the form dies, never starts or cannot run in this browser, this says so
// in plain words that are already in the page, and leaves a note for the next start.
// Written in the JavaScript of 2009: a browser too old for the form must still be able to say so.
"use strict";
(function () {
  var KEY = "marrowbook.crash";
  var root = document.documentElement;
  var started = false;
  var stopped = false;
  // The language chosen on this phone, before the form itself can say it.
  // It is kept as a JSON text, quotes and all; so is the light, which nobody wants white at dusk.
  function kept(name) {
    try { return JSON.parse(localStorage.getItem("marrowbook-" + name)); } catch (refused) { return null; }
  }
  var chosen = kept("language");
  root.lang = chosen || "en";
  root.setAttribute("data-light", kept("light") || "day");

  function leaveNote(what) {
    var note = { at: new Date().toISOString(), started: started, what: String(what).slice(0, 2000) };
    try { localStorage.setItem(KEY, JSON.stringify(note)); } catch (refused) { /* storage refused: the words on screen must do */ }
  }

  function whenPageIsThere(act) {
    if (document.body && document.getElementById("crashed")) act();
    else document.addEventListener("DOMContentLoaded", act);
  }

  function show(head) {
    var words = document.getElementById("crashed");
    var opening = document.getElementById("opening");
    if (opening) opening.hidden = true;
    if (!words || !words.hidden) return;
    words.hidden = false;
    // What was on the screen stays readable, but a tap on it would no longer be saved.
    for (var i = 0; i < document.body.children.length; i += 1) {
      if (document.body.children[i] !== words) document.body.children[i].inert = true;
    }
    // A heading that takes the focus is read out and brought into view.
    head = words.querySelector(head);
    head.tabIndex = -1;
    head.focus();
  }

  function stop(what) {
    // A panic is told first and followed by its trap; the first message is the one worth keeping.
    if (stopped) return;
    stopped = true;
    leaveNote(what);
    whenPageIsThere(function () { show("h1"); });
  }

  function cannotRun(what) {
    stopped = true;
    leaveNote(what);
    var own = String(navigator.language).slice(0, 2);
    // Nobody can choose a language here: the browser's own, where there are words in it.
    if (!chosen && (own === "fr" || own === "es")) root.lang = own;
    root.setAttribute("data-too-old", what);
    // Half of the form must not come up beside these words.
    window.WebAssembly = undefined;
    whenPageIsThere(function () { show("h1.too-old"); });
  }

  // The panic hook in wasm calls this with the message and the place in the source.
  window.marrowbookCrash = stop;

  // After a trap the wasm's memory may be half written, so the form is over. Any other fault after
  // the start (a refused share, say) is only noted: the form still stands and must not cry wolf.
  function fault(error, text) {
    var trap = error instanceof WebAssembly.RuntimeError;
    if (trap || !started) stop(text); else if (!stopped) leaveNote(text);
  }

  // One module that uses what the compiler of the form does: two values from one function, copying memory, sign
  // extension, conversion without a trap, references (the WebAssembly standard's binary form, edition 2.0).
  var NEEDED = [0, 97, 115, 109, 1, 0, 0, 0, 1, 9, 2, 96, 0, 0, 96, 0, 2, 127, 127, 3, 2, 1, 0, 5, 3, 1, 0, 1, 10, 38, 1, 36, 0,
    65, 0, 65, 0, 65, 0, 252, 10, 0, 0, 65, 0, 192, 26, 67, 0, 0, 0, 0, 252, 0, 26, 208, 112, 26, 2, 1, 65, 0, 65, 0, 11, 26, 26, 11];

  if (typeof WebAssembly !== "object") return cannotRun("this browser has no WebAssembly");
  if (!WebAssembly.validate(new Uint8Array(NEEDED))) return cannotRun("this browser's WebAssembly is too old");
  if (!("noModule" in document.createElement("script"))) return cannotRun("this browser loads no modules");

  addEventListener("error", function (event) {
    // A picture or style that fails to load is an Event, not an ErrorEvent; a script is worth a word.
    if (event instanceof ErrorEvent) fault(event.error, event.message + " (" + event.filename + ":" + event.lineno + ")");
    else if (event.target instanceof HTMLScriptElement) fault(null, "a part of the form did not load: " + event.target.src);
  }, true);
  addEventListener("unhandledrejection", function (event) { fault(event.reason, "promise: " + event.reason); });
  addEventListener("TrunkApplicationStarted", function () {
    started = true;
    var opening = document.getElementById("opening");
    if (opening) opening.hidden = true;
  });
})();
