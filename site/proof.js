// Draws the plots at the head of the book of checks, and shows a part of its lines: by topic, by kind,
// by words, or only what is strong or differs. Without JavaScript all lines are there.
import {byId, element} from './page/dom.js';

// --- the plots ---

const WIDTH = 320;
const HEIGHT = 84;
const LEFT = 4;
const RIGHT = 8;

function drawn(tag, attributes, ...children) {
  const node = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children);
  return node;
}

const short = (value) => Number(value.toPrecision(3)).toString().replace('-', '\u2212');

// One line: a bar from `low` to `high`, a mark at `value`, and what that is in words above.
function line(scale, top, {low, high, value, bar, mark, words}) {
  const from = scale(low);
  return [
    drawn('text', {class: 'plot-words', x: LEFT, y: top + 11}, words),
    drawn('rect', {class: bar, x: from, y: top + 16, width: Math.max(2, scale(high) - from), height: 12}),
    drawn('rect', {class: mark, x: scale(value) - 2, y: top + 14, width: 4, height: 16}),
  ];
}

function plot(row) {
  const most = 1.05 * Math.max(row.to, row.band_high, row.expected, row.got);
  const scale = (value) => LEFT + (WIDTH - LEFT - RIGHT) * Math.max(0, value) / most;
  const measured = `measured ${short(row.expected)}` +
      (row.from === row.to ? '' : `, ${short(row.from)} to ${short(row.to)}`);
  const computed = `computed ${short(row.got)}` +
      (row.band_low === row.band_high ? '' : `, ${short(row.band_low)} to ${short(row.band_high)}`);
  const picture = drawn('svg', {
    viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', 'aria-label': `${row.what}: ${measured}; ${computed}`,
  }, ...line(scale, 0, {low: row.from, high: row.to, value: row.expected, bar: 'plot-spread',
    mark: 'plot-value', words: measured}),
  ...line(scale, 38, {low: row.band_low, high: row.band_high, value: row.got, bar: 'plot-band',
    mark: 'plot-answer', words: computed}),
  drawn('line', {class: 'plot-axis', x1: LEFT, x2: WIDTH - RIGHT, y1: 76, y2: 76}),
  ...[0, 0.25, 0.5, 0.75].map((part) => drawn('line', {
    class: 'plot-axis', x1: LEFT + (WIDTH - LEFT - RIGHT) * part,
    x2: LEFT + (WIDTH - LEFT - RIGHT) * part, y1: 73, y2: 79,
  })));
  return element('figure', {}, element('figcaption', {},
      element('a', {href: `#${row.id}`}, row.what), row.agrees ? '' : ' – differs'), picture);
}

function drawPlots() {
  const section = byId('plots');
  section.append(element('div', {class: 'plots'}, ...JSON.parse(section.dataset.rows).map(plot)));
  section.hidden = false;
}

// --- what is shown ---

const topics = [...document.querySelectorAll('.topic')];
const rows = topics.flatMap((topic) => [...topic.querySelectorAll('.check')].map((node) => ({
  node,
  topic: topic.dataset.topic,
  kind: node.dataset.kind,
  differs: node.classList.contains('differs'),
})));
const everything = byId('shown').textContent;

// The words of a row, taken when they are first asked for.
function wordsOf(row) {
  if (row.words === undefined) row.words = row.node.textContent.toLowerCase();
  return row.words;
}

function wanted(row, words) {
  return (!byId('topic').value || byId('topic').value === row.topic) &&
      (!byId('origin').value || byId('origin').value === row.kind) &&
      (!byId('worked').checked || row.kind === 'measured' || row.kind === 'worked') &&
      (!byId('differs').checked || row.differs) &&
      words.every((word) => wordsOf(row).includes(word));
}

// A heading stays only if something below it does.
function hideEmpty(selector) {
  for (const part of document.querySelectorAll(selector)) {
    part.hidden = !part.querySelector('.check:not([hidden])');
  }
}

function show() {
  const words = byId('search').value.toLowerCase().split(/\s+/).filter((word) => word !== '');
  for (const row of rows) row.node.hidden = !wanted(row, words);
  hideEmpty('.checks tbody');
  hideEmpty('.topic');
  const shown = rows.filter((row) => !row.node.hidden).length;
  byId('shown').textContent = shown === rows.length ? everything :
      shown === 0 ? 'No line is like that.' : `${shown} of ${rows.length} lines shown.`;
}

drawPlots();
byId('choice').hidden = false;
byId('choice').addEventListener('input', show);
