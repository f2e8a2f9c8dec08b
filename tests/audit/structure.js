// Is the house in order: no circle of modules, and no include that DEVELOPERS.md does not allow?
//
//   node tests/audit/structure.js [-v]
//
// A module is a header with the source of the same name, or either alone; a script of the page is a
// module, too. Folders and what each may include stand in the table under "Rooms" in DEVELOPERS.md:
// a folder may include itself, the folders named in its row, and what lies below those. A folder
// without a row, a row without a folder and a permission that nothing uses are failures as well.
// -v prints the includes between folders. The last lines are "modules: N, circles: N" and
// "N passed, N failed": one for each module, folder and permission.
"use strict";
const fs = require("fs");
const path = require("path");

const root = path.join(__dirname, "..", "..");
const verbose = process.argv.includes("-v");
const PLACES = ["core", "web", "site/page"];

function filesBelow(folder) {
  return fs.readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return filesBelow(name);
    return /\.(cpp|hpp|js)$/.test(name) ? [name] : [];
  });
}

const moduleOf = (file) => file.replace(/\.\w+$/, "");
const files = PLACES.flatMap(filesBelow).sort();
const known = new Set(files);

// The files of ours that a file names: `#include "x"` below core or web, `from './x'` beside it.
function includesOf(file) {
  const text = fs.readFileSync(path.join(root, file), "utf8");
  if (file.endsWith(".js")) {
    return [...text.matchAll(/\bfrom '(\.[^']+)'/g)].map((match) =>
      path.posix.join(path.posix.dirname(file), match[1]),
    );
  }
  return [...text.matchAll(/^#include "([^"]+)"/gm)]
    .map((match) => ["core", "web"].map((place) => `${place}/${match[1]}`))
    .flatMap((candidates) => candidates.filter((name) => known.has(name)));
}

const edges = new Map();
for (const file of files) {
  const of = moduleOf(file);
  if (!edges.has(of)) edges.set(of, new Set());
  for (const included of includesOf(file)) {
    if (moduleOf(included) !== of) edges.get(of).add(moduleOf(included));
  }
}

// Groups of modules that reach each other (Tarjan 1972).
function circles() {
  const state = new Map();
  const stack = [];
  const found = [];
  let next = 0;
  function visit(node) {
    const mine = { index: next, low: next++, waiting: true };
    state.set(node, mine);
    stack.push(node);
    for (const other of edges.get(node) || []) {
      if (!state.has(other)) visit(other);
      const its = state.get(other);
      if (its.waiting) mine.low = Math.min(mine.low, its.low);
    }
    if (mine.low !== mine.index) return;
    const group = stack.splice(stack.indexOf(node));
    for (const member of group) state.get(member).waiting = false;
    if (group.length > 1) found.push(group.sort());
  }
  for (const node of edges.keys()) if (!state.has(node)) visit(node);
  return found;
}

// folder -> folders that it may include, from the rows "| `folder` | what | `a`, `b` |".
function rooms() {
  const text = fs.readFileSync(path.join(root, "DEVELOPERS.md"), "utf8");
  const section = text.split(/^## /m).find((part) => part.startsWith("Rooms"));
  const table = new Map();
  for (const row of (section || "").matchAll(/^\| `([^`]+)` \|.*\|([^|]*)\|$/gm)) {
    table.set(row[1], [...row[2].matchAll(/`([^`]+)`/g)].map((match) => match[1]));
  }
  return table;
}

let passed = 0;
let failed = 0;
function verdict(good, sentence) {
  if (good) ++passed;
  else ++failed;
  if (!good) console.log(sentence);
}

const within = (folder, other) => folder === other || folder.startsWith(`${other}/`);

const allowed = rooms();
const used = new Map();  // "from -> to": an example
for (const [of, others] of edges) {
  const from = path.posix.dirname(of);
  const wrong = [];
  for (const other of others) {
    const to = path.posix.dirname(other);
    if (to === from) continue;
    used.set(`${from} -> ${to}`, `${of} includes ${other}`);
    if (!(allowed.get(from) || []).some((permitted) => within(to, permitted))) wrong.push(other);
  }
  verdict(wrong.length === 0, `${of} may not include ${wrong.join(", ")}`);
}
const folders = new Set([...edges.keys()].map((name) => path.posix.dirname(name)));
for (const folder of new Set([...folders, ...allowed.keys()])) {
  verdict(allowed.has(folder), `${folder} has no row under "Rooms" in DEVELOPERS.md`);
  verdict(folders.has(folder), `${folder} stands under "Rooms" but has no sources`);
}
for (const [from, list] of allowed) {
  for (const to of list) {
    const uses = [...used.keys()].some((arrow) => {
      const [here, there] = arrow.split(" -> ");
      return here === from && within(there, to);
    });
    verdict(uses, `nothing in ${from} includes ${to}: take it from "Rooms"`);
  }
}
const rings = circles();
for (const ring of rings) console.log(`a circle: ${ring.join(", ")}`);
verdict(rings.length === 0, `${rings.length} circles`);
if (verbose) for (const [arrow, example] of [...used].sort()) console.log(`${arrow}   (${example})`);
console.log(`modules: ${edges.size}, circles: ${rings.length}`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
