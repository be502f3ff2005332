/* What every page does: switch between light and dark, tell overdue reviews, follow addresses that have moved. */
(function () {
  'use strict';

  function switchScheme() {
    var button = document.querySelector('[data-kb-scheme]');
    if (!button) return;
    function show() {
      var dark = document.body.getAttribute('data-md-color-scheme') === 'slate';
      button.textContent = dark ? 'Light' : 'Dark';
      button.setAttribute('aria-label', dark ? 'Switch to light colours' : 'Switch to dark colours');
    }
    button.hidden = false;
    show();
    button.addEventListener('click', function () {
      var next = document.body.getAttribute('data-md-color-scheme') === 'slate' ? 'default' : 'slate';
      document.body.setAttribute('data-md-color-scheme', next);
      try {
        localStorage.setItem('kb-scheme', next);
      } catch (error) {
        /* a tablet that keeps nothing starts in the system's scheme again */
      }
      show();
    });
  }

  function today() {
    var now = new Date();
    var month = String(now.getMonth() + 1).padStart(2, '0');
    return now.getFullYear() + '-' + month + '-' + String(now.getDate()).padStart(2, '0');
  }

  function tellOverdue() {
    document.querySelectorAll('[data-kb-due][data-kb-state="approved"]').forEach(function (element) {
      if (element.getAttribute('data-kb-due') >= today()) return;
      element.classList.add('kb-overdue');
      var where = element.querySelector('.kb-due') || element.lastElementChild || element;
      var badge = document.createElement('strong');
      badge.className = 'kb-badge';
      badge.textContent = 'Review overdue';
      where.append(' ', badge);
    });
  }

  function followMoved() {
    var name = decodeURIComponent(location.hash.slice(1));
    var link = document.querySelector('[data-kb-moved]');
    if (!link) return;
    var targets = JSON.parse(link.getAttribute('data-kb-moved'));
    var known = Object.prototype.hasOwnProperty.call(targets, name) ? targets[name] : null;
    var whole = link.getAttribute('href');
    location.replace(known || (whole.indexOf('#') < 0 && name ? whole + '#' + name : whole));
  }

  function openForPrint() {
    document.querySelectorAll('details').forEach(function (element) {
      if (!element.classList.contains('kb-outline')) element.open = true;
    });
  }

  /* The search that is opened from a page about some equipment puts that first where several results fit equally. */
  function keepInView() {
    var about = document.querySelector('[data-kb-family]');
    var links = about ? document.querySelectorAll('.kb-nav a[href$="index.html"]') : [];
    links.forEach(function (link) {
      link.search = new URLSearchParams({ near: about.getAttribute('data-kb-family') });
    });
  }

  switchScheme();
  tellOverdue();
  followMoved();
  keepInView();
  window.addEventListener('beforeprint', openForPrint);
})();
