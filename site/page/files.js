// Files to the user and from them.
import {byId, element} from './dom.js';
import {call} from './program.js';

const MAX_FILE_BYTES = 1048576;
const fileInput = byId('file');
const oneFile = byId('one-file');

export function openFile() {
  fileInput.value = '';
  fileInput.click();
}

async function fileChosen() {
  const file = fileInput.files[0];
  if (!file) return;
  call('tillerline_file', file.name, file.size > MAX_FILE_BYTES ? '' : await file.text());
}

function handOut(name, blob) {
  const link = element('a', {href: URL.createObjectURL(blob), download: name});
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

export function saveFile(name, text) {
  try {
    handOut(name, new Blob([text], {type: 'application/json'}));
    return true;
  } catch (error) {
    return false;
  }
}

// The whole program as one file, only where the page offers it.
export function saveProgram() {
  if (oneFile) oneFile.click();
  return oneFile !== null;
}

// A browser asks the network for what it downloads by itself, whatever the worker has kept.
async function saveOneFile(event) {
  const link = event.currentTarget;
  event.preventDefault();
  try {
    const response = await fetch(link.href);
    if (!response.ok) throw new Error(`${response.status} for ${link.href}`);
    handOut(link.pathname.split('/').pop(), await response.blob());
  } catch (error) {
    link.removeEventListener('click', saveOneFile);
    link.click();
  }
}

export function start() {
  fileInput.addEventListener('change', fileChosen);
  if (oneFile) oneFile.addEventListener('click', saveOneFile);
}
