/* Alarm codes: the keys a query asks for. kbgen/search/codes.py does the same, files the codes and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var LONGEST = 6, LONG_ENOUGH = 4, LETTERS_ENOUGH = 2;
  var MARK = '~';
  var CHUNK = new RegExp(normalise.ALNUM + '+', 'gu');
  var RUN = new RegExp('[0-9]+|(?:(?![0-9])' + normalise.ALNUM + ')+', 'gu');
  var BEFORE_CHANNEL = /[/#]/;
  var TIGHT = /^[-.:]$/;
  var AMOUNT = /^[0-9]+[a-z]+$/;
  var channelWords = new Set(search.tables.channel);
  var aboutCodes = new Set(search.tables.aboutCodes);
  var alikes = search.tables.alike;

  function isNumber(run) {
    return /^[0-9]/.test(run);
  }

  function allZeros(run) {
    return /^0+$/.test(run);
  }

  function base(code) {
    var parts = code.split(BEFORE_CHANNEL).map(function (part) { return part.trim(); });
    return parts.find(function (part) { return part; }) || '';
  }

  function runsOf(text) {
    return (normalise.composed(text).match(CHUNK) || []).flatMap(function (chunk) {
      return normalise.fold(chunk).match(RUN) || [];
    });
  }

  /* All letters and digits of the base of a code, in lower case. */
  function raw(code) {
    return runsOf(base(code)).join('');
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

  function asDigits(text) {
    return text.replace(/[a-z]/g, function (letter) { return alikes[letter] || letter; });
  }

  function alikeSpellings(text) {
    return [...spellings(asDigits(text).match(RUN) || [])];
  }

  function without(keys, others) {
    return [...keys].filter(function (key) { return !others.some(function (other) { return other.has(key); }); }).sort();
  }

  /* {full, part, digits, alike}: sorted keys under which a stored code is found. */
  function keys(code) {
    var runs = runsOf(base(code));
    var text = runs.join('');
    var numbers = runs.filter(isNumber);
    var hasBoth = numbers.length > 0 && numbers.length < runs.length;
    var full = spellings(runs);
    var part = spellings(hasBoth ? runs.slice(runs.findIndex(isNumber)) : []);
    var alike = asDigits(text) === text ? [] : alikeSpellings(text);
    return {
      full: [...full].sort(),
      part: without(part, [full]),
      digits: without(spellings(hasBoth ? numbers : []), [part, full]),
      alike: alike.map(function (key) { return MARK + key; }).sort()
    };
  }

  function chunksOf(text) {
    var at = 0;
    return Array.from(text.matchAll(CHUNK), function (match) {
      var runs = runsOf(match[0]);
      var folded = runs.join('');
      var chunk = {
        start: match.index, end: match.index + match[0].length, runs: runs, gap: text.slice(at, match.index),
        folded: folded, hasDigit: runs.some(isNumber), namesChannel: channelWords.has(folded)
      };
      at = chunk.end;
      return chunk;
    });
  }

  function isPrefix(chunk) {
    return chunk.runs.length === 1 && !isNumber(chunk.runs[0]) && chunk.runs[0].length <= 2;
  }

  function isAttached(before, chunk) {
    return before.namesChannel ||
      (before.hasDigit && (TIGHT.test(chunk.gap) || /^[/#]$/.test(chunk.gap.trim())));
  }

  function isAside(chunks, place) {
    var chunk = chunks[place];
    var lettersOfCode = isPrefix(chunk) && place + 1 < chunks.length && chunks[place + 1].hasDigit;
    var about = aboutCodes.has(normalise.singular(chunk.folded)) || chunk.namesChannel;
    return chunk.hasDigit || lettersOfCode || about || BEFORE_CHANNEL.test(chunk.gap);
  }

  function alikeOf(inside, whole) {
    var text = inside.map(function (chunk) { return chunk.folded; }).join('');
    if (!whole && (inside.length > 1 || text.length < LONG_ENOUGH || AMOUNT.test(text))) {
      return [];
    }
    return alikeSpellings(text).flatMap(function (key) { return [key, MARK + key]; }).sort();
  }

  function candidate(chunks, first, last) {
    var inside = chunks.slice(first, last);
    var runs = inside.flatMap(function (chunk) { return chunk.runs; });
    var attached = first > 0 && isAttached(chunks[first - 1], chunks[first]);
    var whole = !attached && chunks.every(function (chunk, place) {
      return (place >= first && place < last) || isAside(chunks, place);
    });
    var alone = chunks.length === 1 && inside[0].folded.length >= LETTERS_ENOUGH;
    return {
      start: inside[0].start,
      end: inside[inside.length - 1].end,
      keys: [...spellings(runs)].sort(),
      alike: alone || runs.some(isNumber) ? alikeOf(inside, whole) : [],
      mixed: runs.some(isNumber) && !runs.every(isNumber),
      whole: whole,
      attached: attached
    };
  }

  /* [{start, end, keys, alike, mixed, whole, attached}]: the stretches of a query that may be a code, longest first. */
  function candidates(text) {
    var chunks = chunksOf(normalise.composed(text));
    var found = [];
    chunks.forEach(function (chunk, first) {
      if (first && isPrefix(chunks[first - 1]) && isNumber(chunk.runs[0])) {
        return;
      }
      for (var last = first + 1; last <= Math.min(first + LONGEST, chunks.length); last += 1) {
        if (last > first + 1 && BEFORE_CHANNEL.test(chunks[last - 1].gap)) {
          return;
        }
        found.push(candidate(chunks, first, last));
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

  search.codes = { MARK: MARK, base: base, beginnings: beginnings, candidates: candidates, keys: keys, raw: raw };
})(globalThis);
