/* Answers <-> the part of the address behind the #: yes=NAME,NAME&no=NAME&later=NAME. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var KEYS = ['yes', 'no', 'later'];

  function decoded(name) {
    try {
      return decodeURIComponent(name);
    } catch (malformed) {
      return name;
    }
  }

  /* given: Map of the place of an observation -> 'yes', 'no' or 'later'. */
  function write(model, given) {
    return KEYS.map(function (key) {
      var names = model.observations.filter(function (_, number) { return given.get(number) === key; });
      return names.length ? key + '=' + names.map(function (one) { return encodeURIComponent(one.name); }).join(',') : '';
    }).filter(Boolean).join('&');
  }

  /* {given, unknown: how many names stand for nothing here}; null where the text is no such address. */
  function read(model, text) {
    var parts = text.split('&').map(function (part) { return part.split('='); });
    if (text && !parts.every(function (pair) { return pair.length === 2 && KEYS.includes(pair[0]); })) {
      return null;
    }
    var places = new Map(model.observations.map(function (one, number) { return [one.name, number]; }));
    var given = new Map(), unknown = 0;
    (text ? parts : []).forEach(function (pair) {
      pair[1].split(',').map(decoded).forEach(function (name) {
        if (places.has(name)) {
          given.set(places.get(name), pair[0]);
        } else {
          unknown += 1;
        }
      });
    });
    return { given: given, unknown: unknown };
  }

  narrow.address = { read: read, write: write };
})(globalThis);
