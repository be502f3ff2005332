/* Put into the page before its own scripts: when the first result is shown, and how long each key takes. */
(function (root) {
  'use strict';

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

  /* Milliseconds from each key of each text to the laid-out answer. */
  bench.type = async function type(texts) {
    var form = root.document.querySelector('[data-kb-search]');
    var input = form.querySelector('input');
    var times = [];
    for (var text of texts) {
      for (var length = 1; length <= text.length; length += 1) {
        input.value = text.slice(0, length);
        var before = root.performance.now();
        var answered = shown(form);
        input.dispatchEvent(new Event('input', { bubbles: true }));
        await answered;
        times.push(root.performance.now() - before);
        await pause(5);
      }
    }
    return times;
  };
})(globalThis);
