// What the person wants of the files, beyond what the draft says: what the shop asks for, the paper in the printer. It
// belongs to this machine, not to the draft, and is remembered here.
//
// A control with data-wish="cut.holes.diameter" is the wish {cut: {holes: {diameter: …}}}. A control that stands as the
// page has it is no wish: the engine's own choice holds.

import {byId, every, pressed, sentenceOf} from './dom.mjs';
import {NumberField} from './fields.mjs';
import {download} from './files.mjs';
import {kindNamed, write} from './units.mjs';

const KEY = 'openwork:wishes';
const SHOP = 'cut.'; // what a shop asks for begins so
export const SPEEDS = 'job.speeds'; // a shop's own rows of the table of speeds (speeds.mjs)
const LONGEST = 100_000; // bytes of a file of wishes

/** @type {Record<string, Kept>} */
let kept = {}; // by path
/** @type {Units} */
let units = 'mm';
/** @type {{path: string, show: () => void}[]} */
const controls = [];

export function bindWishes() {
  try {
    kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') ?? {};
  } catch {
    kept = {};
  }
  bindFile();
  for (const control of every(document, '[data-wish]')) {
    if (isControl(control)) bind(control, control.dataset.wish ?? '');
  }
}

/** @typedef {string | number | boolean | SpeedRow[]} Kept */
/** @typedef {HTMLInputElement | HTMLSelectElement} Control */

/** @param {HTMLElement} element @returns {element is Control} */
const isControl = (element) => element instanceof HTMLInputElement || element instanceof HTMLSelectElement;

/** @param {Control} control @returns {control is HTMLInputElement} */
const isTick = (control) => control instanceof HTMLInputElement && control.type === 'checkbox';

/** @param {Control} control */
function valueOf(control) {
  if (isTick(control)) return control.checked;
  return 'number' in control.dataset && control.value ? Number(control.value) : control.value;
}

// Shows lengths in the unit that the person has chosen.
/** @param {View} view */
export function renderWishes(view) {
  if (view.units === units) return;
  units = view.units;
  for (const {show} of controls) show();
}

// Has a wish that no control of the page stands for shown anew when a file has brought another.
/** @param {string} path @param {() => void} show */
export function watch(path, show) {
  controls.push({path, show});
}

// The shop's own rows of the table of speeds; none where what is kept is no such table.
/** @returns {SpeedRow[]} */
export function keptSpeeds() {
  const rows = kept[SPEEDS];
  return isSpeeds(rows) ? rows : [];
}

/** @param {unknown} rows @returns {rows is SpeedRow[]} */
const isSpeeds = (rows) => Array.isArray(rows) && rows.length > 0 && rows.length <= 200 && rows.every((row) => row
  && Object.keys(row).every((name) => ['how', 'stock', 'thickness', 'speed'].includes(name))
  && ['', 'laser', 'knife', 'waterjet'].includes(row.how) && typeof row.stock === 'string'
  && row.thickness > 0 && row.thickness <= 1000 && row.speed >= 0.01 && row.speed <= 1e5);

/** @param {string} path */
const isShops = (path) => path.startsWith(SHOP) || path === SPEEDS;

/** @param {string} path @param {Kept | null} value null for the usual one */
export function keep(path, value) {
  if (value === null) delete kept[path];
  else kept[path] = value;
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch { /* it holds until the page is left */ }
}

// What a shop asks for, as a file to keep and to hand on.
function bindFile() {
  const file = byId('wishes-file', HTMLInputElement), said = byId('wishes-said');
  pressed('wishes-save', () => {
    const shop = Object.fromEntries(Object.entries(kept).filter(([path]) => isShops(path)));
    download(new Blob([JSON.stringify({shop}, null, 1)], {type: 'application/json'}), 'what-the-shop-asks-for.json');
    said.textContent = 'what-the-shop-asks-for.json is in your downloads.';
  });
  pressed('wishes-open', () => file.click());
  file.addEventListener('change', async () => {
    const [chosen] = file.files ?? [];
    file.value = '';
    if (!chosen) return;
    try {
      const n = readShop(chosen.size > LONGEST ? '' : await chosen.text());
      said.textContent = `${n} ${n === 1 ? 'choice was' : 'choices were'} read from ${chosen.name}.`;
    } catch (error) {
      said.textContent = sentenceOf(error);
    }
  });
}

// Takes a shop's choices from the text of a file in place of those that are here; returns how many.
/** @param {string} text */
function readShop(text) {
  /** @type {Record<string, unknown>} */
  let shop;
  try {
    ({shop} = JSON.parse(text));
  } catch {
    throw new Error('This is no file of what a shop asks for; nothing was changed. Choose one that was saved here.');
  }
  const known = new Map(controls.map((control) => [control.path, control]));
  const entries = Object.entries(shop ?? {});
  if (!shop || entries.some(([path, value]) => !isShops(path) || !known.has(path)
    || !(path === SPEEDS ? isSpeeds(value) : ['string', 'number', 'boolean'].includes(typeof value)))) {
    throw new Error('This file holds choices that are not known here; nothing was changed. '
      + 'Choose one that was saved here.');
  }
  for (const path of Object.keys(kept)) if (isShops(path)) keep(path, null);
  for (const [path, value] of entries) keep(path, /** @type {Kept} */ (value));
  for (const {show} of controls) show();
  return entries.length;
}

/** @param {Control} control @param {string} path */
function bind(control, path) {
  const usual = valueOf(control);
  if (control.dataset.kind && control instanceof HTMLInputElement) return bindNumber(control, path);
  const show = () => {
    const value = path in kept ? kept[path] : usual;
    if (isTick(control)) control.checked = value === true;
    else control.value = String(value);
  };
  controls.push({path, show});
  show();
  control.addEventListener('change', () => keep(path, valueOf(control) === usual ? null : valueOf(control)));
}

/** @param {HTMLInputElement} control @param {string} path */
function bindNumber(control, path) {
  const kind = kindNamed(control.dataset.kind);
  const {least = 0, most = Infinity, after = ''} = control.dataset;
  const field = new NumberField(control, kind, (typed) => {
    const empty = control.value.trim() === '';
    const value = kind === 'count' ? Math.round(typed) : typed;
    if (!empty && !(value >= Number(least) && value <= Number(most))) {
      const from = write(Number(least), kind, units);
      return `It may be from ${from} ${Number(most) < Infinity ? `to ${write(Number(most), kind, units)}` : 'on'}.`;
    }
    keep(path, empty ? null : value);
    return '';
  }, after, true);
  const show = () => {
    const value = kept[path];
    field.show(typeof value === 'number' ? value : null, units);
  };
  controls.push({path, show});
  show();
}

// The wishes below a name, as an object: wishes('cut') → {holes: {diameter: 5}}.
/** @param {string} name @returns {Wishes} */
export function wishes(name) {
  /** @type {Wishes} */
  const out = {};
  for (const [path, value] of Object.entries(kept)) {
    const [first, ...steps] = path.split('.');
    const last = steps.pop();
    if (first !== name || last === undefined) continue;
    let place = out;
    for (const step of steps) {
      const next = place[step];
      place = place[step] = typeof next === 'object' && !Array.isArray(next) ? next : {};
    }
    place[last] = value;
  }
  return out;
}
