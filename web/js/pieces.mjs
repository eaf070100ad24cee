// What a tracing leaves to say and to choose: which of its pieces are meant, and what would close its lines.

import {measure} from './units.mjs';

const SHARE = 0.1; // pieces at least this part of the largest are taken unless the person says otherwise
const TABLE = 0.005; // of the picture: a piece so large within it is the drawing, and what runs over the edge is not

// Which pieces are taken before the person says so: the largest and what is near it in size. A piece that runs over the
// picture's edge is the table or a shadow, where something within the picture is large enough to be the drawing.
/** @param {Traced} value */
export function usuallyTaken({list, width, height}) {
  const within = list.filter(({edge, area}) => !edge && area >= TABLE * width * height);
  const meant = within.length ? within : list;
  const largest = Math.max(...meant.map(({area}) => area));
  return list.map((piece) => meant.includes(piece) && piece.area >= SHARE * largest);
}

// What would close the gaps that are numbered on the picture, a sentence each.
/** @param {LineGap[]} gaps @param {Units} units */
export function openGaps(gaps, units) {
  return gaps.map(({width, closes}, i) => `Gap ${i + 1} is ${measure(width, units, 'fine')} wide; `
    + `it closes with ${measure(closes, units, 'fine')} in “gaps in a line closed up to”.`);
}
