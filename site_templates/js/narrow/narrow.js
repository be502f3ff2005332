/* Model and answers -> the faults in order and the next question. kbgen/narrowing/narrow.py does the same. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var sum = narrow.model.sum;
  var steps = narrow.posterior.steps;

  function inWords(model, chance) {
    return model.words.find(function (pair) { return chance >= pair[0]; })[1];
  }

  function leadingCause(causes, chance) {
    return causes.reduce(function (best, one, cause) {
      return steps(one / (chance || 1)) > steps(causes[best] / (chance || 1)) ? cause : best;
    }, 0);
  }

  function ranked(model, answers, known, fault, casesBehind) {
    var chance = known.faults[fault];
    var cause = leadingCause(known.belief[fault], chance);
    return {
      fault: fault, chance: chance, words: inWords(model, chance),
      range: narrow.sureness.rangeOf(model, sum(model.prior[fault]), chance, casesBehind),
      cause: cause, causeShare: chance ? known.belief[fault][cause] / chance : 0,
      grounds: narrow.sureness.groundsOf(model, answers, fault)
    };
  }

  /* answers: Map of the place of an observation -> whether it is there; passedOver: Set of such places. */
  function result(model, answers, passedOver) {
    var known = narrow.posterior.posterior(model, answers);
    var sureness = narrow.sureness;
    var behindShares = sureness.effectiveCases(model, model.prior.map(sum), sureness.casesOfTimes);
    var order = known.faults.map(function (_, fault) { return fault; }).sort(function (a, b) {
      return steps(known.faults[b]) - steps(known.faults[a]) || a - b;
    });
    return {
      ranking: order.map(function (fault) { return ranked(model, answers, known, fault, behindShares); }),
      cases: sureness.effectiveCases(model, known.faults, sureness.casesOfWeights),
      counted: sureness.countedShare(model, known),
      question: narrow.question.next(model, known, answers, passedOver)
    };
  }

  narrow.result = result;
})(globalThis);
