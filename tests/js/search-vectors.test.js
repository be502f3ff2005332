'use strict';

const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const { test } = require('node:test');

const { search } = require('../search/node/kbgen.js');

const folder = path.join(__dirname, '..', 'vectors');
const read = (name) => JSON.parse(fs.readFileSync(path.join(folder, name), 'utf8'));
const loaded = search.query.load(read('search-index.json'));

function words(text) {
  const composed = search.normalise.composed(text);
  return search.normalise.words(text).map((word) => [word.term, composed.slice(word.start, word.end)]);
}

/* Places in the vectors count code points, as Python does. */
function points(text, place) {
  return [...search.normalise.composed(text).slice(0, place)].length;
}

function candidates(text) {
  return search.codes.candidates(text).map((candidate) => [
    points(text, candidate.start), points(text, candidate.end), candidate.keys, candidate.mixed, candidate.whole,
  ]);
}

function answer(text) {
  const { total, results } = search.query.answer(loaded, text);
  return { total, results: results.map(({ entry, reasons }) => ({ href: entry.href, reasons })) };
}

const answers = {
  'search-normalise.json': {
    fold: (one) => search.normalise.fold(one.text),
    singular: (one) => search.normalise.singular(one.word),
    words: (one) => words(one.text),
  },
  'search-codes.json': {
    base: (one) => search.codes.base(one.code),
    beginnings: (one) => search.codes.beginnings(one.text),
    candidates: (one) => candidates(one.text),
    keys: (one) => search.codes.keys(one.code),
  },
  'search-query.json': {
    answer: (one) => answer(one.text),
    one_slip_apart: (one) => search.question.oneSlipApart(...one.pair),
  },
};

for (const [name, handlers] of Object.entries(answers)) {
  const groups = read(name);

  test(`${name}: every group has an answer and cases`, () => {
    assert.deepEqual(Object.keys(groups).sort(), Object.keys(handlers).sort());
    assert.ok(Object.values(groups).every((cases) => cases.length));
  });

  for (const [group, cases] of Object.entries(groups)) {
    test(`${name}: ${group}`, () => {
      for (const one of cases) {
        assert.deepEqual(handlers[group](one), one.expected, JSON.stringify(one));
      }
    });
  }
}

test('every file of vectors is used', () => {
  const files = fs.readdirSync(folder).filter((name) => name.startsWith('search-'));
  assert.deepEqual(files.sort(), [...Object.keys(answers), 'search-index.json'].sort());
});
