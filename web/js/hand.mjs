// The strip under the panel: which motif is in hand, and its place by numbers.

import {editor} from './bridge.mjs';
import {byId, pressed} from './dom.mjs';
import {tell} from './notices.mjs';
import {write} from './units.mjs';

const form = byId('hand');
const motif = byId('hand-motif', HTMLSelectElement);
const fields = byId('hand-fields', HTMLFieldSetElement);
const silhouette = byId('hand-silhouette', HTMLSelectElement);
const mirrored = byId('hand-mirrored', HTMLInputElement);
const opener = byId('hand-open');

let selected = '';

export function bindHand() {
  form.addEventListener('submit', (event) => event.preventDefault());
  motif.addEventListener('change', () => (motif.value ? editor.select(motif.value) : tell(editor.act('deselect'))));
  silhouette.addEventListener('change', () => tell(editor.command('swap', {id: selected, text: silhouette.value})));
  mirrored.addEventListener('change', () => tell(editor.command('mirror', {id: selected, flag: mirrored.checked})));
  pressed('hand-another', () => tell(editor.act('another')));
  pressed('hand-mirror-another', () => tell(editor.act('another-mirrored')));
  pressed('hand-onto', () => tell(editor.act('onto')));
  pressed('hand-remove', () => {
    tell(editor.act('take-out'));
    motif.focus();
  });
  opener.addEventListener('click', () => {
    const open = form.classList.toggle('open');
    opener.setAttribute('aria-expanded', String(open));
  });
}

/** @param {View} view */
export function renderHand(view) {
  selected = view.selected;
  const none = ['', view.motifs.length ? 'nothing' : 'none yet'];
  options(motif, [none, ...view.motifs.map((each) => [each.id, each.name])], selected);
  options(silhouette, view.silhouettes.map((each) => [each.id, each.name]), '');
  const held = view.motifs.find((each) => each.id === selected);
  fields.disabled = !held;
  form.classList.toggle('empty', !held);
  motif.disabled = !view.motifs.length;
  silhouette.value = held?.silhouette ?? '';
  mirrored.checked = Boolean(held?.mirrored);
  const unit = view.units;
  /** @param {number} mm */
  const place = (mm) => write(mm, 'length', unit);
  const fact = held && !held.offers.length ? held.text : ''; // an offer has a card of its own
  byId('hand-line').textContent = held
    ? fact || `${place(held.x)}, ${place(held.y)} ${unit}, ${write(held.turn, 'angle', unit)}°`
    : 'Press a copy to take it up';
}

// Sets a select's options only when they changed, so that an open list is left alone.
/** @param {HTMLSelectElement} select @param {string[][]} rows @param {string} value */
function options(select, rows, value) {
  const key = JSON.stringify(rows);
  if (select.dataset.rows !== key) {
    select.dataset.rows = key;
    select.replaceChildren(...rows.map(([id, name]) => new Option(name, id)));
  }
  select.value = value;
}
