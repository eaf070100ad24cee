// The seventeen plane groups as pictures of the person's own silhouettes, each fitted as soon as a worker has done so:
// one group of radio buttons, by lattice family or in the order of what the fits have come to.

import {editor} from './bridge.mjs';
import {byId, every, find, make, valueOf, within} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Superseded} from './engine.mjs';
import {allFitted, bindFits, fitOf, noFit, pictureFits, renderFits} from './fits.mjs';
import {addressesOf, letGo, showPicture} from './pictures.mjs';
import {say} from './notices.mjs';
import {awaited, bindPressing, keepsCell, press, renderPressing} from './pressing.mjs';
import {write} from './units.mjs';

// PAUSE in ms is how long the draft must rest before the pictures are drawn anew; the editor asks for none while a hand
// moves.
const PAUSE = 80;
const families = [
  ['oblique', 'Oblique'], ['hexagonal', 'Hexagonal'], ['rectangular', 'Rectangular'], ['square', 'Square'],
];

const place = byId('groups');
const note = byId('group-note');
const words = byId('group-words'); // beside the last family
const order = byId('group-order', HTMLSelectElement);
const best = byId('group-best');
const ranked = make('div', 'pictures ranked'); // all seventeen, in another order than by family

/** @type {Lane | null} */
let lane = null; // there once the first drawing is done, and the engine may work
/** @type {GroupCard[]} */
let groups = [];
/** @type {Map<string, HTMLElement>} */
const cards = new Map(); // by symbol
/** @type {Units} */
let units = 'mm';
let chosen = '';
let described = '';
let arranged = ''; // the order that the pictures stand in
let width = 0; // of a picture, CSS px; 0 while the step is closed
let drawnWidth = 0;
let wanted = -1; // the pictures' serial the view asks for
let drawn = -1; // serial of the pictures that are shown, or being drawn
let timer = 0;
/** @type {Map<string, string>} */
let plain = new Map(); // addresses of the pictures of the draft's own cell, by symbol

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
  place.append(ranked, words);
  mark(chosen);
  describe(chosen);
  bindFits(groups.map(({symbol}) => symbol), fitted);
  bindPressing(() => {
    mark(chosen);
    fitted();
    describe(described);
  });
  place.addEventListener('change', (event) => {
    if (within(event, '.group')) press(valueOf(event));
  });
  place.addEventListener('click', (event) => { // the one that is chosen already does not change
    const again = event.target instanceof HTMLInputElement && event.target.name === 'group' && event.target.value;
    if (again && again === chosen && !awaited()) press(again);
  });
  order.addEventListener('change', () => {
    arrange(true);
    fitted();
  });
  new ResizeObserver(([entry]) => {
    width = entry.contentRect.width;
    draw();
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
  label.append(input, picture, make('b', '', group.symbol), make('span', 'orbifold', signs(group.orbifold)),
    cover());
  cards.set(group.symbol, label);
  return label;
}

// Where it stands how much of the fitted field is open, and the sign of a bridge where that holds.
function cover() {
  const line = make('span', 'cover');
  const sign = make('span', 'holds');
  sign.hidden = true;
  line.append(make('span', 'open'), sign);
  return line;
}

// The orbifold symbol with signs that sit on the line.
/** @param {string} orbifold */
export function signs(orbifold) {
  return orbifold.replaceAll('*', '∗').replaceAll('x', '×');
}

/** @param {string} symbol */
function describe(symbol) {
  described = symbol;
  const group = groups.find((each) => each.symbol === symbol);
  if (!group) return;
  const older = group.older && group.older !== group.symbol ? ` (older: ${group.older})` : '';
  note.replaceChildren(make('b', '', group.symbol), `${older}. ${group.line} ${told(symbol)}`);
}

// What a group's fit has come to, in words; '' where there is none yet or none is wanted.
/** @param {string} symbol */
function told(symbol) {
  if (keepsCell()) return '';
  const row = fitOf(symbol)?.row;
  if (!row) return noFit(symbol);
  const {cover, narrowest, evenness, holds} = row;
  /** @param {number} mm */
  const size = (mm) => write(mm, 'length', units);
  return `Fitted: ${percent(cover)} open, gaps from ${size(narrowest)} to ${size(evenness.widest)} ${units}; `
    + (holds ? 'it holds.' : 'faults within a silhouette remain.');
}

/** @param {number} part */
const percent = (part) => `${Math.round(100 * part)} %`;

// How many times as wide as the narrowest gap the widest is.
/** @param {Evenness} evenness */
const spread = ({narrowest, widest}) => widest / narrowest;

/** @param {Evenness} evenness */
const ratio = (evenness) => spread(evenness).toFixed(1);

/** @param {string} symbol */
function mark(symbol) {
  for (const input of every(place, 'input[name=group]', HTMLInputElement)) input.checked = input.value === symbol;
}

/** @param {View} view */
export function renderGroups(view) {
  units = view.units;
  renderPressing(view);
  renderFits(view);
  if (view.repeat.group !== chosen) {
    chosen = view.repeat.group;
    if (!awaited()) mark(chosen);
    describe(chosen);
  }
  wanted = view.pictures;
  draw();
}

// From now on the pictures may be drawn, by the lane of the engine.
/** @param {Lane} engineLane */
export function drawGroups(engineLane) {
  lane = engineLane;
  draw();
}

// Has the pictures of the draft's own cell drawn when they are out of date and can be seen.
function draw() {
  if (!lane || !width || wanted < 0) return;
  if (wanted === drawn && Math.abs(width - drawnWidth) < 1) return;
  clearTimeout(timer);
  timer = setTimeout(drawPlain, drawn < 0 ? 0 : PAUSE); // a newer serial ends what is being drawn for an older one
}

async function drawPlain() {
  const box = find(place, '.group-picture > span').getBoundingClientRect();
  if (!box.width || !lane) return; // closed again meanwhile
  drawn = wanted;
  drawnWidth = width;
  const ratio = globalThis.devicePixelRatio || 1;
  const [w, h] = [box.width, box.height].map((side) => Math.max(1, Math.round(side * ratio)));
  const args = {draft: editor.save(), width: w, height: h};
  try {
    const {value, bytes} = await lane.ask('pictures', args, {instead: true});
    letGo(plain.values());
    plain = addressesOf(value, bytes);
    place.classList.remove('unpictured');
  } catch (error) {
    // An empty draft has none; the symbols remain.
    if (!(error instanceof Superseded)) place.classList.add('unpictured');
  }
  fitted();
  pictureFits(w, h);
}

// Shows of each group its fitted picture, or that of the draft's own cell, and what the fit has come to.
function fitted() {
  for (const [symbol, card] of cards) {
    const fit = keepsCell() ? undefined : fitOf(symbol);
    showPicture(card, fit?.url ?? plain.get(symbol) ?? '');
    const none = fit || keepsCell() ? '' : noFit(symbol);
    say(find(card, '.open', HTMLElement), caption(fit?.row, none));
    find(card, '.holds', HTMLElement).hidden = !fit;
    card.classList.toggle('sound', Boolean(fit?.row.holds));
    const group = groups.find((each) => each.symbol === symbol);
    find(card, 'input').setAttribute('aria-description', `${group?.line} ${told(symbol)}`);
    card.title = told(symbol);
  }
  place.classList.toggle('fitting', !keepsCell() && !allFitted());
  arrange();
  suit();
}

/** @param {FittedRow | undefined} row @param {string} none */
function caption(row, none) {
  if (!row) return none ? 'no fit' : '';
  return order.value === 'evenness' ? `1 : ${ratio(row.evenness)}` : percent(row.cover);
}

// Puts the pictures in the order that was asked for; those that have no fit stand last. What lies under the pointer
// stays where it is, unless the person asks for another order.
/** @param {boolean} [asked] */
function arrange(asked = false) {
  const by = order.value;
  const list = groups.map(({symbol}) => symbol);
  if (by !== 'family') list.sort((a, b) => rank(a) - rank(b));
  const now = [by, ...list].join();
  if (now === arranged || !asked && ranked.matches(':hover, :focus-within')) return;
  arranged = now;
  place.classList.toggle('ranking', by !== 'family');
  const focus = document.activeElement;
  for (const symbol of list) {
    const card = cards.get(symbol), family = groups.find((each) => each.symbol === symbol)?.family;
    if (card) (by === 'family' ? find(place, `.family.${family} .pictures`) : ranked).append(card);
  }
  if (focus instanceof HTMLElement && place.contains(focus)) focus.focus();
}

// Says which group suits the silhouettes best, in the order that was asked for.
function suit() {
  const first = order.value === 'family' || keepsCell() ? undefined : arranged.split(',')[1];
  const row = first && fitOf(first)?.row;
  if (!row) return say(best, '');
  say(best, order.value === 'evenness'
    ? `${first} suits best: its widest gap is only ${ratio(row.evenness)} times its narrowest.`
    : `${first} suits best: ${percent(row.cover)} of its sheet is open.`);
}

// The less, the better: by cover, or by how much wider the widest gap is than the narrowest.
/** @param {string} symbol */
function rank(symbol) {
  const row = fitOf(symbol)?.row;
  if (!row) return Infinity;
  return order.value === 'evenness' ? spread(row.evenness) : -row.cover;
}
