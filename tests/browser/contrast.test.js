// The colours of the three looks: strong enough to be read in motion, and the same on the canvas as
// on the page around it (contrast as WCAG 2 defines it).
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const ROOT = path.join(__dirname, '../..');
const LOOKS = ['Light', 'Dark', 'Night'];

// {paper: [r, g, b], …} of one look; shades are left out.
function canvasColours(look) {
  const looks = JSON.parse(fs.readFileSync(path.join(ROOT, 'web/paint/colours.json'), 'utf8'));
  return Object.fromEntries(Object.entries(looks[look.toLowerCase()])
      .filter(([, colour]) => typeof colour === 'string')
      .map(([name, colour]) => [name.replace('_', '-'), channels(colour.slice(1))]));
}

const channels = (hex) => [0, 2, 4].map((i) => parseInt(hex.slice(i, i + 2), 16));

function luminance(colour) {
  const [r, g, b] = colour.map((c) => {
    const share = c / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a, b) {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

test('in every look what is read stands 7:1 against paper and tiles', async () => {
  const weak = [];
  for (const look of LOOKS) {
    const c = canvasColours(look);
    const words = ['ink', 'muted', 'accent', 'second', 'third', 'care', 'exceeded'];
    for (const ground of ['paper', 'raised']) {
      for (const name of words) {
        const ratio = contrast(c[name], c[ground]);
        // A tile of the night look is a shade lighter than its paper.
        if (ratio < (look === 'Night' && ground === 'raised' ? 6.4 : 7)) {
          weak.push(`${look}: ${name} on ${ground} ${ratio.toFixed(2)}`);
        }
      }
    }
    const chosen = contrast(c['on-accent'], c.accent);
    if (chosen < 4.5) weak.push(`${look}: a chosen chip ${chosen.toFixed(2)}`);
    if (contrast(c.ink, c.pavement) < 7) weak.push(`${look}: ink on pavement`);
  }
  assert.deepEqual(weak, []);
});

test('canvas and page have the same colours', async ({open}) => {
  const sheet = await open({width: 1180, height: 820});
  for (const look of LOOKS) {
    const shown = await sheet.page.evaluate((name) => {
      document.documentElement.dataset.theme = name;
      const style = getComputedStyle(document.documentElement);
      return Object.fromEntries(['paper', 'raised', 'ink', 'muted', 'rule', 'edge', 'accent',
        'on-accent', 'care', 'exceeded'].map((one) => [one, style.getPropertyValue(`--${one}`).trim()]));
    }, look.toLowerCase());
    const wanted = canvasColours(look);
    for (const [name, colour] of Object.entries(shown)) {
      assert.deepEqual(channels(colour.slice(1)), wanted[name], `${look}: ${name}`);
    }
  }
});

test('the night look is dimmer in every colour, and its words give half the light', async () => {
  const dark = canvasColours('Dark');
  const night = canvasColours('Night');
  const share = (name) => luminance(night[name]) / luminance(dark[name]);
  // 7:1 leaves no more room to be dim for what is coloured.
  for (const name of Object.keys(dark))
    if (name !== 'veil') assert.ok(share(name) < 0.85, `${name}: ${share(name).toFixed(2)}`);
  for (const name of ['ink', 'paper']) assert.ok(share(name) < 0.55, `${name}: ${share(name).toFixed(2)}`);
});
