'use strict';

const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const { test } = require('node:test');
const vm = require('node:vm');

const templates = path.join(__dirname, '..', '..', 'site_templates', 'js');
for (const name of ['recent', 'search/tables', 'search/address', 'search/standing', 'search/near']) {
  const file = path.join(templates, name + '.js');
  vm.runInThisContext(fs.readFileSync(file, 'utf8'), { filename: file });
}
const { recent, search } = globalThis.kbgen;
const ASKED = { text: 'E-07/ch2 & “hot”', family: 'air-cooler', display: 'room-panel', near: 'dock-leveller' };

test('an address says the same when it is read again, behind ? and behind #', () => {
  const written = search.address.write(ASKED);
  assert.deepEqual(search.address.read('?' + written, ''), ASKED);
  assert.deepEqual(search.address.read('', '#' + written), ASKED);
});

test('nothing asked for leaves nothing in the address', () => {
  assert.equal(search.address.write({ text: '  ', family: '', display: '', near: '' }), '');
});

test('what stands behind # counts more, even if it is empty', () => {
  assert.equal(search.address.read('?q=ice', '#q=fan').text, 'fan');
  assert.equal(search.address.read('?q=ice', '#q=').text, '');
  assert.equal(search.address.read('?q=ice', '#kb-main').text, 'ice');
});

test('the name of a place asks for nothing', () => {
  assert.deepEqual(['#kb-main', '#q=ice', '', '#'].map(search.address.isPlace), [true, false, false, false]);
});

const STATES = {
  approved: { words: 'Approved', released: true, withdrawn: false },
  draft: { words: 'Draft: not released for work', released: false, withdrawn: false },
  withdrawn: { words: 'Withdrawn: do not use', released: false, withdrawn: true },
};
const LATE = search.standing.overdue({ '2026-03-01': 'a b', '2026-03-02': 'c' }, '2026-03-02');

test('a review is overdue on the day after it was due', () => {
  assert.deepEqual([...LATE], [['a', '2026-03-01'], ['b', '2026-03-01']]);
});

test('the date is that of the clock on the wall', () => {
  assert.equal(search.standing.dateOf(new Date(2026, 0, 5, 23, 59)), '2026-01-05');
});

test('what is not approved or overdue calls for attention', () => {
  const of = (state, href) => search.standing.standing({ state, href }, STATES, LATE);
  assert.deepEqual(of('approved', 'c'), { words: 'Approved', calls: false });
  assert.deepEqual(of('approved', 'a'), { words: 'Review overdue since 2026-03-01', calls: true });
  assert.deepEqual(of('draft', 'a'), { words: 'Draft: not released for work', calls: true });
  assert.equal(of('', 'part'), null);
});

test('withdrawn documents come last and keep their order', () => {
  const results = ['withdrawn', 'draft', 'withdrawn', '', 'approved'].map((state, n) => ({ entry: { state }, n }));
  assert.deepEqual(search.standing.withdrawnLast(results, STATES).map((one) => one.n), [1, 3, 4, 0, 2]);
});

/* The definition, spelt out: fewest edits, each of them one letter more, less or other, or two neighbours exchanged. */
function slowEdits(a, b) {
  if (!a.length || !b.length) {
    return a.length + b.length;
  }
  const exchanged = a.length > 1 && b.length > 1 && a[0] === b[1] && a[1] === b[0];
  return Math.min(
    slowEdits(a.slice(1), b) + 1,
    slowEdits(a, b.slice(1)) + 1,
    slowEdits(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1),
    exchanged ? slowEdits(a.slice(2), b.slice(2)) + 1 : Infinity,
  );
}

test('edits are counted as they are defined, up to the most that are wanted', () => {
  const words = ['', 'a', 'ab', 'ba', 'bab', 'abca', 'acba', 'caab', 'cabca', 'bbcaa'];
  for (const a of words) {
    for (const b of words) {
      const exact = slowEdits(a, b);
      for (const most of [0, 1, 2, 5]) {
        assert.equal(search.near.edits(a, b, most), exact <= most ? exact : Infinity, `${a}, ${b}, ${most}`);
      }
    }
  }
});

test('near words are the closest first, and then those that begin the same', () => {
  const known = ['compressor', 'compressed', 'condenser', 'fan', 'fen', 'e07'];
  assert.deepEqual(search.near.words(['conpresor'], known), ['compressor']);
  assert.deepEqual(search.near.words(['fon'], known), ['fan', 'fen']);
  assert.deepEqual(search.near.words(['e08', 'xx'], known), []);
  assert.deepEqual(search.near.words(['compost'], known), ['compressed', 'compressor']);
});

function item(name) {
  return { href: `procedure/${name}.html`, title: name };
}

function tablet() {
  const kept = new Map();
  return {
    localStorage: {
      getItem: (key) => (kept.has(key) ? kept.get(key) : null),
      setItem: (key, value) => kept.set(key, value),
      removeItem: (key) => kept.delete(key),
    },
  };
}

test('the procedure opened last comes first, each once, and no more than eight', () => {
  const list = recent.list(tablet(), '/site/');
  ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'd'].forEach((name) => list.add(item(name)));
  assert.equal(list.items().map((one) => one.title).join(''), 'dihgfecb');
  list.clear();
  assert.deepEqual(list.items(), []);
});

test('sites that share a storage keep their own lists', () => {
  const owner = tablet();
  recent.list(owner, '/one/').add(item('a'));
  assert.deepEqual(recent.list(owner, '/two/').items(), []);
});

test('what stands in the storage may be anything', () => {
  const texts = [null, '', '{', '7', '[null, 1, {}]', '[{"href": "javascript:alert(1)", "title": "x"}]',
    '[{"href": "procedure/../x.html", "title": "x"}]', '[{"href": "procedure/a.html", "title": 1}]'];
  assert.deepEqual(texts.flatMap(recent.parse), []);
  assert.deepEqual(recent.parse(JSON.stringify([item('a')])), [item('a')]);
});

test('a storage that is refused is an empty list', () => {
  const owner = { get localStorage() { throw new Error('refused'); } };
  const list = recent.list(owner, '/');
  list.add(item('a'));
  list.clear();
  assert.deepEqual(list.items(), []);
});
