// Is every public function of the physics checked twice: against something other than itself, and by
// a property? And how many of them against the outside?
//
//   node tests/audit/run.js [-v]
//
// A public function is a free function declared in a header of core/physics in namespace tillerline (or
// one of its inner namespaces); overloads of one name count as one. For each one
//
//   outside    some test case of tests/published calls the function in which a row compares with
//              something that others published or measured (check, check_band or check_measured
//              with a kind other than Own);
//   apart      failing that, some test case of tests/published with rows of our own, or of
//              tests/physics that integrates the equation itself (integrate_ode of odeint.hpp, or
//              the Runge-Kutta of route_energy.cpp). Those share the program's equations: they are
//              cross-checks and count as such, never as a check from outside;
//   property   some other test case of tests/physics calls it: those ask what holds over whole
//              families of inputs (the points of the trade's practice, trade_practice.cpp, do not
//              count).
//
// "Calls" means in the test case itself or in a function of the test's own file, or of the helpers
// in tests, that it calls, however deep. What the core calls inside itself does not count. What is
// missing is printed by name, with the header; -v prints what was found too, and which functions are
// only cross-checked. The last line is "N passed, N failed", two for each function: that it is
// checked from outside or apart, and that it is checked by a property.
"use strict";
const fs = require("fs");
const path = require("path");

const root = path.join(__dirname, "..", "..");
const verbose = process.argv.includes("-v");

function filesIn(folder, ending) {
  const whole = path.join(root, folder);
  return fs
    .readdirSync(whole)
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => path.join(whole, name));
}

// The text without comments, and with what stands in strings replaced by blanks when `blankStrings`
// is set. Lengths do not change.
function withoutComments(text, blankStrings) {
  const kept = (part) => part.replace(/[^\n]/g, " ");
  return text.replace(/\/\/[^\n]*|\/\*[\s\S]*?\*\/|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])'/g, (part) =>
    part[0] === "/" || blankStrings ? kept(part) : part,
  );
}

// Index just behind the bracket that closes the one at `open`.
function behindBracket(text, open) {
  const pairs = { "{": "}", "(": ")" };
  const opening = text[open];
  let depth = 0;
  for (let i = open; i < text.length; ++i) {
    if (text[i] === opening) ++depth;
    if (text[i] === pairs[opening] && --depth === 0) return i + 1;
  }
  return text.length;
}

const NOT_FUNCTIONS = new Set(["static_assert", "if", "for", "while", "switch", "return", "sizeof", "catch"]);

// Names of the functions declared at namespace level: `struct`, `enum` and bodies are skipped.
function declaredFunctions(file) {
  const text = withoutComments(fs.readFileSync(file, "utf8"), true).replace(/^\s*#.*$/gm, "");
  const names = new Set();
  let statement = "";
  for (let i = 0; i < text.length; ++i) {
    const letter = text[i];
    if (letter === "{" && /\bnamespace\b[^;{}]*$/.test(statement)) {
      statement = "";
    } else if (letter === "{") {
      noteFunction(statement, names);
      const braces = behindBracket(text, i);
      // A struct ends with ";", an initialiser does too; a function's body ends by itself.
      i = braces - 1;
      statement = "";
    } else if (letter === ";" || letter === "}") {
      noteFunction(statement, names);
      statement = "";
    } else if (letter === "(") {
      const behind = behindBracket(text, i);
      statement += "()";
      i = behind - 1;
    } else {
      statement += letter;
    }
  }
  return [...names].sort();
}

function noteFunction(statement, names) {
  if (/\b(struct|class|enum|using)\b/.test(statement.replace(/<[^<>]*>/g, ""))) return;
  const found = /([A-Za-z_]\w*)\s*\(\)\s*$/.exec(statement.replace(/\bnoexcept\b/, ""));
  if (found && !statement.includes("=") && !NOT_FUNCTIONS.has(found[1])) names.add(found[1]);
}

// Functions and test cases defined in a test's file: [{name, isCase, calls}].
function definitions(file) {
  const raw = fs.readFileSync(file, "utf8");
  const text = withoutComments(raw, true);
  const titles = withoutComments(raw, false);
  const found = [];
  const head = /\b(TEST_CASE(?:_\w+)?|[A-Za-z_]\w*)\s*\(/g;
  for (let match; (match = head.exec(text)); ) {
    const open = match.index + match[0].length - 1;
    const closed = behindBracket(text, open);
    const body = /^\s*(?:const\s*)?(?:noexcept\s*)?(?:->\s*[\w:<>]+\s*)?\{/.exec(text.slice(closed));
    if (!body || NOT_FUNCTIONS.has(match[1])) continue;
    const end = behindBracket(text, closed + body[0].length - 1);
    const isCase = match[1].startsWith("TEST_CASE");
    found.push({
      name: isCase ? titleIn(titles.slice(open, closed)) : match[1],
      isCase,
      calls: callsIn(text.slice(closed, end)),
      kinds: kindsIn(text.slice(open, end)), // with defaults of parameters
    });
    head.lastIndex = isCase ? end : closed + body[0].length;
  }
  return found;
}

// The strings of a title are joined as the compiler does it.
function titleIn(text) {
  return (text.match(/"(?:\\.|[^"\\])*"/g) || []).map((part) => part.slice(1, -1)).join("");
}

// Names followed by a bracket, but not those of member functions.
function callsIn(text) {
  const calls = new Set();
  for (const match of text.matchAll(/(?<!\w)[A-Za-z_]\w*(?=\s*(?:<[\w:, ]*>)?\s*\()/g)) {
    const before = text.slice(Math.max(0, match.index - 2), match.index);
    if (!before.endsWith(".") && before !== "->") calls.add(match[0]);
  }
  return calls;
}

// The kinds of rows that a test writes, and "Measured" for the rows that have no other.
function kindsIn(text) {
  const kinds = new Set([...text.matchAll(/\bKind::(\w+)/g)].map((match) => match[1]));
  if (/\bcheck_measured\s*\(/.test(text)) kinds.add("Measured");
  return kinds;
}

// All that a test case calls, through the functions of its file and the helpers.
function reached(testCase, byName) {
  const calls = new Set();
  const kinds = new Set(testCase.kinds);
  const next = [...testCase.calls];
  while (next.length > 0) {
    const name = next.pop();
    if (calls.has(name)) continue;
    calls.add(name);
    for (const definition of byName.get(name) || []) {
      next.push(...definition.calls);
      for (const kind of definition.kinds) kinds.add(kind);
    }
  }
  return { calls, kinds };
}

function testCases(folder) {
  const helpers = filesIn("tests/physics", ".hpp").concat(
    filesIn("tests/physics", ".cpp").filter((file) => path.basename(file) === "scenarios.cpp"),
  );
  const shared = helpers.flatMap(definitions).filter((one) => !one.isCase);
  const cases = [];
  for (const file of filesIn(folder, ".cpp")) {
    const own = definitions(file);
    const byName = new Map();
    for (const one of own.concat(shared))
      if (!one.isCase) byName.set(one.name, (byName.get(one.name) || []).concat(one));
    for (const one of own)
      if (one.isCase)
        cases.push({ name: one.name, file: path.basename(file), ...reached(one, byName) });
  }
  return cases;
}

const anyOf = (calls, names) => names.some((name) => calls.has(name));
const published = testCases("tests/published").filter((one) =>
  anyOf(one.calls, ["check", "check_band", "check_measured"]),
);
const physics = testCases("tests/physics");
const integrated = physics.filter((one) => anyOf(one.calls, ["integrate_ode", "runge_kutta"]));
const outside = published.filter((one) => [...one.kinds].some((kind) => kind !== "Own"));
const apart = published.filter((one) => !outside.includes(one)).concat(integrated);
const properties = physics.filter(
  (one) => !integrated.includes(one) && one.file !== "trade_practice.cpp",
);

let passed = 0;
let failed = 0;
const headers = fs
  .readdirSync(path.join(root, "core", "physics"))
  .sort()
  .flatMap((folder) => filesIn(path.join("core", "physics", folder), ".hpp"));
const seen = new Set();
const onlyApart = [];
const firstOf = (cases, name) => cases.find((one) => one.calls.has(name));

function judge(found, kind, name, header) {
  if (found) ++passed;
  else ++failed;
  if (!found) console.log(`no ${kind} check of ${name} (${path.basename(header)})`);
  if (found && verbose) console.log(`${kind} ${name}: ${found.file}, "${found.name}"`);
}

for (const header of headers) {
  for (const name of declaredFunctions(header)) {
    if (seen.has(name)) continue; // an overload of another header
    seen.add(name);
    const from = firstOf(outside, name);
    const cross = firstOf(apart, name);
    if (!from && cross) onlyApart.push(name);
    judge(from || cross, from ? "outside" : "apart", name, header);
    judge(firstOf(properties, name), "property", name, header);
  }
}
if (verbose) console.log(`only cross-checked: ${onlyApart.join(", ")}`);
console.log(
  `audit: ${seen.size} public functions in ${headers.length} headers; ` +
    `${seen.size - onlyApart.length} named by a check from outside, ${onlyApart.length} only ` +
    `cross-checked; ${outside.length} test cases from outside, ${apart.length} apart ` +
    `(${integrated.length} of them against an ODE), ${properties.length} of properties`,
);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
