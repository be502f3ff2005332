/* Words that may have been meant where nothing was found. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var MOST = 4, SHORTEST = 3, SAME_START = 4;

  /* Edits, with neighbours exchanged counted as one (optimal string alignment), or Infinity if there are more than `most`. */
  function edits(a, b, most) {
    if (Math.abs(a.length - b.length) > most) {
      return Infinity;
    }
    var before = [], last = [], row = Array.from({ length: b.length + 1 }, function (_, place) { return place; });
    for (var i = 1; i <= a.length; i += 1) {
      before = last;
      last = row;
      row = [i];
      for (var j = 1; j <= b.length; j += 1) {
        var same = a[i - 1] === b[j - 1] ? 0 : 1;
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + same);
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
      }
      if (Math.min.apply(null, row) > most) {
        return Infinity;
      }
    }
    return row[b.length] > most ? Infinity : row[b.length];
  }

  function shareStart(a, b) {
    return a.length >= SAME_START && b.length >= SAME_START && a.slice(0, SAME_START) === b.slice(0, SAME_START);
  }

  /* How far a known word is from the one typed: edits, or just more than any of them where only the beginning is the same. */
  function distance(typed, known) {
    var most = Math.floor(typed.length / 3);
    var counted = edits(typed, known, most);
    return counted === Infinity && shareStart(typed, known) ? most + 1 : counted;
  }

  /* Known words for those typed, the closest first; words with digits are left to the codes. */
  function words(typed, known) {
    var found = new Map();
    typed.filter(function (word) { return word.length >= SHORTEST && !/[0-9]/.test(word); }).forEach(function (word) {
      known.forEach(function (other) {
        var far = /[0-9_]/.test(other) || other.length < SHORTEST ? Infinity : distance(word, other);
        if (far < Infinity && far < (found.has(other) ? found.get(other) : Infinity)) {
          found.set(other, far);
        }
      });
    });
    return [...found.keys()].sort(function (a, b) {
      return found.get(a) - found.get(b) || (a < b ? -1 : 1);
    }).slice(0, MOST);
  }

  search.near = { edits: edits, words: words };
})(globalThis);
