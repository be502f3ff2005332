/* The query. kbgen/search/query.py gives the same results in the same order for the same reasons, and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var FULL = 2;
  var NAMED = 3, NUMBER = 2, PERHAPS = 1;
  var MOST_RESULTS = 20, MOST_CODES = 2;
  var NO_HIT = { score: 0, words: new Set() };

  function entryOf(row) {
    return {
      href: row[0], kind: row[1], title: row[2], equipment: row[3], family: row[4],
      codes: row[5].map(function (code) { return { code: code[0], display: code[1], text: code[2] }; }),
      symptoms: row[6].map(function (texts) { return { text: texts[0], also: texts.slice(1) }; }),
      words: row[7], state: row[8], hazards: row[9]
    };
  }

  /*
   * data: {entries: rows as `entryOf` reads them, synonyms: groups of phrases, each a list of words,
   *        codes: {key: [entry, code, strength, entry, code, strength, ...]}, engine: a serialised lunr index}
   */
  function load(data) {
    var engine = search.engine.load(data.engine);
    return {
      rows: data.entries,
      codes: new Map(Object.entries(data.codes)),
      keys: Object.keys(data.codes).sort(),
      lexicon: search.question.loadLexicon(engine, data.synonyms)
    };
  }

  function refsOf(loaded, key) {
    var flat = loaded.codes.get(key) || [];
    var refs = [];
    for (var at = 0; at < flat.length; at += 3) {
      refs.push({ entry: flat[at], code: flat[at + 1], strength: flat[at + 2] });
    }
    return refs;
  }

  function codeRank(candidate, ref) {
    if (ref.strength === FULL) {
      return candidate.mixed || candidate.whole ? NAMED : PERHAPS;
    }
    return candidate.whole ? NUMBER : PERHAPS;
  }

  function named(loaded, question) {
    return question.codes.flatMap(function (candidate) {
      return candidate.keys.flatMap(function (key) {
        return refsOf(loaded, key).map(function (ref) {
          return { rank: codeRank(candidate, ref), candidate: candidate, ref: ref };
        });
      });
    });
  }

  function begun(loaded, question) {
    var text = search.normalise.composed(question.text);
    return question.codes.filter(function (candidate) {
      return candidate.end === text.length;
    }).flatMap(function (candidate) {
      return search.codes.beginnings(text.slice(candidate.start)).flatMap(function (beginning) {
        return search.engine.beginningWith(loaded.keys, beginning);
      }).flatMap(function (key) {
        return refsOf(loaded, key).map(function (ref) { return { rank: PERHAPS, candidate: candidate, ref: ref }; });
      });
    });
  }

  function cover(hit, question, candidate) {
    question.asked.forEach(function (asked, place) {
      if (asked.word.start >= candidate.start && asked.word.end <= candidate.end) {
        hit.covered.add(place);
      }
    });
  }

  /* Map of the number of an entry -> {ranks: Map of place of the code -> rank, covered: Set of places of words}. */
  function codeHits(loaded, question) {
    var all = named(loaded, question);
    var best = all.reduce(function (most, one) { return Math.max(most, one.rank); }, 0);
    var found = new Map();
    (all.length ? all : begun(loaded, question)).forEach(function (one) {
      if (one.rank === PERHAPS && best > PERHAPS) {
        return;
      }
      var hit = found.get(one.ref.entry) || noCode();
      hit.ranks.set(one.ref.code, Math.max(one.rank, hit.ranks.get(one.ref.code) || 0));
      cover(hit, question, one.candidate);
      found.set(one.ref.entry, hit);
    });
    return found;
  }

  function noCode() {
    return { ranks: new Map(), covered: new Set() };
  }

  function bestPlaces(ranks) {
    return [...ranks.keys()].sort(function (a, b) { return ranks.get(b) - ranks.get(a) || a - b; }).slice(0, MOST_CODES);
  }

  function anyOf(words, held) {
    for (var word of words) {
      if (held.has(word)) {
        return true;
      }
    }
    return false;
  }

  function rank(number, question, code, hit) {
    var covered = new Set(code.covered);
    question.asked.forEach(function (asked, place) {
      if (anyOf(hit.words, asked.weights)) { covered.add(place); }
    });
    question.meanings.forEach(function (meaning) {
      if (anyOf(meaning.phrases.map(search.question.phraseKey), hit.words)) {
        for (var place = meaning.first; place < meaning.last; place += 1) { covered.add(place); }
      }
    });
    var needed = [...covered].filter(function (place) { return question.asked[place].needed; });
    return {
      number: number, code: code, rank: Math.max(0, ...code.ranks.values()), coverage: needed.length,
      weak: covered.size - needed.length, score: Math.floor(hit.score * 1000 + 0.5)
    };
  }

  function order(a, b) {
    return Math.max(b.rank - PERHAPS, 0) - Math.max(a.rank - PERHAPS, 0) || b.coverage - a.coverage ||
      b.rank - a.rank || b.weak - a.weak || b.score - a.score || a.number - b.number;
  }

  function ranked(loaded, question) {
    var codes = codeHits(loaded, question);
    var hits = loaded.lexicon.engine.hits(search.question.weightsOf(question));
    var all = [...new Set([...hits.keys(), ...codes.keys()])].map(function (number) {
      return rank(number, question, codes.get(number) || noCode(), hits.get(number) || NO_HIT);
    });
    var best = all.reduce(function (most, one) { return Math.max(most, one.coverage); }, 0);
    return all.filter(function (one) { return one.rank >= NUMBER || one.coverage * 2 > best; }).sort(order);
  }

  /* {total, results: [{entry, reasons}]}, the best results first. */
  function answer(loaded, text) {
    var question = search.question.understand(text, loaded.lexicon);
    var all = ranked(loaded, question);
    return {
      total: all.length,
      results: all.slice(0, MOST_RESULTS).map(function (one) {
        var entry = entryOf(loaded.rows[one.number]);
        return {
          entry: entry,
          reasons: search.reasons.reasons(entry, question, bestPlaces(one.code.ranks), one.code.covered)
        };
      })
    };
  }

  search.query = { answer: answer, load: load };
})(globalThis);
