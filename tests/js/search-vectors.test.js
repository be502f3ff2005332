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
    points(text, candidate.start), points(text, candidate.end), candidate.keys, candidate.alike,
    candidate.mixed, candidate.whole, candidate.attached,
  ]);
}

function plain({ entry, reasons }) {
  return { href: entry.href, reasons };
}

function answer({ text, ...scope }) {
  const found = search.query.answer(loaded, text, scope);
  return { ...found, results: found.results.map(plain), near: found.near.map(plain) };
}

const answers = {
  'search-normalise.json': {
    fold: (one) => search.normalise.fold(one.text),
    singular: (one) => search.normalise.singular(one.word),
    words: (one) => words(one.text),
  },
  'search-codes.json': {
    base: (one) => search.codes.base(one.code),
    raw: (one) => search.codes.raw(one.code),
    beginnings: (one) => search.codes.beginnings(one.text),
    candidates: (one) => candidates(one.text),
    keys: (one) => search.codes.keys(one.code),
  },
  'search-query.json': {
    answer: ({ expected, ...asked }) => answer(asked),
  },
  'search-words.json': {
    kin: (one) => search.kin(one.word),
    slips: (one) => search.spelling.slips(...one.pair, one.most, one.begun),
    unpack: (one) => search.packed.unpack(one.text),
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
