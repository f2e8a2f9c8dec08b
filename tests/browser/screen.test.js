// The sheet as its user meets it: values, choices, legs, files, pictures, looks.
'use strict';

const fs = require('node:fs');
const {test, assert} = require('./harness');

const mass = async (sheet) => (await sheet.input('mass_t')).value;

async function setByKeys(sheet, tile, digits) {
  await sheet.tap(tile);
  for (const digit of digits) await sheet.tap('key:' + (digit === '.' ? 'point' : digit));
  await sheet.tap('key:set');
}

async function drag(sheet, id, dx) {
  const {x, y} = await sheet.centre(id);
  await sheet.page.mouse.move(x, y);
  await sheet.page.mouse.down();
  for (let i = 1; i <= 8; ++i) {
    await sheet.page.mouse.move(x + (dx * i) / 8, y);
    await sheet.page.waitForTimeout(40);
  }
  await sheet.page.mouse.up();
  await sheet.settle();
}

test('a mass set with the keypad changes the answer, and undo takes it back', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  const before = await sheet.textPage();
  const was = await mass(sheet);
  await setByKeys(sheet, 'tile:mass_t', '330.5');
  assert.equal(await mass(sheet), 330.5);
  const after = await sheet.textPage();
  assert.notEqual(before.card.sections[0].headline, after.card.sections[0].headline);
  assert.ok((await sheet.input('mass_t')).entered, 'the mass does not count as entered');
  await sheet.tap('undo');
  assert.equal(await mass(sheet), was);
});

test('a mass out of range is refused by name, value and range; nothing changes', async ({open}) => {
  const sheet = await open();
  const was = await mass(sheet);
  await setByKeys(sheet, 'tile:mass_t', '999');
  assert.ok(await sheet.has('key:set'), 'the keypad closed over a refused value');
  const {card} = await sheet.textPage();
  const {min, max} = await sheet.input('mass_t');
  assert.match(card.status, /Mass/);
  assert.match(card.status, /999/);
  assert.ok(card.status.includes(String(min)) && card.status.includes(String(max)), card.status);
  await sheet.key('Escape');
  assert.ok(!(await sheet.has('key:set')));
  assert.equal(await mass(sheet), was);
});

test('a tile dragged sideways changes by fine steps, as one step to undo', async ({open}) => {
  const sheet = await open();
  const was = await mass(sheet);
  await drag(sheet, 'tile:mass_t', 60);
  const now = await mass(sheet);
  assert.ok(now > was && now < was + 2, `from ${was} to ${now}`);
  await sheet.tap('undo');
  assert.equal(await mass(sheet), was);
});

test('another route is chosen from its list, and survives a reload', async ({open}) => {
  const sheet = await open();
  await sheet.tap('pick:route');
  const rects = await sheet.rects();
  const route = Object.keys(rects).filter((id) => id.startsWith('route:'))[1];
  const before = (await sheet.textPage()).card.subtitle;
  await sheet.tap(route);
  const after = (await sheet.textPage()).card.subtitle;
  assert.notEqual(before, after);
  await sheet.reload();
  assert.equal((await sheet.textPage()).card.subtitle, after);
});

test('a leg is edited, and a leg that breaks the route is refused with a sentence', async ({open}) => {
  const sheet = await open({height: 1000});
  // The inputs scroll by themselves, so the wheel turns over them.
  await sheet.page.mouse.move(150, 500);
  await sheet.page.mouse.wheel(0, 600);
  await sheet.settle();
  await sheet.tap('open:legs');
  await sheet.tap('leg:1');
  const before = (await sheet.textPage()).card.legs[0].title;
  await setByKeys(sheet, 'leg-tile:length_m', '555');
  const edited = (await sheet.textPage()).card;
  assert.notEqual(edited.legs[0].title, before);
  assert.match(edited.legs[0].title, /555 m/);
  // The first leg must be straight: moved behind the turn, the turn would come first.
  const count = edited.legs.length;
  await sheet.tap('leg:down');
  const refused = (await sheet.textPage()).card;
  assert.match(refused.status, /straight/i);
  assert.equal(refused.legs[0].title, edited.legs[0].title);
  await sheet.tap('leg:straight');
  assert.equal((await sheet.textPage()).card.legs.length, count + 1);
});

test('a file that is wrong is explained and changes nothing; the saved brief comes back', async ({open}) => {
  const sheet = await open();
  await setByKeys(sheet, 'tile:mass_t', '310');
  await sheet.tap('open:files');
  const [download] = await Promise.all(
      [sheet.page.waitForEvent('download'), sheet.tap('file:save-brief')]);
  const brief = fs.readFileSync(await download.path(), 'utf8');
  await setByKeys(sheet, 'tile:mass_t', '320');

  const bad = JSON.parse(brief);
  bad.condition.mass_t = 9999;
  await sheet.page.setInputFiles('#file', {
    name: 'bad.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(bad))});
  await sheet.settle();
  const {card} = await sheet.textPage();
  assert.match(card.status, /9999/);
  assert.ok(await sheet.has('panel:close'), 'no panel says what was wrong');
  assert.equal(await mass(sheet), 320);
  await sheet.tap('panel:close');

  await sheet.page.setInputFiles('#file', {
    name: 'good.json', mimeType: 'application/json', buffer: Buffer.from(brief)});
  await sheet.settle();
  assert.equal(await mass(sheet), 310);
});

test('each look is two taps away and is kept', async ({open}) => {
  const sheet = await open();
  const look = () => sheet.page.evaluate(() => document.documentElement.dataset.theme);
  assert.equal(await look(), 'light');
  for (const name of ['dark', 'night', 'light', 'night']) {
    await sheet.tap('open:view');
    await sheet.tap(`look:${name}`);
    assert.equal(await look(), name);
    await sheet.key('Escape');
    assert.ok(!(await sheet.has('panel:close')));
  }
  await sheet.reload();
  assert.equal(await look(), 'night');
});

test('the route picture is scrubbed by pointer and arrows, drawing only then', async ({open}) => {
  const sheet = await open();
  await sheet.scrollTo('figure:route');
  const shot = () => sheet.page.locator('#canvas').screenshot();
  const still = await shot();
  await drag(sheet, 'figure:route', 40);
  const scrubbed = await shot();
  assert.ok(!still.equals(scrubbed), 'the drag read nothing off');
  await sheet.key('ArrowRight');
  assert.ok(!scrubbed.equals(await shot()), 'the arrow key moved nothing');
  const frames = await sheet.frames();
  await sheet.page.waitForTimeout(1000);
  assert.equal(await sheet.frames(), frames);
});

test('everything that can be tapped is at least 48 px high, on a phone too', async ({open}) => {
  const sheet = await open({width: 390, height: 844, touch: true});
  const small = [];
  const look = async () => {
    const rects = await sheet.rects();
    // What the edge of the screen cuts off is whole elsewhere.
    for (const [id, [, y, , height]] of Object.entries(rects)) {
      const cut = y < 70 || y + height > 840;
      if (/^(figure|title)/.test(id) || cut) continue;
      if (height < 47.5) small.push(`${id}: ${height}`);
    }
  };
  await look();
  await sheet.tap('tile:mass_t');
  await look();
  assert.deepEqual(small, []);
});
