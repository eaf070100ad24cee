// The strip under the panel: what is in hand, by its name, and its place by numbers: a motif's, or a subject's.

import {editor} from './bridge.mjs';
import {byId, every, pressed} from './dom.mjs';
import {tell} from './notices.mjs';

const FRONT = 'subject:'; // before a subject's id in the list of what may be taken up

const form = byId('hand');
const chosen = byId('hand-motif', HTMLSelectElement);
const fields = byId('hand-fields', HTMLFieldSetElement);
const silhouette = byId('hand-silhouette', HTMLSelectElement);
const mirrored = byId('hand-mirrored', HTMLInputElement);
const opener = byId('hand-open');

/** @type {View | undefined} */
let view;

export function bindHand() {
  form.addEventListener('submit', (event) => event.preventDefault());
  chosen.addEventListener('change', () => take(chosen.value));
  silhouette.addEventListener('change', () => {
    tell(editor.command('swap', {id: view?.selected, text: silhouette.value}));
  });
  mirrored.addEventListener('change', () => tell(editor.mirrorHeld()));
  pressed('hand-another', () => tell(editor.act('another')));
  pressed('hand-mirror-another', () => tell(editor.act('another-mirrored')));
  pressed('hand-onto', () => tell(editor.act('onto')));
  pressed('hand-remove', () => {
    tell(editor.act(view?.subject ? 'remove-subject' : 'take-out'));
    chosen.focus();
  });
  opener.addEventListener('click', () => {
    const open = form.classList.toggle('open');
    opener.setAttribute('aria-expanded', String(open));
  });
}

// Takes up what the list names; '' lets go.
/** @param {string} value */
function take(value) {
  if (value.startsWith(FRONT)) editor.subject(value.slice(FRONT.length));
  else if (value) editor.select(value);
  else {
    editor.subject('');
    tell(editor.act('deselect'));
  }
}

/** @param {View} next */
export function renderHand(next) {
  view = next;
  const {held, motifs, subjects, silhouettes, selected, subject} = next;
  const other = held.kind === 'tie' || held.kind === 'swatch'; // not to be taken up here, but named
  const none = ['', other ? held.name : motifs.length ? 'nothing' : 'none yet'];
  const rows = [none, ...motifs.map(({id, name}) => [id, name]), ...subjects.map(({id, name}) => [FRONT + id, name])];
  options(chosen, rows, subject ? FRONT + subject : selected);
  options(silhouette, silhouettes.map((each) => [each.id, each.name]), '');
  const motif = subject ? undefined : motifs.find((each) => each.id === selected);
  const front = subjects.find(({id}) => id === subject);
  fields.disabled = !motif && !front;
  form.classList.toggle('empty', fields.disabled);
  chosen.disabled = !motifs.length && !subjects.length;
  silhouette.value = motif?.silhouette ?? '';
  mirrored.checked = Boolean((front ?? motif)?.mirrored);
  for (const only of every(form, '#hand-silhouette, #hand-another, #hand-mirror-another, #hand-onto')) {
    only.toggleAttribute('disabled', !motif);
  }
  const fact = motif && !motif.offers.length ? motif.text : ''; // an offer has a card of its own
  byId('hand-line').textContent = held.kind ? [held.which, fact].filter(Boolean).join('. ')
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
