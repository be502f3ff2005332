/* What the scripts say to answers by name ("yes", "no" or "later"). */
'use strict';

const { narrow } = require('./kbgen.js');

function answered(model, given) {
  const place = (name) => model.observations.findIndex((one) => one.name === name);
  const places = Object.entries(given).map(([name, answer]) => [place(name), answer]);
  const answers = new Map(places.filter(([, a]) => a !== 'later').map(([number, a]) => [number, a === 'yes']));
  const passedOver = new Set(places.filter(([, a]) => a === 'later').map(([number]) => number));
  return narrow.result(model, answers, passedOver);
}

module.exports = { answered };
