// WebKitGTK's MiniBrowser, driven by its WebKitWebDriver over the W3C protocol, with nothing but
// fetch. It needs a display, which tests/run gives it with xvfb-run.
'use strict';

const fs = require('node:fs');
const net = require('node:net');
const {spawn} = require('node:child_process');

const FOLDERS = ['/usr/lib/x86_64-linux-gnu', '/usr/lib/aarch64-linux-gnu', '/usr/libexec'];

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

function miniBrowser() {
  const files = FOLDERS.map((folder) => `${folder}/webkit2gtk-4.1/MiniBrowser`);
  const found = files.find((file) => fs.existsSync(file));
  if (!found) throw new Error('there is no MiniBrowser of WebKitGTK 4.1');
  return found;
}

function freePort() {
  return new Promise((resolve) => {
    const server = net.createServer().listen(0, '127.0.0.1', () => {
      const {port} = server.address();
      server.close(() => resolve(port));
    });
  });
}

async function send(method, url, body) {
  const answer = await fetch(url, {method, body: body && JSON.stringify(body)});
  const {value} = await answer.json();
  if (!answer.ok) throw new Error(`WebKitWebDriver: ${value.error}: ${value.message}`);
  return value;
}

async function driverAt(url) {
  for (let i = 0; i < 100; ++i) {
    const status = await send('GET', url + '/status').catch(() => null);
    if (status && status.ready) return;
    await pause(100);
  }
  throw new Error('WebKitWebDriver did not start');
}

const touch = (actions) => ({
  actions: [{type: 'pointer', id: 'finger', parameters: {pointerType: 'touch'}, actions}]});
const moveTo = ({x, y}, duration = 0) =>
  ({type: 'pointerMove', x: Math.round(x), y: Math.round(y), duration, origin: 'viewport'});
const DOWN = {type: 'pointerDown', button: 0};
const UP = {type: 'pointerUp', button: 0};

async function openSession(root) {
  return send('POST', root + '/session', {capabilities: {alwaysMatch: {
    browserName: 'MiniBrowser',
    'webkitgtk:browserOptions': {binary: miniBrowser(), args: ['--automation']},
  }}});
}

async function start({width, height}) {
  if (!process.env.DISPLAY) throw new Error('WebKit needs a display: start this inside xvfb-run');
  const port = await freePort();
  const root = `http://127.0.0.1:${port}`;
  const driver = spawn('WebKitWebDriver', [`--port=${port}`], {stdio: 'ignore'});
  const gone = new Promise((_, reject) => driver.once('error', reject));
  try {
    await Promise.race([driverAt(root), gone]);
    const {sessionId, capabilities} = await openSession(root);
    const at = `${root}/session/${sessionId}`;
    // The window's own bar takes some of the height.
    await send('POST', at + '/window/rect', {x: 0, y: 0, width, height: height + 38});
    return {
      name: 'WebKitGTK',
      version: capabilities.browserVersion,
      go: (url) => send('POST', at + '/url', {url}),
      reload: () => send('POST', at + '/refresh', {}),
      evaluate: (body, ...values) =>
        send('POST', at + '/execute/sync', {script: `return (${body}).apply(null, arguments)`, args: values}),
      tap: (x, y) => send('POST', at + '/actions', touch([moveTo({x, y}), DOWN, UP])),
      drag: (points) => send('POST', at + '/actions', touch([moveTo(points[0]), DOWN,
        ...points.slice(1).map((point) => moveTo(point, 20)), {type: 'pause', duration: 150}, UP])),
      screenshot: async () => Buffer.from(await send('GET', at + '/screenshot'), 'base64'),
      async close() {
        await send('DELETE', at).catch(() => {});
        driver.kill();
      },
    };
  } catch (error) {
    driver.kill();
    throw error;
  }
}

module.exports = {start};
