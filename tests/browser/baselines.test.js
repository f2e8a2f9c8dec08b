// The sheet at five sizes in every look, compared with the pictures in tests/browser/baselines.
// The default brief, from a fresh start, at one device pixel per CSS pixel.
//
//   TILLERLINE_RECORD=1 tests/run browser=baselines      records them anew
//
// A difference leaves NAME.png (now) and NAME-difference.png in build/shots. The second file shows
// what changed in red.
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert, BUILD, SHOTS} = require('./harness');

// As kept under "look" by the app; a look that is added there is added here, and recorded.
const LOOKS = ['light', 'dark', 'night'];
const SIZES = {
  'tablet-landscape': {width: 1180, height: 820},
  'tablet-portrait': {width: 820, height: 1180},
  'phone': {width: 390, height: 844},
  'laptop': {width: 1440, height: 900},
  'projector': {width: 1920, height: 1080},
};
// A pixel differs if its colour is further off than this share of the whole range (pixelmatch's
// threshold; smoothed edges do not count). The same engine draws the same numbers alike to the
// pixel; another release may round some edges in another way. One other digit is more than this.
const COLOUR_THRESHOLD = 0.1;
const MOST_DIFFERING_PIXELS = 40;

const FOLDER = path.join(__dirname, 'baselines');
const RECORD = Boolean(process.env.TILLERLINE_RECORD);

async function compare(name, got) {
  const modules = path.join(BUILD, 'node/node_modules');
  const {PNG} = require(path.join(modules, 'pngjs'));
  const {default: pixelmatch} = await import(path.join(modules, 'pixelmatch/index.js'));
  const file = path.join(FOLDER, name + '.png');
  assert.ok(fs.existsSync(file), `there is no ${file}; record it with TILLERLINE_RECORD=1`);
  const now = PNG.sync.read(got);
  const wanted = PNG.sync.read(fs.readFileSync(file));
  assert.deepEqual([now.width, now.height], [wanted.width, wanted.height], `the size of ${name}`);
  const difference = new PNG({width: now.width, height: now.height});
  const differing = pixelmatch(wanted.data, now.data, difference.data, now.width, now.height,
      {threshold: COLOUR_THRESHOLD});
  if (differing <= MOST_DIFFERING_PIXELS) return;
  fs.mkdirSync(SHOTS, {recursive: true});
  fs.writeFileSync(path.join(SHOTS, name + '.png'), got);
  const shown = path.join(SHOTS, name + '-difference.png');
  fs.writeFileSync(shown, PNG.sync.write(difference));
  assert.fail(`${differing} pixels differ from ${file}; look at ${shown}`);
}

for (const look of LOOKS) {
  for (const [size, {width, height}] of Object.entries(SIZES)) {
    const name = `baseline-${size}-${look}`;
    test(`baselines: ${size}, ${look}, looks as recorded`, async ({open, note}) => {
      const sheet = await open({width, height, storage: {look}});
      assert.equal(await sheet.page.evaluate(() => document.documentElement.dataset.theme), look);
      const got = await sheet.page.screenshot();
      if (!RECORD) {
        await compare(name, got);
        return;
      }
      fs.mkdirSync(FOLDER, {recursive: true});
      fs.writeFileSync(path.join(FOLDER, name + '.png'), got);
      note(`recorded ${name}.png, ${Math.round(got.length / 1024)} kB`);
    });
  }
}
