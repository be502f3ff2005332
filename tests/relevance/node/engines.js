/* One way to ask every engine: open(name, {script, flat, documents}) -> (text) => [ids, the best first]. */
'use strict';

const vm = require('node:vm');
const lunr = require('lunr');
const MiniSearch = require('minisearch');
const { search } = require('../../search/node/kbgen.js');

const FIELDS = ['title', 'codes', 'symptoms', 'equipment', 'words'];
const WEIGHTED = { title: 4, codes: 3, symptoms: 5, equipment: 2, words: 1 };

function onlyLast(term, place, terms) {
  return place === terms.length - 1;
}

/* Fuzzy and prefix matching are on in all of them. */
const MINISEARCH = {
  'fuzzy 0.2': { fuzzy: 0.2, prefix: true },
  'fuzzy 0.2, prefix of the last word': { fuzzy: 0.2, prefix: onlyLast },
  'fuzzy 0.2, all words': { fuzzy: 0.2, prefix: true, combineWith: 'AND' },
  'fuzzy 0.2, fields weighted': { fuzzy: 0.2, prefix: true, boost: WEIGHTED },
  'fuzzy 0.3': { fuzzy: 0.3, prefix: true },
  'fuzzy 0.3, prefix of the last word, fields weighted': { fuzzy: 0.3, prefix: onlyLast, boost: WEIGHTED },
  'fuzzy 1 of long words, prefix of the last word': { fuzzy: (term) => (term.length > 3 ? 1 : false), prefix: onlyLast },
  'fuzzy 0.2, exact words far ahead': { fuzzy: 0.2, prefix: onlyLast, weights: { fuzzy: 0.1, prefix: 0.2 } },
};

function openMiniSearch(setting, documents) {
  const index = new MiniSearch({ fields: FIELDS, searchOptions: MINISEARCH[setting] });
  index.addAll(documents);
  return (text) => index.search(text).map((hit) => hit.id);
}

/* lunr as it comes; a text that its parser refuses finds nothing. */
function openLunr(documents) {
  const index = lunr(function build() {
    this.ref('id');
    FIELDS.forEach((field) => this.field(field));
    documents.forEach((one) => this.add(one));
  });
  return (text) => {
    try {
      return index.search(text).map((hit) => hit.ref);
    } catch (refused) {
      return [];
    }
  };
}

const nothing = () => [];
const own = { ...search };

/* The search without one of its parts: what takes the place of that part. */
const WITHOUT = {
  'code path': { codes: { ...search.codes, candidates: nothing } },
  'look-alikes': { codes: { ...search.codes, candidates: withoutAlike } },
  correction: { spelling: { ...search.spelling, allowed: () => 0 } },
  prefix: { engine: { load: withoutPrefix }, codes: { ...search.codes, beginnings: nothing } },
  're-ranking': { ranking: { ...search.ranking, byLines: (best) => best, coverage: () => 0 } },
  'reading lines': { ranking: { ...search.ranking, byLines: (best) => best } },
  synonyms: { synonyms: { ...search.synonyms, load: () => own.synonyms.load([]) } },
  'verb forms': { kin: nothing },
};

function withoutAlike(text) {
  return own.codes.candidates(text).map((candidate) => ({ ...candidate, alike: [] }));
}

function withoutPrefix(data) {
  return { ...own.engine.load(data), beginningWith: nothing };
}

function openOwn(script, part) {
  const parts = { ...own, ...WITHOUT[part] };
  Object.assign(search, parts);
  vm.runInThisContext(script);
  const loaded = search.query.load(globalThis.kbgen.searchData);
  return (text) => {
    Object.assign(search, parts);
    return search.query.answer(loaded, text).results.map((result) => result.entry.href);
  };
}

exports.open = function open(name, data) {
  const [engine, setting] = name.split(': ');
  if (engine === 'minisearch') {
    return openMiniSearch(setting, data.documents);
  }
  if (engine === 'lunr') {
    return openLunr(data.documents);
  }
  return openOwn(setting === 'field weights' ? data.flat : data.script, setting);
};
