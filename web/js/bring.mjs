// The dialog that brings in a drawing: the file, how it is read, the outline over it, and which pieces to take.

import {editor} from './bridge.mjs';
import {bindChoices, chosenOptions, cropOf, freshChoices, levelBy, pointsSet, quarterTurns, renderFound, setCrop, setPoints} from './choices.mjs';
import {Lane, Stopped, Superseded} from './engine.mjs';
import {tooLarge} from './files.mjs';
import {Paper} from './paper.mjs';
import {plain} from './units.mjs';
import {Bar} from './work.mjs';

const PAUSE = 220; // ms after the last choice before the drawing is traced anew
const UNSHOWN = /[./]tiff?$/i; // of names and types: browsers do not show these, and the engine draws them
const SHARE = 0.1; // pieces at least this part of the largest are taken unless the person says otherwise

const byId = (id) => document.getElementById(id);
const dialog = byId('bring');
const form = byId('bring-form');
const chooser = byId('bring-file');
const paper = byId('bring-paper');

const lane = new Lane();
const sheet = new Paper(byId('bring-image'), byId('bring-outline'), {picked: (index) => toggle(index), shown: () => reveal()});
const bar = new Bar(byId('bring-work'), byId('bring-file'));

let draft = {silhouettes: []}; // the view
let file = null;
let bytes = null;
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
  bindChoices(later);
  for (const button of form.querySelectorAll('[data-aid]')) button.addEventListener('click', () => aid(button));
  byId('bring-mode').addEventListener('change', renderAdd);
}

const aids = {
  crop: {say: 'Draw across the part that is to be read, from one corner to the other.', done: ([x0, y0], [x1, y1]) => {
    setCrop([Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)]);
    later();
  }},
  level: {say: 'Draw along something that should lie level, or upright.', done: levelBy},
  points: {say: 'Draw from one point to another whose distance you know.', done: (from, to) => {
    setPoints([from, to]);
    form.querySelector('[data-trace=distance]').focus();
    later();
  }},
};

// Begins to draw on the picture, or lets it be.
function aid(button) {
  const kind = button.getAttribute('aria-pressed') === 'true' ? null : button.dataset.aid;
  for (const each of form.querySelectorAll('[data-aid]')) each.setAttribute('aria-pressed', String(each.dataset.aid === kind));
  const line = byId('bring-aid');
  line.hidden = !kind;
  line.textContent = kind ? aids[kind].say : '';
  if (kind) paper.scrollIntoView({block: 'nearest'});
  sheet.draw(kind, (from, to) => {
    aid(form.querySelector('[data-aid][aria-pressed=true]'));
    aids[kind].done(from, to);
  });
}

function showAids() {
  const size = sheet.size(quarterTurns());
  sheet.aids({crop: size && cropOf(...size), points: form.querySelector('[name=scale]:checked').value === 'distance' ? pointsSet() : null});
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

async function read(next) {
  const mode = byId('bring-mode').value;
  forget();
  byId('bring-mode').value = mode;
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
    blame(`${next.name} could not be read: ${error.message}.`);
    busy(false);
  }
}

function later() {
  if (!bytes) return;
  showAids();
  busy(true, 'Tracing…');
  clearTimeout(timer);
  timer = setTimeout(trace, PAUSE);
}

async function trace() {
  const now = file;
  const quarters = quarterTurns();
  const told = bar.begin(() => lane.stop('trace'));
  try {
    const look = UNSHOWN.test(file.name) || UNSHOWN.test(file.type);
    const options = {...chosenOptions(sheet.size(quarters), draft.sheet ?? {}), ...(look && {look})};
    const {value, bytes: picture} = await lane.ask('trace', {name: file.name, options}, {bytes, instead: true, told});
    if (file !== now) return;
    blame('');
    show({...value, quarters, picture});
  } catch (error) {
    if (error instanceof Superseded || file !== now) return;
    traced = error instanceof Stopped ? traced : null;
    if (!traced) { // the picture stays, to be read in another way
      sheet.outlines([]);
      sheet.narrow([]);
      sheet.picture(file, bytes, quarters);
      showAids();
    }
    renderPieces();
    blame(error instanceof Stopped ? 'Stopped. Change a choice, and the drawing is read again.' : error.message);
  }
  bar.end();
  busy(false);
}

function reveal() {
  paper.hidden = false;
  byId('bring-empty').hidden = true;
  byId('bring-choices').hidden = false;
}

function show(value) {
  const same = touched && traced?.list.length === value.list.length;
  traced = value;
  if (!same) {
    touched = false;
    const largest = value.list[0]?.area ?? 0;
    taken = value.list.map((piece, i) => i === 0 || piece.area >= SHARE * largest);
  }
  reveal();
  if (value.picture) sheet.upright(file, value.picture, value.quarters);
  else sheet.picture(file, bytes, value.quarters);
  sheet.outlines(value.preview.paths, [value.preview.w, value.preview.h]);
  sheet.narrow(value.narrow.map(({px}) => px));
  showAids();
  renderFound(value);
  renderPieces();
}

// Says which places are narrower than the sheet of the draft allows.
function renderNarrow() {
  const places = traced?.narrow ?? [];
  const parts = [];
  for (const [kind, need, one, more] of [
    ['opening', draft.sheet?.opening, 'One place of the drawing is', 'places of the drawing are'],
    ['bridge', draft.sheet?.bridge, 'One strip of paper between is', 'strips of paper between are'],
  ]) {
    const widths = places.filter((place) => place.kind === kind).map(({width}) => width);
    if (!widths.length) continue;
    const what = widths.length === 1 ? one : `${widths.length} ${more}`;
    parts.push(`${what} narrower than the ${plain(need, 2)} mm this sheet asks for, down to ${plain(Math.min(...widths), 2)} mm.`);
  }
  const line = byId('bring-narrow');
  line.hidden = !parts.length;
  line.textContent = [...parts, 'They are ringed.'].join(' ');
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
  const points = list.reduce((sum, piece, i) => sum + (taken[i] ? piece.points : 0), 0);
  byId('bring-points').textContent = points ? `${points.toLocaleString('en-GB')} points in what is taken` : '';
  renderNarrow();
  sheet.mark(taken);
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
  label.addEventListener('pointerenter', () => sheet.point(index));
  label.addEventListener('pointerleave', () => sheet.point(-1));
  box.addEventListener('focus', () => sheet.point(index));
  box.addEventListener('blur', () => sheet.point(-1));
  item.append(label);
  return item;
}

function toggle(index, on = !taken[index]) {
  taken[index] = on;
  touched = true;
  const box = byId('bring-pieces').querySelector(`[data-index="${index}"]`);
  if (box) box.checked = on;
  renderPieces();
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
  byId('bring-busy').hidden = !yes;
  byId('bring-busy-said').textContent = words;
  dialog.classList.toggle('working', yes);
  if (yes) byId('bring-add').disabled = true;
  else renderAdd();
}

function blame(sentence) {
  const place = byId('bring-error');
  place.hidden = !sentence;
  place.textContent = sentence;
}
