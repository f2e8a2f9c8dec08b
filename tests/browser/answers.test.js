// The later questions of the sheet as their user meets them: surface, restart, engines, turnaround,
// room, how sure, what was observed, and how one knows.
'use strict';

const {test, assert} = require('./harness');

const PHONE = {width: 390, height: 844, touch: true};
const PICTURES = ['edges', 'after-landing', 'restart', 'blast', 'engines', 'uncertainty'];

const section = async (sheet, id) => {
  const {card} = await sheet.textPage();
  const found = card.sections.find((one) => one.id === id);
  assert.ok(found, `the card has no section "${id}"`);
  return found;
};

const shot = (sheet) => sheet.page.locator('#canvas').screenshot();

const stored = (sheet) =>
  sheet.page.evaluate(() => JSON.parse(localStorage.getItem('tillerline.brief')));

// The inputs scroll by themselves on a wide screen; on a phone they are part of the one column.
async function scrollInputs(sheet, id) {
  if (sheet.options.touch) {
    await sheet.scrollTo(id);
    return;
  }
  const {height} = sheet.page.viewportSize();
  for (let i = 0; i < 60; ++i) {
    const known = (await sheet.rects())[id];
    const middle = known ? known[1] + known[3] / 2 : Infinity;
    if (middle > 40 && middle < height - 40) return;
    await sheet.page.mouse.move(200, height / 2);
    await sheet.page.mouse.wheel(0, middle > 40 ? 300 : -300);
    await sheet.settle();
  }
  assert.fail(`could not scroll the inputs to "${id}"`);
}

async function setByKeys(sheet, tile, digits) {
  await sheet.tap(tile);
  for (const digit of digits) await sheet.tap('key:' + (digit === '.' ? 'point' : digit));
  await sheet.tap('key:set');
  assert.ok(!(await sheet.has('key:set')), `${digits} was refused`);
}

test('every picture of the later questions is drawn, with room for a finger', async ({open}) => {
  const sheet = await open(PHONE);
  for (const picture of PICTURES) {
    await sheet.scrollTo('figure:' + picture);
    const {width, height} = await sheet.rect('figure:' + picture);
    assert.ok(width > 300 && height > 60, `${picture}: ${width} x ${height} in sight`);
    await sheet.shot('answers-phone-' + picture);
  }
});

test('a finger reads off the pictures over distance and time; arrow keys go on', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  for (const picture of ['after-landing', 'restart']) {
    const id = 'figure:' + picture;
    await sheet.scrollTo(id);
    const before = await shot(sheet);
    const {x, y, width, height} = await sheet.rect(id);
    const from = {x: x + width * 0.35, y: y + height * 0.4};
    await sheet.dragFinger(from, {x: from.x + 120, y: from.y + 4});
    const read = await shot(sheet);
    assert.ok(!before.equals(read), `the finger read nothing off in ${picture}`);
    await sheet.key('ArrowLeft');
    assert.ok(!read.equals(await shot(sheet)), `the arrow key moved nothing in ${picture}`);
  }
});

test('a half turn is drawn where one is wanted, and turned by the finger', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  await sheet.scrollTo('fold:route');
  await sheet.tap('fold:route');
  await sheet.scrollTo('tile:half_turn_width_m');
  await setByKeys(sheet, 'tile:half_turn_width_m', '60');
  await sheet.scrollTo('figure:room');
  await sheet.shot('answers-room');
  const before = await shot(sheet);
  const {x, y, width, height} = await sheet.rect('figure:room');
  const from = {x: x + width * 0.5, y: y + height * 0.5};
  await sheet.dragFinger(from, {x: from.x + width * 0.25, y: from.y + 6});
  const turned = await shot(sheet);
  assert.ok(!before.equals(turned), 'the finger turned nothing');
  await sheet.key('ArrowLeft');
  assert.ok(!turned.equals(await shot(sheet)), 'the arrow key turned nothing');
  // Where there is no room, the sheet says so.
  const wide = (await section(sheet, 'room')).headline;
  await sheet.scrollTo('tile:half_turn_width_m');
  await setByKeys(sheet, 'tile:half_turn_width_m', '40');
  assert.notEqual((await section(sheet, 'room')).headline, wide);
  assert.match((await section(sheet, 'room')).headline, /No room/);
});

test('a surface is chosen from its list; then it comes first and tightens', async ({open}) => {
  const sheet = await open({height: 1000});
  await sheet.scrollTo('title:roll');
  assert.ok(!(await sheet.has('title:surface')), 'a dry surface comes first');
  const before = (await section(sheet, 'surface')).headline;
  await scrollInputs(sheet, 'choice:surface');
  await sheet.tap('choice:surface');
  await sheet.tap('option:ice');
  assert.equal((await sheet.input('surface')).value, 'ice');
  assert.notEqual((await section(sheet, 'surface')).headline, before);
  const {y} = await sheet.rect('title:surface');
  assert.ok(y > 0 && y < 500, 'the surface does not come first');
  // The condition code as reported is a choice, too.
  await scrollInputs(sheet, 'choice:reported_code');
  await sheet.tap('choice:reported_code');
  const rects = await sheet.rects();
  const codes = Object.keys(rects).filter((id) => id.startsWith('option:'));
  assert.equal(codes.length, 8, codes.join(' '));
  await sheet.key('Escape');
  assert.ok(!(await sheet.has('panel:close')));
});

test('a depth is asked for only where there is something deep', async ({open}) => {
  const sheet = await open({height: 1000});
  assert.ok(!(await sheet.has('tile:contaminant_depth_mm')));
  await scrollInputs(sheet, 'choice:surface');
  await sheet.tap('choice:surface');
  await sheet.tap('option:slush');
  await scrollInputs(sheet, 'tile:contaminant_depth_mm');
  await setByKeys(sheet, 'tile:contaminant_depth_mm', '13');
  assert.equal((await sheet.input('contaminant_depth_mm')).value, 13);
});

test('a turnaround is folded away until it is wanted, and its line says what is set', async ({open}) => {
  const sheet = await open(PHONE);
  await sheet.scrollTo('fold:turnaround');
  assert.ok(!(await sheet.has('chip:turnaround_included:true')));
  const closed = await shot(sheet);
  await sheet.tap('fold:turnaround');
  await sheet.scrollTo('chip:turnaround_included:true');
  const before = (await section(sheet, 'after-landing')).headline;
  await sheet.tap('chip:turnaround_included:true');
  assert.notEqual((await section(sheet, 'after-landing')).headline, before);
  const {card} = await sheet.textPage();
  const fields = card.inputs.filter((input) => input.group === 'turnaround');
  assert.ok(fields.length >= 6);
  await sheet.scrollTo('tile:' + fields.at(-1).key);
  await sheet.scrollTo('fold:turnaround');
  await sheet.tap('fold:turnaround');
  await sheet.scrollTo('fold:turnaround');
  assert.ok(!closed.equals(await shot(sheet)));
  await sheet.scrollTo('figure:after-landing');
  await sheet.shot('answers-phone-turnaround');
});

test('a leg is given easing curves, by the keypad and within its angle', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  await sheet.scrollTo('open:legs');
  await sheet.tap('open:legs');
  await sheet.tap('leg:2');
  await setByKeys(sheet, 'leg-tile:easing_m', '30');
  assert.equal((await stored(sheet)).route.legs[1].easing_m, 30);
  await sheet.shot('answers-legs');
  // Longer than the turn itself is refused with the range.
  await sheet.tap('leg-tile:easing_m');
  for (const digit of '190') await sheet.tap('key:' + digit);
  await sheet.tap('key:set');
  assert.ok(await sheet.has('key:set'), 'an easing longer than its turn was taken');
  assert.match((await sheet.textPage()).card.status, /Easing/);
  await sheet.key('Escape');
  assert.equal((await stored(sheet)).route.legs[1].easing_m, 30);
});

test('what was observed is entered, judged, used, and taken back', async ({open}) => {
  const sheet = await open({width: 820, height: 1180, touch: true});
  const was = (await stored(sheet) || {}).aircraft;
  await sheet.scrollTo('open:calibration');
  await sheet.tap('open:calibration');
  await sheet.tap('observe:heated_by');
  await setByKeys(sheet, 'observation-tile:energy_mj', '146');
  await setByKeys(sheet, 'observation-tile:before_c', '80');
  await setByKeys(sheet, 'observation-tile:after_c', '240');
  await setByKeys(sheet, 'observation-tile:error_c', '5');
  assert.equal((await stored(sheet)).observations.length, 1);
  await sheet.shot('answers-calibration');
  const mass = (await sheet.input('heat_pack_mass_kg')).value;
  await sheet.scrollTo('calibration:use');
  await sheet.tap('calibration:use');
  const calibrated = (await sheet.input('heat_pack_mass_kg')).value;
  assert.notEqual(calibrated, mass, 'the observation taught nothing');
  assert.ok((await stored(sheet)).aircraft.calibration, 'the aircraft does not keep what was found');
  await sheet.tap('panel:close');
  await sheet.scrollTo('undo');
  await sheet.tap('undo');
  assert.equal((await sheet.input('heat_pack_mass_kg')).value, mass);
  assert.ok(!(await stored(sheet)).aircraft.calibration);
  assert.equal((await stored(sheet)).observations.length, 1, 'undo took the observation, too');
  assert.ok(was === undefined || was.id === (await stored(sheet)).aircraft.id);
});

test('an observation is removed again, by mouse, and Escape leaves the panel', async ({open}) => {
  const sheet = await open({height: 1000});
  await scrollInputs(sheet, 'open:calibration');
  await sheet.tap('open:calibration');
  await sheet.tap('observe:turn_axis');
  assert.ok(await sheet.has('observation-tile:ahead_m'));
  await sheet.tap('observation:remove');
  assert.ok(!(await sheet.has('observation:1')));
  await sheet.key('Escape');
  assert.ok(!(await sheet.has('panel:close')));
});

test('a drag is published once, when it comes to rest', async ({open}) => {
  const sheet = await open();
  await sheet.page.evaluate(() => {
    window.published = 0;
    const publish = window.Module.page.publish;
    window.Module.page.publish = (json) => {
      window.published += 1;
      publish(json);
    };
  });
  const before = (await sheet.input('mass_t')).value;
  const {x, y} = await sheet.centre('tile:mass_t');
  await sheet.page.mouse.move(x, y);
  await sheet.page.mouse.down();
  for (let i = 1; i <= 8; ++i) {
    await sheet.page.mouse.move(x + 12 * i, y);
    await sheet.settle();
  }
  assert.equal(await sheet.page.evaluate(() => window.published), 0, 'published while dragging');
  await sheet.page.mouse.up();
  await sheet.settle();
  assert.equal(await sheet.page.evaluate(() => window.published), 1);
  assert.notEqual((await sheet.input('mass_t')).value, before);
});

test('"How do you know?" opens the book of checks beside the sheet', async ({open}) => {
  const sheet = await open();
  await sheet.page.focus('#canvas');
  await sheet.key('End');
  const opened = async (id) => {
    await sheet.scrollTo(id);
    const [page] = await Promise.all([sheet.context.waitForEvent('page'), sheet.tap(id)]);
    await page.waitForLoadState();
    assert.ok(page.url().endsWith('/proof.html'), page.url());
    await page.close();
  };
  await opened('proof:sheet');
  await sheet.tap('open:about');
  await sheet.page.mouse.move(590, 410);
  for (let i = 0; i < 20 && !(await sheet.has('proof:about')); ++i) {
    await sheet.page.mouse.wheel(0, 200);
    await sheet.settle();
  }
  const [page] = await Promise.all([sheet.context.waitForEvent('page'), sheet.tap('proof:about')]);
  assert.ok(page.url().endsWith('/proof.html'), page.url());
  await sheet.key('Escape');
  // The page of text leads there, too.
  await sheet.page.click('#read');
  assert.equal(await sheet.page.locator('#proof').getAttribute('href'), 'proof.html');
});
