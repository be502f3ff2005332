/* Which codes of which entries a question names. kbgen/search/code_hits.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var codes = search.codes;

  var FULL = 3, DIGITS = 1, LOOKS = 0;
  var EXACT = 6, NAMED = 5, NUMBER = 4, DIGITS_ONLY = 3, ALIKE = 2, PERHAPS = 1;
  var MOST_CODES = 4, SHORTEST_NEAR = 2;

  function refsOf(table, key) {
    var flat = search.packed.unpack(table.row(key));
    var refs = [];
    for (var at = 0; at < flat.length; at += 3) {
      refs.push({ entry: flat[at], code: flat[at + 1], strength: flat[at + 2] });
    }
    return refs;
  }

  /* codeOf(entry, place): the code as stored */
  function rankOf(candidate, ref, stretch, codeOf) {
    if (ref.strength !== FULL) {
      return !candidate.whole ? PERHAPS : ref.strength === DIGITS ? DIGITS_ONLY : NUMBER;
    }
    if (!candidate.mixed && !candidate.whole) {
      return PERHAPS;
    }
    if (candidate.attached) {
      return ALIKE;
    }
    return codes.raw(codeOf(ref.entry, ref.code)) === codes.raw(stretch) ? EXACT : NAMED;
  }

  function namedBy(candidate, book, text, lexicon) {
    var stretch = text.slice(candidate.start, candidate.end);
    var found = candidate.keys.flatMap(function (key) {
      return refsOf(book.table, key).filter(function (ref) { return ref.strength !== LOOKS; }).map(function (ref) {
        return { rank: rankOf(candidate, ref, stretch, book.codeOf), candidate: candidate, ref: ref };
      });
    });
    if (!candidate.alike.length || search.normalise.terms(stretch).every(lexicon.begins)) {
      return found;
    }
    return found.concat(candidate.alike.flatMap(function (key) {
      var wanted = key.startsWith(codes.MARK) ? LOOKS : FULL;
      return refsOf(book.table, key).filter(function (ref) { return ref.strength === wanted; }).map(function (ref) {
        return { rank: ALIKE, candidate: candidate, ref: ref };
      });
    }));
  }

  /* Leaves out what lies within a longer stretch that names a code no worse. */
  function apart(found) {
    var named = found.filter(function (one) { return one.rank > PERHAPS; });
    return found.filter(function (one) {
      return !named.some(function (other) {
        var stretch = other.candidate;
        return stretch.end - stretch.start > one.candidate.end - one.candidate.start && other.rank >= one.rank &&
          stretch.start <= one.candidate.start && one.candidate.end <= stretch.end;
      });
    });
  }

  function begunBy(candidate, book, text) {
    return search.codes.beginnings(text.slice(candidate.start)).flatMap(book.table.beginningWith).flatMap(function (key) {
      return refsOf(book.table, key).map(function (ref) { return { rank: PERHAPS, candidate: candidate, ref: ref }; });
    });
  }

  function placesWithin(question, candidate) {
    return question.asked.reduce(function (bits, asked, place) {
      var within = asked.word.start >= candidate.start && asked.word.end <= candidate.end;
      return within ? bits | 1 << place : bits;
    }, 0);
  }

  function none() {
    return { ranks: new Map(), stretches: new Map(), places: 0 };
  }

  /* book: {table, codeOf}. Map of the number of an entry ->
     {ranks: Map of place of the code -> rank, stretches: Map of place -> candidate, places: bits of the words covered} */
  function hits(book, question, lexicon) {
    var text = search.normalise.composed(question.text);
    var all = apart(question.codes.flatMap(function (candidate) { return namedBy(candidate, book, text, lexicon); }));
    if (!all.length) {
      all = question.codes.filter(function (candidate) { return candidate.end === text.length; })
        .flatMap(function (candidate) { return begunBy(candidate, book, text); });
    }
    var best = all.reduce(function (most, one) { return Math.max(most, one.rank); }, 0);
    var found = new Map();
    all.forEach(function (one) {
      if (one.rank === PERHAPS && best > PERHAPS) {
        return;
      }
      var hit = found.get(one.ref.entry) || none();
      hit.places |= placesWithin(question, one.candidate);
      if (one.rank > (hit.ranks.get(one.ref.code) || 0)) {
        hit.ranks.set(one.ref.code, one.rank);
        hit.stretches.set(one.ref.code, one.candidate);
      }
      found.set(one.ref.entry, hit);
    });
    return found;
  }

  function isNear(typed, key) {
    return Math.abs(typed.length - key.length) <= 1 && search.spelling.slips(typed, key, 1, false) <= 1;
  }

  /* [[entry, place of its code]] of the codes one slip away from what looks most like a code */
  function near(book, question) {
    var like = question.codes.find(function (candidate) {
      return (candidate.mixed || candidate.whole) && candidate.keys[0].length >= SHORTEST_NEAR;
    });
    var found = new Map();
    (like ? book.table.keys : []).forEach(function (key) {
      if (like.keys.some(function (typed) { return isNear(typed, key); })) {
        refsOf(book.table, key).forEach(function (ref) {
          if (ref.strength === FULL && !found.has(ref.entry)) {
            found.set(ref.entry, ref.code);
          }
        });
      }
    });
    return [...found];
  }

  function bestRank(hit) {
    return Math.max(0, ...hit.ranks.values());
  }

  /* How many codes were typed that the entry has. */
  function count(hit) {
    var spans = [...hit.stretches].filter(function (one) { return hit.ranks.get(one[0]) > PERHAPS; })
      .map(function (one) { return one[1]; })
      .sort(function (a, b) { return a.end - b.end || a.start - b.start; });
    var at = 0;
    return spans.reduce(function (sum, span) {
      if (span.start < at) {
        return sum;
      }
      at = span.end;
      return sum + 1;
    }, 0);
  }

  /* The places of the best codes. */
  function bestPlaces(hit) {
    var ranks = hit.ranks;
    return [...ranks.keys()].sort(function (a, b) { return ranks.get(b) - ranks.get(a) || a - b; }).slice(0, MOST_CODES);
  }

  search.hits = {
    PERHAPS: PERHAPS, bestPlaces: bestPlaces, bestRank: bestRank, count: count, hits: hits, near: near, none: none
  };
})(globalThis);
