/* Procedures that were opened last on this tablet, newest first. A tablet that keeps nothing simply has none. */
(function (root) {
  'use strict';

  var kbgen = (root.kbgen = root.kbgen || {});
  var MOST = 8;
  var PROCEDURE = /^procedure\/[^/:?#\\]+\.html$/;

  /* Sites that are opened as folders share what a browser keeps, so each keeps its own list. `home`: address of its root. */
  function keyOf(home) {
    return 'kb-recent ' + home;
  }

  function isItem(item) {
    return Boolean(item) && typeof item.title === 'string' && typeof item.href === 'string' && PROCEDURE.test(item.href);
  }

  /* [{href, title}] out of a text that may be anything. */
  function parse(text) {
    try {
      var items = JSON.parse(text || '[]');
      return Array.isArray(items) ? items.filter(isItem).slice(0, MOST) : [];
    } catch (malformed) {
      return [];
    }
  }

  function added(items, item) {
    return [item].concat(items.filter(function (one) { return one.href !== item.href; })).slice(0, MOST);
  }

  /* Every touch of a storage may be refused: in a frame, in private windows, or when it is full. */
  function tried(act, otherwise) {
    try {
      return act();
    } catch (refused) {
      return otherwise;
    }
  }

  /* The list of a site. `owner`: the window, whose `localStorage` may throw already when it is looked at. */
  function list(owner, home) {
    var key = keyOf(home);
    function items() {
      return tried(function () { return parse(owner.localStorage.getItem(key)); }, []);
    }
    return {
      items: items,
      add: function (item) {
        tried(function () { owner.localStorage.setItem(key, JSON.stringify(added(items(), item))); });
      },
      clear: function () {
        tried(function () { owner.localStorage.removeItem(key); });
      }
    };
  }

  kbgen.recent = { added: added, keyOf: keyOf, list: list, parse: parse };
})(globalThis);
