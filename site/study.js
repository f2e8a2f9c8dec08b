// The exercises on the accessible page, made from the JSON that the program publishes
// (web/study.cpp, publish_study, describes it). One is at hand at a time: situation, question, the
// guess, and only then the answer and its reason.
'use strict';

const Study = (() => {
  const onInput = {handler: null};
  const byId = (id) => document.getElementById(id);
  let shown = null;
  let asked = false;  // the guess was made here: on the drawn sheet the focus stays there

  function element(tag, text = '', attributes = {}) {
    const node = document.createElement(tag);
    if (text) node.textContent = text;
    for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
    return node;
  }

  function send(id, value) {
    if (onInput.handler) onInput.handler(id, value);
  }

  const heading = (one) => `${one.topic}, grade ${one.grade}: ${one.result}`;

  // All of them in one list, by topic; choosing one opens it.
  function picker(study) {
    const row = element('div', '', {class: 'field'});
    row.append(element('label', 'Exercise', {for: 'study-open'}));
    const select = element('select', '', {id: 'study-open'});
    select.append(element('option', 'Choose one', {value: ''}));
    let group = null;
    for (const one of study.exercises) {
      if (!group || group.label !== one.topic) {
        group = element('optgroup', '', {label: one.topic});
        select.append(group);
      }
      group.append(element('option', heading(one), {value: one.id}));
    }
    select.value = study.open ? study.open.id : '';
    select.addEventListener('change', () => send('study-open', select.value));
    row.append(select);
    return row;
  }

  const withUnit = (text, unit) => !unit ? text : unit === '°' ? text + unit : `${text}\u00a0${unit}`;
  const plain = (number, decimals) => number.toFixed(decimals).replace('-', '\u2212');

  function numberGuess(open) {
    const row = element('div', '', {class: 'field'});
    row.append(element('label', 'Your guess', {for: 'study-guess'}));
    const range = `${plain(open.lowest, open.decimals)} to ` +
        withUnit(plain(open.highest, open.decimals), open.unit) + '.';
    const field = element('input', '', {id: 'study-guess', type: 'text', inputmode: 'decimal',
      autocomplete: 'off', 'aria-describedby': 'study-unit study-range study-refusal'});
    if (open.refusal) field.setAttribute('aria-invalid', 'true');
    row.append(field, element('span', open.unit, {id: 'study-unit', class: 'unit'}),
        element('span', '', {class: 'state'}), element('p', range, {id: 'study-range', class: 'note'}));
    return {row, value: () => field.value.trim(), field};
  }

  function choiceGuess(open) {
    const row = element('fieldset', '', {class: 'guess', 'aria-describedby': 'study-refusal'});
    row.append(element('legend', 'Your guess'));
    open.options.forEach((option, i) => {
      const label = element('label');
      const radio = element('input', '', {type: 'radio', name: 'study-guess', value: String(i)});
      label.append(radio, ' ', option);
      row.append(label);
    });
    const chosen = () => row.querySelector('input:checked');
    return {row, value: () => chosen() ? chosen().value : '', field: row.querySelector('input')};
  }

  function button(text, press) {
    const node = element('button', text, {type: 'button'});
    node.addEventListener('click', press);
    return node;
  }

  // The question with its form. A refused guess stays typed.
  function question(open, typed) {
    const form = element('form', '', {autocomplete: 'off'});
    const {row, value, field} = open.options.length ? choiceGuess(open) : numberGuess(open);
    if (typed && !open.options.length) field.value = typed;
    form.append(row, element('p', open.refusal, {id: 'study-refusal', class: 'problem'}));
    const judge = element('button', 'Show the answer', {type: 'submit'});
    const actions = element('div', '', {class: 'actions'});
    actions.append(judge);
    form.append(actions);
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const guess = value();
      asked = true;
      send('study-guess', guess);
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
    part.append(element('p', `Your guess: ${open.guess}`));
    const verdict = element('p', '', {class: 'headline', id: 'study-verdict', tabindex: '-1'});
    const output = element('output', open.verdict, {'aria-live': 'off'});
    verdict.append(output);
    part.append(verdict, element('p', open.headline), element('h4', 'Why'), element('p', open.reason));
    const next = exercises[exercises.findIndex((one) => one.id === open.id) + 1];
    const actions = element('div', '', {class: 'actions'});
    if (next) actions.append(button('Next exercise', () => {
      send('study-open', next.id);
      byId('study-question').focus();
    }));
    part.append(actions);
    return part;
  }

  function show(study) {
    if (!study) return;
    const before = shown && shown.open;
    shown = study;
    const body = byId('study-body');
    const typed = byId('study-guess') ? byId('study-guess').value : '';
    const focused = body.contains(document.activeElement) ? document.activeElement.id : '';
    body.replaceChildren(element('p', study.score), picker(study));
    const {open} = study;
    if (open) {
      const same = before && before.id === open.id;
      body.append(element('h3', open.question, {id: 'study-question', tabindex: '-1'}));
      body.append(element('p', open.situation));
      body.append(open.verdict ? answer(study) : question(open, same ? typed : ''));
      if (asked && same && open.verdict && !before.verdict) {
        byId('study-verdict').focus();
        Twin.sayStatus(open.verdict);
      }
    }
    if (focused && byId(focused) && document.activeElement === document.body) byId(focused).focus();
    byId('study').hidden = false;
  }

  return {show, onInput};
})();
