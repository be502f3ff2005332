/* On a procedure: note that it was opened on this tablet, also by a step back to it. */
(function (root) {
  'use strict';

  var head = root.document.querySelector('[data-kb-procedure]');

  function note() {
    var home = new URL(head.dataset.root || './', root.location.href).pathname;
    root.kbgen.recent.list(root, home).add({ href: head.dataset.kbProcedure, title: head.textContent.trim() });
  }

  if (head) {
    note();
    root.addEventListener('pageshow', function (event) {
      if (event.persisted) {
        note();
      }
    });
  }
})(globalThis);
