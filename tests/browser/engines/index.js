// One small way to drive any engine, for tests that shall hold in all of them.
//
// An engine is a module with start({build, width, height}), which answers
//   name, version          as the running browser says them
//   go(url), reload()      resolve when the page is loaded
//   evaluate(function, ...values)   runs it in the page; promises are waited for
//   tap(x, y)              one finger, in CSS pixels
//   drag(points)           one finger from point to point, slowly enough to be no throw
//   screenshot()           as PNG
//   close()
//
// Tester adds what is the same everywhere: finding things on the sheet by their names.
'use strict';

const assert = require('node:assert/strict');

const ENGINES = {
  'Chromium': require('./chromium'),
  'Firefox': require('./firefox'),
  'WebKit': require('./webkit'),
};

class Tester {
  constructor(engine, started, settled) {
    Object.assign(this, {engine, started, settled});
  }

  async load(url) {
    await this.engine.go(url);
    await this.ready();
  }

  async reload() {
    await this.checkProblems();
    await this.engine.reload();
    await this.ready();
  }

  async ready() {
    const end = Date.now() + 40000;
    while (!(await this.engine.evaluate(this.started))) {
      assert.ok(Date.now() < end, 'the sheet was not drawn within 40 s');
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    await this.settle();
  }

  settle() {
    return this.engine.evaluate(this.settled);
  }

  rects() {
    return this.engine.evaluate(() => window.Module.rects);
  }

  card() {
    return this.engine.evaluate(() => window.Module.card);
  }

  frames() {
    return this.engine.evaluate(() => window.Module.frames);
  }

  size() {
    return this.engine.evaluate(() => ({width: innerWidth, height: innerHeight}));
  }

  async input(key) {
    const {inputs, choices, pickers} = await this.card();
    return [...inputs, ...choices, ...pickers].find((one) => one.key === key);
  }

  async tap(id) {
    const rects = await this.rects();
    assert.ok(id in rects, `nothing called "${id}" was drawn; there are: ${Object.keys(rects).join(' ')}`);
    const [x, y, width, height] = rects[id];
    await this.engine.tap(x + width / 2, y + height / 2);
    await this.settle();
  }

  async drag(from, to) {
    const steps = 6;
    await this.engine.drag(Array.from({length: steps + 1}, (_, i) => ({
      x: from.x + ((to.x - from.x) * i) / steps, y: from.y + ((to.y - from.y) * i) / steps})));
    await this.settle();
  }

  // Pulls the sheet up with a finger until that picture lies inside the window.
  async pullTo(id) {
    const {width, height} = await this.size();
    for (let i = 0; i < 40; ++i) {
      const known = (await this.rects())[id];
      if (known && known[1] > 0 && known[1] + known[3] <= height && known[3] > 100) return;
      const x = width - 30;
      await this.drag({x, y: height * 0.8}, {x, y: height * 0.3});
    }
    assert.fail(`could not pull the sheet up to "${id}"`);
  }

  // What the page had to complain about since it was loaded (engines/watch.js).
  async checkProblems() {
    assert.deepEqual(await this.engine.evaluate(() => window.problemsSeen), []);
    const origins = await this.engine.evaluate(() => performance.getEntriesByType('resource')
        .map((entry) => entry.name).filter((name) => !name.startsWith(location.origin + '/') && !/^(data|blob):/.test(name)));
    assert.deepEqual(origins, [], 'something was requested from elsewhere');
  }
}

module.exports = {ENGINES, Tester};
