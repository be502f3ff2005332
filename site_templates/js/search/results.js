/* Search results -> nodes of a page. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var element = search.nodes.element;

  var BEFORE = {
    code: 'Code ', channel: 'Channel ', symptom: 'Symptom: ', also: 'Also described as: ', equipment: 'Equipment: ',
    display: 'Display: ', words: 'Mentions: '
  };
  var KINDS = { part: 'Spare part', tool: 'Tool' };

  function textOf(parts) {
    return parts.map(function (part) { return part.text; }).join('');
  }

  /* The text, with marks if it is itself one of the reasons. */
  function withMarks(text, kind, result, page) {
    var reason = result.reasons.find(function (one) {
      return one.kind === kind && textOf(one.parts) === text.normalize('NFC');
    });
    return reason ? search.nodes.marked(reason.parts, page.taken) : [text];
  }

  function after(reason) {
    if (reason.kind === 'code') {
      return reason.about ? ' (' + reason.about + ')' : '';
    }
    return reason.kind === 'also' ? ' (symptom: ' + reason.about + ')' : '';
  }

  /* What stands before a reason; the code of a part is its number. */
  function before(reason, entry) {
    return reason.kind === 'code' && entry.kind === 'part' ? 'Number ' : BEFORE[reason.kind];
  }

  function reasonLine(reason, entry, page) {
    var marked = search.nodes.marked(reason.parts, page.taken);
    return element('p', 'kb-result-reason', [before(reason, entry)].concat(marked, after(reason)));
  }

  function shownElsewhere(reason, entry) {
    return reason.kind === 'title' || reason.kind === 'hazard' ||
      (reason.kind === 'equipment' && textOf(reason.parts) === entry.equipment.normalize('NFC'));
  }

  /* The signal word on the colour of its panel, and what bites; as one text where words of it were asked for. */
  function hazard(line, result, page) {
    var known = page.signs[line];
    var marked = withMarks(line, 'hazard', result, page);
    var cut = line.indexOf(': ');
    var words = marked.length > 1 || cut < 0 ? marked
      : [element('strong', 'kb-result-word', [line.slice(0, cut)]), ' ' + line.slice(cut + 2)];
    var sign = known && known.sign ? [search.nodes.sign(known.sign)] : [];
    return element('li', known ? known.panel : '', sign.concat([element('span', '', words)]));
  }

  function hazards(result, page) {
    var items = result.entry.hazards.map(function (line) { return hazard(line, result, page); });
    var list = element('ul', 'kb-result-hazards', items);
    list.setAttribute('aria-label', 'Hazards');
    return list;
  }

  function standing(entry, page) {
    var found = search.standing.standing(entry, page.states, page.late);
    return found ? [element(found.calls ? 'strong' : 'span', found.calls ? 'kb-badge' : 'kb-result-fine', [found.words])] : [];
  }

  function facts(result, page) {
    var entry = result.entry;
    var kind = KINDS[entry.kind] ? [element('strong', '', [KINDS[entry.kind]])] : [];
    var equipment = entry.equipment ? [element('span', '', withMarks(entry.equipment, 'equipment', result, page))] : [];
    return element('p', 'kb-result-facts', kind.concat(equipment, standing(entry, page)));
  }

  function about(result, page) {
    var reasons = result.reasons.filter(function (reason) { return !shownElsewhere(reason, result.entry); });
    var lines = reasons.map(function (reason) { return reasonLine(reason, result.entry, page); });
    var below = result.entry.hazards.length ? [hazards(result, page)] : [];
    return element('div', 'kb-result-about', [facts(result, page)].concat(lines, below));
  }

  /*
   * One list item, of which the whole can be tapped; `id` is for what describes its link.
   * page: {home: leads to the root of the site, taken: Set of words taken for others, signs, states, late}
   */
  function item(result, page, id) {
    var link = element('a', 'kb-result-title', withMarks(result.entry.title, 'title', result, page));
    var rest = about(result, page);
    link.href = page.home + result.entry.href;
    link.setAttribute('aria-describedby', id);
    rest.id = id;
    return element('li', 'kb-result', [link, rest]);
  }

  function items(results, page, name) {
    return results.map(function (result, place) { return item(result, page, name + place); });
  }

  /* What the status line says. `within`: names of what narrows the results down; `first`: of what comes first among equals. */
  function summary(answer, text, within, first) {
    var scope = within.length ? ' for ' + within.join(', ') : '';
    if (!answer.total) {
      return 'Nothing found for “' + text.trim() + '”' + (within.length ? ', narrowed to ' + within.join(', ') : '') +
        '. What to try and whom to call stands below.';
    }
    var order = first && answer.total > 1 ? '. Where several fit equally, ' + first + ' comes first.' : '';
    if (answer.total > answer.results.length) {
      return 'The best ' + answer.results.length + ' of ' + answer.total + ' results' + scope +
        '. Add a word to narrow them down' + (order || '.');
    }
    return (answer.total === 1 ? '1 result' : answer.total + ' results') + scope + order;
  }

  /* [{typed, meant}] -> what was read in place of what was typed, or null. */
  function takenLine(corrected) {
    if (!corrected.length) {
      return null;
    }
    return corrected.flatMap(function (one, place) {
      var meant = one.meant.map(function (word) { return element('mark', 'kb-taken', [word]); });
      return (place ? ['; '] : []).concat(['“' + one.typed + '” read as '], meant.flatMap(function (node, at) {
        return at ? [' or ', node] : [node];
      }));
    });
  }

  search.results = { items: items, summary: summary, takenLine: takenLine };
})(globalThis);
