/* Put into the page before its own scripts: when the first result is shown, and how long the parts of a search take. */
(function (root) {
  'use strict';

  var BETWEEN_KEYS_MS = 120;
  var bench = (root.bench = { ready: 0 });

  new MutationObserver(function (changes, observer) {
    if (root.document.querySelector('.kb-results li')) {
      bench.ready = root.performance.now();
      observer.disconnect();
    }
  }).observe(root.document, { childList: true, subtree: true });

  function shown(form) {
    return new Promise(function (resolve) {
      new MutationObserver(function (changes, observer) {
        observer.disconnect();
        resolve(form.offsetHeight);
      }).observe(form, { childList: true, subtree: true, characterData: true });
    });
  }

  function pause(ms) {
    return new Promise(function (resolve) { root.setTimeout(resolve, ms); });
  }

  function begun(texts) {
    return texts.flatMap(function (text) {
      return Array.from(text, function (letter, at) { return text.slice(0, at + 1); });
    });
  }

  /* Milliseconds from each key of each text to the laid-out answer. */
  bench.keys = async function keys(texts) {
    var form = root.document.querySelector('[data-kb-search]');
    var input = form.querySelector('input');
    var times = [];
    for (var text of begun(texts)) {
      await pause(BETWEEN_KEYS_MS);
      input.value = text;
      var before = root.performance.now();
      var answered = shown(form);
      input.dispatchEvent(new Event('input', { bubbles: true }));
      await answered;
      times.push(root.performance.now() - before);
    }
    return times;
  };

  /* Milliseconds to read the data once more, from its script to a first answer; then for each key, the answer alone. */
  bench.engine = async function engine(texts) {
    var query = root.kbgen.search.query;
    var script = root.document.createElement('script');
    script.src = 'kbgen/search-data.js';
    var before = root.performance.now();
    await new Promise(function (resolve) {
      script.onload = resolve;
      root.document.head.append(script);
    });
    var loaded = query.load(root.kbgen.searchData);
    query.answer(loaded, texts[0]);
    var data = root.performance.now() - before;
    var answers = [];
    for (var text of begun(texts)) {
      await pause(0);
      before = root.performance.now();
      query.answer(loaded, text);
      answers.push(root.performance.now() - before);
    }
    return { data: data, answers: answers };
  };
})(globalThis);
