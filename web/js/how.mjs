// The page that says how the seventeen patterns work: three sentences to each, and its picture with the person's own
// silhouettes, drawn anew whenever the page is opened after a change.

import {editor} from './bridge.mjs';
import {byId, every, find, make, within} from './dom.mjs';
/** @import {Lane} from './engine.mjs' */
import {Superseded} from './engine.mjs';
import {signs} from './groups.mjs';
import {addressesOf, letGo, showPicture} from './pictures.mjs';

const dialog = byId('how', HTMLDialogElement);
const body = byId('how-body');
const lack = byId('how-lack');

// The lattice families in the Tables' order, and what their cells look like.
const families = [
  ['oblique', 'Oblique', 'Any two sides at any angle will do.'],
  ['rectangular', 'Rectangular', 'The sides stand at a right angle and may differ.'],
  ['square', 'Square', 'The sides are equal and stand at a right angle.'],
  ['hexagonal', 'Hexagonal', 'The sides are equal and stand at 120°, so that the cell is two equal-sided triangles.'],
];

/** @type {Lane | null} */
let lane = null;
let drawn = -1; // serial of the pictures that are shown
/** @type {Map<string, string>} */
let urls = new Map(); // of the pictures, by symbol

export function bindHow() {
  document.addEventListener('click', (event) => {
    if (within(event, '[data-how]')) showHow();
  });
}

// From now on the pictures may be drawn, by the lane of the engine.
/** @param {Lane} engineLane */
export function drawHow(engineLane) {
  lane = engineLane;
}

function showHow() {
  every(document, 'dialog[open]', HTMLDialogElement)[0]?.close();
  if (!body.querySelector('.how-family')) fill();
  const group = editor.view()?.repeat.group;
  for (const item of every(body, '.how-group')) {
    const yours = item.dataset.symbol === group;
    item.classList.toggle('yours', yours);
    find(item, '.how-yours').hidden = !yours;
  }
  dialog.showModal();
  body.scrollTop = 0;
  draw();
}

function fill() {
  const groups = editor.groups();
  for (const [family, name, cell] of families) {
    const part = make('section', 'how-family');
    const title = make('h3', '', name);
    const line = make('p', 'hint', cell);
    const list = make('div', 'how-list');
    list.append(...groups.filter((group) => group.family === family).map(item));
    part.append(title, line, list);
    body.append(part);
  }
}

/** @param {GroupCard} group */
function item(group) {
  const it = make('article', 'how-group');
  it.dataset.symbol = group.symbol;
  const picture = make('span', 'group-picture');
  picture.append(make('span'));
  const name = make('h4');
  name.append(make('b', '', group.symbol), make('span', 'orbifold', signs(group.orbifold)));
  if (group.older && group.older !== group.symbol) name.append(make('span', 'how-older', `older: ${group.older}`));
  name.append(make('span', 'how-yours', 'yours now'));
  const words = make('div', 'how-words');
  words.append(name, ...group.about.map((sentence) => make('p', 'how-sentence', sentence.replaceAll("'", '’'))));
  it.append(picture, words);
  return it;
}

async function draw() {
  const view = editor.view();
  if (!view) return;
  const serial = view.pictures;
  lack.hidden = view.motifs.length > 0;
  if (serial === drawn || !lane) return;
  const box = find(body, '.group-picture > span').getBoundingClientRect();
  const side = Math.max(8, Math.min(1000, Math.round(box.width * (globalThis.devicePixelRatio || 1))));
  try {
    const {value, bytes} = await lane.ask('pictures', {draft: editor.save(), width: side, height: side});
    letGo(urls.values());
    urls = addressesOf(value, bytes);
    for (const card of every(body, '.how-group')) showPicture(card, urls.get(card.dataset.symbol ?? '') ?? '');
    drawn = serial;
  } catch (error) {
    if (!(error instanceof Superseded)) return; // the words remain
    if (dialog.open) draw(); // newer small pictures came between
  }
}
