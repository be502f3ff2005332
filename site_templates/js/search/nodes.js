/* Nodes of a page. All text enters as text, never as markup. */
(function (root) {
  'use strict';

  var search = root.kbgen.search;
  var SVG = 'http://www.w3.org/2000/svg';

  function element(name, className, children) {
    var node = root.document.createElement(name);
    if (className) {
      node.className = className;
    }
    node.append.apply(node, children || []);
    return node;
  }

  function button(className, children, press) {
    var node = element('button', className, children);
    node.type = 'button';
    node.addEventListener('click', press);
    return node;
  }

  /* A sign of the sheet that the page holds. */
  function sign(code) {
    var drawing = root.document.createElementNS(SVG, 'svg');
    var use = root.document.createElementNS(SVG, 'use');
    drawing.setAttribute('class', 'kb-sign');
    drawing.setAttribute('aria-hidden', 'true');
    drawing.setAttribute('viewBox', '0 0 48 48');
    use.setAttribute('href', '#kb-sign-' + code);
    drawing.append(use);
    return drawing;
  }

  /* parts: [{text, marked}]; words that were taken for others are marked in another way than those typed. */
  function marked(parts, taken) {
    return parts.map(function (part) {
      if (!part.marked) {
        return part.text;
      }
      var isTaken = search.normalise.terms(part.text).some(function (term) { return taken.has(term); });
      return element('mark', isTaken ? 'kb-taken' : '', [part.text]);
    });
  }

  search.nodes = { button: button, element: element, marked: marked, sign: sign };
})(globalThis);
