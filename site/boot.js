// Starts the program in the page.
'use strict';

const FAILED = 'The calculator could not start in this browser. Please reload the page; if that ' +
    'does not help, a current version of the browser may.';

// Tests look at this object: the running program and what it last drew (page.js).
const Module = {page: Page};
for (const name of ['rects', 'frames', 'card', 'drawing']) {
  Object.defineProperty(Module, name, {get: () => Page.hooks[name]});
}
window.Module = Module;

if (typeof createApp === 'function' && typeof WebAssembly === 'object') {
  createApp(Module).then(Page.attach).catch((error) => {
    console.error(error);
    Twin.say(FAILED);
    document.documentElement.classList.add('reading');
  });
} else {
  Twin.say(FAILED);
  document.documentElement.classList.add('reading');
}
