// The page around the sheet: it loads cleanly, draws, rests, and is there as text.
'use strict';

const {test, assert} = require('./harness');

test('the sheet is drawn without errors', async ({open}) => {
  const sheet = await open();
  assert.ok(await sheet.colours() > 10, 'the canvas shows hardly any colours');
  assert.equal(await sheet.page.title(), 'Tillerline – taxi briefing');
  await sheet.shot('shell-landscape');
});

test('the canvas is as sharp as the screen, in both orientations', async ({open}) => {
  const sheet = await open({width: 768, height: 1024, dpr: 2, touch: true});
  const size = () => sheet.page.evaluate(() => {
    const canvas = document.getElementById('canvas');
    return [canvas.width, canvas.height];
  });
  assert.deepEqual(await size(), [1536, 2048]);
  await sheet.page.setViewportSize({width: 1024, height: 768});
  await sheet.settle();
  assert.deepEqual(await size(), [2048, 1536]);
  assert.ok(await sheet.colours() > 10, 'nothing is drawn after turning the screen');
  await sheet.shot('shell-turned');
});

test('nothing is drawn while nothing happens', async ({open}) => {
  const sheet = await open();
  const before = await sheet.frames();
  await sheet.page.waitForTimeout(2000);
  assert.equal(await sheet.frames(), before);
  await sheet.page.mouse.move(300, 300);
  await sheet.settle();
  assert.ok(await sheet.frames() > before, 'a moved mouse draws no frame');
});

test('a frame that would look like the last one is not painted', async ({open}) => {
  const sheet = await open();
  await sheet.page.evaluate(() => {
    const gl = document.getElementById('canvas').getContext('webgl2');
    const draw = gl.drawElements.bind(gl);
    window.painted = 0;
    gl.drawElements = (...all) => (window.painted += 1, draw(...all));
  });
  const painted = () => sheet.page.evaluate(() => window.painted);
  await sheet.page.mouse.move(300, 300);
  await sheet.settle();
  const frames = await sheet.frames();
  await sheet.page.evaluate(() => (window.painted = 0));
  await sheet.page.mouse.move(301, 300);
  await sheet.settle();
  assert.ok(await sheet.frames() > frames, 'the mouse came to no frame');
  assert.equal(await painted(), 0, 'the same picture was painted again');
  await sheet.tap('tile:mass_t');
  assert.ok(await painted() > 0, 'the keypad that opens is not painted');
  await sheet.page.evaluate(() => (window.painted = 0));
  await sheet.page.setViewportSize({width: 1180, height: 822});
  await sheet.page.setViewportSize({width: 1180, height: 820});
  await sheet.settle();
  assert.ok(await painted() > 0, 'a canvas made blank by its new size is not painted');
  assert.ok(await sheet.colours() > 10, 'nothing is on the canvas');
});

test('the text page is in the accessibility tree beside the drawn sheet', async ({open}) => {
  const sheet = await open();
  const tree = await sheet.accessibilityTree();
  assert.match(tree, /heading: Long four, 298 t/);
  assert.match(tree, /button: Read as text/);
  assert.match(tree, /heading: About this sheet/);
});

test('"Read as text" shows the text page and leads back', async ({open}) => {
  const sheet = await open({width: 390, height: 844, dpr: 2, touch: true});
  const button = await sheet.page.locator('#read').boundingBox();
  assert.ok(button.width >= 48 && button.height >= 48, 'the button is too small for a finger');
  await sheet.page.locator('#read').tap();
  assert.ok(await sheet.page.locator('#about').isVisible());
  assert.ok(!(await sheet.page.locator('#canvas').isVisible()));
  const wide = await sheet.page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
  assert.ok(!wide, 'the text is wider than a phone');
  await sheet.shot('shell-text-phone');
  await sheet.page.locator('#read').tap();
  await sheet.settle();
  assert.ok(await sheet.page.locator('#canvas').isVisible());
  assert.ok(await sheet.colours() > 10, 'the sheet is blank after coming back');
});

test('without WebGL the text page stands alone and says why', async ({open}) => {
  const sheet = await open({flags: ['--disable-3d-apis']});
  assert.ok(await sheet.page.locator('#about').isVisible());
  assert.match((await sheet.textPage()).text, /offers no WebGL 2/);
  await sheet.shot('shell-no-webgl');
});

test('Tab leads out of the canvas', async ({open}) => {
  const sheet = await open();
  await sheet.page.focus('#canvas');
  await sheet.page.keyboard.press('Shift+Tab');
  assert.equal(await sheet.page.evaluate(() => document.activeElement.id), 'read');
  await sheet.page.keyboard.press('Tab');
  assert.equal(await sheet.page.evaluate(() => document.activeElement.id), 'canvas');
});

test('a lost graphics context comes back', async ({open}) => {
  // Deleting what died with the old context is harmless and warned about, not an error.
  const sheet = await open();
  const before = await sheet.colours();
  await sheet.page.evaluate(async () => {
    const gl = document.getElementById('canvas').getContext('webgl2');
    const extension = gl.getExtension('WEBGL_lose_context');
    extension.loseContext();
    await new Promise((resolve) => setTimeout(resolve, 300));
    extension.restoreContext();
    await new Promise((resolve) => setTimeout(resolve, 300));
  });
  await sheet.page.mouse.move(200, 200);
  await sheet.settle();
  assert.ok(await sheet.colours() >= before / 2, 'the sheet is blank after the context came back');
});

test('once loaded, nothing is requested any more', async ({open}) => {
  const sheet = await open();
  const before = sheet.requests.length;
  await sheet.tapAt(200, 200);
  await sheet.page.click('#read');
  await sheet.page.waitForTimeout(500);
  // The page's two font files may be asked for late, when the text first shows.
  const late = sheet.requests.slice(before).filter((url) => !url.endsWith('.woff'));
  assert.deepEqual(late, []);
});
