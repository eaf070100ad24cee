// How a drawing is read: the choices of the dialog that brings it in, each with its number, so that it can be repeated.

import {NumberField} from './fields.mjs';
import {plain} from './units.mjs';

const NONE = -1; // drop no specks, fill no holes, close no gap; 0 would be the usual size

const byId = (id) => document.getElementById(id);
const form = byId('bring-form');
const level = byId('bring-level');

const fields = {}; // name → NumberField
const values = {}; // name → what the person set, null for what the program finds by itself
const anyNumber = new Set(['turn']);
const noughtToo = new Set(['specks', 'pinholes', 'gap', 'smoothing', 'crop0', 'crop1', 'crop2', 'crop3', 'point0', 'point1', 'point2', 'point3', 'turn']);

let quarters = 0;
let ownLevel = null;
let foundLevel = null;
let changed = () => {};

export function bindChoices(onChange) {
  changed = onChange;
  level.addEventListener('input', () => setLevel(Number(level.value)));
  byId('bring-level-free').addEventListener('click', () => {
    setLevel(null);
    level.focus();
  });
  for (const radio of form.querySelectorAll('[name=ink], [name=scale], [name=drawn]')) radio.addEventListener('change', tell);
  byId('bring-even').addEventListener('change', tell);
  byId('bring-quarter').addEventListener('click', () => {
    quarters = (quarters + 1) % 4;
    setCrop(null); // it spoke of the picture as it lay
    setPoints(null);
    tell();
  });
  byId('bring-whole').addEventListener('click', () => {
    setCrop(null);
    tell();
  });
  for (const input of form.querySelectorAll('[data-trace]')) bindNumber(input);
}

function bindNumber(input) {
  const name = input.dataset.trace;
  values[name] = null;
  fields[name] = new NumberField(input, 'plain', (value) => {
    if (input.value.trim() === '') values[name] = null;
    else if (!anyNumber.has(name) && !(value > 0) && !(value === 0 && noughtToo.has(name))) return 'Type a number above nought.';
    else values[name] = value;
    const scale = name.startsWith('point') ? 'distance' : name;
    if (values[name] !== null) form.querySelector(`[name=scale][value=${scale}]`)?.click();
    tell();
    return '';
  }, input.dataset.after);
}

function tell() {
  renderChoices();
  changed();
}

function setLevel(value) {
  ownLevel = value;
  tell();
}

// Everything as it is for a drawing that nothing is known of.
export function freshChoices() {
  for (const name of Object.keys(values)) put(name, null);
  quarters = 0;
  ownLevel = foundLevel = null;
  for (const name of ['ink', 'drawn', 'scale']) form.querySelector(`[name=${name}]`).checked = true;
  byId('bring-even').checked = true;
  renderChoices();
}

function put(name, value) {
  values[name] = value;
  fields[name].show(value, 'mm');
}

// The part of the picture that is read, as [left, top, right, bottom] in its pixels; null is all of it.
export function setCrop(crop) {
  for (let k = 0; k < 4; k++) put(`crop${k}`, crop ? Math.round(crop[k]) : null);
}

// Two points in pixels of the picture, null none.
export function setPoints(points) {
  const flat = points?.flat() ?? [null, null, null, null];
  flat.forEach((value, k) => put(`point${k}`, value === null ? null : Math.round(value * 10) / 10));
  if (points) form.querySelector('[name=scale][value=distance]').checked = true;
  renderChoices();
}

// Adds to the turn what makes a line from one point to another lie level, or upright if it is nearer to that.
export function levelBy([x0, y0], [x1, y1]) {
  const angle = Math.atan2(y1 - y0, x1 - x0) * 180 / Math.PI; // clockwise as seen, y being down
  const off = angle - 90 * Math.round(angle / 90);
  put('turn', Math.round(off * 100) / 100 || null);
  tell();
}

export const quarterTurns = () => quarters;

// The part that is read in a picture of a size, or null when it is all of it.
export function cropOf(width, height) {
  const given = [0, 1, 2, 3].map((k) => values[`crop${k}`]);
  if (given.every((value) => value === null)) return null;
  return [given[0] ?? 0, given[1] ?? 0, given[2] ?? width, given[3] ?? height];
}

export function pointsSet() {
  const p = [0, 1, 2, 3].map((k) => values[`point${k}`]);
  return p.includes(null) ? null : [[p[0], p[1]], [p[2], p[3]]];
}

// What the engine is asked with; size is that of the picture where it is known.
export function chosenOptions(size, sheet) {
  const chosen = {};
  if (ownLevel !== null) chosen.level = ownLevel;
  for (const name of ['specks', 'pinholes']) if (values[name] !== null) chosen[name] = values[name] || NONE;
  for (const name of ['tolerance', 'smoothing', 'turn']) if (values[name]) chosen[name] = values[name];
  const crop = cropOf(...(size ?? [0, 0]));
  if (crop && size) chosen.crop = crop;
  if (quarters) chosen.upright = quarters;
  if (!byId('bring-even').checked) chosen.flat = true;
  if (form.querySelector('[name=drawn]:checked').value === 'lines') {
    chosen.pencil = true;
    if (values.gap !== null) chosen.gap = values.gap || NONE;
  }
  if (form.querySelector('[name=ink]:checked').value === 'light') chosen.invert = true;
  const scale = form.querySelector('[name=scale]:checked').value;
  if (scale === 'distance') {
    const points = pointsSet();
    if (points && values.distance) Object.assign(chosen, {points, distance: values.distance});
  } else if (scale !== 'file' && values[scale] !== null) chosen[scale] = values[scale];
  if (sheet.opening > 0) chosen.opening = sheet.opening;
  if (sheet.bridge > 0) chosen.bridge = sheet.bridge;
  return chosen;
}

const sources = {
  file: ({dpi}) => `as the file says, ${plain(dpi, 1)} dpi`,
  assumed: ({dpi}) => `the file does not say; ${plain(dpi, 1)} dpi is assumed`,
};

// Shows what the engine found for what was left to it.
export function renderFound(value) {
  const picture = value.level > 0; // an SVG has no greys to divide
  for (const part of form.querySelectorAll('.for-picture')) part.hidden = !picture;
  foundLevel = picture ? value.level : null;
  const says = sources[value.source];
  if (says) byId('bring-file-says').textContent = says(value);
  for (const name of ['height', 'dpi']) fields[name].show(value[name], 'mm');
  renderChoices();
}

function renderLevel() {
  const own = ownLevel !== null;
  if (!own && foundLevel !== null) level.value = String(foundLevel);
  byId('bring-level-said').textContent = own ? `set to ${Number(level.value).toFixed(2)}`
    : foundLevel === null ? 'found by itself' : `${foundLevel.toFixed(2)}, found by itself`;
  byId('bring-level-free').hidden = !own;
}

function renderChoices() {
  byId('bring-gap').hidden = form.querySelector('[name=drawn]:checked').value !== 'lines';
  byId('bring-two').hidden = form.querySelector('[name=scale]:checked').value !== 'distance';
  byId('bring-whole').hidden = !cropOf(0, 0);
  byId('bring-quarter-said').textContent = quarters ? `turned ${['', 'a quarter to the left', 'upside down', 'a quarter to the right'][quarters]}` : '';
  renderLevel();
}
