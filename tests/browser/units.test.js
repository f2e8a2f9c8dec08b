// The reader's units: picked in the panel or on the text page, they hold everywhere at once, and
// the brief knows nothing of them.
'use strict';

const {test, assert} = require('./harness');

const OTHERS = ['km/h', 'lb', 'ft', '°F'];
const LB_PER_T = 1000 / 0.45359237;

async function pick(sheet, units) {
  await sheet.tap('open:view');
  for (const unit of units) await sheet.tap(`unit:${unit}`);
  await sheet.key('Escape');
}

const kept = (sheet, key) => sheet.page.evaluate((name) => localStorage.getItem('tillerline.' + name), key);

async function link(sheet) {
  await sheet.tap('open:share');
  await sheet.page.waitForFunction(() => document.getElementById('share-link').value.includes('#b1.'));
  const value = await sheet.page.locator('#share-link').inputValue();
  await sheet.page.click('#share-close');
  await sheet.settle();
  return value;
}

// Everything that the page reads out but the reasons, which keep the units of their sources, and
// where a default is from.
const read = (card) => [card.title, card.subtitle, card.day, card.card_headline, ...card.watch,
  ...card.assumptions, ...card.sections.flatMap((s) => [s.headline, s.caption, s.view, s.caution,
    ...s.rows.flatMap((row) => [row.label, row.value, row.note]), ...s.table.columns, ...s.table.rows.flat()]),
  ...card.legs.flatMap((leg) => [leg.title, leg.text, leg.speed, leg.brakes, leg.caution]),
  ...card.cautions.flatMap((caution) => [caution.label, caution.value, caution.note])];

test('units: one pick changes headline, fields and pictures at once, and not the brief', async ({open}) => {
  const sheet = await open();
  const before = await sheet.textPage();
  const linkBefore = await link(sheet);
  await pick(sheet, OTHERS);
  const {card} = await sheet.textPage();
  assert.match(card.title, /\blb$/);
  for (const text of read(card)) assert.doesNotMatch(text, /\d (kt|t|kg|m|km|°C)(?![\w/²³])/, text);
  assert.ok(read(before.card).some((text) => /\d kt/.test(text)), 'the pattern finds nothing to begin with');
  for (const input of card.inputs) assert.ok(!['kt', 't', 'm', 'kg', '°C'].includes(input.unit), input.label);
  const t = before.card.inputs.find((input) => input.key === 'mass_t').value;
  const mass = await sheet.input('mass_t');
  assert.ok(Math.abs(mass.value - t * LB_PER_T) <= 50, `${mass.value} lb for ${t} t`);
  assert.ok(mass.min / LB_PER_T >= before.card.inputs.find((input) => input.key === 'mass_t').min - 1e-9);
  assert.equal(await link(sheet), linkBefore);
  // Back again, all is as it was.
  await pick(sheet, ['kt', 't', 'm', '°C']);
  const after = await sheet.textPage();
  assert.deepEqual(after.card.inputs, before.card.inputs);
  assert.deepEqual(read(after.card), read(before.card));
});

test('units: the keypad takes pounds, refuses in pounds, and the unchanged number changes nothing', async ({open}) => {
  const sheet = await open();
  const t = (await sheet.input('mass_t')).value;
  await pick(sheet, ['lb']);
  await sheet.tap('tile:mass_t');
  await sheet.page.keyboard.type('2000000', {delay: 20});
  await sheet.key('Enter');
  assert.ok(await sheet.has('key:set'), 'the keypad closed');
  assert.match((await sheet.textPage()).card.status, /^Mass: 2\u00a0000\u00a0000 lb is outside \d{3}\u00a0\d{3} to \d{3}\u00a0\d{3} lb/);
  await sheet.tap('key:clear');
  await sheet.page.keyboard.type('600000', {delay: 20});
  await sheet.key('Enter');
  assert.ok(!(await sheet.has('key:set')), 'the keypad is open');
  const mass = await sheet.input('mass_t');
  assert.equal(mass.value, 600000);
  assert.ok(mass.entered);
  const stored = JSON.parse(await kept(sheet, 'brief'));
  assert.ok(Math.abs(stored.condition.mass_t - 600000 / LB_PER_T) < 1e-9, stored.condition.mass_t);
  // The number that stands there, typed again.
  await sheet.tap('tile:mass_t');
  await sheet.page.keyboard.type('600000', {delay: 20});
  await sheet.key('Enter');
  assert.deepEqual(JSON.parse(await kept(sheet, 'brief')).condition, stored.condition);
  await sheet.tap('undo');
  await sheet.tap('undo');
  await pick(sheet, ['t']);
  assert.equal((await sheet.input('mass_t')).value, t);
});

test('units: the choice outlives a reload', async ({open}) => {
  const sheet = await open();
  await pick(sheet, ['lb', '°F']);
  const {card} = await sheet.textPage();
  await sheet.reload();
  const again = (await sheet.textPage()).card;
  assert.deepEqual(again.inputs, card.inputs);
  assert.equal(again.title, card.title);
  assert.match(again.day, /°F/);
  assert.equal(await kept(sheet, 'units'), 'speed=kt mass=lb length=m temperature=°F pressure=bar');
});

test('units: the text page has them as choices and takes its numbers in them', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.enter('units-temperature', '°F');
  const air = await sheet.input('temperature_c');
  assert.equal(air.unit, '°F');
  const field = sheet.page.locator('#in-temperature_c');
  assert.equal(await field.inputValue(), air.text);
  await sheet.enter('temperature_c', '41');
  assert.equal((await sheet.input('temperature_c')).value, 41);
  assert.equal(JSON.parse(await kept(sheet, 'brief')).day.temperature_c, 5);
  await sheet.enter('temperature_c', '400');
  const {card} = await sheet.textPage();
  assert.match(card.problem.text, /^Air temperature: 400 °F is outside −\d+ to \d+ °F/);
  // A band of temperature is a difference: no 32 in it.
  const band = await sheet.input('brakes_now_band_c');
  await sheet.enter('units-temperature', '°C');
  assert.ok(Math.abs(band.value - 1.8 * (await sheet.input('brakes_now_band_c')).value) <= 0.5);
  assert.equal((await sheet.input('temperature_c')).value, 5);
});
