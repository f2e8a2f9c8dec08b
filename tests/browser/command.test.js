// The page and the command say the same of the same brief, word for word.
'use strict';

const {execFileSync} = require('node:child_process');
const {test, assert} = require('./harness');

const COMMAND = process.env.TILLERLINE_COMMAND;

const flat = (text) => text.replace(/\s+/g, ' ');

function textOf(brief) {
  assert.ok(COMMAND, 'TILLERLINE_COMMAND does not name the command');
  return flat(execFileSync(COMMAND, ['--text', '-'], {input: brief, encoding: 'utf8'}));
}

// The command prints the rows of roll, heat and stop, and of turns the headlines.
function compare(card, text) {
  let compared = 0;
  const same = (what) => {
    if (!what) return;
    compared += 1;
    assert.ok(text.includes(flat(what)), `the command does not say "${what}"`);
  };
  [card.title, card.subtitle, card.day, card.card_headline, card.safety, card.invented].forEach(same);
  card.watch.forEach(same);
  for (const leg of card.legs) {
    [leg.title, leg.text, `${leg.speed} ${leg.time} ${leg.brakes}`, leg.caution].forEach(same);
  }
  for (const section of card.sections) {
    [section.headline, section.caution].forEach(same);
    if (!['roll', 'heat', 'stop'].includes(section.id)) continue;
    for (const row of section.rows) {
      same(`${row.label} ${row.value}`);
      same(row.note);
    }
  }
  card.cautions.forEach((caution) => same(`${caution.label} ${caution.value}`));
  return compared;
}

const BRIEFS = [
  {mass_t: '310'},
  {mass_t: '365', surface: 'wet', temperature_c: '38', qnh_hpa: '985', braking: 'many_short'},
  {aircraft: 'long-nosed-twin', route: 'runway-exit-to-stand-24', wind_kt: '25', turning: 'eye_on_line'},
  {aircraft: 'regional-twin', route: 'east-hangar-to-f1', surface: 'slippery', temperature_c: '-20'},
  {aircraft: 'very-large-four', route: 'north-side-to-e1', brake_temperature_c: '290', braking: 'dragging'},
];

for (const [i, brief] of BRIEFS.entries()) {
  test(`page and command agree on brief ${i + 1}: ${Object.values(brief).join(', ')}`, async ({open}) => {
    const sheet = await open();
    for (const [key, value] of Object.entries(brief)) {
      await sheet.enter(key, value);
      const now = (await sheet.input(key)).value;
      assert.equal(String(now), String(Number.isNaN(Number(value)) ? value : Number(value)), `${key} was not taken`);
    }
    const kept = await sheet.page.evaluate(() => localStorage.getItem('tillerline.brief'));
    const {card} = await sheet.textPage();
    assert.ok(compare(card, textOf(kept)) > 60);
  });
}
