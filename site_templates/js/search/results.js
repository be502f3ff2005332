/* Search results -> nodes of a page. All text enters as text, never as markup. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;

  var BEFORE = {
    code: 'Code ', symptom: 'Symptom: ', also: 'Also described as: ', equipment: 'Equipment: ', display: 'Display: ',
    words: 'Mentions: '
  };
  var KINDS = { part: 'Spare part', tool: 'Tool' };
  var APPROVED = 'approved';

  function element(name, className, children) {
    var node = root.document.createElement(name);
    if (className) {
      node.className = className;
    }
    node.append.apply(node, children || []);
    return node;
  }

  function marked(parts) {
    return parts.map(function (part) {
      return part.marked ? element('mark', '', [part.text]) : part.text;
    });
  }

  function textOf(parts) {
    return parts.map(function (part) { return part.text; }).join('');
  }

  /* The text, with marks if it is itself one of the reasons. */
  function withMarks(text, kind, reasons) {
    var reason = reasons.find(function (one) {
      return one.kind === kind && textOf(one.parts) === text.normalize('NFC');
    });
    return reason ? marked(reason.parts) : [text];
  }

  function after(reason) {
    if (reason.kind === 'code') {
      return reason.about ? ' (' + reason.about + ')' : '';
    }
    return reason.kind === 'also' ? ' (symptom: ' + reason.about + ')' : '';
  }

  function reasonLine(reason) {
    return element('span', 'kb-result-reason', [BEFORE[reason.kind]].concat(marked(reason.parts), after(reason)));
  }

  function shownElsewhere(reason, entry) {
    return reason.kind === 'title' || reason.kind === 'hazard' ||
      (reason.kind === 'equipment' && textOf(reason.parts) === entry.equipment.normalize('NFC'));
  }

  function labelled(className, label, children) {
    return element('span', className, [element('strong', '', [label])].concat(children));
  }

  function hazardLine(entry, reasons) {
    var names = entry.hazards.flatMap(function (hazard, place) {
      return (place ? [', '] : []).concat(withMarks(hazard, 'hazard', reasons));
    });
    return labelled('kb-result-hazards', entry.hazards.length > 1 ? 'Hazards: ' : 'Hazard: ', names);
  }

  function linesOf(result) {
    var entry = result.entry;
    var lines = [element('span', 'kb-result-title', withMarks(entry.title, 'title', result.reasons))];
    if (entry.state && entry.state !== APPROVED) {
      lines.push(labelled('kb-result-state', 'Not approved: ', [entry.state]));
    }
    if (entry.equipment) {
      var kind = KINDS[entry.kind] ? [KINDS[entry.kind] + ', '] : [];
      lines.push(element('span', 'kb-result-equipment', kind.concat(withMarks(entry.equipment, 'equipment', result.reasons))));
    }
    result.reasons.forEach(function (reason) {
      if (!shownElsewhere(reason, entry)) {
        lines.push(reasonLine(reason));
      }
    });
    if (entry.hazards.length) {
      lines.push(hazardLine(entry, result.reasons));
    }
    return lines;
  }

  /* One list item; `siteRoot` leads from the page to the root of the site. */
  function item(result, siteRoot) {
    var link = element('a', 'kb-result', linesOf(result));
    link.href = siteRoot + result.entry.href;
    return element('li', '', [link]);
  }

  /* What the status line says of an answer to a text that asks for something. */
  function summary(answer, text) {
    if (!answer.total) {
      return 'Nothing found for “' + text.trim() + '”.';
    }
    if (answer.total > answer.results.length) {
      return 'The best ' + answer.results.length + ' of ' + answer.total + ' results. Add a word to narrow them down.';
    }
    return answer.total === 1 ? '1 result' : answer.total + ' results';
  }

  function hints() {
    return element('ul', 'kb-search-hints', [
      'Type the code exactly as the display shows it; spaces and hyphens make no difference.',
      'Say what you see, hear or smell, in fewer or other words.',
      'Try the name of the machine or of the part.'
    ].map(function (hint) { return element('li', '', [hint]); }));
  }

  search.results = { hints: hints, item: item, summary: summary };
})(globalThis);
