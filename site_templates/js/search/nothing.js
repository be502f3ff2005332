/* What a page shows where nothing was found: near misses, and the way back out of the filters. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  function Nothing(place, page) {
    this.place = place;
    this.page = page;
  }

  Nothing.prototype.part = function (name) {
    return this.place.querySelector('[data-kb-' + name + ']');
  };

  Nothing.prototype.fill = function (name, nodes) {
    var part = this.part(name);
    part.hidden = !nodes.length;
    part.querySelector('[data-kb-items]').replaceChildren.apply(part.querySelector('[data-kb-items]'), nodes);
  };

  /*
   * found: {answer: what was found; elsewhere: number of results without the filters}
   * act: {clear: drops the filters, ask: asks for a word}
   */
  Nothing.prototype.show = function (found, act) {
    var elsewhere = this.part('elsewhere');
    elsewhere.hidden = !found.elsewhere;
    elsewhere.textContent = found.elsewhere === 1 ? 'Show the 1 result elsewhere' : 'Show the ' + found.elsewhere + ' results elsewhere';
    elsewhere.onclick = act.clear;
    this.fill('near-codes', search.results.items(found.answer.near, this.page, 'kb-near-'));
    this.showWords([], act);
    this.place.hidden = false;
  };

  Nothing.prototype.showWords = function (words, act) {
    this.fill('near-words', words.map(function (word) {
      return search.nodes.button('kb-choice', [word], function () { act.ask(word); });
    }));
  };

  Nothing.prototype.hide = function () {
    this.place.hidden = true;
  };

  search.nothing = { Nothing: Nothing };
})(globalThis);
