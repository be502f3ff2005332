/* Wires the search form of a page: results as one types, filters, keyboard, and an address that keeps all of it. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var document = root.document;
  var LONGEST_REST_MS = 400;
  var NONE = { due: {}, signs: {}, states: {} };

  function View(form, data) {
    this.form = form;
    this.input = form.querySelector('input');
    this.emptier = form.querySelector('[data-kb-empty]');
    this.clearer = form.querySelector('[data-kb-clear]');
    this.filters = {};
    form.querySelectorAll('[data-kb-filter]').forEach(function (place) {
      var name = place.dataset.kbFilter;
      this.filters[name] = new search.filters.Filter(place, this.narrow.bind(this, name));
    }, this);
    this.wanted = { text: '', family: '', display: '', near: '' };
    this.timer = 0;
    this.free = 0;
    this.outcome = new search.outcome.Outcome(form, {
      home: form.dataset.root, taken: new Set(), signs: data.signs, states: data.states,
      late: search.standing.overdue(data.due, search.standing.dateOf(new Date()))
    });
  }

  View.prototype.loaded = function () {
    if (!this.data && root.kbgen.searchData && root.kbgen.findingData) {
      this.data = search.query.load(root.kbgen.searchData);
      root.kbgen.searchData = null;
    }
    return this.data;
  };

  View.prototype.filtersOn = function () {
    return Object.values(this.filters).filter(function (filter) { return filter.value; });
  };

  View.prototype.openFilter = function () {
    return Object.values(this.filters).find(function (filter) { return filter.isOpen(); });
  };

  View.prototype.find = function (family, display) {
    var inView = this.filters.family.nameOf(this.wanted.near);
    return search.query.answer(this.data, this.wanted.text, { family: family, display: display, inView: inView });
  };

  View.prototype.answer = function () {
    var on = this.filtersOn(), family = this.filters.family;
    var answer = this.find(family.name(), this.filters.display.name());
    family.count(new Map(answer.families));
    this.filters.display.count(new Map(answer.displays));
    this.outcome.show(this.wanted.text, {
      answer: answer,
      elsewhere: !answer.total && on.length ? this.find('', '').total : 0,
      filters: on,
      first: family.value ? '' : family.nameOf(this.wanted.near),
      known: this.data.lexicon.engine.words
    }, { clear: this.clearFilters.bind(this), ask: this.askFor.bind(this) });
  };

  /* Shows what is wanted now. */
  View.prototype.show = function () {
    this.emptier.hidden = !this.wanted.text;
    this.clearer.hidden = !this.filtersOn().length;
    if (!this.wanted.text.trim()) {
      Object.values(this.filters).forEach(function (filter) { filter.count(null); });
      this.outcome.waiting(this.filtersOn());
    } else if (this.loaded()) {
      this.answer();
    } else {
      this.outcome.notLoaded();
    }
  };

  /* Takes what the input holds now. */
  View.prototype.update = function () {
    root.clearTimeout(this.timer);
    if (this.input.value === this.wanted.text) {
      return;
    }
    var started = root.performance.now();
    this.wanted.text = this.input.value;
    this.show();
    search.kept.keep(this.wanted, false);
    var ended = root.performance.now();
    this.free = ended + Math.min(ended - started, LONGEST_REST_MS);
  };

  /* A key is answered at once, but after each answer as long a rest is kept, so that keys get through in between. */
  View.prototype.later = function () {
    root.clearTimeout(this.timer);
    this.timer = root.setTimeout(this.update.bind(this), Math.max(0, this.free - root.performance.now()));
  };

  View.prototype.narrow = function (name, value) {
    this.update();
    this.wanted[name] = this.filters[name].set(value);
    this.show();
    search.kept.keep(this.wanted, true);
  };

  View.prototype.clearFilters = function () {
    this.wanted.family = this.filters.family.set('');
    this.wanted.display = this.filters.display.set('');
    this.show();
    search.kept.keep(this.wanted, true);
    this.filters.family.opener.focus();
  };

  View.prototype.ask = function (text) {
    this.input.value = text;
    this.update();
  };

  View.prototype.empty = function () {
    this.ask('');
    this.input.focus();
  };

  View.prototype.askFor = function (word) {
    this.ask(word);
    this.outcome.list.focus();
  };

  View.prototype.takeAddress = function () {
    this.wanted = search.kept.read();
    this.input.value = this.wanted.text;
    Object.keys(this.filters).forEach(function (name) {
      this.wanted[name] = this.filters[name].set(this.wanted[name]);
    }, this);
    this.show();
  };

  /* A step back to a place on this page changes nothing of what is wanted. */
  View.prototype.onStep = function () {
    if (!search.address.isPlace(root.location.hash)) {
      this.takeAddress();
    }
  };

  View.prototype.start = function () {
    var typed = this.input.value; // before this script was there; it counts more than the address
    search.keys.start(this);
    this.form.addEventListener('submit', this.onSubmit.bind(this));
    this.input.addEventListener('input', this.later.bind(this));
    this.emptier.addEventListener('click', this.empty.bind(this));
    this.clearer.addEventListener('click', this.clearFilters.bind(this));
    root.addEventListener('popstate', this.onStep.bind(this));
    Object.values(this.filters).forEach(function (filter) { filter.start(); });
    this.form.querySelector('[data-kb-filters]').hidden = false;
    this.takeAddress();
    if (typed) {
      this.ask(typed);
    }
    root.setTimeout(this.loaded.bind(this), 0);
  };

  View.prototype.onSubmit = function (event) {
    event.preventDefault();
    this.update();
    var first = this.outcome.links()[0];
    if (first) {
      first.click();
    }
  };

  function start() {
    document.querySelectorAll('[data-kb-search]').forEach(function (form) { new View(form, root.kbgen.findingData || NONE).start(); });
    document.querySelectorAll('[data-kb-recent]').forEach(function (place) { search.recents.start(place, place.dataset.root); });
  }

  start(); // the form stands before this script; what follows on the page need not be waited for
})(globalThis);
