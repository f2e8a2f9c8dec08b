// The running program as the other parts of the page see it, and what it last published.

let program = null;

export function start(module) {
  program = module;
}

export const isRunning = () => program !== null;

// One of the program's functions with texts as arguments (web/platform); nothing before it runs.
export function call(name, ...texts) {
  if (program) program.ccall(name, null, texts.map(() => 'string'), texts);
}

// A field, a choice or a button of the text page, by its key. The program publishes what follows
// from it before this returns.
export const input = (key, value) => call('tillerline_input', key, value);

// What the page hands on: "link", "brief" or "card" as text.
export const ask = (form) => program.ccall('tillerline_text', 'string', ['string'], [form]);

export const isDrawing = () => Boolean(program.ccall('tillerline_drawing', 'number', [], []));

// The last card (core/sheet/page_json.cpp describes it) and the exercises, null before the first.
export const published = {card: null, study: null};
