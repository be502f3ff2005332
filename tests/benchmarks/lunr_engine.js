/* lunr.js behind the interface of site_templates/js/search/engine.js, to show what it would cost. */
(function (root) {
  'use strict';

  var ROUNDED = 1000;

  function isWord(key) {
    return !key.includes('_');
  }

  /* data: {serialised: lunr's own index as JSON text} */
  function load(data) {
    var index = root.lunr.Index.load(JSON.parse(data.serialised));
    var keys = Object.keys(index.invertedIndex).sort();
    var held = new Set(keys);
    var words = keys.filter(isWord);

    function weights(word, visit) {
      if (held.has(word)) {
        index.query(function (query) {
          query.clause({ term: word, usePipeline: false });
        }).forEach(function (match) { visit(Number(match.ref), Math.round(match.score * ROUNDED)); });
      }
    }

    return {
      words: words,
      holds: function (word) { return held.has(word); },
      beginningWith: function (prefix) { return root.kbgen.search.packed.beginningWith(words, prefix); },
      weights: weights
    };
  }

  root.kbgen.search.engine = { load: load };
})(globalThis);
