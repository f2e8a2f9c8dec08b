// The colours of the three looks: strong enough to be read in motion, and the same on the canvas as
// on the page around it. Computed from web/theme.cpp and site/style.css (contrast as WCAG 2 defines
// it).
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {test, assert} = require('./harness');

const ROOT = path.join(__dirname, '../..');
const LOOKS = ['Light', 'Dark', 'Night'];

// {paper: [r, g, b], …} of one look of the canvas; shades are left out.
function canvasColours(look) {
  const source = fs.readFileSync(path.join(ROOT, 'web/theme.cpp'), 'utf8');
  const block = source.match(new RegExp(`Palette k${look}\\{([^;]*)\\};`))[1];
  const found = [...block.matchAll(/\.(\w+) = rgb\(0x([0-9A-F]{6})/g)];
  return Object.fromEntries(found.map(([, name, hex]) => [name.replace('_', '-'), channels(hex)]));
}

function pageColours(look) {
  const source = fs.readFileSync(path.join(ROOT, 'site/style.css'), 'utf8');
  const head = look === 'Light' ? ':root {' : `:root[data-theme="${look.toLowerCase()}"] {`;
  const from = source.indexOf(head);
  assert.ok(from >= 0, `style.css has no ${head}`);
  const block = source.slice(from, source.indexOf('}', from));
  const found = [...block.matchAll(/--([\w-]+): #([0-9a-f]{6})/g)];
  return Object.fromEntries(found.map(([, name, hex]) => [name, channels(hex)]));
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

test('canvas and page have the same colours', async () => {
  for (const look of LOOKS) {
    const canvas = canvasColours(look);
    const page = pageColours(look);
    for (const [name, on] of [['paper', 'paper'], ['raised', 'raised'], ['ink', 'ink'],
      ['muted', 'muted'], ['rule', 'rule'], ['accent', 'accent'], ['care', 'care'],
      ['exceeded', 'limit'], ['on-accent', 'on-accent']]) {
      assert.deepEqual(page[on], canvas[name], `${look}: ${name}`);
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
