// The seventeen plane groups as pictures of the person's own silhouettes, by lattice family: one group of radio
// buttons.

import {editor} from './bridge.mjs';
import {byId, every, find, make, valueOf, within} from './dom.mjs';
import {alarm} from './notices.mjs';
/** @import {Lane} from './engine.mjs' */
import {Superseded} from './engine.mjs';

// PAUSE in ms is how long the draft must rest before the pictures are drawn anew; the editor asks for none while a hand
// moves.
const PAUSE = 80;
const families = [
  ['oblique', 'Oblique'], ['hexagonal', 'Hexagonal'], ['rectangular', 'Rectangular'], ['square', 'Square'],
];

const place = byId('groups');
const note = byId('group-note');
const words = byId('group-words'); // beside the last family

/** @type {Lane | null} */
let lane = null; // there once the first drawing is done, and the engine may work
/** @type {GroupCard[]} */
let groups = [];
let chosen = '';
let width = 0; // of a picture, CSS px; 0 while the step is closed
let drawnWidth = 0;
let wanted = -1; // the pictures' serial the view asks for
let drawn = -1; // serial of the pictures that are shown, or being drawn
let timer = 0;
/** @type {string[]} */
let urls = [];

// Builds the buttons from the editor's list.
export function buildGroups() {
  groups = editor.groups();
  for (const [family, name] of families) {
    const members = groups.filter((group) => group.family === family);
    if (!members.length) continue;
    const set = make('div', `family ${family}`);
    set.setAttribute('role', 'group');
    set.setAttribute('aria-labelledby', `family-${family}`);
    const title = make('h3', '', name);
    title.id = `family-${family}`;
    const row = make('div', 'pictures');
    row.append(...members.map(button));
    set.append(title, row);
    place.append(set);
  }
  place.append(words);
  mark(chosen);
  describe(chosen);
  place.addEventListener('change', (event) => choose(valueOf(event)));
  new ResizeObserver(([entry]) => {
    width = entry.contentRect.width;
    order();
  }).observe(find(place, '.group-picture > span'));
  /** @param {Event} event */
  const hint = (event) => describe(within(event, '.group')?.dataset.symbol ?? chosen);
  place.addEventListener('pointerover', hint);
  place.addEventListener('pointerleave', () => describe(chosen));
  place.addEventListener('focusin', hint);
}

/** @param {GroupCard} group */
function button(group) {
  const label = make('label', 'group');
  label.dataset.symbol = group.symbol;
  const input = make('input', 'unseen');
  input.type = 'radio';
  input.name = 'group';
  input.value = group.symbol;
  input.setAttribute('aria-label', `${group.symbol}, orbifold ${group.orbifold}`);
  input.setAttribute('aria-description', group.line);
  const picture = make('span', 'group-picture');
  picture.append(make('span'));
  label.append(input, picture, make('b', '', group.symbol), make('span', 'orbifold', signs(group.orbifold)));
  return label;
}

// The orbifold symbol with signs that sit on the line.
/** @param {string} orbifold */
export function signs(orbifold) {
  return orbifold.replaceAll('*', '∗').replaceAll('x', '×');
}

/** @param {string} symbol */
function choose(symbol) {
  const sentence = editor.command('group', {text: symbol});
  if (!sentence) return;
  alarm(sentence);
  mark(chosen);
}

/** @param {string} symbol */
function describe(symbol) {
  const group = groups.find((each) => each.symbol === symbol);
  if (!group) return;
  const older = group.older && group.older !== group.symbol ? ` (older: ${group.older})` : '';
  note.replaceChildren(make('b', '', group.symbol), `${older}. ${group.line}`);
}

/** @param {string} symbol */
function mark(symbol) {
  for (const input of every(place, 'input', HTMLInputElement)) input.checked = input.value === symbol;
}

/** @param {View} view */
export function renderGroups(view) {
  if (view.repeat.group !== chosen) {
    chosen = view.repeat.group;
    mark(chosen);
    describe(chosen);
  }
  wanted = view.pictures;
  order();
}

// From now on the pictures may be drawn, by the lane of the engine.
/** @param {Lane} engineLane */
export function drawGroups(engineLane) {
  lane = engineLane;
  order();
}

// Has the pictures drawn when they are out of date and can be seen.
function order() {
  if (!lane || !width || wanted < 0) return;
  if (wanted === drawn && Math.abs(width - drawnWidth) < 1) return;
  clearTimeout(timer);
  timer = setTimeout(draw, drawn < 0 ? 0 : PAUSE); // a newer serial ends what is being drawn for an older one
}

async function draw() {
  const box = find(place, '.group-picture > span').getBoundingClientRect();
  if (!box.width || !lane) return; // closed again meanwhile
  drawn = wanted;
  drawnWidth = width;
  const ratio = globalThis.devicePixelRatio || 1;
  const [w, h] = [box.width, box.height].map((side) => Math.max(1, Math.round(side * ratio)));
  const args = {draft: editor.save(), width: w, height: h};
  try {
    const {value, bytes} = await lane.ask('pictures', args, {instead: true});
    urls = shown(place, value, bytes, urls);
    place.classList.remove('unpictured');
  } catch (error) {
    // An empty draft has none; the symbols remain.
    if (!(error instanceof Superseded)) place.classList.add('unpictured');
  }
}

/**
 * Shows the engine's seventeen pictures in a place that has a .group-picture for each symbol, and gives their
 * addresses; those shown before are let go.
 * @param {HTMLElement} where
 * @param {PictureRow[]} rows
 * @param {Uint8Array<ArrayBuffer>} bytes
 * @param {string[]} before
 */
export function shown(where, rows, bytes, before) {
  /** @type {string[]} */
  const urls = [];
  for (const {symbol, offset, length} of rows) {
    const picture = every(where, `[data-symbol="${CSS.escape(symbol)}"] .group-picture > span`)[0];
    if (!picture) continue;
    const url = URL.createObjectURL(new Blob([bytes.subarray(offset, offset + length)], {type: 'image/png'}));
    urls.push(url);
    picture.style.maskImage = `url("${url}")`;
  }
  // Not while they may still be on the screen.
  setTimeout(() => before.forEach((url) => URL.revokeObjectURL(url)), 1000);
  return urls;
}
