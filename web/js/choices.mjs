// How a drawing is read: the choices of the dialog that brings it in, each with its number, so that it can be repeated.

import {byId, every, find, pressed} from './dom.mjs';
import {NumberField} from './fields.mjs';
import {kindNamed, plain} from './units.mjs';

const NONE = -1; // drop no specks, fill no holes, close no gap; 0 would be the usual size

const form = byId('bring-form');
const even = byId('bring-even', HTMLInputElement);
const level = byId('bring-level', HTMLInputElement);

/** @type {Record<string, NumberField>} */
const fields = {};
/** @type {Record<string, number | null>} */
const values = {}; // by name, what the person set, null for what the program finds by itself
const anyNumber = new Set(['turn']);
const noughtToo = new Set(['specks', 'pinholes', 'gap', 'smoothing', 'turn',
  'crop0', 'crop1', 'crop2', 'crop3', 'point0', 'point1', 'point2', 'point3']);

/** @type {Units} */
let units = 'mm';
let quarters = 0;
/** @type {number | null} */
let ownLevel = null;
/** @type {number | null} */
let foundLevel = null;
let changed = () => {};

/** @param {() => void} onChange */
export function bindChoices(onChange) {
  changed = onChange;
  level.addEventListener('input', () => setLevel(Number(level.value)));
  pressed('bring-level-free', () => {
    setLevel(null);
    level.focus();
  });
  for (const radio of every(form, '[name=ink], [name=scale], [name=drawn]')) radio.addEventListener('change', tell);
  even.addEventListener('change', tell);
  pressed('bring-quarter', () => {
    quarters = (quarters + 1) % 4;
    setCrop(null); // it spoke of the picture as it lay
    setPoints(null);
    tell();
  });
  pressed('bring-whole', () => {
    setCrop(null);
    tell();
  });
  for (const input of every(form, '[data-trace]', HTMLInputElement)) bindNumber(input, input.dataset.trace ?? '');
}

/** @param {HTMLInputElement} input @param {string} name */
function bindNumber(input, name) {
  values[name] = null;
  fields[name] = new NumberField(input, kindNamed(input.dataset.kind ?? 'plain'), (value) => {
    const empty = input.value.trim() === '';
    const fits = anyNumber.has(name) || value > 0 || (value === 0 && noughtToo.has(name));
    if (!empty && !fits) return 'Type a number above nought.';
    values[name] = empty ? null : value;
    const scale = name.startsWith('point') ? 'distance' : name;
    if (!empty) every(form, `[name=scale][value=${scale}]`)[0]?.click();
    tell();
    return '';
  }, input.dataset.after);
}

// Shows lengths in the unit that the person has chosen.
/** @param {Units} chosen */
export function choicesIn(chosen) {
  if (chosen === units) return;
  units = chosen;
  for (const [name, value] of Object.entries(values)) fields[name].show(value, units);
}

function tell() {
  renderChoices();
  changed();
}

/** @param {number | null} value */
function setLevel(value) {
  ownLevel = value;
  tell();
}

// Everything as it is for a drawing that nothing is known of.
export function freshChoices() {
  for (const name of Object.keys(values)) put(name, null);
  quarters = 0;
  ownLevel = foundLevel = null;
  for (const name of ['ink', 'drawn', 'scale']) find(form, `[name=${name}]`, HTMLInputElement).checked = true;
  even.checked = true;
  renderChoices();
}

/** @param {string} name @param {number | null} value */
function put(name, value) {
  values[name] = value;
  fields[name].show(value, units);
}

// The part of the picture that is read, as [left, top, right, bottom] in its pixels; null is all of it.
/** @param {Box | null} crop */
export function setCrop(crop) {
  for (let k = 0; k < 4; k++) put(`crop${k}`, crop ? Math.round(crop[k]) : null);
}

// Two points in pixels of the picture, null none.
/** @param {[Point, Point] | null} points */
export function setPoints(points) {
  const flat = points?.flat() ?? [];
  for (let k = 0; k < 4; k++) put(`point${k}`, points ? Math.round(flat[k] * 10) / 10 : null);
  if (points) find(form, '[name=scale][value=distance]', HTMLInputElement).checked = true;
  renderChoices();
}

// Adds to the turn what makes a line from one point to another lie level, or upright if it is nearer to that.
/** @param {Point} from @param {Point} to */
export function levelBy([x0, y0], [x1, y1]) {
  const angle = Math.atan2(y1 - y0, x1 - x0) * 180 / Math.PI; // clockwise as seen, y being down
  const off = angle - 90 * Math.round(angle / 90);
  put('turn', Math.round(off * 100) / 100 || null);
  tell();
}

// The value of the chosen one of some radio buttons.
/** @param {string} name */
export const picked = (name) => find(form, `[name=${name}]:checked`, HTMLInputElement).value;

export const quarterTurns = () => quarters;

// The part that is read in a picture of a size, or null when it is all of it.
/** @param {number} width @param {number} height @returns {Box | null} */
export function cropOf(width, height) {
  const given = [0, 1, 2, 3].map((k) => values[`crop${k}`]);
  if (given.every((value) => value === null)) return null;
  return [given[0] ?? 0, given[1] ?? 0, given[2] ?? width, given[3] ?? height];
}

/** @returns {[Point, Point] | null} */
export function pointsSet() {
  const {point0: x0, point1: y0, point2: x1, point3: y1} = values;
  return x0 === null || y0 === null || x1 === null || y1 === null ? null : [[x0, y0], [x1, y1]];
}

// What the engine is asked with; size is that of the picture where it is known.
/** @param {Point | null} size @param {Partial<SheetView>} sheet */
export function chosenOptions(size, sheet) {
  /** @type {TraceOptions} */
  const chosen = {};
  if (ownLevel !== null) chosen.level = ownLevel;
  for (const name of /** @type {const} */ (['specks', 'pinholes'])) {
    if (values[name] !== null) chosen[name] = values[name] || NONE;
  }
  for (const name of /** @type {const} */ (['tolerance', 'smoothing', 'turn'])) {
    chosen[name] = values[name] || undefined;
  }
  const crop = cropOf(...(size ?? [0, 0]));
  if (crop && size) chosen.crop = crop;
  if (quarters) chosen.upright = quarters;
  if (!even.checked) chosen.flat = true;
  if (picked('drawn') === 'lines') {
    chosen.pencil = true;
    if (values.gap !== null) chosen.gap = values.gap || NONE;
  }
  if (picked('ink') === 'light') chosen.invert = true;
  const scale = picked('scale');
  if (scale === 'distance') {
    const points = pointsSet();
    if (points && values.distance) Object.assign(chosen, {points, distance: values.distance});
  } else if (scale === 'dpi' || scale === 'height') chosen[scale] = values[scale] ?? undefined;
  if (sheet.opening) chosen.opening = sheet.opening;
  if (sheet.bridge) chosen.bridge = sheet.bridge;
  return chosen;
}

/** @type {Record<string, (found: Traced) => string>} */
const sources = {
  file: ({dpi}) => `as the file says, ${plain(dpi, 1)} dpi`,
  assumed: ({dpi}) => `the file does not say; ${plain(dpi, 1)} dpi is assumed`,
};

// Shows what the engine found for what was left to it.
/** @param {Traced} value */
export function renderFound(value) {
  const picture = value.level > 0; // an SVG has no greys to divide
  for (const part of every(form, '.for-picture')) part.hidden = !picture;
  foundLevel = picture ? value.level : null;
  const says = sources[value.source];
  if (says) byId('bring-file-says').textContent = says(value);
  for (const name of /** @type {const} */ (['height', 'dpi'])) fields[name].show(value[name], units);
  renderChoices();
}

function renderLevel() {
  const own = ownLevel !== null;
  if (!own && foundLevel !== null) level.value = String(foundLevel);
  byId('bring-level-said').textContent = own ? `set to ${Number(level.value).toFixed(2)}`
    : foundLevel === null ? 'found by itself' : `${foundLevel.toFixed(2)}, found by itself`;
  byId('bring-level-free').hidden = !own;
}

const turned = ['', 'turned a quarter to the left', 'turned upside down', 'turned a quarter to the right'];

function renderChoices() {
  byId('bring-gap').hidden = picked('drawn') !== 'lines';
  byId('bring-two').hidden = picked('scale') !== 'distance';
  byId('bring-whole').hidden = !cropOf(0, 0);
  byId('bring-quarter-said').textContent = turned[quarters];
  renderLevel();
}
