// The picture to draw over: it lies under the drawing at true scale. It is kept in this browser's own store (IndexedDB) and
// goes into no draft and no link.

import {editor} from './bridge.mjs';
import {pixelHeight} from './density.mjs';
import {NumberField} from './fields.mjs';
import {tooLarge} from './files.mjs';
import {alarm, say} from './notices.mjs';

const BASE = 'openwork', SHELF = 'under', KEY = 'picture';
const FIRST = 100; // mm, the height of a picture whose file does not say, before anybody has
const LEAST = 1, MOST = 20000; // mm, of the height

const byId = (id) => document.getElementById(id);
const bench = byId('bench');
const mover = byId('under-mover');
const move = byId('under-move');
const strength = byId('under-strength');
const image = document.createElement('img');
image.className = 'under-picture';
image.alt = '';
image.hidden = true;

let picture = null; // {blob, name, x, y, height, turn, strength}: the middle in mm, degrees
let ratio = 1; // width to height
let map = [1, 0, 0]; // CSS px to the mm, and where (0, 0) lies on the bench
let units = 'mm';
let open = false;
let asked = false; // the store has been asked
let pressed = null; // where the hand took hold: {id, x, y, at}
const fields = {};

export function bindUnder() {
  const file = byId('under-file');
  byId('under-choose').addEventListener('click', () => file.click());
  file.addEventListener('change', () => {
    const [chosen] = file.files;
    file.value = '';
    if (chosen) lay(chosen);
  });
  byId('under-away').addEventListener('click', () => {
    picture = null;
    hold(false);
    keep();
    show();
  });
  move.addEventListener('click', () => hold(mover.hidden));
  strength.addEventListener('input', () => change({strength: Number(strength.value)}));
  const field = (name, kind, check) => {
    fields[name] = new NumberField(byId(`under-${name}`), kind, (value) => check(value) ?? change({[name]: value}));
  };
  const anywhere = (value) => (Math.abs(value) <= MOST ? undefined : `That is further off than ${MOST} mm; give a nearer place.`);
  field('height', 'length', (value) => (value >= LEAST && value <= MOST ? undefined : `A picture is from ${LEAST} to ${MOST} mm high.`));
  field('x', 'length', anywhere);
  field('y', 'length', anywhere);
  field('turn', 'angle', () => undefined);
  bindMover();
}

function bindMover() {
  mover.addEventListener('pointerdown', (event) => {
    if (event.button || pressed) return;
    mover.setPointerCapture(event.pointerId);
    pressed = {id: event.pointerId, x: event.clientX, y: event.clientY, at: {...picture}};
  });
  mover.addEventListener('pointermove', (event) => {
    if (event.pointerId !== pressed?.id) return;
    change({x: pressed.at.x + (event.clientX - pressed.x) / map[0], y: pressed.at.y - (event.clientY - pressed.y) / map[0]}, false);
  });
  for (const kind of ['pointerup', 'pointercancel', 'lostpointercapture']) {
    mover.addEventListener(kind, (event) => {
      if (event.pointerId !== pressed?.id) return;
      pressed = null;
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
    const way = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]}[event.key];
    if (way) change({x: picture.x + way[0] * step, y: picture.y + way[1] * step});
    else if ('[{'.includes(event.key)) change({turn: picture.turn + step});
    else if (']}'.includes(event.key)) change({turn: picture.turn - step});
    else if (event.key === 'Escape') hold(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
}

// Shows the picture where the view has it.
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
  const there = Boolean(picture);
  if (open && there && !image.isConnected) bench.prepend(image);
  image.hidden = !open || !there;
  for (const part of document.querySelectorAll('[data-under]')) part.hidden = !there;
  byId('under-choose').textContent = there ? 'Lay another under…' : 'Lay one under…';
  if (!there || !open) return;
  const [zoom, x, y] = map;
  if (picture.x === null) { // only now is it known how the drawing lies
    picture.x = Math.round(((bench.clientWidth + 40) / 2 - x) / zoom);
    picture.y = Math.round((y - (bench.clientHeight + 28) / 2) / zoom);
  }
  const height = picture.height * zoom, width = height * ratio;
  Object.assign(image.style, {
    width: `${width}px`,
    height: `${height}px`,
    left: `${x + picture.x * zoom - width / 2}px`,
    top: `${y - picture.y * zoom - height / 2}px`,
    rotate: `${-picture.turn}deg`,
    opacity: picture.strength,
  });
  strength.value = picture.strength;
  for (const [name, field] of Object.entries(fields)) field.show(picture[name], units);
}

// Changes where or how it lies, and answers '' as a field expects.
function change(what, lasting = true) {
  if (!picture) return '';
  Object.assign(picture, what);
  show();
  if (lasting) keep();
  return '';
}

// Gives the pointer and the keys to the picture, or back to the drawing.
function hold(on) {
  on &&= Boolean(picture);
  mover.hidden = !on;
  move.setAttribute('aria-pressed', String(on));
  say(byId('under-said'), on ? 'Drag it, or use the arrow keys and square brackets. Escape goes back to drawing.' : 'It stays in this browser, and is in no draft and no link.');
  if (on) mover.focus();
}

async function lay(file) {
  const large = tooLarge(file);
  if (large) return alarm(large);
  const next = {blob: file, name: file.name, height: FIRST, turn: 0, strength: 0.6, x: null, y: null}; // show() puts it in the middle
  if (!(await load(next))) return alarm(`${file.name} is no picture that this browser can show. Save it as PNG, JPEG or SVG and lay that under.`);
  const pixel = await pixelHeight(file).catch(() => 0);
  const height = pixel * image.naturalHeight;
  if (height >= LEAST && height <= MOST) change({height});
  keep();
}

// Loads the picture into the page; false when the browser cannot read it.
async function load(next) {
  const address = URL.createObjectURL(next.blob);
  const was = image.src;
  image.src = address;
  try {
    await image.decode();
  } catch {
    URL.revokeObjectURL(address);
    image.src = was;
    return false;
  }
  if (was) URL.revokeObjectURL(was);
  ratio = image.naturalWidth / image.naturalHeight || 1;
  picture = next;
  show();
  return true;
}

// The store: one picture.

function base() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(BASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function work(mode, what) {
  const db = await base();
  try {
    return await new Promise((resolve, reject) => {
      const deal = db.transaction(SHELF, mode);
      const request = what(deal.objectStore(SHELF));
      deal.oncomplete = () => resolve(request.result);
      deal.onabort = deal.onerror = () => reject(deal.error);
    });
  } finally {
    db.close();
  }
}

async function keep() {
  try {
    await work('readwrite', (shelf) => (picture ? shelf.put(picture, KEY) : shelf.delete(KEY)));
  } catch {
    say(byId('under-said'), 'This browser has no room to keep the picture: it is gone when the page is closed.');
  }
}

async function fetchKept() {
  asked = true;
  try {
    const kept = await work('readonly', (shelf) => shelf.get(KEY));
    if (kept?.blob && !picture) await load(kept);
  } catch { /* the store is closed to this page: nothing was kept */ }
}
