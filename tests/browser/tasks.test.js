// What a stranger wants from the sheet, each by the shortest way with a finger on a tablet, from a
// fresh start. Taps and swipes are counted; more than the stated number is a failure.
'use strict';

const fs = require('node:fs');
const {test, assert} = require('./harness');

const TABLET = {width: 1180, height: 820, touch: true, fresh: true};
const INPUTS = 150;  // where a finger pulls the inputs

class Finger {
  constructor(sheet) {
    Object.assign(this, {sheet, taps: 0, swipes: 0});
  }

  async tap(id) {
    this.taps += 1;
    await this.sheet.tap(id);
  }

  // A number by the keypad: its tile, its digits, Set.
  async set(key, digits) {
    await this.tap('tile:' + key);
    for (const digit of digits) await this.tap('key:' + (digit === '.' ? 'point' : digit));
    await this.tap('key:set');
    assert.equal((await this.sheet.input(key)).value, Number(digits), `${key} was not taken`);
  }

  // Pulls a column up until the middle of that thing can be tapped.
  async pullTo(id, x) {
    const {height} = this.sheet.page.viewportSize();
    for (let i = 0; i < 40; ++i) {
      const known = (await this.sheet.rects())[id];
      if (known && known[1] + known[3] / 2 > 60 && known[1] + known[3] / 2 < height - 60) return;
      this.swipes += 1;
      await this.sheet.dragFinger({x, y: height - 100}, {x, y: 120}, 5);
    }
    assert.fail(`could not pull to "${id}"`);
  }

  async scrub(id) {
    this.swipes += 1;
    const {x, y, width, height} = await this.sheet.rect(id);
    const from = {x: x + width * 0.4, y: y + height * 0.5};
    await this.sheet.dragFinger(from, {x: from.x + width * 0.2, y: from.y + 4}, 6);
  }
}

const card = async (sheet) => (await sheet.textPage()).card;

const section = (from, id) => {
  const found = from.sections.find((one) => one.id === id);
  assert.ok(found, `the card has no section "${id}"`);
  return found;
};

const row = (from, id, label) => {
  const found = section(from, id).rows.find((one) => one.label === label);
  assert.ok(found, `"${id}" has no line "${label}"`);
  return found.value;
};

const number = (text) => {
  const found = text.replace('\u2212', '-').match(/[+-]?[\d.]+/);
  assert.ok(found, `no number in "${text}"`);
  return Number(found[0]);
};

function task(name, {taps, swipes = 0}, body) {
  test(`task: ${name}, in ${taps} taps and ${swipes} swipes at most`, async ({open, note}) => {
    const sheet = await open(TABLET);
    const finger = new Finger(sheet);
    await body(finger, sheet);
    note(`${finger.taps} taps, ${finger.swipes} swipes`);
    assert.ok(finger.taps <= taps, `it took ${finger.taps} taps`);
    assert.ok(finger.swipes <= swipes, `it took ${finger.swipes} swipes`);
  });
}

task('brief the demo route for the mass, the brakes and the wind of today', {taps: 12},
    async (finger, sheet) => {
      const before = await card(sheet);
      await finger.set('mass_t', '310');
      await finger.set('brake_temperature_c', '95');
      await finger.set('wind_kt', '4');
      const after = await card(sheet);
      assert.notEqual(section(after, 'roll').headline, section(before, 'roll').headline);
      assert.ok(number(row(after, 'heat', 'At the holding point')) > number(row(before, 'heat', 'At the holding point')));
      assert.ok(await sheet.has('answer:Roll'), 'the answer is not in sight');
    });

task('take another aircraft and another route', {taps: 4}, async (finger, sheet) => {
  await finger.tap('pick:aircraft');
  await finger.tap('aircraft:medium-twin');
  await finger.tap('pick:route');
  await finger.tap('route:cargo-apron-to-d2');
  assert.equal((await sheet.input('aircraft')).value, 'medium-twin');
  assert.equal((await sheet.input('route')).value, 'cargo-apron-to-d2');
  assert.match((await card(sheet)).card_headline, /D2/);
});

task('make it a wet day', {taps: 2}, async (finger, sheet) => {
  const dry = await card(sheet);
  await finger.tap('choice:surface');
  await finger.tap('option:wet');
  const wet = await card(sheet);
  assert.equal((await sheet.input('surface')).value, 'wet');
  const friction = (from) => number(row(from, 'surface', 'Braking friction'));
  assert.ok(friction(wet) < friction(dry), 'wet is no slipperier than dry');
});

task('taxi with fewer engines', {taps: 3}, async (finger, sheet) => {
  const all = await card(sheet);
  await finger.set('engines_running', '2');
  const two = await card(sheet);
  const thrust = (from) => number(row(from, 'engines', 'Idle thrust now'));
  assert.ok(Math.abs(thrust(two) / thrust(all) - 0.5) < 0.02, 'two of four give no half of the thrust');
  assert.match(section(two, 'engines').headline, /2/);
});

task('after landing: is a wait needed?', {taps: 2, swipes: 2}, async (finger, sheet) => {
  const before = section(await card(sheet), 'after-landing').headline;
  await finger.pullTo('fold:turnaround', INPUTS);
  await finger.tap('fold:turnaround');
  await finger.pullTo('chip:turnaround_included:true', INPUTS);
  await finger.tap('chip:turnaround_included:true');
  const after = await card(sheet);
  assert.notEqual(section(after, 'after-landing').headline, before);
  assert.match(row(after, 'after-landing', 'More time on the stand'), /none|min/);
});

task('find where to start the second turn and how far past the line the nose goes', {taps: 4, swipes: 1},
    async (finger, sheet) => {
      await finger.tap('answer:Turn');
      await finger.tap('turn:4');
      await finger.tap('to-top');
      await finger.tap('answer:Oversteering');
      const before = await sheet.page.locator('#canvas').screenshot();
      await finger.scrub('figure:turn');
      assert.ok(!before.equals(await sheet.page.locator('#canvas').screenshot()), 'nothing was read off');
      const {headline} = section(await card(sheet), 'oversteer-4');
      assert.match(headline, /start turning with your eye \d+ m before .* swings out [\d.]+ m past/);
    });

task('find where the line vanishes under the nose', {taps: 1}, async (finger, sheet) => {
  await finger.tap('answer:Stop');
  assert.ok(await sheet.has('title:stop'), 'the answer is not in sight');
  assert.match(section(await card(sheet), 'stop').headline, /under the nose [\d.]+ m ahead of your eye/);
});

task('find the slope on which a heavier aircraft no longer starts at idle', {taps: 5},
    async (finger, sheet) => {
      const slope = async () => number(row(await card(sheet), 'roll', 'Starts up to'));
      const before = await slope();
      await finger.set('mass_t', '365');
      assert.ok(await slope() < before, `${await slope()} % is no less than ${before} %`);
      assert.ok(await sheet.has('answer:Roll'), 'the answer is not in sight');
    });

task('take a mistake back', {taps: 6}, async (finger, sheet) => {
  const before = await card(sheet);
  await finger.set('mass_t', '200');
  assert.notEqual((await card(sheet)).card_headline, before.card_headline);
  await finger.tap('undo');
  assert.deepEqual((await card(sheet)).sections, before.sections);
});

task('change to the dark look', {taps: 2}, async (finger, sheet) => {
  await finger.tap('open:view');
  await finger.tap('look:dark');
  assert.equal(await sheet.page.evaluate(() => document.documentElement.dataset.theme), 'dark');
});

task('save the brief as a file', {taps: 2}, async (finger, sheet) => {
  await finger.tap('open:files');
  const [download] = await Promise.all(
      [sheet.page.waitForEvent('download'), finger.tap('file:save-brief')]);
  const saved = JSON.parse(fs.readFileSync(await download.path(), 'utf8'));
  assert.equal(saved.format, 'tillerline/brief');
  assert.equal(saved.condition.mass_t, (await sheet.input('mass_t')).value);
});
