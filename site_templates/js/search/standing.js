/* How a document stands: approved, not released, withdrawn, or with its review overdue. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  /* A date as the clock on the wall has it: YYYY-MM-DD. */
  function dateOf(moment) {
    var month = String(moment.getMonth() + 1).padStart(2, '0');
    return moment.getFullYear() + '-' + month + '-' + String(moment.getDate()).padStart(2, '0');
  }

  /* due: {date: addresses with spaces between}. Map of address -> the date by which its review was due. */
  function overdue(due, today) {
    var found = new Map();
    Object.keys(due).filter(function (date) { return date < today; }).forEach(function (date) {
      due[date].split(' ').forEach(function (href) { found.set(href, date); });
    });
    return found;
  }

  /* {words, calls: whether it must be noticed}; null for what is no document. late: as `overdue` returns it. */
  function standing(entry, states, late) {
    var known = states[entry.state];
    if (!known) {
      return null;
    }
    var since = known.released ? late.get(entry.href) : '';
    return since
      ? { words: 'Review overdue since ' + since, calls: true }
      : { words: known.words, calls: !known.released };
  }

  /* The same results with those of withdrawn documents last. */
  function withdrawnLast(results, states) {
    function isWithdrawn(result) {
      var known = states[result.entry.state];
      return Boolean(known) && known.withdrawn;
    }
    return results.filter(function (one) { return !isWithdrawn(one); }).concat(results.filter(isWithdrawn));
  }

  search.standing = { dateOf: dateOf, overdue: overdue, standing: standing, withdrawnLast: withdrawnLast };
})(globalThis);
