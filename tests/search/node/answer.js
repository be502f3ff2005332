/* Reads {texts, codes, script, queries} as JSON and writes what the scripts make of each, for comparison with Python. */
'use strict';

const fs = require('node:fs');
const vm = require('node:vm');
const { search } = require('./kbgen.js');

function plain({ entry, reasons }) {
  return { href: entry.href, reasons };
}

const asked = JSON.parse(fs.readFileSync(0, 'utf8'));
vm.runInThisContext(asked.script);
const loaded = search.query.load(globalThis.kbgen.searchData);

process.stdout.write(JSON.stringify({
  tables: search.tables,
  words: asked.texts.map((text) => search.normalise.words(text).map((word) => {
    return [word.term, search.normalise.composed(text).slice(word.start, word.end)];
  })),
  keys: asked.codes.map((code) => search.codes.keys(code)),
  answers: asked.queries.map((text) => {
    const found = search.query.answer(loaded, text);
    return { ...found, results: found.results.map(plain), near: found.near.map(plain) };
  }),
}));
