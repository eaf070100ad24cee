// Step 1: the silhouettes of the draft, their names and sizes, and the motifs that stand in the cell.

import {editor} from './bridge.mjs';
import {draw} from './draw.mjs';
import {tell} from './notices.mjs';
import {write} from './units.mjs';

const place = document.getElementById('silhouettes');
let shown = '';
let replace = () => {};

// run(id) opens the dialog that brings in a drawing in place of a silhouette.
export function bindSilhouettes(run) {
  replace = run;
}

export function renderSilhouettes(view) {
  const key = JSON.stringify([view.silhouettes, view.motifs.map((m) => [m.id, m.name, m.silhouette, m.text]), view.selected, view.units]);
  if (key === shown) return;
  shown = key;
  const held = hold();
  place.replaceChildren(...view.silhouettes.map((silhouette) => row(silhouette, view)));
  held();
}

// Remembers which control has the focus, and gives a function that brings it back after the list is made anew.
function hold() {
  const active = document.activeElement;
  if (!place.contains(active)) return () => {};
  const {key} = active.dataset;
  const typed = active.matches('input') ? {value: active.value, from: active.selectionStart, to: active.selectionEnd, dirty: active.value !== active.defaultValue} : null;
  return () => {
    const again = place.querySelector(`[data-key="${CSS.escape(key ?? '')}"]`) ?? document.getElementById('bring-in');
    again.focus();
    if (typed?.dirty && again.matches('input')) {
      again.value = typed.value;
      again.setSelectionRange(typed.from, typed.to);
    }
  };
}

function row(silhouette, view) {
  const {id, name, width, height, points} = silhouette;
  const item = make('li', 'silhouette');
  if (silhouette.path) item.append(thumb(silhouette));
  const label = make('label', 'silhouette-name');
  label.append(make('span', 'unseen', 'Name of the silhouette'));
  const input = make('input');
  Object.assign(input, {type: 'text', value: name, defaultValue: name, maxLength: 80, autocomplete: 'off', spellcheck: false});
  input.dataset.key = `name ${id}`;
  input.addEventListener('change', () => tell(editor.command('name', {id, text: input.value})));
  label.append(input);
  const unit = view.units;
  const size = make('p', 'silhouette-size', `${write(width, 'length', unit)} × ${write(height, 'length', unit)} ${unit}, ${points} points`);
  const deeds = make('p', 'row');
  deeds.append(
    deed('Draw on it', `Draw on ${name}: move its points, join or cut away`, `draw ${id}`, () => draw(id)),
    deed('Place another', `Place another ${name} in the cell`, `place ${id}`, () => tell(editor.command('motif', {text: id}))),
    deed('Another like it', `Another silhouette like ${name}`, `copy ${id}`, () => tell(editor.copySilhouette(id))),
    deed('Mirror', `Turn ${name} the other way round`, `mirror ${id}`, () => tell(editor.mirrorSilhouette(id))),
    deed('From a file…', `Replace the outline of ${name} from a file; its motifs stay`, `redraw ${id}`, () => replace(id)),
    deed('Throw away', `Throw away ${name}`, `discard ${id}`, () => tell(editor.command('discard', {id}))),
  );
  item.append(label, size, motifs(view, id), deeds);
  return item;
}

function motifs(view, id) {
  const list = make('p', 'motifs');
  const own = view.motifs.filter((motif) => motif.silhouette === id);
  if (!own.length) list.append('Not placed in the cell yet.');
  else list.append(make('span', '', 'In the cell:'));
  for (const motif of own) {
    const it = deed(motif.name, '', `motif ${motif.id}`, () => editor.select(motif.id));
    it.classList.add('motif-pick');
    it.setAttribute('aria-pressed', String(motif.id === view.selected));
    if (motif.text) it.title = motif.text;
    list.append(it);
  }
  return list;
}

// The outline as the editor draws it: SVG path data in mm, y down, from the upper left of the silhouette.
function thumb({path, width, height}) {
  const ns = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(ns, 'svg');
  svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
  svg.setAttribute('class', 'silhouette-picture');
  svg.setAttribute('aria-hidden', 'true');
  const shape = document.createElementNS(ns, 'path');
  shape.setAttribute('d', path);
  shape.setAttribute('fill-rule', 'evenodd');
  svg.append(shape);
  return svg;
}

function deed(text, label, key, run) {
  const it = make('button', 'plain small', text);
  it.type = 'button';
  if (label) it.setAttribute('aria-label', label);
  it.dataset.key = key;
  it.addEventListener('click', run);
  return it;
}

function make(tag, className = '', text = '') {
  const it = document.createElement(tag);
  if (className) it.className = className;
  if (text) it.textContent = text;
  return it;
}
