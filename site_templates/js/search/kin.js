/* Other forms of a verb. kbgen/search/kin.py does the same and says why. */
(function (root) {
  'use strict';

  var ENDING = /(ing|ed)$/;
  var DOUBLED = /([bdgklmnprtv])\1$/;
  var VOWEL = /[aeiouy]/;
  var SHORTEST = 3;

  function basesOf(word) {
    var stem = word.replace(ENDING, '');
    if (stem === word) {
      return [word];
    }
    return stem.length < SHORTEST || !VOWEL.test(stem) ? [] : [stem, stem + 'e', stem.replace(DOUBLED, '$1')];
  }

  function formsOf(base) {
    var stems = [base, base.replace(/e$/, ''), base + base[base.length - 1]];
    return [base].concat(stems.flatMap(function (stem) { return [stem + 'ing', stem + 'ed']; }));
  }

  /* What other forms of the word would look like, sorted. */
  function kin(word) {
    if (word.length < SHORTEST || /[0-9]/.test(word)) {
      return [];
    }
    var found = new Set(basesOf(word).flatMap(formsOf));
    found.delete(word);
    return [...found].sort();
  }

  root.kbgen.search.kin = kin;
})(globalThis);
