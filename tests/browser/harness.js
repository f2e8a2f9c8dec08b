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
// open(options): width, height, dpr, touch, dark, flags (of Chromium), reading (open the twin),
// storage ({key: text} put into localStorage first), worker (let the service worker keep the site;
// else there is none), origin (of another server) or url (of another page). Any console error,
// uncaught exception, CSP violation or request that leaves the origin fails the test, unless it
// names it in options.allow (a regular expression).
'use strict';

const assert = require('node:assert/strict');
const fs = require('node:fs');
const http = require('node:http');
const path = require('node:path');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const SITE = path.join(BUILD, 'site');
const SHOTS = path.join(BUILD, 'shots');
const TYPES = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8', '.wasm': 'application/wasm', '.svg': 'image/svg+xml',
  '.woff': 'font/woff', '.json': 'application/json', '.webmanifest': 'application/manifest+json',
};
// Software rendering inside a container, also as root.
const FLAGS = ['--no-sandbox', '--disable-dev-shm-usage', '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'];

const tests = [];
function test(name, body) {
  tests.push({name, body});
}

// Serves `server.folder`, which a test may change, and lists what was asked for.
function serve(folder = SITE) {
  const server = http.createServer((request, response) => {
    server.asked.push(request.url);
    let name = decodeURIComponent(new URL(request.url, 'http://x').pathname);
    if (name.endsWith('/')) name += 'index.html';
    const file = path.join(server.folder, path.normalize(name));
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

class Sheet {
  constructor(page, context, options) {
    Object.assign(this, {page, context, options, problems: [], requests: []});
  }

  // Waits until the program runs and has drawn, after the page was loaded anew, too.
  async started() {
    await this.page.waitForFunction(() => window.Module && window.Module.card &&
        (window.Module.frames > 0 || document.documentElement.classList.contains('no-canvas')),
    null, {timeout: 20000});
    await this.settle();
  }

  // Lets the program draw what it still has to draw.
  async settle() {
    let before = -1;
    let now = await this.frames();
    while (before !== now) {
      before = now;
      await this.page.waitForTimeout(120);
      now = await this.frames();
    }
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

  // Turns the wheel over the sheet until that thing lies inside the window: from the top by half
  // windows until it comes into sight, then by what is missing.
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
      const wanted = known ? middle - half : half;
      // One notch of the wheel, 100, moves the sheet by 60 px.
      const wheel = Math.sign(wanted) * Math.max(100, Math.min(Math.abs(wanted), half) / 0.6);
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
    const {card} = await this.twin();
    const found = [...card.inputs, ...card.choices, ...card.pickers].find((input) => input.key === key);
    assert.ok(found, `the card has no input "${key}"`);
    return found;
  }

  async key(name) {
    await this.page.keyboard.press(name);
    await this.settle();
  }

  // The card as published, and the text of the twin as a reader gets it.
  async twin() {
    return this.page.evaluate(() => ({
      card: window.Module.card,
      text: document.getElementById('twin').innerText,
    }));
  }

  // Types into a field of the twin and leaves it, as its user would.
  async enter(id, value) {
    await this.page.evaluate(([field, text]) => {
      const node = document.getElementById('in-' + field);
      if (!node) throw new Error(`the twin has no field "${field}"`);
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
    await this.page.screenshot({path: path.join(SHOTS, name + '.png')});
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

async function openSheet(browser, origin, options) {
  const context = await browser.newContext({
    viewport: {width: options.width || 1180, height: options.height || 820},
    deviceScaleFactor: options.dpr || 1,
    hasTouch: Boolean(options.touch),
    isMobile: Boolean(options.touch),
    colorScheme: options.dark ? 'dark' : 'light',
    acceptDownloads: true,
    serviceWorkers: options.worker ? 'allow' : 'block',
  });
  const page = await context.newPage();
  const sheet = new Sheet(page, context, options);
  watch(sheet, origin);
  await page.addInitScript((storage) => {
    document.addEventListener('securitypolicyviolation', (event) => {
      console.error(`CSP: ${event.violatedDirective} ${event.blockedURI}`);
    });
    // Only on the first load, so that a test can see what a reload keeps.
    if (sessionStorage.getItem('opened')) return;
    sessionStorage.setItem('opened', 'yes');
    for (const [key, text] of Object.entries(storage)) localStorage.setItem('tillerline.' + key, text);
  }, options.storage || {});
  await page.goto(options.url || origin + '/');
  await sheet.started();
  if (options.reading) await page.click('#read');
  return sheet;
}

// Runs every registered test whose name contains `filter`; answers {passed, failed}.
async function runAll(filter) {
  const {chromium} = require(path.join(BUILD, 'node/node_modules/playwright-core'));
  const executablePath = process.env.TILLERLINE_CHROMIUM || '/usr/bin/chromium';
  const server = await serve();
  const {origin} = server;
  const browsers = new Map();
  const browserWith = async (flags) => {
    const key = flags.join(' ');
    if (!browsers.has(key)) {
      browsers.set(key, await chromium.launch({executablePath, args: [...FLAGS, ...flags]}));
    }
    return browsers.get(key);
  };
  let passed = 0;
  let failed = 0;
  for (const {name, body} of tests.filter((t) => t.name.includes(filter))) {
    const sheets = [];
    const open = async (options = {}) => {
      const browser = await browserWith(options.flags || []);
      const sheet = await openSheet(browser, options.origin || origin, options);
      sheets.push(sheet);
      return sheet;
    };
    const started = Date.now();
    try {
      await body({open, origin});
      for (const sheet of sheets) assert.deepEqual(sheet.problems, []);
      passed += 1;
      console.log(`  ok   ${name} (${Date.now() - started} ms)`);
    } catch (error) {
      failed += 1;
      console.log(`  FAIL ${name}\n${String(error.stack || error).replace(/^/gm, '       ')}`);
      for (const [i, sheet] of sheets.entries()) {
        if (sheet.problems.length) console.log('       page: ' + sheet.problems.join('\n             '));
        await sheet.shot(`failed-${name.replace(/[^a-z0-9]+/gi, '-')}-${i}`).catch(() => {});
      }
    }
    for (const sheet of sheets) await sheet.context.close();
  }
  for (const browser of browsers.values()) await browser.close();
  server.close();
  return {passed, failed};
}

module.exports = {test, assert, serve, runAll};
