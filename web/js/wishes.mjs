// What the person wants of the files, beyond what the draft says: what the shop asks for, the paper in the printer. It
// belongs to this machine, not to the draft, and is remembered here.
//
// A control with data-wish="cut.holes.diameter" is the wish {cut: {holes: {diameter: …}}}. A control that stands as the
// page has it is no wish: the engine's own choice holds.

import {every} from './dom.mjs';
import {NumberField} from './fields.mjs';
import {kindNamed} from './units.mjs';

const KEY = 'openwork:wishes';

/** @type {Record<string, string | number | boolean>} */
let kept = {}; // by path

export function bindWishes() {
  try {
    kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') ?? {};
  } catch {
    kept = {};
  }
  for (const control of every(document, '[data-wish]')) {
    if (isControl(control)) bind(control, control.dataset.wish ?? '');
  }
}

/** @typedef {HTMLInputElement | HTMLSelectElement} Control */

/** @param {HTMLElement} element @returns {element is Control} */
const isControl = (element) => element instanceof HTMLInputElement || element instanceof HTMLSelectElement;

/** @param {Control} control @returns {control is HTMLInputElement} */
const isTick = (control) => control instanceof HTMLInputElement && control.type === 'checkbox';

/** @param {Control} control */
const valueOf = (control) => (isTick(control) ? control.checked : control.value);

/** @param {Control} control @param {string} path */
function bind(control, path) {
  const usual = valueOf(control);
  /** @param {string | number | boolean | null} value null for the usual one */
  const keep = (value) => {
    if (value === null) delete kept[path];
    else kept[path] = value;
    try {
      localStorage.setItem(KEY, JSON.stringify(kept));
    } catch { /* it holds until the page is left */ }
  };
  const value = kept[path];
  if (control.dataset.kind && control instanceof HTMLInputElement) {
    const {least = 0, most = Infinity, after = ''} = control.dataset;
    const field = new NumberField(control, kindNamed(control.dataset.kind), (typed) => {
      const empty = control.value.trim() === '';
      if (!empty && !(typed >= Number(least) && typed <= Number(most))) return `It may be from ${least} to ${most}.`;
      keep(empty ? null : typed);
      return '';
    }, after);
    field.show(typeof value === 'number' ? value : null, 'mm');
    return;
  }
  if (isTick(control)) control.checked = path in kept ? value === true : control.checked;
  else if (typeof value === 'string') control.value = value;
  control.addEventListener('change', () => keep(valueOf(control) === usual ? null : valueOf(control)));
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
      place = place[step] = typeof next === 'object' ? next : {};
    }
    place[last] = value;
  }
  return out;
}
