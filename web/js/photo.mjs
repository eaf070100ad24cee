// The photograph that lies under the panel or over it, in the step Subject: at its place in mm, with a strength. It is
// kept in this browser's own store, and goes into no draft, no file and no link.

import {byId, every, pressed} from './dom.mjs';
import {editor} from './bridge.mjs';
import {NumberField} from './fields.mjs';
/** @import {Kind} from './units.mjs' */
import {tooLarge} from './files.mjs';
import {keepLaid, keptLaid, laidImage, layImage, LEAST, MOST, ownHeight, showBlob} from './laid.mjs';
import {alarm, say} from './notices.mjs';

const KEY = 'photograph';

/**
 * A photograph: its middle and height in panel mm, its turn in degrees.
 * @typedef {object} Photograph
 * @property {Blob} blob
 * @property {number} x
 * @property {number} y
 * @property {number} height
 * @property {number} turn
 * @property {number} strength
 * @property {boolean} over
 */

const bench = byId('bench');
const strength = byId('photo-strength', HTMLInputElement);
const over = byId('photo-over', HTMLInputElement);
const image = laidImage();

/** @type {Photograph | null} */
let photo = null;
/** @type {View | null} */
let view = null;
/** @typedef {'height' | 'x' | 'y' | 'turn'} Measure */
/** @type {Map<Measure, NumberField>} */
const fields = new Map();

export function bindPhoto() {
  const file = byId('photo-file', HTMLInputElement);
  pressed('photo-choose', () => file.click());
  file.addEventListener('change', () => {
    const chosen = file.files?.[0];
    file.value = '';
    if (chosen) lay(chosen);
  });
  pressed('photo-away', () => {
    photo = null;
    keep();
    show();
  });
  strength.addEventListener('input', () => change({strength: Number(strength.value)}));
  over.addEventListener('change', () => change({over: over.checked}));
  const near = `A photograph lies within ${MOST} mm, and is ${LEAST} to ${MOST} mm high.`;
  for (const [name, kind] of /** @type {[Measure, Kind][]} */ ([
    ['height', 'length'], ['x', 'length'], ['y', 'length'], ['turn', 'angle'],
  ])) {
    const least = name === 'height' ? LEAST : -MOST;
    fields.set(name, new NumberField(byId(`photo-${name}`, HTMLInputElement), kind, (value) => {
      return value >= least && value <= MOST ? change({[name]: value}) : near;
    }));
  }
  fetchKept();
}

/** @param {View} next */
export function renderPhoto(next) {
  view = next;
  show();
}

function show() {
  const seen = photo !== null && view !== null && !view.pen.open;
  for (const part of every(document, '[data-photo]')) part.hidden = !photo;
  byId('photo-choose').textContent = photo ? 'Another photograph…' : 'Lay a photograph…';
  image.hidden = !seen;
  editor.seeThrough(seen && photo && !photo.over ? photo.strength : 0);
  if (!photo || !view) return;
  if (!image.isConnected) bench.prepend(image);
  layImage(image, photo, view.bench);
  image.style.opacity = photo.over ? String(photo.strength) : '1';
  image.style.zIndex = photo.over ? '1' : '';
  strength.value = String(photo.strength);
  over.checked = photo.over;
  for (const [name, field] of fields) field.show(photo[name], view.units);
}

// Changes where or how it lies, and answers '' as a field expects.
/** @param {Partial<Photograph>} what */
function change(what) {
  if (!photo) return '';
  Object.assign(photo, what);
  show();
  globalThis.openworkWake();
  keep();
  return '';
}

/** @param {File} file */
async function lay(file) {
  const large = tooLarge(file);
  if (large) return alarm(large);
  const {width = 600, height = 900} = view?.panel ?? {};
  const next = {blob: file, x: width / 2, y: height / 2, height, turn: 0, strength: 0.5, over: true};
  if (!(await load(next))) {
    return alarm(`${file.name} is no picture that this browser can show, or one too large for it. `
      + 'Save it smaller, as PNG or JPEG, and lay that.');
  }
  const own = await ownHeight(image, file);
  if (own) change({height: own});
  keep();
}

// Loads the photograph into the page; false when the browser cannot read it.
/** @param {Photograph} next */
async function load(next) {
  if (!(await showBlob(image, next.blob))) return false;
  photo = next;
  show();
  globalThis.openworkWake();
  return true;
}

async function keep() {
  try {
    await keepLaid(KEY, photo);
  } catch {
    say(byId('photo-said'), 'This browser has no room to keep the photograph: it is gone when the page is closed.');
  }
}

async function fetchKept() {
  const kept = await keptLaid(KEY);
  if (kept && !photo) await load(kept);
}
