// What the person wants of the files, beyond what the draft says: what the shop asks for, the paper in the printer. It belongs
// to this machine, not to the draft, and is remembered here.
//
// A control with data-wish="cut.holes.diameter" is the wish {cut: {holes: {diameter: …}}}. A control that stands as the page
// has it is no wish: the engine's own choice holds.

import {NumberField} from './fields.mjs';

const KEY = 'openwork:wishes';

let kept = {}; // path → value

export function bindWishes() {
  try {
    kept = JSON.parse(localStorage.getItem(KEY) ?? '{}') ?? {};
  } catch {
    kept = {};
  }
  for (const control of document.querySelectorAll('[data-wish]')) bind(control, control.dataset.wish);
}

function bind(control, path) {
  const usual = control.type === 'checkbox' ? control.checked : control.value;
  const keep = (value, isUsual) => {
    if (isUsual) delete kept[path];
    else kept[path] = value;
    try {
      localStorage.setItem(KEY, JSON.stringify(kept));
    } catch { /* it holds until the page is left */ }
  };
  if (control.dataset.kind) {
    const least = Number(control.dataset.least ?? 0);
    const most = Number(control.dataset.most ?? Infinity);
    const field = new NumberField(control, control.dataset.kind, (value) => {
      if (control.value.trim() === '') {
        keep(null, true);
        return '';
      }
      if (!(value >= least && value <= most)) return `It may be from ${least} to ${most}.`;
      keep(value, false);
      return '';
    }, control.dataset.after ?? '');
    field.show(kept[path] ?? null, 'mm');
    return;
  }
  if (path in kept) {
    if (control.type === 'checkbox') control.checked = kept[path] === true;
    else if (typeof kept[path] === 'string') control.value = kept[path];
  }
  control.addEventListener('change', () => {
    const value = control.type === 'checkbox' ? control.checked : control.value;
    keep(value, value === usual);
  });
}

// The wishes below a name, as an object: wishes('cut') → {holes: {diameter: 5}}.
export function wishes(name) {
  const out = {};
  for (const [path, value] of Object.entries(kept)) {
    const steps = path.split('.');
    if (steps.shift() !== name) continue;
    let place = out;
    while (steps.length > 1) place = place[steps.shift()] ??= {};
    place[steps[0]] = value;
  }
  return out;
}
