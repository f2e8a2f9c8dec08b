// The main job, done with a finger, in every engine: the same test, driven by three drivers.
'use strict';

const {test, assert, started, settled, BUILD} = require('./harness');
const {ENGINES, Tester} = require('./engines');

const SIZE = {width: 1180, height: 820};

async function setByKeys(page, tile, digits) {
  await page.tap(tile);
  for (const digit of digits) await page.tap('key:' + (digit === '.' ? 'point' : digit));
  await page.tap('key:set');
}

async function enterTheBrief(page) {
  const before = await page.card();
  await setByKeys(page, 'tile:mass_t', '330.5');
  assert.equal((await page.input('mass_t')).value, 330.5);
  await page.tap('pick:route');
  const routes = Object.keys(await page.rects()).filter((id) => id.startsWith('route:'));
  await page.tap(routes[1]);
  const after = await page.card();
  assert.notEqual(after.subtitle, before.subtitle, 'the route did not change');
  assert.notEqual(after.card_headline, before.card_headline);
  assert.match(after.card_headline, /\d/);
  return after;
}

async function scrub(page) {
  await page.pullTo('figure:route');
  const still = await page.engine.screenshot();
  assert.ok(Buffer.from(still).equals(Buffer.from(await page.engine.screenshot())), 'the picture is never still');
  const [x, y, width, height] = (await page.rects())['figure:route'];
  const from = {x: x + width * 0.4, y: y + height * 0.5};
  await page.drag(from, {x: from.x + width * 0.2, y: from.y});
  assert.ok(!Buffer.from(still).equals(Buffer.from(await page.engine.screenshot())), 'the finger read nothing off');
}

async function rest(page) {
  const frames = await page.frames();
  await new Promise((resolve) => setTimeout(resolve, 1500));
  assert.equal(await page.frames(), frames, 'frames are drawn while nothing happens');
}

async function readAsText(page, card) {
  const button = await page.engine.evaluate(() => {
    const {x, y, width, height} = document.getElementById('read').getBoundingClientRect();
    return {x: x + width / 2, y: y + height / 2};
  });
  await page.engine.tap(button.x, button.y);
  await page.settle();
  const seen = await page.engine.evaluate(() => ({
    shown: document.getElementById('about').getClientRects().length > 0,
    canvas: document.getElementById('canvas').getClientRects().length > 0,
    text: document.getElementById('text-page').innerText.replace(/\s+/g, ' '),
  }));
  assert.ok(seen.shown && !seen.canvas, 'the text did not take the place of the sheet');
  assert.ok(seen.text.includes(card.card_headline), 'the text lacks the headline');
}

for (const [name, {start}] of Object.entries(ENGINES)) {
  test(`the main job in ${name}, with a finger`, async ({siteWith, note}) => {
    const url = await siteWith('engines/watch.js');
    const engine = await start({build: BUILD, ...SIZE});
    try {
      note(`${engine.name} ${engine.version}`);
      const page = new Tester(engine, started, settled);
      await page.load(url);
      await page.tap('tour:skip');
      const card = await enterTheBrief(page);
      await scrub(page);
      await rest(page);
      await page.reload();
      assert.equal((await page.input('mass_t')).value, 330.5, 'the reload lost the mass');
      assert.equal((await page.card()).card_headline, card.card_headline);
      await readAsText(page, card);
      await page.checkProblems();
    } finally {
      await engine.close();
    }
  });
}
