/* What is asked for <-> the address: ?q=TEXT&family=NAME&display=NAME&near=NAME, or the same behind a #. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var KEYS = { q: 'text', family: 'family', display: 'display', near: 'near' };

  function params(hash) {
    return new URLSearchParams(hash.replace(/^#/, ''));
  }

  function asks(found) {
    return Object.keys(KEYS).some(function (key) { return found.has(key); });
  }

  /* Whether what stands behind the # is the name of a place on the page, so that nothing is asked for by it. */
  function isPlace(hash) {
    return hash.length > 1 && !asks(params(hash));
  }

  /* {text, family, display, near}; what stands behind the # counts more, as some addresses keep only that up to date. */
  function read(query, hash) {
    var behind = params(hash);
    var found = asks(behind) ? behind : new URLSearchParams(query);
    var wanted = {};
    Object.keys(KEYS).forEach(function (key) { wanted[KEYS[key]] = found.get(key) || ''; });
    return wanted;
  }

  /* The part of the address behind ? or #; empty if nothing is asked for. */
  function write(wanted) {
    var found = new URLSearchParams();
    Object.keys(KEYS).forEach(function (key) {
      var value = wanted[KEYS[key]].trim();
      if (value) {
        found.set(key, value);
      }
    });
    return found.toString();
  }

  search.address = { isPlace: isPlace, read: read, write: write };
})(globalThis);
