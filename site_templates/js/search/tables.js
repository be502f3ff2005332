/* The word lists of the normaliser. kbgen/search/tables.py holds the same lists and says what each is for. */
(function (root) {
  'use strict';

  var kbgen = (root.kbgen = root.kbgen || {});
  var search = (kbgen.search = kbgen.search || {});

  search.tables = {
    stop: (
      'and are be been did does had has have is it its my of should that the their there these they this those ' +
      'was we were will would you your'
    ).split(' '),
    weak: (
      'a after an as at but by can do for from how i if in just may or so still then to very what when which ' +
      'while why with'
    ).split(' '),
    not: (
      'arent cannot cant couldnt didnt doesnt dont hasnt havent isnt shouldnt wasnt werent wont wouldnt'
    ).split(' '),
    channel: 'axis ch channel unit'.split(' '),
    aboutCodes: (
      'again alarm code display error fault it message no nr number on panel say screen show shown the'
    ).split(' '),
    alike: { b: '8', i: '1', l: '1', o: '0', s: '5', z: '2' },
    letters: {
      'ß': 'ss', 'æ': 'ae', 'ð': 'd', 'ø': 'o', 'þ': 'th', 'đ': 'd', 'ħ': 'h', 'ı': 'i', 'ł': 'l', 'œ': 'oe',
      'ς': 'σ'
    },
    singular: {
      alias: 'alias', atlas: 'atlas', axes: 'axis', bias: 'bias', biases: 'bias', buses: 'bus', canvas: 'canvas',
      chaos: 'chaos', gases: 'gas', halves: 'half', knives: 'knife', lens: 'lens', lenses: 'lens',
      matrices: 'matrix', series: 'series', shelves: 'shelf', species: 'species', statuses: 'status',
      vertices: 'vertex'
    },
    units: {
      a: 'a', amp: 'a', ampere: 'a', bar: 'bar', c: 'c', centimeter: 'cm', centimetre: 'cm', cm: 'cm', db: 'db',
      decibel: 'db', deg: 'deg', degree: 'deg', f: 'f', g: 'g', gram: 'g', h: 'h', hertz: 'hz', hour: 'h', hr: 'h',
      hrs: 'h', hz: 'hz', inch: 'inch', kg: 'kg', khz: 'khz', kilogram: 'kg', kilohertz: 'khz', kiloohm: 'kohm',
      kilopascal: 'kpa', kilovolt: 'kv', kilowatt: 'kw', kohm: 'kohm', kpa: 'kpa', kv: 'kv', kva: 'kva', kw: 'kw',
      'kω': 'kohm', l: 'l', liter: 'l', litre: 'l', m: 'm', ma: 'ma', mbar: 'mbar', megaohm: 'mohm',
      megapascal: 'mpa', megohm: 'mohm', meter: 'm', metre: 'm', microamp: 'ua', microfarad: 'uf',
      micrometer: 'um', micrometre: 'um', micron: 'um', microsecond: 'us', milliamp: 'ma', milliampere: 'ma',
      millibar: 'mbar', milliliter: 'ml', millilitre: 'ml', millimeter: 'mm', millimetre: 'mm', milliohm: 'mohm',
      millisecond: 'ms', millivolt: 'mv', min: 'min', minute: 'min', ml: 'ml', mm: 'mm', mohm: 'mohm', mpa: 'mpa',
      ms: 'ms', mv: 'mv', 'mω': 'mohm', n: 'n', newton: 'n', nm: 'nm', ohm: 'ohm', pa: 'pa', pascal: 'pa',
      percent: 'percent', psi: 'psi', rpm: 'rpm', s: 's', sec: 's', second: 's', ua: 'ua', uf: 'uf', um: 'um',
      us: 'us', v: 'v', va: 'va', vac: 'vac', vdc: 'vdc', volt: 'v', w: 'w', watt: 'w', 'μa': 'ua', 'μf': 'uf',
      'μm': 'um', 'μs': 'us', 'ω': 'ohm'
    }
  };
})(globalThis);
