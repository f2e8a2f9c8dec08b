// Without a network: the installed page, its update, and the one file that holds everything.
'use strict';

const {execFileSync} = require('node:child_process');
const fs = require('node:fs');
const os = require('node:os');
const path = require('node:path');
const {test, assert, serve} = require('./harness');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const SITE = path.join(BUILD, 'site');
const FINISH = path.join(__dirname, '../../site/finish.py');
const ONE_FILE = 'file://' + path.join(SITE, 'tillerline.html');
const DEMO_MASS_T = 298;

const mass = async (sheet) => (await sheet.input('mass_t')).value;
const build = (sheet) => sheet.page.evaluate(() => document.documentElement.dataset.build);
const offered = (sheet) => sheet.page.locator('#update').isVisible();

// A server of its own for each test: it is stopped, or gets another build.
async function withServer(body) {
  const server = await serve();
  const stop = () => {
    server.close();
    server.closeAllConnections();
  };
  try {
    await body(server, stop);
  } finally {
    stop();
  }
}

// A build of the same parts with one file changed, in a folder that goes away after the body.
async function withBuild(change, body) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'tillerline-'));
  try {
    const parts = path.join(folder, 'parts');
    fs.cpSync(path.join(BUILD, 'parts'), parts, {recursive: true});
    change(parts);
    execFileSync('python3', [FINISH, parts, path.join(folder, 'site')], {stdio: 'pipe'});
    await body(path.join(folder, 'site'));
  } finally {
    fs.rmSync(folder, {recursive: true});
  }
}

function edit(file, from, to) {
  const text = fs.readFileSync(file, 'utf8');
  assert.ok(text.includes(from), `"${from}" is not in ${file}`);
  fs.writeFileSync(file, text.replace(from, to));
}

const newer = (parts) => edit(path.join(parts, 'index.html'), 'About this sheet', 'About this newer sheet');

// Opens the site and waits until the worker has kept all of it.
async function openKept(open, server, options = {}) {
  const sheet = await open({worker: true, origin: server.origin, ...options});
  await sheet.page.waitForFunction(() => navigator.serviceWorker.controller, null, {timeout: 20000});
  return sheet;
}

async function lookForUpdate(sheet) {
  await sheet.page.evaluate(() => window.dispatchEvent(new PageTransitionEvent('pageshow')));
}

const waiting = (sheet) => sheet.page.waitForFunction(async () =>
  (await navigator.serviceWorker.getRegistration()).waiting !== null, null, {timeout: 20000});

const keys = (sheet) => sheet.page.evaluate(async () => {
  const found = [];
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    found.push(...(await cache.keys()).map((request) => new URL(request.url)));
  }
  return found.map((url) => url.pathname.slice(1) + url.search).sort();
});

test('the page can be installed: manifest and icons are what they say', async ({open, origin}) => {
  const sheet = await open();
  const found = await sheet.page.evaluate(async () => {
    const link = document.querySelector('link[rel=manifest]');
    const manifest = await (await fetch(link.href)).json();
    const icons = [...manifest.icons,
      {src: document.querySelector('link[rel=apple-touch-icon]').getAttribute('href'), sizes: '180x180'}];
    const sizes = await Promise.all(icons.map(({src}) => new Promise((resolve) => {
      const image = new Image();
      image.onload = () => resolve(`${image.naturalWidth}x${image.naturalHeight}`);
      image.onerror = () => resolve('not loaded');
      image.src = src;
    })));
    return {manifest, icons: icons.map((icon, i) => ({...icon, loaded: sizes[i]}))};
  });
  const {manifest, icons} = found;
  assert.equal(manifest.name, 'Tillerline – taxi briefing');
  assert.equal(manifest.short_name, 'Tillerline');
  assert.equal(manifest.id, 'tillerline');
  assert.equal(manifest.display, 'standalone');
  assert.equal(manifest.lang, 'en');
  assert.match(manifest.description, /never replaces manuals/);
  for (const key of ['start_url', 'scope']) {
    assert.equal(new URL(manifest[key], origin + '/manifest.webmanifest').href, origin + '/');
  }
  for (const key of ['background_color', 'theme_color']) assert.match(manifest[key], /^#[0-9a-f]{6}$/);
  for (const {src, sizes, loaded} of icons) {
    if (sizes === 'any') assert.notEqual(loaded, 'not loaded', src);
    else assert.equal(loaded, sizes, src);
  }
  for (const purpose of ['any', 'maskable']) {
    for (const sizes of ['192x192', '512x512']) {
      assert.ok(manifest.icons.some((icon) => icon.purpose === purpose && icon.sizes === sizes),
          `no ${purpose} icon of ${sizes}`);
    }
  }
  // The browser's own opinion.
  const session = await sheet.context.newCDPSession(sheet.page);
  const {errors} = await session.send('Page.getAppManifest');
  assert.deepEqual(errors, []);
  const {installabilityErrors} = await session.send('Page.getInstallabilityErrors');
  // A test's window is a private one, in which nothing can be installed; nothing else may be amiss.
  assert.deepEqual(installabilityErrors.filter(({errorId}) => errorId !== 'in-incognito'), []);
});

test('a maskable icon keeps its drawing inside the circle of 80 %', async ({open}) => {
  const sheet = await open();
  const outside = await sheet.page.evaluate(async () => {
    const bitmap = await createImageBitmap(await (await fetch('icon-maskable-512.png')).blob());
    const surface = new OffscreenCanvas(512, 512).getContext('2d');
    surface.drawImage(bitmap, 0, 0);
    const {data} = surface.getImageData(0, 0, 512, 512);
    let petrol = 0;
    let clear = 0;
    for (let i = 0; i < data.length; i += 4) {
      const away = Math.hypot((i / 4) % 512 - 255.5, Math.floor(i / 2048) - 255.5);
      // The nose's path is blue-green; the painted line may run on to the edge.
      if (away > 0.4 * 512 && data[i + 2] - data[i] > 40) petrol += 1;
      if (data[i + 3] < 255) clear += 1;
    }
    return {petrol, clear};
  });
  assert.deepEqual(outside, {petrol: 0, clear: 0});
});

test('kept once, the sheet starts and computes with the server gone', async ({open}) => {
  await withServer(async (server, stop) => {
    const sheet = await openKept(open, server, {allow: /ERR_CONNECTION_REFUSED/});
    await sheet.enter('mass_t', '251.5');
    stop();
    await assert.rejects(fetch(server.origin), 'the server still answers');
    await sheet.page.reload();
    await sheet.started();
    assert.equal(await mass(sheet), 251.5);
    const before = (await sheet.textPage()).card.card_headline;
    await sheet.enter('mass_t', '340');
    assert.equal(await mass(sheet), 340);
    assert.notEqual((await sheet.textPage()).card.card_headline, before);
    assert.ok(await sheet.colours() > 10, 'nothing is drawn');
    await sheet.shot('offline-sheet');
    for (const name of ['proof.html', 'index.html?from=elsewhere', 'licences.txt']) {
      const response = await sheet.page.goto(`${server.origin}/${name}`);
      assert.equal(response.status(), 200, name);
      assert.ok(response.fromServiceWorker(), name);
    }
  });
});

test('the worker keeps every file of the site, and nothing else', async ({open}) => {
  await withServer(async (server) => {
    const sheet = await openKept(open, server);
    const kept = (await keys(sheet)).map((key) => key.split('?')[0]);
    assert.deepEqual(kept, fs.readdirSync(SITE).filter((name) => name !== 'worker.js').sort());
    assert.ok(kept.includes('proof.html') && kept.includes('app.wasm'));
    const away = server.asked.filter((url) => !url.startsWith('/'));
    assert.deepEqual(away, []);
  });
});

test('nothing in the site names another address', async () => {
  const names = ['offline.js', 'page.js', 'boot.js', 'style.css', 'index.html',
    'manifest.webmanifest'];
  const SVG = 'http://www.w3.org/2000/svg';  // a name, not an address
  const text = (name) => fs.readFileSync(path.join(SITE, name), 'utf8').replaceAll(SVG, '');
  for (const name of names) {
    assert.deepEqual(text(name).match(/\b(https?|wss?):\/\/[\w.-]+/g), null, name);
  }
  // Workbox names one in an error message; it loads nothing.
  assert.doesNotMatch(text('worker.js'), /importScripts/);
});

test('a new build is offered, runs only after the tap, and what was entered stays', async ({open}) => {
  await withServer((server) => withBuild(newer, async (folder) => {
    const sheet = await openKept(open, server);
    const old = await build(sheet);
    await sheet.enter('mass_t', '277');
    assert.ok(!(await offered(sheet)));
    const before = await keys(sheet);
    server.folder = folder;
    await lookForUpdate(sheet);
    await waiting(sheet);
    // The new one is there and waits; the old one runs, also after a reload.
    await sheet.page.reload();
    await sheet.started();
    assert.equal(await build(sheet), old);
    await sheet.page.waitForSelector('#update:visible', {timeout: 10000});
    assert.match(await sheet.page.locator('#update [role=status]').innerText(), /A new version is ready/);
    await sheet.settle();
    await sheet.shot('offline-offer');
    await sheet.page.evaluate(() => { window.stays = true; });
    await sheet.page.click('#update-now');
    await sheet.page.waitForFunction(() => !window.stays);
    await sheet.started();
    assert.notEqual(await build(sheet), old);
    assert.match((await sheet.textPage()).text, /About this newer sheet/);
    assert.match((await sheet.textPage()).text, new RegExp(`Tillerline \\S+, build ${await build(sheet)}`));
    assert.equal(await mass(sheet), 277);
    assert.ok(!(await offered(sheet)), 'the offer stays after it was taken');
    // What the old build had and the new one has not is gone.
    const after = await keys(sheet);
    assert.equal(after.length, before.length);
    assert.equal(after.filter((key) => !before.includes(key)).length, 2, after.join(' '));
  }));
});

test('"Later" leaves the old build in peace', async ({open}) => {
  await withServer((server) => withBuild(newer, async (folder) => {
    const sheet = await openKept(open, server);
    const old = await build(sheet);
    server.folder = folder;
    await lookForUpdate(sheet);
    await sheet.page.waitForSelector('#update:visible', {timeout: 20000});
    const {height} = await sheet.page.locator('#canvas').boundingBox();
    await sheet.page.click('#update-later');
    assert.ok(!(await offered(sheet)));
    await sheet.settle();
    assert.ok((await sheet.page.locator('#canvas').boundingBox()).height > height);
    await lookForUpdate(sheet);
    await sheet.page.waitForTimeout(4000);
    assert.ok(!(await offered(sheet)), 'it is offered again at once');
    await sheet.enter('mass_t', '300');
    assert.equal(await mass(sheet), 300);
    assert.equal(await build(sheet), old);
  }));
});

test('a second window is not reloaded when the first takes the new build', async ({open}) => {
  await withServer((server) => withBuild(newer, async (folder) => {
    const first = await openKept(open, server);
    const old = await build(first);
    server.folder = folder;
    await lookForUpdate(first);
    await waiting(first);
    const page = await first.context.newPage();
    await page.goto(server.origin + '/');
    await page.waitForFunction(() => window.Module && window.Module.card);
    await page.evaluate(() => { window.stays = true; });
    await first.page.bringToFront();
    await first.page.waitForSelector('#update:visible', {timeout: 20000});
    await first.page.evaluate(() => { window.stays = true; });
    await first.page.click('#update-now');
    await first.page.waitForFunction(() => !window.stays);
    await first.started();
    assert.notEqual(await build(first), old);
    await page.bringToFront();
    await page.waitForSelector('#update:visible', {timeout: 10000});
    assert.ok(await page.evaluate(() => window.stays), 'the second window was reloaded');
    await page.click('#update-now');
    await page.waitForFunction(() => !window.stays && window.Module && window.Module.card);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.build), await build(first));
  }));
});

test('a mixture of two builds is neither kept nor run', async ({open}) => {
  const mixed = /Failed to find a valid digest|does not match|integrity/i;
  await withServer((server) => withBuild(newer, async (folder) => {
    const sheet = await openKept(open, server, {allow: mixed});
    const old = await build(sheet);
    // The new list with a page and a program of which nobody knows. The page is what the new build
    // brings; the program is kept already and not asked for again.
    for (const name of ['index.html', 'page.js']) fs.appendFileSync(path.join(folder, name), '\n');
    server.folder = folder;
    await lookForUpdate(sheet);
    await sheet.page.waitForTimeout(5000);
    await sheet.page.waitForFunction(async () =>
      (await navigator.serviceWorker.getRegistration()).installing === null);
    const registration = await sheet.page.evaluate(async () => {
      const {waiting: newer, active} = await navigator.serviceWorker.getRegistration();
      return {waiting: newer !== null, active: active !== null};
    });
    assert.deepEqual(registration, {waiting: false, active: true});
    await sheet.page.reload();
    await sheet.started();
    assert.equal(await build(sheet), old);
    // Without a worker the browser itself refuses the file, and the page says that it cannot start.
    const page = await (await sheet.context.browser().newContext({serviceWorkers: 'block'})).newPage();
    await page.goto(server.origin + '/');
    await page.waitForFunction(() => /could not start/.test(document.getElementById('notice').textContent));
    await page.context().close();
  }));
});

for (const [name, options] of [
  ['phone', {width: 390, height: 844, dpr: 2, touch: true}],
  ['phone-dark', {width: 390, height: 844, dpr: 2, touch: true, dark: true}],
  ['narrow', {width: 320, height: 640, touch: true}],
  ['text', {width: 820, height: 1180, touch: true, reading: true}],
]) {
  test(`the offer of a new build fits a ${name} screen and covers nothing`, async ({open}) => {
    const sheet = await open(options);
    // The bar alone, as offline.js shows it, without waiting for a build.
    await sheet.page.evaluate(() => {
      const bar = document.getElementById('update');
      bar.hidden = false;
      document.getElementById('update-text').textContent =
          'A new version is ready. What you entered stays. Later means at the next start.';
      document.documentElement.classList.add('offered');
      document.documentElement.style.setProperty('--offer', bar.offsetHeight + 'px');
    });
    await sheet.settle();
    const bar = await sheet.page.locator('#update').boundingBox();
    assert.equal(Math.round(bar.y + bar.height), options.height);
    for (const id of ['#update-now', '#update-later']) {
      const box = await sheet.page.locator(id).boundingBox();
      assert.ok(box.width >= 48 && box.height >= 48, `${id} is too small for a finger`);
      assert.ok(box.x >= 0 && box.x + box.width <= options.width, `${id} is outside the window`);
    }
    if (!options.reading) {
      const canvas = await sheet.page.locator('#canvas').boundingBox();
      assert.ok(canvas.y + canvas.height <= bar.y + 0.5, 'the bar covers the sheet');
    }
    await sheet.shot(`offline-offer-${name}`);
  });
}

test('the one file opens from a folder and computes', async ({open}) => {
  const sheet = await open({url: ONE_FILE, allow: /^request to file:/});
  assert.equal(await mass(sheet), DEMO_MASS_T);
  const before = (await sheet.textPage()).card.card_headline;
  await sheet.enter('mass_t', '340');
  assert.equal(await mass(sheet), 340);
  assert.notEqual((await sheet.textPage()).card.card_headline, before);
  assert.ok(await sheet.colours() > 10, 'nothing is drawn');
  const asked = sheet.requests.filter((url) => !/^(data|blob):/.test(url));
  assert.deepEqual(asked, [ONE_FILE]);
  await sheet.page.click('#read');
  const {text} = await sheet.textPage();
  assert.match(text, /This is the one-file edition/);
  assert.doesNotMatch(text, /Save as one file/);
  await sheet.page.evaluate(() => document.fonts.ready);
  assert.ok(await sheet.page.evaluate(() => document.fonts.check('18px Lato')), 'the font is missing');
  await sheet.shot('offline-one-file');
});

test('the one file is the same build as the site and answers the same', async ({open}) => {
  const single = await open({url: ONE_FILE, allow: /^request to file:/});
  const site = await open();
  assert.equal(await build(single), await build(site));
  for (const sheet of [single, site]) await sheet.enter('mass_t', '311.5');
  assert.deepEqual((await single.textPage()).card, (await site.textPage()).card);
});

test('the book of checks and the licences are inside the one file', async ({open}) => {
  const sheet = await open({url: ONE_FILE, reading: true, allow: /^request to file:/});
  const opened = async (act) => {
    const popup = sheet.context.waitForEvent('page');
    await act();
    const page = await popup;
    await page.waitForLoadState();
    return page;
  };
  const checks = JSON.parse(fs.readFileSync(path.join(BUILD, 'proof.json'), 'utf8')).checks;
  const byLink = await opened(() => sheet.page.click('#proof'));
  assert.match(byLink.url(), /^blob:/);
  assert.equal(await byLink.locator('.check:visible').count(), checks.length);
  await byLink.check('#worked');
  assert.equal(await byLink.locator('.check:visible').count(),
      checks.filter((c) => c.kind === 'measured' || c.kind === 'worked').length);
  const licences = await opened(() => sheet.page.click('a[href="licences.txt"]'));
  assert.match(await licences.locator('body').innerText(), /Tillerline[\s\S]*Workbox/);
  // As the drawn sheet's button asks for it.
  const byButton = await opened(() =>
    sheet.page.evaluate(() => window.Module.page.openPage('proof.html')));
  assert.equal(await byButton.locator('h1').innerText(), 'How do you know?');
});

test('the one file works where nothing can be stored', async ({open}) => {
  const sheet = await open({url: ONE_FILE, allow: /^request to file:/});
  await sheet.page.addInitScript(() => {
    for (const name of ['localStorage', 'sessionStorage']) {
      Object.defineProperty(window, name, {get() { throw new DOMException('no', 'SecurityError'); }});
    }
  });
  sheet.options.allow = /^request to file:|^exception: no$/;  // of the harness's own script
  await sheet.page.reload();
  await sheet.started();
  await sheet.enter('mass_t', '270');
  assert.equal(await mass(sheet), 270);
});

test('a changed script in the one file is refused', async ({open}) => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'tillerline-'));
  try {
    const file = path.join(folder, 'changed.html');
    const text = fs.readFileSync(path.join(SITE, 'tillerline.html'), 'utf8');
    fs.writeFileSync(file, text.replace('<script>', '<script>window.foreign = true;'));
    const {context} = await open();
    const page = await context.newPage();
    await page.goto('file://' + file);
    assert.equal(await page.evaluate(() => window.foreign), undefined);
  } finally {
    fs.rmSync(folder, {recursive: true});
  }
});

test('"Save as one file" hands out that file, without a network, too', async ({open}) => {
  await withServer(async (server, stop) => {
    const sheet = await openKept(open, server, {reading: true});
    stop();
    const download = sheet.page.waitForEvent('download');
    await sheet.page.click('#one-file');
    const saved = await download;
    assert.equal(saved.suggestedFilename(), 'tillerline.html');
    assert.deepEqual(fs.readFileSync(await saved.path()),
        fs.readFileSync(path.join(SITE, 'tillerline.html')));
  });
});

test('the drawn sheet hands out the one file and the licences, too', async ({open}) => {
  const sheet = await open();
  await sheet.page.focus('#canvas');
  await sheet.key('End');
  await sheet.scrollTo('open:about');
  await sheet.tap('open:about');
  const reach = async (id) => {
    const {height, width} = sheet.page.viewportSize();
    await sheet.page.mouse.move(width / 2, height / 2);
    for (let i = 0; i < 30; ++i) {
      const rect = (await sheet.rects())[id];
      if (rect && rect[1] + rect[3] < height - 40) return;
      await sheet.page.mouse.wheel(0, 300);
      await sheet.settle();
    }
    assert.fail(`could not reach "${id}"`);
  };
  await reach('about:one-file');
  await sheet.shot('offline-about');
  const download = sheet.page.waitForEvent('download');
  await sheet.tap('about:one-file');
  assert.equal((await download).suggestedFilename(), 'tillerline.html');
  await reach('about:licences');
  await sheet.shot('offline-about-licences');
  const [page] = await Promise.all([sheet.context.waitForEvent('page'), sheet.tap('about:licences')]);
  await page.waitForLoadState();
  assert.match(await page.locator('body').innerText(), /Tillerline[\s\S]*Workbox/);
});

test('the site\u2019s own page, opened from a folder, says which file to open', async ({open}) => {
  const {context} = await open();
  const page = await context.newPage();
  await page.goto('file://' + path.join(SITE, 'index.html'));
  await page.waitForFunction(() => /tillerline\.html beside it/.test(document.getElementById('notice').textContent));
  assert.ok(await page.locator('#notice').isVisible());
});
