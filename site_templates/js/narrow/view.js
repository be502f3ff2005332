/* Wires the page: answers change the ranking, the next question and the address. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var nodes = narrow.nodes;
  var document = root.document;
  var FAULTS_SHOWN = 5, SEEN_SHOWN = 12;

  function View(place, data) {
    this.place = place;
    this.siteRoot = place.dataset.root;
    this.model = narrow.model.load(data);
    this.given = new Map();
    this.rows = new Map();
    this.faultsShown = FAULTS_SHOWN;
    this.seenShown = SEEN_SHOWN;
    this.order = this.mostTellingFirst();
  }

  View.prototype.part = function (name) {
    return this.place.querySelector('[data-nd-' + name + ']');
  };

  /* The order of the list is made once, so that nothing moves away under a finger. */
  View.prototype.mostTellingFirst = function () {
    var model = this.model;
    var known = narrow.posterior.posterior(model, new Map());
    var bits = model.observations.map(function (one) {
      return narrow.posterior.steps(narrow.question.information(one, known));
    });
    return bits.map(function (_, number) { return number; }).sort(function (a, b) { return bits[b] - bits[a] || a - b; });
  };

  View.prototype.answers = function () {
    var told = [...this.given].filter(function (pair) { return pair[1] !== 'later'; });
    return new Map(told.map(function (pair) { return [pair[0], pair[1] === 'yes']; }));
  };

  View.prototype.passedOver = function () {
    var given = this.given;
    return new Set([...given.keys()].filter(function (number) { return given.get(number) === 'later'; }));
  };

  View.prototype.keepInAddress = function () {
    var hash = '#' + narrow.address.write(this.model, this.given);
    try {
      root.history.replaceState(root.history.state, '', hash);
    } catch (refused) {
      root.location.hash = hash;
    }
  };

  View.prototype.answer = function (number, answer) {
    this.given.set(number, answer);
    this.keepInAddress();
    this.show();
  };

  View.prototype.answerQuestion = function (number, answer) {
    this.answer(number, answer);
    var next = document.getElementById('nd-asked') || this.part('question-head');
    next.focus({ preventScroll: true });
  };

  View.prototype.showFaults = function () {
    var model = this.model, siteRoot = this.siteRoot, ranking = this.result.ranking;
    this.part('faults').replaceChildren.apply(this.part('faults'), ranking.slice(0, this.faultsShown).map(function (one) {
      return narrow.faults.fault(model, one, siteRoot);
    }));
    this.part('more-faults').hidden = ranking.length <= this.faultsShown;
    this.part('rests-on').textContent = narrow.words.restsOn(this.result);
    this.part('none-fits').hidden = Boolean(model.faults[ranking[0].fault].id);
    this.part('status').textContent = narrow.words.statement(model, this.result, this.answers().size > 0);
  };

  View.prototype.showQuestion = function () {
    var question = this.result.question;
    var card = narrow.faults.card(this.model, this.result, this.siteRoot, function (answer) {
      this.answerQuestion(question.observation, answer);
    }.bind(this));
    this.part('question').replaceChildren(card);
  };

  View.prototype.row = function (number) {
    if (!this.rows.has(number)) {
      this.rows.set(number, nodes.row(this.model.observations[number], number, this.answer.bind(this, number)));
    }
    return this.rows.get(number);
  };

  View.prototype.wanted = function () {
    var model = this.model;
    var words = this.part('find').value.toLowerCase().split(/\s+/).filter(Boolean);
    return this.order.filter(function (number) {
      var one = model.observations[number];
      var text = [one.display, one.text].concat(one.also).join(' ').toLowerCase();
      return words.every(function (word) { return text.includes(word); });
    });
  };

  View.prototype.showSeen = function () {
    var wanted = this.wanted(), given = this.given;
    var shown = wanted.slice(0, this.seenShown);
    this.part('seen').replaceChildren.apply(this.part('seen'), shown.map(this.row, this));
    shown.forEach(function (number) { nodes.press(this.row(number), given.get(number) || 'later'); }, this);
    this.part('more').hidden = wanted.length <= this.seenShown;
    this.part('none').hidden = wanted.length > 0;
  };

  View.prototype.show = function () {
    this.result = narrow.result(this.model, this.answers(), this.passedOver());
    this.showFaults();
    this.showQuestion();
    this.rows.forEach(function (row, number) { nodes.press(row, this.given.get(number) || 'later'); }, this);
    this.part('clear').hidden = !this.given.size;
  };

  View.prototype.take = function (read) {
    this.given = read.given;
    this.part('unknown').hidden = !read.unknown;
    this.order.sort(function (a, b) { return read.given.has(b) - read.given.has(a); });
    this.show();
    this.showSeen();
  };

  View.prototype.answersInAddress = function () {
    return narrow.address.read(this.model, root.location.hash.slice(1));
  };

  /* An address that names no answers, as that of a heading, changes nothing. */
  View.prototype.onNewAddress = function () {
    var read = this.answersInAddress();
    if (read) {
      this.take(read);
    }
  };

  View.prototype.clear = function () {
    this.given = new Map();
    this.keepInAddress();
    this.show();
    this.part('question-head').focus();
  };

  View.prototype.onPress = function (name, act) {
    this.part(name).addEventListener('click', act.bind(this));
  };

  View.prototype.start = function () {
    this.onPress('more-faults', function () { this.faultsShown += 20; this.showFaults(); });
    this.onPress('more', function () { this.seenShown += 40; this.showSeen(); });
    this.onPress('clear', this.clear);
    this.onPress('go', function () { this.part('faults-head').focus(); });
    this.part('find').addEventListener('input', this.showSeen.bind(this));
    root.addEventListener('hashchange', this.onNewAddress.bind(this));
    this.take(this.answersInAddress() || { given: new Map(), unknown: 0 });
    this.place.hidden = false;
  };

  var place = document.querySelector('[data-kb-narrow]');
  if (place && root.kbgen.narrowData) {
    new View(place, root.kbgen.narrowData).start();
  }
})(globalThis);
