/* Reads {corpora: {name: {script, documents}}, queries: [[corpus, text], ...], engines: [name, ...]} as JSON and writes
   {engine: [entries found, the best first, for each query]}. */
'use strict';

const fs = require('node:fs');
const engines = require('./engines.js');

const MOST = 20;
const asked = JSON.parse(fs.readFileSync(0, 'utf8'));
const found = {};

for (const name of asked.engines) {
  const ask = {};
  for (const [corpus, data] of Object.entries(asked.corpora)) {
    ask[corpus] = engines.open(name, data);
  }
  found[name] = asked.queries.map(([corpus, text]) => ask[corpus](text).slice(0, MOST));
}
process.stdout.write(JSON.stringify(found));
