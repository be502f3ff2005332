/* Before anything is drawn: the colour scheme that was chosen on this tablet, or the system's. */
(function () {
  'use strict';
  var chosen = null;
  try {
    chosen = localStorage.getItem('kb-scheme');
  } catch (error) {
    chosen = null;
  }
  var dark = chosen ? chosen === 'slate' : window.matchMedia('(prefers-color-scheme: dark)').matches;
  document.body.setAttribute('data-md-color-scheme', dark ? 'slate' : 'default');
})();
