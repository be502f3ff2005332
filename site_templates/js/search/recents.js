/* The list of procedures that were opened last on this tablet. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  function item(home, one) {
    var link = search.nodes.element('a', '', [search.nodes.element('strong', '', [one.title])]);
    link.href = home + one.href;
    return search.nodes.element('li', '', [link]);
  }

  /* Fills `place` now, when the page is shown again, and when another page of the site changes the list. */
  function start(place, home) {
    var list = root.kbgen.recent.list(root, new URL(home || './', root.location.href).pathname);
    var rows = place.querySelector('[data-kb-items]');
    function show() {
      var items = list.items();
      place.hidden = !items.length;
      rows.replaceChildren.apply(rows, items.map(item.bind(null, home)));
    }
    place.querySelector('[data-kb-forget]').addEventListener('click', function () {
      list.clear();
      show();
      root.document.getElementById('kb-q').focus();
    });
    root.addEventListener('pageshow', show);
    root.addEventListener('storage', show);
    show();
  }

  search.recents = { start: start };
})(globalThis);
