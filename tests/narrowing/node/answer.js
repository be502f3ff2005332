/* Reads [{script, asked: [{name: answer}]}] as JSON and writes what the scripts make of each, for comparison with Python. */
'use strict';

const fs = require('node:fs');
const vm = require('node:vm');
const { answered } = require('./answered.js');
const kbgen = require('./kbgen.js');

process.stdout.write(JSON.stringify(JSON.parse(fs.readFileSync(0, 'utf8')).map(({ script, asked }) => {
  vm.runInThisContext(script);
  const model = kbgen.narrow.model.load(kbgen.narrowData);
  return asked.map((given) => answered(model, given));
})));
