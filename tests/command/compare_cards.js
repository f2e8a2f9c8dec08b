// Compares two files of cards, one JSON value a line, number by number.
//
//   node compare_cards.js FIRST SECOND TOLERANCE
//
// Two numbers agree when they differ by at most TOLERANCE relative to the larger of them. Where a
// number is the difference of larger ones, rounding is measured against those: a temperature rise
// against 300 K, a distance below 1 m against 1 m, a share of the spread against the whole. Everything else has to be equal. Prints
// "N passed, N failed", counting cards.
"use strict";
const fs = require("fs");

const [first, second, toleranceText] = process.argv.slice(2);
const tolerance = Number(toleranceText);
const lines = (file) => fs.readFileSync(file, "utf8").split("\n").filter((line) => line !== "");

let worst = 0;
let worstPlace = "";

function leastScale(place) {
  if (place.endsWith("_k") || place.includes("_k/p")) return 300;
  if (place.endsWith("/first") || place.endsWith("/total")) return 1;
  return place.endsWith("_m") ? 1 : 0;
}

function sameNumber(a, b, place) {
  if (a === b) return true;
  const scale = Math.max(Math.abs(a), Math.abs(b), leastScale(place));
  const relative = Math.abs(a - b) / scale;
  if (relative > worst) {
    worst = relative;
    worstPlace = `${place}: ${a} and ${b}`;
  }
  return relative <= tolerance;
}

// Places where the two differ.
function differences(a, b, place) {
  if (typeof a === "number" && typeof b === "number") {
    return sameNumber(a, b, place) ? [] : [`${place}: ${a} and ${b}`];
  }
  if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
    const keys = Object.keys(a);
    if (keys.join() !== Object.keys(b).join()) return [`${place}: other keys`];
    return keys.flatMap((key) => differences(a[key], b[key], `${place}/${key}`));
  }
  return a === b ? [] : [`${place}: ${JSON.stringify(a)} and ${JSON.stringify(b)}`];
}

const firstLines = lines(first);
const secondLines = lines(second);
let passed = 0;
let failed = 0;
if (firstLines.length !== secondLines.length || firstLines.length === 0) {
  console.log(`${firstLines.length} cards against ${secondLines.length}`);
  failed += 1;
}
for (let i = 0; i < Math.min(firstLines.length, secondLines.length); ++i) {
  const found = differences(JSON.parse(firstLines[i]), JSON.parse(secondLines[i]), `card ${i + 1}`);
  found.slice(0, 8).forEach((line) => console.log(line));
  if (found.length === 0) passed += 1;
  else failed += 1;
}
console.log(`largest relative difference ${worst.toExponential(1)} ${worstPlace}`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
