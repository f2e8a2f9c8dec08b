// Shows a part of the book of checks: by topic, by how the expected number was obtained, or only
// what is worked or differs. Without JavaScript all lines are there.
import {byId} from './page/dom.js';

const rows = [...document.querySelectorAll('.check')];
const everything = byId('shown').textContent;

function wanted(row) {
  const {topic, origin, worked, differs} = row.dataset;
  return (!byId('topic').value || byId('topic').value === topic) &&
      (!byId('origin').value || byId('origin').value === origin) &&
      (!byId('worked').checked || worked === 'yes') &&
      (!byId('differs').checked || differs === 'yes');
}

// A heading stays only if something below it does.
function hideEmpty(selector) {
  for (const part of document.querySelectorAll(selector)) {
    part.hidden = !part.querySelector('.check:not([hidden])');
  }
}

function show() {
  for (const row of rows) row.hidden = !wanted(row);
  hideEmpty('.checks tbody');
  hideEmpty('.topic');
  const shown = rows.filter((row) => !row.hidden).length;
  byId('shown').textContent = shown === rows.length ? everything :
      shown === 0 ? 'No line is like that.' : `${shown} of ${rows.length} lines shown.`;
}

byId('choice').hidden = false;
byId('choice').addEventListener('change', show);
show();
