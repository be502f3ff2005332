/* The text index behind one small interface, so that another engine can take its place. kbgen/search/engine.py is its twin. */
(function (root) {
  'use strict';

  /* First place in a sorted list whose word is not before the given one. */
  function firstNotBefore(words, word) {
    var low = 0;
    var high = words.length;
    while (low < high) {
      var middle = (low + high) >> 1;
      if (words[middle] < word) { low = middle + 1; } else { high = middle; }
    }
    return low;
  }

  function beginningWith(words, prefix) {
    var first = firstNotBefore(words, prefix);
    var last = first;
    while (last < words.length && words[last].startsWith(prefix)) {
      last += 1;
    }
    return words.slice(first, last);
  }

  function load(serialised) {
    var lunr = root.lunr;
    var index = lunr.Index.load(serialised);
    var all = Object.keys(index.invertedIndex);
    var held = new Set(all);
    var words = all.filter(function (word) { return !word.includes('_'); }).sort();

    /* Map of the number of an entry -> {score, words: Set of the asked words that it holds}. */
    function hits(weights) {
      var asked = [...weights.keys()].filter(function (word) { return held.has(word); }).sort();
      var found = new Map();
      if (!asked.length) {
        return found;
      }
      index.query(function (query) {
        asked.forEach(function (word) {
          query.clause({ term: word, boost: weights.get(word), usePipeline: false });
        });
      }).forEach(function (match) {
        found.set(Number(match.ref), { score: match.score, words: new Set(Object.keys(match.matchData.metadata)) });
      });
      return found;
    }

    return {
      words: words,
      holds: function (word) { return held.has(word); },
      beginningWith: function (prefix) { return beginningWith(words, prefix); },
      hits: hits
    };
  }

  root.kbgen.search.engine = { beginningWith: beginningWith, load: load };
})(globalThis);
