// The front page: all five answers and the worst thing in sight without a tap, and ways out.
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const PRESETS = path.join(__dirname, '../../presets');
const ids = (kind) => fs.readdirSync(path.join(PRESETS, kind))
    .map((name) => JSON.parse(fs.readFileSync(path.join(PRESETS, kind, name), 'utf8')));
const ANSWERS = ['Roll', 'Turn', 'Oversteering', 'Brakes', 'Stop'].map((name) => `answer:${name}`);

// Every preset aircraft on every preset route, with heavy and hot ones among them.
function taxis() {
  const list = [];
  for (const aircraft of ids('aircraft')) {
    for (const route of ids('routes')) {
      list.push({format: 'tillerline/brief', version: 1, aircraft: aircraft.id, route: route.id,
        day: {wind_from_deg: 250, wind_kt: 8, temperature_c: 14, qnh_hpa: 1009, surface: 'dry'},
        condition: {mass_t: Math.round(0.4 * aircraft.lowest_mass_t + 0.6 * aircraft.highest_mass_t),
          engines_running: aircraft.engine_count, brake_temperature_c: list.length % 3 ? 90 : 350}});
    }
  }
  return list;
}

async function take(sheet, brief) {
  await sheet.page.evaluate((text) =>
    window.Module.ccall('tillerline_file', null, ['string', 'string'], ['taxi.json', text]), JSON.stringify(brief));
  await sheet.settle();
}

function assertWhole(rects, size, what) {
  let below = 0;
  for (const id of ['figure:plan', 'figure:strip', ...ANSWERS]) {
    const rect = rects[id];
    assert.ok(rect, `${what}: no ${id} in sight`);
    const [x, y, width, height] = rect;
    assert.ok(x >= 0 && y >= 0 && x + width <= size.width && y + height <= size.height + 1,
        `${what}: ${id} ends at ${y + height} of ${size.height}`);
    assert.ok(y >= below - 0.5, `${what}: ${id} overlaps what stands above it`);
    below = y + height;
  }
}

for (const [name, size] of [['upright', {width: 820, height: 1180}], ['lying', {width: 1180, height: 820}]]) {
  test(`the five answers of every preset taxi are in sight on a tablet, ${name}`, async ({open}) => {
    const sheet = await open(size);
    for (const brief of taxis()) {
      await take(sheet, brief);
      const {card} = await sheet.textPage();
      assert.ok(!card.refused, JSON.stringify(card.refused));
      assertWhole(await sheet.rects(), size, `${brief.aircraft}, ${brief.route} (${card.card_headline})`);
    }
  });
}

test('a limit that is exceeded heads page and text, and a tap on its way out clears it', async ({open}) => {
  const sheet = await open({width: 820, height: 1180});
  const demo = await sheet.textPage();
  assert.match(demo.card.card_headline, /^Stand 12/);
  assert.ok(!(await sheet.has('way:1')), 'a way out of nothing');
  await sheet.page.evaluate(() =>
    window.Module.ccall('tillerline_input', null, ['string', 'string'], ['brake_temperature_c', '400']));
  await sheet.settle();
  const hot = await sheet.textPage();
  assert.match(hot.card.card_headline, /^Limit exceeded: hottest brake \d+ °C.*limit 300 °C/);
  await sheet.shot('front-limit');
  await sheet.tap('way:1');
  const after = await sheet.textPage();
  assert.doesNotMatch(after.card.card_headline, /Limit exceeded/);
  assert.ok(!(await sheet.has('way:1')));
  await sheet.tap('undo');
  assert.equal((await sheet.textPage()).card.card_headline, hot.card.card_headline);
});

test('a row of the front page leads to its section, and the strip leads back', async ({open}) => {
  const sheet = await open({width: 820, height: 1180});
  await sheet.tap('answer:Brakes');
  assert.ok(await sheet.has('figure:route'));
  await sheet.tap('to-top');
  assert.ok(await sheet.has('answer:Brakes'));
});

test('a finger on the plan or the strip reads off that place', async ({open}) => {
  const sheet = await open({width: 820, height: 1180});
  const shot = () => sheet.page.locator('#canvas').screenshot();
  const still = await shot();
  await sheet.tap('figure:plan');
  const read = await shot();
  assert.ok(!still.equals(read), 'a tap on the plan read nothing off');
  await sheet.key('ArrowRight');
  const moved = await shot();
  assert.ok(!read.equals(moved), 'the arrow key moved nothing');
  await sheet.tap('figure:strip');
  assert.ok(!moved.equals(await shot()), 'a tap on the strip read nothing off');
});
