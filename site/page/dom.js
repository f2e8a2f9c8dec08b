// What every part of the page does with nodes. Text goes in as text, never as markup.

export const byId = (id) => document.getElementById(id);

// A new node. Empty children are left out.
export function element(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  node.append(...children.filter((child) => child !== ''));
  return node;
}

export function button(text, press, attributes = {}) {
  const node = element('button', {type: 'button', ...attributes}, text);
  node.addEventListener('click', press);
  return node;
}

// --- nodes that stay: kept and changed in place ---

// The child of `parent` with that key, at position `index`: the one that is there, or a new one.
export function child(parent, index, key, tag, className = '') {
  let node = parent.children[index];
  if (!node || node.dataset.key !== key) {
    node = [...parent.children].find((candidate) => candidate.dataset.key === key);
  }
  if (!node) {
    node = document.createElement(tag);
    node.dataset.key = key;
  }
  if (node.className !== className) node.className = className;
  if (parent.children[index] !== node) parent.insertBefore(node, parent.children[index] || null);
  return node;
}

export function trim(parent, count) {
  while (parent.children.length > count) parent.lastElementChild.remove();
}

export function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
  return node;
}

// A node that is there only while it has something to say. Answers the next free position.
export function optional(parent, index, key, tag, className, text) {
  if (!text) return index;
  setText(child(parent, index, key, tag, className), text);
  return index + 1;
}

// --- words ---

// Sentences about something that is not plain begin with one of these; in print and for the
// colour-blind the word is bold.
export const TONE_WORDS = {care: 'Care: ', limit: 'Limit: '};

// [the word of the tone with which the sentence begins or '', the rest]
export function toneAndRest(text) {
  const word = Object.values(TONE_WORDS).find((start) => text.startsWith(start)) || '';
  return [word, text.slice(word.length)];
}

export function withUnit(text, unit) {
  if (!unit) return text;
  return unit === '°' ? text + unit : `${text}\u00a0${unit}`;
}

// With a real minus sign.
export const numberText = (number, decimals) => Number(number).toFixed(decimals).replace('-', '\u2212');
