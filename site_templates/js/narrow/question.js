/* Which question tells most for the time it takes. kbgen/narrowing/question.py does the same and says why. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var sum = narrow.model.sum;
  var steps = narrow.posterior.steps;

  function entropy(chance) {
    if (chance <= 0 || chance >= 1) {
      return 0;
    }
    return -chance * Math.log2(chance) - (1 - chance) * Math.log2(1 - chance);
  }

  function information(observation, known) {
    var left = 0, rest = 1;
    observation.chances.forEach(function (chances) {
      var fault = known.faults[chances.fault];
      rest -= fault;
      if (fault > 0) {
        var there = sum(known.belief[chances.fault].map(function (one, cause) { return one * chances.byCause[cause]; }));
        left += fault * entropy(there / fault);
      }
    });
    left += Math.max(rest, 0) * entropy(observation.otherwise);
    return Math.max(entropy(narrow.posterior.chanceOf(observation, known.belief)) - left, 0);
  }

  function outlook(belief, observation, isThere) {
    var chances = narrow.posterior.updated(belief, observation, isThere).map(sum);
    var leading = chances.reduce(function (best, chance, fault) {
      return steps(chance) > steps(chances[best]) ? fault : best;
    }, 0);
    return { fault: leading, chance: chances[leading] };
  }

  function best(model, known, answers, passedOver) {
    var found = null;
    model.observations.forEach(function (observation, number) {
      if (!observation.mayBeAsked || answers.has(number) || passedOver.has(number)) {
        return;
      }
      var bits = information(observation, known);
      var rate = steps(60 * bits / observation.seconds);
      if (bits >= model.assumed.bitsWorthAsking && (!found || rate > found.rate)) {
        found = { observation: number, bits: bits, rate: rate };
      }
    });
    return found;
  }

  /* The open question that tells most per minute, or null; passedOver: Set of places of observations. */
  function next(model, known, answers, passedOver) {
    var found = best(model, known, answers, passedOver);
    if (!found) {
      return null;
    }
    var observation = model.observations[found.observation];
    return {
      observation: found.observation, bits: found.bits, seconds: observation.seconds,
      ifThere: outlook(known.belief, observation, true), ifNot: outlook(known.belief, observation, false)
    };
  }

  narrow.question = { entropy: entropy, information: information, next: next };
})(globalThis);
