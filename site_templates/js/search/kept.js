/* The address of this page, which keeps what is asked for. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  function isDone(change, url) {
    try {
      root.history[change](null, '', url);
      return true;
    } catch (refused) {
      return false;
    }
  }

  /*
   * Writes what is wanted into the address; `isStep` makes it a step that the back button takes back. Some browsers refuse
   * another query on file:// but not another place on the page, frames may refuse both, and some count the changes.
   */
  function keep(wanted, isStep) {
    var text = search.address.write(wanted);
    var change = isStep ? 'pushState' : 'replaceState';
    var url = new URL(root.location.href);
    url.hash = '';
    url.search = text;
    if (!isDone(change, url.href)) {
      isDone(change, '#' + (text || (root.location.search ? 'q=' : '')));
    }
  }

  function read() {
    return search.address.read(root.location.search, root.location.hash);
  }

  search.kept = { keep: keep, read: read };
})(globalThis);
