// The drawn sheet by the keyboard alone: the frame that the arrows move, and what it presses.
'use strict';

const {test, assert} = require('./harness');

async function openForKeys(open, options = {}) {
  const sheet = await open(options);
  await sheet.page.focus('#canvas');
  return sheet;
}

// The name of the control that the frame stands around, or null.
async function framed(sheet) {
  const rects = await sheet.rects();
  if (!rects.focus) return null;
  // What scrolls may be cut above or below, and a picture's key may stand outside of its frame.
  const [x, y, width, height] = rects.focus;
  const near = (a, b) => Math.abs(a - b) < 1;
  const found = Object.keys(rects).find((id) => {
    const [left, top, across, down] = rects[id];
    return id !== 'focus' && !id.startsWith('title:') && near(left, x) && near(across, width) &&
        (near(top, y) || near(top + down, y + height) || (id.startsWith('figure:') && y + height < top + down));
  });
  assert.ok(found, `the frame stands around nothing that has a name: ${rects.focus} of ${JSON.stringify(rects)}`);
  return found;
}

// Presses the key until the frame stands there.
async function walk(sheet, key, id, most = 60) {
  for (let i = 0; i < most; ++i) {
    if (await framed(sheet) === id) return;
    await sheet.key(key);
  }
  assert.fail(`${most} times ${key} did not lead to "${id}" but to "${await framed(sheet)}"`);
}

async function typeNumber(sheet, digits) {
  for (const digit of digits) await sheet.key(digit);
  await sheet.key('Enter');
}

test('keys: mass, brakes and surface of the day, without a pointer', async ({open}) => {
  const sheet = await openForKeys(open);
  assert.equal(await framed(sheet), null);
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'tile:mass_t', 8);
  await typeNumber(sheet, '310');
  assert.equal((await sheet.input('mass_t')).value, 310);
  assert.equal(await framed(sheet), 'tile:mass_t', 'the frame was lost behind the keypad');
  await sheet.key('ArrowDown');
  assert.equal(await framed(sheet), 'tile:engines_running');
  await sheet.key('ArrowRight');
  await sheet.key('Enter');
  assert.ok(await sheet.has('key:set'), 'Enter on a tile opened no keypad');
  await typeNumber(sheet, '95');
  assert.equal((await sheet.input('brake_temperature_c')).value, 95);
  await walk(sheet, 'ArrowDown', 'choice:surface', 8);
  await sheet.key('Space');
  assert.equal(await framed(sheet), 'option:dry', 'the list opened without a frame');
  await sheet.key('ArrowDown');
  await sheet.key('Enter');
  assert.equal((await sheet.input('surface')).value, 'wet');
  assert.equal(await framed(sheet), 'choice:surface', 'the closed list left the frame elsewhere');
});

test('keys: a chip, a fold and an undo; Escape and a pointer take the frame away', async ({open}) => {
  const sheet = await openForKeys(open, {height: 1000});
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'chip:engine_anti_ice:false', 16);
  await sheet.key('ArrowRight');
  await sheet.key('Enter');
  assert.equal((await sheet.input('engine_anti_ice')).value, 'true');
  await walk(sheet, 'ArrowDown', 'fold:limits', 16);
  await sheet.key('Enter');
  await sheet.key('ArrowDown');
  assert.match(await framed(sheet), /^(tile|chip):/, 'nothing was unfolded');
  await sheet.key('Home');
  await sheet.key('ArrowDown');
  assert.equal(await framed(sheet), 'open:files');
  await sheet.key('ArrowRight');
  assert.equal(await framed(sheet), 'undo');
  await sheet.key('Enter');
  assert.equal((await sheet.input('engine_anti_ice')).value, 'false');
  await sheet.key('Escape');
  assert.equal(await framed(sheet), null);
  await sheet.key('ArrowRight');
  assert.ok(await framed(sheet));
  await sheet.page.mouse.click(700, 600);
  await sheet.settle();
  assert.equal(await framed(sheet), null, 'the frame stayed after a click');
});

test('keys: from the inputs to the sheet, into a picture and out of it', async ({open}) => {
  const sheet = await openForKeys(open);
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'tile:engines_running', 8);
  await sheet.key('ArrowRight');
  await sheet.key('ArrowRight');
  assert.match(await framed(sheet), /^(figure:(plan|strip)|answer:)/, 'right of the inputs is not the sheet');
  await walk(sheet, 'ArrowDown', 'answer:Brakes', 8);
  await sheet.key('Enter');
  await walk(sheet, 'ArrowDown', 'figure:route', 30);
  const shown = async () => sheet.page.locator('#canvas').screenshot();
  await sheet.key('Enter');
  const before = await shown();
  await sheet.key('ArrowRight');
  assert.equal(await framed(sheet), 'figure:route');
  assert.ok(!before.equals(await shown()), 'the arrow moved no reading');
  await sheet.key('Escape');
  assert.equal(await framed(sheet), 'figure:route', 'Escape took the frame away with the reading');
  await sheet.key('ArrowLeft');
  assert.notEqual(await framed(sheet), 'figure:route', 'the picture still has the arrows');
});

test('keys: the map of the roll is read in both directions', async ({open}) => {
  const sheet = await openForKeys(open);
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'tile:mass_t', 8);
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'figure:roll', 30);
  await sheet.key('Enter');
  const read = [];
  for (const key of ['ArrowRight', 'ArrowUp', 'ArrowLeft', 'ArrowDown', 'Shift+ArrowUp']) {
    await sheet.key(key);
    const names = Object.keys(await sheet.rects());
    assert.equal(await framed(sheet), 'figure:roll', `${key} led out of the picture`);
    read.push(names.find((id) => id.startsWith('reading:')));
  }
  assert.deepEqual(read, ['299 t at -0.20 %', '299 t at -0.15 %', '298 t at -0.15 %', '298 t at -0.20 %',
    '298 t at 0.30 %'].map((text) => 'reading:' + text));
  await sheet.key('Escape');
  await sheet.key('ArrowUp');
  assert.notEqual(await framed(sheet), 'figure:roll');
});

test('keys: one way down leads along every picture and to the last button', async ({open}) => {
  const sheet = await openForKeys(open, {width: 390, height: 844});
  await sheet.key('ArrowRight');
  const met = new Set();
  for (let i = 0; i < 400 && !met.has('proof:sheet') && !met.has('open:about'); ++i) {
    const id = await framed(sheet);
    if (id) met.add(id);
    await sheet.key('ArrowDown');
  }
  for (const id of ['pick:aircraft', 'tile:mass_t', 'open:legs', 'fold:bands', 'why:roll', 'figure:turn',
    'figure:eye', 'figure:route', 'figure:eye-stop', 'figure:restart', 'why:stop']) {
    assert.ok(met.has(id), `the way leads past "${id}"; met: ${[...met].join(' ')}`);
  }
  assert.ok(met.has('open:about') || met.has('proof:sheet'), `the way ends at "${[...met].pop()}"`);
});

test('keys: a panel opens with the frame in it, closes by Escape, and scrolls', async ({open}) => {
  const sheet = await openForKeys(open);
  await sheet.key('ArrowRight');
  await walk(sheet, 'ArrowDown', 'pick:aircraft', 4);
  await sheet.key('Enter');
  assert.match(await framed(sheet), /^aircraft:/);
  await sheet.key('ArrowUp');
  assert.equal(await framed(sheet), 'panel:close');
  await sheet.key('Escape');
  assert.equal(await framed(sheet), 'pick:aircraft');
  await walk(sheet, 'ArrowDown', 'open:legs', 60);
  await sheet.key('Enter');
  await walk(sheet, 'ArrowDown', 'leg:3', 8);
  await sheet.key('Enter');
  await sheet.key('ArrowDown');
  assert.match(await framed(sheet), /^leg-tile:/);
  await sheet.key('Enter');
  assert.ok(await sheet.has('key:set'));
  await sheet.key('Escape');
  assert.match(await framed(sheet), /^leg-tile:/, 'Escape closed more than the keypad');
});

test('keys: the frame on the wall, in study and beside the squared paper', async ({open}) => {
  const sheet = await openForKeys(open);
  const use = async (id) => {
    await sheet.tap('open:view');
    await sheet.tap('purpose:' + id);
  };
  await use('wall');
  await sheet.key('Enter');
  const first = await framed(sheet);
  assert.match(first, /^(wall|figure):/);
  await sheet.key('ArrowRight');
  assert.notEqual(await framed(sheet), first);
  await sheet.key('Escape');
  assert.equal(await framed(sheet), null);
  assert.ok(await sheet.has('wall:leave'), 'Escape left the wall with a frame shown');
  await sheet.key('Escape');
  await use('study');
  await sheet.key('ArrowRight');
  assert.match(await framed(sheet), /^exercise:/);
  await sheet.key('Enter');
  assert.ok(await sheet.has('study:list'), 'no exercise was opened');
  await sheet.key('Escape');
  await sheet.key('Escape');
  await sheet.page.mouse.move(200, 500);
  await sheet.page.mouse.wheel(0, 600);
  await sheet.settle();
  await sheet.tap('open:draw');
  await sheet.key('ArrowRight');
  assert.equal(await framed(sheet), null, 'the paper gave its arrows away');
  await sheet.key('Space');
  assert.match(await framed(sheet), /^(draw|drawn-tile):/);
  await walk(sheet, 'ArrowLeft', 'draw:new', 12);
  await sheet.key('Escape');
  assert.equal(await framed(sheet), null);
  await sheet.key('Escape');
  await sheet.key('Escape');
  assert.ok(!(await sheet.has('panel:close')));
});

test('keys: the frame draws nothing while it rests, and Tab leaves the sheet', async ({open}) => {
  const sheet = await openForKeys(open);
  await sheet.key('ArrowRight');
  const drawn = await sheet.frames();
  await sheet.page.waitForTimeout(300);
  assert.equal(await sheet.frames(), drawn);
  await sheet.page.keyboard.press('Tab');
  assert.notEqual(await sheet.page.evaluate(() => document.activeElement.id), 'canvas');
});
