/* The text index behind one small interface, so that another engine can take its place. engine.py says what it holds. */
(function (root) {
  'use strict';

  var packed = root.kbgen.search.packed;

  function isWord(key) {
    return !key.includes('_');
  }

  /* {words: sorted, holds(word or phrase), beginningWith(prefix): words, weights(word, visit(entry, weight))} */
  function load(data) {
    var table = packed.table(data);

    function weights(word, visit) {
      var row = packed.unpack(table.row(word));
      var entry = 0;
      for (var at = 1; at < row.length; at += 2) {
        entry += row[at];
        visit(entry, row[0] * row[at + 1]);
      }
    }

    return {
      words: table.keys.filter(isWord),
      holds: table.holds,
      beginningWith: function (prefix) { return table.beginningWith(prefix).filter(isWord); },
      weights: weights
    };
  }

  root.kbgen.search.engine = { load: load };
})(globalThis);
