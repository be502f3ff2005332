/* How sure a chance is. kbgen/narrowing/sureness.py does the same and says why. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var sum = narrow.model.sum;
  var ALMOST_ONE = 1 - 1e-12;

  function casesOfWeights(model, fault) {
    return Math.max(sum(fault.causes.map(function (cause) { return cause.cases; })), model.assumed.judgedCases);
  }

  function casesOfTimes(model, fault) {
    return fault.timesCounted ? casesOfWeights(model, fault) : model.assumed.judgedCases;
  }

  /* casesOf: gives for a model and a fault the cases behind its chance. */
  function effectiveCases(model, chances, casesOf) {
    return 1 / sum(chances.map(function (chance, number) {
      return chance * chance / casesOf(model, model.faults[number]);
    }));
  }

  function countedShare(model, known) {
    return sum(model.faults.map(function (fault, number) {
      return sum(fault.causes.map(function (cause, place) { return cause.cases ? known.belief[number][place] : 0; }));
    }));
  }

  function odds(chance) {
    var bounded = Math.min(chance, ALMOST_ONE);
    return bounded / (1 - bounded);
  }

  function chance(ofOdds) {
    return ofOdds / (1 + ofOdds);
  }

  function scoreInterval(model, share, cases) {
    var z = model.assumed.normalQuantile, square = z * z;
    var middle = share + square / (2 * cases);
    var half = z * Math.sqrt(share * (1 - share) / cases + square / (4 * cases * cases));
    var whole = 1 + square / cases;
    return [Math.max((middle - half) / whole, 0), Math.min((middle + half) / whole, 1)];
  }

  function rangeOf(model, before, after, cases) {
    if (before >= ALMOST_ONE) {
      return { low: after, high: after };
    }
    var bounds = scoreInterval(model, before, cases);
    var factor = odds(after) / odds(before);
    return {
      low: Math.min(chance(factor * odds(bounds[0])), after),
      high: Math.max(chance(factor * odds(bounds[1])), after)
    };
  }

  function groundsOf(model, answers, fault) {
    var given = [...answers.keys()].filter(function (number) {
      return model.observations[number].chances.some(function (one) { return one.given && one.fault === fault; });
    }).length;
    return { given: given, assumed: answers.size - given };
  }

  narrow.sureness = {
    casesOfTimes: casesOfTimes, casesOfWeights: casesOfWeights, countedShare: countedShare,
    effectiveCases: effectiveCases, groundsOf: groundsOf, rangeOf: rangeOf, scoreInterval: scoreInterval
  };
})(globalThis);
