// Every section of the sheet as it is seen with other colour vision, for a person to look at:
//
//   tests/run browser=colour_vision      leaves build/shots/colour-KIND-SECTION.png
//
// Runs only if asked for: a test can take the pictures, but not judge them.
'use strict';

const fs = require('node:fs');
const {test, assert} = require('./harness');

const KINDS = ['none', 'protanopia', 'deuteranopia', 'tritanopia', 'achromatopsia'];
const SECTIONS = ['title:roll', 'figure:window', 'figure:turn', 'figure:eye', 'figure:edges', 'figure:route', 'figure:after-landing',
  'figure:stop', 'figure:eye-stop', 'figure:restart', 'figure:blast', 'figure:engines', 'title:surface',
  'figure:room', 'figure:uncertainty'];

test('colour vision: every section, for a person to look at', async ({open, note}) => {
  const sheet = await open({width: 1180, height: 820});
  const session = await sheet.context.newCDPSession(sheet.page);
  for (const section of SECTIONS) {
    await sheet.scrollTo(section);
    const seen = new Set();
    for (const type of KINDS) {
      await session.send('Emulation.setEmulatedVisionDeficiency', {type});
      const name = `colour-${type}-${section.split(':')[1]}`;
      await sheet.shot(name);
      seen.add(fs.readFileSync(sheet.shotFile(name)).toString('base64'));
    }
    assert.equal(seen.size, KINDS.length, `some kinds of vision give the same picture of ${section}`);
  }
  await session.send('Emulation.setEmulatedVisionDeficiency', {type: 'none'});
  note(`${SECTIONS.length * KINDS.length} pictures in build/shots/colour-*.png`);
}, {byName: true});
