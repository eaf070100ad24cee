// Step 1: the silhouettes of the draft, their names and sizes, and the motifs that stand in the cell.

import {editor} from './bridge.mjs';
import {button, byId, every, make, shape} from './dom.mjs';
import {draw} from './draw.mjs';
import {NumberField} from './fields.mjs';
import {tell} from './notices.mjs';
import {write} from './units.mjs';

const place = byId('silhouettes');
let shown = '';
/** @type {(silhouette: string) => void} */
let replace = () => {};

// run(id) opens the dialog that brings in a drawing in place of a silhouette.
/** @param {(silhouette: string) => void} run */
export function bindSilhouettes(run) {
  replace = run;
}

/** @param {View} view */
export function renderSilhouettes(view) {
  const motifs = view.motifs.map((m) => [m.id, m.name, m.silhouette, m.text, m.scale]);
  const key = JSON.stringify([view.silhouettes, motifs, view.selected, view.units]);
  if (key === shown) return;
  shown = key;
  const held = hold();
  place.replaceChildren(...view.silhouettes.map((silhouette) => row(silhouette, view)));
  held();
}

// Remembers which control has the focus, and gives a function that brings it back after the list is made anew.
function hold() {
  const active = document.activeElement;
  if (!(active instanceof HTMLElement) || !place.contains(active)) return () => {};
  const {key = ''} = active.dataset;
  const alike = `[data-key^="${key.split(' ')[0]} "]`; // the same of another silhouette
  const at = every(place, alike).indexOf(active);
  const typed = active instanceof HTMLInputElement && active.value !== active.defaultValue
    ? {value: active.value, from: active.selectionStart, to: active.selectionEnd} : null;
  return () => {
    const again = every(place, `[data-key="${CSS.escape(key)}"]`)[0] ?? every(place, alike).slice(0, at + 1).at(-1)
      ?? byId('bring-in');
    again.focus();
    if (typed && again instanceof HTMLInputElement) {
      again.value = typed.value;
      again.setSelectionRange(typed.from, typed.to);
    }
  };
}

/** @param {SilhouetteView} silhouette @param {View} view */
function row(silhouette, view) {
  const {id, name, width, height, points} = silhouette;
  const item = make('li', 'silhouette');
  if (silhouette.path) item.append(thumb(silhouette));
  const label = make('label', 'silhouette-name');
  label.append(make('span', 'unseen', 'Name of the silhouette'));
  const input = make('input');
  Object.assign(input, {
    type: 'text', value: name, defaultValue: name, maxLength: 80, autocomplete: 'off', spellcheck: false,
  });
  input.dataset.key = `name ${id}`;
  input.addEventListener('change', () => tell(editor.command('name', {id, text: input.value})));
  label.append(input);
  const unit = view.units;
  const [across, up] = [width, height].map((side) => write(side, 'length', unit));
  const size = make('p', 'silhouette-size', `${across} × ${up} ${unit}, ${points} points`);
  const buttons = make('p', 'row');
  buttons.append(
    action('Draw on it', `Draw on it: move points of ${name}, join or cut away`, `draw ${id}`, () => draw(id)),
    action('Place another', `Place another ${name} in the cell`, `place ${id}`,
      () => tell(editor.command('motif', {text: id}))),
    action('Another like it', `Another like it: a second silhouette like ${name}`, `copy ${id}`,
      () => tell(editor.copySilhouette(id))),
    action('Mirror', `Mirror ${name}, to look the other way`, `mirror ${id}`, () => tell(editor.mirrorSilhouette(id))),
    action('From a file…', `Replace the outline of ${name} from a file; its motifs stay`, `redraw ${id}`,
      () => replace(id)),
    action('Throw away', `Throw away ${name}`, `discard ${id}`, () => tell(editor.command('discard', {id}))),
  );
  item.append(label, size, motifs(view, id), sides(view, silhouette), buttons);
  return item;
}

/** @param {View} view @param {string} id */
function motifs(view, id) {
  const list = make('p', 'motifs');
  const own = view.motifs.filter((motif) => motif.silhouette === id);
  if (!own.length) list.append('Not placed in the cell yet.');
  else list.append(make('span', '', 'In the cell:'));
  for (const motif of own) {
    const it = action(motif.name, '', `motif ${motif.id}`, () => editor.select(motif.id));
    it.classList.add('motif-pick');
    it.setAttribute('aria-pressed', String(motif.id === view.selected));
    if (motif.text) it.title = motif.text;
    list.append(it);
  }
  return list;
}

// How wide and how high a motif is: of those in the cell the selected one, else the first. One side given, the other
// goes with it.
/** @param {View} view @param {SilhouetteView} silhouette */
function sides(view, {id, width, height}) {
  const place = make('p', 'motif-size');
  const own = view.motifs.filter((motif) => motif.silhouette === id);
  const motif = own.find((each) => each.id === view.selected) ?? own[0];
  if (!motif) return place;
  place.append(make('span', '', own.length > 1 ? `${motif.name} is cut` : 'Cut'));
  for (const [side, word] of /** @type {[number, string][]} */ ([[width, 'wide'], [height, 'high']])) {
    const now = side * motif.scale;
    const label = make('label', 'count');
    const input = make('input');
    label.append(input, make('span', '', word));
    place.append(label);
    const field = new NumberField(input, 'length', (value) => {
      if (!(value > 0)) return 'A silhouette is wider and higher than nothing; give a length above 0.';
      input.defaultValue = input.value; // what was typed is said, and what comes of it is shown
      return editor.command('size', {id: motif.id, values: {factor: value / now}});
    });
    field.show(now, view.units);
    input.addEventListener('keydown', ({key}) => {
      if (key === 'Escape') field.revert(now, view.units);
    });
    input.defaultValue = input.value;
    input.dataset.key = `${word} ${id}`;
    input.title = 'In either unit, as 4 in or 10 cm. The other side keeps the proportion.';
  }
  return place;
}

// The outline as the editor draws it: SVG path data in mm, y down, from the upper left of the silhouette.
/** @param {SilhouetteView} silhouette */
function thumb({path, width, height}) {
  const svg = shape('svg', {viewBox: `0 0 ${width} ${height}`, class: 'silhouette-picture', 'aria-hidden': 'true'});
  svg.append(shape('path', {d: path, 'fill-rule': 'evenodd'}));
  return svg;
}

/** @param {string} text @param {string} label @param {string} key @param {() => void} run */
function action(text, label, key, run) {
  const it = button('plain small', text, run);
  if (label) it.setAttribute('aria-label', label);
  it.dataset.key = key;
  return it;
}
