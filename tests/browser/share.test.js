// A brief handed on: by link, by QR code, as text, as a file; and a link taken in.
'use strict';

const {execFileSync} = require('node:child_process');
const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const BUILD = process.env.TILLERLINE_BUILD_DIR || path.join(__dirname, '../../build');
const COMMAND = process.env.TILLERLINE_COMMAND;
const numbers = (card) => ({inputs: card.inputs, choices: card.choices, legs: card.route_legs,
  sections: card.sections, observations: card.observations, entered: card.inputs.map((i) => i.entered)});

const linkOf = async (sheet) => {
  await sheet.page.evaluate(() => window.Module.page.openShare());
  await sheet.page.waitForFunction(() => document.getElementById('share-link').value.includes('#b1.'));
  const link = await sheet.page.locator('#share-link').inputValue();
  await sheet.page.click('#share-close');
  return link;
};
const follow = async (sheet, hash) => {
  await sheet.page.evaluate((fragment) => { location.hash = fragment; }, hash);
  await sheet.page.waitForFunction(() => location.hash === '' && document.getElementById('status').textContent !== '');
  await sheet.page.waitForTimeout(150);
  await sheet.settle();
};
const status = (sheet) => sheet.page.locator('#status').textContent();

// Several briefs, from the plain demo to edited legs, aircraft and observations.
const BRIEFS = {
  'the demo': async () => {},
  'another aircraft and route': async (sheet) => {
    const {options} = await sheet.input('aircraft');
    await sheet.page.selectOption('#in-aircraft', options[1].value);
    const routes = await sheet.input('route');
    await sheet.page.selectOption('#in-route', routes.options[2].value);
    await sheet.enter('wind_kt', '17');
  },
  'an edited aircraft': async (sheet) => {
    await sheet.enter('idle_thrust_kn', '15.3');
    await sheet.enter('mass_t', '251.7');
  },
  'edited legs': async (sheet) => {
    await sheet.enter('leg-0-length_m', '333');
    await sheet.page.evaluate(() => document.querySelector('#leg-0 button[data-key="straight"]').click());
    await sheet.settle();
  },
  'an observation': async (sheet) => {
    await sheet.page.evaluate(() => document.querySelector('[data-key="speed_after_time"]').click());
    await sheet.settle();
    await sheet.enter('surface', 'wet');
  },
};

for (const [name, change] of Object.entries(BRIEFS)) {
  test(`a link brings the same card elsewhere: ${name}`, async ({open}) => {
    const sender = await open({reading: true});
    await change(sender);
    const link = await linkOf(sender);
    console.log(`       ${name}: the link has ${link.length} characters`);
    const sent = (await sender.textPage()).card;
    // On a device that has a brief of its own.
    const receiver = await open({reading: true});
    await receiver.enter('mass_t', '300');
    const own = (await receiver.textPage()).card;
    await follow(receiver, link.slice(link.indexOf('#')));
    assert.deepEqual(numbers((await receiver.textPage()).card), numbers(sent));
    assert.match(await status(receiver), /link was taken in/);
    assert.ok(!receiver.page.url().includes('#'), receiver.page.url());
    await receiver.page.click('#actions [data-key="undo"]');
    await receiver.settle();
    assert.deepEqual(numbers((await receiver.textPage()).card), numbers(own));
  });
}

test('a link that the page is opened with is taken in, once', async ({open, origin}) => {
  const sender = await open({reading: true});
  await sender.enter('mass_t', '222.2');
  const link = await linkOf(sender);
  const receiver = await open();
  await receiver.page.goto(origin + '/proof.html');
  await receiver.page.goto(link);
  await receiver.page.waitForFunction(() => window.Module && window.Module.card &&
      window.Module.card.inputs.some((input) => input.key === 'mass_t' && input.value === 222.2));
  assert.equal(receiver.page.url(), origin + '/');
  await receiver.enter('mass_t', '333');
  await receiver.page.reload();
  await receiver.page.waitForFunction(() => window.Module && window.Module.card);
  await receiver.settle();
  assert.equal((await receiver.input('mass_t')).value, 333);
});

test('presets unchanged give a short link', async ({open}) => {
  const sheet = await open({reading: true});
  const link = await linkOf(sheet);
  assert.ok(link.length < 450, `${link.length} characters`);
});

test('a link that is damaged, cut off or too long changes nothing and says why', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.enter('mass_t', '301');
  const link = await linkOf(sheet);
  const hash = link.slice(link.indexOf('#'));
  const before = numbers((await sheet.textPage()).card);
  const middle = Math.floor(hash.length / 2);
  const other = hash[middle] === 'A' ? 'B' : 'A';
  const damaged = [
    hash.slice(0, middle) + other + hash.slice(middle + 1), hash.slice(0, -1), hash.slice(0, middle),
    hash.replace(/.$/, hash.endsWith('0') ? '1' : '0'), '#b1.', '#b1..00000000', '#b1.%00.00000000', '#b1.****.12345678',
  ];
  for (const fragment of damaged) {
    await follow(sheet, fragment);
    assert.match(await status(sheet), /damaged or cut off/, fragment);
    assert.deepEqual(numbers((await sheet.textPage()).card), before, fragment);
  }
  await follow(sheet, '#b1.' + 'A'.repeat(70000) + '.00000000');
  assert.match(await status(sheet), /far too long/);
  assert.deepEqual(numbers((await sheet.textPage()).card), before);
});

test('a link that unpacks to far too much is refused', async ({open}) => {
  const sheet = await open({reading: true});
  const before = numbers((await sheet.textPage()).card);
  const bomb = await sheet.page.evaluate(() => Page.pack(' '.repeat(5e6)));
  await follow(sheet, bomb);
  assert.match(await status(sheet), /far too long/);
  assert.deepEqual(numbers((await sheet.textPage()).card), before);
});

test('a link of an older or newer form is named as such', async ({open}) => {
  const sheet = await open({reading: true});
  const link = await linkOf(sheet);
  const before = numbers((await sheet.textPage()).card);
  for (const form of [0, 2, 99]) {
    await follow(sheet, link.slice(link.indexOf('#')).replace('#b1.', `#b${form}.`));
    assert.match(await status(sheet), /another version/);
    assert.deepEqual(numbers((await sheet.textPage()).card), before);
  }
});

test('a link with a value out of range is refused by the reader of files, with the range', async ({open}) => {
  const sheet = await open({reading: true});
  const before = numbers((await sheet.textPage()).card);
  for (const [text, why] of [
    ['{"format":"tillerline/brief","version":1,"aircraft":"long-four","route":"stand-12-to-b1","day":{"wind_from_deg":250,"wind_kt":8,"temperature_c":14,"qnh_hpa":1009,"surface":"dry"},"condition":{"mass_t":480,"engines_running":4,"brake_temperature_c":85}}', /480 t, but at most \d+ t goes/],
    ['{"format":"tillerline/brief","version":9}', /ersion/], ['hello', /JSON/i],
  ]) {
    const hash = await sheet.page.evaluate((brief) => Page.pack(brief), text);
    await follow(sheet, hash);
    assert.match(await status(sheet), /link was not taken in/);
    assert.match(await status(sheet), why);
    assert.match(await sheet.page.locator('#refused').innerText(), why);
    assert.deepEqual(numbers((await sheet.textPage()).card), before);
  }
  await sheet.enter('mass_t', '300');
  assert.ok(!(await sheet.page.locator('#refused').isVisible()), 'the refusal stays');
});

test('places on the page are no links of briefs', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.page.evaluate(() => { location.hash = '#card-heat'; });
  await sheet.page.waitForTimeout(200);
  assert.ok(sheet.page.url().endsWith('#card-heat'));
  assert.equal(await status(sheet), '');
});

test('the QR code holds the link, as drawn', async ({open}) => {
  const jsqr = require(path.join(BUILD, 'node/node_modules/jsqr'));
  for (const options of [{reading: true}, {dark: true}, {width: 390, height: 844, dpr: 2, touch: true}]) {
    const sheet = await open(options);
    if (options.dark) await sheet.enter('idle_thrust_kn', '15.3');
    await sheet.page.evaluate(() => window.Module.page.openShare());
    await sheet.page.waitForSelector('#share-code svg');
    const link = await sheet.page.locator('#share-link').inputValue();
    await sheet.page.locator('#share-code svg').scrollIntoViewIfNeeded();
    const png = await sheet.page.locator('#share-code svg').screenshot();
    const picture = await sheet.page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], {type: 'image/png'}));
      const surface = new OffscreenCanvas(bitmap.width * 2, bitmap.height * 2).getContext('2d');
      surface.imageSmoothingEnabled = false;
      surface.drawImage(bitmap, 0, 0, bitmap.width * 2, bitmap.height * 2);
      const {data} = surface.getImageData(0, 0, bitmap.width * 2, bitmap.height * 2);
      let dots = '';
      for (let i = 0; i < data.length; i += 4) dots += data[i] < 128 ? '#' : ' ';
      return {dots, width: bitmap.width * 2, height: bitmap.height * 2};
    }, png.toString('base64'));
    const pixels = Uint8ClampedArray.from({length: picture.dots.length * 4}, (_, i) =>
      i % 4 === 3 || picture.dots[i >> 2] === ' ' ? 255 : 0);
    const read = (jsqr.default || jsqr)(pixels, picture.width, picture.height);
    assert.ok(read, 'nothing can be read from the code');
    assert.equal(read.data, link);
    await sheet.page.locator('#share').evaluate((node) => node.scrollTo(0, 0));
    await sheet.shot(`share-${options.dark ? 'dark' : options.touch ? 'phone' : 'light'}`);
  }
});

test('the card as text is what the command writes, and what is done is said', async ({open}) => {
  const sheet = await open();
  await sheet.context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await sheet.tap('open:share');
  await sheet.page.waitForFunction(() => document.getElementById('share-link').value.includes('#b1.'));
  await sheet.page.click('#share-text');
  await sheet.page.waitForFunction(() => /copied as text/.test(document.getElementById('share-said').textContent));
  const text = await sheet.page.evaluate(() => navigator.clipboard.readText());
  const download = sheet.page.waitForEvent('download');
  await sheet.page.click('#share-file');
  const saved = await (await download).path();
  assert.match(await sheet.page.locator('#share-said').textContent(), /brief\.json/);
  assert.equal(text, execFileSync(COMMAND, ['--text', saved], {encoding: 'utf8'}));
  await sheet.page.click('#share-copy');
  await sheet.page.waitForFunction(() => /link was copied/.test(document.getElementById('share-said').textContent));
  assert.equal(await sheet.page.evaluate(() => navigator.clipboard.readText()),
      await sheet.page.locator('#share-link').inputValue());
  await sheet.page.keyboard.press('Escape');
  assert.ok(!(await sheet.page.locator('#share').isVisible()), 'Escape leaves it open');
  assert.ok(fs.existsSync(saved));
});

test('with a clipboard that refuses, the link is marked to be copied by hand', async ({open}) => {
  const sheet = await open({reading: true});
  await sheet.page.evaluate(() => {
    Object.defineProperty(navigator, 'clipboard', {value: {writeText: () => Promise.reject(new Error('no'))}});
  });
  await sheet.page.click('#actions [data-key="share"]');
  await sheet.page.waitForFunction(() => document.getElementById('share-link').value.includes('#b1.'));
  await sheet.page.click('#share-copy');
  await sheet.page.waitForFunction(() => /marked/.test(document.getElementById('share-said').textContent));
  const marked = await sheet.page.evaluate(() => {
    const field = document.getElementById('share-link');
    return field.selectionEnd - field.selectionStart === field.value.length;
  });
  assert.ok(marked);
});
