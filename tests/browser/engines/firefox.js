// Firefox ESR, driven by puppeteer-core over WebDriver BiDi. Without a display it offers no WebGL 2,
// even headless, so tests/run starts it inside xvfb-run.
'use strict';

const path = require('node:path');

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

async function start({build, width, height}) {
  if (!process.env.DISPLAY) throw new Error('Firefox needs a display: start this inside xvfb-run');
  const puppeteer = require(path.join(build, 'node/node_modules/puppeteer-core'));
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: process.env.TILLERLINE_FIREFOX || '/usr/bin/firefox-esr',
    headless: true,
    defaultViewport: {width, height},
    extraPrefsFirefox: {'dom.w3c_touch_events.enabled': 1},
    timeout: 60000,
  });
  const page = await browser.newPage();
  const {touchscreen} = page;
  return {
    name: 'Firefox',
    version: (await browser.version()).replace(/^firefox\//i, ''),
    go: (url) => page.goto(url),
    reload: () => page.reload(),
    evaluate: (body, ...values) => page.evaluate(`(${body}).apply(null, ${JSON.stringify(values)})`),
    tap: (x, y) => touchscreen.tap(x, y),
    async drag(points) {
      await touchscreen.touchStart(points[0].x, points[0].y);
      for (const {x, y} of points.slice(1)) {
        await touchscreen.touchMove(x, y);
        await pause(20);
      }
      await pause(150);
      await touchscreen.touchEnd();
    },
    screenshot: () => page.screenshot(),
    close: () => browser.close(),
  };
}

module.exports = {start};
