// Node 18 and newer define fetch(), and Emscripten 3.1.6 then takes Node.js for a browser.
if (typeof process === 'object') globalThis.fetch = undefined;
