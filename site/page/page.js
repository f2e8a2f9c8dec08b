// What the program asks of the page (called from web/platform), and what the page tells the program:
// resizing, fields changed in its text, files opened. The bundle of it and its modules is the global
// object Page.
import {byId, element} from './dom.js';
import * as Files from './files.js';
import {call, isDrawing, isRunning, published, start} from './program.js';
import * as Share from './share.js';
import * as Study from './study.js';
import * as TextPage from './text_page.js';

const CONTEXT_PATIENCE_MS = 4000;
const root = document.documentElement;
const canvas = byId('canvas');
const readButton = byId('read');
const dark = matchMedia('(prefers-color-scheme: dark)');

// Tests look at these.
export const hooks = {
  rects: {},  // id -> [x, y, width, height] in CSS pixels, of what the last frame drew
  frames: 0,  // drawn since the start
  get card() {
    return published.card;
  },
  // Is there anything still to be drawn, or to be put into the text?
  get drawing() {
    return !isRunning() || unshown || isDrawing();
  },
};

// --- asked by the program ---

// At the start the drawn sheet comes first: the text behind it is a tenth of the work of the
// start, and is made when the first frame is on the screen.
let unshown = false;
const name = document.title;
export function publish(json) {
  published.card = JSON.parse(json);
  // A limit that is exceeded stands in the window's title, too.
  document.title = published.card.front.tone === 'limit' ? `Limit exceeded – ${name}` : name;
  if (isRunning() || root.classList.contains('no-canvas')) {
    TextPage.show(published.card);
  } else {
    unshown = true;
  }
}

// The exercises are put into the page with the text.
export function publishStudy(json) {
  published.study = JSON.parse(json);
  if (published.card && !unshown && isRunning()) Study.show(published.study);
}

function showText() {
  if (!unshown) return;
  unshown = false;
  TextPage.show(published.card);
  Study.show(published.study);
}

export function frameDrawn(lines) {
  hooks.frames += 1;
  if (unshown) requestAnimationFrame(() => setTimeout(showText));
  hooks.rects = {};
  for (const line of lines.split('\n')) {
    if (!line) continue;
    const [id, ...numbers] = line.split('\t');
    hooks.rects[id] = numbers.map(Number);
  }
}

export function setTheme(name) {
  root.dataset.theme = name;
}

export function layout() {
  const area = getComputedStyle(byId('safe-area'));
  const insets = ['Top', 'Right', 'Bottom', 'Left'].map((side) => parseFloat(area['padding' + side]));
  const button = readButton.getBoundingClientRect();
  return [...insets, button.x, button.y, button.width, button.height];
}

export function load(key) {
  try {
    return localStorage.getItem('tillerline.' + key);
  } catch (error) {
    return null;
  }
}

export function store(key, text) {
  try {
    localStorage.setItem('tillerline.' + key, text);
    return true;
  } catch (error) {
    return false;
  }
}

// A page of this site in a tab of its own; the sheet stays as it is.
export function openPage(name) {
  if (globalThis.Embedded) return Embedded.open(name);
  element('a', {href: name, target: '_blank', rel: 'noopener'}).click();
  return true;
}

export function copy(text) {
  if (navigator.clipboard) navigator.clipboard.writeText(text).catch(() => {});
}

export function noCanvas() {
  showText();
  root.classList.add('no-canvas');
  setReading(true);
  readButton.hidden = true;
  sayNoPicture('This browser offers no WebGL 2, so the drawn sheet is not available. ' +
      'Everything it says is here as text.');
}

function sayNoPicture(words) {
  const node = byId('no-picture');
  node.textContent = words;
  node.hidden = words === '';
}

// A graphics context is usually given back at once. Where it is not, the text carries on; should
// it come back later, the sheet is there again.
function watchContext() {
  let waiting = 0;
  canvas.addEventListener('webglcontextlost', () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      readButton.hidden = true;
      setReading(true);
      sayNoPicture('The graphics of this device were lost and have not come back, so the drawn ' +
          'sheet is not available. Everything it says is here as text, and nothing was lost.');
    }, CONTEXT_PATIENCE_MS);
  });
  canvas.addEventListener('webglcontextrestored', () => {
    clearTimeout(waiting);
    readButton.hidden = false;
    sayNoPicture('');
  });
}

// --- told to the program ---

function setReading(reading) {
  if (root.classList.contains('reading') === reading) return;
  showText();
  root.classList.toggle('reading', reading);
  readButton.setAttribute('aria-pressed', String(reading));
  readButton.textContent = reading ? 'Back to sheet' : 'Read as text';
  if (!reading) call('tillerline_wake');
}

// SDL listens to the window only; the canvas can change its size or its resolution without it.
let drawnFor = '';
function fitCanvas() {
  if (!isRunning() || root.classList.contains('reading')) return;
  const size = `${canvas.clientWidth} ${canvas.clientHeight} ${devicePixelRatio}`;
  if (size === drawnFor) return;
  drawnFor = size;
  window.dispatchEvent(new UIEvent('resize'));
}

function watchResolution() {
  const query = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
  query.addEventListener('change', () => {
    fitCanvas();
    watchResolution();
  }, {once: true});
}

// Keys that belong to the browser or lead out of the canvas never reach SDL, which would
// swallow them.
function keepBrowserKeys(event) {
  if (event.target !== canvas) return;
  const editing = (event.ctrlKey || event.metaKey) && /^[acvxyz]$/i.test(event.key);
  const browser = event.ctrlKey || event.metaKey || event.altKey;
  const modifier = /^(Control|Meta|Alt|AltGraph|Shift)$/.test(event.key);
  if (event.key === 'Tab' || /^F\d+$/.test(event.key) || (browser && !editing && !modifier)) {
    event.stopPropagation();
  }
}

export function attach(module) {
  start(module);
  Share.start();
  Files.start();
  byId('inputs').addEventListener('submit', (event) => event.preventDefault());
  readButton.addEventListener('click', () => setReading(!root.classList.contains('reading')));
  // Tabbing from the canvas into the text shows the text: focus is never invisible.
  byId('text-page').addEventListener('focusin', () => setReading(true));
  if (root.classList.contains('no-canvas')) return;
  watchContext();
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Tab') root.classList.add('keys');
  }, {capture: true});
  canvas.addEventListener('pointerdown', () => {
    root.classList.remove('keys');
    canvas.focus({preventScroll: true});
  });
  canvas.addEventListener('contextmenu', (event) => event.preventDefault());
  canvas.addEventListener('touchcancel', () => call('tillerline_cancel_touch'), {capture: true});
  for (const type of ['keydown', 'keyup', 'keypress']) {
    window.addEventListener(type, keepBrowserKeys, {capture: true});
  }
  // Resizing blanks the canvas, so it is redrawn at once and not with the next frame.
  window.addEventListener('resize', () => call('tillerline_redraw'));
  new ResizeObserver(fitCanvas).observe(canvas);
  watchResolution();
  dark.addEventListener('change', () => call('tillerline_wake'));
  document.addEventListener('visibilitychange', () => call('tillerline_wake'));
  window.addEventListener('pageshow', () => call('tillerline_wake'));
}

export const isDark = () => dark.matches;
export const openShare = Share.open;
export const pack = Share.pack;
export {openFile, saveFile, saveProgram} from './files.js';
