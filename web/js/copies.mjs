// The copies on the panel as a list that can be walked, a page at a time, and what moves, turns, scales and mirrors the
// copy or the subject in hand as fields and buttons: all that a drag does, without one.

import {editor} from './bridge.mjs';
import {button, byId, every, make, pressed, within} from './dom.mjs';
import {NumberField} from './fields.mjs';
import {say, tell} from './notices.mjs';
/** @import {Kind} from './units.mjs' */
import {kindNamed, measure, write} from './units.mjs';

const PAGE = 12; // rows of copies on a page

const opener = byId('copies-open');
const panel = byId('copies');
const held = byId('copies-held');
const moves = byId('copies-moves', HTMLFieldSetElement);
const list = byId('copies-list');
const count = byId('copies-count');
const before = byId('copies-before', HTMLButtonElement);
const after = byId('copies-after', HTMLButtonElement);
const narrow = matchMedia('(max-width: 820px)'); // there the list lies over what stands below the panel

/** @typedef {'x' | 'y' | 'turn' | 'scale'} Measure */

/** @type {View | undefined} */
let view;
let from = 0;
let shown = ''; // what the list was made of
let taken = ''; // the copy in hand when it was
/** @type {Map<Measure, NumberField>} */
const fields = new Map();
const by = {move: 1, turn: 1}; // mm and degrees that a press moves and turns
/** @type {[keyof typeof by, NumberField][]} */
const steps = [];

export function bindCopies() {
  pressed('copies-open', () => open(panel.hidden));
  pressed('copies-close', shut);
  pressed('copies-before', () => turnTo(from - PAGE));
  pressed('copies-after', () => turnTo(from + PAGE));
  panel.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    shut();
  });
  panel.addEventListener('focusout', ({relatedTarget}) => {
    if (narrow.matches && relatedTarget instanceof Element && !panel.contains(relatedTarget)) open(false);
  });
  for (const input of every(moves, '[data-held]', HTMLInputElement)) {
    const name = /** @type {Measure} */ (input.dataset.held);
    const kind = kindNamed(input.dataset.unit);
    fields.set(name, new NumberField(input, kind, (value) => done(editor.placeHeld(name, value))));
  }
  for (const [name, kind] of /** @type {[keyof typeof by, Kind][]} */ ([['move', 'length'], ['turn', 'angle']])) {
    steps.push([name, new NumberField(byId(`copies-by-${name}`, HTMLInputElement), kind, (value) => {
      if (!(value > 0)) return 'Type a number above nought.';
      by[name] = value;
      return '';
    })]);
  }
  moves.addEventListener('click', (event) => {
    const way = within(event, '[data-way]')?.dataset.way;
    if (way) tell(done(step(way)));
  });
}

// Has the editor draw what was done, and passes on what it said.
/** @param {string} sentence */
function done(sentence) {
  globalThis.openworkWake();
  return sentence;
}

/** @param {boolean} yes */
function open(yes) {
  panel.hidden = !yes;
  opener.setAttribute('aria-expanded', String(yes));
  const now = editor.view();
  if (!yes || !now) return;
  shown = taken = '';
  from = -1; // the page of the copy in hand
  renderCopies(now);
}

function shut() {
  open(false);
  (opener.checkVisibility() ? opener : byId('bench')).focus({preventScroll: true});
}

/** @param {number} first */
function turnTo(first) {
  from = Math.max(0, first);
  shown = '';
  if (view) renderCopies(view);
}

// One press of a button: a step to a side, a turn, a hundredth larger or smaller, or the other way round.
/** @param {string} way */
function step(way) {
  const {held: it} = view ?? {};
  if (!it) return '';
  switch (way) {
    case 'left': return editor.placeHeld('x', it.x - by.move);
    case 'right': return editor.placeHeld('x', it.x + by.move);
    case 'down': return editor.placeHeld('y', it.y - by.move);
    case 'up': return editor.placeHeld('y', it.y + by.move);
    case 'to-left': return editor.placeHeld('turn', it.turn + by.turn);
    case 'to-right': return editor.placeHeld('turn', it.turn - by.turn);
    case 'smaller': return editor.placeHeld('scale', it.scale / 1.01);
    case 'larger': return editor.placeHeld('scale', it.scale * 1.01);
    default: return editor.mirrorHeld();
  }
}

/** @param {View} next */
export function renderCopies(next) {
  view = next;
  if (panel.hidden) return;
  if (next.pen.open) return open(false); // the panel is put away
  if (next.inHand) return; // the list is made when the hand rests
  const {held: it, units} = next, placed = it.kind === 'copy' || it.kind === 'subject';
  say(held, it.kind ? `In hand: ${it.name}, ${it.which}${placed ? `; at ${place(it)}` : ''}.`
    : 'Nothing is in hand. Press one below.');
  moves.disabled = !placed;
  for (const [name, field] of fields) field.show(placed ? it[name] : null, units);
  for (const [name, field] of steps) field.show(by[name], units);
  const name = it.kind === 'copy' ? keyOf(it.copy) : it.kind;
  if (name !== taken && it.kind === 'copy' && !rowOf(it.copy)) {
    from = -1;
    shown = '';
  }
  taken = name;
  const subjects = next.subjects.map((each) => each.name);
  const key = () => JSON.stringify([next.revision, from, units, name, next.subject, subjects]);
  if (key() === shown) return;
  renderList(next);
  shown = key(); // the page may be another now
}

/** @param {View} now */
function renderList(now) {
  const page = editor.copies(from, PAGE) ?? {total: 0, from: 0, rows: []};
  from = page.from;
  const active = document.activeElement;
  const focused = active instanceof HTMLElement && list.contains(active) ? active.dataset.key : undefined;
  const rows = page.rows.map(copyRow);
  if (!from) rows.unshift(...now.subjects.map((subject) => subjectRow(subject, now.subject)));
  list.replaceChildren(...rows);
  if (focused !== undefined) (rowCalled(focused) ?? list.querySelector('button') ?? opener).focus();
  const last = from + page.rows.length;
  const total = page.total.toLocaleString('en-GB');
  say(count, page.total ? `Copies ${from + 1}–${last} of ${total}` : 'No copies on the panel');
  before.disabled = from === 0;
  after.disabled = last >= page.total;
}

/** @param {CopyRow} it */
function copyRow({copy, name, which, x, y, cut, held: inHand}) {
  const words = `${which}${cut ? ', cut off' : ''}`;
  return row({name, at: {x, y}, words, inHand, key: keyOf(copy)}, () => tell(editor.holdCopy(copy)));
}

/** @param {SubjectView} subject @param {string} chosen */
function subjectRow({id, name, x, y}, chosen) {
  const it = {name, at: {x, y}, words: 'subject', inHand: id === chosen, key: `subject ${id}`};
  return row(it, () => editor.subject(id));
}

/**
 * A row that takes something up.
 * @param {{name: string, at: {x: number, y: number}, words: string, inHand: boolean, key: string}} what
 * @param {() => void} take
 */
function row({name, at, words, inHand, key}, take) {
  const item = make('li');
  const it = button('copy-row', '', () => {
    take();
    globalThis.openworkWake();
  });
  it.append(make('b', '', name), ' ', make('span', '', `at ${place(at)}`), ' ', make('span', 'hint', words));
  it.setAttribute('aria-pressed', String(inHand));
  it.dataset.key = key;
  item.append(it);
  return item;
}

/** @param {{x: number, y: number}} it */
function place({x, y}) {
  const units = view?.units ?? 'mm';
  return `${write(x, 'length', units)}, ${measure(y, units)}`;
}

/** @param {CopyName} copy */
const keyOf = ({motif, op, cell}) => `copy ${motif} ${op} ${cell.join(' ')}`;

/** @param {CopyName} copy */
const rowOf = (copy) => rowCalled(keyOf(copy));

/** @param {string} key */
function rowCalled(key) {
  return every(list, `[data-key="${CSS.escape(key)}"]`)[0];
}
