'use strict';

const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const { test } = require('node:test');

const { answered } = require('../narrowing/node/answered.js');
const { narrow } = require('../narrowing/node/kbgen.js');

const file = JSON.parse(fs.readFileSync(path.join(__dirname, '..', 'vectors', 'narrowing.json'), 'utf8'));
const model = narrow.model.load(file.model);

/* Figures are compared but for rounding, everything else exactly. */
function same(found, expected, where) {
  if (typeof expected === 'number') {
    assert.ok(Math.abs(found - expected) <= 1e-9 * Math.max(1, Math.abs(expected)), `${where}: ${found}, ${expected}`);
  } else if (expected && typeof expected === 'object') {
    assert.deepEqual(Object.keys(found), Object.keys(expected), where);
    for (const key of Object.keys(expected)) {
      same(found[key], expected[key], `${where}.${key}`);
    }
  } else {
    assert.equal(found, expected, where);
  }
}

test('the vectors hold a model and cases', () => {
  assert.ok(model.faults.length > 1 && file.cases.length);
});

for (const { given, expected } of file.cases) {
  test(`narrowing down with ${JSON.stringify(given)}`, () => same(answered(model, given), expected, 'result'));
}
