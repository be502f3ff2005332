/* Nodes that several parts of the page are made of. All text enters as text, never as markup. */
(function (root) {
  'use strict';

  var narrow = root.kbgen.narrow;
  var CHOICES = [['yes', 'Yes'], ['no', 'No'], ['later', 'Not checked']];

  function element(name, className, children) {
    var node = root.document.createElement(name);
    if (className) {
      node.className = className;
    }
    node.append.apply(node, children || []);
    return node;
  }

  function labelled(label, text) {
    return element('p', 'kb-nd-line', [element('strong', '', [label + ' ']), text]);
  }

  function link(className, href, text) {
    var node = element('a', className, [text]);
    node.href = href;
    return node;
  }

  function button(value, text, onPress) {
    var node = element('button', 'kb-nd-button kb-nd-' + value, [text]);
    node.type = 'button';
    node.addEventListener('click', function () { onPress(value); });
    return node;
  }

  /* The three buttons of a question; onPress is given 'yes', 'no' or 'later'. */
  function choices(onPress) {
    return element('div', 'kb-nd-choices', CHOICES.map(function (one) { return button(one[0], one[1], onPress); }));
  }

  /* Marks which of the three buttons holds; the tick shows it where colours do not. */
  function press(row, answer) {
    row.querySelectorAll('.kb-nd-button').forEach(function (node, place) {
      var held = CHOICES[place][0] === answer;
      node.setAttribute('aria-pressed', String(held));
      node.textContent = CHOICES[place][1];
      if (held) {
        var tick = element('span', 'kb-nd-tick', ['✓ ']);
        tick.setAttribute('aria-hidden', 'true');
        node.prepend(tick);
      }
    });
  }

  function group(className, label, children) {
    var node = element('div', className, children);
    node.setAttribute('role', 'group');
    node.setAttribute('aria-labelledby', label.id);
    return node;
  }

  function title(observation) {
    return observation.display ? observation.display + ' shows ' + observation.text : observation.text;
  }

  /* A code or symptom of the list. */
  function row(observation, number, onPress) {
    var label = element('p', 'kb-nd-label', [title(observation)]);
    label.id = 'nd-seen-' + number;
    if (observation.also.length) {
      label.append(element('span', 'kb-nd-also', ['also: ' + observation.also.join(', ')]));
    }
    return group('kb-nd-row', label, [label, choices(onPress)]);
  }

  narrow.nodes = {
    button: button, choices: choices, element: element, group: group, labelled: labelled, link: link, press: press, row: row
  };
})(globalThis);
