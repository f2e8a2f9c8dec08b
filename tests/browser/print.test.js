// Paper: the card on one page of either size, black on white, whatever the brief.
'use strict';

const {execFileSync} = require('node:child_process');
const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const SHOTS = path.join(process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build'), 'shots');

// What the printed page says, and how many pages there are.
async function print(sheet, name, format) {
  fs.mkdirSync(SHOTS, {recursive: true});
  const file = path.join(SHOTS, `${name}-${format}.pdf`.replace(/ /g, '-'));
  await sheet.page.pdf({path: file, format});
  const info = execFileSync('pdfinfo', [file], {encoding: 'utf8'});
  const text = execFileSync('pdftotext', ['-layout', file, '-'], {encoding: 'utf8'});
  return {file, pages: Number(/Pages:\s+(\d+)/.exec(info)[1]), text};
}

const letters = (text) => text.replace(/\s+/g, '');

// In columns the order of words on paper is not that of the page, so each word is looked for. What
// reads the page sees gaps in bold words that nobody else sees.
function holds(text, sentence) {
  const flat = letters(text);
  return sentence.split(/\s+/).every((word) => flat.includes(word));
}

const BRIEFS = {
  'demo': async () => {},
  'longest route': async (sheet) => {
    const {options} = await sheet.input('route');
    let best = {legs: -1};
    for (const option of options) {
      await sheet.page.selectOption('#in-route', option.value);
      const legs = (await sheet.textPage()).card.route_legs.length;
      if (legs > best.legs) best = {legs, value: option.value};
    }
    await sheet.page.selectOption('#in-route', best.value);
    await sheet.settle();
  },
  'winter': async (sheet) => {
    await sheet.enter('surface', 'slush');
    await sheet.enter('contaminant_depth_mm', '6');
  },
  'forty legs': async (sheet) => {
    for (let count = (await sheet.textPage()).card.route_legs.length; count < 40; ++count) {
      await sheet.page.evaluate(() => document.querySelector('#leg-0 button[data-key="straight"]').click());
    }
    await sheet.settle();
    assert.equal((await sheet.textPage()).card.route_legs.length, 40);
  },
};

for (const [name, change] of Object.entries(BRIEFS)) {
  test(`the card prints on one page, A4 and Letter: ${name}`, async ({open}) => {
    const sheet = await open({reading: true, dark: name === 'winter'});
    await change(sheet);
    const {card} = await sheet.textPage();
    for (const format of ['A4', 'Letter']) {
      const {pages, text} = await print(sheet, name, format);
      assert.equal(pages, 1, `${name} on ${format}: ${pages} pages`);
      const flat = letters(text);
      for (const there of [card.title, card.subtitle, card.day, card.card_headline, card.safety, card.watch[0]]) {
        assert.ok(!there || flat.includes(letters(there)), `${format} lacks "${there}"`);
      }
      for (const leg of card.legs) {
        assert.ok(flat.includes(letters(leg.speed)) && flat.includes(letters(leg.brakes)), leg.number);
        assert.ok(holds(text, leg.title) && holds(text, leg.caution), `${format}: ${leg.title}`);
      }
      const said = card.sections.filter((section) => section.headline);
      assert.ok(said.length >= 9);
      for (const section of said) {
        assert.ok(holds(text, section.headline), `${format} lacks "${section.headline}"`);
      }
      card.assumptions.forEach((one) => assert.ok(holds(text, one), `${format} lacks "${one}"`));
      assert.ok(holds(text, `Tillerline ${card.program}`.replace(/$/, ',')), 'no version');
      assert.match(flat, new RegExp(`printed\\d+[A-Za-z]+${new Date().getFullYear()}`));
    }
  });
}

test('the print is no form, and follows what is changed after it', async ({open}) => {
  const sheet = await open();
  const first = await print(sheet, 'before', 'A4');
  await sheet.enter('mass_t', '251.7');
  const second = await print(sheet, 'after', 'A4');
  assert.ok(first.text.includes('298 t') && second.text.includes('252 t'), second.text.slice(0, 200));
  assert.ok(!second.text.includes('Read as text') && !second.text.includes('Speed limit, sharp turn'));
});

test('"Print the card" and "Print everything" ask the browser to print, each its own', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.page.evaluate(() => {
    window.asked = [];
    window.print = () => window.asked.push(document.documentElement.classList.contains('print-all'));
  });
  await sheet.page.click('#actions [data-key="print"]');
  await sheet.page.click('#actions summary');
  await sheet.page.click('#actions [data-key="print-all"]');
  assert.deepEqual(await sheet.page.evaluate(() => window.asked), [false, true]);
  await sheet.page.emulateMedia({media: 'print'});
  const seen = (selector) => sheet.page.locator(selector).first().isVisible();
  assert.ok(await seen('#card-roll') && await seen('#safety'));
  assert.ok(!(await seen('#paper')) && !(await seen('#inputs')) && !(await seen('#canvas')));
});
