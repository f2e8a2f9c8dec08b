// Runs the browser tests: node tests/browser/run.js [PART OF A TEST'S OR FILE'S NAME]
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {runAll, test} = require('./harness');

for (const file of fs.readdirSync(__dirname).sort()) {
  if (!file.endsWith('.test.js')) continue;
  test.file = file;
  require(path.join(__dirname, file));
}

runAll(process.argv[2] || '').then(({passed, failed}) => {
  console.log(`${passed} passed, ${failed} failed`);
  process.exit(failed > 0 || passed === 0 ? 1 : 0);
}).catch((error) => {
  console.error(error);
  console.log('0 passed, 1 failed');
  process.exit(1);
});
