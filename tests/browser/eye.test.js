// The view from the pilot's eye: moved by pointer and arrows, from either seat, and in words.
'use strict';

const {test, assert} = require('./harness');

// The picture of that name alone, as it stands on the screen.
async function picture(sheet, id) {
  const {x, y, width, height} = await sheet.rect(id);
  const size = sheet.page.viewportSize();
  const top = Math.max(y, 70);
  return sheet.page.screenshot({clip: {x, y: top, width, height: Math.min(y + height, size.height) - top}});
}

// A tap on the rail below the picture, at a share of its length.
async function tapRail(sheet, id, share) {
  const {x, y, width, height} = await sheet.rect(id);
  await sheet.tapAt(x + 24 + (width - 48) * share, y + height - 38);
}

async function showWhole(sheet, id) {
  await sheet.scrollTo(id);
  const {y, height} = await sheet.rect(id);
  const below = y + height + 20 - sheet.page.viewportSize().height;
  if (below <= 0) return;
  await sheet.page.mouse.wheel(0, below / 0.6);
  await sheet.settle();
}

test('the view of a turn follows pointer and arrows, and the seat changes it', async ({open}) => {
  const sheet = await open();
  await showWhole(sheet, 'figure:eye');
  const still = await picture(sheet, 'figure:eye');
  await tapRail(sheet, 'figure:eye', 0.5);
  const moved = await picture(sheet, 'figure:eye');
  assert.ok(!still.equals(moved), 'a tap on the rail moved nothing');
  await sheet.key('ArrowRight');
  const further = await picture(sheet, 'figure:eye');
  assert.ok(!moved.equals(further), 'the arrow key moved nothing');
  await sheet.key('ArrowLeft');
  assert.ok(moved.equals(await picture(sheet, 'figure:eye')), 'left does not take back right');
  for (const id of ['seat:left', 'seat:right']) assert.ok((await sheet.rect(id)).height >= 48);
  await sheet.tap('seat:right');
  const right = await picture(sheet, 'figure:eye');
  assert.ok(!moved.equals(right), 'both seats see the same');
  const frames = await sheet.frames();
  await sheet.page.waitForTimeout(1000);
  assert.equal(await sheet.frames(), frames, 'it draws while nothing changes');
  // The seat is kept; the left one is chosen again after a reload.
  await sheet.page.reload();
  await sheet.page.waitForFunction(() => window.Module && window.Module.frames > 0);
  await sheet.settle();
  assert.equal(await sheet.page.evaluate(() => localStorage.getItem('tillerline.seat')), 'right');
  await showWhole(sheet, 'figure:eye');
  const kept = await picture(sheet, 'figure:eye');
  await sheet.tap('seat:left');
  assert.ok(!kept.equals(await picture(sheet, 'figure:eye')), 'the seat was not kept');
});

test('the view before the stop moves with its rail on a phone, and is said in words', async ({open}) => {
  const sheet = await open({width: 390, height: 844, touch: true});
  await showWhole(sheet, 'figure:eye-stop');
  const far = await picture(sheet, 'figure:eye-stop');
  await tapRail(sheet, 'figure:eye-stop', 0.97);
  assert.ok(!far.equals(await picture(sheet, 'figure:eye-stop')), 'the line came no nearer');
  const {card} = await sheet.textPage();
  const view = (id) => card.sections.find((section) => section.id === id).view;
  assert.match(view('stop'), /below the horizon.*goes under the glareshield\./);
  assert.match(view('oversteer-2'),
      /you begin to steer when the new centreline stands \d+° left of straight ahead/);
  const read = await sheet.page.evaluate(() => document.getElementById('text-page').textContent);
  assert.ok(read.includes(view('oversteer-2')), 'the text page does not have the sentence');
});
