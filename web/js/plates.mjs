// Plates, a stencil for each colour: what is asked where one does not hold, and what is said of those that were cut.

import {Declined} from './holding.mjs';
import {ask} from './notices.mjs';

// Asks the person where a plate does not hold, each looked at as a sheet of its own. Declining ends the work.
/** @param {PlateFile[]} plates */
export async function agreed(plates) {
  const failing = plates.filter(({sound}) => !sound);
  if (!failing.length) return;
  const yes = await ask({
    name: 'Not every plate holds', yes: 'Cut them all the same', no: 'Not now',
    lines: failing.map(({number, name, reasons}) => `Plate ${number}, ${name}: ${reasons.join(' ')}`),
  });
  if (!yes) throw new Declined();
}

// How the plates are laid, and which ties show as gaps in the paste; asked says that plates over ties were wanted.
/** @param {PlateFile[]} plates @param {boolean} asked */
export function toldOf(plates, asked) {
  const order = [...plates].sort((a, b) => a.lay - b.lay)
    .map(({number, name, over}) => `${number}, ${name}${over ? `, over the ties of ${over}` : ''}`).join('; ');
  const said = [`${plates.length} plates are in your downloads. Lay them in this order: ${order}.`];
  const bare = plates.filter(({ties}) => ties.bare).map(({number, ties}) => `${ties.bare} of plate ${number}`);
  if (bare.length) said.push(`Ties that show as gaps in the paste: ${bare.join(', ')}.`);
  if (bare.length && !asked) said.push('With “plates over ties” there are further plates that open them.');
  return said.join(' ');
}
