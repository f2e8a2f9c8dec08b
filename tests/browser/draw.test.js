// A route drawn by hand, and lines from maps in and out.
'use strict';

const fs = require('node:fs');
const {test, assert} = require('./harness');

async function draw(sheet) {
  await sheet.tap('pick:route');
  await sheet.tap('open:draw-route');
}

// Opens empty paper.
async function paper(open, options) {
  const sheet = await open(options);
  await draw(sheet);
  await sheet.tap('draw:new');
  return sheet;
}

// Puts points by taps at shares of the paper's width and height.
async function put(sheet, ...points) {
  const box = await sheet.rect('paper');
  for (const [x, y] of points) await sheet.tapAt(box.x + x * box.width, box.y + y * box.height);
}

async function type(sheet, tile, digits) {
  await sheet.tap('drawn-tile:' + tile);
  for (const digit of digits) await sheet.tap('key:' + (digit === '.' ? 'point' : digit));
  await sheet.tap('key:set');
}

const points = async (sheet) => Object.keys(await sheet.rects()).filter((id) => id.startsWith('point:'));
const subtitle = async (sheet) => (await sheet.textPage()).card.subtitle;
const THREE_CORNERS = [[0.2, 0.8], [0.2, 0.3], [0.5, 0.3], [0.5, 0.7], [0.8, 0.7]];

async function takeIn(sheet, name, text) {
  await sheet.page.setInputFiles('#file', {
    name, mimeType: 'application/geo+json', buffer: Buffer.from(text)});
  await sheet.settle();
}

async function saved(sheet, action) {
  await sheet.tap('open:files');
  const [download] = await Promise.all(
      [sheet.page.waitForEvent('download'), sheet.tap('file:' + action)]);
  return JSON.parse(fs.readFileSync(await download.path(), 'utf8'));
}

test('a route of three corners is drawn by taps, gets a radius, and the card follows', async ({open}) => {
  const sheet = await paper(open, {width: 820, height: 1180, touch: true});
  const before = await subtitle(sheet);
  assert.deepEqual(await points(sheet), []);
  await put(sheet, ...THREE_CORNERS);
  assert.equal((await points(sheet)).length, 5);
  await sheet.tap('point:2');
  await type(sheet, 'radius', '60');
  await sheet.tap('point:0');
  await type(sheet, 'slope', '0.5');
  await sheet.tap('point:1');
  await type(sheet, 'elevation', '1.2');
  await sheet.shot('draw-three-corners');
  await sheet.tap('draw:use');
  assert.ok(!(await sheet.has('paper')), 'the paper stays open over a used route');
  assert.notEqual(await subtitle(sheet), before);
  const route = await saved(sheet, 'save-route');
  const turns = route.legs.filter((leg) => leg.kind === 'arc');
  assert.equal(turns.length, 3);
  assert.equal(turns[1].radius_m, 60);
  assert.ok(route.legs[0].slope_percent > 0.1 && route.legs[0].slope_percent !== 0.5,
      'the elevation did not set the slope before it');
  assert.equal(route.legs.at(-1).slope_percent, 0);
  // To squares and to 15 degrees: what looks like a right angle is one.
  for (const turn of turns) assert.ok(Math.abs(Math.abs(turn.turn_deg) - 90) < 1e-6, turn.turn_deg);
  await sheet.tap('undo');
  assert.equal(await subtitle(sheet), before);
  await sheet.tap('redo');
  assert.notEqual(await subtitle(sheet), before);
});

test('drawing steps go back and forth, by button and by key', async ({open}) => {
  const sheet = await paper(open, {width: 1440, height: 900});
  await put(sheet, ...THREE_CORNERS);
  await sheet.tap('draw:undo');
  await sheet.key('Control+z');
  assert.equal((await points(sheet)).length, 3);
  await sheet.tap('draw:redo');
  await sheet.key('Control+y');
  assert.equal((await points(sheet)).length, 5);
  assert.ok(!(await sheet.has('key:set')));
  await sheet.tap('draw:new');
  assert.equal((await points(sheet)).length, 0);
  await sheet.key('Control+z');
  assert.equal((await points(sheet)).length, 5);
});

test('the paper by keyboard: points are added, moved, removed, and Escape backs out', async ({open}) => {
  const sheet = await paper(open, {width: 1440, height: 900});
  await put(sheet, [0.3, 0.7]);
  await sheet.key('Enter');
  assert.equal((await points(sheet)).length, 2);
  const was = await sheet.rect('point:1');
  await sheet.key('ArrowRight');
  const now = await sheet.rect('point:1');
  assert.ok(now.x > was.x + 10 && Math.abs(now.y - was.y) < 1, 'the point did not move one square');
  await sheet.key('+');
  const near = await sheet.rect('point:1');
  assert.ok(Math.abs(near.x - now.x) > 1 || Math.abs(near.y - now.y) > 1, 'plus did not zoom');
  await sheet.key('Delete');
  assert.equal((await points(sheet)).length, 1);
  await sheet.key('Escape');
  assert.ok(await sheet.has('paper'), 'the first Escape lets the point go only');
  await sheet.key('Escape');
  assert.ok(!(await sheet.has('paper')));
});

test('a point is dragged clear of the finger, as one step, and two fingers zoom', async ({open}) => {
  const sheet = await paper(open, {width: 820, height: 1180, touch: true});
  await put(sheet, ...THREE_CORNERS);
  const from = await sheet.centre('point:1');
  await sheet.dragFinger(from, {x: from.x, y: from.y + 20});
  const to = await sheet.centre('point:1');
  assert.ok(to.y < from.y, 'the point lies under the finger');
  await sheet.tap('draw:undo');
  const back = await sheet.centre('point:1');
  assert.ok(Math.abs(back.x - from.x) < 1 && Math.abs(back.y - from.y) < 1, 'one drag was several steps');
  const gap = async () => (await sheet.centre('point:4')).x - (await sheet.centre('point:0')).x;
  const before = await gap();
  const box = await sheet.rect('paper');
  const middle = {x: box.x + box.width / 2, y: box.y + box.height / 2};
  const pair = (d) => [{x: middle.x - d, y: middle.y}, {x: middle.x + d, y: middle.y}];
  await sheet.touch('touchStart', pair(100));
  for (let d = 96; d >= 60; d -= 4) {
    await sheet.touch('touchMove', pair(d));
    await sheet.page.waitForTimeout(20);
  }
  await sheet.touch('touchEnd', []);
  await sheet.settle();
  const after = await gap();
  assert.ok(after < before * 0.75 && after > before * 0.45, `from ${before} to ${after}`);
  assert.equal((await points(sheet)).length, 5, 'the gesture added a point');
});

test('a radius without room is refused in words at the place, and nothing drawn is lost', async ({open}) => {
  const sheet = await paper(open, {width: 1180, height: 820});
  await put(sheet, ...THREE_CORNERS);
  await sheet.tap('point:2');
  await type(sheet, 'radius', '900');
  assert.equal((await points(sheet)).length, 5);
  await sheet.shot('draw-radius-refused');
  await sheet.tap('draw:use');
  assert.ok(await sheet.has('paper'), 'a route whose turn has no room was used');
  await sheet.tap('panel:close');
  await draw(sheet);
  assert.equal((await points(sheet)).length, 5, 'the drawing was lost');
});

test('a line from a map is taken in, and what was made of it is said', async ({open}) => {
  const sheet = await open();
  await takeIn(sheet, 'line.geojson', JSON.stringify({type: 'LineString', coordinates: [
    [10.0, 50.0, 81], [10.0, 50.0027, 82.5], [10.0, 50.0053944, 84], [10.0055815, 50.0053944, 84]]}));
  const {card} = await sheet.textPage();
  assert.match(card.status, /line\.geojson was taken in: 1 turn from 4 positions, simplified within 1\.0 m/);
  const route = await saved(sheet, 'save-route');
  assert.equal(route.legs.length, 3);
  assert.ok(Math.abs(route.legs[0].slope_percent - 0.5) < 0.01, route.legs[0].slope_percent);
});

test('a bad line is explained by member, value and range, and the brief stays', async ({open}) => {
  const sheet = await open();
  const before = await subtitle(sheet);
  await takeIn(sheet, 'bad.geojson', '{"type":"LineString","coordinates":[[50,110],[50,110.01]]}');
  assert.match((await sheet.textPage()).card.status, /latitude is 110, outside -90 to 90°.*other way round/);
  await sheet.shot('draw-bad-line');
  await sheet.key('Escape');
  assert.equal(await subtitle(sheet), before);
  await takeIn(sheet, 'two.json', '{"type":"FeatureCollection","features":[]}');
  assert.match((await sheet.textPage()).card.status, /0 LineStrings, exactly one is wanted/);
});

test('a route saved as GeoJSON comes back as the same route', async ({open}) => {
  const sheet = await open();
  const was = await saved(sheet, 'save-route');
  const line = await saved(sheet, 'save-line');
  assert.equal(line.geometry.type, 'LineString');
  assert.match(line.properties.place, /Invented/);
  await takeIn(sheet, 'back.geojson', JSON.stringify(line));
  const is = await saved(sheet, 'save-route');
  const turns = (route) => route.legs.filter((leg) => leg.kind === 'arc');
  assert.equal(turns(is).length, turns(was).length);
  for (const [i, turn] of turns(is).entries()) {
    assert.ok(Math.abs(turn.turn_deg - turns(was)[i].turn_deg) < 1, `turn ${i}: ${turn.turn_deg}`);
    assert.ok(Math.abs(turn.radius_m / turns(was)[i].radius_m - 1) < 0.1, `turn ${i}: ${turn.radius_m}`);
  }
});
