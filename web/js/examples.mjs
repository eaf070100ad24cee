// Drafts to look at and to take apart, each with its picture: from the first screen, from the guide, and from the empty
// bench. Each opens in one press.

import {editor} from './bridge.mjs';
import {button, byId, every, make, pressed} from './dom.mjs';
import {alarm, note} from './notices.mjs';

/** @type {[file: string, picture: string, name: string, about: string][]} */
const examples = [
  ['demo.openwork.json', 'demo', 'Herons over carp', 'Two silhouettes in rows, with room to be dragged.'],
  ['scene-heron-before-carp.openwork.json', 'scene-heron-before-carp', 'The heron before its carp',
    'A subject in front of a field that runs on behind it.'],
  ['scene-counterchange.openwork.json', 'scene-counterchange', 'Carp, counterchanged in two colours',
    'Every other row the other way, and in the other colour.'],
  ['scene-six-fold.openwork.json', 'scene-six-fold', 'Leaves, six-fold in three colours',
    'Turned by sixths round points, with three plates.'],
];

const dialog = byId('examples', HTMLDialogElement);
const opener = byId('examples-open');

let ready = false; // the bench is set up, and the pictures may be fetched

// Once the bench is set up.
export function bindExamples() {
  ready = true;
  for (const image of every(document, 'img[data-picture]', HTMLImageElement)) load(image);
  pressed('examples-open', showExamples);
  opener.append(...examples.map(([, name]) => picture(name)));
}

/** @param {View} view */
export function renderExamples({demonstrates, pen}) {
  opener.hidden = !demonstrates || pen.open || !opener.querySelector('img');
}

export function showExamples() {
  const list = byId('examples-list');
  if (!list.children.length) {
    list.append(...examples.map(([file, name, label, about]) => {
      const item = make('li');
      const it = button('plain edged', '', () => open(file));
      it.dataset.scene = file;
      it.append(picture(name), make('b', '', label), make('span', 'hint', about));
      item.append(it);
      return item;
    }));
  }
  dialog.showModal();
}

// A row of buttons, one for each, for the empty bench.
export function exampleButtons() {
  const row = make('p', 'scenes');
  row.append(make('span', '', 'Or begin with'), ...examples.map(([file, name, label]) => {
    const it = button('plain edged', '', () => open(file));
    it.dataset.scene = file;
    it.append(picture(name), make('span', '', label));
    return it;
  }));
  return row;
}

/** @param {string} name */
function picture(name) {
  const image = make('img');
  Object.assign(image, {alt: '', width: 60, height: 90, decoding: 'async'});
  image.dataset.picture = name;
  if (ready) load(image);
  return image;
}

/** @param {HTMLImageElement} image */
function load(image) {
  image.src = `pictures/${image.dataset.picture}.svg`;
}

/** @param {string} file */
async function open(file) {
  dialog.close();
  try {
    const response = await fetch(file);
    if (!response.ok) throw new Error(String(response.status));
    const sentence = editor.open(await response.text());
    if (sentence) alarm(sentence);
    else note('Undo brings back what was open before.');
  } catch {
    alarm('This copy of the page has no such draft, or cannot reach it. Try again.');
  }
}
