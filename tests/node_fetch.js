// What a program for Node.js needs of its surroundings.
//
// Node 18 and newer define fetch(), and Emscripten 3.1.6 then takes Node.js for a browser.
if (typeof process === 'object') globalThis.fetch = undefined;

// Our own environment variables, which Emscripten would keep from the program. In plain old
// JavaScript: the optimiser that Emscripten runs over it loses the head of a newer loop.
Module['preRun'] = [].concat(Module['preRun'] || [], function () {
  if (typeof ENV !== 'object') return;
  Object.keys(process.env).forEach(function (name) {
    if (name.indexOf('TILLERLINE_') === 0) ENV[name] = process.env[name];
  });
});
