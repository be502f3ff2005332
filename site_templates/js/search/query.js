/* The query. kbgen/search/query.py gives the same results in the same order for the same reasons, and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var MOST_RESULTS = 20, MOST_NEAR = 5, MOST_KEPT = 2000;

  /* A number stands for the text at that place of the shared ones. */
  function withShared(row, shared) {
    return row.map(function (one) {
      return Array.isArray(one) ? withShared(one, shared) : typeof one === 'number' ? shared[one] : one;
    });
  }

  function entryOf(row) {
    return {
      href: row[0], kind: row[1], title: row[2], equipment: row[3], family: row[4],
      codes: row[5].map(function (code) { return { code: code[0], display: code[1], text: code[2] }; }),
      symptoms: row[6].map(function (texts) { return { text: texts[0], also: texts.slice(1) }; }),
      words: row[7], state: row[8], hazards: row[9]
    };
  }

  function keptLines(entry) {
    var kept = new Map();
    return function linesOf(number) {
      if (!kept.has(number)) {
        if (kept.size >= MOST_KEPT) {
          kept.clear();
        }
        kept.set(number, search.lines.linesOf(entry(number)));
      }
      return kept.get(number);
    };
  }

  function groupsOf(named) {
    return new Map(named.map(function (one) { return [one[0], search.packed.climb(one[1])]; }));
  }

  /*
   * data: {entries: rows as `entryOf` reads them, one JSON text a line, shared: texts of many rows, firstAside: number of the first that is no
   *        procedure, codes: packed table {key: [entry, code, strength, entry, code, strength, ...]},
   *        engine: packed index, synonyms: groups of phrases, each a list of words, channels: [[display, mark, serves]],
   *        families and displays: [[name, packed steps of the numbers of entries]]}
   */
  function load(data) {
    var rows = data.entries ? data.entries.split('\n') : [];
    var entry = function (number) { return entryOf(withShared(JSON.parse(rows[number]), data.shared)); };
    var book = search.packed.table(data.codes);
    return {
      size: rows.length,
      entry: entry,
      linesOf: keptLines(entry),
      firstAside: data.firstAside,
      book: { table: book, codeOf: function (number, place) { return entry(number).codes[place].code; } },
      channels: data.channels.map(function (row) { return { display: row[0], mark: row[1], serves: row[2] }; }),
      families: groupsOf(data.families),
      displays: groupsOf(data.displays),
      lexicon: search.question.loadLexicon(search.engine.load(data.engine), data.synonyms)
    };
  }

  function channelReasons(loaded, entry, question, hit) {
    return search.hits.bestPlaces(hit).filter(function (place) {
      return hit.ranks.get(place) > search.hits.PERHAPS;
    }).flatMap(function (place) {
      var display = entry.codes[place].display;
      var named = search.channels.named(question.text, hit.stretches.get(place), display, loaded.channels);
      var told = named.serves ? [{ text: ': ' + named.serves, marked: false }] : [];
      return named.mark ?
        [{ kind: 'channel', about: display, parts: [{ text: named.mark, marked: true }].concat(told) }] : [];
    });
  }

  function resultOf(loaded, question, one) {
    var entry = loaded.entry(one.number);
    var because = search.reasons.reasons(
      entry, loaded.linesOf(one.number), question, search.hits.bestPlaces(one.code), one.code.places);
    return { entry: entry, reasons: because.concat(channelReasons(loaded, entry, question, one.code)) };
  }

  function correctedIn(question) {
    var text = search.normalise.composed(question.text);
    return question.asked.filter(function (asked) { return asked.corrected; }).map(function (asked) {
      return { typed: text.slice(asked.word.start, asked.word.end), meant: asked.forms };
    });
  }

  function countsOf(groups, answering) {
    return [...groups].map(function (group) {
      return [group[0], group[1].reduce(function (sum, number) { return sum + answering[number]; }, 0)];
    }).filter(function (one) { return one[1]; });
  }

  /* The entries of a group as a set, those of a group that is not there as an empty one. */
  function setOf(groups, name) {
    return new Set(groups.get(name) || []);
  }

  function near(loaded, question) {
    return search.hits.near(loaded.book, question).slice(0, MOST_NEAR).map(function (one) {
      var entry = loaded.entry(one[0]);
      var code = entry.codes[one[1]];
      return { entry: entry, reasons: [{ kind: 'code', about: code.display, parts: [{ text: code.code, marked: true }] }] };
    });
  }

  /*
   * scope: {family, display: leave all others out, inView: family that comes first of equals}; each may be missing.
   * {total, results: [{entry, reasons}] the best first, corrected: [{typed, meant: [words]}],
   *  families, displays: [[name, entries that it would leave]], near: results if nothing at all was found}
   */
  function answer(loaded, text, scope) {
    var wanted = scope || {};
    var question = search.question.understand(text, loaded.lexicon);
    var codes = search.hits.hits(loaded.book, question, loaded.lexicon);
    var view = { firstAside: loaded.firstAside, inView: setOf(loaded.families, wanted.inView) };
    var family = wanted.family ? setOf(loaded.families, wanted.family) : null;
    var display = wanted.display ? setOf(loaded.displays, wanted.display) : null;
    var answering = new Uint8Array(loaded.size);
    var found = search.ranking.ranked(question, loaded.lexicon.engine, loaded.size, codes, view, function (number) {
      answering[number] = 1;
      return (!family || family.has(number)) && (!display || display.has(number));
    });
    var best = search.ranking.byLines(found.best, question, loaded.linesOf).slice(0, MOST_RESULTS);
    return {
      total: found.total,
      results: best.map(function (one) { return resultOf(loaded, question, one); }),
      corrected: correctedIn(question),
      families: countsOf(loaded.families, answering),
      displays: countsOf(loaded.displays, answering),
      near: answering.includes(1) ? [] : near(loaded, question)
    };
  }

  search.query = { answer: answer, load: load };
})(globalThis);
