// The picture to draw over: it lies under the drawing at true scale. It is kept in this browser's own store (IndexedDB)
// and goes into no draft and no link.

import {editor} from './bridge.mjs';
import {byId, every, pressed} from './dom.mjs';
import {NumberField} from './fields.mjs';
/** @import {Kind} from './units.mjs' */
import {tooLarge} from './files.mjs';
import {keepLaid, keptLaid, laidImage, layImage, LEAST, MOST, ownHeight, showBlob} from './laid.mjs';
import {alarm, say} from './notices.mjs';

const KEY = 'picture';
const FIRST = 100; // mm, the height of a picture whose file does not say, before anybody has

const bench = byId('bench');
const mover = byId('under-mover');
const move = byId('under-move');
const strength = byId('under-strength', HTMLInputElement);
const image = laidImage();
image.hidden = true;

/**
 * A picture: its middle and height in mm, its turn in degrees. Where it lies is not known before it is first shown.
 * @typedef {object} Picture
 * @property {Blob} blob
 * @property {string} name
 * @property {number | null} x
 * @property {number | null} y
 * @property {number} height
 * @property {number} turn
 * @property {number} strength
 */

/** @type {Picture | null} */
let picture = null;
/** @type {PenView['map']} */
let map = [1, 0, 0]; // CSS px to the mm, and where (0, 0) lies on the bench
/** @type {Units} */
let units = 'mm';
let open = false;
let asked = false; // the store has been asked
/** @type {{id: number, x: number, y: number, at: {x: number, y: number}} | null} */
let grip = null; // where the hand took hold
/** @typedef {'height' | 'x' | 'y' | 'turn'} Measure */
/** @type {Map<Measure, NumberField>} */
const fields = new Map();

export function bindUnder() {
  const file = byId('under-file', HTMLInputElement);
  pressed('under-choose', () => file.click());
  file.addEventListener('change', () => {
    const chosen = file.files?.[0];
    file.value = '';
    if (chosen) lay(chosen);
  });
  pressed('under-away', () => {
    picture = null;
    hold(false);
    keep();
    show();
  });
  move.addEventListener('click', () => hold(mover.hidden));
  strength.addEventListener('input', () => change({strength: Number(strength.value)}));
  /** @param {Measure} name @param {Kind} kind @param {(value: number) => string | undefined} check */
  const field = (name, kind, check) => {
    const input = byId(`under-${name}`, HTMLInputElement);
    fields.set(name, new NumberField(input, kind, (value) => check(value) ?? change({[name]: value})));
  };
  /** @param {number} value */
  const anywhere = (value) => {
    return Math.abs(value) <= MOST ? undefined : `That is further off than ${MOST} mm; give a nearer place.`;
  };
  const high = `A picture is from ${LEAST} to ${MOST} mm high.`;
  field('height', 'length', (value) => (value >= LEAST && value <= MOST ? undefined : high));
  field('x', 'length', anywhere);
  field('y', 'length', anywhere);
  field('turn', 'angle', () => undefined);
  bindMover();
}

/** @type {Record<string, Point>} */
const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]};

function bindMover() {
  mover.addEventListener('pointerdown', (event) => {
    if (event.button || grip || !picture) return;
    mover.setPointerCapture(event.pointerId);
    grip = {id: event.pointerId, x: event.clientX, y: event.clientY, at: {x: picture.x ?? 0, y: picture.y ?? 0}};
  });
  mover.addEventListener('pointermove', (event) => {
    if (event.pointerId !== grip?.id) return;
    const [right, down] = [event.clientX - grip.x, event.clientY - grip.y];
    change({x: grip.at.x + right / map[0], y: grip.at.y - down / map[0]}, false);
  });
  for (const kind of /** @type {const} */ (['pointerup', 'pointercancel', 'lostpointercapture'])) {
    mover.addEventListener(kind, (event) => {
      if (event.pointerId !== grip?.id) return;
      grip = null;
      keep();
    });
  }
  mover.addEventListener('wheel', (event) => {
    event.preventDefault();
    const box = bench.getBoundingClientRect();
    editor.wheel(event.clientX - box.left, event.clientY - box.top, event.deltaX, event.deltaY, event.shiftKey ? 1 : 0);
    globalThis.openworkWake();
  }, {passive: false});
  mover.addEventListener('keydown', (event) => {
    const step = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
    if (!picture) return;
    const {x, y} = picture;
    const arrow = ARROWS[event.key];
    if (arrow) change({x: (x ?? 0) + arrow[0] * step, y: (y ?? 0) + arrow[1] * step});
    else if ('[{'.includes(event.key)) change({turn: picture.turn + step});
    else if (']}'.includes(event.key)) change({turn: picture.turn - step});
    else if (event.key === 'Escape') hold(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
}

// Shows the picture where the view has it.
/** @param {View} view */
export function renderUnder(view) {
  units = view.units;
  const {pen} = view;
  if (pen.open) map = pen.map;
  if (pen.open !== open) {
    open = pen.open;
    if (!open) hold(false);
    if (open && !asked) fetchKept();
  }
  show();
}

function show() {
  const there = picture !== null;
  if (open && there && !image.isConnected) bench.prepend(image);
  image.hidden = !open || !there;
  for (const part of every(document, '[data-under]')) part.hidden = !there;
  byId('under-choose').textContent = there ? 'Lay another under…' : 'Lay one under…';
  if (!picture || !open) return;
  const [zoom, x, y] = map;
  // Only now is it known how the drawing lies.
  picture.x ??= Math.round(((bench.clientWidth + 40) / 2 - x) / zoom);
  picture.y ??= Math.round((y - (bench.clientHeight + 28) / 2) / zoom);
  layImage(image, {...picture, x: picture.x, y: picture.y}, map);
  image.style.opacity = String(picture.strength);
  strength.value = String(picture.strength);
  for (const [name, field] of fields) field.show(picture[name], units);
}

// Changes where or how it lies, and answers '' as a field expects.
/** @param {Partial<Picture>} what */
function change(what, lasting = true) {
  if (!picture) return '';
  Object.assign(picture, what);
  show();
  if (lasting) keep();
  return '';
}

// Gives the pointer and the keys to the picture, or back to the drawing.
/** @param {boolean} on */
function hold(on) {
  on &&= picture !== null;
  mover.hidden = !on;
  move.setAttribute('aria-pressed', String(on));
  say(byId('under-said'), on ? 'Drag it, or use the arrow keys and square brackets. Escape goes back to drawing.'
    : 'It stays in this browser, and is in no draft and no link.');
  if (on) mover.focus();
}

/** @param {File} file */
async function lay(file) {
  const large = tooLarge(file);
  if (large) return alarm(large);
  // show() puts it in the middle.
  const next = {blob: file, name: file.name, height: FIRST, turn: 0, strength: 0.6, x: null, y: null};
  if (!(await load(next))) {
    return alarm(`${file.name} is no picture that this browser can show. `
      + 'Save it as PNG, JPEG or SVG and lay that under.');
  }

  const height = await ownHeight(image, file);
  if (height) change({height});
  keep();
}

// Loads the picture into the page; false when the browser cannot read it.
/** @param {Picture} next */
async function load(next) {
  if (!(await showBlob(image, next.blob))) return false;
  picture = next;
  show();
  return true;
}

async function keep() {
  try {
    await keepLaid(KEY, picture);
  } catch {
    say(byId('under-said'), 'This browser has no room to keep the picture: it is gone when the page is closed.');
  }
}

async function fetchKept() {
  asked = true;
  const kept = await keptLaid(KEY);
  if (kept && !picture) await load(kept);
}
