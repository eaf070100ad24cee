// The dialog that brings in a drawing: the file, how it is traced, the outline over it, and which pieces to take.

import {editor} from './bridge.mjs';
import {Lane, Superseded} from './engine.mjs';
import {NumberField} from './fields.mjs';
import {Overlay} from './overlay.mjs';
import {plain} from './units.mjs';

const PAUSE = 220; // ms after the last choice before the drawing is traced anew
const LIMIT = 128 << 20; // bytes, as the engine's
const NONE = -1; // drop no specks, fill no holes; 0 would be the usual size
const SHARE = 0.1; // pieces at least this part of the largest are taken unless the person says otherwise

const byId = (id) => document.getElementById(id);
const dialog = byId('bring');
const form = byId('bring-form');
const chooser = byId('bring-file');
const level = byId('bring-level');
const paper = byId('bring-paper');

const lane = new Lane();
const overlay = new Overlay(byId('bring-image'), byId('bring-outline'), (index) => toggle(index));
const numbers = {}; // name → {field, value}, value null until the person types one

let draft = {silhouettes: []}; // the view
let file = null;
let bytes = null;
let options = {};
let traced = null; // the engine's last answer
let taken = []; // which pieces
let touched = false; // the person chose pieces
let timer = 0;

export function bindBring() {
  byId('bring-in').addEventListener('click', () => bring());
  chooser.addEventListener('change', () => chooser.files[0] && read(chooser.files[0]));
  dialog.querySelector('[data-close]').addEventListener('click', () => dialog.close());
  dialog.addEventListener('close', () => {
    forget();
    chooser.value = '';
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    add();
  });
  form.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' && event.target.matches('input:not([type=checkbox])')) event.preventDefault();
  });
  level.addEventListener('input', () => setLevel(Number(level.value)));
  byId('bring-level-free').addEventListener('click', () => {
    setLevel(null);
    level.focus();
  });
  for (const radio of form.querySelectorAll('[name=ink]')) radio.addEventListener('change', later);
  for (const radio of form.querySelectorAll('[name=scale]')) radio.addEventListener('change', later);
  for (const input of form.querySelectorAll('[data-trace]')) bindNumber(input);
  byId('bring-mode').addEventListener('change', renderAdd);
}

function bindNumber(input) {
  const name = input.dataset.trace;
  const after = input.dataset.after;
  numbers[name] = {value: null};
  numbers[name].field = new NumberField(input, 'plain', (value) => {
    if (input.value.trim() === '') {
      numbers[name].value = null;
      later();
      return '';
    }
    if (!(value > 0) && !(value === 0 && name !== 'dpi' && name !== 'height' && name !== 'tolerance')) return 'Type a number above nought.';
    numbers[name].value = value;
    if (name === 'height' || name === 'dpi') form.querySelector(`[name=scale][value=${name}]`).checked = true;
    later();
    return '';
  }, after);
}

export function renderBring(view) {
  draft = view;
}

// Opens the dialog, with a file if there is one already, in place of a silhouette if one is named.
export function bring(given = null, instead = '') {
  forget();
  const mode = byId('bring-mode');
  mode.replaceChildren(new Option('Add as a new one', 'add'),
    ...draft.silhouettes.map(({id, name}) => new Option(`Put in place of ${name}`, `replace:${id}`)));
  mode.value = instead ? `replace:${instead}` : 'add';
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
  options = {};
  for (const [name, each] of Object.entries(numbers)) {
    each.value = null;
    form.querySelector(`[data-trace=${name}]`).value = '';
  }
  form.querySelector('[name=ink][value=dark]').checked = true;
  form.querySelector('[name=scale][value=file]').checked = true;
  overlay.clear();
  paper.hidden = true;
  byId('bring-empty').hidden = false;
  byId('bring-choices').hidden = true;
  byId('bring-name').textContent = 'Bring in a drawing';
  busy(false);
  blame('');
  renderLevel(null);
  renderPieces();
}

async function read(next) {
  const mode = byId('bring-mode').value;
  forget();
  byId('bring-mode').value = mode;
  file = next;
  byId('bring-name').textContent = next.name;
  if (next.size > LIMIT) return blame(`${next.name} is ${Math.round(next.size / (1 << 20))} MB; the most that can be read is ${LIMIT >> 20} MB.`);
  busy(true, `Looking at ${next.name}…`);
  try {
    const content = new Uint8Array(await next.arrayBuffer());
    if (file !== next) return;
    bytes = content;
    trace();
  } catch (error) {
    blame(`${next.name} could not be read: ${error.message}.`);
    busy(false);
  }
}

function setLevel(value) {
  options.level = value ?? undefined;
  renderLevel(traced?.level ?? null);
  later();
}

function renderLevel(found) {
  const own = options.level !== undefined;
  if (!own && found !== null) level.value = String(found);
  byId('bring-level-said').textContent = own ? `set to ${Number(level.value).toFixed(2)}`
    : found === null ? 'found by itself' : `${found.toFixed(2)}, found by itself`;
  byId('bring-level-free').hidden = !own;
}

function later() {
  if (!bytes) return;
  busy(true, 'Tracing…');
  clearTimeout(timer);
  timer = setTimeout(trace, PAUSE);
}

function chosenOptions() {
  const chosen = {};
  if (options.level !== undefined) chosen.level = options.level;
  for (const name of ['specks', 'pinholes', 'tolerance']) {
    if (numbers[name].value !== null) chosen[name] = numbers[name].value || NONE;
  }
  const scale = form.querySelector('[name=scale]:checked').value;
  if (scale !== 'file' && numbers[scale].value !== null) chosen[scale] = numbers[scale].value;
  if (form.querySelector('[name=ink]:checked').value === 'light') chosen.invert = true;
  return chosen;
}

async function trace() {
  const now = file;
  try {
    const {value} = await lane.ask('trace', {name: file.name, options: chosenOptions()}, {bytes, instead: true});
    if (file !== now) return;
    blame('');
    show(value);
    busy(false);
  } catch (error) {
    if (error instanceof Superseded || file !== now) return;
    traced = null;
    overlay.outlines([], 1, 1);
    renderPieces();
    blame(error.message);
    busy(false);
  }
}

function show(value) {
  const same = touched && traced?.list.length === value.list.length;
  traced = value;
  if (!same) {
    touched = false;
    const largest = value.list[0]?.area ?? 0;
    taken = value.list.map((piece, i) => i === 0 || piece.area >= SHARE * largest);
  }
  paper.hidden = false;
  byId('bring-empty').hidden = true;
  byId('bring-choices').hidden = false;
  overlay.picture(file, bytes);
  overlay.outlines(value.preview.paths, value.preview.w, value.preview.h);
  const grey = value.level > 0; // an SVG has no greys to divide
  byId('bring-ink').hidden = byId('bring-grey').hidden = !grey;
  renderLevel(grey ? value.level : null);
  renderScale(value);
  renderPieces();
}

const sources = {
  file: ({dpi}) => `as the file says, ${plain(dpi, 1)} dpi`,
  assumed: ({dpi}) => `the file does not say; ${plain(dpi, 1)} dpi is assumed`,
};

function renderScale(value) {
  const says = sources[value.source];
  if (says) byId('bring-file-says').textContent = says(value);
  for (const name of ['height', 'dpi']) numbers[name].field.show(value[name], 'mm');
}

function renderPieces() {
  const place = byId('bring-pieces');
  const list = traced?.list ?? [];
  byId('bring-pieces-name').textContent = list.length === 1 ? 'One piece found' : list.length ? `${list.length} pieces found` : 'Pieces found';
  const focused = place.contains(document.activeElement) ? Number(document.activeElement.dataset.index) : -1;
  place.replaceChildren(...list.map(pieceRow));
  if (focused >= 0) place.querySelector(`[data-index="${focused}"]`)?.focus();
  byId('bring-left').replaceChildren(...(traced?.left ?? []).map((sentence) => {
    const item = document.createElement('li');
    item.textContent = sentence;
    return item;
  }));
  overlay.mark(taken);
  renderAdd();
}

function pieceRow(piece, index) {
  const item = document.createElement('li');
  const label = document.createElement('label');
  label.className = 'tick';
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.checked = taken[index];
  box.dataset.index = index;
  box.addEventListener('change', () => toggle(index, box.checked));
  const text = document.createElement('span');
  text.textContent = `${plain(piece.width, 1)} × ${plain(piece.height, 1)} mm, ${piece.points} points`;
  label.append(box, text);
  label.addEventListener('pointerenter', () => overlay.point(index));
  label.addEventListener('pointerleave', () => overlay.point(-1));
  box.addEventListener('focus', () => overlay.point(index));
  box.addEventListener('blur', () => overlay.point(-1));
  item.append(label);
  return item;
}

function toggle(index, on = !taken[index]) {
  taken[index] = on;
  touched = true;
  const box = byId('bring-pieces').querySelector(`[data-index="${index}"]`);
  if (box) box.checked = on;
  overlay.mark(taken);
  renderAdd();
}

function renderAdd() {
  const count = taken.filter(Boolean).length;
  const add = byId('bring-add');
  const instead = byId('bring-mode').value !== 'add';
  add.disabled = !traced || !count || (instead && count !== 1);
  add.textContent = instead ? (count > 1 ? 'Choose one piece' : 'Replace') : count > 1 ? `Add ${count} silhouettes` : 'Add silhouette';
}

function add() {
  const chosen = taken.flatMap((on, i) => (on ? [i] : []));
  if (!traced || !chosen.length) return;
  const sentence = editor.pieces(traced.pieces, chosen, byId('bring-mode').value);
  if (sentence) return blame(sentence);
  dialog.close();
}

function busy(yes, words = '') {
  const line = byId('bring-busy');
  line.hidden = !yes;
  line.textContent = words;
  dialog.classList.toggle('working', yes);
  if (yes) byId('bring-add').disabled = true;
  else renderAdd();
}

function blame(sentence) {
  const place = byId('bring-error');
  place.hidden = !sentence;
  place.textContent = sentence;
}
