// What a tracing leaves to say and to choose: which of its pieces are meant, what would close its lines, and what is
// narrower than the sheet asks for.

import {measure, write} from './units.mjs';

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

// Says which places are narrower than the sheet asks for; '' where none is.
/** @param {Narrow[]} places @param {{opening?: number, bridge?: number}} asked in mm @param {Units} units */
export function tooNarrow(places, {opening = 0, bridge = 0}, units) {
  /** @param {number} mm */
  const size = (mm) => measure(mm, units, units === 'in' ? 'fine' : 'length');
  const parts = [];
  for (const {kind, need, one, more} of [
    {kind: 'opening', need: opening, one: 'One place of the drawing is', more: 'places of the drawing are'},
    {kind: 'bridge', need: bridge, one: 'One strip of paper between is', more: 'strips of paper between are'},
  ]) {
    const widths = places.filter((place) => place.kind === kind).map(({width}) => width);
    if (!widths.length) continue;
    const what = widths.length === 1 ? one : `${widths.length} ${more}`;
    parts.push(`${what} narrower than the ${size(need)} this sheet asks for, down to ${size(Math.min(...widths))}.`);
  }
  return parts.length ? [...parts, 'They are ringed.'].join(' ') : '';
}

// How large a piece is, with its points.
/** @param {TracedSize} piece @param {Units} units */
export function sizeOf({width, height, points, edge}, units) {
  return `${write(width, 'length', units)} × ${measure(height, units)}, ${points} points`
    + (edge ? ', runs over the edge' : '');
}

// What the pieces may become: the words of each choice, and its mode.
/** @param {View | undefined} view @returns {[string, string][]} */
export function whatItBecomes(view) {
  const {demonstrates = false, silhouettes = [], subjects = []} = view ?? {};
  /** @type {[string, string][]} */
  const choices = demonstrates ? [['Begin a pattern of your own with it', 'fresh']] : [];
  choices.push([demonstrates ? 'Add it to the demonstration' : 'Add as a new one', 'add']);
  for (const {id, name} of silhouettes) choices.push([`Put in place of ${name}`, `replace:${id}`]);
  choices.push(['Set it in front, as a subject', 'subject:']);
  for (const {id, name} of subjects) choices.push([`Put in place of ${name}, in front`, `subject:${id}`]);
  return choices;
}
