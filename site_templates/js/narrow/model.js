/* The data of a page -> what is calculated with. kbgen/narrowing/data.py writes it, model.py says what it means. */
(function (root) {
  'use strict';

  root.kbgen = root.kbgen || {};
  var narrow = root.kbgen.narrow = root.kbgen.narrow || {};

  function sum(numbers) {
    return numbers.reduce(function (whole, one) { return whole + one; }, 0);
  }

  function median(numbers, ifNone) {
    var ordered = numbers.slice().sort(function (a, b) { return a - b; });
    var middle = Math.floor(ordered.length / 2);
    if (!ordered.length) {
      return ifNone;
    }
    return ordered.length % 2 ? ordered[middle] : (ordered[middle - 1] + ordered[middle]) / 2;
  }

  function faultOf(row, hazards) {
    return {
      id: row[0], title: row[1], state: row[2],
      hazards: row[3].map(function (number) { return hazards[number]; }),
      times: row[4], timesCounted: Boolean(row[5]),
      causes: row[6].map(function (cause) { return { text: cause[0], weight: cause[1], cases: cause[2] }; })
    };
  }

  function lookOf(row, hazards) {
    return {
      fault: row[1], step: row[2], number: row[3], question: row[4],
      hazards: row[5].map(function (number) { return hazards[number]; }), doneBy: row[6]
    };
  }

  function chancesOf(row, faults) {
    var byCause = Array.isArray(row[2]) ? row[2] : faults[row[0]].causes.map(function () { return row[2]; });
    return { fault: row[0], given: Boolean(row[1]), byCause: byCause };
  }

  function observationOf(row, data, faults) {
    var asked = row[6];
    return {
      name: row[0], kind: row[1], text: row[2], also: row[3], display: row[4],
      otherwise: data.assumed.otherwise[row[1]],
      chances: row[5].map(function (one) { return chancesOf(one, faults); }),
      mayBeAsked: asked !== null,
      seconds: asked ? asked[0] : 0,
      look: asked && asked.length > 1 ? lookOf(asked, data.hazards) : null
    };
  }

  function priorOf(faults, usual) {
    var times = faults.map(function (fault) { return fault.times === null ? usual : fault.times; });
    var whole = sum(times);
    return faults.map(function (fault, number) {
      var total = sum(fault.causes.map(function (cause) { return cause.weight; }));
      return fault.causes.map(function (cause) { return times[number] / whole * (cause.weight / total); });
    });
  }

  /*
   * data: {assumed, words: [[least chance, word]], hazards: texts,
   *        faults: [[id, title, state, hazards, times a year or null, counted, [[cause, weight, cases]]]],
   *        observations: [[name, kind, text, other words, display, [[fault, given, chance or one for each cause]],
   *                        null or [seconds] or [seconds, fault, step, its number, question, hazards, done by]]]}
   */
  function load(data) {
    var faults = data.faults.map(function (row) { return faultOf(row, data.hazards); });
    var stated = faults.map(function (fault) { return fault.times; }).filter(function (one) { return one !== null; });
    return {
      assumed: data.assumed,
      words: data.words,
      faults: faults,
      observations: data.observations.map(function (row) { return observationOf(row, data, faults); }),
      prior: priorOf(faults, median(stated, data.assumed.timesIfNone))
    };
  }

  narrow.model = { load: load, sum: sum };
})(globalThis);
