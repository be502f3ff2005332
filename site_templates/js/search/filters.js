/* The two filters, by equipment and by display: each a button that opens its choices. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var ALL = '';

  /* place: the element that holds the button and its choices; `chosen` is called with a value after a tap. */
  function Filter(place, chosen) {
    this.opener = place.querySelector('[data-kb-open]');
    this.now = place.querySelector('[data-kb-now]');
    this.panel = place.querySelector('[data-kb-choices]');
    this.choices = Array.from(this.panel.querySelectorAll('button'));
    this.all = this.now.textContent;
    this.chosen = chosen;
    this.value = ALL;
  }

  Filter.prototype.choiceOf = function (value) {
    return this.choices.find(function (one) { return one.value === value; });
  };

  /* What stands in the data of a choice. */
  function told(choice, what) {
    return choice && choice.value ? choice.dataset[what] : '';
  }

  /* Values stand in addresses; the search and people know a choice by its name. */
  Filter.prototype.nameOf = function (value) {
    return told(this.choiceOf(value), 'kbName');
  };

  Filter.prototype.name = function () {
    return this.nameOf(this.value);
  };

  Filter.prototype.href = function () {
    return told(this.choiceOf(this.value), 'kbHref');
  };

  /* Takes a value of an address; one that this site does not have stands for all. */
  Filter.prototype.set = function (value) {
    this.value = this.choiceOf(value) ? value : ALL;
    this.now.textContent = this.name() || this.all;
    this.opener.classList.toggle('kb-filter-on', Boolean(this.value));
    this.choices.forEach(function (one) { one.setAttribute('aria-pressed', String(one.value === this.value)); }, this);
    return this.value;
  };

  /* counts: Map of the name of a choice -> number of results; null where nothing was asked yet. */
  Filter.prototype.count = function (counts) {
    this.choices.forEach(function (one) {
      if (one.value) {
        var number = counts ? counts.get(one.dataset.kbName) || 0 : Number(one.dataset.kbCount);
        one.querySelector('[data-kb-number]').textContent = number;
        one.hidden = !number && one.value !== this.value;
      }
    }, this);
  };

  Filter.prototype.open = function (isOpen) {
    this.opener.setAttribute('aria-expanded', String(isOpen));
    this.panel.hidden = !isOpen;
  };

  Filter.prototype.isOpen = function () {
    return !this.panel.hidden;
  };

  Filter.prototype.pick = function (value) {
    this.open(false);
    this.opener.focus();
    this.chosen(value);
  };

  Filter.prototype.start = function () {
    var filter = this;
    this.opener.addEventListener('click', function () { filter.open(!filter.isOpen()); });
    this.choices.forEach(function (one) {
      one.addEventListener('click', function () { filter.pick(one.value); });
    });
  };

  search.filters = { Filter: Filter };
})(globalThis);
