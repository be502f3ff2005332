/* Figures of a result -> what the page says. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var FEW = 10, MANY = 100;
  var NOTHING_COUNTED = 0.005;

  function percent(chance) {
    if (chance < 0.01) {
      return 'under 1 %';
    }
    return chance > 0.99 ? 'over 99 %' : Math.round(100 * chance) + ' %';
  }

  function percentNumber(chance) {
    return String(Math.round(100 * chance));
  }

  function between(range) {
    return '(between ' + percentNumber(range.low) + ' and ' + percentNumber(range.high) + ' %)';
  }

  function minutes(seconds) {
    if (seconds < 60) {
      return 'under a minute';
    }
    return 'about ' + Math.round(seconds / 60) + ' min';
  }

  function jobs(cases) {
    var number = Math.round(cases);
    return number + (number === 1 ? ' closed job' : ' closed jobs');
  }

  function amount(cases) {
    if (cases < FEW) {
      return 'few';
    }
    return cases < MANY ? 'some' : 'many';
  }

  function isCounted(fault) {
    return fault.timesCounted && countedJobs(fault) > 0;
  }

  /* On what the whole ranking rests. */
  function restsOn(result) {
    if (result.counted < NOTHING_COUNTED) {
      return 'The causes are all judged; no closed jobs were counted.';
    }
    return percent(result.counted) + ' of this lies on causes that were counted, in effect on ' + jobs(result.cases) + ' (' +
      amount(result.cases) + '); the rest is judged.';
  }

  function countedJobs(fault) {
    return narrow.model.sum(fault.causes.map(function (cause) { return cause.cases; }));
  }

  function often(fault) {
    if (fault.times === null) {
      return 'how often it comes up is not given';
    }
    return 'comes up ' + fault.times + (fault.times === 1 ? ' time' : ' times') + ' a year (' +
      (fault.timesCounted ? 'counted' : 'judged') + ')';
  }

  /* On what the figure of one fault rests. */
  function groundsOf(fault, ranked) {
    var cases = countedJobs(fault), grounds = ranked.grounds;
    var causes = cases ? 'Causes counted on ' + jobs(cases) : 'Causes judged';
    var answers = grounds.given + grounds.assumed;
    var chances = answers ? '; of your answers, ' + grounds.given + ' with a chance from its author, ' +
      grounds.assumed + ' with one assumed here' : '';
    return causes + '; ' + often(fault) + chances + '.';
  }

  function statement(model, result, answered) {
    var first = result.ranking[0];
    var title = model.faults[first.fault].title;
    return (answered ? '' : 'Nothing answered yet. ') + first.words + ', ' + percent(first.chance) + ': ' + title;
  }

  function outlook(model, before, after, answer) {
    var title = '“' + model.faults[after.fault].title + '”';
    var now = before.find(function (one) { return one.fault === after.fault; }).chance;
    var from = percent(now), to = percent(after.chance);
    return 'If ' + answer + ', ' + title + ' leads: ' + (from === to ? 'still ' + to : to + ' instead of ' + from) + '.';
  }

  /* Why a question is proposed. */
  function why(model, result) {
    var question = result.question;
    return outlook(model, result.ranking, question.ifThere, 'yes') + ' ' +
      outlook(model, result.ranking, question.ifNot, 'no') + ' No other question tells more per minute (' +
      question.bits.toFixed(2) + ' bit in ' + minutes(question.seconds) + ').';
  }

  /* What is to be done to answer: nothing but to look at the machine as it stands. */
  function kind(observation) {
    if (observation.kind === 'code') {
      return 'Look at the display';
    }
    return observation.look ? 'Look from outside' : 'Ask the operator, or recall';
  }

  function asks(observation) {
    return observation.kind === 'code' ?
      'Does the ' + observation.display + ' show ' + observation.text + '?' : 'Is this so: ' + observation.text + '?';
  }

  narrow.words = {
    asks: asks, between: between, groundsOf: groundsOf, isCounted: isCounted, kind: kind, minutes: minutes, percent: percent, restsOn: restsOn, statement: statement, why: why
  };
})(globalThis);
