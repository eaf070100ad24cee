// Drafts to look at and to take apart, which the empty bench offers: each opens in one press.

import {editor} from './bridge.mjs';
import {button, byId, make} from './dom.mjs';
import {alarm, note} from './notices.mjs';

/** @type {[string, string][]} */
const scenes = [
  ['demo.openwork.json', 'Herons over carp'],
  ['scene-heron-before-carp.openwork.json', 'The heron before its carp'],
  ['scene-counterchange.openwork.json', 'Carp, counterchanged in two colours'],
  ['scene-six-fold.openwork.json', 'Leaves, six-fold in three colours'],
];

// A row of buttons, one for each.
export function sceneButtons() {
  const row = make('p', 'scenes');
  row.append(make('span', '', 'Or begin with'), ...scenes.map(([file, label]) => {
    const it = button('plain edged', label, () => open(file));
    it.dataset.scene = file;
    return it;
  }));
  return row;
}

/** @param {string} file */
async function open(file) {
  try {
    const response = await fetch(file);
    if (!response.ok) throw new Error(String(response.status));
    const sentence = editor.open(await response.text());
    if (sentence) alarm(sentence);
    else {
      byId('bench').focus({preventScroll: true}); // the buttons are gone
      note('Undo brings back what was open before.');
    }
  } catch {
    alarm('This copy of the page has no such draft, or cannot reach it. Try again.');
  }
}
