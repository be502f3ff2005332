/* Alarm codes: the keys a query asks for. kbgen/search/codes.py does the same, files the codes and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var LONGEST = 6;
  var CHUNK = new RegExp(normalise.ALNUM + '+', 'gu');
  var RUN = new RegExp('[0-9]+|(?:(?![0-9])' + normalise.ALNUM + ')+', 'gu');

  function isNumber(run) {
    return /^[0-9]/.test(run);
  }

  function allZeros(run) {
    return /^0+$/.test(run);
  }

  function base(code) {
    var parts = code.split(/[/#]/).map(function (part) { return part.trim(); });
    return parts.find(function (part) { return part; }) || '';
  }

  function runsOf(text) {
    return (normalise.composed(text).match(CHUNK) || []).flatMap(function (chunk) {
      return normalise.fold(chunk).match(RUN) || [];
    });
  }

  function spellings(runs) {
    if (!runs.length) {
      return new Set();
    }
    var apart = runs.map(function (run, place) {
      if (!isNumber(run)) {
        return run;
      }
      return (place && isNumber(runs[place - 1]) ? '.' : '') + (run.replace(/^0+/, '') || '0');
    }).join('');
    var together = runs.join('').replace(/(^|[^0-9])0+(?=[0-9])/g, '$1');
    var found = new Set([apart, together]);
    if (runs.length > 1 && allZeros(runs[0])) {
      spellings(runs.slice(1)).forEach(function (key) { found.add(key); });
    }
    return found;
  }

  function partial(runs) {
    var numbers = runs.filter(isNumber);
    if (!numbers.length || numbers.length === runs.length) {
      return new Set();
    }
    return new Set([...spellings(runs.slice(runs.findIndex(isNumber))), ...spellings(numbers)]);
  }

  /* {full, part}: sorted keys under which a stored code is found. */
  function keys(code) {
    var runs = runsOf(base(code));
    var full = spellings(runs);
    var part = [...partial(runs)].filter(function (key) { return !full.has(key); });
    return { full: [...full].sort(), part: part.sort() };
  }

  function candidate(chunks, whole) {
    var runs = chunks.flatMap(function (chunk) { return chunk.runs; });
    return {
      start: chunks[0].start,
      end: chunks[chunks.length - 1].end,
      keys: [...spellings(runs)].sort(),
      mixed: runs.some(isNumber) && !runs.every(isNumber),
      whole: whole
    };
  }

  function isPrefix(chunk) {
    return chunk.runs.length === 1 && !isNumber(chunk.runs[0]) && chunk.runs[0].length <= 2;
  }

  /* [{start, end, keys, mixed, whole}]: the stretches of a query that may be a code, the longest first. */
  function candidates(text) {
    var chunks = Array.from(normalise.composed(text).matchAll(CHUNK), function (match) {
      return { start: match.index, end: match.index + match[0].length, runs: runsOf(match[0]) };
    });
    var rootSize = (normalise.composed(base(text)).match(CHUNK) || []).length;
    var found = [];
    chunks.forEach(function (chunk, first) {
      if (first && isPrefix(chunks[first - 1]) && isNumber(chunk.runs[0])) {
        return;
      }
      for (var last = first + 1; last <= Math.min(first + LONGEST, chunks.length); last += 1) {
        found.push(candidate(chunks.slice(first, last), first === 0 && (last === rootSize || last === chunks.length)));
      }
    });
    return found.sort(function (a, b) { return (a.start - a.end) - (b.start - b.end) || a.start - b.start; });
  }

  /* What the keys of a code begin with when the text is the first part of that code, still being typed. */
  function beginnings(text) {
    var runs = runsOf(text);
    if (!runs.some(isNumber)) {
      return [];
    }
    while (runs.length && allZeros(runs[runs.length - 1])) {
      runs.pop();
    }
    return [...spellings(runs)].sort();
  }

  search.codes = { base: base, beginnings: beginnings, candidates: candidates, keys: keys };
})(globalThis);
