/* Whole numbers and tables as plain text, read where it lies. kbgen/search/packed.py writes them and says how. */
(function (root) {
  'use strict';

  var DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_';
  var MORE = 32;
  var values = new Uint8Array(128);
  Array.from(DIGITS).forEach(function (digit, value) { values[digit.charCodeAt(0)] = value; });

  function unpack(text) {
    var numbers = [];
    var number = 0;
    var unit = 1;
    for (var at = 0; at < text.length; at += 1) {
      var value = values[text.charCodeAt(at)];
      if (value < MORE) {
        numbers.push(number + value * unit);
        number = 0;
        unit = 1;
      } else {
        number += (value - MORE) * unit;
        unit *= MORE;
      }
    }
    return numbers;
  }

  /* The ascending numbers of which the steps were packed. */
  function climb(text) {
    var number = 0;
    return unpack(text).map(function (step) { return (number += step); });
  }

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

  /* packed: {keys: sorted, joined by blanks, rows: packed numbers, joined by blanks} */
  function table(packed) {
    var keys = packed.keys ? packed.keys.split(' ') : [];
    var rows = packed.rows.split(' ');

    function row(key) {
      var at = firstNotBefore(keys, key);
      return keys[at] === key ? rows[at] : '';
    }

    return {
      keys: keys,
      row: row,
      holds: function (key) { return keys[firstNotBefore(keys, key)] === key; },
      beginningWith: function (prefix) { return beginningWith(keys, prefix); }
    };
  }

  root.kbgen.search.packed = { beginningWith: beginningWith, climb: climb, table: table, unpack: unpack };
})(globalThis);
