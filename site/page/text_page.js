// The text page: the whole sheet as an ordinary form and text, made from the JSON that the program
// publishes with every change (core/sheet/page_json.cpp describes it). All of it is plain text and
// is put into the page as text, never as markup.
//
// Nodes are kept and changed in place, so that the focus, an open "Why" and the place where someone
// reads survive every change.
import {byId, child, numberText, optional, setText, TONE_WORDS, toneAndRest, trim, withUnit} from './dom.js';
import * as Paper from './paper.js';
import * as program from './program.js';
import * as Share from './share.js';

// What acts on the whole brief: key, label, what is said when it is done.
const ACTIONS = [
  ['undo', 'Undo', 'The last change was taken back.'],
  ['take', 'Take in a file\u2026', ''],
  ['save-brief', 'Save brief as file', 'Saved as brief.json.'],
  ['save-aircraft', 'Save aircraft as file', 'Saved as aircraft.json.'],
  ['save-route', 'Save route as file', 'Saved as route.json.'],
  ['start-over', 'Start over with the demo', 'This is the demo brief. Undo brings back yours.'],
];

let current = null;  // the card that is shown
let spoken = null;   // what the live region last had to say
let done = '';       // what a button that was pressed has done, to be spoken first

// An <output> speaks by itself; that is left to the one status line.
function output(parent, index, key, text) {
  const node = child(parent, index, key, 'output');
  node.setAttribute('aria-live', 'off');
  return setText(node, text);
}

// The sentence of a tone begins with its word; in print and for the colour-blind it is bold.
function toneText(node, text) {
  const [word, rest] = toneAndRest(text);
  setText(child(node, 0, 'word', 'strong'), word);
  setText(child(node, 1, 'text', 'span'), rest);
}

// --- the form ---

const plain = (number, decimals) => Number(number).toFixed(decimals);

function hint(input) {
  const low = numberText(input.min, input.decimals);
  const high = numberText(input.max, input.decimals);
  const source = input.origin ? ` Source of the default: ${input.origin}.` : '';
  return `${input.help} ${low} to ${withUnit(high, input.unit)}.${source}`.trim();
}

function send(field) {
  const badly = field.validity && field.validity.badInput;
  if (!badly && field.value.trim() === '') {
    field.value = field.dataset.shown;  // an emptied field goes back to what it was
    return;
  }
  program.input(field.name, badly ? 'not a number' : field.value);
}

// By the field's own step. A browser would count its steps from the lowest value allowed, which
// gives 60.1 after 60 where that is 14.1.
function stepByKey(event) {
  const direction = {ArrowUp: 1, ArrowDown: -1, PageUp: 1, PageDown: -1}[event.key];
  if (!direction || event.ctrlKey || event.altKey || event.metaKey) return;
  event.preventDefault();
  const field = event.target;
  const coarse = event.key.startsWith('Page');
  const step = Number(coarse ? field.dataset.coarse : field.step);
  const wanted = Number(field.value) + direction * step;
  const allowed = Math.min(Number(field.max), Math.max(Number(field.min), wanted));
  field.value = plain(allowed, Number(field.dataset.decimals));
  send(field);
}

function numberField(row, input) {
  const field = child(row, 1, 'field', 'input');
  if (!field.id) {
    field.type = 'number';
    field.addEventListener('keydown', stepByKey);
  }
  field.min = plain(input.min, input.decimals);
  field.max = plain(input.max, input.decimals);
  field.step = String(input.step);
  // A phone's number pad has no minus sign.
  if (input.min >= 0) field.inputMode = input.decimals > 0 ? 'decimal' : 'numeric';
  field.dataset.coarse = String(input.coarse_step);
  field.dataset.decimals = String(input.decimals);
  return field;
}

function choiceField(row, choice) {
  const field = child(row, 1, 'field', 'select');
  choice.options.forEach((option, i) => {
    const node = child(field, i, option.value, 'option');
    node.value = option.value;
    setText(node, option.label);
  });
  trim(field, choice.options.length);
  return field;
}

function showField(parent, index, input, problem) {
  const row = child(parent, index, input.key, 'div', input.entered ? 'field entered' : 'field');
  const label = child(row, 0, 'label', 'label');
  label.htmlFor = 'in-' + input.key;
  const field = input.options ? choiceField(row, input) : numberField(row, input);
  if (!field.id) {
    field.id = 'in-' + input.key;
    field.name = input.key;
    field.addEventListener('change', () => send(field));
  }
  setText(label, input.label);
  const shown = input.options ? input.value : input.text.replace('\u2212', '-');
  field.dataset.shown = shown;
  // What was refused stays to be mended, with the reason beneath.
  if (!problem && field.value !== shown) field.value = shown;
  setText(child(row, 2, 'unit', 'span', 'unit'), input.unit || '');
  setText(child(row, 3, 'state', 'span', 'state'), input.entered ? 'entered by you' : '');
  setText(child(row, 4, 'note', 'p', 'note'), input.options ? input.help : hint(input));
  trim(row, optional(row, 5, 'problem', 'p', 'problem', problem));
  const described = [];
  for (const part of [...row.children].slice(2)) {
    if (!part.textContent) continue;
    part.id = `in-${input.key}-${part.dataset.key}`;
    described.push(part.id);
  }
  field.setAttribute('aria-describedby', described.join(' '));
  field.setAttribute('aria-invalid', problem ? 'true' : 'false');
}

// --- buttons ---

// Asks the program for something that is no field; `words` are spoken unless it was refused. The
// program publishes before this returns, so the page shows it already.
function act(id, value, words, after) {
  if (!program.isRunning()) return;
  const before = current;
  done = words;
  program.input(id, value);
  done = '';
  if (current === before && words) sayStatus(words);  // nothing changed on the card
  if (after && !current.problem) after();
}

function actionButton(parent, index, key, text, press) {
  const node = child(parent, index, key, 'button');
  node.type = 'button';
  node.onclick = press;
  return setText(node, text);
}

function showActions(parent) {
  actionButton(parent, 0, 'share', 'Share\u2026', Share.open);
  actionButton(parent, 1, 'print', 'Print the card', Paper.print);
  ACTIONS.slice(0, 1).forEach(([key, text, words]) => {
    actionButton(parent, 2, key, text, () => act(key, '', words));
  });
  const more = child(parent, 3, 'files', 'details');
  setText(child(more, 0, 'title', 'summary'), 'Files and more');
  const list = child(more, 1, 'list', 'div', 'actions');
  ACTIONS.slice(1).forEach(([key, text, words], i) => {
    actionButton(list, i, key, text, () => act(key, '', words));
  });
  actionButton(list, ACTIONS.length - 1, 'print-all', 'Print everything', Paper.printAll);
  parent.hidden = false;
}

// What was not taken in, with all that is wrong in it.
function showRefused(node, refused) {
  node.hidden = !refused;
  if (!refused) return;
  setText(child(node, 0, 'title', 'h2'), `Not taken in: ${refused.name}`);
  const list = child(node, 1, 'list', 'ul');
  refused.errors.forEach((error, i) => {
    const item = child(list, i, String(i), 'li');
    setText(child(item, 0, 'message', 'span'), error.message);
    trim(item, optional(item, 1, 'field', 'span', 'note', error.field && `Where: ${error.field}`));
  });
  trim(list, refused.errors.length);
}

// The main groups are plain fieldsets; the others fold, and stand open when they hold an entry.
function groupNode(form, index, key, title, folded, open) {
  if (!folded) {
    const fieldset = child(form, index, key, 'fieldset');
    setText(child(fieldset, 0, 'legend', 'legend'), title);
    return {node: fieldset, first: 1};
  }
  const before = [...form.children].some((node) => node.dataset.key === key);
  const details = child(form, index, key, 'details', 'group');
  if (!before) details.open = open;
  setText(child(details, 0, 'title', 'summary'), title);
  const fields = child(details, 1, 'fields', 'div');
  fields.setAttribute('role', 'group');
  fields.setAttribute('aria-label', title);
  return {node: fields, first: 0, details};
}

function showInputs(form, card) {
  const problem = card.problem || {};
  let next = 1;  // after the heading, which is in the page already
  for (const {key, title, folded} of card.groups) {
    const of = (list) => list.filter((input) => input.group === key);
    const inputs = [...of(card.pickers), ...of(card.inputs), ...of(card.choices), ...of(card.units)];
    if (inputs.length === 0) continue;
    const entered = inputs.some((input) => input.entered);
    const {node, first, details} = groupNode(form, next++, key, title, folded, entered);
    inputs.forEach((input, i) => {
      showField(node, first + i, input, problem.id === input.key ? problem.text : '');
    });
    if (details && inputs.some((input) => input.key === problem.id)) details.open = true;
    trim(node, first + inputs.length);
    if (key === 'route') showLegForms(form, next++, card);
  }
  showObservations(form, next++, card);
  trim(form, next);
  form.hidden = false;
}

// --- the legs of the route and what was observed, each a fold of its own ---

const problemOf = (card, id) => (card.problem && card.problem.id === id ? card.problem.text : '');

// A fold with the fields of one leg or one observation. Answers where its buttons go.
function partForm(parent, index, key, title, card, fields) {
  const details = child(parent, index, key, 'details', 'part-form');
  details.id = key;
  setText(child(details, 0, 'title', 'summary'), title);
  const group = child(details, 1, 'fields', 'div');
  group.setAttribute('role', 'group');
  group.setAttribute('aria-label', title.split(':')[0]);
  fields.forEach((field, i) => showField(group, i, field, problemOf(card, field.key)));
  const buttons = child(group, fields.length, 'actions', 'div', 'actions');
  // What a button was refused has no field to stand at.
  const id = (card.problem && card.problem.id) || '';
  const mine = id.startsWith(key + '-');
  const other = mine && !fields.some((field) => field.key === id);
  if (mine) details.open = true;
  trim(group, optional(group, fields.length + 1, 'problem', 'p', 'problem', other ? card.problem.text : ''));
  return buttons;
}

function openPart(id, selector) {
  const details = byId(id);
  if (!details) return;
  details.open = true;
  details.querySelector(selector).focus();
}

function showLegForm(parent, index, leg, card) {
  const key = `leg-${leg.leg}`;
  const kind = {key: `${key}-kind`, label: 'Kind', value: leg.kind, options: card.leg_kinds, help: ''};
  const title = `Leg ${leg.number}: ${leg.title}`;
  const buttons = partForm(parent, index, key, title, card, [kind, ...leg.fields]);
  const add = (value, words) => act(`${key}-add`, value, words, () =>
    openPart(`leg-${leg.leg + 1}`, 'select'));
  const move = (value, by, words) => act(`${key}-move`, value, words, () =>
    openPart(`leg-${leg.leg + by}`, `[data-key="${value}"]`));
  const number = Number(leg.number);
  const all = [
    ['straight', 'Add straight after', () => add('straight', `A straight was added as leg ${number + 1}.`)],
    ['arc', 'Add turn after', () => add('arc', `A turn was added as leg ${number + 1}.`)],
    ['up', 'Move up', () => move('up', -1, `It is leg ${number - 1} now.`)],
    ['down', 'Move down', () => move('down', 1, `It is leg ${number + 1} now.`)],
    ['remove', 'Remove', () => act(`${key}-remove`, '', `Leg ${number} was removed.`, () =>
      byId(`leg-${Math.min(leg.leg, current.route_legs.length - 1)}`).querySelector('summary').focus())],
  ];
  all.forEach(([name, text, press], i) => {
    actionButton(buttons, i, name, text, press).setAttribute('aria-label', `${text}, leg ${number}`);
  });
}

function showLegForms(form, index, card) {
  const {node, details} = groupNode(form, index, 'legs', 'Legs of the route', true, false);
  card.route_legs.forEach((leg, i) => showLegForm(node, i, leg, card));
  trim(node, card.route_legs.length);
  if (card.problem && /^leg-/.test(card.problem.id)) details.open = true;
}

function showObservations(form, index, card) {
  const seen = card.observations;
  const {node, details} = groupNode(form, index, 'observations', 'What was observed', true, seen.length > 0);
  setText(child(node, 0, 'words', 'p', 'note'), 'Enter what you saw on a taxi. Idle thrust, rolling ' +
      'resistance, heat capacity, cooling and the turn axis are estimated from it, as far as it goes.');
  seen.forEach((one, i) => {
    const key = `observation-${i}`;
    const buttons = partForm(node, 1 + i, key, `Observation ${one.number}: ${one.title}`, card, one.fields);
    actionButton(buttons, 0, 'remove', 'Remove', () =>
      act(`${key}-remove`, '', `Observation ${one.number} was removed.`, () =>
        details.querySelector('summary').focus()))
        .setAttribute('aria-label', `Remove, observation ${one.number}`);
  });
  let next = 1 + seen.length;
  if (seen.length) {
    const use = child(node, next++, 'use', 'div', 'actions');
    actionButton(use, 0, 'use', 'Use the values found', () =>
      act('use-calibration', '', 'The values found went into the aircraft.'));
  }
  const add = child(node, next++, 'add', 'fieldset');
  setText(child(add, 0, 'legend', 'legend'), 'Add what you saw');
  const kinds = child(add, 1, 'kinds', 'div', 'actions');
  card.observation_kinds.forEach((kind, i) => {
    actionButton(kinds, i, kind.value, kind.label, () =>
      act('observation-add', kind.value, `Added: ${kind.label}.`, () =>
        openPart(`observation-${current.observations.length - 1}`, 'input')));
  });
  const refused = problemOf(card, 'use-calibration') || problemOf(card, 'observation-add');
  trim(node, optional(node, next, 'problem', 'p', 'problem', refused));
  if (card.problem && /^(observation-|use-calibration)/.test(card.problem.id)) details.open = true;
}

// --- the card ---

function showRow(list, index, key, row) {
  const pair = child(list, index, key, 'div', row.tone);
  setText(child(pair, 0, 'label', 'dt'), row.label);
  const value = child(pair, 1, 'value', 'dd');
  setText(child(value, 0, 'word', 'strong'), TONE_WORDS[row.tone] || '');
  output(value, 1, 'output', row.value);
  trim(value, optional(value, 2, 'note', 'span', 'note', row.note));
}

// Where one row is called "Eye on line" and others "Eye on line: …", these are columns of one
// table: the ways of doing the same, side by side. Answers what is a column and what is not.
function columnsOf(rows) {
  const heads = rows.filter((row) => rows.some((other) => other.label.startsWith(row.label + ': ')));
  const lines = new Map();
  const others = [];
  for (const row of rows) {
    const column = heads.findIndex((head) => row.label.startsWith(head.label + ': '));
    if (column >= 0) {
      const name = row.label.slice(heads[column].label.length + 2);
      if (!lines.has(name)) lines.set(name, []);
      lines.get(name)[column] = row;
    } else if (!heads.includes(row)) {
      others.push(row);
    }
  }
  return {heads: heads.length > 1 ? heads : [], lines, others: heads.length > 1 ? others : rows};
}

function tableCell(tr, index, row) {
  const cell = child(tr, index, String(index), 'td', row ? row.tone : '');
  if (!row) {
    setText(cell, '–');
    return;
  }
  setText(child(cell, 0, 'word', 'strong'), TONE_WORDS[row.tone] || '');
  output(cell, 1, 'output', row.value);
  trim(cell, optional(cell, 2, 'note', 'span', 'note', row.note));
}

function showTable(table, heads, lines) {
  const head = child(child(table, 0, 'head', 'thead'), 0, 'row', 'tr');
  child(head, 0, 'corner', 'td');
  heads.forEach((column, i) => {
    const cell = child(head, i + 1, String(i), 'th');
    cell.scope = 'col';
    setText(child(cell, 0, 'label', 'span'), column.label);
    setText(child(cell, 1, 'note', 'span', 'note'), column.value);
  });
  trim(head, heads.length + 1);
  const body = child(table, 1, 'body', 'tbody');
  let next = 0;
  for (const [name, row] of lines) {
    const tr = child(body, next++, name, 'tr');
    const label = child(tr, 0, 'label', 'th');
    label.scope = 'row';
    setText(label, name.charAt(0).toUpperCase() + name.slice(1));
    heads.forEach((column, i) => tableCell(tr, i + 1, row[i]));
  }
  trim(body, next);
}

// A table of the card: its first column names the rows.
function showSectionTable(node, section) {
  const {columns, rows, tones} = section.table;
  setText(child(node, 0, 'caption', 'caption'), section.caption || section.title);
  const head = child(child(node, 1, 'head', 'thead'), 0, 'row', 'tr');
  columns.forEach((name, i) => {
    const cell = child(head, i, String(i), 'th');
    cell.scope = 'col';
    setText(cell, name);
  });
  trim(head, columns.length);
  const body = child(node, 2, 'body', 'tbody');
  rows.forEach((row, i) => {
    const tone = tones[i];
    const tr = child(body, i, String(i), 'tr', tone);
    const label = child(tr, 0, 'label', 'th');
    label.scope = 'row';
    setText(child(label, 0, 'word', 'strong'), TONE_WORDS[tone] || '');
    setText(child(label, 1, 'text', 'span'), row[0]);
    row.slice(1).forEach((text, k) => {
      const cell = child(tr, k + 1, String(k + 1), 'td', tone);
      cell.dataset.column = columns[k + 1];
      setText(cell, text);
    });
    trim(tr, row.length);
  });
  trim(body, rows.length);
}

function showRows(node, index, rows) {
  const {heads, lines, others} = columnsOf(rows);
  let next = index;
  if (heads.length) showTable(child(node, next++, 'table', 'table', 'ways'), heads, lines);
  if (others.length) {
    const list = child(node, next++, 'rows', 'dl', 'rows');
    others.forEach((row, i) => showRow(list, i, row.label, row));
    trim(list, others.length);
  }
  return next;
}

// What stands below a heading: the answer, its caution, the figures, and why.
function showAnswer(node, index, section) {
  let next = optional(node, index, 'headline', 'p', 'headline', section.headline);
  if (section.caution) toneText(child(node, next++, 'caution', 'p', 'caution ' + section.tone), section.caution);
  next = optional(node, next, 'view', 'p', 'view', section.view);
  if (section.rows.length) next = showRows(node, next, section.rows);
  if (section.table && section.table.rows.length) {
    // Wider than a narrow screen: the table alone scrolls, also by the keyboard.
    const frame = child(node, next++, 'frame', 'div', 'frame');
    frame.tabIndex = 0;
    frame.setAttribute('role', 'region');
    frame.setAttribute('aria-label', `${section.title}, table`);
    showSectionTable(child(frame, 0, 'table', 'table', 'ways'), section);
  } else {
    next = optional(node, next, 'caption', 'p', 'note', section.caption);
  }
  if (section.why) {
    const why = child(node, next++, 'why', 'details', 'why');
    setText(child(why, 0, 'summary', 'summary'), 'Why');
    setText(child(why, 1, 'text', 'p'), section.why);
  }
  return next;
}

function sectionNode(parent, index, id, title) {
  const node = child(parent, index, id, 'section');
  node.id = 'card-' + id;
  node.setAttribute('aria-labelledby', `card-${id}-title`);
  const heading = child(node, 0, 'title', 'h2');
  heading.id = `card-${id}-title`;
  heading.tabIndex = -1;
  setText(heading, title);
  return node;
}

// The entry and the oversteer of one turn stand under the turn's own name.
function showTurn(parent, index, turn, sections) {
  const node = sectionNode(parent, index, turn.entry, turn.name);
  let next = 1;
  for (const id of [turn.entry, turn.oversteer]) {
    const section = sections.find((candidate) => id && candidate.id === id);
    if (!section) continue;
    const part = child(node, next++, id, 'div', 'part');
    setText(child(part, 0, 'title', 'h3'), section.title);
    trim(part, showAnswer(part, 1, section));
  }
  trim(node, next);
}

function showLeg(list, index, leg) {
  const item = child(list, index, String(leg.leg), 'li', leg.tone);
  const heading = child(item, 0, 'title', 'h3');
  setText(child(heading, 0, 'number', 'span', 'number'), leg.number);
  setText(child(heading, 1, 'text', 'span'), ' ' + leg.title);
  const facts = child(item, 1, 'facts', 'dl', 'facts');
  [['Speed', leg.speed], ['Time', leg.time], ['Brakes', leg.brakes]].forEach(([name, value], i) => {
    const pair = child(facts, i, name, 'div');
    setText(child(pair, 0, 'label', 'dt'), name);
    output(child(pair, 1, 'value', 'dd'), 0, 'output', value);
  });
  const next = optional(item, 2, 'text', 'p', '', leg.text);
  if (leg.caution) toneText(child(item, next, 'caution', 'p', 'caution ' + leg.tone), leg.caution);
  trim(item, next + (leg.caution ? 1 : 0));
}

function showLegs(parent, index, legs) {
  const node = sectionNode(parent, index, 'legs', 'Leg by leg');
  const list = child(node, 1, 'list', 'ol', 'legs');
  legs.forEach((leg, i) => showLeg(list, i, leg));
  trim(list, legs.length);
}

function showCautions(parent, index, cautions) {
  const node = sectionNode(parent, index, 'cautions', 'Cautions');
  const list = child(node, 1, 'list', 'ul', 'cautions');
  cautions.forEach((caution, i) => {
    const item = child(list, i, String(i), 'li', 'caution ' + caution.tone);
    toneText(item, caution.value);
    let next = optional(item, 2, 'label', 'span', 'note', caution.label);
    next = optional(item, next, 'note', 'span', 'note', caution.note);
    trim(item, next);
  });
  trim(list, cautions.length);
}

// The turns' sections come between others; each stands where its entry stands.
function showCard(parent, card) {
  let next = 0;
  const inTurns = new Set(card.turns.flatMap((turn) => [turn.entry, turn.oversteer]));
  if (card.legs.length) showLegs(parent, next++, card.legs);
  for (const section of card.sections) {
    const turn = card.turns.find((candidate) => candidate.entry === section.id);
    if (turn) {
      showTurn(parent, next++, turn, card.sections);
    } else if (!inTurns.has(section.id)) {
      const node = sectionNode(parent, next++, section.id, section.title);
      trim(node, showAnswer(node, 1, section));
    }
  }
  if (card.cautions.length) showCautions(parent, next++, card.cautions);
  trim(parent, next);
}

function showContents(list) {
  const targets = [byId('inputs'), ...byId('card').children, byId('study')];
  targets.forEach((target, i) => {
    const link = child(child(list, i, target.id, 'li'), 0, 'link', 'a');
    link.href = '#' + target.id;
    // "Turn 2: left 90°, …" is too long for a list of places.
    setText(link, target.querySelector('h2').textContent.split(':')[0]);
  });
  trim(list, targets.length);
  byId('contents').hidden = false;
}

function showWatch(list, watch) {
  watch.forEach((text, i) => setText(child(list, i, String(i), 'li'), text));
  trim(list, watch.length);
  byId('watch').hidden = watch.length === 0;
}

// The five answers at a glance, each with what is left to its limit.
function showFront(list, front) {
  front.rows.forEach((row, i) => {
    const note = row.note ? `; ${row.note}` : '';
    setText(child(list, i, row.name, 'li'), `${row.name}: ${row.value}${note}`);
  });
  trim(list, front.rows.length);
}

// Spoken after a change, not at the start: what was refused, or the two answers that matter first.
function speak(card) {
  const roll = card.sections.find((section) => section.id === 'roll');
  const answer = [roll && roll.headline, card.card_headline].filter(Boolean).join(' ');
  const text = card.status && card.status !== card.card_headline ? card.status : answer;
  byId('status').classList.toggle('notice', text !== answer);
  const first = card.problem ? '' : done;
  if (spoken !== null && (text !== spoken || first)) setText(byId('status'), `${first} ${text}`.trim());
  spoken = text;
}

// A word about something that left the card as it was.
export function sayStatus(text) {
  byId('status').classList.add('notice');
  setText(byId('status'), text);
}

export function show(card) {
  current = card;
  setText(byId('text-page').querySelector('h1'), card.title);
  setText(byId('notice'), card.subtitle || '');
  setText(byId('day'), card.day || '');
  setText(byId('headline'), card.card_headline || '');
  showFront(byId('answers'), card.front);
  showWatch(byId('watch-list'), card.watch);
  showActions(byId('actions'));
  showRefused(byId('refused'), card.refused);
  showInputs(byId('inputs'), card);
  showCard(byId('card'), card);
  showContents(byId('contents-list'));
  setText(byId('invented'), card.invented || '');
  setText(byId('safety'), card.safety || '');
  setText(byId('program'), `Tillerline ${card.program}, build ${document.documentElement.dataset.build}`);
  speak(card);
}
