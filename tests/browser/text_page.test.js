// The sheet as text: complete, labelled, to be used by keyboard, narrow enough, printable.
'use strict';

const {test, assert} = require('./harness');

const PHONE = {width: 390, height: 844, touch: true, reading: true};

const openAll = (sheet) => sheet.page.evaluate(() => {
  for (const details of document.querySelectorAll('#text-page details')) details.open = true;
});

test('every input has a labelled field with its value, range and unit', async ({open}) => {
  const sheet = await open({reading: true});
  await openAll(sheet);
  const {card} = await sheet.textPage();
  assert.ok(card.inputs.length > 50);
  for (const input of card.inputs) {
    const field = sheet.page.getByRole('spinbutton', {name: input.label, exact: true});
    assert.equal(await field.count(), 1, input.label);
    const got = await field.evaluate((node) => ({
      value: Number(node.value), min: Number(node.min), max: Number(node.max), step: Number(node.step),
      described: node.getAttribute('aria-describedby').split(' ')
          .map((id) => document.getElementById(id).textContent).join(' '),
    }));
    const half = 0.5 * 10 ** -input.decimals + 1e-12;
    assert.ok(Math.abs(got.value - input.value) <= half, `${input.label}: ${got.value}, not ${input.value}`);
    assert.ok(Math.abs(got.min - input.min) <= half && Math.abs(got.max - input.max) <= half, input.label);
    assert.equal(got.step, input.step);
    assert.ok(got.described.includes(input.unit) && got.described.includes(input.help), input.label);
  }
  for (const choice of [...card.choices, ...card.pickers]) {
    const field = sheet.page.getByRole('combobox', {name: choice.label, exact: true});
    assert.ok(await field.count() >= 1, choice.label);
    assert.equal(await sheet.page.locator('#in-' + choice.key).inputValue(), choice.value);
  }
});

test('every answer of the card is there as text', async ({open}) => {
  const sheet = await open({reading: true});
  await openAll(sheet);
  const {card, text} = await sheet.textPage();
  const flat = text.replace(/\s+/g, ' ');
  const there = (what) => assert.ok(flat.includes(what.replace(/\s+/g, ' ')), `"${what}" is not in the text`);
  const outputs = new Set(await sheet.page.evaluate(() =>
    [...document.querySelectorAll('#card output')].map((node) => node.textContent)));
  [card.title, card.subtitle, card.day, card.card_headline, card.safety, card.invented].forEach(there);
  card.watch.forEach(there);
  for (const section of card.sections) {
    [section.headline, section.caption, section.why, section.caution].forEach(there);
    for (const row of section.rows) {
      // The two techniques of a turn are the columns of a table; their names head them.
      const name = row.label.split(': ').pop();
      assert.ok(flat.toLowerCase().includes(name.toLowerCase()), `no "${name}"`);
      assert.ok(outputs.has(row.value) || flat.includes(row.value), `no output "${row.value}"`);
      there(row.note);
    }
  }
  for (const leg of card.legs) {
    [leg.title, leg.text, leg.speed, leg.time, leg.brakes, leg.caution].forEach(there);
  }
  assert.ok(card.cautions.length > 0);
  for (const caution of card.cautions) {
    there(caution.value);
    assert.match(caution.value, /^(Care|Limit): /);
  }
});

test('headings go down by one level at most', async ({open}) => {
  const sheet = await open({reading: true});
  const levels = await sheet.page.evaluate(() =>
    [...document.querySelectorAll('#text-page h1, #text-page h2, #text-page h3, #text-page h4')]
        .filter((node) => node.getClientRects().length > 0).map((node) => Number(node.tagName[1])));
  assert.equal(levels[0], 1);
  levels.reduce((before, level) => {
    assert.ok(level <= before + 1, levels.join(' '));
    return level;
  });
});

test('a change by keyboard is computed and spoken', async ({open}) => {
  const sheet = await open({reading: true});
  const before = await sheet.textPage();
  await sheet.page.focus('#in-mass_t');
  await sheet.page.keyboard.press('ArrowUp');
  await sheet.settle();
  assert.equal((await sheet.input('mass_t')).value, 298.1);
  await sheet.page.keyboard.press('Control+a');
  await sheet.page.keyboard.type('350');
  await sheet.page.keyboard.press('Enter');
  await sheet.settle();
  const {card} = await sheet.textPage();
  assert.equal(card.inputs.find((input) => input.key === 'mass_t').value, 350);
  assert.notEqual(card.sections[0].headline, before.card.sections[0].headline);
  const spoken = await sheet.page.locator('#status').textContent();
  assert.equal(spoken, `${card.sections[0].headline} ${card.card_headline}`);
  assert.equal(await sheet.page.evaluate(() => document.activeElement.id), 'in-mass_t');
});

test('nothing but the status line speaks by itself, and it not at the start', async ({open}) => {
  const sheet = await open();
  assert.equal(await sheet.page.locator('#status').textContent(), '');
  const live = await sheet.page.evaluate(() =>
    [...document.querySelectorAll('#text-page output, #text-page [aria-live], #text-page [role=status], #text-page [role=alert]')]
        .filter((node) => node.getAttribute('aria-live') !== 'off').map((node) => node.id));
  assert.deepEqual(live, ['status']);
});

test('a refused value stays to be mended, with the reason beside it', async ({open}) => {
  const sheet = await open({reading: true});
  const before = await sheet.textPage();
  await sheet.page.fill('#in-mass_t', '999');
  await sheet.page.keyboard.press('Tab');
  await sheet.settle();
  const problem = await sheet.page.locator('[data-key="mass_t"] .problem').textContent();
  const {min, max} = await sheet.input('mass_t');
  assert.match(problem, new RegExp(`Mass: .*999.*${min}.*${max}`));
  assert.equal(await sheet.page.locator('#in-mass_t').inputValue(), '999');
  assert.equal(await sheet.page.locator('#in-mass_t').getAttribute('aria-invalid'), 'true');
  assert.equal(await sheet.page.locator('#status').textContent(), problem);
  assert.deepEqual((await sheet.textPage()).card.sections, before.card.sections);
  await sheet.page.fill('#in-mass_t', '300');
  await sheet.page.keyboard.press('Tab');
  await sheet.settle();
  assert.equal((await sheet.input('mass_t')).value, 300);
  assert.equal(await sheet.page.locator('#text-page .problem').count(), 0);
});

test('an emptied field goes back to what it was', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.page.fill('#in-mass_t', '');
  await sheet.page.keyboard.press('Tab');
  await sheet.settle();
  assert.equal(await sheet.page.locator('#in-mass_t').inputValue(), '298.0');
});

test('another aircraft and another route can be chosen', async ({open}) => {
  const sheet = await open({reading: true});
  for (const key of ['aircraft', 'route']) {
    const {options, value} = await sheet.input(key);
    assert.ok(options.length >= 7);
    const seen = new Set();
    for (const option of options.filter((o) => o.value !== value)) {
      await sheet.page.selectOption('#in-' + key, option.value);
      await sheet.settle();
      assert.equal((await sheet.input(key)).value, option.value);
      const {card} = await sheet.textPage();
      if (key === 'aircraft') assert.ok(card.title.startsWith(option.label), option.label);
      seen.add(JSON.stringify(card.legs));
    }
    assert.equal(seen.size, options.length - 1, 'some choices give the same legs');
  }
});

test('the text is no wider than the screen, however narrow', async ({open}) => {
  for (const width of [390, 320]) {
    const sheet = await open({...PHONE, width});
    await openAll(sheet);
    const got = await sheet.page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    assert.ok(got[0] <= got[1], `${got[0]} px of text on ${got[1]} px`);
    await sheet.shot(`text-page-${width}`);
  }
});

test('fields, links and folds are large enough for a finger', async ({open}) => {
  const sheet = await open(PHONE);
  await openAll(sheet);
  const small = await sheet.page.evaluate(() =>
    [...document.querySelectorAll('#text-page input, #text-page select, #text-page a, #text-page summary, #text-page button, #read')]
        .map((node) => ({name: node.id || node.textContent, height: node.getBoundingClientRect().height}))
        .filter(({height}) => height < 48));
  assert.deepEqual(small, []);
});

test('text and ground differ enough in both looks', async ({open}) => {
  for (const dark of [false, true]) {
    const sheet = await open({reading: true, dark});
    await openAll(sheet);
    const weak = await sheet.page.evaluate(() => {
      const channel = (v) => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
      const light = (css) => {
        const [r, g, b] = css.match(/[\d.]+/g).map(Number);
        return 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
      };
      const ground = (node) => {
        for (let at = node; at; at = at.parentElement) {
          const colour = getComputedStyle(at).backgroundColor;
          if (!/, 0\)$/.test(colour)) return colour;
        }
        return 'rgb(255, 255, 255)';
      };
      const weak = [];
      for (const node of document.querySelectorAll('#text-page *, #read')) {
        const own = [...node.childNodes].some((child) => child.nodeType === 3 && child.textContent.trim());
        if (!own || node.getClientRects().length === 0) continue;
        const [a, b] = [light(getComputedStyle(node).color), light(ground(node))].sort((x, y) => y - x);
        if ((a + 0.05) / (b + 0.05) < 4.5) weak.push(`${node.tagName} ${node.textContent.slice(0, 30)}`);
      }
      return weak;
    });
    assert.deepEqual(weak, []);
  }
});

const legCount = async (sheet) => (await sheet.textPage()).card.route_legs.length;
const press = (sheet, selector) => sheet.page.evaluate((s) => document.querySelector(s).click(), selector)
    .then(() => sheet.settle());
const status = (sheet) => sheet.page.locator('#status').textContent();

test('every number of every leg is a labelled field that changes the card', async ({open}) => {
  const sheet = await open({reading: true});
  await openAll(sheet);
  const {card} = await sheet.textPage();
  for (const leg of card.route_legs) {
    const group = sheet.page.getByRole('group', {name: `Leg ${leg.number}`, exact: true});
    for (const input of leg.fields) {
      const field = group.getByRole('spinbutton', {name: input.label, exact: true});
      assert.equal(await field.count(), 1, `leg ${leg.number}: ${input.label}`);
      const half = 0.5 * 10 ** -input.decimals + 1e-12;
      assert.ok(Math.abs(Number(await field.inputValue()) - input.value) <= half, input.key);
    }
  }
  const before = card.legs[0].title;
  await sheet.page.fill('#in-leg-0-length_m', '333');
  await sheet.page.keyboard.press('Tab');
  await sheet.settle();
  const after = (await sheet.textPage()).card;
  assert.notEqual(after.legs[0].title, before);
  assert.match(after.legs[0].title, /333 m/);
});

test('legs are added, turned into turns, moved and removed; the focus follows', async ({open}) => {
  const sheet = await open({reading: true});
  await openAll(sheet);
  const count = await legCount(sheet);
  await press(sheet, '#leg-0 button[data-key="straight"]');
  assert.equal(await legCount(sheet), count + 1);
  assert.match(await status(sheet), /^A straight was added as leg 2\./);
  assert.equal(await sheet.page.evaluate(() => document.activeElement.id), 'in-leg-1-kind');
  await sheet.page.selectOption('#in-leg-1-kind', 'arc');
  await sheet.settle();
  assert.equal((await sheet.textPage()).card.route_legs[1].kind, 'arc');
  await press(sheet, '#leg-1 [data-key="down"]');
  assert.equal((await sheet.textPage()).card.route_legs[2].kind, 'arc');
  assert.match(await status(sheet), /^It is leg 3 now\./);
  assert.ok(await sheet.page.evaluate(() => document.activeElement.closest('#leg-2') !== null));
  await press(sheet, '#leg-2 [data-key="remove"]');
  assert.equal(await legCount(sheet), count);
  assert.match(await status(sheet), /^Leg 3 was removed\./);
  await press(sheet, '#actions [data-key="undo"]');
  assert.equal(await legCount(sheet), count + 1);
});

test('what breaks the route is refused at its leg, and nothing changes', async ({open}) => {
  const sheet = await open({reading: true});
  await openAll(sheet);
  const before = (await sheet.textPage()).card;
  await sheet.page.selectOption('#in-leg-0-kind', 'arc');
  await sheet.settle();
  const kind = sheet.page.locator('#in-leg-0-kind');
  assert.equal(await kind.getAttribute('aria-invalid'), 'true');
  const described = await kind.evaluate((node) => node.getAttribute('aria-describedby').split(' ')
      .map((id) => document.getElementById(id).textContent).join(' '));
  assert.match(described, /first leg is an arc/);
  await sheet.page.fill('#in-leg-1-radius_m', '1');
  await sheet.page.keyboard.press('Tab');
  await sheet.settle();
  assert.equal(await sheet.page.locator('#in-leg-1-radius_m').getAttribute('aria-invalid'), 'true');
  assert.match(await sheet.page.locator('#leg-1 .problem').textContent(), /radius/i);
  await press(sheet, '#leg-0 [data-key="up"]');
  assert.match(await sheet.page.locator('#leg-0 .problem').textContent(), /at the end/);
  assert.deepEqual((await sheet.textPage()).card.route_legs, before.route_legs);
});

test('observations are entered, used and taken back without the canvas', async ({open}) => {
  const sheet = await open({flags: ['--disable-3d-apis']});
  await openAll(sheet);
  const {card} = await sheet.textPage();
  for (const kind of card.observation_kinds) {
    await press(sheet, `[data-key="kinds"] [data-key="${kind.value}"]`);
  }
  const seen = (await sheet.textPage()).card.observations;
  assert.equal(seen.length, card.observation_kinds.length);
  for (const one of seen) {
    for (const field of one.fields) {
      assert.equal(await sheet.page.locator('#in-' + field.key).inputValue(), field.text.replace('\u2212', '-'));
    }
  }
  const constants = async () => (await sheet.textPage()).card.inputs
      .filter((input) => input.group === 'aircraft' || input.group === 'bands').map((input) => input.value);
  const own = await constants();
  await press(sheet, '[data-key="use"] button');
  assert.match(await status(sheet), /^The values found went into the aircraft/);
  assert.notDeepEqual(await constants(), own);
  await press(sheet, '#actions [data-key="undo"]');
  assert.deepEqual(await constants(), own);
  await press(sheet, '#observation-0 [data-key="remove"]');
  assert.equal((await sheet.textPage()).card.observations.length, seen.length - 1);
});

test('files, undo and starting over work from the text alone', async ({open}) => {
  const sheet = await open({flags: ['--disable-3d-apis']});
  await openAll(sheet);
  await press(sheet, '#actions [data-key="undo"]');
  assert.match(await status(sheet), /nothing to undo/);
  for (const kind of ['brief', 'aircraft', 'route']) {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.click(`#actions [data-key="save-${kind}"]`);
    assert.equal((await download).suggestedFilename(), `${kind}.json`);
    assert.match(await status(sheet), new RegExp(`Saved as ${kind}\\.json`));
  }
  await sheet.enter('mass_t', '251');
  await sheet.page.click('#actions [data-key="start-over"]');
  await sheet.settle();
  assert.equal((await sheet.input('mass_t')).value, 298);
  await sheet.page.click('#actions [data-key="undo"]');
  await sheet.settle();
  assert.equal((await sheet.input('mass_t')).value, 251);
  const chooser = sheet.page.waitForEvent('filechooser');
  await sheet.page.click('#actions [data-key="take"]');
  await (await chooser).setFiles({name: 'bad.json', mimeType: 'application/json',
    buffer: Buffer.from('{"format":"tillerline/brief","version":1}')});
  await sheet.page.waitForSelector('#refused:not([hidden])');
  assert.match(await sheet.page.locator('#refused').innerText(), /Not taken in: bad\.json/);
  assert.ok(await sheet.page.locator('#refused li').count() >= 3);
});

test('a graphics context that does not come back leaves the text in its place', async ({open}) => {
  const sheet = await open();
  await sheet.enter('mass_t', '251');
  await sheet.page.evaluate(() => {
    window.taken = document.getElementById('canvas').getContext('webgl2').getExtension('WEBGL_lose_context');
    window.taken.loseContext();
  });
  await sheet.page.waitForSelector('#no-picture:not([hidden])', {timeout: 10000});
  assert.ok(await sheet.page.locator('#in-mass_t').isVisible());
  assert.equal(await sheet.page.locator('#in-mass_t').inputValue(), '251.0');
  assert.ok(!(await sheet.page.locator('#read').isVisible()), 'a button leads to a sheet that is gone');
  await sheet.page.evaluate(() => window.taken.restoreContext());
  await sheet.page.waitForSelector('#no-picture', {state: 'hidden'});
  await sheet.page.click('#read');
  await sheet.settle();
  assert.ok(await sheet.colours() > 30, 'the sheet is blank');
});

test('at twice the size, and with the system\u2019s own colours, nothing is lost', async ({open}) => {
  const sheet = await open({width: 640, height: 400, dpr: 2, reading: true});
  await openAll(sheet);
  const got = await sheet.page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(got[0] <= got[1], `${got[0]} px of text on ${got[1]} px`);
  await sheet.page.emulateMedia({forcedColors: 'active'});
  await sheet.shot('text-page-forced-colours');
  const edge = await sheet.page.locator('#in-mass_t').evaluate((node) => getComputedStyle(node).borderTopStyle);
  assert.notEqual(edge, 'none');
});
