/* Loads the classic scripts that calculate into this process, in the order in which a page names them. */
'use strict';

const fs = require('node:fs');
const path = require('node:path');
const vm = require('node:vm');

const folder = path.join(__dirname, '..', '..', '..', 'site_templates', 'js', 'narrow');

for (const name of ['model', 'posterior', 'question', 'sureness', 'narrow', 'address', 'words']) {
  const file = path.join(folder, name + '.js');
  vm.runInThisContext(fs.readFileSync(file, 'utf8'), { filename: file });
}

module.exports = globalThis.kbgen;
