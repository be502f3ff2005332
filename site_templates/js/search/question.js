/* What a query asks for. kbgen/search/question.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var EXACT = 10, KIN = 8, SYNONYM = 7, CORRECTED = [0, 6, 5, 4], UNFINISHED = 5;
  var MOST_WORDS = 30, SHORTEST_PREFIX = 2, LONGEST_SMALL = 4;
  var weak = new Set(search.tables.weak);
  var smallWords = search.tables.stop.concat(search.tables.weak);
  var unitNames = [...new Set(Object.values(search.tables.units))].sort();

  function loadLexicon(engine, groups) {
    var synonyms = search.synonyms.load(groups);
    var vocabulary = null;
    var corrected = new Map();

    function holds(word) {
      return engine.holds(word) || synonyms.holds(word);
    }

    /* Each word is corrected once only. */
    function corrections(word, begun, unfinished) {
      var key = word + ' ' + begun + ' ' + unfinished;
      if (!corrected.has(key)) {
        vocabulary = vocabulary || search.spelling.vocabulary([...new Set(engine.words.concat(synonyms.words))]);
        var most = search.spelling.allowed(word);
        corrected.set(key, vocabulary.corrections(word, begun ? Math.min(most, 1) : most, unfinished && !begun));
      }
      return corrected.get(key);
    }

    return {
      engine: engine,
      synonyms: synonyms,
      holds: holds,
      corrections: corrections,
      begins: function (word) {
        return holds(word) || engine.beginningWith(word).length > 0 || synonyms.beginningWith(word).length > 0;
      }
    };
  }

  function nearest(corrected) {
    var fewest = corrected.reduce(function (least, one) { return Math.min(least, one.slips); }, Infinity);
    return corrected.filter(function (one) { return one.slips === fewest; }).map(function (one) { return one.word; });
  }

  function withUnit(term, engine) {
    if (!/^[0-9]+$/.test(term)) {
      return [];
    }
    return unitNames.map(function (unit) { return term + unit; }).filter(engine.holds);
  }

  function weightsFor(term, corrected, completed, related, engine) {
    var weights = new Map();
    corrected.forEach(function (one) { weights.set(one.word, CORRECTED[one.slips]); });
    completed.concat(withUnit(term, engine)).forEach(function (word) { weights.set(word, UNFINISHED); });
    related.forEach(function (form) { weights.set(form, KIN); });
    if (engine.holds(term)) {
      weights.set(term, EXACT);
    }
    return weights;
  }

  /* Whether a word that nobody knows may be a slip for one that tells nothing. */
  function isSmall(term) {
    return term.length <= LONGEST_SMALL && smallWords.some(function (word) {
      return search.spelling.slips(term, word, 1, false) <= 1;
    });
  }

  function askedFor(word, last, lexicon) {
    var term = word.term;
    var unfinished = last && term.length >= SHORTEST_PREFIX;
    var completed = unfinished ? lexicon.engine.beginningWith(term) : [];
    var started = unfinished && !completed.length ? lexicon.synonyms.beginningWith(term) : [];
    var begun = completed.length + started.length > 0;
    var related = search.kin(term).filter(lexicon.engine.holds);
    var corrected = related.length || lexicon.holds(term) ? [] : lexicon.corrections(term, begun, unfinished);
    var forms = started.length ? started : begun ? [] : nearest(corrected);
    var mistyped = corrected.length > 0 && !begun;
    return {
      word: word,
      forms: forms.length ? forms : [term],
      weights: weightsFor(term, corrected, completed, related, lexicon.engine),
      needed: (last || !weak.has(term)) && !(mistyped && isSmall(term)),
      unfinished: unfinished,
      corrected: mistyped
    };
  }

  /* The last of several words may be unfinished. */
  function says(asked, phrase) {
    if (asked.length !== phrase.length) {
      return false;
    }
    return phrase.every(function (word, place) {
      var begun = place > 0 && place === phrase.length - 1 && asked[place].unfinished;
      return asked[place].forms.includes(word) || (begun && word.startsWith(asked[place].word.term));
    });
  }

  function meaningAt(first, asked, synonyms) {
    var said = asked[first].forms.flatMap(synonyms.starting).filter(function (known) {
      return says(asked.slice(first, first + known.phrase.length), known.phrase);
    });
    var longest = said.reduce(function (most, known) { return Math.max(most, known.phrase.length); }, 0);
    var same = new Map();
    said.forEach(function (known) {
      if (known.phrase.length === longest) {
        known.same.forEach(function (phrase, key) { same.set(key, phrase); });
      }
    });
    if (!same.size) {
      return null;
    }
    var phrases = [...same.values()].sort(search.synonyms.phraseOrder);
    var weights = new Map(phrases.map(function (phrase) { return [search.synonyms.phraseKey(phrase), SYNONYM]; }));
    return { first: first, last: first + longest, phrases: phrases, weights: weights };
  }

  function meaningsOf(asked, synonyms) {
    var found = [];
    for (var place = 0; place < asked.length; ) {
      var meaning = meaningAt(place, asked, synonyms);
      if (meaning) {
        found.push(meaning);
      }
      place = meaning ? meaning.last : place + 1;
    }
    return found;
  }

  function understand(text, lexicon) {
    var found = normalise.words(text).slice(0, MOST_WORDS);
    var typing = found.length > 0 && found[found.length - 1].end === normalise.composed(text).length;
    var asked = found.map(function (word, place) {
      return askedFor(word, typing && place === found.length - 1, lexicon);
    });
    if (!asked.some(function (one) { return one.needed; })) {
      asked.forEach(function (one) { one.needed = true; });
    }
    return {
      text: text, asked: asked, meanings: meaningsOf(asked, lexicon.synonyms), codes: search.codes.candidates(text)
    };
  }

  /* The words that an entry should hold, one bit each. */
  function neededIn(question) {
    return question.asked.reduce(function (bits, asked, place) { return asked.needed ? bits | 1 << place : bits; }, 0);
  }

  search.question = { SYNONYM: SYNONYM, loadLexicon: loadLexicon, neededIn: neededIn, understand: understand };
})(globalThis);
