/* What a query asks for. kbgen/search/question.py, spelling.py and synonyms.py do the same and say why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var EXACT = 1.0, SYNONYM = 0.7, CORRECTED = 0.6, UNFINISHED = 0.5;
  var SHORTEST_PREFIX = 2;
  var SHORTEST_CORRECTED = 4;
  var weak = new Set(search.tables.weak);
  var unitNames = [...new Set(Object.values(search.tables.units))].sort();

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

  function loadSynonyms(groups) {
    var phrases = new Map();
    groups.forEach(function (group) {
      group.forEach(function (phrase) {
        var known = phrases.get(phraseKey(phrase)) || { phrase: phrase, same: new Map() };
        group.forEach(function (other) { known.same.set(phraseKey(other), other); });
        phrases.set(phraseKey(phrase), known);
      });
    });
    var all = [...phrases.values()];
    return {
      phrases: all,
      words: [...new Set(all.flatMap(function (known) { return known.phrase; }))].sort(),
      longest: all.reduce(function (most, known) { return Math.max(most, known.phrase.length); }, 0)
    };
  }

  function loadLexicon(engine, groups) {
    var synonyms = loadSynonyms(groups);
    var own = new Set(synonyms.words);
    return {
      engine: engine,
      synonyms: synonyms,
      words: [...new Set([...engine.words, ...synonyms.words])].sort(),
      holds: function (word) { return engine.holds(word) || own.has(word); }
    };
  }

  function oneSlipApart(a, b) {
    var same = 0;
    while (same < Math.min(a.length, b.length) && a[same] === b[same]) {
      same += 1;
    }
    var restA = a.slice(same), restB = b.slice(same);
    return restA.slice(1) === restB.slice(1) || restA.slice(1) === restB || restA === restB.slice(1) ||
      (restA.slice(2) === restB.slice(2) && [...restA.slice(0, 2)].reverse().join('') === restB.slice(0, 2));
  }

  function corrections(word, known) {
    if (word.length < SHORTEST_CORRECTED || /[0-9]/.test(word)) {
      return [];
    }
    return known.filter(function (other) {
      return Math.abs(other.length - word.length) <= 1 && oneSlipApart(word, other);
    });
  }

  function formsOf(term, unfinished, lexicon) {
    if (lexicon.holds(term)) {
      return [term];
    }
    if (unfinished && term.length >= SHORTEST_PREFIX) {
      var started = search.engine.beginningWith(lexicon.synonyms.words, term);
      if (started.length) {
        return started;
      }
    }
    var corrected = corrections(term, lexicon.words);
    return corrected.length ? corrected : [term];
  }

  function withUnit(term, engine) {
    if (!/^[0-9]+$/.test(term)) {
      return [];
    }
    return unitNames.map(function (unit) { return term + unit; }).filter(engine.holds);
  }

  function askedFor(word, unfinished, lexicon) {
    var term = word.term;
    var completed = unfinished && term.length >= SHORTEST_PREFIX ? lexicon.engine.beginningWith(term) : [];
    var forms = completed.length ? [term] : formsOf(term, unfinished, lexicon);
    var weights = new Map();
    completed.concat(withUnit(term, lexicon.engine)).forEach(function (one) { weights.set(one, UNFINISHED); });
    forms.forEach(function (form) { weights.set(form, form === term ? EXACT : CORRECTED); });
    return { word: word, forms: forms, weights: weights, needed: unfinished || !weak.has(term) };
  }

  function says(asked, phrase) {
    return asked.length === phrase.length && phrase.every(function (word, place) {
      return asked[place].forms.includes(word);
    });
  }

  function meaningAt(first, asked, synonyms) {
    for (var last = Math.min(first + synonyms.longest, asked.length); last > first; last -= 1) {
      var stretch = asked.slice(first, last);
      var same = new Map();
      synonyms.phrases.forEach(function (known) {
        if (says(stretch, known.phrase)) {
          known.same.forEach(function (phrase, key) { same.set(key, phrase); });
        }
      });
      if (same.size) {
        return { first: first, last: last, phrases: [...same.values()].sort(phraseOrder) };
      }
    }
    return null;
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

  function weightsOf(question) {
    var found = new Map();
    function raise(word, weight) { found.set(word, Math.max(weight, found.get(word) || 0)); }
    question.asked.forEach(function (asked) {
      asked.weights.forEach(function (weight, word) { raise(word, weight); });
    });
    question.meanings.forEach(function (meaning) {
      meaning.phrases.forEach(function (phrase) { raise(phraseKey(phrase), SYNONYM); });
    });
    return found;
  }

  function understand(text, lexicon) {
    var found = normalise.words(text);
    var typing = found.length > 0 && found[found.length - 1].end === normalise.composed(text).length;
    var asked = found.map(function (word, place) {
      return askedFor(word, typing && place === found.length - 1, lexicon);
    });
    if (!asked.some(function (one) { return one.needed; })) {
      asked.forEach(function (one) { one.needed = true; });
    }
    return {
      text: text, typing: typing, asked: asked,
      meanings: meaningsOf(asked, lexicon.synonyms), codes: search.codes.candidates(text)
    };
  }

  search.question = {
    corrections: corrections, loadLexicon: loadLexicon, oneSlipApart: oneSlipApart, phraseKey: phraseKey,
    understand: understand, weightsOf: weightsOf
  };
})(globalThis);
