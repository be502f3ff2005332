/* The lines of an entry, and how far each answers a question. kbgen/search/lines.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  function line(kind, text, about, head) {
    return { kind: kind, text: text, about: about || '', head: head || '', words: search.normalise.terms(text) };
  }

  function codeLine(code) {
    return line('code', code.text, code.display, code.code);
  }

  /* [{kind, text, about, head, words}], those that tell most about a match first */
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
      entry.words.map(function (text) { return line('words', text); }),
      entry.hazards.map(function (hazard) { return line('hazard', hazard); }));
  }

  function countsOf(words) {
    var counts = new Map();
    words.forEach(function (word) { counts.set(word, (counts.get(word) || 0) + 1); });
    return counts;
  }

  function take(left, word) {
    left.set(word, left.get(word) - 1);
  }

  /* The word left over that comes nearest, the first in the alphabet of equals. */
  function nearestLeft(left, weights) {
    var best = '';
    left.forEach(function (count, word) {
      var weight = count > 0 ? weights.get(word) || 0 : 0;
      var most = weights.get(best) || 0;
      if (weight > most || (weight && weight === most && word < best)) {
        best = word;
      }
    });
    return best;
  }

  /* Calls answer(place, word, weight); each word of the line answers one word of the query, the same one first. */
  function eachAnswer(words, question, answer) {
    var left = countsOf(words);
    var later = [];
    var places = [...question.asked.keys()];
    var isNeeded = function (place) { return question.asked[place].needed; };
    var isNot = function (place) { return !question.asked[place].needed; };
    places.filter(isNeeded).concat(places.filter(isNot)).forEach(function (place) {
      var asked = question.asked[place];
      var term = asked.word.term;
      if (left.get(term) > 0 && asked.weights.has(term)) {
        take(left, term);
        answer(place, term, asked.weights.get(term));
      } else {
        later.push(place);
      }
    });
    later.forEach(function (place) {
      var weights = question.asked[place].weights;
      var word = nearestLeft(left, weights);
      if (word) {
        take(left, word);
        answer(place, word, weights.get(word));
      }
    });
  }

  function sum(numbers) {
    return numbers.reduce(function (all, number) { return all + number; }, 0);
  }

  /* {line, places: bits of the words answered, strength, marked: Set of words of the line} */
  function matched(one, question) {
    var strengths = question.asked.map(function () { return 0; });
    var marked = new Set();
    eachAnswer(one.words, question, function (place, word, weight) {
      strengths[place] = weight;
      if (question.asked[place].needed) {
        marked.add(word);
      }
    });
    question.meanings.forEach(function (meaning) {
      meaning.phrases.forEach(function (phrase) {
        if (phrase.every(function (word) { return one.words.includes(word); })) {
          phrase.forEach(function (word) { marked.add(word); });
          for (var place = meaning.first; place < meaning.last; place += 1) {
            strengths[place] = Math.max(strengths[place], search.question.SYNONYM);
          }
        }
      });
    });
    var places = strengths.reduce(function (bits, weight, place) { return weight ? bits | 1 << place : bits; }, 0);
    return { line: one, places: places, strength: sum(strengths), marked: marked };
  }

  search.lines = { codeLine: codeLine, linesOf: linesOf, matched: matched };
})(globalThis);
