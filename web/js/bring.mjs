// The dialog that brings in a drawing: the file, how it is read, the outline over it, and which pieces to take.

import {bindAids, showAids} from './aids.mjs';
import {editor} from './bridge.mjs';
import {bindChoices, choicesIn, chosenOptions, freshChoices, quarterTurns, renderFound} from './choices.mjs';
import {byId, caution, every, find, make, pressed, sentenceOf, within} from './dom.mjs';
import {Lane, Stopped, Superseded} from './engine.mjs';
import {tooLarge} from './files.mjs';
import {Paper} from './paper.mjs';
import {openGaps, sizeOf, tooNarrow, usuallyTaken, whatItBecomes} from './pieces.mjs';
import {Bar} from './work.mjs';

const PAUSE = 220; // ms after the last choice before the drawing is traced anew
const UNSHOWN = /[./]tiff?$/i; // of names and types: browsers do not show these, and the engine draws them

const dialog = byId('bring', HTMLDialogElement);
const form = byId('bring-form');
const chooser = byId('bring-file', HTMLInputElement);
const mode = byId('bring-mode', HTMLSelectElement);
const several = byId('bring-several', HTMLFieldSetElement);
const paper = byId('bring-paper');
const add = byId('bring-add', HTMLButtonElement);

const lane = new Lane();
const sheet = new Paper(byId('bring-image', HTMLImageElement), byId('bring-outline', SVGSVGElement), {
  picked: (index) => toggle(index), shown: () => reveal(),
});
const bar = new Bar(byId('bring-work'), chooser);

/** @type {View | undefined} */
let view;
/** @type {File | null} */
let file = null;
/** @type {Uint8Array<ArrayBuffer> | null} */
let bytes = null;
/** @type {Traced | null} */
let traced = null; // the engine's last answer
/** @type {boolean[]} */
let taken = []; // which pieces
let touched = false; // the person chose pieces
let timer = 0;

export function bindBring() {
  pressed('bring-in', () => bring());
  chooser.addEventListener('change', () => {
    const chosen = chooser.files?.[0];
    if (chosen) read(chosen);
  });
  find(dialog, '[data-close]').addEventListener('click', () => dialog.close());
  dialog.addEventListener('close', () => {
    forget();
    chooser.value = '';
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    take();
  });
  form.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' && within(event, 'input:not([type=checkbox])')) event.preventDefault();
  });
  bindChoices(later);
  bindAids(sheet, later);
  mode.addEventListener('change', renderAdd);
  several.addEventListener('change', renderAdd);
}

/** @param {View} next */
export function renderBring(next) {
  view = next;
  choicesIn(next.units);
}

// Opens the dialog, with a file if there is one already, in place of a silhouette if one is named.
/** @param {File | null} [given] @param {string} [subject] a mode of what stands in front of the pattern: 'subject:' */
export function bring(given = null, instead = '', subject = '') {
  forget();
  mode.replaceChildren(...whatItBecomes(view).map(([words, value]) => new Option(words, value)));
  if (subject || instead) mode.value = subject || `replace:${instead}`;
  find(several, '[value=one]', HTMLInputElement).checked = true;
  renderAdd();
  if (!dialog.open) dialog.showModal();
  lane.warm();
  chooser.value = '';
  if (given) {
    const list = new DataTransfer();
    list.items.add(given);
    chooser.files = list.files; // the field names a dropped file too
    read(given);
  } else chooser.focus();
}

// Ends what is going on and empties the dialog.
function forget() {
  clearTimeout(timer);
  lane.drop('trace');
  file = bytes = traced = null;
  taken = [];
  touched = false;
  freshChoices();
  sheet.clear();
  paper.hidden = true;
  byId('bring-empty').hidden = false;
  byId('bring-choices').hidden = true;
  byId('bring-name').textContent = 'Bring in a drawing';
  busy(false);
  blame('');
  renderPieces();
}

/** @param {File} next */
async function read(next) {
  const wanted = mode.value;
  forget();
  mode.value = wanted;
  file = next;
  byId('bring-name').textContent = next.name;
  const large = tooLarge(next);
  if (large) return blame(large);
  busy(true, `Looking at ${next.name}…`);
  try {
    const content = new Uint8Array(await next.arrayBuffer());
    if (file !== next) return;
    bytes = content;
    trace();
  } catch (error) {
    blame(`${next.name} could not be read: ${sentenceOf(error)}.`);
    busy(false);
  }
}

function later() {
  if (!bytes) return;
  showAids(sheet);
  busy(true, 'Tracing…');
  clearTimeout(timer);
  timer = setTimeout(trace, PAUSE);
}

async function trace() {
  if (!file || !bytes) return;
  const now = file, content = bytes;
  const quarters = quarterTurns();
  const progress = bar.begin(() => lane.stop('trace'));
  try {
    const look = UNSHOWN.test(now.name) || UNSHOWN.test(now.type);
    const options = {...chosenOptions(sheet.size(quarters), view?.sheet ?? {}), ...(look && {look})};
    const how = {bytes: content, instead: true, progress};
    const {value, bytes: picture} = await lane.ask('trace', {name: now.name, options}, how);
    if (file !== now) return;
    blame(value.failed);
    show(value, quarters, picture);
  } catch (error) {
    if (error instanceof Superseded || file !== now) return;
    traced = error instanceof Stopped ? traced : null;
    if (!traced) { // the picture stays, to be read in another way
      sheet.outlines([]);
      sheet.rings([], []);
      sheet.picture(now, content, quarters);
      showAids(sheet);
    }
    renderPieces();
    blame(error instanceof Stopped ? 'Stopped. Change a choice, and the drawing is read again.' : sentenceOf(error));
  }
  bar.end();
  busy(false);
}

function reveal() {
  paper.hidden = false;
  byId('bring-empty').hidden = true;
  byId('bring-choices').hidden = false;
}

/** @param {Traced} value @param {number} quarters @param {Uint8Array<ArrayBuffer>} picture */
function show(value, quarters, picture) {
  if (!file || !bytes) return;
  const same = touched && traced?.list.length === value.list.length;
  traced = value;
  if (!same) {
    touched = false;
    taken = usuallyTaken(value);
  }
  reveal();
  if (picture.length) sheet.upright(file, picture, quarters);
  else sheet.picture(file, bytes, quarters);
  sheet.outlines(value.preview.paths, [value.preview.w, value.preview.h]);
  sheet.turn(chosenOptions(null, {}).turn ?? 0);
  showAids(sheet);
  renderFound(value);
  renderPieces();
}

// Rings the places narrower than the sheet of the draft allows, and says of them.
function renderNarrow() {
  const places = (traced?.narrow ?? []).filter(({of}) => of.every((piece) => taken[piece] ?? true));
  sheet.rings(places.map(({px}) => px), (traced?.gaps ?? []).map(({px}) => px));
  caution(byId('bring-narrow'), tooNarrow(places, view?.sheet ?? {}, view?.units ?? 'mm'));
}

function renderPieces() {
  const place = byId('bring-pieces');
  const list = traced?.list ?? [];
  const found = list.length === 1 ? 'One piece found' : list.length ? `${list.length} pieces found` : 'Pieces found';
  byId('bring-pieces-name').textContent = found;
  const active = document.activeElement;
  const focused = active instanceof HTMLElement && place.contains(active) ? Number(active.dataset.index) : -1;
  place.replaceChildren(...list.map(pieceRow));
  if (focused >= 0) boxAt(focused)?.focus();
  const gaps = openGaps(traced?.gaps ?? [], view?.units ?? 'mm');
  byId('bring-left').replaceChildren(...[...(traced?.left ?? []), ...gaps].map((words) => make('li', '', words)));
  const points = list.reduce((sum, piece, i) => sum + (taken[i] ? piece.points : 0), 0);
  byId('bring-points').textContent = points ? `${points.toLocaleString('en-GB')} points in what is taken` : '';
  renderNarrow();
  sheet.mark(taken);
  renderAdd();
}

/** @param {TracedSize} piece @param {number} index */
function pieceRow(piece, index) {
  const item = make('li');
  const label = make('label', 'tick');
  const box = make('input');
  box.type = 'checkbox';
  box.checked = taken[index];
  box.dataset.index = String(index);
  box.addEventListener('change', () => toggle(index, box.checked));
  label.append(box, make('span', '', sizeOf(piece, view?.units ?? 'mm')));
  label.addEventListener('pointerenter', () => sheet.point(index));
  label.addEventListener('pointerleave', () => sheet.point(-1));
  box.addEventListener('focus', () => sheet.point(index));
  box.addEventListener('blur', () => sheet.point(-1));
  item.append(label);
  return item;
}

// The tick of a piece, undefined while it is not there.
/** @param {number} index */
function boxAt(index) {
  return every(byId('bring-pieces'), `[data-index="${index}"]`, HTMLInputElement)[0];
}

/** @param {number} index */
function toggle(index, on = !taken[index]) {
  taken[index] = on;
  touched = true;
  const box = boxAt(index);
  if (box) box.checked = on;
  renderPieces();
}

function renderAdd() {
  const count = taken.filter(Boolean).length;
  const front = mode.value.startsWith('subject:');
  const instead = mode.value.startsWith('replace:') || (front && mode.value !== 'subject:');
  several.hidden = count < 2 || instead;
  add.disabled = !traced || !count;
  const words = apart() ? `${count} silhouettes` : 'silhouette';
  if (instead) add.textContent = 'Replace';
  else if (front) add.textContent = apart() ? `Set ${count} in front` : 'Set it in front';
  else if (mode.value === 'fresh') add.textContent = apart() ? `Begin with ${words}` : 'Begin with it';
  else add.textContent = `Add ${words}`;
}

// Each piece becomes a silhouette of its own.
const apart = () => !several.hidden && find(several, '[value=apart]', HTMLInputElement).checked;

function take() {
  const chosen = taken.flatMap((on, i) => (on ? [i] : []));
  if (!traced || !chosen.length) return;
  const sentence = editor.pieces(traced.pieces, chosen, mode.value, apart());
  if (sentence) return blame(sentence);
  dialog.close();
  globalThis.openworkChanged();
  toWhatCame();
}

// Gives the focus to what was brought in: the subject's or the silhouette's row, else the panel where it lies.
function toWhatCame() {
  const rows = mode.value.startsWith('subject:') ? every(document, '#subjects [aria-pressed=true]')
    : every(document, '#silhouettes .silhouette-name input');
  const row = rows.at(-1);
  (row?.checkVisibility() ? row : byId('bench')).focus();
}

/** @param {boolean} yes */
function busy(yes, words = '') {
  byId('bring-busy').hidden = !yes;
  byId('bring-busy-said').textContent = words;
  dialog.classList.toggle('working', yes);
  if (yes) add.disabled = true;
  else renderAdd();
}

/** @param {string} sentence */
const blame = (sentence) => caution(byId('bring-error'), sentence);
