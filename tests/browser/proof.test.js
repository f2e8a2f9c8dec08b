// The book of checks: opens by its link, holds exactly the lines of the test run, and can be sifted.
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const book = () => JSON.parse(fs.readFileSync(path.join(BUILD, 'proof.json'), 'utf8'));

const openBook = ({open}, options = {}) => open({...options, at: '/proof.html'});

const visibleRows = (page) => page.locator('.check:visible').count();

test('the book of checks opens from the sheet and holds every check of the run', async (world) => {
  const {checks, summary} = book();
  const counts = summary.match(/^proof: (\d+) checks, (\d+) agree, (\d+) sources, (\d+) worked$/);
  assert.ok(counts, summary);
  const sheet = await world.open({reading: true});
  assert.equal(await sheet.page.locator('a[href="proof.html"]').first().getAttribute('href'),
      'proof.html');
  await sheet.page.goto(world.origin + '/proof.html');
  assert.equal(await sheet.page.locator('h1').innerText(), 'How do you know?');
  assert.equal(await visibleRows(sheet.page), Number(counts[1]));
  assert.equal(checks.length, Number(counts[1]));
  assert.equal(await sheet.page.locator('#shown').innerText(),
      summary.replace('proof: ', '') + '.');
  assert.equal(await sheet.page.locator('.check.differs').count(), counts[1] - counts[2]);
  assert.equal(await sheet.page.locator('#sources li').count(), Number(counts[3]));
  await sheet.shot('proof-landscape');
});

test('every line of the book shows the numbers of its check', async (world) => {
  const sheet = await openBook(world);
  const {checks} = book();
  const shown = await sheet.page.locator('.check').evaluateAll((rows) => rows.map((row) =>
    [...row.cells].map((cell) => cell.textContent)));
  const sorted = checks.map((check, i) => ({check, i}))
      .sort((a, b) => (a.check.topic < b.check.topic ? -1 : a.check.topic > b.check.topic ? 1 : a.i - b.i));
  sorted.forEach(({check}, i) => {
    const [what, , got, , , answer, source] = shown[i];
    assert.equal(what, check.what);
    assert.ok(source.startsWith(check.source) && source.endsWith(check.place), source);
    assert.equal(answer, check.agrees ? 'agrees' : 'differs');
    const value = Number(got.replace(/\u2212/g, '-'));
    assert.ok(Math.abs(value - check.got) <= 1e-6 * Math.abs(check.got), `${got} for ${check.got}`);
  });
});

test('the book can be sifted by topic, origin and worked examples', async (world) => {
  const sheet = await openBook(world);
  const {page} = sheet;
  const {checks} = book();
  const count = (holds) => checks.filter(holds).length;
  await page.selectOption('#topic', 'heat');
  assert.equal(await visibleRows(page), count((c) => c.topic === 'heat'));
  assert.equal(await page.locator('.topic:visible').count(), 1);
  await page.selectOption('#origin', 'derived');
  assert.equal(await visibleRows(page), count((c) => c.topic === 'heat' && c.origin === 'derived'));
  await page.selectOption('#topic', '');
  await page.selectOption('#origin', '');
  await page.check('#worked');
  assert.equal(await visibleRows(page), count((c) => c.worked));
  await page.uncheck('#worked');
  await page.check('#differs');
  assert.equal(await visibleRows(page), count((c) => !c.agrees));
  await page.uncheck('#differs');
  assert.equal(await visibleRows(page), checks.length);
});

for (const [name, options] of [
  ['phone', {width: 390, height: 844, dpr: 2, touch: true}],
  ['phone-dark', {width: 390, height: 844, dpr: 2, touch: true, dark: true}],
  ['upright', {width: 820, height: 1180, touch: true}],
]) {
  test(`the book fits the width of a ${name} screen`, async (world) => {
    const sheet = await openBook(world, options);
    const over = await sheet.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(over <= 0, `${over} px wider than the screen`);
    for (const id of ['#topic', '#origin']) {
      const box = await sheet.page.locator(id).boundingBox();
      assert.ok(box.height >= 48, `${id} is too small for a finger`);
    }
    await sheet.page.locator('.topic').nth(2).scrollIntoViewIfNeeded();
    await sheet.shot(`proof-${name}`);
  });
}

test('the book opens from a folder, without a server', async ({open}) => {
  const sheet = await open({allow: /file:/, at: '/proof.html'});
  await sheet.page.goto('file://' + path.join(BUILD, 'site/proof.html'));
  assert.equal(await visibleRows(sheet.page), book().checks.length);
});
