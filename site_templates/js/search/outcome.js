/* Shows what a query found: the status, how words were read, the results or the way on where there are none. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var SHORTEST = 2, WHILE_MS = 300;
  var SCREENFUL = 6;
  var MORE = 'Type the code, or a few words.';
  var NO_DATA = 'The search could not be loaded. Reload the page, or use the list of machines.';

  /* form: the form of the search; page: as `search.results` reads it. */
  function Outcome(form, page) {
    this.page = page;
    this.status = form.querySelector('.kb-search-status');
    this.line = form.querySelector('[data-kb-line]');
    this.list = form.querySelector('[data-kb-results]');
    this.timer = 0;
    this.nothing = new search.nothing.Nothing(form.querySelector('[data-kb-nothing]'), page);
  }

  Outcome.prototype.say = function (status, line, items) {
    this.status.textContent = status;
    this.line.hidden = !line;
    this.line.replaceChildren.apply(this.line, line || []);
    this.list.replaceChildren.apply(this.list, items.slice(0, SCREENFUL));
    this.rest = items.slice(SCREENFUL);
    if (this.rest.length) {
      root.requestAnimationFrame(this.showRest.bind(this, this.rest));
    }
    this.nothing.hide();
    root.clearTimeout(this.timer);
  };

  /* What lies below the screen is laid out after the screen was painted, unless it is not wanted any more. */
  Outcome.prototype.showRest = function (rest) {
    root.setTimeout(function () {
      if (this.rest === rest) {
        this.list.append.apply(this.list, rest);
      }
    }.bind(this), 0);
  };

  Outcome.prototype.links = function () {
    return Array.from(this.list.querySelectorAll('a'));
  };

  Outcome.prototype.notLoaded = function () {
    this.say(NO_DATA, null, []);
  };

  /* Nothing is asked for yet. filters: those that are on. */
  Outcome.prototype.waiting = function (filters) {
    var links = filters.map(function (filter) {
      var link = search.nodes.element('a', 'kb-go', ['All of ' + filter.name()]);
      link.href = filter.href();
      return link;
    });
    this.say('', links.length ? links : null, []);
  };

  function isShort(text) {
    return text.trim().length < SHORTEST || !search.normalise.terms(text).length;
  }

  function typedWords(text) {
    return search.normalise.words(text).map(function (word) { return word.term; });
  }

  /*
   * What was found. found: {answer: as `search.query` gives it; elsewhere: how many results the filters hide, where they
   * leave none; filters: those that are on; first: name of what comes first among equals; known: all words of the site}
   * act: {clear: drops the filters, ask: asks for a word}
   */
  Outcome.prototype.show = function (text, found, act) {
    var answer = found.answer;
    if (!answer.total && !found.elsewhere && isShort(text)) {
      this.say(MORE, null, []);
      return;
    }
    this.page.taken = new Set(answer.corrected.flatMap(function (one) { return one.meant; }));
    var names = found.filters.map(function (filter) { return filter.name(); });
    var results = search.standing.withdrawnLast(answer.results, this.page.states);
    this.say(search.results.summary(answer, text, names, found.first), search.results.takenLine(answer.corrected),
      search.results.items(results, this.page, 'kb-found-'));
    if (!answer.total) {
      this.showNothing(text, found, act);
    }
  };

  /* Near words are looked for a while after the last key, as that goes through all words of the site. */
  Outcome.prototype.showNothing = function (text, found, act) {
    var nothing = this.nothing;
    nothing.show(found, act);
    if (!found.elsewhere) {
      this.timer = root.setTimeout(function () {
        nothing.showWords(search.near.words(typedWords(text), found.known), act);
      }, WHILE_MS);
    }
  };

  search.outcome = { Outcome: Outcome };
})(globalThis);
