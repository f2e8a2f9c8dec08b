// The exercises on the text page, made from the JSON that the program publishes with them
// (core/editing describes it). One is at hand at a time: situation, question, the guess, and only
// then the answer and its reason.
import {button, byId, element, numberText, withUnit} from './dom.js';
import {input} from './program.js';
import {sayStatus} from './text_page.js';

let shown = null;
let asked = false;  // the guess was made here: on the drawn sheet the focus stays there

const heading = (one) => `${one.topic}, grade ${one.grade}: ${one.result}`;

// All of them in one list, by topic; choosing one opens it.
function picker(study) {
  const row = element('div', {class: 'field'});
  row.append(element('label', {for: 'study-open'}, 'Exercise'));
  const select = element('select', {id: 'study-open'});
  select.append(element('option', {value: ''}, 'Choose one'));
  let group = null;
  for (const one of study.exercises) {
    if (!group || group.label !== one.topic) {
      group = element('optgroup', {label: one.topic});
      select.append(group);
    }
    group.append(element('option', {value: one.id}, heading(one)));
  }
  select.value = study.open ? study.open.id : '';
  select.addEventListener('change', () => input('study-open', select.value));
  row.append(select);
  return row;
}

function numberGuess(open) {
  const row = element('div', {class: 'field'});
  row.append(element('label', {for: 'study-guess'}, 'Your guess'));
  const range = `${numberText(open.lowest, open.decimals)} to ` +
      withUnit(numberText(open.highest, open.decimals), open.unit) + '.';
  const field = element('input', {id: 'study-guess', type: 'text', inputmode: 'decimal',
    autocomplete: 'off', 'aria-describedby': 'study-unit study-range study-refusal'});
  if (open.refusal) field.setAttribute('aria-invalid', 'true');
  row.append(field, element('span', {id: 'study-unit', class: 'unit'}, open.unit),
      element('span', {class: 'state'}), element('p', {id: 'study-range', class: 'note'}, range));
  return {row, value: () => field.value.trim(), field};
}

function choiceGuess(open) {
  const row = element('fieldset', {class: 'guess', 'aria-describedby': 'study-refusal'});
  row.append(element('legend', {}, 'Your guess'));
  open.options.forEach((option, i) => {
    const label = element('label');
    const radio = element('input', {type: 'radio', name: 'study-guess', value: String(i)});
    label.append(radio, ' ', option);
    row.append(label);
  });
  const chosen = () => row.querySelector('input:checked');
  return {row, value: () => chosen() ? chosen().value : '', field: row.querySelector('input')};
}

// The question with its form. A refused guess stays typed.
function question(open, typed) {
  const form = element('form', {autocomplete: 'off'});
  const {row, value, field} = open.options.length ? choiceGuess(open) : numberGuess(open);
  if (typed && !open.options.length) field.value = typed;
  form.append(row, element('p', {id: 'study-refusal', class: 'problem'}, open.refusal));
  const judge = element('button', {type: 'submit'}, 'Show the answer');
  const actions = element('div', {class: 'actions'});
  actions.append(judge);
  form.append(actions);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const guess = value();
    asked = true;
    input('study-guess', guess);
    asked = false;
    if (shown.open && shown.open.refusal) {
      const again = byId('study-guess');
      if (again) again.value = guess;
      (again || byId('study-body').querySelector('input')).focus();
    }
  });
  return form;
}

function answer(study) {
  const {open, exercises} = study;
  const part = element('div');
  part.append(element('p', {}, `Your guess: ${open.guess}`));
  const verdict = element('p', {class: 'headline', id: 'study-verdict', tabindex: '-1'});
  const output = element('output', {'aria-live': 'off'}, open.verdict);
  verdict.append(output);
  part.append(verdict, element('p', {}, open.headline), element('h4', {}, 'Why'), element('p', {}, open.reason));
  const next = exercises[exercises.findIndex((one) => one.id === open.id) + 1];
  const actions = element('div', {class: 'actions'});
  if (next) actions.append(button('Next exercise', () => {
    input('study-open', next.id);
    byId('study-question').focus();
  }));
  part.append(actions);
  return part;
}

export function show(study) {
  if (!study) return;
  const before = shown && shown.open;
  shown = study;
  const body = byId('study-body');
  const typed = byId('study-guess') ? byId('study-guess').value : '';
  const focused = body.contains(document.activeElement) ? document.activeElement.id : '';
  body.replaceChildren(element('p', {}, study.score), picker(study));
  const {open} = study;
  if (open) {
    const same = before && before.id === open.id;
    body.append(element('h3', {id: 'study-question', tabindex: '-1'}, open.question));
    body.append(element('p', {}, open.situation));
    body.append(open.verdict ? answer(study) : question(open, same ? typed : ''));
    if (asked && same && open.verdict && !before.verdict) {
      byId('study-verdict').focus();
      sayStatus(open.verdict);
    }
  }
  if (focused && byId(focused) && document.activeElement === document.body) byId(focused).focus();
  byId('study').hidden = false;
}
