// What a program for Node.js needs of its surroundings.
//
// Node 18 and newer define fetch(), and Emscripten 3.1.6 then takes Node.js for a browser.
if (typeof process === 'object') globalThis.fetch = undefined;

// Our own environment variables, which Emscripten would keep from the program.
Module['preRun'] = [].concat(Module['preRun'] || [], () => {
  if (typeof ENV !== 'object') return;
  for (const [name, value] of Object.entries(process.env)) {
    if (name.startsWith('TILLERLINE_')) ENV[name] = value;
  }
});
