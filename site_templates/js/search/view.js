/* Wires the search form of a page: results as one types, keyboard, and the query kept in the address. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var document = root.document;
  var PAUSE_MS = 80;
  var SHORTEST = 2;
  var MORE = 'Type the code, or a few words.';
  var NO_DATA = 'The search could not be loaded. Reload the page, or use the list of machines.';

  function queryInAddress() {
    var hash = new URLSearchParams(root.location.hash.slice(1));
    return new URLSearchParams(root.location.search).get('q') || hash.get('q') || '';
  }

  function replaceAddress(url) {
    try {
      root.history.replaceState(root.history.state, '', url);
      return true;
    } catch (refused) {
      return false;
    }
  }

  /* Some browsers refuse another query on file://, and some count how often the address changes. */
  function keepInAddress(text) {
    var url = new URL(root.location.href);
    if (queryInAddress() === text) {
      return;
    }
    url.hash = '';
    url.searchParams.delete('q');
    if (text) {
      url.searchParams.set('q', text);
    }
    if (!replaceAddress(url.href)) {
      replaceAddress(text ? '#' + new URLSearchParams({ q: text }) : '#');
    }
  }

  function View(form) {
    this.form = form;
    this.input = form.querySelector('input');
    this.status = form.querySelector('.kb-search-status');
    this.list = form.querySelector('.kb-results');
    this.hints = search.results.hints();
    this.hints.hidden = true;
    this.list.after(this.hints);
    this.siteRoot = form.dataset.root || './';
    this.shown = null;
    this.timer = 0;
  }

  View.prototype.links = function () {
    return Array.from(this.list.querySelectorAll('a'));
  };

  View.prototype.loaded = function () {
    if (!this.data && root.kbgen.searchData) {
      this.data = search.query.load(root.kbgen.searchData);
      root.kbgen.searchData = null;
    }
    return this.data;
  };

  View.prototype.show = function (status, items, nothing) {
    this.status.textContent = status;
    this.list.replaceChildren.apply(this.list, items);
    this.hints.hidden = !nothing;
  };

  View.prototype.answer = function (text) {
    var answer = search.query.answer(this.loaded(), text);
    var siteRoot = this.siteRoot;
    var nothing = !answer.total;
    var short = text.trim().length < SHORTEST || !search.normalise.terms(text).length;
    if (nothing && short) {
      this.show(MORE, [], false);
      return;
    }
    var status = search.results.summary(answer, text) +
      (nothing && this.form.dataset.nothing ? ' ' + this.form.dataset.nothing : '');
    this.show(status, answer.results.map(function (result) { return search.results.item(result, siteRoot); }), nothing);
  };

  /* Shows the answer to what the input holds now. */
  View.prototype.update = function () {
    var text = this.input.value;
    root.clearTimeout(this.timer);
    if (text === this.shown) {
      return;
    }
    this.shown = text;
    if (!text.trim()) {
      this.show('', [], false);
    } else if (this.loaded()) {
      this.answer(text);
    } else {
      this.show(NO_DATA, [], false);
    }
    keepInAddress(text.trim());
  };

  View.prototype.later = function () {
    root.clearTimeout(this.timer);
    this.timer = root.setTimeout(this.update.bind(this), PAUSE_MS);
  };

  View.prototype.clear = function () {
    this.input.value = '';
    this.update();
    this.input.focus();
  };

  View.prototype.move = function (by) {
    var stops = [this.input].concat(this.links());
    var place = stops.indexOf(document.activeElement);
    var next = stops[Math.min(Math.max(place + by, 0), stops.length - 1)];
    next.focus();
  };

  View.prototype.onKey = function (event) {
    if (event.isComposing || event.altKey || event.ctrlKey || event.metaKey) {
      return;
    }
    var steps = { ArrowDown: 1, ArrowUp: -1 };
    if (event.key === 'Escape') {
      event.preventDefault();
      this.clear();
    } else if (event.key in steps) {
      event.preventDefault();
      this.update();
      this.move(steps[event.key]);
    }
  };

  View.prototype.onSubmit = function (event) {
    event.preventDefault();
    this.update();
    var first = this.links()[0];
    if (first) {
      first.click();
    }
  };

  /* What was typed before this script was there counts more than the address. */
  View.prototype.start = function () {
    this.form.addEventListener('keydown', this.onKey.bind(this));
    this.form.addEventListener('submit', this.onSubmit.bind(this));
    this.input.addEventListener('input', this.later.bind(this));
    if (!this.input.value) {
      this.input.value = queryInAddress();
    }
    this.update();
    root.setTimeout(this.loaded.bind(this), 0);
  };

  function start() {
    document.querySelectorAll('[data-kb-search]').forEach(function (form) { new View(form).start(); });
  }

  if (document.readyState === 'loading') {
    document.addEventListener('DOMContentLoaded', start);
  } else {
    start();
  }
})(globalThis);
