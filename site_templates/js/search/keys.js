/* The keyboard: arrows go through results or choices, Escape closes, goes back to the query, and then empties it. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var document = root.document;
  var STEPS = { ArrowDown: 1, ArrowUp: -1 };

  function isVisible(node) {
    return !node.hidden;
  }

  /* Where arrows lead from what has the focus; nowhere from a button. */
  function stops(view) {
    var open = view.openFilter();
    var all = open ? open.choices.filter(isVisible) : [view.input].concat(view.outcome.links());
    return all.includes(document.activeElement) ? all : [];
  }

  function move(view, by) {
    var all = stops(view);
    var next = all[Math.min(Math.max(all.indexOf(document.activeElement) + by, 0), all.length - 1)];
    next.focus();
  }

  function escape(view) {
    var open = view.openFilter();
    if (open) {
      open.open(false);
      open.opener.focus();
    } else if (document.activeElement === view.input) {
      view.ask('');
    } else {
      view.input.focus();
    }
  }

  function onKey(view, event) {
    if (event.isComposing || event.altKey || event.ctrlKey || event.metaKey) {
      return;
    }
    if (event.key === 'Escape') {
      event.preventDefault();
      escape(view);
    } else if (event.key in STEPS) {
      view.update();
      if (stops(view).length) {
        event.preventDefault();
        move(view, STEPS[event.key]);
      }
    }
  }

  search.keys = {
    start: function (view) { view.form.addEventListener('keydown', onKey.bind(null, view)); }
  };
})(globalThis);
