/* Which entries answer a question, the best first. kbgen/search/ranking.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var hits = search.hits;
  var bits = search.spelling.bits;

  var MOST_READ = 30, MOST_TYPED = 7;
  var WORDS = 32, RANKS = 8;
  var MAIN = new Set(['symptom', 'also', 'code', 'title']);
  var NO_CODE = hits.none();

  /* {scores, places: one number and one set of bits for each entry} */
  function texts(question, engine, size) {
    var found = { scores: new Float64Array(size), places: new Int32Array(size) };
    var best = new Float64Array(size);

    /* Each entry gets the most that one of the words weighs in it, unless its places are answered already. */
    function add(places, alternatives) {
      var touched = [];
      alternatives.forEach(function (weights) {
        weights.forEach(function (factor, word) {
          engine.weights(word, function (number, weight) {
            if (!best[number]) {
              touched.push(number);
            }
            best[number] = Math.max(best[number], factor * weight);
          });
        });
      });
      touched.forEach(function (number) {
        if ((found.places[number] & places) !== places) {
          found.places[number] |= places;
          found.scores[number] += best[number];
        }
        best[number] = 0;
      });
    }

    var single = new Map(question.meanings.filter(function (meaning) {
      return meaning.last - meaning.first === 1;
    }).map(function (meaning) { return [meaning.first, meaning.weights]; }));
    question.asked.forEach(function (asked, place) {
      add(1 << place, single.has(place) ? [asked.weights, single.get(place)] : [asked.weights]);
    });
    question.meanings.forEach(function (meaning) {
      if (meaning.last - meaning.first > 1) {
        add((1 << meaning.last) - (1 << meaning.first), [meaning.weights]);
      }
    });
    return found;
  }

  /* What decides before and after the lines are read, each as one number; more is better. */
  function rank(number, found, code, needed, view) {
    var places = found.places[number] | code.places;
    var best = code === NO_CODE ? 0 : hits.bestRank(code);
    var typed = code === NO_CODE ? 0 : Math.min(hits.count(code), MOST_TYPED);
    var first = (typed * RANKS + Math.max(best - hits.PERHAPS, 0)) * WORDS + search.ranking.coverage(places, needed);
    var isProcedure = number < view.firstAside ? 1 : 0;
    var inView = view.inView.has(number) ? 1 : 0;
    var then = ((best * 2 + isProcedure) * WORDS + bits(places & ~needed)) * 2 + inView;
    return { number: number, code: code, first: first, then: then, line: null, score: found.scores[number] };
  }

  function order(a, b) {
    return b.first - a.first || b.then - a.then || b.score - a.score || a.number - b.number;
  }

  /* The best of many, in order, without sorting the rest. */
  function selection(most) {
    var best = [];
    return {
      best: best,
      add: function (one) {
        if (best.length === most && order(one, best[most - 1]) > 0) {
          return;
        }
        var place = best.length;
        while (place && order(one, best[place - 1]) < 0) {
          place -= 1;
        }
        best.splice(place, 0, one);
        best.length = Math.min(best.length, most);
      }
    };
  }

  function coverage(places, needed) {
    return bits(places & needed);
  }

  /*
   * Calls visit(number) for every entry that answers the question, and returns those for which it says true:
   * {total, best: the first of them}. codes: as `hits` returns them. view: {firstAside, inView: Set of numbers}
   */
  function ranked(question, engine, size, codes, view, visit) {
    var found = texts(question, engine, size);
    var needed = search.question.neededIn(question);
    var most = 0;
    for (var number = 0; number < size; number += 1) {
      var places = found.places[number] | (codes.get(number) || NO_CODE).places;
      most = Math.max(most, bits(places & needed));
    }
    var selected = selection(MOST_READ);
    var total = 0;
    for (number = 0; number < size; number += 1) {
      var code = codes.get(number) || NO_CODE;
      var named = code !== NO_CODE && hits.bestRank(code) > hits.PERHAPS;
      if ((named || bits((found.places[number] | code.places) & needed) * 2 > most) && visit(number)) {
        total += 1;
        selected.add(rank(number, found, code, needed, view));
      }
    }
    return { total: total, best: selected.best };
  }

  /* Of two lines {answered: number of words, strength, main: 1 or 0, length}, the better comes first. */
  function lineOrder(a, b) {
    return b.answered - a.answered || b.strength - a.strength || b.main - a.main;
  }

  function bestLine(lines, question, needed) {
    return lines.reduce(function (best, line) {
      var match = search.lines.matched(line, question);
      var told = {
        answered: bits(match.places & needed), strength: match.strength, main: MAIN.has(line.kind) ? 1 : 0,
        length: match.places ? line.words.length : 0
      };
      return (lineOrder(told, best) || told.length - best.length) < 0 ? told : best;
    }, { answered: 0, strength: 0, main: 0, length: 0 });
  }

  /* linesOf: number of an entry -> its lines. Puts the best lines first among entries of equal rank. */
  function byLines(best, question, linesOf) {
    var needed = search.question.neededIn(question);
    best.forEach(function (one) { one.line = bestLine(linesOf(one.number), question, needed); });
    return best.sort(function (a, b) {
      return b.first - a.first || lineOrder(a.line, b.line) || b.then - a.then || a.line.length - b.line.length ||
        b.score - a.score || a.number - b.number;
    });
  }

  search.ranking = { byLines: byLines, coverage: coverage, ranked: ranked };
})(globalThis);
