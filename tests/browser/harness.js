// The fixture of the browser tests: serves the built site, opens it in Chromium, and finds things
// on the sheet by the names the program gave them.
//
//   const {test, assert} = require('./harness');
//   test('the mass field opens the keypad', async ({open}) => {
//     const sheet = await open({width: 390, height: 844, touch: true});
//     await sheet.tap('tile:mass_t');
//     assert.ok(await sheet.has('key:7'));
//   });
//
// open(options): width, height, dpr, touch, dark, flags (of Chromium), reading (open the text page), at
// (another page of the site than the sheet), storage ({key: text} put into localStorage first),
// fresh (with the tour of a first start, which else was seen), worker (let the service worker keep
// the site; else there is none), origin (of another server) or
// url (of a sheet elsewhere). Any console error, uncaught exception, CSP violation or request that
// leaves the origin fails the test, unless it names it in options.allow (a regular expression).
//
// Two tests run at a time, each in a browser of its own (TILLERLINE_LANES changes their number).
// Browser contexts are used again by later tests, since a new one costs a new process: every test
// has pages of its own, and what a site can store is wiped before another test gets the context.
'use strict';

const assert = require('node:assert/strict');
const fs = require('node:fs');
const http = require('node:http');
const os = require('node:os');
const path = require('node:path');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const SITE = path.join(BUILD, 'site');
const SHOTS = path.join(BUILD, 'shots');
const TYPES = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8', '.wasm': 'application/wasm', '.svg': 'image/svg+xml',
  '.woff': 'font/woff', '.json': 'application/json', '.webmanifest': 'application/manifest+json',
};
// Software rendering inside a container, also as root. WebGL is drawn by SwiftShader; the rest of
// the page is cheaper without it. Pages of one context share a process. The headless shell is the
// same engine as Chromium without a window around it, which would cost as much again as a test.
const FLAGS = ['--no-sandbox', '--disable-dev-shm-usage', '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist', '--disable-gpu-compositing',
  '--renderer-process-limit=1'];
const LANES = Number(process.env.TILLERLINE_LANES) || Math.min(2, os.cpus().length);

const tests = [];
// With {byName: true} it runs only if it is asked for.
function test(name, body, {byName = false} = {}) {
  tests.push({name, body, byName, file: path.basename(test.file || '')});
}

// Serves `server.folder`, which a test may change, and lists what was asked for. `watcher`, a script
// beside this file, is put into the page before everything else.
function serve({folder = SITE, watcher} = {}) {
  const server = http.createServer((request, response) => {
    server.asked.push(request.url);
    let name = decodeURIComponent(new URL(request.url, 'http://x').pathname);
    if (name.endsWith('/')) name += 'index.html';
    const file = path.join(server.folder, path.normalize(name));
    if (watcher && name === '/index.html') {
      const html = fs.readFileSync(file, 'utf8').replace('<script', '<script src="watcher.js"></script><script');
      response.writeHead(200, {'Content-Type': TYPES['.html']}).end(html);
      return;
    }
    if (watcher && name === '/watcher.js') {
      response.writeHead(200, {'Content-Type': TYPES['.js']}).end(fs.readFileSync(path.join(__dirname, watcher)));
      return;
    }
    if (!file.startsWith(server.folder) || !fs.existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {'Content-Type': TYPES[path.extname(file)] || 'text/plain'});
    fs.createReadStream(file).pipe(response);
  });
  Object.assign(server, {folder, asked: []});
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => {
    server.origin = `http://127.0.0.1:${server.address().port}`;
    resolve(server);
  }));
}

// Both run in the page, in whatever engine: has the program started, and has it come to rest?
const started = () => Boolean(window.Module && window.Module.card &&
    (window.Module.frames > 0 || document.documentElement.classList.contains('no-canvas')));

const settled = () => new Promise((resolve) => {
  let calm = 0;
  const look = () => {
    calm = window.Module && window.Module.drawing ? 0 : calm + 1;
    if (calm > 2) resolve();
    else setTimeout(look, 16);
  };
  look();
});

class Sheet {
  constructor(page, context, options) {
    Object.assign(this, {page, context, options, problems: [], requests: []});
  }

  // Lets the program draw what it still has to draw: it says itself when it rests. What a user
  // does is at the program when the browser's answer is here; the second look is for what comes
  // of it a little later, such as a change of size.
  settle() {
    return this.page.evaluate(settled);
  }

  // Loads the page again, and waits until it is there.
  async reload() {
    await this.page.reload();
    await this.started();
  }

  // Waits until the program runs and has drawn, after the page was loaded anew, too.
  async started() {
    await this.page.waitForFunction(started, null, {timeout: 30000});
    await this.settle();
  }

  frames() {
    return this.page.evaluate(() => window.Module.frames);
  }

  rects() {
    return this.page.evaluate(() => window.Module.rects);
  }

  async has(id) {
    return id in (await this.rects());
  }

  async rect(id) {
    const rects = await this.rects();
    assert.ok(id in rects, `nothing called "${id}" was drawn; there are: ${Object.keys(rects).join(' ')}`);
    const [x, y, width, height] = rects[id];
    return {x, y, width, height};
  }

  async centre(id) {
    const {x, y, width, height} = await this.rect(id);
    const point = {x: x + width / 2, y: y + height / 2};
    const size = this.page.viewportSize();
    assert.ok(point.x >= 0 && point.y >= 0 && point.x < size.width && point.y < size.height,
        `"${id}" is outside the window, at ${point.x}, ${point.y}; scroll there first`);
    return point;
  }

  // With a finger where the page was opened with touch, else with the mouse.
  async tap(id) {
    const {x, y} = await this.centre(id);
    await this.tapAt(x, y);
  }

  async tapAt(x, y) {
    if (this.options.touch) {
      await this.page.touchscreen.tap(x, y);
    } else {
      await this.page.mouse.click(x, y);
    }
    await this.settle();
  }

  // Turns the wheel over the sheet until that thing lies inside the window: from the top by most
  // of a window until it comes into sight, then by what is missing.
  async scrollTo(id) {
    const size = this.page.viewportSize();
    const half = size.height / 2;
    if (!(await this.has(id))) {
      await this.page.mouse.move(size.width - 160, half);
      await this.page.mouse.wheel(0, -100000);
      await this.settle();
    }
    for (let i = 0; i < 120; ++i) {
      const rects = await this.rects();
      const known = rects[id];
      const middle = known ? known[1] + known[3] / 2 : Infinity;
      if (middle > 90 && middle < size.height - 40) return;
      const wanted = known ? middle - half : 0.75 * size.height;
      // One notch of the wheel, 100, moves the sheet by 60 px.
      const wheel = Math.sign(wanted) * Math.max(100, Math.min(Math.abs(wanted), 1.5 * half) / 0.6);
      await this.page.mouse.move(size.width - 160, half);
      await this.page.mouse.wheel(0, wheel);
      await this.settle();
    }
    assert.fail(`could not scroll to "${id}"`);
  }

  // Raw touches, for gestures: 'touchStart', 'touchMove', 'touchEnd' or 'touchCancel', with all
  // fingers that are down then as {x, y}.
  async touch(type, points) {
    if (!this.touches) this.touches = await this.context.newCDPSession(this.page);
    await this.touches.send('Input.dispatchTouchEvent',
        {type, touchPoints: points.map(({x, y}, id) => ({x, y, id}))});
  }

  // One finger from one place to another, slowly enough to be no throw.
  async dragFinger(from, to, steps = 12) {
    await this.touch('touchStart', [from]);
    for (let i = 1; i <= steps; ++i) {
      const share = i / steps;
      await this.touch('touchMove', [{x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share}]);
      await this.page.waitForTimeout(20);
    }
    await this.page.waitForTimeout(150);
    await this.touch('touchEnd', []);
    await this.settle();
  }

  // The published input or choice of that key.
  async input(key) {
    const {card} = await this.textPage();
    const found = [...card.inputs, ...card.choices, ...card.pickers].find((input) => input.key === key);
    assert.ok(found, `the card has no input "${key}"`);
    return found;
  }

  async key(name) {
    await this.page.keyboard.press(name);
    await this.settle();
  }

  // The card as published, and the text of the text page as a reader gets it.
  async textPage() {
    return this.page.evaluate(() => ({
      card: window.Module.card,
      text: document.getElementById('text-page').innerText,
    }));
  }

  // Types into a field of the text page and leaves it, as its user would.
  async enter(id, value) {
    await this.page.evaluate(([field, text]) => {
      const node = document.getElementById('in-' + field);
      if (!node) throw new Error(`the text page has no field "${field}"`);
      node.value = text;
      node.dispatchEvent(new Event('change', {bubbles: true}));
    }, [id, value]);
    await this.settle();
  }

  // The roles and names an assistive technology is given, as one text.
  async accessibilityTree() {
    const session = await this.context.newCDPSession(this.page);
    const {nodes} = await session.send('Accessibility.getFullAXTree');
    return nodes.filter((n) => !n.ignored && n.role && n.name && n.name.value)
        .map((n) => `${n.role.value}: ${n.name.value}`).join('\n');
  }

  // How many colours the canvas shows, by its picture: one colour only means nothing is drawn.
  async colours() {
    const png = await this.page.locator('#canvas').screenshot();
    return this.page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], {type: 'image/png'}));
      const surface = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
      surface.drawImage(bitmap, 0, 0);
      const data = surface.getImageData(0, 0, bitmap.width, bitmap.height).data;
      return new Set(new Uint32Array(data.buffer)).size;
    }, png.toString('base64'));
  }

  async shot(name) {
    fs.mkdirSync(SHOTS, {recursive: true});
    await this.page.screenshot({path: this.shotFile(name)});
  }

  shotFile(name) {
    return path.join(SHOTS, name + '.png');
  }
}

function watch(sheet, origin) {
  const {page, options} = sheet;
  const problem = (text) => {
    if (!options.allow || !options.allow.test(text)) sheet.problems.push(text);
  };
  page.on('console', (message) => {
    if (message.type() === 'error') problem('console: ' + message.text());
  });
  page.on('pageerror', (error) => problem('exception: ' + error.message));
  page.on('request', (request) => {
    const url = request.url();
    sheet.requests.push(url);
    if (!url.startsWith(origin + '/') && !/^(data|blob):/.test(url)) problem('request to ' + url);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) problem(`${response.status()} for ${response.url()}`);
  });
}

// What has to be set when a context is made; the rest is set for each page.
const contextKey = (options) =>
    JSON.stringify([options.dpr || 1, Boolean(options.touch), Boolean(options.worker)]);

// A browser for each set of flags, and in it the contexts that no test uses at the moment.
class Lane {
  constructor(origin) {
    Object.assign(this, {origin, browsers: new Map(), sheets: []});
  }

  async browser(flags) {
    const key = flags.join(' ');
    if (!this.browsers.has(key)) {
      const {chromium} = require(path.join(BUILD, 'node/node_modules/playwright-core'));
      const executablePath = process.env.TILLERLINE_CHROMIUM || '/usr/bin/chromium-headless-shell';
      const browser = await chromium.launch({executablePath, args: [...FLAGS, ...flags]});
      this.browsers.set(key, {browser, idle: new Map()});
    }
    return this.browsers.get(key);
  }

  async context(options) {
    const {browser, idle} = await this.browser(options.flags || []);
    const key = contextKey(options);
    const waiting = idle.get(key) || [];
    idle.set(key, waiting);
    const taken = waiting.pop() || {
      context: await browser.newContext({
        deviceScaleFactor: options.dpr || 1,
        hasTouch: Boolean(options.touch),
        isMobile: Boolean(options.touch),
        acceptDownloads: true,
        serviceWorkers: options.worker ? 'allow' : 'block',
      }),
      before: [],
    };
    return {...taken, giveBack: (before) => waiting.push({context: taken.context, before})};
  }

  async open(options) {
    const {context, before, giveBack} = await this.context(options);
    const page = await context.newPage();
    const sheet = new Sheet(page, context, options);
    sheet.giveBack = giveBack;
    this.sheets.push(sheet);
    const origin = options.origin || this.origin;
    await prepare(sheet, origin);
    await page.goto(options.url || origin + (options.at || '/'));
    if (!options.at) await sheet.started();
    // The pages of the test before kept the process alive until here.
    for (const old of before) await old.close();
    if (options.reading) await page.click('#read');
    return sheet;
  }

  // Wipes what the test's pages have stored. They stay until the context is used again.
  async finish() {
    for (const {page, context, options, giveBack} of this.sheets) {
      const session = await context.newCDPSession(page);
      for (const origin of new Set([this.origin, options.origin || this.origin]))
        await session.send('Storage.clearDataForOrigin', {origin, storageTypes: 'all'});
      await context.clearCookies();
      giveBack(context.pages());
    }
    this.sheets = [];
  }

  async close() {
    for (const {browser} of this.browsers.values()) await browser.close();
  }
}

async function prepare(sheet, origin) {
  const {page, options} = sheet;
  watch(sheet, origin);
  await page.setViewportSize({width: options.width || 1180, height: options.height || 820});
  await page.emulateMedia({colorScheme: options.dark ? 'dark' : 'light'});
  await page.addInitScript((storage) => {
    document.addEventListener('securitypolicyviolation', (event) => {
      console.error(`CSP: ${event.violatedDirective} ${event.blockedURI}`);
    });
    // Only on the first load, so that a test can see what a reload keeps.
    if (sessionStorage.getItem('opened')) return;
    sessionStorage.setItem('opened', 'yes');
    for (const [key, text] of Object.entries(storage)) localStorage.setItem('tillerline.' + key, text);
  }, {...(options.fresh ? {} : {tour: 'seen'}), ...options.storage});
}

// Runs one test and says how it went; answers whether it passed.
async function runOne({name, body}, lane) {
  const notes = [];
  const servers = [];
  const began = Date.now();
  let failure = null;
  try {
    await body({
      open: (options = {}) => lane.open(options),
      origin: lane.origin,
      note: (text) => notes.push(text),
      siteWith: async (watcher) => {
        servers.push(await serve({watcher}));
        return servers[0].origin + '/';
      },
    });
    for (const sheet of lane.sheets) assert.deepEqual(sheet.problems, []);
    console.log(`  ok   ${name} (${Date.now() - began} ms)`);
  } catch (error) {
    failure = error;
    console.log(`  FAIL ${name}\n${String(error.stack || error).replace(/^/gm, '       ')}`);
    for (const [i, sheet] of lane.sheets.entries()) {
      if (sheet.problems.length) console.log('       page: ' + sheet.problems.join('\n             '));
      await sheet.shot(`failed-${name.replace(/[^a-z0-9]+/gi, '-')}-${i}`).catch(() => {});
    }
  }
  for (const server of servers) server.close();
  for (const text of notes) console.log('       ' + text);
  return !failure;
}

// Runs every registered test whose name or file contains `filter`; answers {passed, failed}.
async function runAll(filter) {
  const server = await serve();
  const {origin} = server;
  const wanted = tests.filter(({name, file, byName}) => byName ? filter && file.includes(filter) :
    name.includes(filter) || file.includes(filter));
  const count = {passed: 0, failed: 0};
  const work = async () => {
    let lane = new Lane(origin);
    while (wanted.length > 0) {
      count[await runOne(wanted.shift(), lane) ? 'passed' : 'failed'] += 1;
      try {
        await lane.finish();
      } catch (error) {
        // A browser that died with its test must not take the next ones along.
        await lane.close().catch(() => {});
        lane = new Lane(origin);
      }
    }
    await lane.close();
  };
  await Promise.all(Array.from({length: LANES}, work));
  server.close();
  return count;
}

module.exports = {test, assert, serve, runAll, started, settled, SHOTS, BUILD};
