// The page of keys, made from the editor's own table of actions.

import {editor} from './bridge.mjs';
import {byId, make, pressed} from './dom.mjs';

const dialog = byId('keys', HTMLDialogElement);
const body = byId('keys-body');

/** @typedef {{label: string, keys: string[]}} Keyed */

const hands = [
  ['Drag a copy', 'it moves, and the whole field follows'],
  ['Drag a handle', 'it turns or grows'],
  ['Drag a corner of the cell', 'the cell changes its size or shape'],
  ['Drag the table, or any place with Space or the middle button', 'the view moves'],
  ['Turn the wheel, or pinch', 'closer or further'],
  ['Stay on a button or a sign with a finger', 'it says what it is'],
  ['Escape, or the browser’s way back', 'what was opened last closes'],
  ['Drop a file on the page', 'a draft opens, a drawing is traced'],
];

// Keys the page itself hears.
const own = [
  {label: 'Save the draft', keys: ['Ctrl+S']},
  {label: 'Open a file', keys: ['Ctrl+O']},
  {label: 'These keys', keys: ['?']},
];

export function bindHelp() {
  pressed('help', showHelp);
}

export function showHelp() {
  if (!body.children.length) fill();
  dialog.showModal();
}

function fill() {
  /** @type {Map<string, Keyed[]>} */
  const sets = new Map();
  for (const action of editor.actions()) {
    const {label, keys, group: name = ''} = action;
    if (!keys?.length) continue;
    sets.set(name || 'Other', [...(sets.get(name || 'Other') ?? []), {label, keys}]);
  }
  const rest = own.filter((each) => ![...sets.values()].flat().some((action) => action.keys.includes(each.keys[0])));
  body.append(section('By hand', hands.map(([what, does]) => pair([text(what)], does))));
  for (const [name, actions] of sets) body.append(section(name, actions.map(keyed)));
  if (rest.length) body.append(section('The page', rest.map(keyed)));
}

/** @param {Keyed} row */
function keyed({label, keys}) {
  return pair(keys.flatMap((key, i) => (i ? [text(' or '), cap(key)] : [cap(key)])), label);
}

/** @param {string} name @param {HTMLElement[]} rows */
function section(name, rows) {
  const part = make('section');
  const list = make('dl');
  list.append(...rows);
  part.append(make('h3', '', name[0].toUpperCase() + name.slice(1)), list);
  return part;
}

/** @param {Node[]} what @param {string} does */
function pair(what, does) {
  const row = make('div');
  const term = make('dt');
  term.append(...what);
  row.append(term, make('dd', '', does));
  return row;
}

/** @param {string} key */
function cap(key) {
  return make('kbd', '', names[key] ?? key);
}

/** @type {Record<string, string>} */
const names = {ArrowLeft: '←', ArrowRight: '→', ArrowUp: '↑', ArrowDown: '↓', ' ': 'Space', '-': '−'};

/** @param {string} words */
function text(words) {
  return document.createTextNode(words);
}
