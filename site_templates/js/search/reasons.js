/* Why an entry answers a query. kbgen/search/reasons.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var MOST_LINES = 2;
  var LONG = 120, BEFORE = 5, AFTER = 12;

  function line(kind, text, about, head) {
    return { kind: kind, text: text, about: about || '', head: head || '' };
  }

  function codeLine(code) {
    return line('code', code.text, code.display, code.code);
  }

  function linesOf(entry) {
    var symptoms = entry.symptoms.flatMap(function (symptom) {
      return [line('symptom', symptom.text)].concat(symptom.also.map(function (text) {
        return line('also', text, symptom.text);
      }));
    });
    return symptoms.concat(
      entry.codes.map(codeLine),
      line('title', entry.title),
      line('equipment', entry.equipment),
      line('equipment', entry.family),
      entry.codes.map(function (code) { return line('display', code.display); }),
      line('words', entry.words),
      entry.hazards.map(function (hazard) { return line('hazard', hazard); }));
  }

  function matched(one, question) {
    var held = new Set(normalise.terms(one.text));
    var covered = new Set();
    var marked = new Set();
    question.asked.forEach(function (asked, place) {
      var own = asked.needed ? [...held].filter(function (word) { return asked.weights.has(word); }) : [];
      if (own.length) {
        covered.add(place);
        own.forEach(function (word) { marked.add(word); });
      }
    });
    question.meanings.forEach(function (meaning) {
      meaning.phrases.forEach(function (phrase) {
        if (phrase.every(function (word) { return held.has(word); })) {
          for (var place = meaning.first; place < meaning.last; place += 1) { covered.add(place); }
          phrase.forEach(function (word) { marked.add(word); });
        }
      });
    });
    var literal = question.asked.filter(function (asked) { return held.has(asked.word.term); }).length;
    return { line: one, covered: covered, literal: literal, marked: marked };
  }

  function gain(match, covered) {
    return [...match.covered].filter(function (place) { return !covered.has(place); }).length;
  }

  function choose(matches, covered) {
    var chosen = [];
    while (chosen.length < MOST_LINES) {
      var best = matches.reduce(function (a, b) {
        return (gain(b, covered) - gain(a, covered) || b.literal - a.literal) > 0 ? b : a;
      });
      if (!gain(best, covered)) {
        break;
      }
      chosen.push(best);
      covered = new Set([...covered, ...best.covered]);
    }
    return chosen;
  }

  /* From some words before the first marked one to some words after it: {first, last}. */
  function excerpt(text, found, marked) {
    if (text.length <= LONG) {
      return { first: 0, last: text.length };
    }
    var at = found.findIndex(function (word) { return marked.has(word.term); });
    return {
      first: at > BEFORE ? found[at - BEFORE].start : 0,
      last: at + AFTER < found.length ? found[at + AFTER].end : text.length
    };
  }

  function part(text, marked) {
    return { text: text, marked: marked };
  }

  function markedParts(text, marks, cut) {
    var parts = cut.first ? [part('… ', false)] : [];
    var at = cut.first;
    marks.forEach(function (mark) {
      if (mark.start >= at && mark.end <= cut.last) {
        parts.push(part(text.slice(at, mark.start), false), part(text.slice(mark.start, mark.end), true));
        at = mark.end;
      }
    });
    parts.push(part(text.slice(at, cut.last), false));
    if (cut.last < text.length) {
      parts.push(part(' …', false));
    }
    return parts.filter(function (one) { return one.text; });
  }

  function reasonOf(match, codeFound) {
    var one = match.line;
    var text = normalise.composed(one.text);
    var found = normalise.words(text);
    var cut = one.kind === 'words' ? excerpt(text, found, match.marked) : { first: 0, last: text.length };
    var marks = found.filter(function (word) { return match.marked.has(word.term); });
    var parts = markedParts(text, marks, cut);
    if (one.head && parts.length) {
      parts.unshift(part(': ', false));
    }
    if (one.head) {
      parts.unshift(part(one.head, codeFound));
    }
    return { kind: one.kind, about: one.about, parts: parts };
  }

  /* [{kind, about, parts: [{text, marked}]}] */
  function reasons(entry, question, codePlaces, covered) {
    var byCode = codePlaces.map(function (place) { return matched(codeLine(entry.codes[place]), question); });
    var known = new Set([...covered, ...byCode.flatMap(function (match) { return [...match.covered]; })]);
    var others = linesOf(entry).map(function (one) { return matched(one, question); });
    return byCode.map(function (match) { return reasonOf(match, true); })
      .concat(choose(others, known).map(function (match) { return reasonOf(match, false); }));
  }

  search.reasons = { reasons: reasons };
})(globalThis);
