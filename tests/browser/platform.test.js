// What lies under the sheet: fingers, keys, wheel, files, storage, the system's look.
'use strict';

const {test, assert} = require('./harness');

const PHONE = {width: 390, height: 844, touch: true};

const mass = async (sheet) => (await sheet.input('mass_t')).value;

test('a finger that taps a value opens its keypad', async ({open}) => {
  const sheet = await open(PHONE);
  await sheet.tap('tile:mass_t');
  assert.ok(await sheet.has('key:7'), 'no keypad after a tap');
  await sheet.tap('key:cancel');
  assert.ok(!(await sheet.has('key:7')), 'the keypad stays after Cancel');
});

test('a finger that moves scrolls, and presses nothing', async ({open}) => {
  const sheet = await open(PHONE);
  const from = await sheet.centre('tile:mass_t');
  const before = await sheet.rect('tile:mass_t');
  await sheet.dragFinger(from, {x: from.x, y: from.y - 150});
  const after = await sheet.rect('tile:mass_t');
  assert.ok(Math.abs(before.y - after.y - 150) < 25, `moved by ${before.y - after.y} px, not by 150`);
  assert.ok(!(await sheet.has('key:7')), 'the drag opened a keypad');
});

test('a second finger calls the press off', async ({open}) => {
  const sheet = await open(PHONE);
  const at = await sheet.centre('tile:mass_t');
  const other = {x: at.x + 120, y: at.y + 160};
  await sheet.touch('touchStart', [at]);
  await sheet.settle();
  await sheet.touch('touchStart', [at, other]);
  await sheet.settle();
  await sheet.touch('touchEnd', [at]);
  await sheet.touch('touchEnd', []);
  await sheet.settle();
  assert.ok(!(await sheet.has('key:7')), 'two fingers opened a keypad');
  await sheet.tap('tile:mass_t');
  assert.ok(await sheet.has('key:7'), 'one finger does not work any more after two');
});

test('a touch that the system takes away presses nothing', async ({open}) => {
  // SDL asks to prevent even what can no longer be prevented, and Chromium remarks on it.
  const sheet = await open({...PHONE, allow: /attempt to cancel a touchcancel/});
  await sheet.touch('touchStart', [await sheet.centre('tile:mass_t')]);
  await sheet.settle();
  await sheet.touch('touchCancel', []);
  await sheet.settle();
  assert.ok(!(await sheet.has('key:7')));
  await sheet.tap('tile:mass_t');
  assert.ok(await sheet.has('key:7'));
});

test('digits typed at once all arrive, in order', async ({open}) => {
  const sheet = await open();
  await sheet.tap('tile:mass_t');
  // All before the next frame: key down and up of six keys.
  await sheet.page.keyboard.type('312.5');
  await sheet.page.keyboard.press('Enter');
  await sheet.settle();
  assert.equal(await mass(sheet), 312.5);
  assert.ok(!(await sheet.has('key:7')), 'Enter leaves the keypad open');
});

test('the wheel still moves what is under a resting mouse after a finger was used', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  await sheet.page.mouse.move(500, 700);
  await sheet.page.mouse.wheel(0, 100);
  await sheet.settle();
  await sheet.tap('tile:mass_t');
  await sheet.tap('key:cancel');
  const before = await sheet.rect('tile:mass_t');
  await sheet.page.mouse.move(500, 700);
  await sheet.page.mouse.wheel(0, 100);
  await sheet.settle();
  const after = await sheet.rect('tile:mass_t');
  assert.ok(before.y - after.y > 40, `moved by ${before.y - after.y} px`);
});

test('the wheel moves what is under the mouse', async ({open}) => {
  const sheet = await open({width: 1180, height: 820});
  const before = await sheet.rects();
  await sheet.page.mouse.move(800, 500);
  await sheet.page.mouse.wheel(0, 300);
  await sheet.settle();
  const after = await sheet.rects();
  assert.ok(after['figure:roll'] === undefined || after['figure:roll'][1] < before['figure:roll'][1] - 100,
      'the answers did not move');
  assert.deepEqual(after['tile:mass_t'], before['tile:mass_t'], 'the inputs moved, too');
});

test('a brief saved as a file can be taken in again', async ({open}) => {
  const sheet = await open();
  await sheet.enter('mass_t', '251.5');
  await sheet.tap('open:files');
  const download = sheet.page.waitForEvent('download');
  await sheet.tap('file:save-brief');
  const saved = await (await download).path();
  await sheet.enter('mass_t', '298');
  await sheet.tap('open:files');
  const chooser = sheet.page.waitForEvent('filechooser');
  await sheet.tap('file:take');
  await (await chooser).setFiles({name: 'brief.json', mimeType: 'application/json',
    buffer: require('node:fs').readFileSync(saved)});
  await sheet.page.waitForFunction(() => window.Module.card.inputs.some((i) => i.key === 'mass_t' && i.value === 251.5));
  assert.ok((await sheet.input('mass_t')).entered);
});

test('a file that is no document changes nothing and is explained', async ({open}) => {
  const sheet = await open();
  const before = await sheet.textPage();
  for (const text of ['', '{"format": "tillerline/brief", "version": 1}', '\u0000\u00ff not JSON', '['.repeat(5000)]) {
    await sheet.page.setInputFiles('#file', {name: 'odd.json', mimeType: 'application/json', buffer: Buffer.from(text)});
    await sheet.page.waitForFunction(() => /not taken in/.test(document.getElementById('status').textContent));
    const after = await sheet.textPage();
    assert.deepEqual(after.card.inputs, before.card.inputs);
    assert.deepEqual(after.card.sections, before.card.sections);
  }
  await sheet.shot('platform-bad-file');
});

test('a file far too large is refused unread', async ({open}) => {
  const sheet = await open();
  await sheet.page.setInputFiles('#file', {name: 'large.json', mimeType: 'application/json', buffer: Buffer.alloc(3000000, 32)});
  await sheet.page.waitForFunction(() => /not taken in/.test(document.getElementById('status').textContent));
  assert.equal(await mass(sheet), 298);
});

test('what was entered is still there after a reload', async ({open}) => {
  const sheet = await open();
  await sheet.enter('mass_t', '280');
  await sheet.enter('surface', 'wet');
  await sheet.reload();
  assert.equal(await mass(sheet), 280);
  assert.ok((await sheet.input('mass_t')).entered);
  assert.equal((await sheet.input('surface')).value, 'wet');
});

test('a kept brief that cannot be read gives the demo and a word about it', async ({open}) => {
  const sheet = await open({storage: {brief: '{"format": "tillerline/brief", "version": 1'}});
  assert.equal(await mass(sheet), 298);
  assert.ok(await sheet.colours() > 10);
});

test('without storage everything works but the keeping', async ({open}) => {
  const sheet = await open();
  await sheet.page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });
  await sheet.enter('mass_t', '270');
  assert.equal(await mass(sheet), 270);
});

// The brightness of the middle of the sheet's left margin, which is bare paper.
const paper = async (sheet) => {
  const png = await sheet.page.screenshot({clip: {x: 2, y: 400, width: 4, height: 4}});
  return sheet.page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], {type: 'image/png'}));
    const surface = new OffscreenCanvas(4, 4).getContext('2d');
    surface.drawImage(bitmap, 0, 0);
    const [r, g, b] = surface.getImageData(1, 1, 1, 1).data;
    return r + g + b;
  }, png.toString('base64'));
};

test('sheet and page follow the look of the system, also while open', async ({open}) => {
  const sheet = await open({dark: true});
  const theme = () => sheet.page.evaluate(() => document.documentElement.dataset.theme);
  assert.equal(await theme(), 'dark');
  assert.ok(await paper(sheet) < 150, 'the sheet is not dark');
  await sheet.page.emulateMedia({colorScheme: 'light'});
  await sheet.page.waitForFunction(() => document.documentElement.dataset.theme === 'light');
  await sheet.settle();
  assert.ok(await paper(sheet) > 600, 'the sheet stays dark');
});

test('after the context was lost and came back, the sheet can be used', async ({open}) => {
  const sheet = await open();
  await sheet.page.evaluate(async () => {
    const extension = document.getElementById('canvas').getContext('webgl2').getExtension('WEBGL_lose_context');
    extension.loseContext();
    await new Promise((resolve) => setTimeout(resolve, 200));
    extension.restoreContext();
    await new Promise((resolve) => setTimeout(resolve, 200));
  });
  await sheet.settle();
  await sheet.tap('tile:mass_t');
  await sheet.page.keyboard.type('300');
  await sheet.page.keyboard.press('Enter');
  await sheet.settle();
  assert.equal(await mass(sheet), 300);
  assert.ok(await sheet.colours() > 30, 'the sheet is blank');
});

test('the page\u2019s button lies on nothing that can be tapped', async ({open}) => {
  for (const size of [{width: 390, height: 844}, {width: 320, height: 640}, {width: 820, height: 1180}, {width: 1180, height: 820}]) {
    const sheet = await open({...size, touch: true});
    const button = await sheet.page.locator('#read').boundingBox();
    for (const [id, [x, y, width, height]] of Object.entries(await sheet.rects())) {
      if (id.startsWith('figure:')) continue;
      const apart = x + width <= button.x || button.x + button.width <= x ||
          y + height <= button.y || button.y + button.height <= y;
      assert.ok(apart, `"${id}" lies under the page's button at ${size.width} px`);
    }
  }
});

test('Control and z pressed quickly count as often as they were pressed', async ({open}) => {
  const sheet = await open();
  const was = await mass(sheet);
  for (const digits of ['301', '302', '303']) {
    await sheet.tap('tile:mass_t');
    await sheet.page.keyboard.type(digits);
    await sheet.key('Enter');
  }
  for (let i = 0; i < 3; ++i) await sheet.page.keyboard.press('Control+z');
  await sheet.settle();
  assert.equal(await mass(sheet), was);
});
