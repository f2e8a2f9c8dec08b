// Study and wall: what a student and a class meet.
'use strict';

const {test, assert} = require('./harness');

async function go(sheet, purpose) {
  await sheet.tap('open:view');
  await sheet.tap(`purpose:${purpose}`);
}

const kept = (sheet) => sheet.page.evaluate(() => localStorage.getItem('tillerline.study') || '');

test('study: the guess comes before the answer, and what became of it is kept', async ({open}) => {
  const sheet = await open();
  const brief = (await sheet.textPage()).card;
  await go(sheet, 'study');
  await sheet.tap('exercise:roll-time-1');
  assert.ok(!(await sheet.has('figure:roll')), 'the picture shows before the guess');
  await sheet.tap('guess');
  await sheet.page.keyboard.type('70', {delay: 30});
  await sheet.key('Enter');
  assert.ok(await sheet.has('verdict:right'));
  assert.ok(await sheet.has('figure:roll'));
  await sheet.shot('study-answer');
  assert.equal(await kept(sheet), 'roll-time-1 3\n');
  await sheet.reload();
  assert.equal(await kept(sheet), 'roll-time-1 3\n');
  // The user's own brief knows nothing of it.
  assert.deepEqual((await sheet.textPage()).card.inputs, brief.inputs);
});

test('study: a wrong guess is off, and a later right one counts', async ({open}) => {
  const sheet = await open({width: 390, height: 844, touch: true});
  await go(sheet, 'study');
  await sheet.tap('exercise:roll-start-1');
  await sheet.tap('option:2');
  assert.ok(await sheet.has('verdict:off'));
  await sheet.scrollTo('study:list');
  await sheet.tap('study:list');
  assert.equal(await kept(sheet), 'roll-start-1 1\n');
  await sheet.tap('exercise:roll-start-1');
  await sheet.tap('option:0');
  assert.ok(await sheet.has('verdict:right'));
  assert.equal(await kept(sheet), 'roll-start-1 3\n');
});

test('study: a guess out of range is refused by name, value and range', async ({open}) => {
  const sheet = await open();
  await go(sheet, 'study');
  await sheet.tap('exercise:roll-time-1');
  await sheet.tap('guess');
  await sheet.page.keyboard.type('5000', {delay: 30});
  await sheet.key('Enter');
  assert.ok(await sheet.has('key:set'), 'the keypad closed');
  assert.equal(await kept(sheet), '');
  const {card} = await sheet.textPage();
  assert.match(card.status, /guess.*5000 s.*5 to 600 s/);
});

test('wall: a remote turns the pages, blanks the picture and leads back', async ({open}) => {
  const sheet = await open({width: 1920, height: 1080});
  await go(sheet, 'wall');
  assert.ok(await sheet.has('figure:roll'));
  await sheet.shot('wall-roll');
  await sheet.key('PageDown');
  assert.ok(await sheet.has('figure:window'));
  await sheet.key('PageDown');
  assert.ok(await sheet.has('figure:turn'));
  await sheet.key('PageUp');
  assert.ok(await sheet.has('figure:window'));
  await sheet.page.keyboard.type('.');
  await sheet.settle();
  assert.ok(await sheet.has('wall:blank'));
  assert.ok(!(await sheet.has('figure:window')));
  await sheet.page.keyboard.type('.');
  await sheet.settle();
  assert.ok(await sheet.has('figure:window'));
  await sheet.key('Escape');
  assert.ok(await sheet.has('open:files'));
  assert.ok(!(await sheet.has('wall:next')));
});

test('wall: every page fits its screen, and a finger reaches its buttons', async ({open}) => {
  const sheet = await open({width: 1024, height: 768, touch: true});
  await go(sheet, 'wall');
  let cards = 0;
  for (let page = 0; page < 30; ++page) {
    const rects = await sheet.rects();
    for (const id of ['wall:next', 'wall:back', 'wall:leave']) {
      const [, y, , height] = rects[id];
      assert.ok(height >= 47.5 && y + height <= 768, `${id} on page ${page}`);
    }
    const shown = Object.keys(rects).find((id) => id.startsWith('figure:') || id === 'wall:card');
    assert.ok(shown, `page ${page} has no picture`);
    if (shown === 'wall:card') {
      const [, y, , height] = rects[shown];
      assert.ok(y + height <= rects['wall:next'][1], `the card on page ${page} runs into the foot`);
      cards += 1;
    }
    await sheet.tap('wall:next');
  }
  assert.ok(cards > 0, 'the card has no page');
  assert.ok((await sheet.colours()) > 50);
  await sheet.tap('wall:leave');
  assert.ok(await sheet.has('open:files'));
});

test('wall: nothing is drawn while nothing happens', async ({open}) => {
  const sheet = await open({width: 1920, height: 1080});
  await go(sheet, 'wall');
  const frames = await sheet.frames();
  await sheet.page.waitForTimeout(1500);
  assert.equal(await sheet.frames(), frames);
});

// The first exercise whose guess is made with that; answers its id.
async function openExercise(page, field) {
  const ids = await page.evaluate(() =>
    [...document.querySelectorAll('#study-open option')].map((option) => option.value).filter(Boolean));
  for (const id of ids) {
    await page.selectOption('#study-open', id);
    if (await page.locator(field).count() > 0) return id;
  }
  throw new Error(`no exercise has ${field}`);
}

test('study on the text page: a guess first, then answer and reason; progress is kept', async ({open}) => {
  const sheet = await open({reading: true});
  const page = sheet.page;
  const text = () => page.evaluate(() => document.getElementById('study').innerText);
  const first = await openExercise(page, '#study-guess');
  assert.doesNotMatch(await text(), /Why/, 'the answer is shown before the guess');
  await page.fill('#study-guess', 'many');
  await page.click('text=Show the answer');
  assert.match(await text(), /Your guess: \u201cmany\u201d .* (is outside|to) /);
  assert.equal(await page.inputValue('#study-guess'), 'many', 'what was typed is lost');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'study-guess');
  const range = await page.textContent('#study-range');
  await page.fill('#study-guess', range.match(/[\d.]+/)[0]);
  await page.click('text=Show the answer');
  assert.match(await text(), /(Right|Close|Not so)\. [^]*Why/);
  assert.equal(await page.evaluate(() => document.activeElement.id), 'study-verdict');
  assert.match(await page.textContent('#status'), /(Right|Close|Not so)\./);
  assert.match(await text(), /1 tried/);
  await page.click('text=Next exercise');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'study-question');
  assert.notEqual(await page.inputValue('#study-open'), first);
  await sheet.reload();
  await page.waitForFunction(() => /1 tried/.test(document.getElementById('study').textContent));
});

test('study on the text page: an exercise with words to choose from', async ({open}) => {
  const sheet = await open({reading: true});
  const page = sheet.page;
  await openExercise(page, '#study input[type=radio]');
  await page.click('text=Show the answer');
  assert.match(await page.textContent('#study-refusal'), /Choose one of the answers/);
  await page.check('#study input[type=radio] >> nth=0');
  await page.click('text=Show the answer');
  assert.ok(await page.locator('#study-verdict').isVisible());
});
