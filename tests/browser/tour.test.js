// The tour of a first start: three steps, none of which is in the way.
'use strict';

const {test, assert} = require('./harness');

const SIZES = {tablet: {width: 1180, height: 820}, phone: {width: 390, height: 844}};

for (const [size, {width, height}] of Object.entries(SIZES)) {
  test(`tour: three taps on a ${size}, and never again`, async ({open}) => {
    const sheet = await open({width, height, touch: true, fresh: true});
    for (const [step, id] of ['tile:mass_t', 'answer:Turn', 'figure:turn'].entries()) {
      assert.ok(await sheet.has('tour'), `step ${step + 1} is not there`);
      assert.ok(await sheet.has(id), `step ${step + 1} speaks of "${id}", which is out of sight`);
      const of = await sheet.rect(id);
      const box = await sheet.rect('tour');
      const clear = of.y + of.height / 2 < box.y || of.y >= box.y + box.height || of.x + of.width < box.x;
      assert.ok(clear, `step ${step + 1} covers "${id}"`);
      await sheet.tap('tour:next');
    }
    assert.ok(!(await sheet.has('tour')), 'a fourth step');
    await sheet.reload();
    assert.ok(!(await sheet.has('tour')), 'it came back');
  });
}

test('tour: it can be skipped at once, and asked for again', async ({open}) => {
  const sheet = await open({fresh: true, width: 900});
  await sheet.tap('tour:skip');
  assert.ok(!(await sheet.has('tour')));
  await sheet.reload();
  assert.ok(!(await sheet.has('tour')), 'it came back');
  await sheet.scrollTo('open:about');
  await sheet.tap('open:about');
  await sheet.scrollTo('about:tour');
  await sheet.tap('about:tour');
  assert.ok(await sheet.has('tour:skip'));
});

test('tour: doing what a step says ends it', async ({open}) => {
  const sheet = await open({fresh: true, touch: true});
  await sheet.tap('tile:mass_t');
  await sheet.tap('key:cancel');
  await sheet.tap('answer:Oversteering');
  await sheet.tap('figure:turn');
  assert.ok(!(await sheet.has('tour')));
});

test('tour: who has a brief already is not shown it', async ({open}) => {
  const sheet = await open({fresh: true});
  await sheet.page.evaluate(() => localStorage.removeItem('tillerline.tour'));
  await sheet.tap('tile:mass_t');
  await sheet.key('3');
  await sheet.key('0');
  await sheet.key('0');
  await sheet.key('Enter');
  await sheet.reload();
  assert.ok(!(await sheet.has('tour')));
});
