// The page of keys, made from the editor's own table of actions.

import {editor} from './bridge.mjs';

const dialog = document.getElementById('keys');
const body = document.getElementById('keys-body');

const hands = [
  ['Drag a copy', 'it moves, and the whole field follows'],
  ['Drag a handle', 'it turns or grows'],
  ['Drag a corner of the cell', 'the cell changes its size or shape'],
  ['Drag the table, or any place with Space or the middle button', 'the view moves'],
  ['Turn the wheel, or pinch', 'closer or further'],
  ['Drop a file on the page', 'a draft opens, a drawing is traced'],
];

// Keys the page itself hears.
const own = [
  {label: 'Save the draft', keys: ['Ctrl+S']},
  {label: 'Open a file', keys: ['Ctrl+O']},
  {label: 'These keys', keys: ['?']},
];

export function bindHelp() {
  document.getElementById('help').addEventListener('click', showHelp);
}

export function showHelp() {
  if (!body.children.length) fill();
  dialog.showModal();
}

function fill() {
  const sets = new Map();
  for (const action of editor.actions()) {
    if (!action.keys?.length) continue;
    const name = action.group || 'Other';
    if (!sets.has(name)) sets.set(name, []);
    sets.get(name).push(action);
  }
  const rest = own.filter((each) => ![...sets.values()].flat().some((action) => action.keys.includes(each.keys[0])));
  body.append(section('By hand', hands.map(([what, does]) => pair([text(what)], does))));
  for (const [name, actions] of sets) body.append(section(name, actions.map(keyed)));
  if (rest.length) body.append(section('The page', rest.map(keyed)));
}

function keyed({label, keys}) {
  return pair(keys.flatMap((key, i) => (i ? [text(' or '), cap(key)] : [cap(key)])), label);
}

function section(name, rows) {
  const part = document.createElement('section');
  const title = document.createElement('h3');
  title.textContent = name[0].toUpperCase() + name.slice(1);
  const list = document.createElement('dl');
  list.append(...rows);
  part.append(title, list);
  return part;
}

function pair(what, does) {
  const row = document.createElement('div');
  const term = document.createElement('dt');
  const meaning = document.createElement('dd');
  term.append(...what);
  meaning.textContent = does;
  row.append(term, meaning);
  return row;
}

function cap(key) {
  const it = document.createElement('kbd');
  it.textContent = names[key] ?? key;
  return it;
}

const names = {ArrowLeft: '←', ArrowRight: '→', ArrowUp: '↑', ArrowDown: '↓', ' ': 'Space', '-': '−'};

function text(words) {
  return document.createTextNode(words);
}
