// Loads a part of the form when it is first used: a module beside the page, kept with it for use without signal.
"use strict";
globalThis.marrowbookPart = (at) => import(new URL(at, document.baseURI).href);
