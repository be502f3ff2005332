/*
 * Text -> the words that are compared. kbgen/search/normalise.py does the same and says why; the vectors in tests/vectors
 * hold the two together.
 */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var tables = search.tables;

  var ALNUM = '(?:(?![\\u{10000}-\\u{10FFFF}])[\\p{L}\\p{N}])';
  var APOSTROPHE = "['’‘`´]";
  var CHUNK = new RegExp(
    '[0-9]+(?:[.,][0-9]+)+' + ALNUM + '*|' +
    ALNUM + '+(?:' + APOSTROPHE + ALNUM + '+)*|' +
    '°[CcFf](?!' + ALNUM + ')|[℃℉%]', 'gu');
  var PIECE = new RegExp('[0-9]+(?:\\.[0-9]+)+' + ALNUM + '*|' + ALNUM + '+', 'gu');
  var DECIMAL = /^[0-9]+[.,][0-9]/;
  var NEGATION = new RegExp('[nN]' + APOSTROPHE + '[tT]$');
  var POSSESSIVE = new RegExp(APOSTROPHE + '[sS]$');
  var BARE_NUMBER = /^[0-9]+(?:[.][0-9]+)*$/;
  var NUMBER_WITH_UNIT = /^([0-9]+(?:[.][0-9]+)*)([^0-9.]+)$/;

  var ASCII = /^[\x00-\x7f]*$/;
  var MOST_KEPT = 20000;

  var stop = new Set(tables.stop);
  var negations = new Set(tables.not);
  var letters = new Map(Object.entries(tables.letters));
  var irregular = new Map(Object.entries(tables.singular));
  var units = new Map(Object.entries(tables.units));
  var kept = new Map();

  function composed(text) {
    return ASCII.test(text) ? text : text.normalize('NFC');
  }

  function withoutMarks(text) {
    return text.normalize('NFKD').replace(/\p{M}/gu, '');
  }

  function fold(text) {
    if (ASCII.test(text)) {
      return text.toLowerCase();
    }
    var plain = withoutMarks(withoutMarks(text).toLowerCase());
    return Array.from(plain, function (c) { return letters.has(c) ? letters.get(c) : c; }).join('');
  }

  function singular(word) {
    if (irregular.has(word)) {
      return irregular.get(word);
    }
    if (word.length < 4 || !word.endsWith('s') || /(?:ss|us|is)$/.test(word)) {
      return word;
    }
    if (word.endsWith('ies') && word.length > 4) {
      return word.slice(0, -3) + 'y';
    }
    return word.slice(0, /(?:sses|shes|ches|xes|zzes)$/.test(word) ? -2 : -1);
  }

  function term(piece) {
    var amount = NUMBER_WITH_UNIT.exec(piece);
    var unit = amount && units.get(singular(amount[2]));
    if (unit) {
      return amount[1] + unit;
    }
    var single = singular(piece);
    return negations.has(single) ? 'not' : single;
  }

  /* The same pieces of text come again and again. */
  function termsOfChunk(chunk) {
    var known = kept.get(chunk);
    if (!known) {
      if (kept.size >= MOST_KEPT) {
        kept.clear();
      }
      known = newTermsOfChunk(chunk);
      kept.set(chunk, known);
    }
    return known;
  }

  function newTermsOfChunk(chunk) {
    if (chunk === '%') {
      return ['percent'];
    }
    var owner = chunk.replace(POSSESSIVE, '');
    if (NEGATION.test(owner)) {
      return ['not'];
    }
    var plain = fold(owner);
    if (DECIMAL.test(chunk)) {
      plain = plain.replace(/,/g, '.');
    }
    return (plain.match(PIECE) || [])
      .filter(function (piece) { return !stop.has(piece); })
      .map(term)
      .filter(function (found) { return !stop.has(found); });
  }

  function withUnits(found) {
    var joined = [];
    found.forEach(function (word) {
      var unit = units.get(word.term);
      var before = joined[joined.length - 1];
      if (unit && before && BARE_NUMBER.test(before.term)) {
        joined.pop();
        word = { term: before.term + unit, start: before.start, end: word.end };
      }
      joined.push(word);
    });
    return joined;
  }

  /* [{term, start, end}]: the places count in the composed text. */
  function words(text) {
    var found = [];
    for (var match of composed(text).matchAll(CHUNK)) {
      for (var one of termsOfChunk(match[0])) {
        found.push({ term: one, start: match.index, end: match.index + match[0].length });
      }
    }
    return withUnits(found);
  }

  function terms(text) {
    return words(text).map(function (word) { return word.term; });
  }

  search.normalise = {
    ALNUM: ALNUM, composed: composed, fold: fold, singular: singular, terms: terms, words: words
  };
})(globalThis);
