// A brief as a link, as a QR code, as text and as a file. The link carries the whole brief behind
// its #, which a browser never sends anywhere:
//
//   #b1.<brief, deflated, base64url>.<CRC-32 of the deflated bytes, 8 hex digits>
//
// "b1" names the form. What a link brings is read like any file, by the program's own reader; it is
// taken out of the address at once, and Undo brings back the brief that was there.
import qrcode from 'qrcode-generator';
import {button, byId, element} from './dom.js';
import {saveFile} from './files.js';
import {ask, call, isRunning} from './program.js';

const FORM = 1;
const MAX_LINK = 65536;    // characters behind the #
const MAX_BRIEF = 262144;  // bytes of the brief in it
const MAX_QR_VERSION = 30; // more modules than this are hard to read off a screen
const CUT = 'This link is damaged or cut off, so no brief was taken from it. Ask for it again, or ' +
    'copy all of it, up to its last character. Your brief is as it was.';
const OTHER = 'This link is from another version of Tillerline, which this one cannot read. ' +
    'Reload the page for the newest version, or ask for the brief as a file. Your brief is as ' +
    'it was.';
const LONG = 'This link is far too long for a brief, so it was not read. Your brief is as it was.';
const OLD_BROWSER = 'This browser cannot pack or unpack links. A newer one can; the brief can ' +
    'also be passed on as a file.';

let dialog = null;
let opened = 0;  // counts the openings, so that a slow link never lands in a later one

// --- bytes ---

const CRC_TABLE = Uint32Array.from({length: 256}, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; ++bit) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = CRC_TABLE[(crc ^ byte) & 0xff] ^ (crc >>> 8);
  return ((crc ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}

function base64url(bytes) {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

function fromBase64url(text) {
  const binary = atob(text.replace(/-/g, '+').replace(/_/g, '/'));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

// Through one of the browser's streams; more than `most` bytes are not waited for.
async function through(stream, bytes, most) {
  const writer = stream.writable.getWriter();
  writer.write(bytes).catch(() => {});
  writer.close().catch(() => {});
  const reader = stream.readable.getReader();
  const parts = [];
  let size = 0;
  for (;;) {
    const {done, value} = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      throw new RangeError('too much');
    }
    parts.push(value);
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const canPack = () => {
  try {
    return Boolean(new CompressionStream('deflate-raw') && new DecompressionStream('deflate-raw'));
  } catch (error) {
    return false;
  }
};

export async function pack(text) {
  const bytes = new TextEncoder().encode(text);
  const deflated = await through(new CompressionStream('deflate-raw'), bytes, MAX_LINK);
  return `#b${FORM}.${base64url(deflated)}.${crc32(deflated)}`;
}

// The brief in the fragment, or why there is none: {text} or {problem}; null where the fragment is
// no link of ours.
async function unpack(fragment) {
  const form = /^#b(\d{1,6})\./.exec(fragment);
  if (!form) return null;
  if (fragment.length > MAX_LINK) return {problem: LONG};
  if (Number(form[1]) !== FORM) return {problem: OTHER};
  const parts = /^#b\d+\.([\w-]+)\.([0-9a-f]{8})$/.exec(fragment);
  if (!parts) return {problem: CUT};
  if (!canPack()) return {problem: OLD_BROWSER};
  try {
    const deflated = fromBase64url(parts[1]);
    if (crc32(deflated) !== parts[2]) return {problem: CUT};
    const bytes = await through(new DecompressionStream('deflate-raw'), deflated, MAX_BRIEF);
    return {text: new TextDecoder('utf-8', {fatal: true}).decode(bytes)};
  } catch (error) {
    return {problem: error instanceof RangeError ? LONG : CUT};
  }
}

// Takes in what the address carries. The fragment goes first, so that a reload never overwrites
// what was entered since.
async function takeIn() {
  const fragment = location.hash;
  if (!/^#b\d{1,6}\./.test(fragment)) return;
  history.replaceState(null, '', location.pathname + location.search);
  const got = await unpack(fragment);
  if (got.problem) {
    call('tillerline_notice', got.problem);
  } else {
    if (dialog && dialog.open) dialog.close();
    call('tillerline_file', 'The brief of the link', got.text);
  }
}

// --- the dialog ---

function said(text) {
  byId('share-said').textContent = text;
}

async function copy(text, done, field) {
  try {
    await navigator.clipboard.writeText(text);
    said(done);
  } catch (error) {
    if (field) field.select();
    said(field ? 'The browser does not let it be copied. It is marked: copy it with the keyboard or ' +
        'the finger.' : 'The browser does not let it be copied. Save it as a file instead.');
  }
}

function makeDialog() {
  const link = element('textarea', {id: 'share-link', readonly: '', rows: 3, spellcheck: 'false',
    'aria-describedby': 'share-words'});
  link.addEventListener('focus', () => link.select());
  dialog = element('dialog', {id: 'share', 'aria-labelledby': 'share-title'},
      element('h2', {id: 'share-title'}, 'Share this brief'),
      element('p', {id: 'share-words', class: 'note'}),
      element('div', {id: 'share-by-link'}, element('label', {for: 'share-link'}, 'Link'), link,
          button('Copy the link', () => copy(link.value, 'The link was copied.', link), {id: 'share-copy'}),
          element('div', {id: 'share-code'}), element('p', {id: 'share-code-words', class: 'note'})),
      element('div', {class: 'actions'},
          button('Copy as text', () => copy(ask('card'), 'The card was copied as text.'), {id: 'share-text'}),
          button('Save as file', saveBrief, {id: 'share-file'}),
          button('Close', () => dialog.close(), {id: 'share-close'})),
      element('p', {id: 'share-said', role: 'status'}));
  document.body.append(dialog);
  // Keys belong to the dialog while it is open; the sheet behind it must not hear them.
  dialog.addEventListener('keydown', (event) => event.stopPropagation());
}

function saveBrief() {
  said(saveFile('brief.json', ask('brief')) ? 'The brief was saved as brief.json.' :
      'The file could not be saved here.');
}

const WIDEST_CODE_PX = 440;
const CODE_MARGIN_PX = 84;  // of the dialog, to both sides

// Dark on light in every look: readers expect it so, with four modules of white about it.
function drawCode(url) {
  const place = byId('share-code');
  place.replaceChildren();
  const code = makeCode(url);
  place.hidden = !code;
  if (!code) return false;
  const size = code.getModuleCount();
  let path = '';
  for (let y = 0; y < size; ++y) {
    for (let x = 0; x < size; ++x) {
      if (code.isDark(y, x)) path += `M${x + 4} ${y + 4}h1v1h-1z`;
    }
  }
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  const across = size + 8;
  svg.setAttribute('viewBox', `0 0 ${across} ${across}`);
  // A whole number of the screen's dots for each module, or cameras meet uneven ones.
  const dots = Math.min(WIDEST_CODE_PX, innerWidth - CODE_MARGIN_PX) * devicePixelRatio;
  const width = Math.max(1, Math.floor(dots / across)) * across / devicePixelRatio;
  svg.setAttribute('width', width);
  svg.setAttribute('height', width);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', 'QR code of the link');
  svg.setAttribute('shape-rendering', 'crispEdges');
  const ground = document.createElementNS(svg.namespaceURI, 'rect');
  ground.setAttribute('width', across);
  ground.setAttribute('height', across);
  ground.setAttribute('fill', '#fff');
  const dark = document.createElementNS(svg.namespaceURI, 'path');
  dark.setAttribute('d', path);
  dark.setAttribute('fill', '#000');
  svg.append(ground, dark);
  place.append(svg);
  return true;
}

// With as much correction as there is room for; null where it would be too fine to be read.
function makeCode(url) {
  for (const correction of ['M', 'L']) {
    try {
      const code = qrcode(0, correction);
      code.addData(url, 'Byte');
      code.make();
      if (code.getModuleCount() <= 17 + 4 * MAX_QR_VERSION) return code;
    } catch (error) {
      // Longer than any code holds with this correction.
    }
  }
  return null;
}

export async function open() {
  if (!isRunning()) return;
  if (!dialog) makeDialog();
  const turn = ++opened;
  said('');
  if (!dialog.open) dialog.showModal();
  const file = location.protocol === 'file:';
  const possible = canPack();
  byId('share-by-link').hidden = !possible;
  if (!possible) {
    byId('share-words').textContent = OLD_BROWSER;
    return;
  }
  const link = location.href.split('#')[0] + await pack(ask('link'));
  if (turn !== opened) return;
  byId('share-link').value = link;
  byId('share-words').textContent = file ?
      'This sheet was opened from a file, so the link leads to that file and works on this device ' +
      'only. To pass the brief on, open Tillerline from a web address, or save the brief as a file.' :
      'The whole brief is in the link itself, behind the #. Nothing is stored or sent anywhere: who ' +
      'has the link has the brief.';
  const drawn = !file && drawCode(link);
  if (!drawn) byId('share-code').hidden = true;
  byId('share-code-words').textContent = file ? '' : drawn ?
      'Point another device\u2019s camera at the code to open the brief there.' :
      'This brief is too large for a QR code that a camera reads well. Use the link or the file.';
}

export function start() {
  window.addEventListener('hashchange', takeIn);
  return takeIn();
}
