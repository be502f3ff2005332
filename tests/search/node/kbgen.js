/* Loads the classic scripts of the search into this process, in the order in which a page names them. */
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const vm = require('node:vm');

const templates = path.join(__dirname, '..', '..', '..', 'site_templates');
const pure = [
  'tables', 'normalise', 'packed', 'engine', 'codes', 'spelling', 'kin', 'synonyms', 'question', 'hits', 'channels', 'lines',
  'reasons', 'ranking', 'query',
];

for (const name of pure) {
  const file = path.join(templates, 'js', 'search', name + '.js');
  vm.runInThisContext(fs.readFileSync(file, 'utf8'), { filename: file });
}

module.exports = globalThis.kbgen;
