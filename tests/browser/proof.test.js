// The book of checks: opens by its link, holds exactly the lines of the test run, and can be sifted.
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const book = () => JSON.parse(fs.readFileSync(path.join(BUILD, 'proof.json'), 'utf8'));

const openBook = ({open}, options = {}) => open({...options, at: '/proof.html'});

const visibleRows = (page) => page.locator('.check:visible').count();

const LINE = new RegExp('^proof: measured (\\d+) \\(in band (\\d+) of \\d+\\), worked (\\d+), ' +
    'formula (\\d+), numerics (\\d+), own (\\d+), sources (\\d+), differs (\\d+)$');

// As the page has them: what was measured first, then by topic; the order within one stays.
const inOrder = (checks) => checks.map((check, i) => ({check, i, key: check.topic === 'measured' ? '' : check.topic}))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.i - b.i)).map(({check}) => check);

test('the book of checks opens from the sheet and holds every check of the run', async (world) => {
  const {checks, summary} = book();
  const counts = summary.match(LINE);
  assert.ok(counts, summary);
  const [, measured, , worked, formula, numerics, own, sources, differs] = counts.map(Number);
  assert.equal(checks.length, measured + worked + formula + numerics + own);
  const sheet = await world.open({reading: true});
  assert.equal(await sheet.page.locator('a[href="proof.html"]').first().getAttribute('href'),
      'proof.html');
  await sheet.page.goto(world.origin + '/proof.html');
  assert.equal(await sheet.page.locator('h1').innerText(), 'How do you know?');
  assert.match(await sheet.page.locator('.headline').innerText(),
      new RegExp(`^${measured} rows .* ${worked} repeat .* ${differs} of all rows differ`));
  assert.equal(await visibleRows(sheet.page), checks.length);
  assert.equal(await sheet.page.locator('#shown').innerText(),
      summary.replace('proof: m', 'M') + '.');
  assert.equal(await sheet.page.locator('.check.differs').count(), differs);
  assert.equal(await sheet.page.locator('#sources li').count(), sources);
  await sheet.shot('proof-landscape');
});

test('every line of the book shows the numbers of its check', async (world) => {
  const sheet = await openBook(world);
  const shown = await sheet.page.locator('.check').evaluateAll((rows) => rows.map((row) =>
    [...row.cells].map((cell) => cell.textContent)));
  inOrder(book().checks).forEach((check, i) => {
    const [what, , got, , , answer, source, kind] = shown[i];
    assert.equal(what, check.what);
    assert.ok(source.startsWith(check.source) && source.endsWith(check.place), source);
    assert.equal(answer, check.agrees ? 'agrees' : 'differs');
    assert.ok(kind.startsWith(check.kind) && kind.includes(check.reason), kind);
    const value = Number(got.replace(/\u2212/g, '-'));
    assert.ok(Math.abs(value - check.got) <= 1e-6 * Math.abs(check.got), `${got} for ${check.got}`);
  });
});

test('the book begins with plots of what was measured, each leading to its line', async (world) => {
  const {page} = await openBook(world);
  assert.equal(await page.locator('#plots figure').count(), 10);
  const links = await page.locator('#plots figure a').evaluateAll((all) =>
    all.map((link) => [link.getAttribute('href').slice(1), link.textContent]));
  for (const [id, what] of links) {
    assert.equal(await page.locator(`[id="${id}"] td`).first().textContent(), what);
  }
  const words = await page.locator('#plots svg').first().getAttribute('aria-label');
  assert.match(words, /measured .*; computed /);
});

test('every line of the book has an anchor of its own', async (world) => {
  const {page} = await openBook(world);
  const ids = await page.locator('.check').evaluateAll((rows) => rows.map((row) => row.id));
  assert.equal(new Set(ids).size, book().checks.length);
  await page.locator('.check a').nth(20).click();
  assert.ok(page.url().endsWith('#' + ids[20]), page.url());
});

test('the book can be sifted by topic, kind and words', async (world) => {
  const sheet = await openBook(world);
  const {page} = sheet;
  const {checks} = book();
  const count = (holds) => checks.filter(holds).length;
  await page.selectOption('#topic', 'heat');
  assert.equal(await visibleRows(page), count((c) => c.topic === 'heat'));
  assert.equal(await page.locator('.topic:visible').count(), 1);
  await page.selectOption('#origin', 'own');
  assert.equal(await visibleRows(page), count((c) => c.topic === 'heat' && c.kind === 'own'));
  await page.selectOption('#topic', '');
  await page.selectOption('#origin', '');
  await page.check('#worked');
  assert.equal(await visibleRows(page), count((c) => c.kind === 'measured' || c.kind === 'worked'));
  await page.uncheck('#worked');
  await page.check('#differs');
  assert.equal(await visibleRows(page), count((c) => !c.agrees));
  await page.uncheck('#differs');
  await page.fill('#search', 'slush drag');
  const found = await visibleRows(page);
  assert.ok(found >= count((c) => /slush drag/i.test(c.what)) && found < 40, `${found} lines`);
  await page.fill('#search', '');
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
    for (const id of ['#search', '#topic', '#origin']) {
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
