// What the program asks of the page (called from web/platform/browser.cpp), and what the page tells
// the program: resizing, fields changed in the twin, files opened.
'use strict';

const Page = (() => {
  const MAX_FILE_BYTES = 1048576;
  const CONTEXT_PATIENCE_MS = 4000;
  const root = document.documentElement;
  const canvas = document.getElementById('canvas');
  const twin = document.getElementById('twin');
  const readButton = document.getElementById('read');
  const fileInput = document.getElementById('file');
  const oneFile = document.getElementById('one-file');
  const dark = matchMedia('(prefers-color-scheme: dark)');

  let program = null;  // the running module, once it runs
  const hooks = {
    rects: {},  // id -> [x, y, width, height] in CSS pixels, of what the last frame drew
    frames: 0,  // drawn since the start
    card: null, // the last published card
    // Is there anything still to be drawn, or to be put into the text?
    get drawing() {
      return !program || unshown || Boolean(program.ccall('tillerline_drawing', 'number', [], []));
    },
  };

  function call(name, ...texts) {
    if (program) program.ccall(name, null, texts.map(() => 'string'), texts);
  }

  // --- asked by the program ---

  // At the start the drawn sheet comes first: the text behind it is a tenth of the work of the
  // start, and is made when the first frame is on the screen.
  let unshown = false;
  function publish(json) {
    hooks.card = JSON.parse(json);
    if (program || root.classList.contains('no-canvas')) {
      Twin.show(hooks.card);
    } else {
      unshown = true;
    }
  }

  // The exercises are put into the page with the text.
  let exercises = null;
  function publishStudy(json) {
    exercises = JSON.parse(json);
    if (hooks.card && !unshown && program) Study.show(exercises);
  }

  function showText() {
    if (!unshown) return;
    unshown = false;
    Twin.show(hooks.card);
    Study.show(exercises);
  }

  function frameDrawn(lines) {
    hooks.frames += 1;
    if (unshown) requestAnimationFrame(() => setTimeout(showText));
    hooks.rects = {};
    for (const line of lines.split('\n')) {
      if (!line) continue;
      const [id, ...numbers] = line.split('\t');
      hooks.rects[id] = numbers.map(Number);
    }
  }

  function setTheme(name) {
    root.dataset.theme = name;
  }

  function layout() {
    const area = getComputedStyle(document.getElementById('safe-area'));
    const insets = ['Top', 'Right', 'Bottom', 'Left'].map((side) => parseFloat(area['padding' + side]));
    const button = readButton.getBoundingClientRect();
    return [...insets, button.x, button.y, button.width, button.height];
  }

  function load(key) {
    try {
      return localStorage.getItem('tillerline.' + key);
    } catch (error) {
      return null;
    }
  }

  function store(key, text) {
    try {
      localStorage.setItem('tillerline.' + key, text);
      return true;
    } catch (error) {
      return false;
    }
  }

  function openFile() {
    fileInput.value = '';
    fileInput.click();
  }

  function handOut(name, blob) {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }

  function saveFile(name, text) {
    try {
      handOut(name, new Blob([text], {type: 'application/json'}));
      return true;
    } catch (error) {
      return false;
    }
  }

  // A page of this site in a tab of its own; the sheet stays as it is.
  function openPage(name) {
    if (typeof Embedded === 'object') return Embedded.open(name);
    const link = document.createElement('a');
    link.href = name;
    link.target = '_blank';
    link.rel = 'noopener';
    link.click();
    return true;
  }

  // Only where the page offers it.
  function saveProgram() {
    if (oneFile) oneFile.click();
    return oneFile !== null;
  }
  const openShare = () => Share.open();

  function copy(text) {
    if (navigator.clipboard) navigator.clipboard.writeText(text).catch(() => {});
  }

  function noCanvas() {
    showText();
    root.classList.add('no-canvas');
    setReading(true);
    readButton.hidden = true;
    sayNoPicture('This browser offers no WebGL 2, so the drawn sheet is not available. ' +
        'Everything it says is here as text.');
  }

  function sayNoPicture(words) {
    const node = document.getElementById('no-picture');
    node.textContent = words;
    node.hidden = words === '';
  }

  // A graphics context is usually given back at once. Where it is not, the text carries on; should
  // it come back later, the sheet is there again.
  function watchContext() {
    let waiting = 0;
    canvas.addEventListener('webglcontextlost', () => {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        readButton.hidden = true;
        setReading(true);
        sayNoPicture('The graphics of this device were lost and have not come back, so the drawn ' +
            'sheet is not available. Everything it says is here as text, and nothing was lost.');
      }, CONTEXT_PATIENCE_MS);
    });
    canvas.addEventListener('webglcontextrestored', () => {
      clearTimeout(waiting);
      readButton.hidden = false;
      sayNoPicture('');
    });
  }

  // --- told to the program ---

  function setReading(reading) {
    if (root.classList.contains('reading') === reading) return;
    showText();
    root.classList.toggle('reading', reading);
    readButton.setAttribute('aria-pressed', String(reading));
    readButton.textContent = reading ? 'Back to sheet' : 'Read as text';
    if (!reading) call('tillerline_wake');
  }

  // SDL listens to the window only; the canvas can change its size or its resolution without it.
  let drawnFor = '';
  function fitCanvas() {
    if (!program || root.classList.contains('reading')) return;
    const size = `${canvas.clientWidth} ${canvas.clientHeight} ${devicePixelRatio}`;
    if (size === drawnFor) return;
    drawnFor = size;
    window.dispatchEvent(new UIEvent('resize'));
  }

  function watchResolution() {
    const query = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    query.addEventListener('change', () => {
      fitCanvas();
      watchResolution();
    }, {once: true});
  }

  // Keys that belong to the browser or lead out of the canvas never reach SDL, which would
  // swallow them.
  function keepBrowserKeys(event) {
    if (event.target !== canvas) return;
    const editing = (event.ctrlKey || event.metaKey) && /^[acvxyz]$/i.test(event.key);
    const browser = event.ctrlKey || event.metaKey || event.altKey;
    const modifier = /^(Control|Meta|Alt|AltGraph|Shift)$/.test(event.key);
    if (event.key === 'Tab' || /^F\d+$/.test(event.key) || (browser && !editing && !modifier)) {
      event.stopPropagation();
    }
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

  async function fileChosen() {
    const file = fileInput.files[0];
    if (!file) return;
    if (file.size > MAX_FILE_BYTES) {
      call('tillerline_file', file.name, '');
      return;
    }
    call('tillerline_file', file.name, await file.text());
  }

  function attach(module) {
    program = module;
    Twin.onInput.handler = (id, value) => call('tillerline_input', id, value);
    Study.onInput.handler = Twin.onInput.handler;
    Share.start(module);
    document.getElementById('inputs').addEventListener('submit', (event) => event.preventDefault());
    readButton.addEventListener('click', () => setReading(!root.classList.contains('reading')));
    // Tabbing from the canvas into the twin shows the twin: focus is never invisible.
    twin.addEventListener('focusin', () => setReading(true));
    fileInput.addEventListener('change', fileChosen);
    if (oneFile) oneFile.addEventListener('click', saveOneFile);
    if (root.classList.contains('no-canvas')) return;
    watchContext();
    document.addEventListener('keydown', (event) => {
      if (event.key === 'Tab') root.classList.add('keys');
    }, {capture: true});
    canvas.addEventListener('pointerdown', () => {
      root.classList.remove('keys');
      canvas.focus({preventScroll: true});
    });
    canvas.addEventListener('contextmenu', (event) => event.preventDefault());
    canvas.addEventListener('touchcancel', () => call('tillerline_cancel_touch'), {capture: true});
    for (const type of ['keydown', 'keyup', 'keypress']) {
      window.addEventListener(type, keepBrowserKeys, {capture: true});
    }
    // Resizing blanks the canvas, so it is redrawn at once and not with the next frame.
    window.addEventListener('resize', () => call('tillerline_redraw'));
    new ResizeObserver(fitCanvas).observe(canvas);
    watchResolution();
    dark.addEventListener('change', () => call('tillerline_wake'));
    document.addEventListener('visibilitychange', () => call('tillerline_wake'));
    window.addEventListener('pageshow', () => call('tillerline_wake'));
  }

  return {
    hooks, attach, publish, publishStudy, frameDrawn, setTheme, layout, load, store, openFile, saveFile, openPage,
    saveProgram, openShare, copy, noCanvas, isDark: () => dark.matches,
  };
})();
