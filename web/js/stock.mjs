// What Sheet says of the stock: cautions, questions for the shop, and common practice.

import {byId} from './dom.mjs';
import {write} from './units.mjs';

const known = [...byId('stocks', HTMLDataListElement).options].map((option) => option.value);

// What to ask about a stock that is not among the usual ones, or has no name; '' for one that is.
/** @param {string} name */
export function doubt(name) {
  if (!name.trim()) return 'Say what the sheet is made of: the shop must know before it is cut.';
  if (known.some((each) => name.toLowerCase().includes(each.split(' ').pop() ?? each))) return '';
  return 'Ask the shop whether it cuts this stock, by its own material list and the maker’s safety data sheet. '
    + 'A plastic nobody can name is not for the laser.';
}

// How wide bridges should be for the sheet's thickness.
/** @param {number} thickness @param {number} bridge @param {Units} units */
export function advice(thickness, bridge, units) {
  /** @param {number} mm */
  const say = (mm) => `${write(mm, 'fine', units)} ${units}`;
  const twice = 2 * thickness;
  if (bridge < twice) {
    return `Common practice for the palette knife: no bridge under twice the sheet’s thickness, here ${say(twice)}.`;
  }

  return `Common practice: ${say(3)} under a palette knife, ${say(2)} under a brush; `
    + 'for the knife never under twice the thickness.';
}
