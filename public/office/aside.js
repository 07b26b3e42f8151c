// A second thread beside the office's page, with the page's own program in it: what takes long is done here and no tap
// waits for it. The page sends the program and the address of its glue; the program then listens for itself
// (src/web/platform/aside.rs).
"use strict";
// A text is why nothing comes of it; the panic hook of the program tells by this name.
self.marrowbookCrash = (what) => self.postMessage(String(what));
self.onmessage = async (event) => {
  self.onmessage = null;
  const [program, glue] = event.data;
  try {
    const made = await import(glue);
    await made.default({ module_or_path: program });
  } catch (error) {
    self.postMessage(String(error));
  }
};
