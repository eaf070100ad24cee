// The step Subject: what stands in front of the pattern. The numbers are fields (fields.mjs) of the subject taken up;
// while the step is open the pointer and the keys on the panel move that subject.

import {bring} from './bring.mjs';
import {editor} from './bridge.mjs';
import {button, byId, every, make, pressed, sentenceOf, valueOf} from './dom.mjs';
import {tell} from './notices.mjs';
import {measure, write} from './units.mjs';

const list = byId('subjects');
const one = byId('subject-one');
const made = byId('subject-of', HTMLSelectElement);
const name = byId('subject-name', HTMLInputElement);
const mirrored = byId('subject-mirrored', HTMLInputElement);
const edge = byId('subject-edge');

/** @import {Lane} from './engine.mjs' */
/** @type {Lane} */
let lane;
let read = -1; // the revision of which it was said how the figure reads

/** @type {View} */
let view;
let shown = '';

// What the engine is asked by.
/** @param {Lane} engineLane */
export function bindFigure(engineLane) {
  lane = engineLane;
  pressed('figure-look', look);
}

// Asks how the subjects read before the field, says it, and has the places ringed where edges run beside each other.
async function look() {
  const {revision, units} = view;
  const place = byId('figure-said');
  place.replaceChildren(make('li', '', 'Looking…'));
  try {
    const colour = byId('figure-colour', HTMLInputElement).value;
    const {value} = await lane.ask('figure', {draft: editor.save(), colour, units});
    if (view.revision !== revision) return;
    read = revision;
    place.replaceChildren(...value.flatMap(({said}) => said).map((sentence) => make('li', '', sentence)));
    place.scrollIntoView({block: 'nearest'});
    editor.tangents(revision, value.flatMap(({tangents}) => tangents));
  } catch (error) {
    place.replaceChildren(make('li', 'wrong', sentenceOf(error)));
  }
}

export function bindSubject() {
  pressed('subject-in', () => bring(null, '', 'subject:'));
  pressed('subject-set', () => {
    tell(editor.command('subject', {id: made.value}));
    globalThis.openworkChanged();
    every(list, '[aria-pressed=true]')[0]?.focus(); // what was made
  });
  pressed('subject-outline', () => bring(null, '', `subject:${view.subject}`));
  pressed('subject-remove', () => {
    tell(editor.command('subjectRemove', {id: view.subject}));
    globalThis.openworkChanged();
    (every(list, 'button')[0] ?? byId('subject-in')).focus();
  });
  name.addEventListener('change', () => tell(editor.command('subjectName', {id: view.subject, text: name.value})));
  mirrored.addEventListener('change', () => {
    tell(editor.command('subjectMirror', {id: view.subject, flag: mirrored.checked}));
  });
  edge.addEventListener('change', (event) => {
    tell(editor.command('subjectEdge', {id: view.subject, text: valueOf(event)}));
    mark();
  });
}

/** @param {View} next */
export function renderSubject(next) {
  view = next;
  const key = JSON.stringify([view.subjects.map(({id, name, edge, note}) => [id, name, edge, note]), view.subject,
    view.silhouettes.map(({id, name}) => [id, name])]);
  if (key !== shown) {
    shown = key;
    const held = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.subject : '';
    list.replaceChildren(...view.subjects.map(row));
    if (held) every(list, `[data-subject="${CSS.escape(held)}"]`)[0]?.focus();
    const chosen = made.value;
    made.replaceChildren(...view.silhouettes.map(({id, name}) => new Option(name, id)));
    if (view.silhouettes.some(({id}) => id === chosen)) made.value = chosen;
    byId('subject-set', HTMLButtonElement).disabled = !view.silhouettes.length;
  }
  byId('figure').hidden = !view.subjects.length;
  if (read !== -1 && view.revision !== read) { // that was another draft
    read = -1;
    byId('figure-said').replaceChildren();
  }
  mark();
}

// The subject taken up.
const taken = () => view.subjects.find(({id}) => id === view.subject);

function mark() {
  const it = taken();
  one.hidden = !it;
  byId('subject-pick').hidden = Boolean(it) || !view.subjects.length;
  if (!it) return;
  if (!name.matches(':focus')) name.value = it.name;
  mirrored.checked = it.mirrored;
  for (const radio of every(edge, 'input', HTMLInputElement)) radio.checked = radio.value === it.edge;
  const size = `${write(it.width, 'length', view.units)} × ${measure(it.height, view.units)} on the panel, `
    + `${it.points} points.`;
  byId('subject-size').textContent = size;
  const note = byId('subject-note');
  note.hidden = !it.note;
  note.textContent = it.note;
}

/** @param {SubjectView} subject */
function row({id, name}) {
  const item = make('li');
  const pick = button('plain edged', name, () => editor.subject(id === view.subject ? '' : id));
  pick.setAttribute('aria-pressed', String(id === view.subject));
  pick.dataset.subject = id;
  item.append(pick);
  return item;
}
