// The rules of the Web Content Accessibility Guidelines, levels A and AA, by axe-core: no violation
// on any page, in either look, with what opens opened.
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const AXE = path.join(BUILD, 'node/node_modules/axe-core/axe.min.js');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

async function check(sheet, what) {
  await sheet.page.evaluate(fs.readFileSync(AXE, 'utf8'));
  const {violations, passes} = await sheet.page.evaluate(async (tags) => {
    const result = await window.axe.run(document, {runOnly: {type: 'tag', values: tags}});
    return {
      passes: result.passes.length,
      violations: result.violations.map((one) =>
        `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.target.join(' ')).join(', ')}`),
    };
  }, TAGS);
  assert.deepEqual(violations, [], what);
  assert.ok(passes > 8, `${what}: only ${passes} rules had something to judge`);
  console.log(`       ${what}: ${passes} rules passed, ${violations.length} violated`);
}

for (const dark of [false, true]) {
  const look = dark ? 'dark' : 'light';

  test(`no rule of WCAG A or AA is broken on the sheet, ${look}`, async ({open}) => {
    const sheet = await open({dark});
    await check(sheet, `the drawn sheet, ${look}`);
    await sheet.page.evaluate(() => window.Module.page.openShare());
    await sheet.page.waitForSelector('#share-code svg');
    await check(sheet, `sharing over the sheet, ${look}`);
  });

  test(`no rule of WCAG A or AA is broken in the text, ${look}`, async ({open}) => {
    const sheet = await open({dark, reading: true});
    await check(sheet, `the text, ${look}`);
    await sheet.page.evaluate(() => document.querySelector('[data-key="speed_after_time"]').click());
    await sheet.page.evaluate(() => {
      for (const details of document.querySelectorAll('#text-page details')) details.open = true;
    });
    await sheet.page.selectOption('#study-open', {index: 4});
    await sheet.enter('mass_t', '999');
    await check(sheet, `the text with all open and an error, ${look}`);
    await sheet.page.setInputFiles('#file', {name: 'odd.json', mimeType: 'application/json', buffer: Buffer.from('no')});
    await sheet.page.waitForSelector('#refused:not([hidden])');
    await check(sheet, `the text with a file refused, ${look}`);
  });

  test(`no rule of WCAG A or AA is broken in the book of checks, ${look}`, async ({open, origin}) => {
    const sheet = await open({dark});
    await sheet.page.goto(origin + '/proof.html');
    await check(sheet, `the book of checks, ${look}`);
  });
}
