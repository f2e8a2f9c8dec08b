// The accessible twin: the whole sheet as an ordinary HTML form and text, built from the same JSON
// card that the canvas draws.
//
// The card, as the program publishes it:
//
//   { "title": "…", "subtitle": "…",
//     "inputs": [ { "id": "mass", "group": "Aircraft", "label": "Mass", "unit": "t",
//                   "value": "298", "entered": true, "note": "…", "problem": "…",
//                   "choices": [ { "value": "wet", "label": "Wet" } ] } ],
//     "sections": [ { "id": "roll", "heading": "Roll", "sentence": "…",
//                     "results": [ { "id": "roll.time", "label": "…", "value": "63", "unit": "s" } ],
//                     "cautions": [ { "level": "caution" | "limit", "text": "…" } ],
//                     "notes": [ "…" ] } ],
//     "status": "one sentence, spoken when it changes" }
//
// An input with choices is a <select>, any other a text field for numbers. Everything but title,
// inputs and sections may be left out. Nodes are kept and updated in place, so that focus and the
// reading position survive every change.
'use strict';

const Twin = (() => {
  const onInput = {handler: null};

  // A child of `parent` with that key: the existing one, or a new one, moved to position `index`.
  function child(parent, index, key, tag, className) {
    let node = null;
    for (const candidate of parent.children) {
      if (candidate.dataset.key === key) node = candidate;
    }
    if (!node) {
      node = document.createElement(tag);
      node.dataset.key = key;
      if (className) node.className = className;
    }
    if (parent.children[index] !== node) parent.insertBefore(node, parent.children[index] || null);
    return node;
  }

  function trim(parent, count) {
    while (parent.children.length > count) parent.lastElementChild.remove();
  }

  function setText(node, text) {
    if (node.textContent !== text) node.textContent = text;
  }

  // A paragraph that is there only while it has something to say.
  function optionalText(parent, index, key, tag, className, text) {
    if (!text) return index;
    setText(child(parent, index, key, tag, className), text);
    return index + 1;
  }

  function fillChoices(select, choices) {
    choices.forEach((choice, i) => {
      const option = child(select, i, choice.value, 'option');
      option.value = choice.value;
      setText(option, choice.label);
    });
    trim(select, choices.length);
  }

  function showField(parent, index, input) {
    const row = child(parent, index, input.id, 'div', 'field');
    row.classList.toggle('entered', Boolean(input.entered));
    const label = child(row, 0, 'label', 'label');
    label.htmlFor = 'in-' + input.id;
    setText(label, input.label);
    const field = child(row, 1, 'field', input.choices ? 'select' : 'input');
    if (!field.id) {
      field.id = 'in-' + input.id;
      field.name = input.id;
      if (!input.choices) {
        field.type = 'text';
        field.inputMode = 'decimal';
      }
      field.addEventListener('change', () => onInput.handler && onInput.handler(input.id, field.value));
    }
    if (input.choices) fillChoices(field, input.choices);
    // While someone types here, what they typed stays; a rejected entry stays, too, to be mended.
    if (field.value !== input.value && !(document.activeElement === field && input.problem)) {
      field.value = input.value;
    }
    setText(child(row, 2, 'unit', 'span', 'unit'), input.unit || '');
    let next = optionalText(row, 3, 'note', 'p', 'note', input.note);
    next = optionalText(row, next, 'problem', 'p', 'problem', input.problem);
    trim(row, next);
    const described = [];
    ['unit', 'note', 'problem'].forEach((key) => {
      const part = [...row.children].find((node) => node.dataset.key === key);
      if (!part || !part.textContent) return;
      part.id = `in-${input.id}-${key}`;
      described.push(part.id);
    });
    field.setAttribute('aria-describedby', described.join(' '));
    field.setAttribute('aria-invalid', input.problem ? 'true' : 'false');
  }

  function showInputs(form, inputs) {
    const groups = [];
    for (const input of inputs) {
      const name = input.group || 'Inputs';
      let group = groups.find((g) => g.name === name);
      if (!group) groups.push((group = {name, inputs: []}));
      group.inputs.push(input);
    }
    groups.forEach((group, i) => {
      const fieldset = child(form, i, group.name, 'fieldset');
      setText(child(fieldset, 0, 'legend', 'legend'), group.name);
      group.inputs.forEach((input, k) => showField(fieldset, k + 1, input));
      trim(fieldset, group.inputs.length + 1);
    });
    trim(form, groups.length);
    form.hidden = groups.length === 0;
  }

  function showResults(list, results) {
    results.forEach((result, i) => {
      const key = result.id || String(i);
      const pair = child(list, i, key, 'div');
      setText(child(pair, 0, 'label', 'dt'), result.label);
      const value = child(pair, 1, 'value', 'dd');
      const output = child(value, 0, 'output', 'output');
      if (result.id) output.id = 'out-' + result.id;
      setText(output, result.value);
      setText(child(value, 1, 'unit', 'span', 'unit'), result.unit ? '\u00a0' + result.unit : '');
    });
    trim(list, results.length);
  }

  function showCautions(list, cautions) {
    cautions.forEach((caution, i) => {
      const item = child(list, i, String(i), 'li');
      item.className = caution.level;
      const word = caution.level === 'limit' ? 'Limit exceeded: ' : 'Caution: ';
      setText(child(item, 0, 'word', 'strong'), word);
      setText(child(item, 1, 'text', 'span'), caution.text);
    });
    trim(list, cautions.length);
  }

  function showSection(parent, index, section) {
    const node = child(parent, index, section.id, 'section');
    node.id = 'card-' + section.id;
    node.setAttribute('aria-labelledby', `card-${section.id}-heading`);
    let next = 0;
    const heading = child(node, next++, 'heading', 'h2');
    heading.id = `card-${section.id}-heading`;
    setText(heading, section.heading);
    next = optionalText(node, next, 'sentence', 'p', 'sentence', section.sentence);
    if (section.cautions && section.cautions.length) {
      showCautions(child(node, next++, 'cautions', 'ul', 'cautions'), section.cautions);
    }
    if (section.results && section.results.length) {
      showResults(child(node, next++, 'results', 'dl', 'results'), section.results);
    }
    (section.notes || []).forEach((note, i) => {
      next = optionalText(node, next, 'note' + i, 'p', 'note', note);
    });
    trim(node, next);
  }

  function show(card) {
    const twin = document.getElementById('twin');
    setText(twin.querySelector('h1'), card.title);
    setText(document.getElementById('notice'), card.subtitle || '');
    showInputs(document.getElementById('inputs'), card.inputs);
    const sections = document.getElementById('card');
    card.sections.forEach((section, i) => showSection(sections, i, section));
    trim(sections, card.sections.length);
    setText(document.getElementById('status'), card.status || '');
  }

  // A message of the page itself, for when there is no card.
  function say(text) {
    setText(document.getElementById('notice'), text);
  }

  return {show, say, onInput};
})();
