/* The result -> nodes: the faults in order, and the card of the next question. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var nodes = narrow.nodes;
  var words = narrow.words;
  var NOTHING_TO_ASK = 'No further look tells enough to be worth its time. Open the procedure of the fault that fits ' +
    'best and work from its first step; if none fits, call for help.';
  var ANOTHER = 'Allowed for because no list is complete. Nothing is known of it, so its figure is assumed.';
  var ONLY_RECALL = 'Answer from what was noticed. Touch, open and start nothing to find out.';

  function bar(fault, ranked) {
    var filled = nodes.element('span', words.isCounted(fault) ? 'kb-nd-counted' : 'kb-nd-judged');
    filled.style.width = 100 * ranked.chance + '%';
    var range = nodes.element('span', 'kb-nd-range');
    range.style.left = 100 * ranked.range.low + '%';
    range.style.width = 100 * (ranked.range.high - ranked.range.low) + '%';
    var node = nodes.element('div', 'kb-nd-bar', [filled, range]);
    node.setAttribute('aria-hidden', 'true');
    return node;
  }

  function heading(fault, siteRoot) {
    if (!fault.id) {
      return nodes.element('h3', '', [fault.title]);
    }
    var link = nodes.link('kb-nd-open', siteRoot + 'procedure/' + fault.id + '.html', fault.title);
    return nodes.element('h3', '', [link]);
  }

  function chanceLine(ranked) {
    return nodes.element('p', 'kb-nd-chance', [
      nodes.element('strong', '', [ranked.words + ', ' + words.percent(ranked.chance)]), ' ' + words.between(ranked.range)
    ]);
  }

  function linesOf(one, ranked) {
    var cause = one.causes[ranked.cause].text + ' (' + words.percent(ranked.causeShare) + ' if it is this fault)';
    var hazards = one.hazards.length ? [nodes.labelled('Hazards:', one.hazards.join('; '))] : [];
    return [nodes.labelled('Likeliest cause:', cause)].concat(hazards, [
      nodes.labelled('Rests on:', words.groundsOf(one, ranked))
    ]);
  }

  function fault(model, ranked, siteRoot) {
    var one = model.faults[ranked.fault];
    var lines = [heading(one, siteRoot)];
    if (one.state) {
      lines.push(nodes.element('p', '', [nodes.element('strong', 'kb-badge', [one.state])]));
    }
    lines.push(chanceLine(ranked), bar(one, ranked));
    return nodes.element('li', 'kb-nd-fault', lines.concat(one.id ? linesOf(one, ranked) : [nodes.element('p', 'kb-nd-line', [ANOTHER])]));
  }

  function how(model, look, siteRoot) {
    var owner = model.faults[look.fault];
    var where = siteRoot + 'procedure/' + owner.id + '.html#step-' + look.step;
    return nodes.element('p', 'kb-nd-line', [
      nodes.element('strong', '', ['How: ']), look.question + ' ',
      nodes.link('', where, 'Step ' + look.number + ' of “' + owner.title + '”'),
      ', whose hazards, permissions and protective equipment hold for the look too.'
    ]);
  }

  function lookLines(model, look, siteRoot) {
    var lines = [how(model, look, siteRoot)];
    if (look.doneBy.length) {
      lines.push(nodes.labelled('Done by:', look.doneBy.join(' or ')));
    }
    if (look.hazards.length) {
      lines.push(nodes.labelled('Mind:', look.hazards.join('; ')));
    }
    return lines;
  }

  /* The card of the question that a result proposes. */
  function card(model, result, siteRoot, onPress) {
    if (!result.question) {
      return nodes.element('p', 'kb-nd-card', [NOTHING_TO_ASK]);
    }
    var observation = model.observations[result.question.observation];
    var asked = nodes.element('p', 'kb-nd-asked', [words.asks(observation)]);
    asked.id = 'nd-asked';
    asked.tabIndex = -1;
    var time = words.kind(observation) + ' · ' + words.minutes(result.question.seconds);
    var lines = [nodes.element('p', 'kb-nd-kind', [time]), asked];
    if (observation.look) {
      lines.push.apply(lines, lookLines(model, observation.look, siteRoot));
    } else if (observation.kind !== 'code') {
      lines.push(nodes.element('p', 'kb-nd-line', [ONLY_RECALL]));
    }
    lines.push(nodes.choices(onPress), nodes.labelled('Why this one:', words.why(model, result)));
    return nodes.group('kb-nd-card', asked, lines);
  }

  narrow.faults = { card: card, fault: fault };
})(globalThis);
