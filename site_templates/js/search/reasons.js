/* Why an entry answers a query. kbgen/search/reasons.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var normalise = search.normalise;

  var MOST_LINES = 2;
  var LONG = 120, BEFORE = 5, AFTER = 12;

  function choose(matches, wanted) {
    function gain(match) {
      return search.spelling.bits(match.places & wanted);
    }
    var chosen = [];
    while (chosen.length < MOST_LINES) {
      var best = matches.reduce(function (a, b) { return (gain(b) - gain(a) || b.strength - a.strength) > 0 ? b : a; });
      if (!gain(best)) {
        break;
      }
      chosen.push(best);
      wanted &= ~best.places;
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

  /* [{kind, about, parts: [{text, marked}]}]; lines: those of the entry, covered: bits of the words that codes answer */
  function reasons(entry, lines, question, codePlaces, covered) {
    var byCode = codePlaces.map(function (place) {
      return search.lines.matched(search.lines.codeLine(entry.codes[place]), question);
    });
    var known = byCode.reduce(function (bits, match) { return bits | match.places; }, covered);
    var others = lines.map(function (one) { return search.lines.matched(one, question); });
    return byCode.map(function (match) { return reasonOf(match, true); })
      .concat(choose(others, search.question.neededIn(question) & ~known).map(function (match) {
        return reasonOf(match, false);
      }));
  }

  search.reasons = { reasons: reasons };
})(globalThis);
