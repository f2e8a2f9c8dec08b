// Chromium, driven by playwright-core. The interface is described at the head of index.js.
'use strict';

const path = require('node:path');

const FLAGS = ['--no-sandbox', '--disable-dev-shm-usage', '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'];

async function start({build, width, height}) {
  const {chromium} = require(path.join(build, 'node/node_modules/playwright-core'));
  const executablePath = process.env.TILLERLINE_CHROMIUM || '/usr/bin/chromium-headless-shell';
  const browser = await chromium.launch({executablePath, args: FLAGS});
  const context = await browser.newContext({viewport: {width, height}, hasTouch: true, isMobile: true});
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  const touch = (type, ...points) =>
    session.send('Input.dispatchTouchEvent', {type, touchPoints: points});
  return {
    name: 'Chromium',
    version: browser.version(),
    go: (url) => page.goto(url),
    reload: () => page.reload(),
    evaluate: (body, ...values) => page.evaluate(`(${body}).apply(null, ${JSON.stringify(values)})`),
    tap: (x, y) => page.touchscreen.tap(x, y),
    async drag(points) {
      await touch('touchStart', points[0]);
      for (const point of points.slice(1)) {
        await touch('touchMove', point);
        await page.waitForTimeout(20);
      }
      await page.waitForTimeout(150);
      await touch('touchEnd');
    },
    screenshot: () => page.screenshot(),
    close: () => browser.close(),
  };
}

module.exports = {start};
