/* Groups of words and phrases that mean the same. kbgen/search/synonyms.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  function phraseKey(phrase) {
    return phrase.join('_');
  }

  /* Sorts phrases word by word, as Python does. */
  function phraseOrder(a, b) {
    for (var place = 0; place < Math.min(a.length, b.length); place += 1) {
      if (a[place] !== b[place]) {
        return a[place] < b[place] ? -1 : 1;
      }
    }
    return a.length - b.length;
  }

  /* {words: sorted, holds(word), beginningWith(prefix), starting(word): [{phrase, same: Map of key -> phrase}]} */
  function load(groups) {
    var phrases = new Map();
    var byFirst = new Map();
    groups.forEach(function (group) {
      group.forEach(function (phrase) {
        var key = phraseKey(phrase);
        var known = phrases.get(key) || { phrase: phrase, same: new Map() };
        if (!phrases.has(key)) {
          phrases.set(key, known);
          byFirst.set(phrase[0], (byFirst.get(phrase[0]) || []).concat(known));
        }
        group.forEach(function (other) { known.same.set(phraseKey(other), other); });
      });
    });
    var own = new Set([...phrases.values()].flatMap(function (known) { return known.phrase; }));
    var words = [...own].sort();
    return {
      words: words,
      holds: function (word) { return own.has(word); },
      beginningWith: function (prefix) { return search.packed.beginningWith(words, prefix); },
      starting: function (word) { return byFirst.get(word) || []; }
    };
  }

  search.synonyms = { load: load, phraseKey: phraseKey, phraseOrder: phraseOrder };
})(globalThis);
