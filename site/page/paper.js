// The card on one sheet of paper, A4 or Letter, black on white: made from the published card when
// the page is about to be printed, by whatever way. The whole text can be printed as well.
import {byId, element, toneAndRest} from './dom.js';
import {published} from './program.js';

// Inside the margins of both sizes: the width of A4 and the height of Letter.
const HEIGHT_MM = 253;
const LARGEST_PT = 10.5;
const SMALLEST_PT = 6;
const SHORTER_BELOW_PT = 8;  // rather than smaller, plain straights lose their sentence
const root = document.documentElement;
const paper = byId('paper');
let made = null;  // the card that is set

const text = (tag, words, attributes = {}) => (words ? element(tag, attributes, words) : '');

function leg(line) {
  const what = element('td', {class: 'what'}, element('b', {}, line.title), ' ');
  if (line.text) what.append(element('span', {class: 'say'}, line.text));
  if (line.caution) what.append(' ', element('b', {}, line.caution));
  const plain = !line.caution && !/^(Left|Right|.*: (left|right)) /.test(line.title);
  const row = element('tr', {class: plain ? 'plain' : ''}, element('th', {}, line.number), what,
      element('td', {}, line.speed), element('td', {}, line.time), element('td', {}, line.brakes));
  row.firstChild.scope = 'row';
  return row;
}

function legs(card) {
  const head = element('tr', {}, ...['', 'Leg', 'Speed', 'Time', 'Brakes'].map((name) => text('th', name) || element('td', {})));
  return element('table', {class: 'legs'}, element('thead', {}, head), element('tbody', {}, ...card.legs.map(leg)));
}

// A section in one line: its name in the margin, its answer, its caution.
function answer(title, parts) {
  const words = parts.filter((section) => section && section.headline);
  if (!words.length) return '';
  const line = element('dd', {});
  words.forEach((section, i) => {
    line.append((i ? ' ' : '') + section.headline);
    if (section.caution) line.append(' ', element('b', {}, section.caution));
  });
  return element('div', {}, element('dt', {}, title), ' ', line);
}

function answers(card) {
  const inTurns = new Set(card.turns.flatMap((turn) => [turn.entry, turn.oversteer]));
  const of = (id) => card.sections.find((section) => section.id === id);
  const list = element('dl', {class: 'answers'});
  for (const section of card.sections) {
    const turn = card.turns.find((one) => one.entry === section.id);
    if (turn) list.append(answer(turn.name.split(':')[0], [of(turn.entry), of(turn.oversteer)]));
    if (!turn && !inTurns.has(section.id)) list.append(answer(section.title, [section]));
  }
  return list;
}

// Those that stand at no leg and in no section.
function cautions(card) {
  const said = new Set([...card.legs, ...card.sections].map((one) => one.caution));
  const list = card.cautions.filter((caution) => !said.has(caution.value));
  if (!list.length) return '';
  const lines = list.map((caution) => {
    const [word, rest] = toneAndRest(caution.value);
    return element('li', {}, element('b', {}, `${word}${caution.label}`), ': ', rest);
  });
  return element('ul', {class: 'cautions'}, ...lines);
}

function today() {
  return new Intl.DateTimeFormat('en-GB', {day: 'numeric', month: 'long', year: 'numeric'}).format(new Date());
}

function build(card) {
  const watch = card.watch.length ? element('p', {class: 'watch'}, element('b', {}, 'Watch  '), card.watch.join(' · ')) : '';
  const rests = card.assumptions.length ?
    element('p', {class: 'rests'}, element('b', {}, 'It rests on  '), card.assumptions.join(' ')) : '';
  paper.replaceChildren(...[
    element('header', {}, element('h1', {}, card.title), text('p', card.subtitle), text('p', card.day)),
    text('p', card.card_headline, {class: 'headline'}), watch, card.legs.length ? legs(card) : '', answers(card),
    cautions(card), rests,
    element('footer', {}, element('b', {}, card.safety), ` ${card.invented}`,
        element('span', {class: 'made'}, `Tillerline ${card.program}, printed ${today()}`)),
  ].filter((part) => part !== ''));
}

// The largest type with which it all stands on one page.
function fit() {
  paper.className = 'measured';
  const room = HEIGHT_MM * 96 / 25.4;
  const fits = (size) => {
    paper.style.setProperty('--size', `${size}pt`);
    return paper.scrollHeight <= room;
  };
  let size = LARGEST_PT;
  while (!fits(size) && size > SMALLEST_PT) {
    size -= 0.25;
    if (size < SHORTER_BELOW_PT) paper.classList.add('shorter');
  }
  paper.classList.remove('measured');
  return size;
}

function prepare() {
  const {card} = published;
  if (!card || card === made) return;
  build(card);
  fit();
  made = card;
}

window.addEventListener('beforeprint', prepare);
matchMedia('print').addEventListener('change', (event) => event.matches && prepare());

export function print() {
  prepare();
  window.print();
}

export function printAll() {
  root.classList.add('print-all');
  window.addEventListener('afterprint', () => root.classList.remove('print-all'), {once: true});
  window.print();
}
