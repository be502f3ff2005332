/* Answers -> how likely each cause of each fault is. kbgen/narrowing/posterior.py does the same and says why. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var sum = narrow.model.sum;
  var FINE = 1e9;

  /* Figures that come to the same number of steps count as equal, so that rounding decides nothing. */
  function steps(figure) {
    return Math.floor(figure * FINE + 0.5);
  }

  function updated(belief, observation, isThere) {
    var otherwise = isThere ? observation.otherwise : 1 - observation.otherwise;
    var joint = belief.map(function (causes) {
      return causes.map(function (one) { return one * otherwise; });
    });
    observation.chances.forEach(function (chances) {
      joint[chances.fault] = belief[chances.fault].map(function (one, cause) {
        return one * (isThere ? chances.byCause[cause] : 1 - chances.byCause[cause]);
      });
    });
    var whole = sum(joint.map(sum));
    return joint.map(function (causes) { return causes.map(function (one) { return one / whole; }); });
  }

  function chanceOf(observation, belief) {
    var rest = 1, named = 0;
    observation.chances.forEach(function (chances) {
      belief[chances.fault].forEach(function (one, cause) {
        rest -= one;
        named += one * chances.byCause[cause];
      });
    });
    return Math.max(rest, 0) * observation.otherwise + named;
  }

  /* answers: Map of the place of an observation -> whether it is there. */
  function posterior(model, answers) {
    var belief = model.prior;
    [...answers.keys()].sort(function (a, b) { return a - b; }).forEach(function (number) {
      belief = updated(belief, model.observations[number], answers.get(number));
    });
    return { belief: belief, faults: belief.map(sum) };
  }

  narrow.posterior = { chanceOf: chanceOf, posterior: posterior, steps: steps, updated: updated };
})(globalThis);
