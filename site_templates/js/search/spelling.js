/* Which known words a word may be a slip for. kbgen/search/spelling.py does the same and says why. */
(function (root) {
  'use strict';

  var SHORTEST = 3, TWO = 6, THREE = 10;

  function allowed(word) {
    if (word.length < SHORTEST || /[0-9]/.test(word)) {
      return 0;
    }
    return 1 + (word.length >= TWO ? 1 : 0) + (word.length >= THREE ? 1 : 0);
  }

  /* The slips between two words, `most` + 1 if there are more; `begun`: from any beginning of `known`. */
  function slips(typed, known, most, begun) {
    var beyond = most + 1;
    var before = [];
    var above = [];
    var row = [];
    for (var start = 0; start <= known.length; start += 1) {
      row.push(Math.min(start, beyond));
    }
    for (var at = 1; at <= typed.length; at += 1) {
      before = above;
      above = row;
      row = new Array(known.length + 1).fill(beyond);
      row[0] = Math.min(at, beyond);
      var last = Math.min(known.length, at + most);
      for (var place = Math.max(1, at - most); place <= last; place += 1) {
        var same = typed[at - 1] === known[place - 1];
        var cost = Math.min(above[place - 1] + (same ? 0 : 1), above[place] + 1, row[place - 1] + 1, beyond);
        if (at > 1 && place > 1 && typed[at - 1] === known[place - 2] && typed[at - 2] === known[place - 1]) {
          cost = Math.min(cost, before[place - 2] + 1);
        }
        row[place] = cost;
      }
    }
    return begun ? Math.min.apply(null, row) : row[row.length - 1];
  }

  function lettersOf(word) {
    var found = 0;
    for (var at = 0; at < word.length; at += 1) {
      found |= 1 << (word.charCodeAt(at) & 31);
    }
    return found;
  }

  function bits(number) {
    var count = 0;
    for (var left = number; left; left &= left - 1) {
      count += 1;
    }
    return count;
  }

  /* corrections(word, most, unfinished): [{word, slips}], sorted by word */
  function vocabulary(words) {
    var byLength = null;
    var longest = 0;

    function sortByLength() {
      byLength = new Map();
      words.forEach(function (word) {
        longest = Math.max(longest, word.length);
        if (!byLength.has(word.length)) {
          byLength.set(word.length, []);
        }
        byLength.get(word.length).push({ word: word, letters: lettersOf(word) });
      });
    }

    function ofLength(length, asked, found) {
      (byLength.get(length) || []).forEach(function (known) {
        var lost = bits(asked.letters & ~known.letters);
        var added = asked.unfinished ? 0 : bits(known.letters & ~asked.letters);
        var distance = Math.max(lost, added) > asked.most ? asked.most + 1 :
          slips(asked.word, known.word, asked.most, asked.unfinished);
        if (distance <= asked.most) {
          found.push({ word: known.word, slips: distance });
        }
      });
    }

    return {
      corrections: function (word, most, unfinished) {
        if (!most) {
          return [];
        }
        if (!byLength) {
          sortByLength();
        }
        var asked = { word: word, letters: lettersOf(word), most: most, unfinished: unfinished };
        var found = [];
        var last = unfinished ? longest : word.length + most;
        for (var length = Math.max(1, word.length - most); length <= last; length += 1) {
          ofLength(length, asked, found);
        }
        var fewest = found.reduce(function (least, one) { return Math.min(least, one.slips); }, most);
        return found.filter(function (one) { return one.slips <= fewest + 1; })
          .sort(function (a, b) { return a.word < b.word ? -1 : 1; });
      }
    };
  }

  root.kbgen.search.spelling = { allowed: allowed, bits: bits, slips: slips, vocabulary: vocabulary };
})(globalThis);
