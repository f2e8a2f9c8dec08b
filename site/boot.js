// Starts the program in the page.

const FAILED = 'The calculator could not start in this browser. Please reload the page; if that ' +
    'does not help, a current version of the browser may.';
const FROM_FOLDER = 'Opened from a folder this page cannot start. The file tillerline.html beside ' +
    'it can: it holds everything.';

// Tests look at this object: the running program and what it last drew (page.js). A page that was
// refused (its hash is that of another build) leaves it empty.
// The program calls a copy of the page's functions, which a test can listen in on.
const Module = typeof Page === 'object' ? {page: {...Page}} : {};
for (const name of ['rects', 'frames', 'card', 'drawing']) {
  Object.defineProperty(Module, name, {get: () => Page.hooks[name]});
}
window.Module = Module;

const integrity = document.currentScript.dataset.wasm;

async function instantiate(imports) {
  if (typeof Embedded === 'object') {
    return WebAssembly.instantiate(await Embedded.bytes('app.wasm'), imports);
  }
  const response = await fetch('app.wasm', {integrity, credentials: 'same-origin'});
  if (/^application\/wasm/.test(response.headers.get('Content-Type'))) {
    return WebAssembly.instantiateStreaming(response, imports);
  }
  return WebAssembly.instantiate(await response.arrayBuffer(), imports);
}

// Emscripten does not hear of it when the instance it asks for cannot be made, so this does.
function start() {
  return new Promise((resolve, reject) => {
    Module.instantiateWasm = (imports, receive) => {
      instantiate(imports).then(({instance, module}) => receive(instance, module)).catch(reject);
      return {};
    };
    createApp(Module).then(resolve, reject);
  });
}

function giveUp(error) {
  if (error) console.error(error);
  const folder = location.protocol === 'file:' && typeof Embedded !== 'object';
  document.getElementById('notice').textContent = folder ? FROM_FOLDER : FAILED;
  document.documentElement.classList.add('reading');
}

const able = Module.page && typeof createApp === 'function' &&
    typeof WebAssembly === 'object';
if (able) {
  start().then(Page.attach).catch(giveUp);
} else {
  giveUp();
}
