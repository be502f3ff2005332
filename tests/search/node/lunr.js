/* Reads {index, queries: [[word, ...], ...]} as JSON and writes the score that lunr gives each entry. */
'use strict';

const fs = require('node:fs');
const lunr = require('lunr');

const asked = JSON.parse(fs.readFileSync(0, 'utf8'));
asked.index.pipeline = [];
const index = lunr.Index.load(asked.index);

process.stdout.write(JSON.stringify(asked.queries.map((words) => Object.fromEntries(index.query((query) => {
  words.forEach((term) => query.clause({ term, usePipeline: false }));
}).map((match) => [match.ref, match.score])))));
