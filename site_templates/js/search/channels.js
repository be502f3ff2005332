/* Which axis, unit or channel a query names beside a code. kbgen/search/channels.py does the same and says why. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var codes = search.codes;

  var ALNUM = search.normalise.ALNUM;
  var words = search.tables.channel.slice().sort(function (a, b) { return b.length - a.length || (a < b ? -1 : 1); });
  var AFTER = new RegExp(
    '[ ]*([-/#:.]|[ ])[ ]*(?:(?:' + words.join('|') + ')[.]?[ ]*)?(' + ALNUM + '+)(?!' + ALNUM + ')', 'iuy');
  var BEFORE = new RegExp('(?<!' + ALNUM + ')(' + ALNUM + '+)[-/#:. ]+$', 'u');

  function serving(mark, display, channels) {
    var asked = new Set(codes.keys(mark).full);
    return channels.filter(function (channel) {
      return channel.display === display && codes.keys(channel.mark).full.some(function (key) { return asked.has(key); });
    }).map(function (channel) { return channel.serves; });
  }

  /* {mark, serves}: as typed, and what it serves; both empty if none is named. channels: [{display, mark, serves}] */
  function named(text, code, display, channels) {
    var whole = search.normalise.composed(text);
    AFTER.lastIndex = code.end;
    var after = AFTER.exec(whole);
    var before = BEFORE.exec(whole.slice(0, code.start));
    var marks = (after ? [after[2]] : []).concat(before ? [before[1]] : []);
    for (var mark of marks) {
      var serves = serving(mark, display, channels).join('; ');
      if (serves) {
        return { mark: mark, serves: serves };
      }
    }
    return { mark: after && /[/#]/.test(after[1]) ? marks[0] : '', serves: '' };
  }

  search.channels = { named: named };
})(globalThis);
